package job

import (
	"os"
	"sync/atomic"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/measure"
)

// MaxFile is the longest job file read, in bytes: a thousand parts and more.
const MaxFile = 1 << 20

// File is a job file that has been read: all that it says, and the job that this makes.
// Its text is parsed once, and so is each file that it refers to, in however many ways
// the job is then made otherwise.
type File struct {
	name string
	root *strict.Value
	disk *disk
	job  *Job

	settled atomic.Pointer[Job]
}

// Read reads the job in src. name is the file's name for messages, and outlines
// are looked for beside it. The error, when there is one, is a strict.Errors.
func Read(name string, src []byte) (*File, error) { return read(name, src, new(disk)) }

// ReadIn reads a job as Read does, but of the files that it refers to only those in a
// folder: none beyond it, by whatever path or link. name begins with that of the folder.
func ReadIn(folder *os.Root, name string, src []byte) (*File, error) {
	return read(name, src, &disk{folder: folder})
}

func read(name string, src []byte, on *disk) (*File, error) {
	if len(src) > MaxFile {
		r := newReader(name, measure.Inch, "")
		r.Fail(strict.Position{Line: 1, Column: 1}, "a job is a few hundred lines of text",
			"the file is over %d bytes long, the most a job takes", MaxFile)
		return nil, r.Errors
	}
	if IsWorkroom(name) {
		r := newReader(name, measure.Inch, "")
		r.Fail(strict.Position{Line: 1, Column: 1}, "name one of the jobs beside it; `yardlay workroom` lists what is in it",
			"this is the book of a workroom, not a job")
		return nil, r.Errors
	}
	root, bad := fileFormat.Parse(src)
	if bad != nil {
		bad.File = name
		return nil, strict.Errors{bad}
	}
	f := &File{name: name, root: root, disk: on}
	j, wrong := f.read(root)
	if wrong != nil {
		return nil, wrong
	}
	f.job = j
	return f, nil
}

// ReadWith reads a further job as Read does. Files that jobs before it refer to, and the book of their workroom, are
// not parsed again: of a hundred jobs in a room each would read it whole.
func (f *File) ReadWith(name string, src []byte) (*File, error) { return read(name, src, f.disk) }

// Name is what messages call the file.
func (f *File) Name() string { return f.name }

// Job returns the job as it is written, with what that leaves open as it is settled.
func (f *File) Job() *Job {
	if j := f.settled.Load(); j != nil {
		return j
	}
	return f.job
}

// Settle has what the file leaves open, as where corners are cut off, be as it is in a job of it from now on.
func (f *File) Settle(j *Job) { f.settled.Store(j) }

// read makes a job of what a file says.
func (f *File) read(root *strict.Value) (*Job, strict.Errors) {
	r := newReader(f.name, measure.Inch, "")
	r.disk = f.disk
	if wrong := r.standsIn(); wrong != nil {
		return nil, wrong
	}
	j := r.job(root)
	if len(r.Errors) == 0 {
		return j, nil
	}
	wrong := r.Told()
	for _, e := range wrong {
		if e.File != f.name {
			e.At.File = e.File
		}
	}
	return nil, wrong
}
