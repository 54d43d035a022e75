//go:build linux || darwin || freebsd || netbsd || openbsd || dragonfly

package folder

import (
	"errors"
	"os"
	"syscall"
)

// lock is held by one process at a time and ends with it.
type lock struct{ file *os.File }

// take takes a lock by the name of a file, which is made; busy when another
// process, or another Folder of this one, has it.
func take(name string) (l lock, busy bool, err error) {
	for {
		file, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE, 0o644)
		if err != nil {
			return lock{}, false, err
		}
		err = syscall.Flock(int(file.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
		switch {
		case errors.Is(err, syscall.EWOULDBLOCK):
			file.Close()
			return lock{}, true, nil
		case errors.Is(err, syscall.EINTR):
			file.Close()
			continue
		case err != nil && !errors.Is(err, syscall.ENOLCK) && !errors.Is(err, syscall.ENOTSUP):
			file.Close()
			return lock{}, false, err
		} // a disk that knows no locks does without
		mine, err := file.Stat()
		if now, bad := os.Lstat(name); err == nil && bad == nil && os.SameFile(mine, now) {
			return lock{file}, false, nil
		}
		file.Close() // it was removed in between
	}
}

func (l lock) release() { l.file.Close() }
