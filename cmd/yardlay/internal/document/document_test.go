package document

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
)

// opened opens a job of its own.
func opened(t *testing.T, text string) (*Document, string) {
	t.Helper()
	dir := t.TempDir()
	file := filepath.Join(dir, "gown.toml")
	write(t, file, text)
	return reopened(t, dir), file
}

func reopened(t *testing.T, dir string) *Document {
	t.Helper()
	folder, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { folder.Close() })
	d, err := Open(folder, "gown.toml")
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func write(t *testing.T, file, text string) {
	t.Helper()
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func read(t *testing.T, file string) string {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// put is the change to a text.
func put(text string) func([]byte) ([]byte, error) {
	return func([]byte) ([]byte, error) { return []byte(text), nil }
}

func apply(t *testing.T, d *Document, field, text string) State {
	t.Helper()
	s, err := d.Apply(d.State().Version, field, put(text))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestAStepBackAndForthAndSaving(t *testing.T) {
	starter := string(job.Starter())
	d, file := opened(t, starter)
	if s := d.State(); !s.Saved || !s.Holds || s.CanUndo || s.File.Job().Title != "My gown" {
		t.Fatalf("opened: %+v", s)
	}
	if s := apply(t, d, "", "unit = 4"); s.Saved || s.Holds || len(s.Errors) == 0 || s.File == nil || !s.CanUndo {
		t.Errorf("a text that does not hold: %+v", s)
	}
	if s := d.Undo(); string(s.Text) != starter || !s.Saved || !s.Holds || !s.CanRedo || s.Errors != nil {
		t.Errorf("undone: %+v", s)
	}
	if s := d.Redo(); string(s.Text) != "unit = 4" || s.CanRedo {
		t.Errorf("redone: %+v", s)
	}
	if read(t, file) != starter {
		t.Error("the file has what was never saved")
	}
	if s, err := d.Save(); err != nil || !s.Saved || read(t, file) != "unit = 4" {
		t.Errorf("saved: %v %+v", err, s)
	}
	if _, err := os.Stat(filepath.Join(filepath.Dir(file), own)); !errors.Is(err, os.ErrNotExist) {
		t.Error("something is left beside a job that is saved:", err)
	}
}

func TestTwoPagesLoseNothing(t *testing.T) {
	d, _ := opened(t, "a = 1\n")
	first := d.State().Version
	apply(t, d, "", "a = 2\n")
	if s, err := d.Apply(first, "", put("a = 3\n")); !errors.Is(err, ErrStale) || string(s.Text) != "a = 2\n" {
		t.Errorf("a change to a text that is not there any more: %v, %q", err, s.Text)
	}
}

func TestWhatIsNotSavedIsThereAgain(t *testing.T) {
	d, file := opened(t, "a = 1\n")
	apply(t, d, "", "a = 2\n")
	d = reopened(t, filepath.Dir(file)) // the program has ended, however
	if s := d.State(); string(s.Text) != "a = 2\n" || s.Found.IsZero() || s.Saved || s.Disk != Same {
		t.Errorf("%+v", s)
	}
	if s := d.Undo(); string(s.Text) != "a = 1\n" || !s.Saved || !s.Found.IsZero() {
		t.Errorf("a step back: %+v", s)
	}
}
