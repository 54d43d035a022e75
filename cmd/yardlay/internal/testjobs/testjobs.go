// Package testjobs has jobs that the tests of several packages lay.
package testjobs

import (
	"fmt"
	"path/filepath"
	"strings"

	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/job"
)

// Read reads a job, and its tests end where it does not hold.
func Read(t rapid.TB, src string) *job.Job {
	t.Helper()
	return File(t, "job.toml", src).Job()
}

// File reads a job as the file of a name, beside which others are looked for. One that is cut
// by the hook lies in the folder of this package, as seen from those of the tests: a drawing
// has to lie in the folder of its job.
func File(t rapid.TB, name, src string) *job.File {
	t.Helper()
	if strings.Contains(src, "\"testdata/hook.geojson\"") {
		name = filepath.Join("..", "testjobs", filepath.Base(name))
	}
	f, err := job.Read(name, []byte(src))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// InRoom is half a circle skirt in cm for a body of so many lines, from the cloth `moon-satin` of the workroom that it
// stands in.
func InRoom(body string) string {
	return `unit = "cm"
[body]
` + body + `
[allowance]
seam = 1
hem = 2
[[cloth]]
id = "satin"
from = "moon-satin"
[[part]]
name = "skirt"
draft = "circle-skirt"
cloth = "satin"
circle = "half"
length = 60
`
}

// Striped begins a job in cm on a one-way cloth of a width with a repeat along it, without
// allowances.
func Striped(width, along int) string {
	return fmt.Sprintf(`unit = "cm"
[allowance]
seam = 0
hem = 0
[[cloth]]
id = "stripe"
width = %d
nap = "one-way"
repeat = { along = %d }
price = "10.00/m"
sold_by = "0.05 m"
`, width, along)
}

// PiecedSkirt is a gored skirt in inches that leaves open where its corners are cut off, of wool, with a lawn
// beside it: lay holds keys of the wool, lining those of the part.
func PiecedSkirt(width int, lay string, gores, length, sweep int, lining string) string {
	return fmt.Sprintf(`unit = "in"
[body]
waist_girth = 28
hip_girth = 38
waist_to_hips = 8
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "wool"
width = %d
price = "24.00/yd"
%s[[cloth]]
id = "lawn"
width = 60
price = "6.00/yd"
[[part]]
name = "skirt"
draft = "gored-skirt"
cloth = "wool"
gores = %d
length = %d
hem_sweep = %d
pieced = {}
%s`, width, lay, gores, length, sweep, lining)
}

// Small is a job whose cloths are laid at once.
const Small = `title = "Short cape"
unit = "in"
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "wool"
width = 58
selvedge = "1/2"
nap = "two-way"
price = "20.00/yd"
[[cloth]]
id = "tulle"
width = 54
both_faces = true
[[cloth]]
id = "spare"
width = 40
[[part]]
name = "cape"
draft = "cape"
cloth = ["wool", "tulle"]
neck = 16
length = 14
circle = "half"
back_seam = true
[[part]]
name = "belt"
draft = "rectangle"
cloth = "wool"
length = 30
width = 4
`

// Gown is a small job: a pair of sleeves, a collar on the fold, an odd sash.
func Gown(cloth string) string {
	return `unit = "cm"
gap = 0.5
[allowance]
seam = 1
hem = 2
[[cloth]]
id = "wool"
width = 120
selvedge = 1
price = "10.00/m"
` + cloth + `
[[part]]
name = "sleeve"
draft = "outline"
cloth = "wool"
file = "testdata/hook.geojson"
count = 2
pair = true
[[part]]
name = "collar"
draft = "cape"
cloth = "wool"
neck = 12
length = 6
circle = "half"
back_on_fold = true
[[part]]
name = "sash"
draft = "outline"
cloth = "wool"
file = "testdata/hook.geojson"
`
}

// Panels is a job of plain rectangles on cloth of 36 in without allowances.
func Panels(n int, across, along, cloth string) string {
	return fmt.Sprintf(`unit = "in"
[allowance]
seam = 0
hem = 0
[[cloth]]
id = "satin"
width = "36"
%s
[[part]]
name = "panel"
draft = "rectangle"
cloth = "satin"
width = "%s"
length = "%s"
count = %d
`, cloth, across, along, n)
}

// Panelled is a job of rectangles, in cm, each with a count, on one cloth.
func Panelled(cloth string, rectangles ...[3]float64) string {
	src := "unit = \"cm\"\n[allowance]\nseam = 0\nhem = 0\n[[cloth]]\nid = \"wool\"\n" + cloth + "\n"
	for i, r := range rectangles {
		src += fmt.Sprintf("[[part]]\nname = \"panel %d\"\ndraft = \"rectangle\"\ncloth = \"wool\"\nlength = "+
			"%v\nwidth = %v\ncount = %v\n", i+1, r[0], r[1], r[2])
	}
	return src
}

// RandomCloth draws the keys of a cloth over all lays and rules.
var RandomCloth = rapid.Custom(func(r *rapid.T) string {
	pick := func(name string, from ...string) string { return rapid.SampledFrom(from).Draw(r, name) + "\n" }
	return pick("lay", "", `lay = "lengthwise-fold"`, `lay = "double-fold"`, `lay = "crosswise-fold"`,
		"lay = \"crosswise-fold\"\nupper_turned = true") +
		pick("nap", `nap = "one-way"`, `nap = "two-way"`, `nap = "all-way"`) +
		pick("faces", "", "", "both_faces = true") + pick("gap", "", "gap = 0") +
		pick("ends", "", "ends = 1.5") + pick("skew", "", "skew = 2") + pick("spare", "", `spare = "4 %"`) +
		pick("shrinkage", "", "", `shrinkage = { warp = "-3 %", weft = "-3 %", by = "pieces" }`,
			`shrinkage = { warp = "-5 %", weft = "-2 %", by = "prewash" }`) +
		pick("repeat", "", "", "", "repeat = { along = 12.6 }", "repeat = { along = 9, across = 7 }") +
		pick("flaws", "", "", "flaws = [ { from = 10, to = 14, low = 3, high = 20 } ]") +
		pick("have", "", "", "", "have = [ { name = \"rest\", length = 60, width = 70 } ]")
})
