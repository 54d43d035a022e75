package report

import (
	"fmt"
	"math"
	"strings"

	"yardlay/shapes/measure"
)

// level is the difference of two sides of a seam that counts as none, mm: curves
// are sampled by as much, far below what a needle can follow.
const level = 0.1

// SeamHeads stand over the rows of the sewing order; the first names a part in a
// cloth.
var SeamHeads = []string{"times", "one side", "the other", "left over"}

// SeamNote says how the sewing order is to be read.
func SeamNote(unit measure.Unit) string {
	return "Sewing order, finished lengths in " + UnitWords(unit) +
		". Times says how often a seam is sewn in one such part. A seam that runs over another comes after it."
}

// Row is a line of the sewing order: the name of the seam, how often it is sewn, the
// finished lengths of its sides and what is left over.
func (s Seam) Row(unit measure.Unit) []string {
	return []string{s.Name, fmt.Sprint(s.Times), Bare(s.A.Finished, unit), Bare(s.B.Finished, unit),
		leftOver(s.Difference, unit)}
}

// Details say which edges the seam joins, what takes up the rest of a side, and what
// stays open.
func (s Seam) Details(unit measure.Unit) []string {
	list := []string{edgeNames(s.A, s.Part) + " to " + edgeNames(s.B, s.Part)}
	for _, side := range []SeamSide{s.A, s.B} {
		if words := side.worked(unit); words != "" {
			list = append(list, edgeNames(side, s.Part)+", "+words)
		}
	}
	if g := s.Gap; g != nil {
		list = append(list, fmt.Sprintf(
			"Leave %s open from mark to mark. Turn the work through it, and close it by hand.",
			measure.Format(g.To-g.From, unit)))
	}
	for _, o := range []*Opened{s.Opened, s.Slit} {
		if o != nil {
			list = append(list, o.words(max(s.A.Finished, s.B.Finished), unit))
		}
	}
	return list
}

// words say how far a seam so long is left open.
func (o Opened) words(whole float64, unit measure.Unit) string {
	on := "Leave"
	if o.On != "" {
		on = "On the " + o.On + " leave"
	}
	if whole-o.To <= level {
		return fmt.Sprintf("%s it open for the %s.", on, o.For)
	}
	return fmt.Sprintf("%s %s open from the %s, for the %s.", on, measure.Format(o.To, unit), o.From, o.For)
}

// leftOver is the difference of the sides of a seam: as the lengths where a tape
// shows it, else in mm or thousandths of an inch, and 0 where no needle can follow.
func leftOver(mm float64, unit measure.Unit) string {
	const tape = 1.5 // mm, about a sixteenth of an inch
	switch {
	case math.Abs(mm) <= level:
		return "0"
	case mm >= tape:
		return Bare(mm, unit)
	case mm <= -tape:
		return "-" + Bare(-mm, unit)
	}
	if unit.Metric() {
		return fmt.Sprintf("%.1f mm", mm)
	}
	return fmt.Sprintf("%.3f in", mm/measure.Inches)
}

// edgeNames names the edges of a side, those of its own part without the part.
func edgeNames(s SeamSide, part string) string {
	if s.Onto != "" {
		return s.Onto
	}
	words := make([]string, len(s.Edges))
	for i, e := range s.Edges {
		words[i] = WithoutPart(e.Piece, part) + ": " + e.Edge
		if e.Copies > 1 {
			words[i] = fmt.Sprintf("%d x %s", e.Copies, words[i])
		}
	}
	return strings.Join(words, " + ")
}

// worked says what takes up the surplus of a side; "" where nothing does.
func (s SeamSide) worked(unit measure.Unit) string {
	var words []string
	if s.Gather > 1 {
		words = append(words, fmt.Sprintf("gathered %.3g to 1", s.Gather))
	}
	if s.Ease > 0 {
		words = append(words, "ease of "+Bare(s.Ease, unit))
	} else if s.Ease < 0 {
		words = append(words, "stretched by "+Bare(-s.Ease, unit))
	}
	if s.Pleats > 0 {
		words = append(words, fmt.Sprintf("%d x pleat %s deep", s.Pleats, Bare(s.Pleat, unit)))
	}
	if s.Lap > 0 {
		words = append(words, "lapped by "+Bare(s.Lap, unit))
	}
	for _, d := range s.Darts {
		words = append(words, "dart of "+Bare(d, unit))
	}
	if len(words) == 0 {
		return ""
	}
	return strings.Join(words, ", ") + ", from " + Bare(s.Cut, unit) + " as drawn"
}
