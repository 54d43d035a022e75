package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// metres finds a metric length in what is printed.
var metres = regexp.MustCompile(`\b\d[\d.,]*(?:e[+-]\d+)? ?(?:mm2?|cm|m)\b`)

// inchJob is a skirt for two, and what it is cut and closed with.
const inchJob = `unit = "in"
currency = "USD"
[body]
waist_girth = 28
hip_girth = 38
waist_to_hips = 8
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "satin"
width = 58
price = "12.00/yd"
[[part]]
name = "skirt"
draft = "gored-skirt"
cloth = "satin"
gores = 6
hem_sweep = 100
length = 40
opening = true
[[part]]
name = "net"
draft = "net-layers"
cloth = "satin"
skirt_length = 40
first_seam = 20
fullness = 3
sewn_to = "skirt"
[[notion]]
name = "zip"
by = "opening"
parts = "skirt"
closed = "9"
sizes = [{ length = "9", price = "2.10" }]
`

// Whatever a job in inches is refused for, wherever in the program, is said in inches
// and yards.
func TestRefusedInchJobsSpeakNoMetres(t *testing.T) {
	const price = `price = "12.00/yd"`
	for name, c := range map[string]struct {
		command  string
		from, to string
	}{
		"too wide":       {"lay", "width = 58", "width = 12"},
		"hem too narrow": {"lay", "hem_sweep = 100", "hem_sweep = 30"},
		"gores too steep": {"lay", "waist_to_hips = 8",
			"waist_to_hips = 6\nhigh_hip_girth = 60\nwaist_to_high_hip = 3"},
		"no room below":      {"lay", "length = 40\nopening", "length = 5\nopening"},
		"endless":            {"lay", "length = 40\nopening", "length = 3000\nopening"},
		"allowance too wide": {"lay", `seam = "1/2"`, "seam = 30"},
		"another waist":      {"lay", "fullness = 3", "fullness = 3\nwaist_ease = 1"},
		"above the waist":    {"lay", "first_seam = 20", "first_seam = 20\nlayers = 9\ngap = 4"},
		"below the hem":      {"lay", "first_seam = 20", "first_seam = 41"},
		"bolt too short": {"lay", price,
			"bolt = { length = \"1 yd\", price = \"9.00\" }\nwhole_bolts = true"},
		"no zip is so long": {"quote", `closed = "9"`, `closed = "12"`},
		"no size at all":    {"quote", `length = "9", price`, `length = "1/100", price`},
		"reel too short": {"quote",
			`sizes = [{ length = "9", price = "2.10" }]`, `reel = { length = "1/100 in", price = "1.00" }`},
		"flaw off the cloth": {"lay", price,
			price + "\nflaws = [{ from = 3000, to = 3001, low = 1, high = 2 }]"},
		"selvedge over all": {"lay", price, price + "\nselvedge = 40"},
		"shrinks to nothing": {"lay", price,
			price + "\nshrinkage = { warp = \"-99 %\", weft = \"-3 %\", by = \"pieces\" }"},
		"folded too narrow":   {"lay", "width = 58", "width = 22\nlay = \"lengthwise-fold\""},
		"hip of another body": {"lay", "hip_girth = 38", "hip_girth = 27"},
	} {
		if !strings.Contains(inchJob, c.from) {
			t.Fatalf("%s: nothing to change", name)
		}
		file := filepath.Join(t.TempDir(), "job.toml")
		if err := os.WriteFile(file, []byte(strings.Replace(inchJob, c.from, c.to, 1)), 0o666); err != nil {
			t.Fatal(err)
		}
		var out, problems bytes.Buffer
		code := run([]string{c.command, file, "--time", "1ms"}, strings.NewReader(""), &out, &problems)
		said := strings.ReplaceAll(problems.String(), filepath.Dir(file), "")
		if code != 1 || said == "" {
			t.Errorf("%s: exit %d, %s\n%s", name, code, said, out.String())
		}
		if m := metres.FindString(said); m != "" {
			t.Errorf("%s speaks of %s: %s", name, m, said)
		}
	}
}
