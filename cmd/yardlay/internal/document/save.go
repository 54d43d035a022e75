package document

import (
	"errors"
	"io/fs"
	"os"
	"time"

	"yardlay/shapes/say"
)

// ErrChangedOnDisk is that of a text that is not saved since someone else has changed
// or removed the file: KeepMine, TakeTheirs or SaveAs settle that.
var ErrChangedOnDisk = errors.New("the file has been changed on the disk meanwhile")

// Save writes the text into the file: all of it or none.
func (d *Document) Save() (State, error) {
	d.editing.Lock()
	defer d.editing.Unlock()
	d.seen.info = nil // read it, whatever its date says
	d.look()
	if d.seen.info == nil && !d.seen.gone { // it is there, and cannot be read
		if _, err := d.read(); err != nil {
			return d.State(), err
		}
	}
	if d.seen.gone || d.seen.sum != d.base {
		d.show()
		return d.State(), ErrChangedOnDisk
	}
	return d.save()
}

// KeepMine writes the text over what someone else wrote, which is a step back then. What cannot
// be read stays as it is.
func (d *Document) KeepMine() (State, error) {
	d.editing.Lock()
	defer d.editing.Unlock()
	mine := d.past.text()
	theirs, err := d.read()
	switch {
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return d.State(), err // it could not be a step back
	case err == nil && d.seen.sum != sumOf(mine):
		d.past.push(theirs, "", d.now())
		d.past.push(mine, "", d.now())
	}
	return d.save()
}

// TakeTheirs takes over what someone else wrote, and the text is a step back then.
func (d *Document) TakeTheirs() (State, error) {
	d.editing.Lock()
	defer d.editing.Unlock()
	return d.takeTheirs()
}

func (d *Document) takeTheirs() (State, error) {
	theirs, err := d.read()
	if err != nil {
		return d.State(), err
	}
	d.base = d.seen.sum
	if d.seen.sum != sumOf(d.past.text()) {
		d.past.push(theirs, "", d.now())
	}
	return d.settled(), nil
}

// SaveAs writes the text into a new file of the folder, and goes back to what the old
// one has, where it is still there. A file that is there already is left alone.
func (d *Document) SaveAs(name string) error {
	d.editing.Lock()
	defer d.editing.Unlock()
	if err := create(d.folder, name, d.past.text(), !d.quick); err != nil {
		return err
	}
	if _, err := d.takeTheirs(); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

// Create writes a new job into a folder; one that is there is left alone.
func Create(folder *os.Root, name string, text []byte) error { return create(folder, name, text, true) }

func create(folder *os.Root, name string, text []byte, synced bool) error {
	file, err := folder.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return say.Errorf("%s is already there and stays as it is", name).Hint("give another name")
	}
	if err != nil {
		return say.Errorf("cannot write the job: %w", err)
	}
	_, err = file.Write(text)
	if err == nil && synced {
		err = file.Sync()
	}
	if err := errors.Join(err, file.Close()); err != nil {
		folder.Remove(name)
		return say.Errorf("cannot write the job: %w", err)
	}
	return nil
}

func (d *Document) save() (State, error) {
	text := d.past.text()
	if err := d.put(d.file, text, true); err != nil {
		return d.State(), say.Errorf("cannot save the job: %w", err).
			Hint("what you have is kept on the page; make room, or save it under another name")
	}
	if _, err := d.read(); err != nil {
		return d.State(), err
	}
	d.base = sumOf(text)
	return d.settled(), nil
}

// settled tells of a text that the file has.
func (d *Document) settled() State {
	d.drop()
	d.past.settle()
	d.set(func(s *State) { s.Found, s.Unkept = time.Time{}, nil })
	d.show()
	return d.State()
}
