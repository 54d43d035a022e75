package outline

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Curves become chords here, for every format. Each function appends to a line that
// ends, or is taken to end, where the curve begins, and adds the points behind that one;
// the last is the end of the curve exactly. No point of the curve lies farther from the
// chords than chordError, and no point of the chords farther from the curve. It counts in
// the units of the points that are handed over: map them first, then flatten.
//
// Points are finite and chordError is above 0. A curve within MaxCoordinate is read as
// some 1,400 chords of ChordError at most.

// arc is an arc of an ellipse under any affine map: at the angle t it is at
// Centre + U cos t + V sin t, from the angle From to the angle To, radians, either way
// round. U and V are half diameters; on a circle they are equally long and square.
type arc struct {
	centre, u, v orb.Point
	from, to     float64
}

// circle is an arc of a circle, counter-clockwise (y up) when to > from.
func circle(centre orb.Point, radius, from, to float64) arc {
	return arc{centre, orb.Point{radius, 0}, orb.Point{0, radius}, from, to}
}

// under is the arc behind a map.
func (c arc) under(m affine) arc {
	return arc{m.apply(c.centre), m.turn(c.u), m.turn(c.v), c.from, c.to}
}

// at is the point of the arc at an angle.
func (c arc) at(angle float64) orb.Point {
	sin, cos := math.Sincos(angle)
	return c.frame().apply(orb.Point{cos, sin})
}

// frame maps the circle of radius 1 about the origin onto the ellipse.
func (c arc) frame() affine { return affine{c.u[0], c.u[1], c.v[0], c.v[1], c.centre[0], c.centre[1]} }

// flattenArc appends an arc as chords between points on it, and ends at the point that
// is handed over, which is the arc's end as the file has it. The arc is the image of one
// of radius 1, whose chords stray from it by their sagitta; the map lengthens that by its
// stretch at most.
func flattenArc(line orb.LineString, c arc, end orb.Point, chordError float64) orb.LineString {
	m := c.frame()
	if size := m.stretch(); size > 0 {
		around := plane.Arc(orb.Point{}, 1, c.from, c.to, chordError/size)
		for _, p := range around[1 : len(around)-1] {
			line = append(line, m.apply(p))
		}
	}
	return append(line, end)
}

// flattenCubic appends a cubic Bezier curve with its four control points.
func flattenCubic(line orb.LineString, p [4]orb.Point, chordError float64) orb.LineString {
	return halve(line, p, chordError, 0)
}

// flattenQuadratic appends a quadratic Bezier curve with its three control points. It is
// the cubic one whose inner control points lie two thirds of the way to its own.
func flattenQuadratic(line orb.LineString, p [3]orb.Point, chordError float64) orb.LineString {
	return halve(line, [4]orb.Point{p[0], between(p[0], p[1], 2./3), between(p[2], p[1], 2./3), p[2]}, chordError, 0)
}

// mostHalvings ends the halving of curves whose numbers are no longer those of a
// drawing. Within MaxCoordinate 11 are enough, as each takes the second differences of
// the control points, 170,000 mm at most, to a quarter (see isFlat).
const mostHalvings = 16

// halve cuts a curve in two (de Casteljau) until each part is flat.
func halve(line orb.LineString, p [4]orb.Point, chordError float64, deep int) orb.LineString {
	if deep == mostHalvings || isFlat(p, chordError) {
		return append(line, p[3])
	}
	a, b, c := between(p[0], p[1], .5), between(p[1], p[2], .5), between(p[2], p[3], .5)
	ab, bc := between(a, b, .5), between(b, c, .5)
	middle := between(ab, bc, .5)
	line = halve(line, [4]orb.Point{p[0], a, ab, middle}, chordError, deep+1)
	return halve(line, [4]orb.Point{middle, bc, c, p[3]}, chordError, deep+1)
}

// isFlat tells whether the chord may stand for a cubic curve. Either argument is enough:
//   - The inner control points lie beside the chord, not beyond its ends, at most h from
//     its line. The curve then runs from end to end within 3 t (1-t) h <= 3/4 h of it.
//   - The curve at t is at most an eighth of its greatest second derivative from the chord
//     at t, and that derivative is 6 times a mean of the second differences of the
//     control points (Wang 1984; Filip, Magedson & Markot, CAGD 3, 1986; from memory).
//     This one ends the halving at cusps.
func isFlat(p [4]orb.Point, chordError float64) bool {
	second := max(bend(p[0], p[1], p[2]), bend(p[1], p[2], p[3]))
	if second*6/8 <= chordError {
		return true
	}
	chord := orb.Point{p[3][0] - p[0][0], p[3][1] - p[0][1]}
	square := chord[0]*chord[0] + chord[1]*chord[1]
	most := chordError * math.Sqrt(square) * 4 / 3
	for _, q := range p[1:3] {
		v := orb.Point{q[0] - p[0][0], q[1] - p[0][1]}
		along := v[0]*chord[0] + v[1]*chord[1]
		if along < 0 || along > square ||
			math.Abs(v[0]*chord[1]-v[1]*chord[0]) > most {
			return false
		}
	}
	return square > 0
}

// bend is the length of the second difference of three points.
func bend(p, q, r orb.Point) float64 { return math.Hypot(p[0]-2*q[0]+r[0], p[1]-2*q[1]+r[1]) }

// between is the point at a part of the way from p to q.
func between(p, q orb.Point, part float64) orb.Point {
	return orb.Point{p[0] + (q[0]-p[0])*part, p[1] + (q[1]-p[1])*part}
}
