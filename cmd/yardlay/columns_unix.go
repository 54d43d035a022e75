//go:build linux || darwin

package main

import (
	"os"
	"syscall"
	"unsafe"
)

// columnsOf asks a terminal how many letters it holds in a line; 0 when it does
// not say.
func columnsOf(f *os.File) int {
	var size struct{ rows, columns, x, y uint16 }
	_, _, errno := syscall.Syscall(syscall.SYS_IOCTL, f.Fd(), syscall.TIOCGWINSZ, uintptr(unsafe.Pointer(&size)))
	if errno != 0 {
		return 0
	}
	return int(size.columns)
}
