package folder

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"sync"
	"time"

	"yardlay/shapes/say"
)

// Outcome says what became of the files in a folder.
type Outcome struct {
	Wrote    []string
	Replaced []string // of Wrote, those that an earlier run had written
	Removed  []string // of an earlier run: this one does not make them
	Kept     []string // likewise, but changed since: they stay
}

// Write makes the files of sets, by name, what stands in the folder: all of them,
// in place of what an earlier run wrote of the same sets, or none, and then the
// folder is as it was. Sets that are not among these stay.
func (f *Folder) Write(sets map[string][]File) (Outcome, error) {
	ctx, done := context.WithTimeout(context.Background(), longestWrite)
	defer done()
	var out Outcome
	err := f.alone(ctx, func() error {
		known, err := f.readList()
		if err != nil {
			return err
		}
		var moves []move
		if moves, out, err = f.moves(known, sets); err != nil {
			return err
		}
		return f.commit(moves)
	})
	if err != nil {
		return Outcome{}, err
	}
	return out, nil
}

// longestWrite is how long to wait for another run that is writing: on a slow disk
// that takes a second or two.
const longestWrite = 20 * time.Second

// move is a file of the folder that is put there, replaced or removed.
type move struct {
	Name string // in the folder
	Had  bool   // a file is there
	Sum  string // of the new file; "" when it is removed
	data []byte
}

// moves plans a write, the list last.
func (f *Folder) moves(known list, sets map[string][]File) ([]move, Outcome, error) {
	var moves []move
	var out Outcome
	taken := map[string]bool{}
	for _, set := range slices.Sorted(maps.Keys(sets)) {
		now := map[string]string{}
		for _, file := range sets[set] {
			if err := f.mine(known, set, file.Name); err != nil {
				return nil, out, err
			}
			if taken[file.Name] {
				return nil, out, fmt.Errorf("two files of one run are called %s", file.Name)
			}
			taken[file.Name] = true
			now[file.Name] = sumOfData(file.Data)
			out.Wrote = append(out.Wrote, file.Name)
			m := move{Name: file.Name, Sum: now[file.Name], data: file.Data}
			if _, err := os.Lstat(f.path(file.Name)); err == nil {
				m.Had = true
				out.Replaced = append(out.Replaced, file.Name)
			}
			moves = append(moves, m)
		}
		for _, name := range slices.Sorted(maps.Keys(known.Sets[set])) {
			sum, there, err := sumOf(f.path(name))
			switch {
			case err != nil:
				return nil, out, f.unwritable(err)
			case now[name] != "" || !there:
			case sum == known.Sets[set][name]:
				moves = append(moves, move{Name: name, Had: true})
				out.Removed = append(out.Removed, name)
			default:
				out.Kept = append(out.Kept, name)
			}
		}
		known.Sets[set] = now
	}
	text, err := known.text()
	m := move{Name: filepath.Join(own, listName), Sum: sumOfData(text), data: text}
	if _, err := os.Lstat(f.path(m.Name)); err == nil {
		m.Had = true
	}
	return append(moves, m), out, err
}

// What is being written lies in new, what it takes the place of goes to old, both
// by the numbers of the journal, which is there as long as files are moved.
const journalName = "journal.json"

func (f *Folder) fresh(i int) string   { return f.path(own, "new", strconv.Itoa(i)) }
func (f *Folder) earlier(i int) string { return f.path(own, "old", strconv.Itoa(i)) }

// moving is held while files change places, which takes an instant.
var moving sync.Mutex

// commit writes everything beside, then moves it into place. When it fails it
// takes back what it has done; when the process is killed the next run does.
func (f *Folder) commit(moves []move) error {
	if err := f.stage(moves); err != nil {
		f.tidy()
		return f.unwritable(err)
	}
	moving.Lock()
	defer moving.Unlock()
	if err := f.place(moves); err != nil {
		return errors.Join(f.unwritable(err), f.recover())
	}
	if err := os.Remove(f.path(own, journalName)); err != nil {
		return errors.Join(f.unwritable(err), f.recover())
	}
	syncDir(f.path(own))
	f.tidy()
	return nil
}

// stage writes the new files, several at a time since each waits for the disk,
// and then the journal.
func (f *Folder) stage(moves []move) error {
	for _, dir := range []string{"new", "old"} {
		if err := os.MkdirAll(f.path(own, dir), 0o755); err != nil {
			return err
		}
	}
	errs := make([]error, len(moves))
	free := make(chan struct{}, 16)
	var all sync.WaitGroup
	for i, m := range moves {
		if m.Sum == "" {
			continue
		}
		free <- struct{}{}
		all.Go(func() {
			defer func() { <-free }()
			errs[i] = f.write(f.fresh(i), m.data)
		})
	}
	all.Wait()
	if err := errors.Join(errs...); err != nil {
		return firstOf(errs)
	}
	syncDir(f.path(own, "new"))
	text, err := json.Marshal(moves)
	if err != nil {
		return err
	}
	beside := f.path(own, "new", journalName)
	if err := f.write(beside, text); err != nil {
		return err
	}
	if err := f.rename(beside, f.path(own, journalName)); err != nil {
		return err
	}
	syncDir(f.path(own))
	return nil
}

// firstOf returns the first error: a full disk says the same of every file.
func firstOf(errs []error) error {
	return errs[slices.IndexFunc(errs, func(err error) bool { return err != nil })]
}

// place moves files out of the way and the new ones to where they belong.
func (f *Folder) place(moves []move) error {
	for i, m := range moves {
		if m.Had {
			if err := f.rename(f.path(m.Name), f.earlier(i)); err != nil {
				return err
			}
		}
		if m.Sum != "" {
			if err := f.rename(f.fresh(i), f.path(m.Name)); err != nil {
				return err
			}
		}
	}
	syncDir(f.dir)
	return nil
}

// recover takes back a write that did not end, and clears away what is left of
// one. It may itself be cut short and done again.
func (f *Folder) recover() error {
	text, err := os.ReadFile(f.path(own, journalName))
	if errors.Is(err, fs.ErrNotExist) {
		f.tidy()
		return nil
	}
	var moves []move
	if err == nil {
		err = json.Unmarshal(text, &moves)
	}
	if err != nil {
		return say.Errorf("cannot read how far a run came that ended while it wrote into %s: %w", f.dir, err).
			Hint("give --out another folder")
	}
	for i, m := range slices.Backward(moves) {
		if err := f.takeBack(i, m); err != nil {
			return f.unwritable(err)
		}
	}
	syncDir(f.dir)
	if err := os.Remove(f.path(own, journalName)); err != nil {
		return f.unwritable(err)
	}
	f.tidy()
	return nil
}

func (f *Folder) takeBack(i int, m move) error {
	if m.Had {
		err := f.rename(f.earlier(i), f.path(m.Name))
		if errors.Is(err, fs.ErrNotExist) { // it was not moved yet, or is back
			return nil
		}
		return err
	}
	_, err := os.Lstat(f.fresh(i))
	if err == nil { // not placed yet
		return nil
	}
	if sum, there, err := sumOf(f.path(m.Name)); err != nil || !there || sum != m.Sum {
		return err
	}
	return os.Remove(f.path(m.Name))
}

// tidy removes what no journal needs.
func (f *Folder) tidy() {
	os.RemoveAll(f.path(own, "new"))
	os.RemoveAll(f.path(own, "old"))
}

// writeSynced writes a file that is on the disk when it returns.
func writeSynced(name string, data []byte) error {
	file, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o644)
	if err != nil {
		return err
	}
	_, err = file.Write(data)
	if err == nil {
		err = file.Sync()
	}
	return errors.Join(err, file.Close())
}

// syncDir asks for the names in a folder to be on the disk, too. Not every system
// can do that, and then its own order has to do.
func syncDir(name string) {
	if dir, err := os.Open(name); err == nil {
		dir.Sync()
		dir.Close()
	}
}
