package chalk

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// How a line is read. Lengths are mm.
const (
	cornerTurn  = 20 * math.Pi / 180 // a bend by more is a corner; chords of arcs over 3 mm bend less
	straightFit = 0.2                // that a straight line may stray from what it stands for
	arcFit      = 0.3                // and an arc: chords stray by a tenth, those moved out by an allowance more
	endFit      = 0.9                // and its end corners
	leastStrand = 50.0               // of a straight line in a run of curves that is drawn as one
	arcShare    = 0.4                // of a run of curves that an arc is of, to be drawn as one
	widestArc   = 150 * math.Pi / 180
	steepest    = 75 * math.Pi / 180 // that a curve may turn on the way between two points
	leastChords = 3                  // of an arc; two corners always lie on one
)

// kind is what a section of a line is drawn as.
type kind uint8

const (
	straight kind = iota
	arc
	curve
	whole // circle
)

// section is a part of a line, from one of its vertices to another.
type section struct {
	kind   kind
	line   []orb.Point
	circle circle // of an arc, a whole circle
}

// read parts a line into sections at its corners, and where one kind of line ends and
// the next begins. A closed one, first point and last the same, begins at the vertex
// given, or else at a corner.
func read(line []orb.Point, first *orb.Point) []section {
	closed := len(line) > 3 && line[0] == line[len(line)-1]
	if closed {
		if c, ok := fit(line); ok && c.turn(line) > 1.9*math.Pi {
			return []section{{whole, line, c}}
		}
		line = from(line, firstOf(line, first))
	}
	var all []section
	from := 0
	for i := 1; i < len(line); i++ {
		if i == len(line)-1 || math.Abs(bend(line[i-1], line[i], line[i+1])) > cornerTurn {
			all = append(all, run(line[from:i+1])...)
			from = i
		}
	}
	return all
}

// from returns a closed line that begins at one of its vertices.
func from(line []orb.Point, vertex int) []orb.Point {
	n := len(line) - 1
	turned := make([]orb.Point, 0, n+1)
	turned = append(turned, line[vertex:n]...)
	return append(turned, line[:vertex+1]...)
}

// firstOf returns the vertex that a closed line begins at: the one given or, where it is
// none of them, the sharpest corner; of those that are as sharp, the one least along the
// cloth and then across it.
func firstOf(line []orb.Point, first *orb.Point) int {
	n := len(line) - 1
	if first != nil {
		at := slices.IndexFunc(line[:n], func(p orb.Point) bool { return distance(p, *first) < 0.01 })
		if at >= 0 {
			return at
		}
	}
	best, sharp := 0, -1.0
	for i := range n {
		turn := math.Min(math.Abs(bend(line[(i+n-1)%n], line[i], line[i+1])), cornerTurn)
		p, q := line[i], line[best]
		if turn > sharp+1e-9 || turn > sharp-1e-9 && (p[0] < q[0] || p[0] == q[0] && p[1] < q[1]) {
			best, sharp = i, turn
		}
	}
	return best
}

// Corner returns the corner that an outline is placed by: the first of its table. Of a
// circle it is the centre.
func Corner(outline orb.Ring) orb.Point {
	sections := read(outline, nil)
	if sections[0].kind == whole {
		return plane.SnapPoint(sections[0].circle.centre)
	}
	return sections[0].line[0]
}

// run parts what lies between two corners.
func run(line []orb.Point) []section {
	var found []section
	for from := 0; from < len(line)-1; {
		to := reach(from, len(line)-1, 1, func(to int) bool { return isStraight(line[from : to+1]) })
		s := section{kind: straight, line: line[from : to+1]}
		if least := from + leastChords; least < len(line) {
			far := reach(from, len(line)-1, leastChords, func(to int) bool {
				_, ok := fit(line[from : to+1])
				return ok
			})
			if c, ok := fit(line[from : far+1]); ok && far > to {
				s = section{arc, line[from : far+1], c}
				to = far
			}
		}
		found = append(found, s)
		from = to
	}
	return joinCurves(found, plane.Length(line))
}

// reach returns the last vertex up to which what begins at from holds. It holds for the
// least number of segments, or is not looked at further.
func reach(from, last, least int, holds func(to int) bool) int {
	good, bad := min(from+least, last), last+1
	for step := least; good < last; step *= 2 {
		try := min(good+step, last)
		if !holds(try) {
			bad = try
			break
		}
		good = try
	}
	for bad-good > 1 {
		if middle := (good + bad) / 2; holds(middle) {
			good = middle
		} else {
			bad = middle
		}
	}
	return good
}

// isStraight tells whether a line strays from its chord by no more than its fit.
func isStraight(line []orb.Point) bool { return sagitta(line) <= straightFit }

// joinCurves makes one curve of what is too short to be drawn by itself: a string that is
// tied anew for every few inches of a neckline takes longer than measuring off a line.
func joinCurves(found []section, length float64) []section {
	if len(found) == 1 {
		return found
	}
	var all []section
	for _, s := range found {
		l := plane.Length(s.line)
		if s.kind == straight && l >= leastStrand || s.kind == arc && l >= arcShare*length {
			all = append(all, s)
			continue
		}
		if n := len(all); n > 0 && all[n-1].kind == curve {
			joined := append(all[n-1].line[:len(all[n-1].line):len(all[n-1].line)], s.line[1:]...)
			all[n-1].line = joined
			continue
		}
		all = append(all, section{kind: curve, line: s.line})
	}
	for i, s := range all {
		if s.kind == curve && isStraight(s.line) {
			all[i].kind = straight
		}
	}
	return all
}

// bend is the angle by which the way from a to b turns towards c there, radians.
func bend(a, b, c orb.Point) float64 {
	ux, uy, vx, vy := b[0]-a[0], b[1]-a[1], c[0]-b[0], c[1]-b[1]
	return math.Atan2(ux*vy-uy*vx, ux*vx+uy*vy)
}

// split parts a section in two about its middle.
func (s section) split() (a, b section) {
	half, so := plane.Length(s.line)/2, 0.0
	at := 1
	for ; at < len(s.line)-2; at++ {
		if so += distance(s.line[at-1], s.line[at]); so >= half {
			break
		}
	}
	a, b = s, s
	a.line, b.line = s.line[:at+1], s.line[at:]
	return a, b
}

// gentle parts a curve so that each part turns by less than the steepest, an arc evenly.
func (s section) gentle() []section {
	if s.kind == arc {
		return s.parts(int(math.Ceil(s.circle.turn(s.line) / steepest)))
	}
	from := 0
	var all []section
	turned := 0.0
	for i := 1; i < len(s.line)-1; i++ {
		turned += bend(s.line[i-1], s.line[i], s.line[i+1])
		if math.Abs(turned) > steepest {
			all = append(all, section{kind: s.kind, line: s.line[from : i+1], circle: s.circle})
			from, turned = i, 0
		}
	}
	return append(all, section{kind: s.kind, line: s.line[from:], circle: s.circle})
}
