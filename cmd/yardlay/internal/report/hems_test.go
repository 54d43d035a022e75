package report

import (
	"math"
	"testing"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes/measure"
)

// A full circle with a waist of 28 in and a length of 40 in, its hem turned up by 1 in,
// has 4 pi = 12.566 in to ease in (plain geometry), in gores, cut in one, or with its
// centre front on a fold; a square cloth has nothing.
func TestHemsSayWhatIsEasedIn(t *testing.T) {
	for what, more := range map[string]string{"gores": "gores = 8", "one": "gores = 1\nopening = true",
		"fold": "gores = 8\nfront_on_fold = true"} {
		j := testjobs.Read(t, `unit = "in"
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "satin"
width = 120
[[part]]
name = "skirt"
draft = "circle-skirt"
cloth = "satin"
circle = "full"
length = 40
waist = 28
`+more+"\n")
		spreads, err := plan.Draw(j)
		if err != nil {
			t.Fatal(err)
		}
		list, err := List(j, spreads, j.Unit)
		if err != nil || len(list.Hems) != 1 {
			t.Fatalf("%s: %+v, %v", what, list.Hems, err)
		}
		h := list.Hems[0]
		// The rounded waist of the cut list is the girth; chords stray by 0.1 mm at most.
		if got := h.Ease / measure.Inches; math.Abs(got-12.566) > 0.002 {
			t.Errorf("%s: %.3f in to ease in", what, got)
		}
		want := "skirt in satin: a hem of 1 in turned up leaves 12 5/8 in to ease in (4.6 %). Its raw edge is " +
			"285 5/8 in long, the line it is sewn to 273 in."
		if got := h.Words(j.Unit); got != want {
			t.Errorf("%s: %q, want %q", what, got, want)
		}
	}
	if words := (Hem{Allowance: 25, Length: 1000, Raw: 1000, Onto: 1000}).Words(measure.Inch); words != "" {
		t.Errorf("a straight hem: %q", words)
	}
	tight := Hem{Allowance: 30, Length: 942, Raw: 1036, Onto: 848, Ease: 188} // a remark has it
	if words := tight.Words(measure.Millimetre); words != "" {
		t.Errorf("a hem that cannot lie flat: %q", words)
	}
}
