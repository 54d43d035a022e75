package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// tiles are four rectangles of 60 by 50 and one of 60 by 100 on a strip of 100: two columns of two and one column,
// 180 long and nothing wasted, by hand.
const tiles = `{"type": "FeatureCollection", "name": "tiles", "source": "our own", "stripWidth": 100, "features": [
{"type": "Feature", "id": "half", "properties": {"quantity": 4, "rotations": [0]}, "geometry": {"type": "Polygon",
"coordinates": [[[0, 0], [60, 0], [60, 50], [0, 50], [0, 0]]]}},
{"type": "Feature", "id": "whole", "properties": {"quantity": 1, "rotations": [0]}, "geometry": {"type": "Polygon",
"coordinates": [[[0, 0], [60, 0], [60, 100], [0, 100], [0, 0]]]}}]}`

func write(t *testing.T, text string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "tiles.geojson")
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

// The line of figures has the length and the density of what is laid, in the unit of the file, and a bound that is not
// above it; laid twice over it is twice as long. The outlines that are written are those of all copies.
func TestOneInstance(t *testing.T) {
	name, out := write(t, tiles), filepath.Join(t.TempDir(), "placed.geojson")
	profile := filepath.Join(t.TempDir(), "profile")
	for _, tt := range []struct {
		args   []string
		length string
		pieces int
	}{
		{[]string{"--work", "1"}, "180.0000", 5}, {[]string{"--effort", "quick", "--lots", "2"}, "360.0000", 10},
		{[]string{"--time", "10s", "--workers", "1", "--profile", profile}, "180.0000", 5},
	} {
		var stdout, stderr bytes.Buffer
		if code := run(append(tt.args, "--out", out, name), &stdout, &stderr); code != 0 || stderr.Len() > 0 {
			t.Fatalf("%q: %d, %s", tt.args, code, &stderr)
		}
		figures := regexp.MustCompile(`^tiles length=(\S+) density=100\.000 first=\S+ time=\S+ evals/s=\S+ bound=(\S+)\n$`).
			FindStringSubmatch(stdout.String())
		if figures == nil || figures[1] != tt.length || figures[2] != tt.length {
			t.Errorf("%q: %s", tt.args, &stdout)
		}
		text, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		var placed struct{ Features []json.RawMessage }
		if err := json.Unmarshal(text, &placed); err != nil || len(placed.Features) != tt.pieces {
			t.Errorf("%q: %d outlines, %v", tt.args, len(placed.Features), err)
		}
	}
	if info, err := os.Stat(profile); err != nil || info.Size() == 0 {
		t.Errorf("no profile: %v", err)
	}
}

// Wrong use is 2 and what cannot be done 1, with a word on why; help is neither.
func TestWrongUse(t *testing.T) {
	name := write(t, tiles)
	for _, tt := range []struct {
		args []string
		code int
		why  string
	}{
		{[]string{"--help"}, 0, "--seed"}, {nil, 2, "strip: one instance file, not 0"},
		{[]string{name, name}, 2, "one instance file, not 2"}, {[]string{"--lots", "0", name}, 2, "--lots 0: at least 1"},
		{[]string{"--work", "-1", name}, 2, "--work -1: millions of evaluations"},
		{[]string{"--work", "1099511627777", name}, 2, "millions of evaluations"},
		{[]string{"--effort", "endless", name}, 2, "endless"}, {[]string{"--nothing"}, 2, "unknown flag"},
		{[]string{name + ".gone"}, 1, "no such file"}, {[]string{write(t, "{}")}, 1, "strip: "},
		{[]string{"--profile", filepath.Join(name, "p"), name}, 1, "not a directory"},
		{[]string{"--work", "1", "--out", filepath.Join(name, "p"), name}, 1, "not a directory"},
	} {
		var stdout, stderr bytes.Buffer
		if code := run(tt.args, &stdout, &stderr); code != tt.code || !strings.Contains(stderr.String(), tt.why) {
			t.Errorf("%q: %d, %s", tt.args, code, &stderr)
		}
	}
}
