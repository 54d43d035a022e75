package outline

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// svgPen draws the lines of one shape. Points come in the shape's own coordinates and
// are kept as the map takes them to the Drawing; curves are mapped first and become
// chords then.
type svgPen struct {
	m          affine
	chordError float64
	left       int // vertices that may still be drawn

	lines   []Line // those finished
	points  orb.LineString
	corners []int
	start   orb.Point // of the line, and
	at      orb.Point // where the pen is, in the shape's coordinates
}

// met is the farthest that two ends of a line lie apart that are one place written
// twice, as rounding of relative coordinates leaves them, mm.
const met = 1e-6

// flatRadius is that of arcs that are read as straight lines, mm: over 2 m they are
// 0.00005 mm from one, and in numbers they could not be told from one much farther out.
const flatRadius = 1e10

// move ends the line and begins another.
func (p *svgPen) move(to orb.Point) {
	p.end(false)
	p.start, p.at = to, to
}

// line draws a straight segment.
func (p *svgPen) line(to orb.Point) error {
	if err := p.begin(); err != nil {
		return err
	}
	p.points, p.at = append(p.points, p.m.apply(to)), to
	return p.corner(len(p.points) - 1)
}

// curve draws a cubic Bezier segment.
func (p *svgPen) curve(c1, c2, to orb.Point) error {
	if err := p.begin(); err != nil {
		return err
	}
	q := [4]orb.Point{p.m.apply(p.at), p.m.apply(c1), p.m.apply(c2), p.m.apply(to)}
	for _, control := range q[1:3] {
		if err := beyond(control); err != nil {
			return err
		}
	}
	if err := beyond(q[3]); err != nil {
		return err
	}
	from := len(p.points)
	p.points, p.at = flattenCubic(p.points, q, p.chordError), to
	return p.corner(from)
}

// bow draws a quadratic Bezier segment.
func (p *svgPen) bow(c, to orb.Point) error {
	if err := p.begin(); err != nil {
		return err
	}
	q := [3]orb.Point{p.m.apply(p.at), p.m.apply(c), p.m.apply(to)}
	for _, control := range q[1:] {
		if err := beyond(control); err != nil {
			return err
		}
	}
	from := len(p.points)
	p.points, p.at = flattenQuadratic(p.points, q, p.chordError), to
	return p.corner(from)
}

// round draws an arc of an ellipse whose points are given in the shape's coordinates.
func (p *svgPen) round(a arc, to orb.Point) error {
	if err := p.begin(); err != nil {
		return err
	}
	a = a.under(p.m)
	for i := range 9 { // enough to find any arc beyond: none of its parts is over 45 degrees
		if err := beyond(a.at(a.from + (a.to-a.from)*float64(i)/8)); err != nil {
			return err
		}
	}
	if a.frame().stretch() > flatRadius {
		return p.line(to)
	}
	from := len(p.points)
	p.points, p.at = flattenArc(p.points, a, p.m.apply(to), p.chordError), to
	return p.corner(from)
}

// begin puts the first point of a line where the pen is.
func (p *svgPen) begin() error {
	if len(p.points) > 0 {
		return nil
	}
	p.points, p.corners = append(p.points, p.m.apply(p.at)), append(p.corners, 0)
	return beyond(p.points[0])
}

// corner ends a segment whose points begin at an index: it leaves out those that repeat
// the one before, and holds the others to the limits.
func (p *svgPen) corner(from int) error {
	n := from
	for _, q := range p.points[from:] {
		if q == p.points[n-1] {
			continue
		}
		if err := beyond(q); err != nil {
			return err
		}
		p.points[n] = q
		n++
	}
	p.points = p.points[:n]
	if p.left -= n - from; p.left < 0 {
		return say.Errorf("the lines of the drawing have over %d points, the most that is read", MaxDrawingVertices).
			Hint("split the drawing, or draw its curves with fewer points")
	}
	if last := n - 1; p.corners[len(p.corners)-1] != last {
		p.corners = append(p.corners, last)
	}
	return nil
}

// close draws the line back to where it began and ends it. What comes next begins there.
func (p *svgPen) close() error {
	if n := len(p.points); n > 1 && !meet(p.points[0], p.points[n-1]) {
		if err := p.line(p.start); err != nil {
			return err
		}
	}
	p.end(true)
	p.at = p.start
	return nil
}

// end ends the line.
func (p *svgPen) end(closed bool) {
	n := len(p.points)
	if n > 1 {
		if closed || n > 3 && meet(p.points[0], p.points[n-1]) {
			p.points[n-1], closed = p.points[0], true
		}
		if n > 2 || !closed {
			p.lines = append(p.lines, Line{Points: p.points, Corners: p.corners, Closed: closed})
		}
	}
	p.points, p.corners = nil, nil
}

func meet(a, b orb.Point) bool { return math.Hypot(a[0]-b[0], a[1]-b[1]) <= met }

// shape draws a path or a basic shape.
func (r *svgReader) shape(n *svgNode, s svgState) error {
	if s.style.unseen() {
		r.notes.add("hidden element", n.line)
		return nil
	}
	pen := &r.pen
	*pen = svgPen{m: s.m, chordError: pen.chordError, left: pen.left, lines: pen.lines[:0]}
	if err := svgShapes[n.name](pen, n, &s); err != nil {
		return n.fail(err)
	}
	pen.end(false)
	if len(pen.lines) == 0 {
		return nil
	}
	marks, err := r.marks(n, s)
	if err != nil {
		return n.fail(err)
	}
	if !painted(s.style) {
		r.notes.add("line without stroke or filling, read all the same", n.line)
	}
	for i, l := range pen.lines {
		l.Marks, l.Place = marks, fmt.Sprintf("line %d", n.line)
		if len(pen.lines) > 1 {
			l.Place += fmt.Sprintf(", part %d", i+1)
		}
		r.out.Lines = append(r.out.Lines, l)
	}
	return nil
}
