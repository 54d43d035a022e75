package outline

import (
	"math"

	"github.com/paulmach/orb"
)

// traceThrough draws a smooth curve through points: cubic between two of them, its second
// derivatives the same from both sides, as parameters the lengths of the chords. Its ends
// have the directions that the file gives, or no curvature; a closed one goes on as it began.
// Programs that draw the points alone may choose another curve: the notes tell.
func (s *dxfSpline) traceThrough(t *dxfTrace) error {
	if err := t.spend(len(s.through)); err != nil {
		return err
	}
	var q []orb.Point
	for _, p := range s.through {
		if p = t.m.apply(p); len(q) == 0 || p != q[len(q)-1] {
			if err := within(p, 10*MaxCoordinate); err != nil {
				return err
			}
			q = append(q, p)
		}
	}
	closed := len(q) > 3 && q[0] == q[len(q)-1]
	if s.flags&splineClosed != 0 && len(q) > 2 && !closed {
		q, closed = append(q, q[0]), true
	}
	if len(q) < 2 {
		return nil
	}
	ends := [2]orb.Point{unset, unset}
	for i, v := range s.tangents {
		if given(v) && v != (orb.Point{}) && !closed {
			v = t.m.turn(v)
			size := math.Hypot(v[0], v[1])
			ends[i] = orb.Point{v[0] / size, v[1] / size}
		}
	}
	from := 0
	if closed {
		q, from = unrolled(q)
	}
	slopes := slopesThrough(q, ends)
	t.line = append(t.line, q[from])
	for i := from; i < len(q)-1-from; i++ {
		h := math.Hypot(q[i+1][0]-q[i][0], q[i+1][1]-q[i][1]) / 3
		a, b := q[i], q[i+1]
		t.line = flattenCubic(t.line, [4]orb.Point{a, {a[0] + h*slopes[i][0], a[1] + h*slopes[i][1]},
			{b[0] - h*slopes[i+1][0], b[1] - h*slopes[i+1][1]}, b}, t.e)
		if len(t.line) > t.left {
			return errManyVertices
		}
	}
	t.closed = closed
	return nil
}

// turnsBefore is how many points of a closed curve are gone through before it begins and
// after it ends. What is done at an end falls to a quarter at each point: these leave
// 1e-12 of it.
const turnsBefore = 20

// unrolled goes on around a closed curve, whose last point is the first, at both ends.
func unrolled(q []orb.Point) (longer []orb.Point, from int) {
	n := len(q) - 1
	for i := -turnsBefore; i <= n+turnsBefore; i++ {
		longer = append(longer, q[((i%n)+n)%n])
	}
	return longer, turnsBefore
}

// slopesThrough solves for the derivatives of the cubic spline through points, by the lengths
// of the chords: with h the chords, m the slopes and d the directions of the chords,
// h(i) m(i-1) + 2 (h(i-1) + h(i)) m(i) + h(i-1) m(i+1) = 3 (h(i) d(i-1) + h(i-1) d(i)).
// An end without a direction has no second derivative: 2 m(0) + m(1) = 3 d(0).
func slopesThrough(q []orb.Point, ends [2]orb.Point) []orb.Point {
	n := len(q)
	h, d := make([]float64, n-1), make([]orb.Point, n-1)
	for i := range h {
		h[i] = math.Hypot(q[i+1][0]-q[i][0], q[i+1][1]-q[i][1])
		d[i] = orb.Point{(q[i+1][0] - q[i][0]) / h[i], (q[i+1][1] - q[i][1]) / h[i]}
	}
	up, m := make([]float64, n), make([]orb.Point, n)
	for i := range m {
		below, middle, above, right := 0.0, 0.0, 0.0, orb.Point{}
		switch end := i / max(n-1, 1); {
		case (i == 0 || i == n-1) && given(ends[end]):
			middle, right = 1, ends[end]
		case i == 0:
			middle, above, right = 2, 1, orb.Point{3 * d[0][0], 3 * d[0][1]}
		case i == n-1:
			below, middle, right = 1, 2, orb.Point{3 * d[n-2][0], 3 * d[n-2][1]}
		default:
			below, middle, above = h[i], 2*(h[i-1]+h[i]), h[i-1]
			for k := range right {
				right[k] = 3 * (h[i]*d[i-1][k] + h[i-1]*d[i][k])
			}
		}
		if i > 0 { // Thomas: what is below the diagonal goes
			middle -= below * up[i-1]
			right = orb.Point{right[0] - below*m[i-1][0], right[1] - below*m[i-1][1]}
		}
		up[i], m[i] = above/middle, orb.Point{right[0] / middle, right[1] / middle}
	}
	for i := n - 2; i >= 0; i-- {
		m[i] = orb.Point{m[i][0] - up[i]*m[i+1][0], m[i][1] - up[i]*m[i+1][1]}
	}
	return m
}
