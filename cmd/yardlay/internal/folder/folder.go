// Package folder writes what a run makes into a folder, as one set: all of its
// files or none. A list of its own says which files are of which set, so that
// those of an earlier run are replaced or removed and nobody else's are touched.
package folder

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"time"

	"yardlay/shapes/say"
)

// Set is what one kind of run makes in a folder.
type Set struct {
	Name  string                 // "lay": letters, digits and -
	Makes func(name string) bool // whether a run may make a file of that name, in small letters
}

// File is a whole file in memory, to be written.
type File struct {
	Name string // in small letters, without a folder
	Data []byte
}

// Folder is open for the sets of one run. No other run writes those until it is
// closed.
type Folder struct {
	dir   string
	made  string // the topmost folder that Open made; "" for none
	sets  []Set
	locks []lock

	// Steps that can fail; tests make them.
	write  func(name string, data []byte) error
	rename func(from, to string) error
}

// own is the folder within the folder for all that is not a result: the list,
// locks, and what is being written.
const own = ".yardlay"

// Open makes the folder when it is missing, brings it into order where a run was
// killed while it wrote, and tries that files can be written. Errors say so, or
// that another run is at one of the sets, or that a file is in the way which is
// not of these sets. It waits for a run that is writing just then, as long as the
// context lasts.
func Open(ctx context.Context, dir string, sets ...Set) (*Folder, error) {
	f := &Folder{dir: dir, sets: sets, write: writeSynced, rename: os.Rename, made: firstMissing(dir)}
	if err := f.open(ctx); err != nil {
		f.Close()
		return nil, err
	}
	return f, nil
}

func (f *Folder) open(ctx context.Context) error {
	if err := os.MkdirAll(f.path(own), 0o755); err != nil {
		return say.Errorf("cannot make the folder for the output: %w", err).Hint(elsewhere)
	}
	for _, s := range f.sets {
		l, busy, err := take(f.path(own, s.Name+".lock"))
		switch {
		case err != nil:
			return f.unwritable(err)
		case busy:
			return say.Errorf("another run is at the %s files in %s", s.Name, f.dir).
				Hint("wait until it has ended, or give --out another folder")
		}
		f.locks = append(f.locks, l)
	}
	return f.alone(ctx, func() error {
		if err := f.recover(); err != nil {
			return err
		}
		if err := f.try(); err != nil {
			return f.unwritable(err)
		}
		known, err := f.readList()
		if err != nil {
			return err
		}
		return f.clear(known)
	})
}

// What helps where a folder takes no files.
const (
	elsewhere = "give --out a folder that can be written to"
	noRoom    = "make room on that disk, or give --out a folder on another; what was there is as it was"
)

func (f *Folder) unwritable(err error) error {
	hint := elsewhere
	if errors.Is(err, syscall.ENOSPC) {
		hint = noRoom
	}
	return say.Errorf("cannot write into %s: %w", f.dir, err).Hint("%s", hint)
}

// path names something in the folder.
func (f *Folder) path(names ...string) string {
	return filepath.Join(append([]string{f.dir}, names...)...)
}

// alone runs do while no other run writes into the folder or looks at its list.
func (f *Folder) alone(ctx context.Context, do func() error) error {
	for {
		l, busy, err := take(f.path(own, "lock"))
		switch {
		case err != nil:
			return f.unwritable(err)
		case !busy:
			defer l.release()
			return do()
		}
		select {
		case <-ctx.Done():
			return say.Errorf("another run is writing into %s", f.dir).Hint("try again when it has ended")
		case <-time.After(10 * time.Millisecond):
		}
	}
}

// try writes a file as large as a block of most disks, and removes it.
func (f *Folder) try() error {
	if err := os.MkdirAll(f.path(own, "new"), 0o755); err != nil {
		return err
	}
	name := f.path(own, "new", "try")
	defer os.RemoveAll(f.path(own, "new"))
	return f.write(name, make([]byte, 4096))
}

// clear looks for files in the way: those that the sets may make and that are
// there, but not as the list has them.
func (f *Folder) clear(known list) error {
	entries, err := os.ReadDir(f.dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		name := strings.ToLower(e.Name())
		for _, s := range f.sets {
			if name == own || !s.Makes(name) || name != e.Name() && !sameFile(f.path(name), f.path(e.Name())) {
				continue
			}
			if err := f.mine(known, s.Name, name); err != nil {
				return err
			}
		}
	}
	return nil
}

// mine says that a file is missing or as a set left it; else why it stays.
func (f *Folder) mine(known list, set, name string) error {
	sum, there, err := sumOf(f.path(name))
	switch {
	case err != nil:
		return f.unwritable(err)
	case !there || known.Sets[set][name] == sum && sum != "":
		return nil
	case known.Sets[set][name] != "":
		return say.Errorf("%s has been changed since it was written and stays as it is", f.path(name)).
			Hint("move it away, or give --out another folder")
	}
	return say.Errorf("%s is there already and was not written by an earlier run: it stays as it is", f.path(name)).
		Hint("move it away, or give --out another folder")
}

// sameFile says whether two names are of one file, as on a disk to which small
// and capital letters are alike.
func sameFile(a, b string) bool {
	x, err := os.Lstat(a)
	if err != nil {
		return false
	}
	y, err := os.Lstat(b)
	return err == nil && os.SameFile(x, y)
}

// Close lets other runs at the sets. A folder that Open made and nothing was
// written into is removed again.
func (f *Folder) Close() {
	unused := func() bool {
		_, err := os.Lstat(f.path(own, listName))
		return errors.Is(err, fs.ErrNotExist)
	}
	for i, l := range f.locks {
		if unused() {
			os.Remove(f.path(own, f.sets[i].Name+".lock")) // while it is held
		}
		l.release()
	}
	f.locks = nil
	if !unused() {
		return
	}
	if l, busy, err := take(f.path(own, "lock")); err == nil && !busy {
		if unused() {
			os.Remove(f.path(own, "lock"))
		}
		l.release()
	}
	os.Remove(f.path(own)) // not while another run has a lock there
	for dir := filepath.Clean(f.dir); f.made != "" && strings.HasPrefix(dir, f.made); dir = filepath.Dir(dir) {
		if os.Remove(dir) != nil || dir == f.made {
			return
		}
	}
}

// firstMissing returns the topmost folder on the way to dir that is not there.
func firstMissing(dir string) string {
	missing := ""
	for dir = filepath.Clean(dir); ; dir = filepath.Dir(dir) {
		if _, err := os.Lstat(dir); err == nil || dir == filepath.Dir(dir) {
			return missing
		}
		missing = dir
	}
}
