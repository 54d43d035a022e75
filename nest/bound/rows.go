package bound

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Pieces so wide that each must cross a common line along the cloth lie in a row:
// convex and apart, they follow each other in one order on every line that two of
// them share. The least distance D from one to the next, along the cloth, depends
// on how far the next lies higher, and is a concave function of that, being
//
//	D(d) = max over lines s of right(s) - left(s-d), right and -left concave.
//
// The length of a row, its steps and its last piece, is then concave in the
// places across the cloth, so that it is least with every piece at one of its two
// outermost places: the shortest row is found among finitely many.

// seat is a piece in one of its ways at one of its outermost places across.
type seat struct {
	item   int
	body   orb.Ring // convex, inside the piece, grown by half the gap, where it lies across
	extent float64  // of the piece along the cloth, mm
}

// row is a set of items of a problem that must all cross line `at`.
type row struct {
	at    float64 // mm across the cloth
	items []int
	seats []seat
	steps [][]float64 // least step from seat to seat, mm
}

// maxRowStates bounds the work of finding the shortest row.
const maxRowStates = 1 << 16

// crossing is the open interval of lines that an item crosses wherever it lies.
type crossing struct {
	from, to float64
	bodies   []orb.Ring // convex part of each way
}

// crossings returns what every item must cross on a cloth of the given width.
func (s *setting) crossings(width float64) []crossing {
	out := make([]crossing, len(s.items))
	for i, it := range s.items {
		c := crossing{from: 0, to: width}
		if len(it.ways) == 0 {
			c.to = 0
		}
		for _, w := range it.ways {
			body := convexPart(w.ring)
			if body == nil {
				c.to = 0
				break
			}
			box := plane.Bounds(body)
			c.from = max(c.from, width-w.across+box.Min[1])
			c.to = min(c.to, box.Max[1])
			c.bodies = append(c.bodies, body)
		}
		out[i] = c
	}
	return out
}

// rows returns the sets of items worth looking at: those that must cross the
// middle of one item's interval.
func (s *setting) rows() []row {
	all := s.crossings(s.width)
	var out []row
	for _, c := range all {
		if c.from >= c.to {
			continue
		}
		r := row{at: (c.from + c.to) / 2}
		for i, o := range all {
			if o.from < r.at && r.at < o.to {
				r.items = append(r.items, i)
			}
		}
		if slices.ContainsFunc(out, func(o row) bool { return slices.Equal(o.items, r.items) }) {
			continue
		}
		r.limit(s)
		r.seat(s, all)
		out = append(out, r)
	}
	return out
}

// limit leaves out items, those that cover least first, until the row is small
// enough to be searched through.
func (r *row) limit(s *setting) {
	slices.SortStableFunc(r.items, func(a, b int) int {
		return int(math.Copysign(1, s.covers(b)-s.covers(a)))
	})
	states := 1
	for n, i := range r.items {
		states *= s.items[i].count + 1
		if states > maxRowStates {
			r.items = r.items[:n]
			return
		}
	}
}

// covers is what all copies of an item cover, mm2.
func (s *setting) covers(i int) float64 {
	return plane.Area(s.items[i].ways[0].ring) * float64(s.items[i].count)
}

// seat fills in seats and steps.
func (r *row) seat(s *setting, all []crossing) {
	for n, i := range r.items {
		for k, w := range s.items[i].ways {
			body := all[i].bodies[k]
			if s.gap > 0 {
				body = growConvex(body, s.gap/2)
			}
			for _, y := range []float64{0, s.width - w.across} {
				r.seats = append(r.seats, seat{item: n, body: lifted(body, y), extent: w.along})
			}
		}
	}
	r.steps = make([][]float64, len(r.seats))
	for i, a := range r.seats {
		for _, b := range r.seats {
			r.steps[i] = append(r.steps[i], step(a.body, b.body))
		}
	}
}

func lifted(ring orb.Ring, y float64) orb.Ring {
	out := make(orb.Ring, len(ring))
	for i, v := range ring {
		out[i] = orb.Point{v[0], v[1] + y}
	}
	return out
}

// step returns how far b must be moved along the cloth at the least to lie beyond
// a; both convex, with lines in common. The greatest overlap of a line is on one
// through a vertex.
func step(a, b orb.Ring) float64 {
	boxA, boxB := plane.Bounds(a), plane.Bounds(b)
	from, to := max(boxA.Min[1], boxB.Min[1]), min(boxA.Max[1], boxB.Max[1])
	most := math.Inf(-1)
	for _, ring := range []orb.Ring{a, b} {
		for _, v := range ring {
			if v[1] >= from && v[1] <= to {
				_, right := span(a, v[1])
				left, _ := span(b, v[1])
				most = max(most, right-left)
			}
		}
	}
	return most
}

// span returns the ends of what a line across a convex ring covers.
func span(ring orb.Ring, s float64) (left, right float64) {
	left, right = math.Inf(1), math.Inf(-1)
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		if a[1] > b[1] {
			a, b = b, a
		}
		if s < a[1] || s > b[1] {
			continue
		}
		x, y := a[0], b[0]
		if a[1] != b[1] {
			x = between(a, b, 1, 0, s)
			y = x
		}
		left, right = min(left, x, y), max(right, x, y)
	}
	return left, right
}

// shortest returns the length of the shortest row of all copies.
func (r row) shortest(s *setting) float64 {
	if len(r.items) == 0 {
		return 0
	}
	weight := make([]int, len(r.items)) // of one copy in the number of a state
	states := 1
	for n, i := range r.items {
		weight[n] = states
		states *= s.items[i].count + 1
	}
	// best[k][a] is the least place of a last piece at seat a, when the pieces
	// counted in k are laid.
	best := make([][]float64, states)
	for k := range best {
		best[k] = make([]float64, len(r.seats))
		for a, seat := range r.seats {
			best[k][a] = math.Inf(1)
			w := weight[seat.item]
			if k/w%(s.items[r.items[seat.item]].count+1) == 0 {
				continue
			}
			if k == w {
				best[k][a] = 0
				continue
			}
			for b, before := range best[k-w] {
				best[k][a] = min(best[k][a], before+r.steps[b][a])
			}
		}
	}
	least := math.Inf(1)
	for a, x := range best[states-1] {
		least = min(least, x+r.seats[a].extent)
	}
	return least
}
