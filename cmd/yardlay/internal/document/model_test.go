package document

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "yardlay/benchmarks/often"
)

// world is a document, the file that it is of, and what both have to be.
type world struct {
	t      *rapid.T
	d      *Document
	folder *os.Root
	file   string

	texts int    // made so far, each unlike the others
	mine  string // what the document shows
	disk  string // what the file has; "" when it is gone
	base  string // what the file had when the edits began
}

// fresh makes a text; its length tells it apart even where a disk's clock does not.
func (w *world) fresh() string {
	w.texts++
	return fmt.Sprintf("title = \"%d\"%s\n", w.texts, strings.Repeat(" ", w.texts))
}

func (w *world) must(err error) {
	w.t.Helper()
	if err != nil {
		w.t.Fatal(err)
	}
}

// looked is what becomes of what someone else wrote: it is taken over where nothing
// stands against it.
func (w *world) looked() {
	if w.disk != "" && (w.mine == w.base || w.mine == w.disk) {
		w.mine, w.base = w.disk, w.disk
	}
}

func (w *world) open() {
	d, err := Open(w.folder, "gown.toml")
	w.must(err)
	d.quick = true
	w.d = d
}

func (w *world) edit(*rapid.T) {
	w.d.Look()
	w.looked()
	text := w.fresh()
	_, err := w.d.Apply(w.d.State().Version, "", put(text))
	w.must(err)
	w.mine = text
}

// backAndForth goes a step back and forth, and both are as they were.
func (w *world) backAndForth(*rapid.T) {
	w.d.Look()
	w.looked()
	if !w.d.State().CanUndo {
		return
	}
	w.d.Undo()
	w.d.Redo()
}

func (w *world) theyWrite(*rapid.T) {
	w.disk = w.fresh()
	w.must(os.WriteFile(w.file, []byte(w.disk), 0o644))
}

func (w *world) theyRemove(*rapid.T) {
	if os.Remove(w.file) == nil {
		w.disk = ""
	}
}

func (w *world) save(*rapid.T) {
	w.looked()
	_, err := w.d.Save()
	if w.disk == "" || w.disk != w.base {
		if !errors.Is(err, ErrChangedOnDisk) {
			w.t.Fatalf("saved over what somebody else did: %v", err)
		}
		return
	}
	w.must(err)
	w.disk, w.base = w.mine, w.mine
}

func (w *world) keepMine(*rapid.T) {
	w.d.Look()
	w.looked()
	theirs := w.disk
	_, err := w.d.KeepMine()
	w.must(err)
	w.disk, w.base = w.mine, w.mine
	if theirs == "" || theirs == w.mine {
		return
	}
	if got := string(w.d.Undo().Text); got != theirs {
		w.t.Fatalf("a step back from mine is %q, not theirs, %q", got, theirs)
	}
	w.d.Redo()
}

func (w *world) takeTheirs(*rapid.T) {
	w.d.Look()
	w.looked()
	mine := w.mine
	_, err := w.d.TakeTheirs()
	if w.disk == "" {
		if !errors.Is(err, fs.ErrNotExist) {
			w.t.Fatalf("took what is not there: %v", err)
		}
		return
	}
	w.must(err)
	w.mine, w.base = w.disk, w.disk
	if mine == w.mine {
		return
	}
	if got := string(w.d.Undo().Text); got != mine {
		w.t.Fatalf("a step back from theirs is %q, not mine, %q", got, mine)
	}
	w.d.Redo()
}

func (w *world) saveAs(*rapid.T) {
	w.d.Look()
	w.looked()
	name := fmt.Sprintf("other-%d.toml", w.texts)
	err := w.d.SaveAs(name)
	other, bad := os.ReadFile(filepath.Join(filepath.Dir(w.file), name))
	if err != nil {
		if !strings.Contains(err.Error(), "already there") {
			w.t.Fatal(err)
		}
		return
	}
	w.must(bad)
	if string(other) != w.mine {
		w.t.Fatalf("the other file has %q, not %q", other, w.mine)
	}
	if w.disk != "" {
		w.mine, w.base = w.disk, w.disk
	}
}

// crash ends the program and starts it again. A file that is gone cannot be opened.
func (w *world) crash(*rapid.T) {
	if w.disk == "" {
		return
	}
	w.d.Look()
	w.looked()
	w.d.Close()
	w.open()
}

// Check holds the document to what it has to be.
func (w *world) check(*rapid.T) {
	w.d.Look()
	w.looked()
	s := w.d.State()
	if string(s.Text) != w.mine {
		w.t.Fatalf("the text is %q, not %q", s.Text, w.mine)
	}
	if s.Saved != (w.mine == w.disk) {
		w.t.Fatalf("saved: %t, and the file has %q", s.Saved, w.disk)
	}
	want := Same
	switch {
	case w.disk == "":
		want = Gone
	case w.disk != w.base && w.disk != w.mine:
		want = Changed
	}
	if s.Disk != want {
		w.t.Fatalf("the file is %d, not %d", s.Disk, want)
	}
	if text, err := os.ReadFile(w.file); string(text) != w.disk {
		w.t.Fatalf("the file has %q, not %q: %v", text, w.disk, err)
	}
	kept, err := os.ReadFile(filepath.Join(filepath.Dir(w.file), own, "edits", "gown.toml"))
	if !s.Saved && w.disk != "" && w.mine != w.base && (err != nil || !strings.HasSuffix(string(kept), "\n"+w.mine)) {
		w.t.Fatalf("what is not saved is not kept: %q, %v", kept, err)
	}
}

// Whatever the one at the page and someone else at the file do, in whatever order, and
// however often the program ends: nobody's text is lost.
func TestNobodysTextIsLost(t *testing.T) {
	dir := t.TempDir()
	runs := 0
	rapid.Check(t, func(t *rapid.T) {
		runs++
		here := filepath.Join(dir, fmt.Sprint(runs))
		w := &world{t: t, file: filepath.Join(here, "gown.toml")}
		w.must(os.Mkdir(here, 0o755))
		w.mine = w.fresh()
		w.disk, w.base = w.mine, w.mine
		w.must(os.WriteFile(w.file, []byte(w.mine), 0o644))
		var err error
		w.folder, err = os.OpenRoot(here)
		w.must(err)
		defer w.folder.Close()
		w.open()
		defer func() { w.d.Close() }()
		t.Repeat(map[string]func(*rapid.T){
			"edit": w.edit, "back and forth": w.backAndForth, "they write": w.theyWrite, "they remove": w.theyRemove,
			"save": w.save, "keep mine": w.keepMine, "take theirs": w.takeTheirs, "save as": w.saveAs, "crash": w.crash,
			"": w.check,
		})
	})
}
