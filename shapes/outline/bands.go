package outline

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes/plane"
)

// side is where a point lies by a ring.
type side int

const (
	outside side = iota
	onRing
	insideRing
)

// bands are the edges of a ring by level bands, so that a point is held against few.
type bands struct {
	ring   orb.Ring
	low    float64
	step   float64
	margin float64 // within it a point lies on the ring, mm
	rows   [][]int32
}

func newBands(ring orb.Ring, margin float64) *bands {
	b := plane.Bounds(ring)
	n := len(ring) - 1
	height := max(b.Max[1]-b.Min[1], plane.Lattice)
	climbs := 0.
	for i := range n {
		climbs += math.Abs(ring[i+1][1]-ring[i][1]) + 2*margin
	}
	// An edge stands in each band that it reaches: so many bands that there are some
	// four entries for an edge at the most.
	rows := int(math.Ceil(min(float64(n)/4, 3*float64(n)*height/climbs)))
	w := &bands{ring: ring, low: b.Min[1] - margin, margin: margin, rows: make([][]int32, max(rows, 1))}
	w.step = (height + 2*margin) / float64(len(w.rows)) * (1 + 1e-12)
	for i := range n {
		p, q := ring[i][1], ring[i+1][1]
		for r := w.row(min(p, q) - margin); r <= w.row(max(p, q)+margin); r++ {
			w.rows[r] = append(w.rows[r], int32(i))
		}
	}
	return w
}

func (w *bands) row(y float64) int {
	return min(max(int((y-w.low)/w.step), 0), len(w.rows)-1)
}

// side says where a point lies, and how many edges that took.
func (w *bands) side(p orb.Point) (side, int) {
	row := w.rows[w.row(p[1])]
	in := false
	for _, i := range row {
		a, b := w.ring[i], w.ring[i+1]
		if planar.DistanceFromSegment(a, b, p) <= w.margin {
			return onRing, len(row)
		}
		if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0]+(b[0]-a[0])*(p[1]-a[1])/(b[1]-a[1]) {
			in = !in
		}
	}
	if in {
		return insideRing, len(row)
	}
	return outside, len(row)
}

// onto is the share of a segment at which it is nearest to a point, and how near.
func onto(p, a, b orb.Point) (share, distance float64) {
	dx, dy := b[0]-a[0], b[1]-a[1]
	if square := dx*dx + dy*dy; square > 0 {
		share = min(max(((p[0]-a[0])*dx+(p[1]-a[1])*dy)/square, 0), 1)
	}
	return share, math.Hypot(p[0]-a[0]-share*dx, p[1]-a[1]-share*dy)
}

// spread are so many points at equal distances along a line, neither end among them.
func spread(line orb.LineString, n int) []orb.Point {
	whole := plane.Length(line)
	var points []orb.Point
	done, i := 0., 1
	for k := range n {
		at := whole * (float64(k) + .5) / float64(n)
		for ; i < len(line)-1; i++ {
			if step := math.Hypot(line[i][0]-line[i-1][0], line[i][1]-line[i-1][1]); done+step < at {
				done += step
				continue
			}
			break
		}
		step := math.Hypot(line[i][0]-line[i-1][0], line[i][1]-line[i-1][1])
		if step == 0 {
			points = append(points, line[i])
			continue
		}
		points = append(points, between(line[i-1], line[i], min((at-done)/step, 1)))
	}
	return points
}
