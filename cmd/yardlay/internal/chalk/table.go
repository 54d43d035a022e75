package chalk

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Point is a row of the table of points.
type Point struct {
	Label string // "3", "P"
	At    Place
}

// Line is a row of the table of lines.
type Line struct {
	Label string // "1 to 2", "notch", "dart"
	Words string // how it is drawn, distances as read off the tape
}

// Points lists the points of a piece in the order in which they are drawn: the numbered
// ones first, then pivots.
func (f Figures) Points() []Point {
	var rows []Point
	for i, p := range f.Places {
		rows = append(rows, Point{strconv.Itoa(i + 1), p})
	}
	for i, p := range f.Pivots {
		rows = append(rows, Point{f.PivotLabel(i), p})
	}
	return rows
}

// PivotLabel is what a pivot is called: P, or P1, P2 where there are several.
func (f Figures) PivotLabel(i int) string {
	if len(f.Pivots) == 1 {
		return "P"
	}
	return fmt.Sprintf("P%d", i+1)
}

// Lines says how the outline is drawn, then what is marked across it and inside.
func (f Figures) Lines(t Tape) []Line {
	var rows []Line
	for _, s := range f.Outline {
		rows = append(rows, Line{f.label(s), f.how(t, s, [2]string{"in", "out"})})
	}
	for _, n := range f.Notches {
		rows = append(rows, Line{"notch", f.notchWords(t, n)})
	}
	for _, m := range f.Marks {
		for _, s := range m.Strokes {
			rows = append(rows, Line{f.label(s), m.Name + ": " + f.how(t, s, [2]string{"left", "right"})})
		}
	}
	for _, s := range f.Spots {
		rows = append(rows, Line{"match", s.Name + ": " + t.placeWords(s.At)})
	}
	return rows
}

func (t Tape) placeWords(p Place) string {
	return t.Show(p[0]) + " from the cut end, " + t.Show(p[1]) + " from the edge"
}

// label names a stroke by its ends.
func (f Figures) label(s Stroke) string {
	if s.Kind == Circle {
		return "about " + f.PivotLabel(s.Pivot)
	}
	return fmt.Sprintf("%d to %d", s.From+1, s.To+1)
}

// how says how a stroke is drawn; sides are those to the left and right of its way.
func (f Figures) how(t Tape, s Stroke, sides [2]string) string {
	switch s.Kind {
	case Straight:
		return "straight, " + t.Show(f.chord(t, s)) + " long"
	case OnFold:
		return "on the fold, not cut, " + t.Show(f.chord(t, s)) + " long"
	case Arc:
		return fmt.Sprintf("arc about %s, string %s, straight across %s", f.PivotLabel(s.Pivot), t.Show(s.Radius),
			t.Show(f.chord(t, s)))
	case Circle:
		return fmt.Sprintf("circle about %s, string %s", f.PivotLabel(s.Pivot), t.Show(s.Radius))
	}
	what := "curve"
	if s.Radius > 0 {
		what = "arc, radius " + t.Show(s.Radius) + ", its centre off the cloth"
	}
	return fmt.Sprintf("%s; straight across %s; off that at every %s from %d: %s", what, t.Show(f.chord(t, s)),
		t.Show(s.Step), s.From+1, t.offWords(s.Off, sides))
}

// chord is the straight distance between the ends of a stroke.
func (f Figures) chord(t Tape, s Stroke) Marks {
	return t.Round(distance(t.point(f.Places[s.From]), t.point(f.Places[s.To])))
}

// offWords lists distances off a line, the side said once for those that follow each
// other: "out 1/4, 3/8, 0, in 1/8".
func (t Tape) offWords(off []Marks, sides [2]string) string {
	var words []string
	last := ""
	for _, o := range off {
		side := ""
		switch {
		case o < 0:
			side = sides[0]
		case o > 0:
			side = sides[1]
		}
		word := t.Show(Marks(math.Abs(float64(o))))
		if side != "" && side != last {
			word, last = side+" "+word, side
		}
		words = append(words, word)
	}
	return strings.Join(words, ", ")
}

func (f Figures) notchWords(t Tape, n Notch) string {
	if n.From < 0 {
		return fmt.Sprintf("on %s, %s", f.label(f.Outline[n.Stroke]), t.placeWords(n.At))
	}
	if n.Distance == 0 {
		return fmt.Sprintf("at %d", n.From+1)
	}
	return fmt.Sprintf("on %s, %s straight from %d", f.label(f.Outline[n.Stroke]), t.Show(n.Distance), n.From+1)
}
