package draft

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes"
)

// childBlock is that of a child of four (measures of a size chart, from memory).
func childBlock() BodiceBlock {
	return BodiceBlock{
		Bust: 560, Waist: 530, BackLength: 240, Shoulder: 85, Neck: 270, ArmholeDepth: 135, BackWidth: 230,
		ChestWidth: 215, BustDepth: 150, BustSpan: 120, Ease: 80, WaistEase: 40, FrontOnFold: true,
		Allowance: shapes.Allowance{Seam: 12, Waist: 10},
	}
}

// drawFlat is a block without a bust dart: of a child, which needs none, or of a man, for
// whom none is asked for.
func drawFlat(t *rapid.T) BodiceBlock {
	if rapid.Bool().Draw(t, "man") {
		b := drawBlock(t)
		b.NoBustDart, b.BustDepth, b.BustSpan = true, 0, 0
		return b
	}
	b, grown := childBlock(), rapid.Float64Range(1, 1.25).Draw(t, "grown")
	for _, mm := range []*float64{&b.Bust, &b.Waist, &b.BackLength, &b.Shoulder, &b.Neck, &b.ArmholeDepth, &b.BackWidth,
		&b.ChestWidth, &b.BustDepth, &b.BustSpan} {
		*mm *= grown * rapid.Float64Range(0.985, 1.015).Draw(t, "measure")
	}
	return b
}

// Without a bust dart the front is as long at the side as the back and has no dart there;
// the waist is as measured, ease added, and what lies within the lines is the same by two
// sums.
func TestBlocksWithoutABustDart(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		b := drawFlat(t)
		b.Chord = 0.1
		d, err := b.Draft()
		if err != nil {
			if b.Bust < 733 {
				t.Fatal(err)
			}
			return // a man drawn at random may have a waist that one dart cannot take
		}
		drawn++
		checkJoins(t, b)
		for _, p := range d.Pieces {
			soundGore(t, p)
			checkAreas(t, p)
			for _, dart := range p.Darts {
				if dart.Edge != "waist" {
					t.Fatalf("%s has a dart on its %s", p.Name, dart.Edge)
				}
			}
		}
		front, back := d.Pieces[0], d.Pieces[1]
		f, _ := front.Edge("side seam")
		s, _ := back.Edge("side seam")
		near(t, "side seams", f.Length(), s.Length(), 0.5)
		_, waist, err := d.Waist.Measure(d.Pieces)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "waist", waist, b.Waist+b.WaistEase, 0.5)
	})
	if drawn == 0 {
		t.Error("none was drafted")
	}
}

// From a bust of 733 mm on a dart of 5 mm or more would be narrower than can be sewn, and is
// 10 mm wide; below it there is none, and a width that is asked for is drawn at any bust.
func TestWhereTheBustDartEnds(t *testing.T) {
	for bust, want := range map[float64]float64{560: 0, 732: 0, 734: 10, 766: 10, 880: 27} {
		b := childBlock()
		b.Bust = bust
		if got := b.measuresFromBust().BustDart; math.Abs(got-want) > 1e-9 {
			t.Errorf("bust %g: a dart of %g, want %g", bust, got, want)
		}
	}
	b := childBlock()
	b.BustDart = 12
	if got := b.measuresFromBust(); got.BustDart != 12 || got.NoBustDart {
		t.Errorf("asked for 12 mm: %g, none %v", got.BustDart, got.NoBustDart)
	}
}
