package folder

import (
	"errors"
	"syscall"
)

// lock is held by one process at a time and ends with it.
type lock struct{ handle syscall.Handle }

// sharingViolation is ERROR_SHARING_VIOLATION of the Windows API.
const sharingViolation = syscall.Errno(32)

// take takes a lock by the name of a file, which is made: open for nobody else.
// busy when another process has it.
func take(name string) (l lock, busy bool, err error) {
	path, err := syscall.UTF16PtrFromString(name)
	if err != nil {
		return lock{}, false, err
	}
	const shared = 0 // with nobody
	h, err := syscall.CreateFile(path, syscall.GENERIC_READ|syscall.GENERIC_WRITE, shared, nil,
		syscall.OPEN_ALWAYS, syscall.FILE_ATTRIBUTE_NORMAL, 0)
	if errors.Is(err, sharingViolation) {
		return lock{}, true, nil
	}
	return lock{h}, false, err
}

func (l lock) release() { syscall.CloseHandle(l.handle) }
