package main

import (
	"errors"
	"os/exec"
	"runtime"
)

// showInBrowser has the desktop open an address in the browser that its owner chose.
func showInBrowser(address string) error {
	opener := []string{"xdg-open"} // freedesktop.org, xdg-utils
	switch runtime.GOOS {
	case "darwin":
		opener = []string{"open"}
	case "windows":
		opener = []string{"rundll32", "url.dll,FileProtocolHandler"}
	default:
		if !hasDesktop() {
			return errors.New("there is no desktop")
		}
	}
	c := exec.Command(opener[0], append(opener[1:], address)...)
	if err := c.Start(); err != nil {
		return err
	}
	go c.Wait() // so that the system forgets it
	return nil
}
