package main

import (
	"fmt"
	"math"
	"strings"

	"yardlay/cmd/yardlay/internal/report"
	"yardlay/shapes/measure"
)

// level is the difference of two sides of a seam that counts as none, mm: curves
// are sampled by as much, far below what a needle can follow.
const level = 0.1

// seams prints the sewing order: each seam with the finished lengths of its
// sides, what is left over, and what takes up the rest.
func (p listPrinter) seams(seams []report.Seam) {
	unit := p.unit
	const row = "%-38s%5s%13s%13s%11s"
	p.paragraph("Sewing order, finished lengths in " + inWords[unit] +
		". Times says how often a seam is sewn in one such part. A seam that runs over another comes after it.")
	var heading string
	for _, s := range seams {
		if h := s.Part + " in " + s.Cloth; h != heading {
			heading = h
			fmt.Fprintln(p.out)
			p.cells(row, h, "times", "one side", "the other", "left over")
		}
		p.cells(row, "  "+s.Name, fmt.Sprint(s.Times), bare(s.A.Finished, unit), bare(s.B.Finished, unit),
			leftOver(s.Difference, unit))
		fmt.Fprint(p.out, wrapAt(edgeNames(s.A, s.Part)+" to "+edgeNames(s.B, s.Part), "      ", p.width))
		for _, side := range []report.SeamSide{s.A, s.B} {
			if words := worked(side, unit); words != "" {
				fmt.Fprint(p.out, wrapAt(edgeNames(side, s.Part)+", "+words, "      ", p.width))
			}
		}
		if g := s.Gap; g != nil {
			fmt.Fprint(p.out, wrapAt(
				fmt.Sprintf("Leave %s open from mark to mark. Turn the work through it, and close it by hand.",
					measure.Format(g.To-g.From, unit)), "      ", p.width))
		}
	}
}

// leftOver is the difference of the sides of a seam: as the lengths where a tape
// shows it, else in mm or thousandths of an inch, and 0 where no needle can follow.
func leftOver(mm float64, unit measure.Unit) string {
	const tape = 1.5 // mm, about a sixteenth of an inch
	switch {
	case math.Abs(mm) <= level:
		return "0"
	case mm >= tape:
		return bare(mm, unit)
	case mm <= -tape:
		return "-" + bare(-mm, unit)
	}
	if unit.Metric() {
		return fmt.Sprintf("%.1f mm", mm)
	}
	return fmt.Sprintf("%.3f in", mm/measure.Inches)
}

// edgeNames names the edges of a side, those of its own part without the part.
func edgeNames(s report.SeamSide, part string) string {
	if s.Onto != "" {
		return s.Onto
	}
	words := make([]string, len(s.Edges))
	for i, e := range s.Edges {
		words[i] = withoutPart(e.Piece, part) + ": " + e.Edge
		if e.Copies > 1 {
			words[i] = fmt.Sprintf("%d x %s", e.Copies, words[i])
		}
	}
	return strings.Join(words, " + ")
}

// withoutPart leaves the name of the part out of that of a piece.
func withoutPart(piece, part string) string {
	if name := strings.TrimSpace(strings.TrimPrefix(piece, part)); name != "" {
		return name
	}
	return piece
}

// worked says what takes up the surplus of a side; "" where nothing does.
func worked(s report.SeamSide, unit measure.Unit) string {
	var words []string
	if s.Gather > 1 {
		words = append(words, fmt.Sprintf("gathered %.3g to 1", s.Gather))
	}
	if s.Ease > 0 {
		words = append(words, "ease of "+bare(s.Ease, unit))
	} else if s.Ease < 0 {
		words = append(words, "stretched by "+bare(-s.Ease, unit))
	}
	if s.Pleats > 0 {
		words = append(words, fmt.Sprintf("%d x pleat %s deep", s.Pleats, bare(s.Pleat, unit)))
	}
	if s.Lap > 0 {
		words = append(words, "lapped by "+bare(s.Lap, unit))
	}
	for _, d := range s.Darts {
		words = append(words, "dart of "+bare(d, unit))
	}
	if len(words) == 0 {
		return ""
	}
	return strings.Join(words, ", ") + ", from " + bare(s.Cut, unit) + " as drawn"
}

// edges prints the edges of each piece, as [[match]] names them.
func (p listPrinter) edges(pieces []report.Cut) {
	p.paragraph("Edges counter-clockwise, each from its start to its end, in " + inWords[p.unit] +
		". `points` of [[match]] take these names.")
	fmt.Fprintln(p.out)
	for _, c := range pieces {
		edges := make([]string, len(c.Edges))
		for i, e := range c.Edges {
			edges[i] = e.Name + " " + bare(e.Length, p.unit)
		}
		fmt.Fprint(p.out, wrapAt(c.Piece+" ("+c.Cloth+"): "+strings.Join(edges, ", "), "  ", p.width))
	}
}
