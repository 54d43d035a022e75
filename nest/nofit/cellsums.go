package nofit

import "github.com/paulmach/orb"

// cellSum is what a convex sum has in one cell: the half-planes that cut the cell,
// and the corners of the part of the cell inside them.
type cellSum struct {
	planes []halfPlane
	inside convex
}

// listPlanes lists for each of the sums that meet the cell about (x, y) the
// half-planes that cut it: a point of the cell is in the sum when it is in all of
// those. Of a sum that covers the cell there are none, and no other matters; nor do
// sums whose part of the cell lies within another's, which are most of all. It
// reports whether any sum meets the cell.
func (r *union) listPlanes(x, y float64, sums []int32) bool {
	g := &r.grid
	margin := r.minSegment + r.scale*0x1p-30
	half := orb.Point{0.5/g.invX + margin, 0.5/g.invY + margin}
	var found []cellSum
	for _, i := range sums {
		switch s, meets := r.sums[i].within(x, y, half); {
		case !meets:
		case len(s.planes) == 0:
			return true
		default:
			found = append(found, s)
		}
	}
	kept := 0
	for k := range found {
		if !r.isCovered(found, k, kept) {
			found[kept], found[k] = found[k], found[kept]
			kept++
		}
	}
	for _, s := range found[:kept] {
		g.planes = append(g.planes, s.planes...)
		g.groups = append(g.groups, int32(len(s.planes)))
	}
	return kept > 0
}

// isCovered reports whether found[k] lies within one that is kept or one that is
// still to be looked at.
func (r *union) isCovered(found []cellSum, k, kept int) bool {
	for j := range found {
		if j != k && (j < kept || j > k) && found[j].holds(found[k].inside, r.tolerance()) {
			return true
		}
	}
	return false
}

func (s *cellSum) holds(corners convex, eps float64) bool {
	for _, p := range corners {
		for _, h := range s.planes {
			if h.nx*p[0]+h.ny*p[1] > h.c+eps {
				return false
			}
		}
	}
	return true
}

// within returns what the sum has in the cell about (x, y), half as long and as
// high as half says; false when it does not meet it.
func (s *sumPolygon) within(x, y float64, half orb.Point) (out cellSum, meets bool) {
	for _, h := range s.planes {
		room, reach := h.c-h.nx*x-h.ny*y, abs(h.nx)*half[0]+abs(h.ny)*half[1]
		if room <= -reach {
			return out, false
		}
		if room < reach {
			out.planes = append(out.planes, h)
		}
	}
	out.inside = convex{
		{x - half[0], y - half[1]}, {x + half[0], y - half[1]}, {x + half[0], y + half[1]}, {x - half[0], y + half[1]},
	}
	for _, h := range out.planes {
		if out.inside = out.inside.cut(h); len(out.inside) == 0 {
			return out, false
		}
	}
	return out, true
}

// cut returns the part of the polygon in a half-plane.
func (c convex) cut(h halfPlane) (out convex) {
	for i, p := range c {
		q := c[(i+1)%len(c)]
		dp, dq := h.nx*p[0]+h.ny*p[1]-h.c, h.nx*q[0]+h.ny*q[1]-h.c
		if dp <= 0 {
			out = append(out, p)
		}
		if dp < 0 && dq > 0 || dp > 0 && dq < 0 {
			t := dp / (dp - dq)
			out = append(out, orb.Point{p[0] + t*(q[0]-p[0]), p[1] + t*(q[1]-p[1])})
		}
	}
	return out
}
