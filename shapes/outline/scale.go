package outline

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// unitOf is the unit to count in, and what coordinates are multiplied by.
func unitOf(d Drawing, o Options) (Unit, float64, error) {
	const given = "it was given"
	switch said := d.Unit.Millimetres; {
	case o.Millimetres == 0 && said == 0:
		return Unit{}, 0, ErrNoUnit{}
	case o.Millimetres == 0:
		return d.Unit, 1, nil
	case said == 0:
		return Unit{o.Millimetres, given}, o.Millimetres, nil
	default:
		return Unit{o.Millimetres, given}, o.Millimetres / said, nil
	}
}

// Finer tells whether a drawing is scaled up by options, so that its curves would stray farther
// than ChordError, and the chord error to read it with again (ReadWithin) so that they do not.
func Finer(d Drawing, o Options) (chordError float64, again bool) {
	_, scale, err := unitOf(d, o)
	if err != nil || !(scale > 1) {
		return ChordError, false
	}
	return ChordError / scale, true
}

// maxLines is how many lines a drawing may have.
const maxLines = 300_000

// onLattice returns a drawing with its coordinates multiplied and on the lattice.
func onLattice(d Drawing, by float64) (Drawing, error) {
	out := d
	out.Lines, out.Points, out.Texts = make([]Line, len(d.Lines)), make([]Point, len(d.Points)), make([]Text, len(d.Texts))
	if len(d.Lines) > maxLines {
		return Drawing{}, say.Errorf("the drawing has %d lines, the most that are read is %d", len(d.Lines), maxLines).
			Hint("leave out hatches and what is not cut, or share the pieces out over several files")
	}
	vertices := 0
	put := func(p orb.Point, place string) (orb.Point, error) {
		q := orb.Point{p[0] * by, p[1] * by}
		if !(math.Abs(q[0]) <= MaxCoordinate && math.Abs(q[1]) <= MaxCoordinate) {
			return q, say.Errorf("%s: %s lies beyond %.0f m", place, plane.Place(q), MaxCoordinate/1000).
				Hint("is one unit of the file really %.4g?", say.MM(by*max(d.Unit.Millimetres, 1)))
		}
		return plane.SnapPoint(q), nil
	}
	var err error
	for i, l := range d.Lines {
		if vertices += len(l.Points); vertices > MaxDrawingVertices {
			return Drawing{}, say.Errorf("the lines have over %d points, the most that is read", MaxDrawingVertices).
				Hint("leave out what is not cut, or share the pieces out over several files")
		}
		points := make(orb.LineString, len(l.Points))
		for k, p := range l.Points {
			if points[k], err = put(p, l.Place); err != nil {
				return Drawing{}, err
			}
		}
		l.Points = points
		out.Lines[i] = l
	}
	for i, p := range d.Points {
		if p.At, err = put(p.At, p.Place); err != nil {
			return Drawing{}, err
		}
		out.Points[i] = p
	}
	for i, t := range d.Texts {
		if t.At, err = put(t.At, fmt.Sprintf("text %q", t.Text)); err != nil {
			return Drawing{}, err
		}
		out.Texts[i] = t
	}
	return out, nil
}

// units are those that drawings are made in, with the size, in units, up to which the
// largest line of a gown is taken to be in them: a piece of one spans 15 cm to 4 m
// (common practice).
var units = []struct {
	name        string
	millimetres float64
	most        float64
}{
	{"metres", 1000, 4.5}, {"inches", 25.4, 100}, {"cm", 10, 180}, {"mm", 1, longest},
	{"px of 96 to the inch", 25.4 / 96, 4 * longest}, {"tenths of mm", .1, 10 * longest},
}

// GuessUnit returns the unit that a drawing without one is most likely in, and why.
func GuessUnit(d Drawing) Unit {
	large := 0.
	for _, l := range d.Lines {
		b := l.Points.Bound()
		large = max(large, b.Max[0]-b.Min[0], b.Max[1]-b.Min[1])
	}
	for _, u := range units {
		if large <= u.most {
			return Unit{u.millimetres, fmt.Sprintf("the largest line spans %.4g units, which in %s is a piece of a gown",
				large, u.name)}
		}
	}
	return Unit{1, fmt.Sprintf("the largest line spans %.4g units, too many for any unit", large)}
}
