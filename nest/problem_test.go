package nest

import (
	"testing"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Three panels of 11.1 in on 33.3 in: the lattice takes up to a step of 2^-10 mm off
// each, and nothing else is free. A tenth of a millimetre between them is.
func TestAnExactFitIsFull(t *testing.T) {
	for _, c := range []struct {
		across float64 // in
		free   float64 // mm
		full   bool
	}{
		{11.1, 0, true}, {12.35, 0, true}, {5.05, 0, true}, {6 + 1./3, 0, true}, {11.1, 0.1, false},
		{5.05, 0.02, false},
	} {
		across := c.across * 25.4
		down := plane.SnapDown(across)
		p := Problem{
			Strip:  Strip{Width: 3*across + c.free},
			Pieces: []Piece{{Name: "panel", Outline: rect(0, 0, plane.SnapDown(180.34), down), Count: 3}},
		}
		l := Layout{Length: plane.SnapDown(180.34)}
		for i := range 3 {
			l.Placed = append(l.Placed, Placed{Copy: i, At: orb.Point{0, float64(i) * down}})
		}
		if err := Verify(p, l); err != nil {
			t.Fatal(err)
		}
		if u := p.Utilisation(l); (u == 1) != c.full || u > 1 || u < 0.999 {
			t.Errorf("three panels of %v in, %v mm free: %v filled", c.across, c.free, u)
		}
	}
}
