package shapes

import (
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// grainArrow returns an arrow along +x inside the ring: seven tenths of the
// longest run of cloth on one of seven level lines, the middle one unless
// another is a quarter longer. An arrow has to be readable, not longest.
func grainArrow(ring orb.Ring) orb.LineString {
	b := plane.Bounds(ring)
	var best [2]float64
	var y float64
	for _, share := range []float64{1. / 2, 3. / 8, 5. / 8, 1. / 4, 3. / 4, 1. / 8, 7. / 8} {
		level := b.Min[1] + share*(b.Max[1]-b.Min[1])
		run := longestRun(ring, level)
		if run[1]-run[0] > 1.25*(best[1]-best[0]) {
			best, y = run, level
		}
	}
	inset := 0.15 * (best[1] - best[0])
	return orb.LineString{{best[0] + inset, y}, {best[1] - inset, y}}
}

// GrainLine returns the grain arrow of a piece that is cut turned: the line in it
// that runs along the warp once it lies turned by so many degrees counter-clockwise,
// in the coordinates of its outline. Unturned that is Grain.
func (p Piece) GrainLine(turn float64) orb.LineString {
	if turn == 0 || len(p.Grain) == 0 {
		return p.Grain
	}
	line := grainArrow(plane.Pose{Turn: turn}.Apply(p.Seam))
	back := plane.Pose{Turn: -turn}
	for i, v := range line {
		line[i] = back.ApplyPoint(v)
	}
	return line
}

// longestRun returns the ends of the longest stretch of the level line inside the ring.
func longestRun(ring orb.Ring, y float64) [2]float64 {
	var xs []float64
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		if (a[1] <= y) != (b[1] <= y) {
			xs = append(xs, a[0]+(b[0]-a[0])*(y-a[1])/(b[1]-a[1]))
		}
	}
	slices.Sort(xs)
	var best [2]float64
	for i := 0; i+1 < len(xs); i += 2 {
		if xs[i+1]-xs[i] > best[1]-best[0] {
			best = [2]float64{xs[i], xs[i+1]}
		}
	}
	return best
}
