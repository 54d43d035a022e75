package nofit

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/nest/judge"
	"yardlay/shapes/plane"
)

// apart asks the exact judge whether two outlines lie apart, the second at an offset on the
// lattice from the first.
func apart(a, b orb.Ring, at orb.Point, gap float64) bool {
	const far = 1024 // from the edges
	p := judge.Problem{Width: 2 * far, Gap: gap}
	for _, ring := range []orb.Ring{a, b} {
		p.Pieces = append(p.Pieces, judge.Piece{Name: "piece", Outline: ring, Count: 1, Turns: []float64{0}})
	}
	l := judge.Layout{Placed: []judge.Placed{
		{Piece: 0, At: orb.Point{far, far}}, {Piece: 1, At: orb.Point{far + at[0], far + at[1]}},
	}}
	for i, pl := range l.Placed {
		l.Length = math.Max(l.Length, pl.At[0]+plane.Bounds(p.Pieces[i].Outline).Max[0])
	}
	return judge.New(p).Verify(l, never) == nil
}

// TestTouchingPlacesPassTheJudge: two outlines that touch at a corner of their loosened
// region, or where it crosses a level, rounded to the lattice, lie apart by the exact judge,
// with a gap or without; a little farther in they do not, but for slits.
func TestTouchingPlacesPassTheJudge(t *testing.T) {
	touching, inside, slits := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		a, b := outline(t, "a"), outline(t, "b")
		gap := rapid.SampledFrom([]float64{0, 0, 1.5}).Draw(t, "gap")
		keep := Clearance{Gap: gap, Step: plane.Lattice, Tolerance: plane.Lattice / 4}
		r := made(NewShape(a), NewShape(b), keep)
		check := func(v orb.Point) {
			if d, nx, ny := r.Depth(v[0], v[1]); d <= keep.Tolerance {
				touching++
				if at := plane.SnapPoint(v); !apart(a, b, at, gap) {
					t.Fatalf("at %v, and the judge finds them too near at %v, gap %v\na %v\nb %v", v, at, gap, a, b)
				}
			} else if d > 0.05*(1+gap) && d > 16*plane.Lattice { // corners of the gap's disc are wider
				in := plane.SnapPoint(v)
				if apart(a, b, in, gap) {
					t.Fatalf("%v deep at %v along (%v, %v), and the judge finds them apart, gap %v\na %v\nb %v", d, v,
						nx, ny, gap, a, b)
				}
				inside++
			} else {
				slits++
			}
		}
		r.Vertices(check)
		level := rapid.Float64Range(-20, 20).Draw(t, "level")
		r.CrossY(level, func(x float64) { check(orb.Point{x, level}) })
		r.CrossX(level, func(y float64) { check(orb.Point{level, y}) })
		// And anywhere.
		for range 6 {
			check(orb.Point{rapid.Float64Range(-25, 25).Draw(t, "x"), rapid.Float64Range(-25, 25).Draw(t, "y")})
		}
	})
	if touching < often.Enough(200) || inside < often.Enough(100) {
		t.Errorf("%d places touch, %d lie inside, %d in between: lopsided", touching, inside, slits)
	}
}

// TestEverySumCounts: the middle of the sum of any two parts lies inside the region, also
// where several pairs of parts have one sum.
func TestEverySumCounts(t *testing.T) {
	stairs := orb.Ring{{0, 0}, {2, 0}, {2, 1}, {3, 1}, {3, 2}, {4, 2}, {4, 3}, {2, 3}, {2, 2}, {1, 2}, {1, 1}, {0, 1},
		{0, 0}}
	rapid.Check(t, func(t *rapid.T) {
		a := NewShape(stairs)
		if rapid.Bool().Draw(t, "one") {
			a = NewShape(outline(t, "a"))
		}
		b := a // many equal sums
		if rapid.Bool().Draw(t, "another") {
			b = NewShape(outline(t, "b"))
		}
		u := newUnion(never, a, b, Clearance{})
		r := made(a, b, Clearance{})
		for _, p := range a.parts {
			for _, q := range b.parts {
				middle := orb.Point{}
				sum := p.sum(q.negated()).corners
				for _, v := range sum {
					middle[0] += v[0] / float64(len(sum))
					middle[1] += v[1] / float64(len(sum))
				}
				d, _, _ := r.Depth(middle[0], middle[1])
				if !u.contains(middle) || d <= 0 {
					t.Fatalf("%v is the middle of a sum: contained %v, depth %v", middle, u.contains(middle), d)
				}
			}
		}
	})
}

// TestEverywhere: what stands for a region that was not made lets nothing pass.
func TestEverywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := rapid.Float64Range(-70000, 70000).Draw(t, "x"), rapid.Float64Range(-70000, 70000).Draw(t, "y")
		d, nx, ny := Everywhere().Depth(x, y)
		if d < 1e6 || math.Abs(math.Hypot(nx, ny)-1) > 1e-9 {
			t.Fatalf("depth %v along (%v, %v)", d, nx, ny)
		}
	})
}
