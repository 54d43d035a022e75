package draft

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// A skirt cut in one has its waist as a hole about the middle: what is cut is a circle within the waist by its
// allowance, strokes over that at the quarters end on the waist, and the slit runs from the one outwards beyond the
// other. Of a handkerchief in one piece, a square, the same.
func TestHolesOfSkirtsInOne(t *testing.T) {
	circle := CircleSkirt{Fraction: 1, Gores: 1, Waist: 700, Length: 600, Opening: true}
	circle.Allowance.Waist, circle.Allowance.Hem = 12, 20
	square := workedHandkerchief(1)
	square.Waist, square.Allowance.Waist = 700, 12
	for name, d := range map[string]Draft{"circle": circle, "handkerchief": square} {
		p := draftOne(t, d)
		c, r := p.Cut.Bound().Center(), 700/2/math.Pi
		from := func(q orb.Point) float64 { return planar.Distance(c, q) }
		hole, strokes, slit := p.Inside[0], p.Inside[1:5], p.Inside[5]
		if len(p.Inside) != 6 || hole[0] != hole[len(hole)-1] {
			t.Fatalf("%s: %d lines, %v", name, len(p.Inside), hole[0])
		}
		for _, q := range hole {
			near(t, name+": the hole", from(q), r-12, .2)
		}
		quarter := map[int]bool{}
		for _, l := range strokes {
			near(t, name+": a stroke's start", from(l[0]), r-12, .1)
			near(t, name+": its end", from(l[1]), r, .1)
			near(t, name+": its length", planar.Distance(l[0], l[1]), 12, .1)
			angle := math.Atan2(l[1][1]-c[1], l[1][0]-c[0]) / math.Pi * 2
			near(t, name+": quarters of its angle", angle, math.Round(angle), 1e-3)
			quarter[int(math.Round(angle)+4)%4] = true
		}
		if len(quarter) != 4 {
			t.Errorf("%s: strokes at the quarters %v", name, quarter)
		}
		near(t, name+": the slit's start", from(slit[0]), r-12, .1)
		if end := from(slit[1]); end < r+20 || end > r+600 || math.Abs(slit[0][1]-slit[1][1]) > 1e-9 {
			t.Errorf("%s: the slit ends %.1f from the middle of a waist of radius %.1f", name, end, r)
		}
		if y := p.Grain[0][1]; math.Abs(y-c[1]) < r {
			t.Errorf("%s: the grain arrow runs over the hole", name)
		}
	}
}
