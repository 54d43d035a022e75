package nofit

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// windings counts how often closed rings wind round a point.
func windings(rings []orb.Ring, v orb.Point) (count int) {
	for _, ring := range rings {
		for i := 1; i < len(ring); i++ {
			a, b := ring[i-1], ring[i]
			side := (b[0]-a[0])*(v[1]-a[1]) - (b[1]-a[1])*(v[0]-a[0])
			switch {
			case a[1] <= v[1] && b[1] > v[1] && side > 0:
				count++
			case a[1] > v[1] && b[1] <= v[1] && side < 0:
				count--
			}
		}
	}
	return count
}

// TestRingsWindRoundTheRegion: away from the boundary the rings wind once round what lies in
// the region, and not round what lies outside; in each view of it.
func TestRingsWindRoundTheRegion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		keep := Clearance{Gap: rapid.SampledFrom([]float64{0, 1.5}).Draw(t, "gap")}
		if rapid.Bool().Draw(t, "on the lattice") {
			keep.Step, keep.Tolerance = plane.Lattice, plane.Lattice/4
		}
		r := made(NewShape(outline(t, "a")), NewShape(outline(t, "b")), keep)
		r = r.Moved(rapid.SampledFrom(Motions[:]).Draw(t, "motion"), orb.Point{3, -2}, orb.Point{-5, 1},
			rapid.Bool().Draw(t, "exchanged"))
		rings := r.Rings()
		for _, ring := range rings {
			if len(ring) < 4 || ring[0] != ring[len(ring)-1] {
				t.Fatalf("not a ring: %v", ring)
			}
		}
		for range 60 {
			v := orb.Point{rapid.Float64Range(-60, 60).Draw(t, "x"), rapid.Float64Range(-60, 60).Draw(t, "y")}
			if boundaryDistance(r, v) < 20*plane.Lattice {
				continue
			}
			depth, _, _ := r.Depth(v[0], v[1])
			if want := map[bool]int{true: 1, false: 0}[depth > 0]; windings(rings, v) != want {
				t.Fatalf("%v: winds %d times, depth %v", v, windings(rings, v), depth)
			}
		}
	})
}

// boundaryDistance is how far a point lies from the boundary.
func boundaryDistance(r *Region, v orb.Point) float64 {
	nearest := math.Inf(1)
	r.Boundary(func(p, q orb.Point) { nearest = min(nearest, planar.DistanceFromSegment(p, q, v)) })
	return nearest
}
