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
// Chords between points of a curve cut off all that bulges: 0.07 % of a circle of 100 mm at
// 0.05 mm. The points within a curve are moved outwards, by less than the error, so that
// the chords enclose what the curve does.
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

// flattenArc appends an arc as chords, and ends at the point that is handed over, which is
// the arc's end as the file has it.
//
// The arc is the image of one of radius 1, whose n chords of an angle h, with inner points
// at a radius r, enclose 1/2 sin(h) (2 r + (n-2) r^2) with the centre; the arc encloses
// n h/2. Where both are equal r - 1 is a sagitta at most, but 4/3 of one if there are two
// chords. The map changes all areas alike and lengthens no error by more than its stretch.
func flattenArc(line orb.LineString, c arc, end orb.Point, chordError float64) orb.LineString {
	m := c.frame()
	size := m.stretch()
	if size == 0 {
		return append(line, end)
	}
	most := chordError / size
	around := plane.Arc(orb.Point{}, 1, c.from, c.to, most)
	if len(around) == 3 {
		around = plane.Arc(orb.Point{}, 1, c.from, c.to, most*3/4)
	}
	if half := (c.to - c.from) / 2; len(around) == 2 && 1-math.Cos(half) > most*farOff {
		around = orb.LineString{around[0], {math.Cos(c.from + half), math.Sin(c.from + half)}, around[1]}
	}
	n := float64(len(around) - 1)
	h := math.Abs(c.to-c.from) / n
	r := 1.
	switch sin := math.Sin(h); {
	case h > 1: // a circle of a few errors is any polygon
	case n == 2:
		r = h / sin
	case n > 2:
		r = (math.Sqrt(1+(n-2)*n*h/sin) - 1) / (n - 2)
	}
	r = min(r, 1+most)
	for _, p := range around[1 : len(around)-1] {
		line = append(line, m.apply(orb.Point{p[0] * r, p[1] * r}))
	}
	return append(line, end)
}

// farOff is the part of the chord error from which on a curve is more than one chord,
// which has no point to move: an outline of nothing but short curves would lose area.
const farOff = .14

// cubic is a cubic Bezier curve: its four control points.
type cubic [4]orb.Point

// flattenCubic appends a cubic Bezier curve with its four control points.
func flattenCubic(line orb.LineString, control [4]orb.Point, chordError float64) orb.LineString {
	p := cubic(control)
	if flat, _ := isFlat(p, chordError*farOff); flat {
		return append(line, p[3])
	}
	var some [64]cubic
	parts := halve(some[:0], p, chordError, 0)
	if n := fewest(p, len(parts), chordError); n != len(parts) {
		parts = parts[:0]
		for i := range n {
			parts = append(parts, p.equal(i, n))
		}
	}
	for _, q := range parts {
		line = append(line, q[3])
	}
	giveBack(line[len(line)-len(parts):], parts, chordError)
	return line
}

// flattenQuadratic appends a quadratic Bezier curve with its three control points. It is
// the cubic one whose inner control points lie two thirds of the way to its own.
func flattenQuadratic(line orb.LineString, p [3]orb.Point, chordError float64) orb.LineString {
	return flattenCubic(line, [4]orb.Point{p[0], between(p[0], p[1], 2./3), between(p[2], p[1], 2./3), p[2]}, chordError)
}

// mostHalvings ends the halving of curves whose numbers are no longer those of a
// drawing. Within MaxCoordinate 11 are enough, as each takes the second differences of
// the control points, 170,000 mm at most, to a quarter (see isFlat).
const mostHalvings = 16

// halve cuts a curve in two (de Casteljau), and once more until each part is flat.
func halve(parts []cubic, p cubic, chordError float64, deep int) []cubic {
	if flat, _ := isFlat(p, chordError); deep == mostHalvings || deep > 0 && flat {
		return append(parts, p)
	}
	a, b, c := between(p[0], p[1], .5), between(p[1], p[2], .5), between(p[2], p[3], .5)
	ab, bc := between(a, b, .5), between(b, c, .5)
	middle := between(ab, bc, .5)
	parts = halve(parts, cubic{p[0], a, ab, middle}, chordError, deep+1)
	return halve(parts, cubic{middle, bc, c, p[3]}, chordError, deep+1)
}

// fewest is the least number of equal parts of a curve that are flat, or that to which halving
// came, where that is less. Halving alone takes half as many again as it needs on average,
// and twice as many where it just missed.
func fewest(p cubic, halved int, chordError float64) int {
	flat := func(n int) bool {
		within := chordError
		if n == 2 {
			within *= 3. / 4 // the one point moves by 4/3 of that
		}
		for i := range n {
			if flat, _ := isFlat(p.equal(i, n), within); !flat {
				return false
			}
		}
		return true
	}
	if halved > 64 {
		return halved // metres of a curve in one piece, or nothing that is sewn: save the time
	}
	if halved == 2 && !flat(2) && flat(3) {
		return 3
	}
	low, high := halved/2, halved // not enough, as far as is known; enough
	for high-low > 1 {
		if n := (low + high) / 2; flat(n) {
			high = n
		} else {
			low = n
		}
	}
	return high
}

// equal is one of n equal parts of a curve, by its blossom: between s and t its control points
// are (s,s,s), (s,s,t), (s,t,t) and (t,t,t).
func (p cubic) equal(i, n int) cubic {
	s, t := float64(i)/float64(n), float64(i+1)/float64(n)
	at := func(u, v, w float64) orb.Point {
		a, b, c := between(p[0], p[1], u), between(p[1], p[2], u), between(p[2], p[3], u)
		return between(between(a, b, v), between(b, c, v), w)
	}
	q := cubic{at(s, s, s), at(s, s, t), at(s, t, t), at(t, t, t)}
	if i == n-1 {
		q[3] = p[3]
	}
	return q
}

// giveBack moves the end of each part but the last, square to what lies around it, so that
// the chords enclose what they cut off: half of it on either side of a chord, and that of
// the first and the last chord at their inner end. Many chords of a sagitta s move by 2/3 s.
//
// The curve lies beyond both chords, by e at some place, where a point moves; a chord that
// moves by d there in a direction within 60 degrees of square, d and e being at most the
// error, is still no farther than that from the curve, as d*d + e*e - 2 d e cos(60) is at most
// the greater of the squares.
func giveBack(ends []orb.Point, parts []cubic, chordError float64) {
	n := len(parts)
	for i := range n - 1 {
		l, r := areaBeside(parts[i]), areaBeside(parts[i+1])
		_, beyondL := isFlat(parts[i], chordError)
		_, beyondR := isFlat(parts[i+1], chordError)
		if !beyondL || !beyondR || l*r <= 0 {
			continue
		}
		area := (l + r) / 2
		if i == 0 {
			area += l / 2
		}
		if i == n-2 {
			area += r / 2
		}
		ends[i] = outwards(parts[i][0], parts[i][3], parts[i+1][3], area, chordError)
	}
}

// outwards moves a point square to the line between those around it so far that the two
// chords enclose so much more, but no farther than most. It stays where one of them is
// turned by over 60 degrees from that line.
func outwards(before, here, after orb.Point, area, most float64) orb.Point {
	along := orb.Point{after[0] - before[0], after[1] - before[1]}
	long := math.Hypot(along[0], along[1])
	first, second := orb.Point{here[0] - before[0], here[1] - before[1]}, orb.Point{after[0] - here[0], after[1] - here[1]}
	for _, chord := range []orb.Point{first, second} {
		if chord[0]*along[0]+chord[1]*along[1] < math.Hypot(chord[0], chord[1])*long/2 {
			return here
		}
	}
	if long == 0 {
		return here
	}
	by := max(-most, min(most, 2*area/long)) / long
	return orb.Point{here[0] + along[1]*by, here[1] - along[0]*by}
}

// areaBeside is the area between a cubic curve and its chord: half the integral of
// x dy - y dx along the curve, with its beginning as origin.
func areaBeside(p cubic) float64 {
	cross := func(i, j int) float64 {
		return (p[i][0]-p[0][0])*(p[j][1]-p[0][1]) - (p[i][1]-p[0][1])*(p[j][0]-p[0][0])
	}
	return (cross(1, 2) + cross(1, 3) + 2*cross(2, 3)) * 3 / 20
}

// isFlat tells whether the chord may stand for a cubic curve, and whether all of this lies
// on one side of it, between its ends. Either argument is enough:
//   - The inner control points lie beside the chord, not beyond its ends, at most h from
//     its line. The curve then runs from end to end within 3 t (1-t) h <= 3/4 h of it.
//   - The curve at t is at most an eighth of its greatest second derivative from the chord
//     at t, and that derivative is 6 times a mean of the second differences of the
//     control points (Wang 1984; Filip, Magedson & Markot, CAGD 3, 1986; from memory).
//     This one ends the halving at cusps.
func isFlat(p cubic, chordError float64) (flat, oneSide bool) {
	chord := orb.Point{p[3][0] - p[0][0], p[3][1] - p[0][1]}
	square := chord[0]*chord[0] + chord[1]*chord[1]
	most := chordError * math.Sqrt(square) * 4 / 3
	within, low, high := square > 0, 0., 0.
	for _, q := range p[1:3] {
		v := orb.Point{q[0] - p[0][0], q[1] - p[0][1]}
		along, across := v[0]*chord[0]+v[1]*chord[1], v[0]*chord[1]-v[1]*chord[0]
		within = within && along >= 0 && along <= square
		low, high = min(low, across), max(high, across)
	}
	if within && max(high, -low) <= most {
		return true, low == 0 || high == 0
	}
	return max(bend(p[0], p[1], p[2]), bend(p[1], p[2], p[3]))*6/8 <= chordError, false
}

// bend is the length of the second difference of three points.
func bend(p, q, r orb.Point) float64 { return math.Hypot(p[0]-2*q[0]+r[0], p[1]-2*q[1]+r[1]) }

// between is the point at a part of the way from p to q.
func between(p, q orb.Point, part float64) orb.Point {
	return orb.Point{p[0] + (q[0]-p[0])*part, p[1] + (q[1]-p[1])*part}
}
