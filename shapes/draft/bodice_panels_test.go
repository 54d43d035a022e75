package draft

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes/plane"
)

func TestPanelsOfBodices(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		b := drawBody(t)
		b.PanelsFrom = rapid.SampledFrom([]DartPlace{DartAtShoulder, DartAtArmhole}).Draw(t, "panels from")
		if rapid.Bool().Draw(t, "other lines") {
			drawLines(t, &b)
		}
		d := checkBlock(t, b)
		drawn++
		if len(d.Pieces) != 4 {
			t.Fatalf("%d pieces", len(d.Pieces))
		}
		for _, p := range d.Pieces {
			if len(p.Darts) > 0 {
				t.Errorf("%s has darts", p.Name)
			}
		}
	})
	if least := often.Enough(80); drawn < least {
		t.Errorf("only %d of the styles could be drafted, want %d", drawn, least)
	}
}

// The cloth of panels is that of the same block with its darts turned, without what the darts
// take up and but for the corner of each side panel, of which rounding takes a sliver. The
// corner of a side panel turns by all that the darts took up: legs t long are rounded by a
// parabola, shorter than they are by t w^2 / 6 for a small turn w, and no more.
func TestPanelsConserveTheCloth(t *testing.T) {
	b := lanternBlock().measuresFromBust()
	b.Chord = 0.005
	front, back, err := b.shaped()
	if err != nil {
		t.Fatal(err)
	}
	at, seam := b.bustPoint(), planar.Distance(back.side, back.underarm)
	c, err := front.cone(at, b.BustDart, seam, 0, b.Chord)
	if err != nil {
		t.Fatal(err)
	}
	areaOf := func(o outlinedPiece) float64 {
		var ring orb.LineString
		for _, l := range o.lines {
			ring = joinLines(ring, l.line)
		}
		return plane.Area(orb.Ring(append(ring, ring[0])))
	}
	b.PanelsFrom = DartAtShoulder
	one, err := b.panelled(front, at, b.BustDart, seam)
	if err != nil {
		t.Fatal(err)
	}
	b.PanelsFrom = DartAtArmhole
	two, err := b.panelled(front, at, b.BustDart, seam)
	if err != nil {
		t.Fatal(err)
	}
	sums := [2]float64{areaOf(one.centre) + areaOf(one.side), areaOf(two.centre) + areaOf(two.side)}
	near(t, "cloth from armhole and from shoulder", sums[0], sums[1], 60)

	moved := b
	moved.PanelsFrom, moved.BustDartAt, moved.OneDart = "", DartAtShoulder, true
	o, err := moved.pivoted(front, seam)
	if err != nil {
		t.Fatal(err)
	}
	area := areaOf(o) - plane.Area(orb.Ring{at, o.darts[0].a, peakOf(t, o, o.darts[0]), o.darts[0].b, at})
	near(t, "cloth in panels and with one dart", sums[0], area, 200)
	for _, p := range []twoPanels{one, two} {
		if most := mostRounded * math.Pow(c.whole(), 2) / 6; p.eased < 0 || p.eased > 1.2*most {
			t.Errorf("eased by %.2f, at most %.2f", p.eased, most)
		}
	}
}
