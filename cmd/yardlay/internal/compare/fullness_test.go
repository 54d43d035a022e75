package compare

import (
	"math"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes/measure"
)

// layered has two layers of net of four widths each.
const layered = `unit = "in"
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "net"
width = 108
price = "4.00/yd"
[[part]]
name = "skirt"
draft = "net-layers"
cloth = "net"
waist = 28
circle = "full"
skirt_length = 24
first_seam = 14
gap = 4
layers = 2
widths = 4
`

// Four widths of 72 in are less net than four of 108: another gown, which says so and
// is not the best, however little it costs. Six hold (72 - 1) x 6 = 426 in, four of
// the others 428: seven are needed.
func TestNarrowerNetIsAnotherGown(t *testing.T) {
	r := run(t, layered, plan.Options{Unit: measure.Inch}, "net.width=72,118")
	narrow, wide := r.Rows[1], r.Rows[2]
	if len(narrow.Fullness) != 1 || narrow.Fullness[0].Widths != 7 || !narrow.thin || narrow.Best {
		t.Errorf("72 in wide: %+v, best %v", narrow.Fullness, narrow.Best)
	}
	// Girths: 28 + 2 pi 14 and 28 + 2 pi 10 in.
	girth := 56 + 2*math.Pi*24
	if got, want := narrow.Fullness[0].Fullness, 2*4*71/girth; math.Abs(got-want) > 0.01 {
		t.Errorf("fullness %v, want %v", got, want)
	}
	if got, want := narrow.Fullness[0].Written, 2*4*107/girth; math.Abs(got-want) > 0.01 {
		t.Errorf("fullness as written %v, want %v", got, want)
	}
	if narrow.Title() != "net width 72 (less full)" || wide.Title() != "net width 118 (fuller)" || wide.thin {
		t.Errorf("%q, %q", narrow.Title(), wide.Title())
	}
	if !slices.ContainsFunc(narrow.Notes, func(n string) bool {
		return n == "skirt is less full: 2.7 in place of 4.1. With widths = 7 it is at least as full."
	}) {
		t.Errorf("%q", narrow.Notes)
	}
	if !r.Rows[0].Best {
		t.Errorf("the best is %q", r.Best().Name)
	}
	has(t, svgOf(t, r), "less full", "fuller")

	again := run(t, layered, plan.Options{Unit: measure.Inch}, "net.width+skirt.widths=72+7")
	if row := again.Rows[1]; row.Fullness != nil && row.Fullness[0].Fullness < row.Fullness[0].Written {
		t.Errorf("with 7 widths: %+v", row.Fullness)
	}
}

// Fewer widths that are asked for are hers: they are named, and may be the best.
func TestFewerWidthsAskedForMayBeTheBest(t *testing.T) {
	r := run(t, layered, plan.Options{Unit: measure.Inch}, "skirt.widths=3")
	if row := r.Rows[1]; !row.Best || row.Title() != "skirt widths 3 (less full)" || row.Fullness[0].Widths != 0 {
		t.Errorf("%q, best %v, %+v", row.Title(), row.Best, row.Fullness)
	}
	full := strings.Replace(layered, "widths = 4", "fullness = 3", 1)
	if row := run(t, full, plan.Options{Unit: measure.Inch}, "net.width=72").Rows[1]; row.Fullness != nil ||
		row.Title() != row.Name {
		t.Errorf("a fullness that is written stays: %+v", row.Fullness)
	}
}
