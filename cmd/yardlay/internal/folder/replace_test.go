package folder

import (
	"os"
	"path/filepath"
	"testing"
)

// TestReplace: a file is put in place whole, with the rights it had, through a link; what
// cannot be written says so and changes nothing; nothing is left beside it.
func TestReplace(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "layout.json")
	holds := func(want string) {
		t.Helper()
		got, err := os.ReadFile(name)
		if err != nil || string(got) != want {
			t.Errorf("%q, %v; want %q", got, err, want)
		}
	}
	for _, text := range []string{"first", "", "second"} {
		if err := TryReplace(name); err != nil {
			t.Fatal(err)
		}
		if err := Replace(name, []byte(text)); err != nil {
			t.Fatal(err)
		}
		holds(text)
	}
	if err := os.Chmod(name, 0o600); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(dir, "link.json")
	if err := os.Symlink("layout.json", link); err != nil {
		t.Skip("this system has no links:", err)
	}
	if err := Replace(link, []byte("third")); err != nil {
		t.Fatal(err)
	}
	holds("third")
	if info, err := os.Lstat(name); err != nil || info.Mode() != 0o600 {
		t.Errorf("%v, %v", info.Mode(), err)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is %v, %v", info.Mode(), err)
	}
	missing := filepath.Join(dir, "no", "layout.json")
	if TryReplace(missing) == nil || Replace(missing, nil) == nil {
		t.Error("a folder that is not there can be written into")
	}
	if err := Replace(dir, []byte("x")); err == nil {
		t.Error("a folder gives way to a file")
	}
	left, err := os.ReadDir(dir)
	if err != nil || len(left) != 2 {
		t.Errorf("left beside: %v, %v", left, err)
	}
	if left, _ := filepath.Glob(filepath.Join(filepath.Dir(dir), ".*.new")); len(left) > 0 {
		t.Errorf("left: %v", left)
	}
}
