package folder

import (
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// anySet is a set that may make every file.
func anySet(name string) Set { return Set{Name: name, Makes: func(string) bool { return true }} }

// only is a set that may make files whose names begin like that.
func only(name, prefix string) Set {
	return Set{Name: name, Makes: func(file string) bool { return strings.HasPrefix(file, prefix) }}
}

func files(text string, names ...string) []File {
	var all []File
	for _, name := range names {
		all = append(all, File{name, []byte(text + name)})
	}
	return all
}

func open(t *testing.T, dir string, sets ...Set) *Folder {
	t.Helper()
	f, err := Open(t.Context(), dir, sets...)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(f.Close)
	return f
}

func write(t *testing.T, dir, set string, made []File) Outcome {
	t.Helper()
	f := open(t, dir, only(set, ""))
	defer f.Close()
	out, err := f.Write(map[string][]File{set: made})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// shown returns what the folder holds by name, its own folder left out.
func shown(t *testing.T, dir string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{}
	for _, e := range entries {
		if e.Name() == own {
			continue
		}
		text, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		all[e.Name()] = string(text)
	}
	return all
}

func same(t *testing.T, dir string, want ...[]File) {
	t.Helper()
	expected := map[string]string{}
	for _, set := range want {
		for _, f := range set {
			expected[f.Name] = string(f.Data)
		}
	}
	if got := shown(t, dir); !maps.Equal(got, expected) {
		t.Errorf("the folder holds %q, want %q", got, expected)
	}
	for _, name := range []string{"new", "old", journalName} {
		if _, err := os.Lstat(filepath.Join(dir, own, name)); err == nil {
			t.Errorf("%s is left behind", name)
		}
	}
}

// A run takes the place of an earlier one of the same set, whole; other sets and
// other people's files stay.
func TestWriteReplacesTheSet(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "made", "here")
	draft := files("d", "satin-pieces.svg")
	f := open(t, dir, only("draft", "satin-pieces"))
	if _, err := f.Write(map[string][]File{"draft": draft}); err != nil {
		t.Fatal(err)
	}
	f.Close()
	lay := func() *Folder { return open(t, dir, only("lay", "satin.")) }
	first := files("1", "satin.svg", "satin.geojson", "satin.open.geojson")
	f = lay()
	out, err := f.Write(map[string][]File{"lay": first})
	f.Close()
	if err != nil || len(out.Wrote) != 3 || out.Replaced != nil || out.Removed != nil {
		t.Fatalf("%+v, %v", out, err)
	}
	same(t, dir, draft, first)
	notes := []File{{"notes.txt", []byte("cut on Monday")}}
	os.WriteFile(filepath.Join(dir, "notes.txt"), notes[0].Data, 0o644)
	second := files("2", "satin.svg", "satin.geojson")
	f = lay()
	out, err = f.Write(map[string][]File{"lay": second})
	f.Close()
	if err != nil || fmt.Sprint(out.Replaced, out.Removed,
		out.Kept) != "[satin.svg satin.geojson] [satin.open.geojson] []" {
		t.Fatalf("%+v, %v", out, err)
	}
	same(t, dir, draft, second, notes)
}

// What somebody has changed since is neither replaced nor removed.
func TestChangedFilesStay(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, "lay", files("1", "a.svg", "b.svg"))
	mine := []File{{"b.svg", []byte("with my notes")}}
	os.WriteFile(filepath.Join(dir, "b.svg"), mine[0].Data, 0o644)
	if _, err := Open(t.Context(), dir, anySet("lay")); err == nil ||
		!strings.Contains(err.Error(), "b.svg has been changed since") {
		t.Errorf("error is %v", err)
	}
	f := open(t, dir, only("lay", "a")) // a run that cannot make it
	out, err := f.Write(map[string][]File{"lay": files("2", "a.svg")})
	f.Close()
	if err != nil || fmt.Sprint(out.Kept) != "[b.svg]" {
		t.Errorf("%+v, %v", out, err)
	}
	same(t, dir, files("2", "a.svg"), mine)
}

// A file that was not written by an earlier run is in the way: told before the
// search where its name is known, and at the end nothing is written.
func TestForeignFilesStay(t *testing.T) {
	dir := t.TempDir()
	mine := []File{{"a.svg", []byte("mine")}}
	os.WriteFile(filepath.Join(dir, "a.svg"), mine[0].Data, 0o644)
	_, err := Open(t.Context(), dir, only("lay", "a"))
	if err == nil || !strings.Contains(err.Error(), "a.svg is there already") ||
		!strings.Contains(err.Error(), "hint: ") {
		t.Errorf("error is %v", err)
	}
	f := open(t, dir, only("lay", "b"))
	if _, err := f.Write(map[string][]File{"lay": files("2", "b.svg", "a.svg")}); err == nil {
		t.Error("it wrote over a file of somebody else")
	}
	f.Close()
	same(t, dir, mine)
	if _, err := os.Lstat(filepath.Join(dir, own)); err == nil {
		t.Error("its own folder is left where nothing was written")
	}
}

// A link or a folder of a name to be written is not written through.
func TestWhatIsNoPlainFileStays(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, "lay", files("1", "a.svg"))
	elsewhere := filepath.Join(t.TempDir(), "b")
	os.WriteFile(elsewhere, []byte("1a.svg"), 0o644)
	os.Remove(filepath.Join(dir, "a.svg"))
	if err := os.Symlink(elsewhere, filepath.Join(dir, "a.svg")); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(t.Context(), dir, anySet("lay")); err == nil {
		t.Error("a link is taken for the file that was written")
	}
}

// Whatever step of a write fails, the folder is as it was before, and works again.
func TestWriteIsAllOrNothing(t *testing.T) {
	full := errors.New("no space left on device")
	for step := 0; ; step++ {
		dir := t.TempDir()
		before := files("old", "a.svg", "b.svg", "gone.svg")
		write(t, dir, "lay", before)
		f := open(t, dir, anySet("lay"))
		left := step
		fails := func() bool { left--; return left == -1 }
		f.write = func(name string, data []byte) error {
			if fails() {
				writeSynced(name, data[:len(data)/2])
				return full
			}
			return writeSynced(name, data)
		}
		f.rename = func(from, to string) error {
			if fails() {
				return full
			}
			return os.Rename(from, to)
		}
		now := files("new", "a.svg", "b.svg", "c.svg", "d.svg")
		_, err := f.Write(map[string][]File{"lay": now})
		f.Close()
		if left >= 0 { // every step has failed once
			if err != nil || step < 15 {
				t.Fatalf("%d steps, %v", step, err)
			}
			same(t, dir, now)
			return
		}
		if !errors.Is(err, full) || !strings.Contains(err.Error(), "cannot write into "+dir) {
			t.Fatalf("step %d: error is %v", step, err)
		}
		same(t, dir, before)
		write(t, dir, "lay", now)
		same(t, dir, now)
	}
}

// Two runs of one kind in a folder at once: the second is told. Of two kinds, both
// write.
func TestTwoRunsAtOnce(t *testing.T) {
	dir := t.TempDir()
	one := open(t, dir, only("lay", "a"))
	_, err := Open(t.Context(), dir, only("compare", "c"), only("lay", "a"))
	if err == nil || !strings.Contains(err.Error(), "another run is at the lay files") {
		t.Errorf("error is %v", err)
	}
	other := open(t, dir, only("compare", "c"))
	for name, f := range map[string]*Folder{"lay": one, "compare": other} {
		if _, err := f.Write(map[string][]File{name: files(name, name[:1]+".svg")}); err != nil {
			t.Error(err)
		}
		f.Close()
	}
	again := open(t, dir, only("lay", "a"))
	if _, err := again.Write(map[string][]File{"lay": files("again", "a.svg")}); err != nil {
		t.Error(err)
	}
	same(t, dir, files("again", "a.svg"), files("compare", "c.svg"))
}

// A folder that nothing came of is gone again, and those on the way to it.
func TestNothingIsLeftOfNothing(t *testing.T) {
	root := t.TempDir()
	f := open(t, filepath.Join(root, "a", "b"), anySet("lay"), anySet("compare"))
	f.Close()
	if got, _ := os.ReadDir(root); len(got) > 0 {
		t.Errorf("left behind: %v", got)
	}
}

// A list that cannot be read is told, not written over.
func TestListThatCannotBeRead(t *testing.T) {
	for _, text := range []string{"{", `{"version":2}`, `{"version":1,"sets":{"lay":{"../a":"00"}}}`} {
		dir := t.TempDir()
		write(t, dir, "lay", files("1", "a.svg"))
		os.WriteFile(filepath.Join(dir, own, listName), []byte(text), 0o644)
		if _, err := Open(t.Context(), dir, anySet("lay")); err == nil ||
			!strings.Contains(err.Error(), "cannot read the list") {
			t.Errorf("%s: error is %v", text, err)
		}
	}
}
