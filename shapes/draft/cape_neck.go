package draft

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// dartedNeck is the neck of a cape with a dart at each shoulder, about the cape's
// centre: its half from the middle line on, trued, and the mirror image of that.
type dartedNeck struct {
	half trued
	span float64 // of the half, rad
}

// rim returns the neck's edge: an arc or a swing, with darts trued to the legs.
func (c Cape) rim() (rim, error) {
	plain := c.neck()
	if c.Dart == 0 {
		return plain, nil
	}
	span := c.angle() / 2
	base := func(middle float64) rule {
		s := swing{middle: middle, side: middle + c.NeckDrop, span: span}
		return func(t float64) (at, out orb.Point) {
			sin, cos := math.Sincos(t * span)
			r := s.radius(t * span)
			return orb.Point{r * cos, r * sin}, orb.Point{-cos, -sin}
		}
	}
	half, err := trueDart(base, plain.middle, darting{c.shoulder(), c.Dart, c.Neck/2 - c.shoulder(), c.DartLength})
	if err != nil {
		return nil, err
	}
	return dartedNeck{half, span}, nil
}

func (d dartedNeck) radius(angle float64) float64 {
	p := d.half.at(min(math.Abs(angle)/d.span, 1))
	return math.Hypot(p[0], p[1])
}

// line samples the neck as swing.line does, the peaks of its darts included.
func (d dartedNeck) line(centre orb.Point, from, to, zero, chord float64) orb.LineString {
	low, high := min(from, to)-zero, max(from, to)-zero
	place := func(angle float64) float64 { return min(max(angle/d.span, 0), 1) }
	var line orb.LineString
	if low < 0 {
		line = plane.MirrorLine(d.half.line(place(-high), place(-low), chord), 0)
	}
	if high > 0 {
		upper := d.half.line(place(low), place(high), chord)
		if len(line) > 0 {
			upper = upper[1:]
		}
		line = append(line, upper...)
	}
	for i, p := range line {
		line[i] = turned(p, zero, centre)
	}
	if from > to {
		slices.Reverse(line)
	}
	return line
}

// turned is a point turned about the origin by an angle, and moved.
func turned(p orb.Point, angle float64, by orb.Point) orb.Point {
	sin, cos := math.Sincos(angle)
	return orb.Point{by[0] + p[0]*cos - p[1]*sin, by[1] + p[0]*sin + p[1]*cos}
}

// mark marks the darts on a piece of the neck between two angles, drawn about a
// centre with the middle line at the angle zero.
func (d dartedNeck) mark(p *shapes.Piece, edge string, centre orb.Point, from, to, zero float64) error {
	for _, hand := range []float64{1, -1} {
		middle := hand * d.span * (d.half.first + d.half.second) / 2
		if middle < from-zero || middle > to-zero {
			continue
		}
		worn := d.half.moved(func(v orb.Point) orb.Point { return turned(orb.Point{v[0], hand * v[1]}, zero, centre) })
		if err := worn.markOn(p, edge, orb.Point{}); err != nil {
			return err
		}
	}
	return nil
}

// moved returns the edge under a rigid motion.
func (e trued) moved(by func(orb.Point) orb.Point) trued {
	base, origin := e.base, by(orb.Point{})
	e.base = func(t float64) (at, out orb.Point) {
		p, o := base(t)
		o = by(o)
		return by(p), orb.Point{o[0] - origin[0], o[1] - origin[1]}
	}
	e.apex, e.peak = by(e.apex), by(e.peak)
	return e
}

// checkSeams refuses a dart that a seam between the sections would run into.
func (d dartedNeck) checkSeams(c Cape, sections int) error {
	first, second := d.span*d.half.first, d.span*d.half.second
	for i := 1; i < sections; i++ {
		seam := math.Abs(c.angle()*float64(i)/float64(sections) - d.span)
		if seam <= first || seam >= second {
			continue
		}
		from := c.shoulder()
		return say.Errorf("the dart from %.1f to %.1f of the neck falls on the seam at %.1f", say.MM(from),
			say.MM(from+c.Dart), say.MM(from+c.Dart*(seam-first)/(second-first))).
			Hint("another number of sections, or move the shoulder")
	}
	return nil
}
