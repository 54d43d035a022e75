// Package workroom finds the book of a workroom beside a job and changes it: one writer
// at a time, the whole text or nothing, and nothing but what is changed.
package workroom

import (
	"context"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"time"

	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/say"
)

// Find returns the book of the folder that a job stands in; ok is false where there is
// none.
func Find(jobFile string) (path string, ok bool) {
	path = filepath.Join(filepath.Dir(jobFile), job.WorkroomFile)
	_, err := os.Stat(path)
	return path, err == nil
}

// Read reads the book at a path. The error is a strict.Errors where its text is wrong.
func Read(path string) ([]byte, *job.Workroom, error) {
	src, err := text(path)
	if err != nil {
		return nil, nil, err
	}
	w, err := job.ReadWorkroom(path, src)
	return src, w, err
}

// text reads a plain file, a byte beyond the longest book at most.
func text(path string) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, say.Errorf("there is no %s", path).Hint("`yardlay workroom --new` writes one to start from")
	case err != nil:
		return nil, say.Errorf("cannot read the workroom: %w", err)
	case !info.Mode().IsRegular():
		return nil, say.Errorf("%s is no plain file", path)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, say.Errorf("cannot read the workroom: %w", err)
	}
	defer f.Close()
	src, err := io.ReadAll(io.LimitReader(f, job.MaxWorkroom+1))
	if err != nil {
		return nil, say.Errorf("cannot read the workroom: %w", err)
	}
	return src, nil
}

// Change changes the book at a path. do is given the text and what it says, read when no
// other run writes, and returns the new text, which is read as strictly before it takes
// the place of the old one. Where do fails, the new text does not hold, or the disk does
// not take it, the book stays as it was. It waits for another writer as long as the context
// lasts.
func Change(ctx context.Context, path string, do func(src []byte, w *job.Workroom) ([]byte, error)) error {
	release, err := alone(ctx, path)
	if err != nil {
		return err
	}
	defer release()
	src, w, err := Read(path)
	if err != nil {
		return err
	}
	changed, err := do(src, w)
	if err != nil {
		return err
	}
	if _, err := job.ReadWorkroom(path, changed); err != nil {
		return say.Errorf("%s would not hold and stays as it was: %w", path, err)
	}
	return put(ctx, path, changed)
}

// Create writes a book where there is none.
func Create(ctx context.Context, path string, src []byte) error {
	release, err := alone(ctx, path)
	if err != nil {
		return err
	}
	defer release()
	if _, err := os.Lstat(path); err == nil {
		return say.Errorf("%s is there already and stays as it is", path)
	}
	return put(ctx, path, src)
}

// put writes the text, unless the run has ended: then nobody waits for it any more.
func put(ctx context.Context, path string, src []byte) error {
	if ctx.Err() != nil {
		return say.Errorf("%s stays as it was: %w", path, ctx.Err())
	}
	err := folder.Replace(path, src)
	if errors.Is(err, syscall.ENOSPC) {
		return say.Errorf("cannot write %s: %w", path, err).Hint("make room on that disk; what was there is as it was")
	}
	if err != nil {
		return say.Errorf("cannot write %s: %w", path, err).Hint("what was there is as it was")
	}
	return nil
}

// own is the folder within the workroom for what is no result, as package folder has it.
const own = ".yardlay"

// alone waits until no other run writes the book.
func alone(ctx context.Context, path string) (release func(), err error) {
	dir := filepath.Join(filepath.Dir(path), own)
	for {
		// the folder may be removed by who holds the lock, before this run has it
		err := os.Mkdir(dir, 0o755)
		var busy bool
		var done func()
		if err == nil || errors.Is(err, fs.ErrExist) {
			done, busy, err = folder.Hold(filepath.Join(dir, "workroom.lock"))
		}
		switch {
		case errors.Is(err, fs.ErrNotExist) && isFolder(filepath.Dir(path)):
		case err != nil:
			return nil, say.Errorf("cannot write into %s: %w", filepath.Dir(path), err).
				Hint("the workroom is as it was")
		case !busy:
			tidy(path)
			return func() {
				done()
				os.Remove(dir) // where nothing else is in it
			}, nil
		}
		select {
		case <-ctx.Done():
			return nil, say.Errorf("another run is writing %s", path).Hint("try again when it has ended")
		case <-time.After(5 * time.Millisecond):
		}
	}
}

func isFolder(name string) bool {
	info, err := os.Stat(name)
	return err == nil && info.IsDir()
}

// tidy removes what a run that was killed left unfinished: only who has the lock writes
// there.
func tidy(path string) {
	dir := filepath.Dir(path)
	entries, _ := os.ReadDir(dir)
	for _, e := range entries {
		if name := e.Name(); strings.HasPrefix(name, "."+filepath.Base(path)+".") && strings.HasSuffix(name, ".new") {
			os.Remove(filepath.Join(dir, name))
		}
	}
}
