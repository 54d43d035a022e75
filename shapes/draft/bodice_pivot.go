package draft

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// coneCut is where a cone is cut to its point.
type coneCut struct {
	part  int     // among its lines; -1: at the foot of the waist dart
	at    float64 // along that, mm
	angle float64 // by which it opens, rad
	after bool    // what it takes up is pressed towards what comes after it on the way round, else before
}

// stretch is a line of a cone, or a part of one between cuts, laid flat.
type stretch struct {
	part int
	line orb.LineString
}

// open lays the cone flat, opened at cuts in the order of its lines, whose angles make up the
// whole. The darts end short of its point, and both edges at each are bent by what that turns
// them, so that they run on smoothly where the dart is folded.
func (c cone) open(cuts []coneCut, short float64) (outlinedPiece, error) {
	var list []stretch
	type mouth struct {
		coneCut
		before int // the stretch that ends at its first foot; the next one begins at the second
	}
	var mouths []mouth
	turn := 0.0
	if len(cuts) > 0 && cuts[0].part < 0 {
		turn = cuts[0].angle
	}
	for i, l := range c.parts {
		rest, done := l.line, 0.0
		for _, s := range cuts {
			if s.part != i {
				continue
			}
			var first orb.LineString
			first, rest = splitAt(rest, s.at-done)
			done = s.at
			list = append(list, stretch{i, turnLine(first, c.at, turn)})
			mouths = append(mouths, mouth{s, len(list) - 1})
			turn += s.angle
		}
		list = append(list, stretch{i, turnLine(rest, c.at, turn)})
	}
	if len(cuts) > 0 && cuts[0].part < 0 {
		mouths = append(mouths, mouth{cuts[0], len(list) - 1})
	}
	var out outlinedPiece
	for _, m := range mouths {
		before, after := &list[m.before], &list[(m.before+1)%len(list)]
		d := openDart{edge: coneEdge(c.parts[before.part].name), a: before.line[len(before.line)-1], b: after.line[0]}
		bend, err := d.shorten(c.at, m.angle, short)
		if err != nil {
			return outlinedPiece{}, err
		}
		back := bent(reversed(before.line), -bend)
		after.line = bent(after.line, bend)
		before.line = append(reversed(back), d.peak(back, after.line, m.after))
		out.darts = append(out.darts, d)
	}
	lines := make([]orb.LineString, len(c.parts))
	for _, s := range list {
		lines[s.part] = joinLines(lines[s.part], s.line)
	}
	byName := func(name string) orb.LineString { return lines[c.part(name)] }
	out.lines = []namedLine{{coneCentre, byName(coneCentre)}, {coneWaist, joinLines(byName(coneInner), byName(coneWaist))}}
	for _, name := range []string{coneSide, coneArmhole, coneShoulder, coneNeck} {
		if c.part(name) < 0 {
			continue
		}
		out.lines = append(out.lines, namedLine{name, byName(name)})
	}
	out.levelCentre()
	return out, nil
}

// levelCentre puts what lies on the centre there to the last bit, as turning there and back
// does not.
func (o outlinedPiece) levelCentre() {
	for _, l := range o.lines {
		for i, v := range l.line {
			if math.Abs(v[1]) < 1e-6 {
				l.line[i][1] = 0
			}
		}
	}
}

// coneEdge is the edge that a line of a cone is of.
func coneEdge(part string) string {
	if part == coneInner {
		return coneWaist
	}
	return part
}

// leastDartLength is the shortest dart, mm: a shorter one makes a point (our own figure).
const leastDartLength = 2 * dartClear

// shorten ends a dart that was cut to a point short of it, and returns how far each edge at its
// mouth is turned by that, rad.
func (d *openDart) shorten(from orb.Point, angle, by float64) (bend float64, err error) {
	middle := orb.Point{(d.a[0] + d.b[0]) / 2, (d.a[1] + d.b[1]) / 2}
	length := planar.Distance(middle, from)
	if left := length - by; left < leastDartLength {
		return 0, say.Errorf("a dart in the %s would be %.1f long, needs %v", d.edge, say.MM(left),
			say.MM(leastDartLength)).Hint("move it elsewhere by `bust_dart_at`")
	}
	d.apex = orb.Point{from[0] + by/length*(middle[0]-from[0]), from[1] + by/length*(middle[1]-from[1])}
	return (closedDart(planar.Distance(d.a, d.b), length-by) - angle) / 2, nil
}

// mostBent is how far from a dart its edge is bent, mm.
const mostBent = 60

// bent turns a line at its start to the left by a small angle, its start where it was and so
// all beyond a stretch: moved by s (1 - s/l)^2 at s, of which the most is 4/27 l, and longer by
// less than the angle squared times 0.07 l.
func bent(line orb.LineString, by float64) orb.LineString {
	length := min(mostBent, 0.45*plane.Length(line))
	const steps = 12
	e := shapesEdge(line)
	var out orb.LineString
	add := func(s float64) {
		at, right := e.At(s)
		off := -math.Tan(by) * s * (1 - s/length) * (1 - s/length)
		out = append(out, orb.Point{at[0] + off*right[0], at[1] + off*right[1]})
	}
	for i := range steps {
		add(length * float64(i) / steps)
	}
	_, rest := splitAt(line, length)
	return joinLines(out, rest)
}

// peak is the point of the mouth that lies on the edge when the dart is folded and what it
// takes up is pressed to one side: there the edge, mirrored in the leg, meets the middle.
func (d openDart) peak(before, after orb.LineString, pressedAfter bool) orb.Point {
	foot, edge := d.a, before
	if pressedAfter {
		foot, edge = d.b, after
	}
	unit := func(a, b orb.Point) orb.Point {
		l := planar.Distance(a, b)
		return orb.Point{(b[0] - a[0]) / l, (b[1] - a[1]) / l}
	}
	middle := orb.Point{(d.a[0] + d.b[0]) / 2, (d.a[1] + d.b[1]) / 2}
	leg, way, axis := unit(d.apex, foot), unit(edge[0], edge[1]), unit(d.apex, middle)
	t := 2 * dot(way, leg)
	mirrored := orb.Point{t*leg[0] - way[0], t*leg[1] - way[1]}
	// foot + k mirrored lies on the axis
	cross := func(u, v orb.Point) float64 { return u[0]*v[1] - u[1]*v[0] }
	width := planar.Distance(d.a, d.b)
	k := cross(sub2(d.apex, foot), axis) / cross(mirrored, axis)
	if !(k > 0 && k < width) {
		return middle // an edge along the leg, which no dart that is drawn has
	}
	return orb.Point{foot[0] + k*mirrored[0], foot[1] + k*mirrored[1]}
}
