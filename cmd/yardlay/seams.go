package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes/measure"
)

// level is the difference of two sides of a seam that counts as none, mm: curves
// are sampled by as much, far below what a needle can follow.
const level = 0.1

// printSeams prints the sewing order: each seam with the finished lengths of its
// sides, what is left over, and what takes up the rest.
func printSeams(out io.Writer, seams []plan.Seam, unit measure.Unit) {
	const row = "%-38s%5s%13s%13s%11s\n"
	fmt.Fprint(out, "\n"+wrap("Sewing order, finished lengths in "+inWords[unit]+". A seam is sewn so many times in one such part; one that runs over another comes after it.", ""))
	var heading string
	for _, s := range seams {
		if h := s.Part + " in " + s.Cloth; h != heading {
			heading = h
			fmt.Fprintf(out, "\n"+row, h, "times", "one side", "the other", "left over")
		}
		fmt.Fprintf(out, row, "  "+s.Name, fmt.Sprint(s.Times), bare(s.A.Finished, unit), bare(s.B.Finished, unit), leftOver(s.Difference, unit))
		fmt.Fprint(out, wrap(edgeNames(s.A, s.Part)+" to "+edgeNames(s.B, s.Part), "      "))
		for _, side := range []plan.SeamSide{s.A, s.B} {
			if words := worked(side, unit); words != "" {
				fmt.Fprint(out, wrap(edgeNames(side, s.Part)+", "+words, "      "))
			}
		}
	}
}

// leftOver is the difference of the sides of a seam: as the lengths where a tape
// shows it, else in mm, and 0 where no needle can follow.
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
	return fmt.Sprintf("%.1f mm", mm)
}

// edgeNames names the edges of a side, those of its own part without the part.
func edgeNames(s plan.SeamSide, part string) string {
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
func worked(s plan.SeamSide, unit measure.Unit) string {
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

// printEdges prints the edges of each piece, as [[match]] names them.
func printEdges(out io.Writer, pieces []plan.Cut, unit measure.Unit) {
	fmt.Fprint(out, "\n"+wrap("Edges counter-clockwise, each from its start to its end, in "+inWords[unit]+": what `points` of [[match]] go by.", "")+"\n")
	for _, p := range pieces {
		edges := make([]string, len(p.Edges))
		for i, e := range p.Edges {
			edges[i] = e.Name + " " + bare(e.Length, unit)
		}
		fmt.Fprint(out, wrap(p.Piece+" ("+p.Cloth+"): "+strings.Join(edges, ", "), "  "))
	}
}
