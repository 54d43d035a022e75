package plane

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// CheckSimple reports why r is not the outline of a piece: a simple ring, closed
// and counter-clockwise, of at least three distinct finite vertices, with no
// vertex repeated and no two edges touching except neighbours at their common
// vertex. Sides are exact (Orient), so a nil error is a proof. The error names
// the place in the ring's own coordinates, mm.
func CheckSimple(r orb.Ring) error {
	for i, p := range r {
		if !finite(p) {
			return fmt.Errorf("vertex %d is not finite: %v", i, p)
		}
	}
	if len(r) < 4 {
		return fmt.Errorf("ring has %d vertices, needs three and the first again", len(r))
	}
	if r[0] != r[len(r)-1] {
		return say.Errorf("ring is open: starts at %s, ends at %s", Place(r[0]), Place(r[len(r)-1]))
	}
	for i := 1; i < len(r); i++ {
		if r[i] == r[i-1] {
			return say.Errorf("vertex %d at %s is repeated", i, Place(r[i]))
		}
	}
	if err := checkSpikes(r); err != nil {
		return err
	}
	if err := checkCrossings(r); err != nil {
		return err
	}
	if !turnsLeft(r) {
		return errors.New("ring runs clockwise")
	}
	return nil
}

// Unsound is the error of a ring that crosses, touches or turns back upon itself, with a
// place where it does, mm.
type Unsound struct {
	At  orb.Point
	err error
}

func (e *Unsound) Error() string { return e.err.Error() }

// Unwrap returns the error that says it.
func (e *Unsound) Unwrap() error { return e.err }

// Place names a point, mm, in a message.
func Place(p orb.Point) say.Text { return say.Textf("(%.3f, %.3f)", say.MM(p[0]), say.MM(p[1])) }

func finite(p orb.Point) bool {
	return !math.IsNaN(p[0]) && !math.IsNaN(p[1]) && !math.IsInf(p[0], 0) && !math.IsInf(p[1], 0)
}

// checkSpikes refuses a vertex at which the ring turns back upon itself.
func checkSpikes(r orb.Ring) error {
	n := len(r) - 1
	for i := range n {
		a, b, c := r[(i+n-1)%n], r[i], r[i+1]
		if Orient(a, b, c) == 0 && !between(a, c, b) {
			return &Unsound{b, say.Errorf("ring turns back upon itself at vertex %d, %s", i, Place(b))}
		}
	}
	return nil
}

// between says whether p, on the line through a and b, lies on the segment.
func between(a, b, p orb.Point) bool {
	return min(a[0], b[0]) <= p[0] && p[0] <= max(a[0], b[0]) &&
		min(a[1], b[1]) <= p[1] && p[1] <= max(a[1], b[1])
}

// checkCrossings sweeps the edges by their least x and tests those whose boxes meet.
func checkCrossings(r orb.Ring) error {
	n := len(r) - 1
	order, low := make([]int, n), make([]float64, n)
	for i := range order {
		order[i], low[i] = i, min(r[i][0], r[i+1][0])
	}
	slices.SortFunc(order, func(i, j int) int {
		if low[i] != low[j] {
			return cmp.Compare(low[i], low[j])
		}
		return i - j
	})
	var active []int
	for _, i := range order {
		x, kept := low[i], active[:0]
		for _, j := range active {
			if max(r[j][0], r[j+1][0]) < x {
				continue
			}
			kept = append(kept, j)
			if (i+1)%n == j || (j+1)%n == i {
				continue // neighbours share a vertex; spikes are refused before
			}
			if SegmentsMeet(r[i], r[i+1], r[j], r[j+1]) {
				at := meeting(r[i], r[i+1], r[j], r[j+1])
				return &Unsound{at, say.Errorf("ring crosses or touches itself at %s: edges %d and %d", Place(at),
					min(i, j), max(i, j))}
			}
		}
		active = append(kept, i)
	}
	return nil
}

// SegmentsMeet says exactly whether the closed segments ab and cd share a point.
func SegmentsMeet(a, b, c, d orb.Point) bool {
	if max(a[0], b[0]) < min(c[0], d[0]) || max(c[0], d[0]) < min(a[0], b[0]) ||
		max(a[1], b[1]) < min(c[1], d[1]) || max(c[1], d[1]) < min(a[1], b[1]) {
		return false
	}
	c1, d1 := Orient(a, b, c), Orient(a, b, d)
	if c1*d1 > 0 {
		return false
	}
	// Collinear segments whose boxes meet share a point, and all four are 0 then.
	return Orient(c, d, a)*Orient(c, d, b) <= 0
}

// meeting returns a point near which two segments that meet do so.
func meeting(a, b, c, d orb.Point) orb.Point {
	if p, ok := crossing(a, sub(b, a), c, sub(d, c)); ok {
		return p
	}
	for _, p := range []orb.Point{a, b} {
		if between(c, d, p) {
			return p
		}
	}
	return c
}

// turnsLeft says whether a simple ring is counter-clockwise, exactly: by the
// turn at its lowest of the leftmost vertices, or the first turn that is not
// straight after it.
func turnsLeft(r orb.Ring) bool {
	n, least := len(r)-1, 0
	for i := 1; i < n; i++ {
		if r[i][0] < r[least][0] || (r[i][0] == r[least][0] && r[i][1] < r[least][1]) {
			least = i
		}
	}
	return Orient(r[(least+n-1)%n], r[least], r[least+1]) > 0
}
