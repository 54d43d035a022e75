package folder

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"yardlay/shapes/say"
)

// Who waits for a run that is writing stops waiting when its context ends, says who is in
// the way, and has done nothing; one whose turn it is does not ask the context.
func TestWaitingEndsWithTheContext(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, "lay", files("1", "a.svg"))
	f := open(t, dir, anySet("lay"))
	writing, busy, err := take(filepath.Join(dir, own, "lock"))
	if err != nil || busy {
		t.Fatal(busy, err)
	}
	ended, end := context.WithCancel(t.Context())
	end()
	ran := false
	run := func() error { ran = true; return nil }
	err = f.alone(ended, run)
	what, hint := say.Parts(err, nil)
	if ran || !strings.Contains(what, "another run is writing into "+dir) || hint == "" {
		t.Errorf("ran: %v; %q, hint %q", ran, what, hint)
	}
	if _, err := Open(ended, dir, only("compare", "c")); err == nil ||
		!strings.Contains(err.Error(), "another run is writing") {
		t.Errorf("opened beside a run that writes: %v", err)
	}
	soon, stop := context.WithTimeout(t.Context(), time.Minute)
	defer stop()
	time.AfterFunc(15*time.Millisecond, writing.release)
	if err := f.alone(soon, run); err != nil || !ran {
		t.Errorf("the other has ended: ran %v, %v", ran, err)
	}
	why := errors.New("what it does fails")
	if err := f.alone(ended, func() error { return why }); !errors.Is(err, why) {
		t.Errorf("nobody is in the way: %v", err)
	}
	if _, busy, err := take(filepath.Join(dir, own, "lock")); busy || err != nil {
		t.Errorf("its turn is over and the lock still held: %v", err)
	}
	f.Close()
	same(t, dir, files("1", "a.svg"))
}

// Await stops waiting at its ceiling while files change places, and returns at once when
// none do; from then on none can.
func TestAwaitHasACeiling(t *testing.T) {
	moving.Lock()
	start := time.Now()
	Await(20 * time.Millisecond)
	if took := time.Since(start); took < 20*time.Millisecond {
		t.Errorf("gave up after %v", took)
	}
	time.AfterFunc(10*time.Millisecond, moving.Unlock)
	Await(time.Minute)
	if moving.TryLock() {
		t.Error("files may change places although the program is about to end")
	}
	moving.Unlock()
}

// On a disk to which small and capital letters are alike (two names of one file stand for
// it here) a file in capitals is in the way; on others it is somebody else's and stays.
func TestCapitalLetters(t *testing.T) {
	dir := t.TempDir()
	mine := []File{{"A.SVG", []byte("mine")}}
	os.WriteFile(filepath.Join(dir, "A.SVG"), mine[0].Data, 0o644)
	f := open(t, dir, only("lay", "a"))
	now := files("1", "a.svg")
	if _, err := f.Write(map[string][]File{"lay": now}); err != nil {
		t.Fatal(err)
	}
	f.Close()
	same(t, dir, now, mine)

	if err := os.Remove(filepath.Join(dir, "a.svg")); err != nil {
		t.Fatal(err)
	}
	if err := os.Link(filepath.Join(dir, "A.SVG"), filepath.Join(dir, "a.svg")); err != nil {
		t.Skip("the disk has no two names for a file: ", err)
	}
	_, err := Open(t.Context(), dir, only("lay", "a"))
	if err == nil || !strings.Contains(err.Error(), "a.svg has been changed since it was written") {
		t.Errorf("a file called the same in capitals: %v", err)
	}
}

// A folder that cannot be written to is told before the search, with what would mend it,
// and a file that stands where the folder belongs is left alone.
func TestWhereNothingCanBeWritten(t *testing.T) {
	root := t.TempDir()
	file := filepath.Join(root, "file")
	os.WriteFile(file, []byte("mine"), 0o644)
	for _, dir := range []string{file, filepath.Join(file, "in", "it")} {
		_, err := Open(t.Context(), dir, anySet("lay"))
		if what, hint := say.Parts(err, nil); !strings.Contains(what, "cannot make the folder") || hint != elsewhere {
			t.Errorf("%s: %q, hint %q", dir, what, hint)
		}
	}
	if text, _ := os.ReadFile(file); string(text) != "mine" {
		t.Errorf("the file holds %q", text)
	}
	full := &fs.PathError{Op: "write", Path: "0", Err: syscall.ENOSPC}
	dir := filepath.Join(root, "a", "b")
	f := &Folder{dir: dir, sets: []Set{anySet("lay")}, made: firstMissing(dir), rename: os.Rename,
		write: func(string, []byte) error { return full }}
	if err := f.open(t.Context()); !errors.Is(err, full) || !strings.Contains(err.Error(), "cannot write into "+dir) {
		t.Errorf("a full disk: %v", err)
	} else if _, hint := say.Parts(err, nil); hint != noRoom {
		t.Errorf("a full disk: hint %q", hint)
	}
	f.Close()
	if got, _ := os.ReadDir(root); len(got) != 1 {
		t.Errorf("left behind: %v", got)
	}
}

// A journal that cannot be read stops every run, and nothing is moved: what it would put
// back stays where it is.
func TestJournalThatCannotBeRead(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, "lay", files("1", "a.svg"))
	journal, old := filepath.Join(dir, own, journalName), filepath.Join(dir, own, "old")
	os.WriteFile(journal, []byte("{"), 0o644)
	os.MkdirAll(old, 0o755)
	os.WriteFile(filepath.Join(old, "0"), []byte("taken out of the way"), 0o644)
	_, err := Open(t.Context(), dir, anySet("lay"))
	if what, hint := say.Parts(err, nil); !strings.Contains(what, "how far a run came") || hint == "" {
		t.Errorf("%q, hint %q", what, hint)
	}
	if text, _ := os.ReadFile(filepath.Join(old, "0")); string(text) != "taken out of the way" {
		t.Errorf("what was taken out of the way holds %q", text)
	}
}

// The folder that a run made on the way is removed again with it, but never one that
// stood there before or that something else lies in by now.
func TestOnlyItsOwnFoldersAreRemoved(t *testing.T) {
	root := t.TempDir()
	there := filepath.Join(root, "there")
	os.Mkdir(there, 0o755)
	f := open(t, filepath.Join(there, "a", "b"), only("lay", "z"))
	os.WriteFile(filepath.Join(there, "a", "note"), nil, 0o644)
	f.Close()
	if got := shownNames(t, there); got != "a" {
		t.Errorf("%s holds %q", there, got)
	}
	if got := shownNames(t, filepath.Join(there, "a")); got != "note" {
		t.Errorf("what was made on the way holds %q", got)
	}
	open(t, there, only("lay", "z")).Close()
	if got := shownNames(t, root); got != "there" {
		t.Errorf("the folder that was there is gone: %q", got)
	}
	if runtime.GOOS == "windows" {
		return
	}
	t.Chdir(root)
	open(t, filepath.Join("x", "..", "y"), only("lay", "z")).Close()
	if got := shownNames(t, root); got != "there" {
		t.Errorf("left behind: %q", got)
	}
}

func shownNames(t *testing.T, dir string) string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return strings.Join(names, " ")
}
