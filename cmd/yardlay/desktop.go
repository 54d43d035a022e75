package main

import (
	"io"
	"os"
	"path/filepath"
)

// fromDesktop returns the command line of a program that was started without one by a
// double click: to show the jobs of the folder that it runs in, or of its owner's own
// folder where a desktop starts programs at the root. false where someone may have typed
// it, or no desktop can show a page.
func fromDesktop(stdin io.Reader, stdout, stderr io.Writer) (args []string, ok bool) {
	in, _ := stdin.(*os.File)
	if !hasDesktop() || !ownConsole() && (onTerminal(in) || onTerminal(stdout) || onTerminal(stderr)) {
		return nil, false
	}
	dir, err := os.Getwd()
	root := filepath.VolumeName(dir) + string(filepath.Separator)
	if home, bad := os.UserHomeDir(); bad == nil && (err != nil || dir == root) {
		dir = home
	}
	return []string{openCommand.name, dir, "--while-open", "10m"}, true
}

// onTerminal says whether someone at a terminal reads or writes there.
func onTerminal(stream any) bool {
	f, ok := stream.(*os.File)
	if !ok || f == nil || !isTerminal(f) {
		return false
	}
	info, err := f.Stat()
	null, bad := os.Stat(os.DevNull) // a device too
	return err != nil || bad != nil || !os.SameFile(info, null)
}
