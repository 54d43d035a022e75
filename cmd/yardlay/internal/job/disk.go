package job

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sync"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/outline"
	"yardlay/shapes/say"
)

// disk holds the files that a job refers to.
type disk struct {
	folder   *os.Root // where they have to be; nil: anywhere
	rates    memo[*strict.Value]
	rooms    memo[*Workroom]
	drawings memo[outline.Drawing]
	shapes   memo[outline.Assembly] // by file and options
}

// memo remembers what came of reading files, by their paths.
type memo[T any] struct{ known sync.Map }

// of returns what read makes of a file, which it is asked once.
func (m *memo[T]) of(path string, read func(path string) (T, error)) (T, error) {
	once, _ := m.known.LoadOrStore(path, sync.OnceValues(func() (T, error) { return read(path) }))
	return once.(func() (T, error))()
}

// within returns a path as the folder has it.
func (d *disk) within(path string) (string, error) {
	below, err := filepath.Rel(d.folder.Name(), path)
	if err != nil || !filepath.IsLocal(below) {
		return "", say.Errorf("%s is not in the folder of the job", path)
	}
	return below, nil
}

// stat says what a file is.
func (d *disk) stat(path string) (fs.FileInfo, error) {
	if d.folder == nil {
		return os.Stat(path)
	}
	below, err := d.within(path)
	if err != nil {
		return nil, err
	}
	return d.folder.Stat(below)
}

// open opens a plain file: a pipe would keep it waiting.
func (d *disk) open(path string) (*os.File, error) {
	info, err := d.stat(path)
	var at *fs.PathError
	switch {
	case errors.As(err, &at):
		return nil, say.Errorf("%s: %w", path, at.Err)
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%s is no plain file", path)
	case d.folder == nil:
		return os.Open(path)
	}
	below, err := d.within(path)
	if err != nil {
		return nil, err
	}
	return d.folder.Open(below)
}

// readDrawing reads a drawing. What is wrong with it has its path in front.
func (d *disk) readDrawing(path string) (outline.Drawing, error) { return d.readAs(path, outline.Read) }

// readFiner reads it with curves as fine as it takes where it is scaled up.
func (d *disk) readFiner(path string, chordError float64) (outline.Drawing, error) {
	return d.readAs(path, func(name string, r io.Reader) (outline.Drawing, error) {
		return outline.ReadWithin(name, r, chordError)
	})
}

func (d *disk) readAs(path string, read func(string, io.Reader) (outline.Drawing, error)) (outline.Drawing, error) {
	f, err := d.open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return outline.Drawing{}, say.Errorf("%w", err).
			Hint("put the drawing beside the job: `yardlay take %s --into JOB` adds the part for it", filepath.Base(path))
	}
	if err != nil {
		return outline.Drawing{}, err
	}
	defer f.Close()
	found, err := read(path, f)
	if err != nil {
		return outline.Drawing{}, say.Errorf("%s: %w", path, err)
	}
	return found, nil
}

// shapesIn reads a drawing into shapes.
func (d *disk) shapesIn(path string, o outline.Options) (outline.Assembly, error) {
	drawing, err := d.drawings.of(path, d.readDrawing)
	if fine, again := outline.Finer(drawing, o); err == nil && again {
		drawing, err = d.drawings.of(fmt.Sprintf("%s within %g", path, fine), func(string) (outline.Drawing, error) {
			return d.readFiner(path, fine)
		})
	}
	if err != nil {
		return outline.Assembly{}, err
	}
	return d.shapes.of(fmt.Sprintf("%s %+v", path, o), func(string) (outline.Assembly, error) {
		return outline.Assemble(drawing, o)
	})
}

// parse parses a file beside the job. What is wrong with its text is a *strict.Error
// with its place.
func (d *disk) parse(path string) (*strict.Value, error) {
	src, err := d.readWhole(path, MaxFile)
	if err != nil {
		return nil, err
	}
	root, bad := fileFormat.Parse(src)
	if bad != nil {
		bad.File = path
		return nil, bad
	}
	return root, nil
}

// readWhole reads a plain file of so many bytes at most.
func (d *disk) readWhole(path string, most int) ([]byte, error) {
	f, err := d.open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	src, err := io.ReadAll(io.LimitReader(f, int64(most)+1))
	if len(src) > most {
		return nil, fmt.Errorf("%s is longer than %d bytes", path, most)
	}
	return src, err
}
