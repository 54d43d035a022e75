// Package document keeps a job file that is open for editing: its text and what the
// text says, the steps back and forth, and the file on the disk, which others may
// change meanwhile. Whatever happens, no text that somebody wrote is lost: what is not
// saved is kept beside the file, and a text that gives way to another one is a step
// back.
package document

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"time"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/say"
)

// Document is an open job file. It is safe for many goroutines.
type Document struct {
	folder *os.Root
	name   string // within the folder
	file   string // likewise, once links are followed
	called string // what messages call the file; outlines are looked for beside it
	free   func() // lets other programs open it
	quick  bool   // does not wait for the disk, in tests
	now    func() time.Time

	editing sync.Mutex // held by the one who changes anything of what follows
	seen    onDisk     // the file when it was looked at last
	base    sum        // of the text of the file that the edits began from
	past    history
	room    onDisk // the book of its workroom when the text was read

	mu       sync.Mutex // guards what follows, which all read
	state    State
	textFrom int           // the version since which the text is as it is
	next     chan struct{} // closed at the next version
}

// State is a document at one time. What it points to does not change.
type State struct {
	Version          int    // rises with every change of anything here
	Text             []byte // may be no job, or no TOML
	Saved            bool   // the file holds this text
	Disk             Disk   // what became of the file, where what is not saved stands against it
	CanUndo, CanRedo bool

	File   *job.File     // made of the last text that held; nil when none has yet
	Holds  bool          // File is made of this very text
	Errors strict.Errors // what is wrong with this text

	// Found is when edits were kept that an earlier run never saved: this text has them,
	// and the step back has the file.
	Found time.Time
	// Unkept says why what is not saved could not be kept beside the file; nil where it
	// is, or where there is nothing to keep.
	Unkept error
}

// Disk is what became of the file since the edits began.
type Disk int

// What became of the file.
const (
	Same    Disk = iota
	Changed      // someone else wrote another text
	Gone         // it was removed
)

// Open opens a job of a folder. Edits that an earlier run has not saved are there
// again.
func Open(folder *os.Root, name string) (*Document, error) {
	d := &Document{folder: folder, name: name, called: filepath.Join(folder.Name(), name), now: time.Now,
		next: make(chan struct{})}
	var err error
	if d.file, err = follow(folder, name); err != nil {
		return nil, err
	}
	text, err := d.read()
	if err != nil {
		return nil, err
	}
	if err := d.hold(); err != nil {
		return nil, err
	}
	d.base = d.seen.sum
	d.past.push(text, "", d.now())
	if kept, ok := d.kept(); ok && !slices.Equal(kept.text, text) {
		d.past.push(kept.text, "", d.now())
		d.base, d.state.Found = kept.base, kept.at
	} else {
		d.drop()
	}
	d.show()
	return d, nil
}

// Close lets other programs open the job. What is not saved stays beside the file.
func (d *Document) Close() {
	d.editing.Lock()
	defer d.editing.Unlock()
	d.free()
	d.tidy()
}

// State returns what the document is now.
func (d *Document) State() State {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.state
}

// Name is the name of the file in its folder.
func (d *Document) Name() string { return d.name }

// ErrStale is that of a change to a text that is not the present one any more: somebody
// else has changed it, on another page.
var ErrStale = errors.New("the job has been changed on another page meanwhile")

// Apply makes a change to the text as it stood at version base, as one step that can be
// undone. Changes that name the same field and follow each other closely are one step:
// somebody types. It fails with ErrStale, and with what change returns; then nothing
// has changed.
func (d *Document) Apply(base int, field string, change func(src []byte) ([]byte, error)) (State, error) {
	d.editing.Lock()
	defer d.editing.Unlock()
	if d.look() {
		d.show()
	}
	if now, from := d.at(); base < from || base > now {
		return d.State(), ErrStale
	}
	text, err := change(slices.Clone(d.past.text()))
	switch {
	case err != nil:
		return d.State(), err
	case len(text) > job.MaxFile:
		return d.State(), say.Errorf("the job would be over %d bytes long, the most that is taken", job.MaxFile).
			Hint("a job is a few hundred lines of text")
	case slices.Equal(text, d.past.text()):
		return d.State(), nil
	}
	d.past.push(slices.Clone(text), field, d.now())
	return d.changed(), nil
}

// at returns the present version, and the one since which the text is as it is.
func (d *Document) at() (now, text int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.state.Version, d.textFrom
}

// Undo goes a step back, if there is one.
func (d *Document) Undo() State { return d.move(-1) }

// Redo goes forth again the step that was undone last, if there is one.
func (d *Document) Redo() State { return d.move(+1) }

func (d *Document) move(by int) State {
	d.editing.Lock()
	defer d.editing.Unlock()
	if d.look() {
		d.show()
	}
	if !d.past.move(by) {
		return d.State()
	}
	return d.changed()
}

// changed tells of a new text, which is kept beside the file until it is saved.
func (d *Document) changed() State {
	unkept := d.keep()
	d.set(func(s *State) { s.Found, s.Unkept = time.Time{}, unkept })
	d.show()
	return d.State()
}

// Await returns the state once its version is above after, or the error of the context.
func (d *Document) Await(ctx context.Context, after int) (State, error) {
	for {
		d.mu.Lock()
		now, next := d.state, d.next
		d.mu.Unlock()
		if now.Version > after {
			return now, nil
		}
		select {
		case <-next:
		case <-ctx.Done():
			return now, ctx.Err()
		}
	}
}

// show makes the state of the text at hand and tells of it. Reading the text takes a
// while, in which others see the state before.
func (d *Document) show() {
	was := d.State()
	now := was
	now.Text = d.past.text()
	if was.Version == 0 || !slices.Equal(was.Text, now.Text) || d.otherRoom() {
		d.understand(&now)
	}
	text := sumOf(now.Text)
	now.Saved = text == d.seen.sum && !d.seen.gone
	switch {
	case d.seen.gone:
		now.Disk = Gone
	case d.seen.sum != d.base && !now.Saved:
		now.Disk = Changed
	default:
		now.Disk = Same
	}
	now.CanUndo, now.CanRedo = d.past.can(-1), d.past.can(+1)
	d.mu.Lock()
	defer d.mu.Unlock()
	now.Version++
	if was.Version == 0 || !slices.Equal(was.Text, now.Text) {
		d.textFrom = now.Version
	}
	d.state = now
	close(d.next)
	d.next = make(chan struct{})
}

// understand reads the text of a state.
func (d *Document) understand(s *State) {
	s.Holds, s.Errors = false, nil
	d.room = d.roomNow()
	file, err := job.ReadIn(d.folder, d.called, s.Text)
	if err == nil {
		s.File, s.Holds = file, true
	} else if !errors.As(err, &s.Errors) {
		s.Errors = strict.Errors{{File: d.called, At: strict.Position{Line: 1, Column: 1}, What: err.Error(), Cause: err}}
	}
}

// set changes the state without telling of it.
func (d *Document) set(change func(*State)) {
	d.mu.Lock()
	defer d.mu.Unlock()
	change(&d.state)
}
