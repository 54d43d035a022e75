package remains

import (
	"slices"

	"github.com/paulmach/orb"
	"github.com/peterstace/simplefeatures/geom"

	"yardlay/shapes/plane"
)

// area is a part of the plane: polygons with holes, or none.
type area struct{ g geom.Geometry }

// areaOf is what lies in a ring.
func areaOf(r orb.Ring) area {
	return area{geom.NewPolygonXY(flat(r)).AsGeometry()}
}

// boxOf is an upright rectangle.
func boxOf(b orb.Bound) area { return areaOf(b.ToRing()) }

func flat(r orb.Ring) []float64 {
	xy := make([]float64, 0, 2*len(r))
	for _, v := range r {
		xy = append(xy, v[0], v[1])
	}
	return xy
}

// joined is what lies in any of the rings. They are joined two and two: a union of many at once
// (geom.UnionMany of v0.54) loses parts where some of them overlap.
func joined(rings []orb.Ring) (area, error) {
	switch n := len(rings); n {
	case 0:
		return area{}, nil
	case 1:
		return areaOf(onLattice(rings[0])), nil
	default:
		a, err := joined(rings[:n/2])
		if err != nil {
			return area{}, err
		}
		b, err := joined(rings[n/2:])
		if err != nil {
			return area{}, err
		}
		return a.and(b)
	}
}

func (a area) minus(b area) (area, error) {
	g, err := geom.Difference(a.g, b.g)
	return area{g}, err
}

func (a area) within(b area) (area, error) {
	g, err := geom.Intersection(a.g, b.g)
	return area{g}, err
}

func (a area) and(b area) (area, error) {
	g, err := geom.Union(a.g, b.g)
	return area{g}, err
}

// patch is one connected part of an area.
type patch struct {
	outer orb.Ring // closed, counter-clockwise
	holes []orb.Ring
}

// nothing is an area that only rounding leaves, mm2: less than of any outline that fits by a hair.
const nothing = 1e-6

// patches lists the connected parts of an area; lines, points and what only rounding leaves are none.
func (a area) patches() []patch {
	var list []patch
	for _, g := range a.g.Dump() {
		p, ok := g.AsPolygon()
		if !ok || p.Area() < nothing {
			continue
		}
		one := patch{outer: ringOf(p.ExteriorRing())}
		for i := range p.NumInteriorRings() {
			one.holes = append(one.holes, ringOf(p.InteriorRingN(i)))
		}
		list = append(list, one)
	}
	return list
}

// ringOf returns a ring counter-clockwise.
func ringOf(l geom.LineString) orb.Ring {
	s := l.Coordinates()
	r := make(orb.Ring, s.Length())
	for i := range r {
		xy := s.GetXY(i)
		r[i] = orb.Point{xy.X, xy.Y}
	}
	if plane.Area(r) < 0 {
		slices.Reverse(r)
	}
	return onLattice(r)
}

// onLattice moves the corners of a ring to the lattice, where that leaves it simple: what nearly meets
// would break overlays. It may grow by half a step, which the judge of what is kept sees.
func onLattice(r orb.Ring) orb.Ring {
	if snapped := plane.Tidy(plane.SnapRing(r)); len(snapped) > 3 && plane.CheckSimple(snapped) == nil {
		return snapped
	}
	return plane.Tidy(r)
}

// area is that of the patch.
func (p patch) area() area {
	rings := [][]float64{flat(p.outer)}
	for _, h := range p.holes {
		rings = append(rings, flat(h))
	}
	return area{geom.NewPolygonXY(rings...).AsGeometry()}
}

// rings lists the edges of an area, holes too.
func (a area) rings() []orb.Ring {
	var all []orb.Ring
	for _, p := range a.patches() {
		all = append(append(all, p.outer), p.holes...)
	}
	return all
}

// swept is what a convex outline passes over whose origin runs along the edges of an area.
func (a area) swept(convex orb.Ring) (area, error) {
	var all []orb.Ring
	for _, r := range a.rings() {
		for i := 1; i < len(r); i++ {
			var points []orb.Point
			for _, v := range convex[1:] {
				points = append(points, orb.Point{r[i-1][0] + v[0], r[i-1][1] + v[1]},
					orb.Point{r[i][0] + v[0], r[i][1] + v[1]})
			}
			if hull := plane.Hull(points); len(hull) > 3 {
				all = append(all, hull)
			}
		}
	}
	return joined(all)
}

// places is where the origin of a convex outline, which holds it, may be so that all of the
// outline lies in the area.
func (a area) places(convex orb.Ring) (area, error) {
	turned := make(orb.Ring, len(convex))
	for i, v := range convex {
		turned[i] = orb.Point{-v[0], -v[1]}
	}
	edge, err := a.swept(turned)
	if err != nil {
		return area{}, err
	}
	return a.minus(edge)
}

// takes says whether a convex outline lies anywhere in the area as it is.
func (a area) takes(convex orb.Ring) (bool, error) {
	at, err := a.places(convex)
	return err == nil && len(at.patches()) > 0, err
}

// openedBy is all of an area that a convex outline, which holds the origin, covers wherever it
// lies in the area.
func (a area) openedBy(convex orb.Ring) (area, error) {
	at, err := a.places(convex)
	if err != nil || len(at.patches()) == 0 {
		return area{}, err
	}
	opened, err := at.swept(convex)
	for _, p := range at.patches() {
		if err == nil {
			opened, err = opened.and(p.area())
		}
	}
	return opened, err
}
