//go:build !windows

package main

import (
	"os"
	"runtime"
)

// hasDesktop says whether there is something to show a page on: macOS has it always, others
// say where windows go (X.Org and Wayland).
func hasDesktop() bool {
	return runtime.GOOS == "darwin" || os.Getenv("DISPLAY") != "" || os.Getenv("WAYLAND_DISPLAY") != ""
}

// ownConsole says whether the terminal was made for this program alone, which cannot be
// told here.
func ownConsole() bool { return false }
