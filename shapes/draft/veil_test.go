package draft

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

func workedVeil() Veil {
	return Veil{Shape: RectangleVeil, Length: 42 * inch, Width: 72 * inch, Comb: 4 * inch}
}

// Closed formulas: a rectangle w L less (2 - pi/2) r^2 of its two corners, half a circle pi L^2/2,
// half an ellipse pi L w/4, a whole one pi (L + B) w/4; an oval of 72 + 30 by 60 in folded 30 in
// from its end is folded on a chord of 60 sqrt(1 - (21/51)^2) = 54.677 in.
func TestVeilAreas(t *testing.T) {
	v := workedVeil()
	area := func(what string, want float64) {
		t.Helper()
		p := draftOne(t, v)
		near(t, what, plane.Area(p.Seam)/want, 1, 3e-4)
		checkJoins(t, v)
	}
	area("rectangle", v.Width*v.Length)
	v.Round = 10 * inch
	area("rounded", v.Width*v.Length-(2-math.Pi/2)*v.Round*v.Round)
	v.Shape, v.Round, v.Gathered = HalfCircleVeil, 0, 30*inch
	area("half circle", math.Pi*v.Length*v.Length/2)
	v.Shape = OvalVeil
	area("half an oval", math.Pi*v.Length*v.Width/4)
	v.Length, v.Blusher, v.Width = 72*inch, 30*inch, 60*inch
	area("oval", math.Pi*(v.Length+v.Blusher)*v.Width/4)
	inches(t, "chord", v.Edge(), 54.677)
	p := draftOne(t, v)
	inches(t, "gathering line", plane.Length(p.Inside[0]), 30)
	made, _ := v.Draft()
	if !made.Net || len(made.Combs) != 1 || len(made.Notes) != 1 {
		t.Errorf("net %v, combs %v, notes %v", made.Net, made.Combs, made.Notes)
	}
}

func TestVeilRefuses(t *testing.T) {
	with := func(change func(*Veil)) Veil { v := workedVeil(); change(&v); return v }
	refuses(t, []refusal{
		{"no shape", with(func(v *Veil) { v.Shape = "cone" }), `veil: there is no veil of the shape "cone"`},
		{"no length", with(func(v *Veil) { v.Length = 0 }), "length is 0 mm"},
		{"no comb", with(func(v *Veil) { v.Comb = 0 }), "comb is 0 mm"},
		{"no width", with(func(v *Veil) { v.Width = 0 }), "width is 0 mm"},
		{"blusher of a rectangle", with(func(v *Veil) { v.Blusher = 100 }), "is not folded over the comb"},
		{"a long blusher", with(func(v *Veil) { v.Shape, v.Blusher = OvalVeil, 1100 }),
			"is longer than the veil of 1066.8 mm"},
		{"corners", with(func(v *Veil) { v.Round = 950 }), "corners of a radius of 950.0 mm take more"},
		{"round half circle", with(func(v *Veil) { v.Shape, v.Round = HalfCircleVeil, 50 }), "has no corners below"},
		{"more than there is", with(func(v *Veil) { v.Gathered = 1900 }),
			"1900.0 mm are to be gathered of an edge of 1828.8"},
		{"flat", with(func(v *Veil) { v.Gathered = 80 }), "nothing is gathered"},
	})
}

func TestVeilProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		v := Veil{
			Shape:  rapid.SampledFrom(veilShapes).Draw(t, "shape"),
			Length: mm("length", 400, 3500), Width: mm("width", 900, 3000), Comb: mm("comb", 50, 130),
			Allowance: shapes.Allowance{Seam: mm("seam", 0, 12), Hem: rapid.SampledFrom([]float64{0, 6}).Draw(t, "hem")},
		}
		switch {
		case v.Shape == RectangleVeil:
			v.Round = mm("round", 0, 300)
		case v.Shape == OvalVeil && rapid.Bool().Draw(t, "blusher"):
			v.Blusher = v.Length * mm("share", 0.3, 1)
		}
		if rapid.Bool().Draw(t, "part") {
			v.Gathered = v.Edge() * mm("gathered", 0.4, 1)
		}
		if v.gathered() > 30*v.Comb {
			v.Gathered = 30 * v.Comb
		}
		p := draftOne(t, v)
		soundGore(t, p)
		checkJoins(t, v)
		along, across := p.Finished()
		near(t, "along", along, v.Length+v.Blusher, 2*DefaultChord)
		near(t, "across", across, v.across(), 2*DefaultChord)
		more := v
		more.Length += 5
		// Within the seam lines: beside what is gathered the edge is hemmed, with another allowance.
		if finished := plane.Area(p.Seam); more.Blusher == 0 && plane.Area(draftOne(t, more).Seam) <= finished {
			t.Errorf("longer, but no larger than %.0f", finished)
		}
	})
}
