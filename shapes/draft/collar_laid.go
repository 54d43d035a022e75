package draft

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// NeckHalf is the neck of a half of a front or a back as it lies flat.
type NeckHalf struct {
	Line     orb.LineString // from the centre to the shoulder, x down and y outward from the centre, mm
	Slope    float64        // of the shoulder, rad
	Shoulder float64        // finished length of the shoulder, mm
}

// neckHalf returns that of a half of the block.
func (h blockHalf) neckHalf(chord float64) NeckHalf {
	line := h.neckLine(chord)
	line.Reverse()
	return NeckHalf{Line: line, Slope: h.slope, Shoulder: planar.Distance(h.neckPoint, h.tip)}
}

// DefaultOverlap is how far the shoulders of front and back overlap at the tip where a flat
// collar is drawn on them, mm (common practice: 10 to 15, more to make it roll).
const DefaultOverlap = 10

// sharpest is the most that the neck under a collar turns at a corner, and the most that its
// end leans, rad: beyond, the outer edge runs out into a point.
const sharpest = 2 * math.Pi / 3

// laidNeck is the neck of a half of a flat collar, drawn on a bodice whose front and back lie
// with their necks together at the shoulder and overlap at its tip:
//
//	  centre back
//	       |        back
//	neck  .'------------------.
//	    .'         .-----------+- tip of the back's shoulder
//	   | ____.----'            |    ^
//	   |'----.____             |    v overlap
//	    '.        '-------.___ |
//	      '.         front     '  tip of the front's
//
// It is as long as both necks together, and runs smoothly over the shoulder, as necks do once
// they are sewn: by a curve where both are curved, else by a straight line that touches both.
// The front is laid so much further out, or in, as that is shorter or longer.
type laidNeck struct {
	line orb.LineString // from the fold, which lies along x from the origin, to the end, the collar to its right
	end  orb.Point      // the way that the other centre runs from the neck out, a unit vector
}

// layNecks lays the half whose centre is on the fold and the other one.
func layNecks(fold, other NeckHalf, overlap, chord float64) (laidNeck, error) {
	shoulder := min(fold.Shoulder, other.Shoulder)
	if overlap > shoulder/2 {
		return laidNeck{}, say.Errorf("an overlap of %.1f is more than half of a shoulder of %.1f", say.MM(overlap),
			say.MM(shoulder)).
			Hint("a stand collar, or less overlap")
	}
	turn := -(fold.Slope + other.Slope + math.Asin(overlap/shoulder))
	first, second := fold.Line[0], other.Line[len(other.Line)-1]
	from := make(orb.LineString, len(fold.Line))
	for i, v := range fold.Line {
		from[i] = sub2(v, first)
	}
	n := len(other.Line)
	to := make(orb.LineString, n)
	for i, v := range other.Line {
		v = sub2(v, second)
		to[n-1-i] = turned(orb.Point{-v[0], v[1]}, turn, from[len(from)-1])
	}
	sin, cos := math.Sincos(fold.Slope)
	out := orb.Point{-cos, sin} // square to the shoulder on the fold's side
	end := turned(orb.Point{-1, 0}, turn, orb.Point{})
	length := plane.Length(from) + plane.Length(to)
	over := func(line orb.LineString) float64 { return plane.Length(line) - length }
	s := newShoulderCurve(from, to)
	apart := bisect(func(d float64) float64 { return over(s.line(out, d, chord)) }, -s.reach/2, length, 32)
	if line := s.line(out, apart, chord); math.Abs(over(line)) < neckExact {
		return laidNeck{line, end}, nil
	}
	s.plain = true
	apart = bisect(func(d float64) float64 { return over(s.line(out, d, chord)) }, 0, length, 32)
	return laidNeck{s.line(out, apart, chord), end}, nil
}

// neckExact is how near the neck of a collar is to that of its bodice, mm.
const neckExact = 0.01

// smoothed is how much of the shorter neck the curve over the shoulder takes of both.
const smoothed = 0.4

// shoulderCurve draws two necks as one line, with a curve over the shoulder, or with both
// as they are.
type shoulderCurve struct {
	from, to orb.LineString // the necks, from one centre to the other
	reach    float64        // of the curve, to both sides of the shoulder, mm
	plain    bool
}

func newShoulderCurve(from, to orb.LineString) shoulderCurve {
	s := shoulderCurve{from: from, to: to, reach: smoothed * min(plane.Length(from), plane.Length(to))}
	_, a := splitAt(from, plane.Length(from)-s.reach)
	b, _ := splitAt(to, s.reach)
	u, v := runAlong(a, 0), runAlong(b, len(b)-2)
	s.plain = kinked(a) || kinked(b) || u[0]*v[1]-u[1]*v[0] <= 0
	return s
}

// runAlong is the direction of a chord of a line, a unit vector.
func runAlong(line orb.LineString, chord int) orb.Point {
	d := sub2(line[chord+1], line[chord])
	l := math.Hypot(d[0], d[1])
	return orb.Point{d[0] / l, d[1] / l}
}

// sharpBend is what chords of the tightest curve of a neck turn less than, and a corner more, rad.
const sharpBend = math.Pi / 5

// kinked says whether a line has a corner.
func kinked(line orb.LineString) bool {
	for i := 2; i < len(line); i++ {
		if dot(runAlong(line, i-2), runAlong(line, i-1)) < math.Cos(sharpBend) {
			return true
		}
	}
	return false
}

// line lays the second neck so far out, mm. The curve has the handles of an arc.
func (s shoulderCurve) line(out orb.Point, apart, chord float64) orb.LineString {
	to := make(orb.LineString, len(s.to))
	for i, v := range s.to {
		to[i] = orb.Point{v[0] + apart*out[0], v[1] + apart*out[1]}
	}
	if s.plain {
		return pulled(joinLines(s.from, to))
	}
	a, over := splitAt(s.from, plane.Length(s.from)-s.reach)
	under, b := splitAt(to, s.reach)
	u, v := runAlong(over, 0), runAlong(under, len(under)-2)
	p, q := a[len(a)-1], b[0]
	k := planar.Distance(p, q) / 3 / math.Pow(math.Cos(math.Acos(min(dot(u, v), 1))/4), 2)
	curve := cubic{p, {p[0] + k*u[0], p[1] + k*u[1]}, {q[0] - k*v[0], q[1] - k*v[1]}, q}
	return pulled(joinLines(a, chain(chord, curve), b))
}

// pulled draws a line taut that turns left, round what lies to its left.
func pulled(line orb.LineString) orb.LineString {
	var out orb.LineString
	for _, v := range line {
		for n := len(out); n > 1 && plane.Orient(out[n-2], out[n-1], v) < 0; n-- {
			out = out[:n-1]
		}
		out = append(out, v)
	}
	return out
}

// onCurve is the cosine of half the most that chords of a curve turn; beyond they have a corner.
const onCurve = 0.995

// outer returns the edge of a collar that is everywhere so high, mm, to the right of the neck,
// from the fold to the end: a mitre round a corner of the neck.
func (n laidNeck) outer(height float64) (orb.LineString, error) {
	last := len(n.line) - 1
	// right is square to chord i.
	right := func(i int) orb.Point {
		d := sub2(n.line[i+1], n.line[i])
		l := math.Hypot(d[0], d[1])
		return orb.Point{d[1] / l, -d[0] / l}
	}
	out := make(orb.LineString, last+1)
	for i, v := range n.line {
		var way orb.Point // out from the neck: at the centres along them, as if it went on in a mirror
		var cos float64   // of the angle between that and square to the chords
		switch i {
		case 0:
			way = orb.Point{1, 0}
			cos = dot(way, right(0))
		case last:
			way = n.end
			cos = dot(way, right(last-1))
		default:
			a, b := right(i-1), right(i)
			sum := orb.Point{a[0] + b[0], a[1] + b[1]}
			l := math.Hypot(sum[0], sum[1])
			way, cos = orb.Point{sum[0] / l, sum[1] / l}, l/2
		}
		if cos < math.Cos(sharpest/2) {
			return nil, say.Errorf("the neckline turns too sharply for a flat collar along it").
				Hint("another neckline, or give `circle` for a part of a ring")
		}
		if cos > onCurve {
			cos = 1
		}
		out[i] = orb.Point{v[0] + height/cos*way[0], v[1] + height/cos*way[1]}
	}
	out[0][1] = 0 // along the grain, to the last bit
	return out, nil
}
