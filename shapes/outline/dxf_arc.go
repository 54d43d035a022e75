package outline

import (
	"math"

	"github.com/paulmach/orb"
)

// dxfArc is an ARC, counter-clockwise, or a CIRCLE.
type dxfArc struct {
	circle   bool
	centre   orb.Point
	radius   float64
	from, to float64 // degrees
}

func newDXFArc(circle bool) *dxfArc {
	return &dxfArc{circle: circle, centre: unset, radius: math.NaN(), to: 360}
}

func (a *dxfArc) take(f *dxfFile, t dxfTag) (err error) {
	switch t.code {
	case 10, 20:
		return axis(&a.centre, t)
	case 40:
		a.radius, err = t.number()
	case 50:
		a.from, err = t.number()
	case 51:
		a.to, err = t.number()
	}
	return err
}

func (a *dxfArc) whole() bool { return given(a.centre) && a.radius > 0 }

func (a *dxfArc) onPlane() bool { return true }

func (a *dxfArc) trace(t *dxfTrace) error {
	from, sweep := a.from*math.Pi/180, 2*math.Pi
	if !a.circle {
		sweep = sweepOf(a.from, a.to, 360) * math.Pi / 180
	}
	return t.turn(circle(a.centre, a.radius, from, from+sweep))
}

// sweepOf is the angle from one to another, counter-clockwise, above 0 and a full turn at most.
func sweepOf(from, to, full float64) float64 {
	sweep := math.Mod(to-from, full)
	if sweep <= full*1e-12 {
		sweep += full
	}
	return math.Min(sweep, full)
}

// dxfEllipse is an ELLIPSE or a part of one.
type dxfEllipse struct {
	centre, major orb.Point // major: half of it, from the centre
	ratio         float64   // of the minor axis to it
	from, to      float64   // radians on the circle that it is the image of
	flipped       bool
}

func newDXFEllipse() *dxfEllipse {
	return &dxfEllipse{centre: unset, major: unset, ratio: math.NaN(), to: 2 * math.Pi}
}

func (e *dxfEllipse) take(f *dxfFile, t dxfTag) (err error) {
	switch t.code {
	case 10, 20:
		return axis(&e.centre, t)
	case 11, 21:
		return axis(&e.major, t)
	case 40:
		e.ratio, err = t.number()
	case 41:
		e.from, err = t.number()
	case 42:
		e.to, err = t.number()
	}
	return err
}

func (e *dxfEllipse) whole() bool { return given(e.centre) && given(e.major) && e.ratio > 0 }

func (e *dxfEllipse) onPlane() bool { return false }

// trace draws it. Seen from behind it runs the other way, its centre and axis being those of
// the drawing.
func (e *dxfEllipse) trace(t *dxfTrace) error {
	minor := orb.Point{-e.major[1] * e.ratio, e.major[0] * e.ratio}
	if e.flipped {
		minor = orb.Point{-minor[0], -minor[1]}
	}
	from := math.Mod(e.from, 2*math.Pi)
	return t.turn(arc{e.centre, e.major, minor, from, from + sweepOf(e.from, e.to, 2*math.Pi)})
}

// turn draws a line that is one arc, closed where it is a full turn.
func (t *dxfTrace) turn(c arc) error {
	first, last := c.at(c.from), c.at(c.to)
	if c.to-c.from >= 2*math.Pi*(1-1e-12) {
		t.closed, last = true, first
	}
	t.to(first)
	return t.arc(c, last)
}
