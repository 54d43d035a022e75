package job

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A job read within a folder refers to nothing beyond it: not by a path, nor by a link.
func TestReadInRefersToNothingBeyondTheFolder(t *testing.T) {
	outside := t.TempDir()
	dir := filepath.Join(outside, "jobs")
	const rates, square = "[labour]\nrate = \"24/h\"\n", `{"type":"Feature","properties":{"name":"flap"},"geometry":` +
		`{"type":"Polygon","coordinates":[[[0,0],[200,0],[200,200],[0,200],[0,0]]]}}`
	for name, text := range map[string]string{
		"rates.toml": rates, "flap.geojson": square, "jobs/rates.toml": rates, "jobs/flap.geojson": square,
	} {
		path := filepath.Join(outside, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	links := os.Symlink(filepath.Join("..", "rates.toml"), filepath.Join(dir, "link.toml")) == nil &&
		os.Symlink(outside, filepath.Join(dir, "up")) == nil
	folder, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer folder.Close()
	part := "[[part]]\nname = \"flap\"\ndraft = \"outline\"\ncloth = \"satin\"\nfile = %q\n"
	for _, c := range []struct {
		rates, file string
		link, lets  bool
	}{
		{rates: "rates.toml", file: "flap.geojson", lets: true},
		{rates: "../rates.toml", file: "flap.geojson"},
		{rates: filepath.Join(outside, "rates.toml"), file: "flap.geojson"},
		{rates: "rates.toml", file: "../flap.geojson"},
		{rates: "rates.toml", file: filepath.Join(outside, "flap.geojson")},
		{rates: "link.toml", file: "flap.geojson", link: true},
		{rates: "up/rates.toml", file: "flap.geojson", link: true},
		{rates: "rates.toml", file: "up/flap.geojson", link: true},
	} {
		if c.link && !links {
			continue // a system without links
		}
		src := "unit = \"in\"\nrates = \"" + filepath.ToSlash(c.rates) + "\"\n[allowance]\nseam = 0\nhem = 0\n" +
			"[[cloth]]\nid = \"satin\"\nwidth = 58\n" + strings.Replace(part, "%q", "'"+c.file+"'", 1)
		f, err := ReadIn(folder, filepath.Join(dir, "gown.toml"), []byte(src))
		if err == nil {
			_, err = f.Job().Parts[0].Layers[0].Drafted()
		}
		if (err == nil) != c.lets {
			t.Errorf("%+v: %v", c, err)
		}
		// On the command line rates may lie anywhere, and drawings below the job.
		_, err = Read(filepath.Join(dir, "gown.toml"), []byte(src))
		if local := filepath.IsLocal(c.file); (err == nil) != local {
			t.Errorf("%+v on the command line: %v", c, err)
		} else if !local && (!strings.Contains(err.Error(), "gown.toml:13:8: `file`: ") ||
			!strings.Contains(err.Error(), "hint: put a copy beside the job")) {
			t.Errorf("%+v: %v", c, err)
		}
	}
}
