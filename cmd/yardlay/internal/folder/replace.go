package folder

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// Replace puts data in the place of a file, which need not be there: all of it, on the disk
// when it returns, or the file stays as it was. Errors name the file.
func Replace(name string, data []byte) error {
	if target, err := filepath.EvalSymlinks(name); err == nil {
		name = target // a link stays one
	}
	fresh, err := beside(name)
	if err != nil {
		return err
	}
	_, err = fresh.Write(data)
	if err == nil {
		err = fresh.Sync()
	}
	if err = errors.Join(err, fresh.Close()); err == nil {
		moving.Lock()
		err = os.Rename(fresh.Name(), name)
		moving.Unlock()
	}
	if err != nil {
		os.Remove(fresh.Name())
		return err
	}
	syncDir(filepath.Dir(name))
	return nil
}

// TryReplace tries that a file can be put there, and leaves nothing.
func TryReplace(name string) error {
	fresh, err := beside(name)
	if err != nil {
		return err
	}
	return errors.Join(fresh.Close(), os.Remove(fresh.Name()))
}

// beside makes a new file in the folder of another, with the rights that has.
func beside(name string) (*os.File, error) {
	mode := fs.FileMode(0o644)
	if info, err := os.Stat(name); err == nil {
		mode = info.Mode().Perm()
	}
	fresh, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+".*.new")
	if err != nil {
		return nil, err
	}
	if err := fresh.Chmod(mode); err != nil {
		return nil, errors.Join(err, fresh.Close(), os.Remove(fresh.Name()))
	}
	return fresh, nil
}
