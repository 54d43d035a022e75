package nofit

import "github.com/paulmach/orb"

// loosened returns the polygon with every side moved outward, but for those
// along an axis, by as much as rounding both pieces' places to a lattice of the
// given spacing can move their offset across it, and tolerance more:
// (|nx| + |ny|) step.
//
// A place outside the loosened polygon lies beyond one of its sides. If that side
// is slanted, rounding cannot bring the place inside the true one. If it lies
// along an axis, its line is on the lattice, and rounding, being monotone,
// keeps the place beyond it. So a layout without overlap here can be rounded
// to the lattice piece by piece, and exact fits along the axes survive.
func (s *sumPolygon) loosened(step, tolerance float64) sumPolygon {
	n := len(s.planes)
	w := halfPlaneSweep{sides: make([]halfPlane, 0, n), mayBound: make([]bool, 0, n), meets: make(convex, 0, n)}
	for k, h := range s.planes {
		if h.nx != 0 && h.ny != 0 {
			h.c += (abs(h.nx)+abs(h.ny))*step + tolerance
		}
		w.add(h, s.mayBound[k])
	}
	w.close()
	// The sides stay as they are: made anew from its corners, a short side that is
	// nearly parallel to its neighbour would lean by what the corner is rounded by.
	return sumPolygon{vertices: w.meets, mayBound: w.mayBound, planes: w.sides}.bounded()
}

// halfPlaneSweep is the boundary of the intersection of half-planes, added in order of
// direction: the linear sweep of F. P. Preparata & M. I. Shamos, "Computational
// Geometry" (1985), section 7.2. Its sides from first on stand.
type halfPlaneSweep struct {
	first    int
	sides    []halfPlane
	mayBound []bool // marks of the sides, carried along
	meets    convex // meets[k] is where side k begins: its corner with the one before
}

// add takes in the next half-plane. A corner that lies outside it falls away, and
// with it the side that has no other left.
func (w *halfPlaneSweep) add(h halfPlane, mayBound bool) {
	if n := len(w.sides); n > w.first && w.sides[n-1].sameDirection(h) {
		w.mayBound[n-1] = w.mayBound[n-1] || mayBound
		if h.axial() {
			w.sides[n-1] = h
		}
		return
	}
	for len(w.sides)-w.first >= 2 && h.excludes(w.meets[len(w.sides)-1]) {
		w.dropLast()
	}
	for len(w.sides)-w.first >= 2 && h.excludes(w.meets[w.first+1]) {
		w.first++
	}
	corner := orb.Point{}
	if n := len(w.sides); n > w.first {
		corner = w.sides[n-1].crossing(h)
	}
	w.sides, w.mayBound, w.meets = append(w.sides, h), append(w.mayBound, mayBound), append(w.meets, corner)
}

func (w *halfPlaneSweep) dropLast() {
	n := len(w.sides) - 1
	w.sides, w.mayBound, w.meets = w.sides[:n], w.mayBound[:n], w.meets[:n]
}

// close joins the last side to the first.
func (w *halfPlaneSweep) close() {
	if n := len(w.sides) - 1; w.sides[n].sameDirection(w.sides[w.first]) {
		w.mayBound[w.first] = w.mayBound[w.first] || w.mayBound[n]
		if w.sides[n].axial() {
			w.sides[w.first] = w.sides[n]
		}
		w.dropLast()
	}
	for len(w.sides)-w.first > 2 && w.sides[w.first].excludes(w.meets[len(w.sides)-1]) {
		w.dropLast()
	}
	for len(w.sides)-w.first > 2 && w.sides[len(w.sides)-1].excludes(w.meets[w.first+1]) {
		w.first++
	}
	w.sides, w.mayBound, w.meets = w.sides[w.first:], w.mayBound[w.first:], w.meets[w.first:]
	w.meets[0] = w.sides[len(w.sides)-1].crossing(w.sides[0])
}

// parallelSine is the sine of the angle below which two sides count as one: their crossing is
// lost in rounding. One of them left out, the polygon grows by that much of its
// length, 1e-5 mm for the longest gown.
const parallelSine = 1e-9

// sameDirection reports whether two half-planes of one convex polygon face the same way:
// then they are one side, twice.
func (h halfPlane) sameDirection(g halfPlane) bool {
	return h.nx*g.nx+h.ny*g.ny > 0 && abs(h.nx*g.ny-h.ny*g.nx) < parallelSine
}

// axial reports whether the edge lies along an axis, so that places on the lattice can
// lie on it.
func (h halfPlane) axial() bool { return h.nx == 0 || h.ny == 0 }

// excludes reports whether p lies outside the half-plane.
func (h halfPlane) excludes(p orb.Point) bool { return h.nx*p[0]+h.ny*p[1] > h.c }

// crossing returns where the edges of two half-planes meet; of one along an axis
// the line is kept to the last bit. However small their angle, the point lies on both
// to the last few bits: it is looked for along one of them.
func (h halfPlane) crossing(g halfPlane) orb.Point {
	foot, along := orb.Point{h.c * h.nx, h.c * h.ny}, orb.Point{-h.ny, h.nx}
	t := (g.c - g.nx*foot[0] - g.ny*foot[1]) / (g.nx*along[0] + g.ny*along[1])
	p := orb.Point{foot[0] + t*along[0], foot[1] + t*along[1]}
	for _, k := range [2]halfPlane{h, g} {
		switch {
		case k.ny == 0:
			p[0] = k.c * k.nx
		case k.nx == 0:
			p[1] = k.c * k.ny
		}
	}
	return p
}
