package document

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"

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
	d.quick = true
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
	d.Close()
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
	d.Close()
	d = reopened(t, filepath.Dir(file))
	if s := d.State(); string(s.Text) != "a = 2\n" || s.Found.IsZero() || s.Saved || s.Disk != Same {
		t.Errorf("%+v", s)
	}
	if s := d.Undo(); string(s.Text) != "a = 1\n" || !s.Saved || !s.Found.IsZero() {
		t.Errorf("a step back: %+v", s)
	}
}

// Typing on in a field is one step, as long as it is typed without a rest.
func TestTypingIsOneStep(t *testing.T) {
	d, _ := opened(t, "a = 0\n")
	clock := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
	d.now = func() time.Time { return clock }
	steps := []struct {
		field, text string
		rest        time.Duration
	}{
		{"waist", "a = 1\n", 0}, {"waist", "a = 12\n", time.Second}, {"waist", "a = 127\n", time.Second}, // one
		{"hip", "a = 3\n", time.Second},        // another field
		{"hip", "a = 4\n", pause},              // after a rest
		{"", "a = 5\n", 0}, {"", "a = 6\n", 0}, // nobody types
	}
	for _, s := range steps {
		clock = clock.Add(s.rest)
		apply(t, d, s.field, s.text)
	}
	for _, want := range []string{"a = 5\n", "a = 4\n", "a = 3\n", "a = 127\n", "a = 0\n", "a = 0\n"} {
		if got := string(d.Undo().Text); got != want {
			t.Fatalf("a step back is %q, not %q", got, want)
		}
	}
	d.Redo()
	if apply(t, d, "waist", "a = 1278\n"); string(d.Undo().Text) != "a = 127\n" {
		t.Error("what is typed after a step back is part of an earlier step")
	}
}

func TestWhatCannotBeWrittenIsTold(t *testing.T) {
	d, file := opened(t, "a = 1\n")
	dir := filepath.Dir(file)
	d.Close()
	write(t, filepath.Join(dir, own), "in the way") // of the folder for what is not saved
	d = reopened(t, dir)
	if s := apply(t, d, "", "a = 2\n"); s.Unkept == nil {
		t.Error("what is not kept is not told of")
	}
	if err := os.MkdirAll(filepath.Join(dir, ".gown.toml.new", "in the way"), 0o755); err != nil {
		t.Fatal(err)
	}
	if s, err := d.Save(); err == nil || string(s.Text) != "a = 2\n" || read(t, file) != "a = 1\n" {
		t.Errorf("saved where nothing can be written: %v, %q, %q", err, s.Text, read(t, file))
	}
	os.RemoveAll(filepath.Join(dir, ".gown.toml.new"))
	if s, err := d.Save(); err != nil || !s.Saved || s.Unkept != nil || read(t, file) != "a = 2\n" {
		t.Errorf("saved once it can be written: %v, %+v", err, s)
	}
	if _, err := d.Apply(d.State().Version, "", put(string(make([]byte, job.MaxFile+1)))); err == nil {
		t.Error("a text longer than any job is taken")
	}
}

func TestWhatIsNoJobIsNotOpened(t *testing.T) {
	outside := t.TempDir()
	dir := filepath.Join(outside, "jobs")
	if err := os.MkdirAll(filepath.Join(dir, "folder.toml"), 0o755); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(outside, "secret.toml"), "a = 1\n")
	write(t, filepath.Join(dir, "gown.toml"), "a = 1\n")
	write(t, filepath.Join(dir, "large.toml"), string(make([]byte, job.MaxFile+1)))
	for name, to := range map[string]string{
		"out.toml": filepath.Join("..", "secret.toml"), "absolute.toml": filepath.Join(outside, "secret.toml"),
		"loop.toml": "loop.toml", "within.toml": "gown.toml",
	} {
		if err := os.Symlink(to, filepath.Join(dir, name)); err != nil {
			t.Skip("this system has no links:", err)
		}
	}
	folder, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer folder.Close()
	for _, name := range []string{"folder.toml", "large.toml", "out.toml", "absolute.toml", "loop.toml",
		"../secret.toml", "nowhere.toml"} {
		if _, err := Open(folder, name); err == nil {
			t.Errorf("%s is opened", name)
		}
	}
	d, err := Open(folder, "within.toml")
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	if _, err := Open(folder, "gown.toml"); err == nil {
		t.Error("a job is open twice")
	}
	apply(t, d, "", "a = 2\n")
	if _, err := d.Save(); err != nil || read(t, filepath.Join(dir, "gown.toml")) != "a = 2\n" {
		t.Error("not saved through a link:", err)
	}
	if info, err := os.Lstat(filepath.Join(dir, "within.toml")); err != nil || info.Mode().IsRegular() {
		t.Error("the link is a file now", err)
	}
}
