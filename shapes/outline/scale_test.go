package outline

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// Everything of a drawing is counted in the unit that is given: its lines, points and texts alike,
// on the lattice, in place of the unit that the file says. Other marks of theirs stay.
func TestAllOfADrawingIsCountedInTheUnit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.Float64Range(-30, 30)
		point := func(name string) orb.Point { return orb.Point{number.Draw(t, name), number.Draw(t, name)} }
		d := Drawing{Unit: Unit{Millimetres: rapid.SampledFrom([]float64{0, 1, 10}).Draw(t, "said")}}
		d.Lines = []Line{{Points: orb.LineString{point("a"), point("b"), point("c")}, Corners: []int{0, 2},
			Marks: Marks{ID: "x"}}}
		d.Points = []Point{{At: point("p"), Marks: Marks{Layer: "y"}}}
		d.Texts = []Text{{At: point("t"), Text: "front"}}
		was := append(orb.LineString(nil), d.Lines[0].Points...)
		given := rapid.SampledFrom([]float64{.1, 1, 25.4, 1000}).Draw(t, "given")
		unit, by, err := unitOf(d, Options{Millimetres: given})
		if err != nil || unit.Millimetres != given {
			t.Fatalf("%v, %v", unit, err)
		}
		out, err := onLattice(d, by)
		if err != nil {
			t.Fatal(err)
		}
		before := append(append(orb.LineString(nil), was...), d.Points[0].At, d.Texts[0].At)
		after := append(append(orb.LineString(nil), out.Lines[0].Points...), out.Points[0].At, out.Texts[0].At)
		for i, p := range before {
			mm := given / max(d.Unit.Millimetres, 1) // a drawing that says its unit is in mm already
			if q := after[i]; math.Abs(q[0]-p[0]*mm) > plane.Lattice || math.Abs(q[1]-p[1]*mm) > plane.Lattice ||
				plane.SnapPoint(q) != q {
				t.Fatalf("%v of %v mm, said to be %v, is at %v", p, given, d.Unit.Millimetres, q)
			}
		}
		if out.Lines[0].ID != "x" || len(out.Lines[0].Corners) != 2 || out.Points[0].Layer != "y" ||
			out.Texts[0].Text != "front" {
			t.Fatalf("%+v", out)
		}
		for i, p := range d.Lines[0].Points {
			if p != was[i] {
				t.Fatal("the drawing that was handed over changed")
			}
		}
	})
}

// A square of 100 mm, written in each unit, is one of 100 mm: by the unit of the file, by one that
// is given, and by one given in place of another.
func TestASquareInEveryUnit(t *testing.T) {
	for _, c := range []struct {
		svg   string
		given float64
	}{
		{`<svg width="200mm" viewBox="0 0 200 200"><path d="M20 20h100v100h-100z"/></svg>`, 0},
		{`<svg width="20cm" viewBox="0 0 20 20"><path d="M2 2h10v10h-10z"/></svg>`, 0},
		{`<svg><path d="M20 20h100v100h-100z"/></svg>`, 1},
		{`<svg><path d="M2 2h10v10h-10z"/></svg>`, 10},
		{`<svg width="800"><path d="M2 2h.1v.1h-.1z"/></svg>`, 1000},
		{`<svg width="200mm" viewBox="0 0 200 200"><path d="M2 2h10v10h-10z"/></svg>`, 10},
		{`<svg width="20in" viewBox="0 0 20 20"><path d="M20 20h100v100h-100z"/></svg>`, 1},
	} {
		d, err := ReadSVG(strings.NewReader(c.svg))
		if err != nil {
			t.Fatal(err)
		}
		a, err := Assemble(d, Options{Millimetres: c.given})
		if err != nil || len(a.Shapes) != 1 {
			t.Fatalf("%s: %d shapes, %v", c.svg, len(a.Shapes), err)
		}
		if area := plane.Area(a.Shapes[0].Ring()); math.Abs(area-10000) > 1 {
			t.Errorf("%s, given %v: %.4g square mm, want 10000", c.svg, c.given, area)
		}
	}
	d, err := ReadSVG(strings.NewReader(`<svg><path d="M20 20h100v100h-100z"/></svg>`))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Assemble(d, Options{}); !errors.As(err, new(ErrNoUnit)) {
		t.Errorf("without a unit: %v", err)
	}
	for _, given := range []float64{1e5, math.Inf(1), math.NaN()} { // 12 km
		_, err := Assemble(d, Options{Millimetres: given})
		if err == nil || !strings.Contains(err.Error(), "lies beyond 30 m") {
			t.Errorf("a unit of %v: %v", given, err)
		}
	}
}

// The unit that is guessed is the one in which the largest line has the size of a piece, and the
// largest line is of the size of one in it.
func TestGuessedUnits(t *testing.T) {
	for long, want := range map[float64]float64{1: 1000, 4.5: 1000, 4.6: 25.4, 100: 25.4, 101: 10, 180: 10, 181: 1,
		4500: 1, 4501: 25.4 / 96, 18000: 25.4 / 96, 18001: .1, 45000: .1, 45001: 1} {
		d := Drawing{Lines: []Line{{Points: orb.LineString{{5, 5}, {6, 5.5}}},
			{Points: orb.LineString{{0, 7}, {.1, 7 - long}}}}}
		u := GuessUnit(d)
		if math.Abs(u.Millimetres-want) > 1e-12 {
			t.Errorf("a line of %v units: %v", long, u)
		}
		if span := long * u.Millimetres; want != 1 && (span < 100 || span > longest*1.06) {
			t.Errorf("a line of %v units is one of %.0f mm", long, span)
		}
		if !strings.HasPrefix(u.Because, "the largest line spans ") {
			t.Error(u.Because)
		}
	}
}
