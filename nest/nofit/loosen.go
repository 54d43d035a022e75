package nofit

import "github.com/paulmach/orb"

// loosen moves every edge of a convex sum outward, but for those along an axis,
// by as much as rounding both pieces' places to a lattice of the given spacing
// can move their offset across it, and tolerance more: (|nx| + |ny|) step.
//
// A place outside the loosened sum lies beyond one of its edges. If that edge
// is slanted, rounding cannot bring the place inside the true sum. If it lies
// along an axis, its line is on the lattice, and rounding, being monotone,
// keeps the place beyond it. So a layout without overlap here can be rounded
// to the lattice piece by piece, and exact fits along the axes survive.
func (s *sumPolygon) loosen(step, tolerance float64) {
	margin := 2 * (step + tolerance)
	v := convex{
		{s.lo[0] - margin, s.lo[1] - margin}, {s.hi[0] + margin, s.lo[1] - margin},
		{s.hi[0] + margin, s.hi[1] + margin}, {s.lo[0] - margin, s.hi[1] + margin},
	}
	for _, h := range s.planes {
		if h.nx != 0 && h.ny != 0 {
			h.c += (abs(h.nx)+abs(h.ny))*step + tolerance
		}
		v = v.clip(h)
	}
	*s = newSum(v)
}

// clip returns the part of a convex polygon within the half-plane.
func (c convex) clip(h halfPlane) convex {
	out := make(convex, 0, len(c)+1)
	for i, p := range c {
		q := c[(i+1)%len(c)]
		dp, dq := h.c-h.nx*p[0]-h.ny*p[1], h.c-h.nx*q[0]-h.ny*q[1]
		if dp >= 0 {
			out = append(out, p)
		}
		if dp > 0 && dq < 0 || dp < 0 && dq > 0 {
			t := dp / (dp - dq)
			x := orb.Point{p[0] + t*(q[0]-p[0]), p[1] + t*(q[1]-p[1])}
			switch { // along an axis the line is kept to the last bit
			case h.ny == 0:
				x[0] = h.c * h.nx
			case h.nx == 0:
				x[1] = h.c * h.ny
			}
			out = append(out, x)
		}
	}
	return out
}
