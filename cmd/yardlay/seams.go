package main

import (
	"fmt"
	"strings"

	"yardlay/cmd/yardlay/internal/report"
)

// seams prints the sewing order: each seam with the finished lengths of its
// sides, what is left over, and what takes up the rest.
func (p listPrinter) seams(seams []report.Seam) {
	const format = "%-38s%5s%13s%13s%11s"
	p.paragraph(report.SeamNote(p.unit))
	var heading string
	for _, s := range seams {
		if h := s.Part + " in " + s.Cloth; h != heading {
			heading = h
			fmt.Fprintln(p.out)
			p.cells(format, h, report.SeamHeads...)
		}
		row := s.Row(p.unit)
		if len(row[0]) > 36 && p.width >= usualColumns {
			fmt.Fprintf(p.out, "  %s\n", row[0])
			row[0] = ""
		}
		p.cells(format, "  "+row[0], row[1:]...)
		for _, detail := range s.Details(p.unit) {
			fmt.Fprint(p.out, wrapAt(detail, "      ", p.width))
		}
	}
}

// edges prints the edges of each piece, as [[match]] names them.
func (p listPrinter) edges(pieces []report.Cut) {
	p.paragraph("Edges counter-clockwise, each from its start to its end, in " + report.UnitWords(p.unit) +
		". `points` of [[match]] take these names.")
	fmt.Fprintln(p.out)
	for _, c := range pieces {
		edges := make([]string, len(c.Edges))
		for i, e := range c.Edges {
			edges[i] = e.Name + " " + report.Bare(e.Length, p.unit)
		}
		fmt.Fprint(p.out, wrapAt(c.Piece+" ("+c.Cloth+"): "+strings.Join(edges, ", "), "  ", p.width))
	}
}
