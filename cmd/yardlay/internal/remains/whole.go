package remains

import (
	"errors"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Left is an outline that is left of a cloth.
type Left struct {
	Outline orb.Ring  // whole mm, closed, counter-clockwise, simple
	From    orb.Point // where its (0, 0) lies on the cloth, on the lattice: a corner of the repeat where there is one
}

// OnCloth returns the outline where it lies on the cloth.
func (l Left) OnCloth() orb.Ring { return plane.Pose{At: l.From}.Apply(l.Outline) }

// onCloth is the least of its places along an axis.
func (l Left) onCloth(axis int) float64 { return plane.Bounds(l.Outline).Min[axis] + l.From[axis] }

// Area is what it covers, mm2.
func (l Left) Area() float64 { return plane.Area(l.Outline) }

// inward lists how far an area is drawn in, mm, before its corners go to whole millimetres: not at all
// does where its edges are whole ones, half a millimetre is more than any corner then moves, and the
// last is for what the others leave crossing itself.
var inward = []float64{0, 0.51, 2}

// keep makes outlines of a part: one, but where it falls apart at a waist; none where nothing is left that
// is worth it.
func (c Cloth) keep(p area, in inset) ([]Left, error) {
	for _, by := range inward {
		drawn, err := p.drawnIn(by)
		if err != nil {
			return nil, err
		}
		all, ok := c.roundedAll(drawn.patches())
		if !ok {
			continue
		}
		var kept []Left
		for _, l := range all {
			good, err := in.useful(areaOf(l.Outline))
			if err != nil {
				return nil, err
			}
			if good {
				kept = append(kept, l)
			}
		}
		return kept, nil
	}
	return nil, errors.New("an outline does not hold")
}

// roundedAll rounds patches that are worth keeping; false where one of them does not hold afterwards.
func (c Cloth) roundedAll(patches []patch) (all []Left, ok bool) {
	for _, one := range patches {
		if plane.Area(one.outer) < least {
			continue
		}
		l, ok := c.rounded(one.outer)
		if !ok || len(one.holes) > 0 {
			return nil, false
		}
		all = append(all, l)
	}
	return all, c.judge(all) == nil
}

// drawnIn is an area less what lies nearer than so much to its edge, along and across the cloth.
func (a area) drawnIn(mm float64) (area, error) {
	if mm == 0 {
		return a, nil
	}
	return a.places(inset(0).rectangle(2*mm, 2*mm))
}

// rounded takes the corners of a ring to whole millimetres from where the outline begins, and leaves
// out the least of them where they are too many.
func (c Cloth) rounded(ring orb.Ring) (Left, bool) {
	ring = fewer(ring)
	l := Left{From: c.corner(plane.Bounds(ring).Min)}
	for _, v := range ring {
		l.Outline = append(l.Outline, orb.Point{math.Round(v[0] - l.From[0]), math.Round(v[1] - l.From[1])})
	}
	l.Outline = c.toCorner(plane.Tidy(l.Outline), &l.From)
	sound := len(l.Outline) >= 4 && len(l.Outline)-1 <= MostCorners && plane.Area(l.Outline) > 0 &&
		plane.CheckSimple(l.Outline) == nil
	return l, sound
}

// corner is the last corner of the repeat before a place; along an axis without one, the place itself in whole mm.
func (c Cloth) corner(at orb.Point) orb.Point {
	for axis, repeat := range [...]float64{c.Strip.Repeat.Along, c.Strip.Repeat.Across} {
		if repeat > 0 {
			at[axis] = plane.Snap(math.Floor(at[axis]/repeat) * repeat)
		} else {
			at[axis] = math.Floor(at[axis])
		}
	}
	return at
}

// toCorner moves a ring of whole mm to 0 along the axes without a repeat, and from with it.
func (c Cloth) toCorner(ring orb.Ring, from *orb.Point) orb.Ring {
	if len(ring) == 0 {
		return ring
	}
	by := plane.Bounds(ring).Min
	for axis, repeat := range [...]float64{c.Strip.Repeat.Along, c.Strip.Repeat.Across} {
		if repeat == 0 {
			from[axis] += by[axis]
			for i := range ring {
				ring[i][axis] -= by[axis]
			}
		}
	}
	return ring
}

// fewer leaves corners out that cut off the least where there are too many, so that the outline only shrinks.
func fewer(ring orb.Ring) orb.Ring {
	for tolerance := coarse; len(ring)-1 > MostCorners && tolerance < 64*coarse; tolerance *= 2 {
		ring = shrunk(ring, tolerance)
	}
	return ring
}

// shrunk cuts off corners that stand out by less than the tolerance, one after the other.
func shrunk(ring orb.Ring, tolerance float64) orb.Ring {
	out := slices.Clone(ring[:len(ring)-1])
	for i := 0; i < len(out) && len(out) > 3; i++ {
		n := len(out)
		a, v, d := out[(i+n-1)%n], out[i], out[(i+1)%n]
		if plane.Orient(a, v, d) <= 0 || height(a, v, d) >= tolerance {
			continue
		}
		if !slices.ContainsFunc(out, func(o orb.Point) bool { return o != a && o != v && o != d && within(o, a, v, d) }) {
			out = slices.Delete(out, i, i+1)
		}
	}
	return closed(out)
}

// within says whether a point lies in a counter-clockwise triangle, or on its edge: where no corner of a
// simple ring does, none of its edges crosses it.
func within(p, a, b, c orb.Point) bool {
	return plane.Orient(a, b, p) >= 0 && plane.Orient(b, c, p) >= 0 && plane.Orient(c, a, p) >= 0
}

// height is that of v over the line from a to d, mm.
func height(a, v, d orb.Point) float64 {
	x, y := d[0]-a[0], d[1]-a[1]
	long := math.Hypot(x, y)
	if long == 0 {
		return math.Hypot(v[0]-a[0], v[1]-a[1])
	}
	return math.Abs(x*(v[1]-a[1])-y*(v[0]-a[0])) / long
}

func closed(points []orb.Point) orb.Ring { return append(slices.Clone(orb.Ring(points)), points[0]) }
