package draft

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// Cutting gores across is the slow twin: what is near the waist is no wider than said where they are cut at their
// reach, and wider where they are cut little farther down, past the corners of the new seam; whole ones reach to their
// hems.
func TestReachAgainstCutting(t *testing.T) {
	cut := 0
	rapid.Check(t, func(t *rapid.T) {
		made, err := anySkirt(t).Draft()
		if err != nil {
			return
		}
		for _, p := range made.Pieces {
			long, wide := p.Unfold().CutSize()
			if got := Reach(p, wide); got != long {
				t.Errorf("%s: all of it reaches %v, it is %v long", p.Name, got, long)
			}
			width := wide * rapid.Float64Range(0.4, 0.9).Draw(t, "width")
			far := Reach(p, width)
			for _, past := range []float64{0, 50} {
				c := Corners{Within: 2 * wide, Length: far + past, Most: 2, Centre: true, Allowance: 10}
				parts, err := c.Of(Result{Pieces: []shapes.Piece{p}})
				if err != nil || len(parts.Parted) == 0 {
					continue // less than a corner is left, or it would take more cuts
				}
				cut++
				// Its first part is that near the waist.
				near := parts.Parted[0].Main
				if parts.Parted[0].Low {
					near = parts.Parted[0].Corner
				}
				_, now := near.Unfold().CutSize()
				if past == 0 && now > width+2*plane.Lattice || past > 0 && now <= width+plane.Lattice {
					t.Errorf("%s, %v of %v: cut at %v, what is near the waist is %v wide, want %v", p.Name, far, long,
						far+past, now, width)
				}
			}
		}
	})
	if least := often.Enough(40); cut < least {
		t.Errorf("only %d were cut, want %d", cut, least)
	}
}

// A wedge by hand: 100 wide at the waist, 300 at the hem, 400 long; 200 wide half way down.
func TestReachOfAWedge(t *testing.T) {
	p, err := shapes.NewPiece("wedge", []shapes.Edge{
		edgeOf("lower", shapes.Seam, 0, 0, 0, 400, -100), edgeOf("hem", shapes.Hem, 0, 400, -100, 400, 200),
		edgeOf("upper", shapes.Seam, 0, 400, 200, 0, 100), edgeOf("waist", shapes.Waist, 0, 0, 100, 0, 0),
	})
	if err != nil {
		t.Fatal(err)
	}
	for width, want := range map[float64]float64{50: 0, 100: 0, 200: 200, 250: 300, 300: 400, 500: 400} {
		if got := Reach(p, width); math.Abs(got-want) > plane.Lattice {
			t.Errorf("%v wide as far as %v, want %v", width, got, want)
		}
	}
}
