package bound

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// How outlines are sampled, by which is told what their parts cover.
const (
	samplesOf   = 200  // an outline
	coveredPart = 0.01 // what a sample counts that lies in another part
)

// samples are points of an outline, on a grid.
type samples struct {
	points []orb.Point
	counts []float64 // what each is worth to cover
}

func newSamples(ring orb.Ring) samples {
	var s samples
	box, size := plane.Bounds(ring), math.Sqrt(plane.Area(ring)/samplesOf)
	for x := box.Min[0] + size/2; x < box.Max[0]; x += size {
		for y := box.Min[1] + size/2; y < box.Max[1]; y += size {
			if v := (orb.Point{x, y}); within(ring, v) {
				s.points, s.counts = append(s.points, v), append(s.counts, 1)
			}
		}
	}
	return s
}

// cover lets the samples in a part count for less.
func (s samples) cover(part orb.Ring) {
	for k, v := range s.points {
		if within(part, v) {
			s.counts[k] = coveredPart
		}
	}
}

// gain is what the samples of a counter-clockwise triangle are worth that a part has not yet.
func (s samples) gain(t [3]orb.Point, has []bool) float64 {
	sum := 0.0
	for k, v := range s.points {
		if !has[k] && inTriangle(t, v) {
			sum += s.counts[k]
		}
	}
	return sum
}

// take gives a part the samples of a triangle.
func (s samples) take(t [3]orb.Point, has []bool) {
	for k, v := range s.points {
		has[k] = has[k] || inTriangle(t, v)
	}
}

func inTriangle(t [3]orb.Point, v orb.Point) bool {
	return turn(t[0], t[1], v) >= 0 && turn(t[1], t[2], v) >= 0 && turn(t[2], t[0], v) >= 0
}
