package draft

import (
	"math"
	"slices"
	"strings"
	"testing"

	"yardlay/shapes"
)

// What leaves a gap of the waist open is matched at the quarters of the whole waist all the same: the places are
// those of the body, half the gap before the side begins, and none lies in the gap.
func TestQuartersBesideAGap(t *testing.T) {
	for _, gap := range []float64{0, 6 * inch, 20 * inch} {
		o := workedOverskirt()
		o.Gap = gap
		d := must(t, o)
		var want []float64
		for _, q := range []float64{.25, .5, .75} {
			if at := q*28*inch - gap/2; at >= 0 && at <= 28*inch-gap {
				want = append(want, at)
			}
		}
		got := notchesAlong(t, d.Pieces, d.Waist)
		want = append(want, 28*inch-gap) // where it ends; the centre back is a seam, and marks itself
		if !slices.EqualFunc(got, want, func(a, b float64) bool { return math.Abs(a-b) < .5 }) ||
			math.Abs(d.Waist.Open-gap) > 1e-9 {
			t.Errorf("a gap of %g: %g is open, marks at %v, want %v", gap, d.Waist.Open, got, want)
		}
	}
}

// Hems of sleeves have to let the hand through, unless a cuff opens; hems of wide ones do so by being wide.
func TestHandsPassSleeves(t *testing.T) {
	for style, girth := range map[SleeveStyle]float64{StraightSleeve: 240, TwoPieceSleeve: 240, LegOfMuttonSleeve: 240,
		PuffSleeve: 300, BishopSleeve: 220} {
		d := must(t, lanternSleeve(t, style))
		if len(d.Rings) == 0 || d.Rings[0].Over != OverHand || math.Abs(d.Rings[0].Girth-girth) > 1e-6 {
			t.Errorf("style %d: %+v, want %g", style, d.Rings, girth)
			continue
		}
		if err := CheckEntry(d, map[Passage]float64{OverHand: girth}); err != nil {
			t.Errorf("style %d, a hand as wide: %v", style, err)
		}
		err := CheckEntry(d, map[Passage]float64{OverHand: girth + .1})
		if err == nil || !strings.Contains(err.Error(), "does not pass the hand of") {
			t.Errorf("style %d, a wider hand: %v", style, err)
		}
	}
}

// Wedges at the bust are set beside the seam over it, into the panels on both sides; of six panels a side into the
// one in whose middle the bust lies. Those at the hip lie in the panel at the side.
func TestWhereGussetsAreSet(t *testing.T) {
	for panels, want := range map[int]string{8: "01", 12: "1"} {
		c := lanternCorset()
		c.Panels, c.Channel, c.MidBones, c.Facing, c.LacingGap, c.Reduction = panels, 0, false, 0, 0, 0
		c.Figure.OverBust, c.Figure.Bust, c.BustGusset = 980, 1000, 130
		c.GussetShare = .4
		b, err := c.body()
		if err != nil {
			t.Fatalf("%d panels: %v", panels, err)
		}
		got := ""
		for _, g := range b.gussets {
			got += string(rune('0' + g.panel))
			lower, upper := b.bounds(g.panel, g.point)
			near(t, "slit in the middle", g.across, (lower+upper)/2, 1e-6)
		}
		if got != want {
			t.Errorf("%d panels: in panels %s, want %s", panels, got, want)
		}
	}
}

// A petticoat of hoops is gathered where something is gathered on it or it is drawn up, and only there.
func TestWhatOfHoopsIsGathered(t *testing.T) {
	for _, c := range []struct {
		casing, fullness float64
		want             bool
	}{{0, 0, false}, {30, 0, true}, {0, 2, true}, {30, 2, true}} {
		h := workedHoops()
		h.Casing, h.FlounceFullness = c.casing, c.fullness
		d := must(t, h)
		if d.Gathered != c.want || len(d.Hoops) != 4 {
			t.Errorf("casing %g, flounces of %g: gathered %v", c.casing, c.fullness, d.Gathered)
		}
		kind := edgeOfKind(d.Pieces[0], map[bool]shapes.EdgeKind{true: shapes.Top, false: shapes.Waist}[c.casing > 0])
		if !strings.Contains(kind.Name, "waist") {
			t.Errorf("casing %g: its upper edge is %+v", c.casing, kind)
		}
	}
}
