package nofit

import "github.com/paulmach/orb"

// cellSum is what a convex sum has in one cell: the half-planes that cut the cell,
// and the corners of the part of the cell inside them.
type cellSum struct {
	planes []halfPlane
	inside convex
}

// workspace is what a region under construction is reckoned in, block by block and cell
// by cell: made anew each time it would be most of the work.
type workspace struct {
	blocks      [levels]candidates // of the block in hand at each size
	distances   []float64          // of its segments
	found       []cellSum          // of the cell in hand
	planes      []halfPlane        // those found have
	corners     convex             // likewise
	left, other convex             // of a cell that is being cut
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
	w := &r.work
	found := w.found[:0]
	w.planes, w.corners = w.planes[:0], w.corners[:0]
	for _, i := range sums {
		switch s, meets := r.sums[i].within(w, x, y, half); {
		case !meets:
		case len(s.planes) == 0:
			return true
		default:
			found = append(found, s)
		}
	}
	w.found = found
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
// high as half says; false when it does not meet it. It stands in w, until the next
// cell is begun.
func (s *sumPolygon) within(w *workspace, x, y float64, half orb.Point) (out cellSum, meets bool) {
	from := len(w.planes)
	for _, h := range s.planes {
		room, reach := h.c-h.nx*x-h.ny*y, abs(h.nx)*half[0]+abs(h.ny)*half[1]
		if room <= -reach {
			w.planes = w.planes[:from]
			return out, false
		}
		if room < reach {
			w.planes = append(w.planes, h)
		}
	}
	out.planes = w.planes[from:len(w.planes):len(w.planes)]
	left := append(w.left[:0], orb.Point{x - half[0], y - half[1]}, orb.Point{x + half[0], y - half[1]},
		orb.Point{x + half[0], y + half[1]}, orb.Point{x - half[0], y + half[1]})
	other := w.other
	for _, h := range out.planes {
		left, other = left.cut(h, other[:0]), left
		if len(left) == 0 {
			break
		}
	}
	w.left, w.other = left, other
	if len(left) == 0 {
		w.planes = w.planes[:from]
		return out, false
	}
	from = len(w.corners)
	w.corners = append(w.corners, left...)
	out.inside = w.corners[from:len(w.corners):len(w.corners)]
	return out, true
}

// cut appends the part of the polygon in a half-plane.
func (c convex) cut(h halfPlane, out convex) convex {
	for i, p := range c {
		q := c[0]
		if i+1 < len(c) {
			q = c[i+1]
		}
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
