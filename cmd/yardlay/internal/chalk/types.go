package chalk

import (
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Figures are all that is said of how a piece is drawn. Places are numbered from 1 in
// tables: those of the outline first, in its order, then those of what is marked inside.
type Figures struct {
	Places  []Place
	Pivots  []Place  // that strings turn about
	Outline []Stroke // one after the other round the piece, against the clock; the last ends where the first begins
	Marks   []Mark   // inside
	Notches []Notch  // across the outline
	Spots   []Spot
}

// Spot is a point that is marked by itself.
type Spot struct {
	Name string
	At   Place
}

// Kind is how a stroke is drawn.
type Kind uint8

// The kinds of strokes.
const (
	Straight Kind = iota // along a ruler or a taut string
	OnFold               // straight along a fold of the cloth: not cut
	Arc                  // by a string about a pivot, the short way round
	Off                  // through points off the straight line between its ends
	Circle               // by a string about a pivot, all the way round; it has no ends
)

// Stroke is one line of the chalk.
type Stroke struct {
	Kind     Kind
	From, To int     // indices of Places
	Pivot    int     // index of Pivots, of Arc and Circle
	Radius   Marks   // of those, and of Off where it is an arc whose centre lies off the cloth; else 0
	Step     Marks   // along the straight line, of Off
	Off      []Marks // at each step from From on: to the right of the way to To, which is out of an outline
}

// Mark is a line inside a piece, a stroke at a time.
type Mark struct {
	Name    string
	Strokes []Stroke
}

// Notch is a mark across the cut line: at a straight distance from one end of a stroke,
// or, where that could be misread, at a place.
type Notch struct {
	Stroke   int // index of Outline
	From     int // index of Places; -1: at At
	Distance Marks
	At       Place
}

// Outline is what is to be drawn of a piece, in mm from the cut end and from the edge.
type Outline struct {
	Cut     orb.Ring // against the clock
	Fold    orb.LineString
	Inside  []Inside
	Notches []orb.Point // on the cut line
	Points  []Named     // marked by themselves: match points
	First   *orb.Point  // the vertex that the table begins with; nil: a corner of its choice
}

// Named is a point with its name.
type Named struct {
	Name string
	At   orb.Point
}

// Move shifts all lines and points.
func (o *Outline) Move(by orb.Point) {
	moved := func(line []orb.Point) []orb.Point {
		line = slices.Clone(line)
		plane.MoveLine(line, by)
		return line
	}
	o.Cut, o.Fold, o.Notches = moved(o.Cut), moved(o.Fold), moved(o.Notches)
	o.Inside, o.Points = slices.Clone(o.Inside), slices.Clone(o.Points)
	for i := range o.Inside {
		o.Inside[i].Line = moved(o.Inside[i].Line)
	}
	for i, p := range o.Points {
		o.Points[i].At = orb.Point{p.At[0] + by[0], p.At[1] + by[1]}
	}
	if o.First != nil {
		first := orb.Point{o.First[0] + by[0], o.First[1] + by[1]}
		o.First = &first
	}
}

// Inside is a line marked inside a piece.
type Inside struct {
	Name string
	Line orb.LineString
}

// corners counts the places of the outline.
func (f Figures) corners() int {
	n := 0
	for _, s := range f.Outline {
		if s.Kind != Circle {
			n = max(n, s.From+1)
		}
	}
	return n
}
