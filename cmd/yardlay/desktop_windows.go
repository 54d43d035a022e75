package main

import (
	"syscall"
	"unsafe"
)

func hasDesktop() bool { return true }

// ownConsole says whether the console was made for this program alone, as a double click
// does, or there is none: a shell would be there too (GetConsoleProcessList of the Windows
// API counts who is attached to it).
func ownConsole() bool {
	var ids [2]uint32
	list := syscall.NewLazyDLL("kernel32.dll").NewProc("GetConsoleProcessList")
	n, _, _ := list.Call(uintptr(unsafe.Pointer(&ids[0])), uintptr(len(ids)))
	return n <= 1
}
