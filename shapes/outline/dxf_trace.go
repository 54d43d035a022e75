package outline

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// dxfTrace is a line as it is drawn: mapped, its curves as chords.
type dxfTrace struct {
	m       affine
	e       float64 // chord error, after the map
	left    int     // vertices that may still be drawn
	line    orb.LineString
	corners []int
	closed  bool
}

// spend counts work that leaves no vertices as if it left some.
func (t *dxfTrace) spend(vertices int) error {
	if t.left -= vertices; t.left < len(t.line) {
		return errManyVertices
	}
	return nil
}

// to draws a straight line to a point.
func (t *dxfTrace) to(p orb.Point) { t.line = append(t.line, t.m.apply(p)) }

// corner notes that a segment ends here.
func (t *dxfTrace) corner() { t.corners = append(t.corners, len(t.line)-1) }

// mostChords of an arc: within MaxCoordinate some 1,400 are enough (flatten.go), so one of
// more lies beyond.
const mostChords = 20_000

// arc draws an arc from where the line ends to a point.
func (t *dxfTrace) arc(c arc, to orb.Point) error {
	c = c.under(t.m)
	size := c.frame().stretch()
	chords := math.Abs(c.to-c.from) * math.Sqrt(size/(8*t.e)) // as a chord of angle a has the sagitta r a^2 / 8
	if !(chords <= mostChords) {
		return say.Errorf("an arc reaches beyond %.0f m", MaxCoordinate/1000).
			Hint("look at the unit of the file, and for a thing that lies far from all else")
	}
	if len(t.line)+int(chords) > t.left {
		return errManyVertices
	}
	t.line = flattenArc(t.line, c, t.m.apply(to), t.e)
	return nil
}

var errManyVertices = say.Errorf("the lines have over %d vertices as they are drawn, the most that are read",
	MaxDrawingVertices).Hint("save each piece once, without copies, and with fewer curves")

// whole ends the line: closed where it says so or where its ends are one point. Points that
// repeat the one before are dropped.
func (t *dxfTrace) whole() (orb.LineString, []int, bool) {
	if n := len(t.line); t.closed && n > 0 && t.line[n-1] != t.line[0] {
		t.line = append(t.line, t.line[0])
	}
	corners := make([]int, 0, len(t.corners)+2)
	corner := func(at int) {
		if n := len(corners); n == 0 || corners[n-1] < at {
			corners = append(corners, at)
		}
	}
	kept, next := 0, 0
	for i, p := range t.line {
		if i == 0 || p != t.line[kept-1] {
			t.line[kept] = p
			kept++
		}
		for ; next < len(t.corners) && t.corners[next] == i; next++ {
			corner(kept - 1)
		}
		if i == 0 {
			corner(0)
		}
	}
	if kept < 2 {
		return nil, nil, false
	}
	corner(kept - 1)
	line := t.line[:kept]
	return line, corners, kept > 3 && line[0] == line[kept-1]
}
