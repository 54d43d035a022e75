package nofit

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"
)

// trace finds the boundary of the union: every edge of every sum, less the
// stretches strictly inside another sum. No general union is formed; a slit of
// no width between two sums keeps both its sides, so that exact fits survive.
// Corners that several sums share are loosened a little differently by each;
// the stretches left of that, shorter than a step of the lattice, were half of
// all and are dropped: no place is rounded finer.
func (r *union) trace() {
	eps := r.tolerance()
	var covered []span
	for i := range r.sums {
		if r.stop() {
			return
		}
		s := &r.sums[i]
		for k, p := range s.vertices {
			if !s.mayBound[k] {
				continue
			}
			q := s.vertices[(k+1)%len(s.vertices)]
			h := s.planes[k]
			covered = covered[:0]
			for j := range r.sums {
				if j == i {
					continue
				}
				if c, ok := r.sums[j].cover(p, q, h, j < i, eps); ok {
					covered = append(covered, c)
				}
			}
			r.keepUncovered(p, q, h, covered)
		}
	}
}

// span is a stretch of an edge, in fractions of its length.
type span struct{ from, to float64 }

// cover returns the stretch of the edge p q, with outward normal of h, that
// lies deeper than eps inside the sum. Where the sum has the same edge line
// facing the same way, the earlier of the two sums (first) counts as covering
// it, so that only one of them is kept.
func (s *sumPolygon) cover(p, q orb.Point, h halfPlane, first bool, eps float64) (span, bool) {
	if max(p[0], q[0]) < s.lo[0] || min(p[0], q[0]) > s.hi[0] ||
		max(p[1], q[1]) < s.lo[1] || min(p[1], q[1]) > s.hi[1] {
		return span{}, false
	}
	c := span{0, 1}
	for _, g := range s.planes {
		dp := g.c - eps - g.nx*p[0] - g.ny*p[1]
		dq := g.c - eps - g.nx*q[0] - g.ny*q[1]
		if first && g.nx*h.nx+g.ny*h.ny > 0 && abs(dp+eps) < eps && abs(dq+eps) < eps {
			continue
		}
		switch {
		case dp <= 0 && dq <= 0:
			return span{}, false
		case dp < 0:
			c.from = max(c.from, dp/(dp-dq))
		case dq < 0:
			c.to = min(c.to, dp/(dp-dq))
		}
		if c.from >= c.to {
			return span{}, false
		}
	}
	return c, true
}

func (r *union) keepUncovered(p, q orb.Point, h halfPlane, covered []span) {
	slices.SortFunc(covered, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	dx, dy := q[0]-p[0], q[1]-p[1]
	length := h.nx*dy - h.ny*dx
	keep := func(from, to float64) {
		if (to-from)*length <= r.minSegment {
			return
		}
		r.segments = append(r.segments, segment{
			ax: p[0] + from*dx, ay: p[1] + from*dy,
			ux: -h.ny, uy: h.nx,
			length: (to - from) * length,
		})
	}
	at := 0.0
	for _, c := range covered {
		if c.from > at {
			keep(at, c.from)
		}
		at = max(at, c.to)
	}
	if at < 1 {
		keep(at, 1)
	}
}

func abs(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}
