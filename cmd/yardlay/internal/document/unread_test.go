package document

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/job"
)

// edited makes an edit.
func edited(t *testing.T, d *Document, text string) State {
	t.Helper()
	s, err := d.Apply(d.State().Version, "", put(text))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// A file that someone made into what cannot be read as a job, and so cannot be a step back, is not
// written over: neither by saving nor by keeping mine. The text can be saved under another name.
func TestWhatCannotBeReadIsNotWrittenOver(t *testing.T) {
	for name, save := range map[string]func(d *Document) (State, error){
		"save": (*Document).Save, "keep mine": (*Document).KeepMine, "take theirs": (*Document).TakeTheirs,
	} {
		d, file := opened(t, "title = \"old\"\n")
		edited(t, d, "title = \"mine\"\n")
		theirs := bytes.Repeat([]byte("# a very long text\n"), job.MaxFile/19+1)
		if err := os.WriteFile(file, theirs, 0o644); err != nil {
			t.Fatal(err)
		}
		s, err := save(d)
		if err == nil || !strings.Contains(err.Error(), "bytes long") {
			t.Errorf("%s: %v", name, err)
		}
		if got, _ := os.ReadFile(file); !bytes.Equal(got, theirs) {
			t.Errorf("%s: what someone else wrote is gone, there is %.40q", name, got)
		}
		if string(s.Text) != "title = \"mine\"\n" || s.Saved {
			t.Errorf("%s: the text is %q, saved %v", name, s.Text, s.Saved)
		}
		if err := d.SaveAs("other.toml"); err == nil {
			t.Errorf("%s: the old file is said to be read again", name)
		}
		if got, _ := os.ReadFile(filepath.Join(filepath.Dir(file), "other.toml")); string(got) != "title = \"mine\"\n" {
			t.Errorf("%s: saved under another name it is %q", name, got)
		}
	}
}

// A text is written whole beside the file and takes its place, with the rights that the file had,
// through links; nothing is left beside it.
func TestSavingTakesThePlaceOfTheFile(t *testing.T) {
	d, file := opened(t, "title = \"old\"\n")
	d.quick = false
	if err := os.Chmod(file, 0o640); err != nil {
		t.Fatal(err)
	}
	before, err := os.Open(file) // what reads the old one goes on reading it
	if err != nil {
		t.Fatal(err)
	}
	defer before.Close()
	edited(t, d, "title = \"new\"\n")
	s, err := d.Save()
	if err != nil || !s.Saved || s.Disk != Same {
		t.Fatalf("%+v, %v", s, err)
	}
	if old := make([]byte, 99); true {
		if n, _ := before.Read(old); string(old[:n]) != "title = \"old\"\n" {
			t.Errorf("the old file was written into: %q", old[:n])
		}
	}
	if got, _ := os.ReadFile(file); string(got) != "title = \"new\"\n" {
		t.Errorf("%q", got)
	}
	if info, _ := os.Stat(file); info.Mode().Perm() != 0o640 {
		t.Errorf("its rights are %v", info.Mode())
	}
	list, err := os.ReadDir(filepath.Dir(file))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range list {
		if e.Name() != "gown.toml" && e.Name() != own {
			t.Errorf("%s is left", e.Name())
		}
	}
}

// Links to the job are followed as long as they stay in the folder, and saving leaves them links.
func TestLinksAreFollowedInTheFolder(t *testing.T) {
	folder := t.TempDir()
	root, err := os.OpenRoot(folder)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	in := func(name string) string { return filepath.Join(folder, name) }
	if err := errors.Join(os.Mkdir(in("below"), 0o755),
		os.WriteFile(in("below/gown.toml"), []byte("title = \"a\"\n"), 0o644)); err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(os.Symlink("below/gown.toml", in("link.toml")), os.Symlink("link.toml", in("twice.toml")),
		os.Symlink("../"+filepath.Base(folder)+"/below/gown.toml", in("out.toml")),
		os.Symlink(in("below/gown.toml"), in("whole.toml")), os.Symlink("round.toml", in("round.toml")),
		os.Symlink("nothing.toml", in("dangling.toml"))); err != nil {
		t.Skip("this system has no links:", err)
	}
	for name, want := range map[string]string{"out.toml": "outside its folder", "whole.toml": "outside its folder",
		"round.toml": "too many links", "dangling.toml": "cannot read the job", "below": "is not a plain file",
		"none.toml": "cannot read the job"} {
		if d, err := Open(root, name); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, %v, want %s", name, d, err, want)
		}
	}
	d, err := Open(root, "twice.toml")
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	edited(t, d, "title = \"b\"\n")
	if _, err := d.Save(); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Lstat(in("twice.toml")); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		t.Errorf("the link is %v, %v", info.Mode(), err)
	}
	if got, _ := os.ReadFile(in("below/gown.toml")); string(got) != "title = \"b\"\n" {
		t.Errorf("the file has %q", got)
	}
}

// Of a long history the newest steps are remembered, within limits of number and size, and at the
// least the present one and the one before; going back and forth shows just those, in order.
func TestHistoryAgainstAPlainList(t *testing.T) {
	most := make([]byte, mostRemembered+1) // texts are parts of it, each of a length of its own
	rapid.Check(t, func(t *rapid.T) {
		var h history
		var all []int // lengths of texts, as a plain list of steps has them
		at := 0
		now := time.Unix(0, 0)
		field, last := "", time.Time{} // that the present step was typed into
		push := func(name string) {
			long := rapid.IntRange(0, 1000).Draw(t, "more") +
				rapid.SampledFrom([]int{1, 3 << 20, 7 << 20, 16<<20 - 1000}).Draw(t, "size")
			goesOn := len(all) > 1 && at == len(all)-1 && at > 0 && name != "" && name == field && now.Sub(last) < pause
			h.push(most[:long], name, now)
			if all = all[:min(len(all), at+1)]; goesOn {
				all[at] = long
			} else {
				all = append(all, long)
				size := 0
				for _, n := range all {
					size += n
				}
				for len(all) > 2 && size > mostRemembered {
					size -= all[0]
					all = all[1:]
				}
			}
			at, field, last = len(all)-1, name, now
		}
		push("")
		for range rapid.IntRange(0, 30).Draw(t, "changes") {
			now = now.Add(time.Duration(rapid.IntRange(0, 3000).Draw(t, "ms")) * time.Millisecond)
			switch by := rapid.SampledFrom([]int{-1, 0, 0, 0, 1}).Draw(t, "what"); {
			case by == 0:
				push(rapid.SampledFrom([]string{"", "waist", "length"}).Draw(t, "field"))
			case at+by >= 0 && at+by < len(all):
				if !h.can(by) || !h.move(by) {
					t.Fatalf("no step %d from %d of %d", by, at, len(all))
				}
				at, field = at+by, ""
			case h.can(by) || h.move(by):
				t.Fatalf("a step %d from %d of %d", by, at, len(all))
			}
			var got []int
			for _, s := range h.steps {
				got = append(got, len(s.text))
			}
			if !slices.Equal(got, all) || h.at != at || len(h.text()) != all[at] {
				t.Fatalf("steps of %v, at %d; a list has %v, at %d", got, h.at, all, at)
			}
		}
	})
	var h history
	for i := range mostSteps + 7 {
		h.push(most[:i], "", time.Unix(0, 0))
	}
	if len(h.steps) != mostSteps || h.at != mostSteps-1 || len(h.steps[0].text) != 7 {
		t.Errorf("%d steps, at %d, the first of %d", len(h.steps), h.at, len(h.steps[0].text))
	}
}

// A job that would become too long is refused as it stands, one of the most bytes is taken; a change
// that changes nothing is no step; a version that is not yet is no base.
func TestEditsAtTheLimits(t *testing.T) {
	d, _ := opened(t, "title = \"old\"\n")
	full := "title = \"old\"\n#" + strings.Repeat("x", job.MaxFile-16) + "\n"
	version := d.State().Version
	if _, err := d.Apply(version, "", put(full+"\n")); err == nil ||
		!strings.Contains(err.Error(), "the most that is taken") {
		t.Errorf("a byte too long: %v", err)
	}
	if s, err := d.Apply(version, "", put("title = \"old\"\n")); err != nil || s.CanUndo || s.Version != version {
		t.Errorf("the same text: %+v, %v", s, err)
	}
	if _, err := d.Apply(version+1, "", put("title = \"new\"\n")); !errors.Is(err, ErrStale) {
		t.Errorf("a version to come: %v", err)
	}
	if s, err := d.Apply(version, "", put(full)); err != nil || len(s.Text) != job.MaxFile ||
		!s.Holds && len(s.Errors) == 0 {
		t.Errorf("as long as may be: %v", err)
	}
	if s, err := d.Save(); err != nil || !s.Saved {
		t.Errorf("as long as may be, saved: %v", err)
	}
	if _, err := d.Apply(version, "", put("title = \"new\"\n")); !errors.Is(err, ErrStale) {
		t.Errorf("a version that was: %v", err)
	}
}
