package main

import (
	"fmt"
	"io"
	"strings"
	"time"

	"yardlay/cmd/yardlay/internal/report"
	"yardlay/shapes/measure"
)

// Columns of the table of lay, in letters: with the gaps of two between them
// they take the 80 of a terminal.
const layRow = "%-13s%6s  %11s  %-20s%7s  %8s  %6s\n"

// layPrinter prints the result of lay in lines of at most so many letters.
type layPrinter struct {
	*report.Report
	out   io.Writer
	width int
	why   bool // proofs whole, not a line each
}

// print prints what to buy, a line a cloth, what to note and what to mind.
func (p layPrinter) print() {
	if p.Title != "" {
		fmt.Fprintf(p.out, "%s\n", wrapAt(p.Title, "", p.width))
	}
	p.row("cloth", "pieces", "used", "buy", "filled", p.Currency, "time")
	for _, c := range p.Cloths {
		p.row(c.ID, fmt.Sprint(c.Pieces), measure.FormatUp(c.Used, p.Unit), c.ToBuy(),
			report.Percent(c.Utilisation), priceOr(c.Cost), seconds(c.Elapsed))
	}
	p.row("in all", "", "", "", "", priceOr(p.Total), seconds(p.Elapsed))
	p.bounds()
	p.wearers()
	p.lays()
	for _, line := range p.Begun {
		p.paragraph(line)
	}
	for _, note := range p.Notes() {
		p.paragraph(note)
	}
	for _, r := range p.Remarks {
		p.paragraph(r)
	}
	for _, c := range p.Cautions {
		p.paragraph(c)
	}
}

// paragraph prints a text with an empty line before it.
func (p layPrinter) paragraph(text string) { fmt.Fprintf(p.out, "\n%s", wrapAt(text, "", p.width)) }

// wearers prints what each of several bodies takes, a line each.
func (p layPrinter) wearers() {
	for i, w := range p.Wearers {
		if i == 0 {
			p.paragraph("what each takes of what is bought, by the area of its pieces:")
		}
		fmt.Fprint(p.out, wrapAt(w.Words(p.Unit), "", p.width))
	}
}

// bounds prints how much less could ever be enough, and why.
func (p layPrinter) bounds() {
	const row = "%-19s  %11s  %8s  %s\n"
	fmt.Fprintln(p.out)
	if p.width >= usualColumns {
		fmt.Fprintf(p.out, row, "no marker is under", "", "gap", "could save at most")
	} else {
		fmt.Fprint(p.out, wrapAt("no marker is under; gap; could save at most", "", p.width))
	}
	for _, c := range p.Cloths {
		name, bound := c.ID, measure.FormatDown(c.Bound, p.Unit)
		if p.width < usualColumns {
			fmt.Fprint(p.out, wrapAt(fmt.Sprintf("%s: %s; %s; %s", name, bound, report.GapWords(c.Gap), c.CouldSave()), "",
				p.width))
			continue
		}
		if len(name) > 18 {
			fmt.Fprintln(p.out, name)
			name = ""
		}
		fmt.Fprintf(p.out, row, name, bound, report.GapWords(c.Gap), c.CouldSave())
	}
	p.proofs()
	for _, c := range p.Cloths {
		if words := c.SharedOtherwise(); words != "" {
			p.paragraph(c.ID + ": " + words)
		}
	}
}

// proofs prints why no marker can be shorter: a line a cloth, or with --why all of it.
func (p layPrinter) proofs() {
	if p.why {
		for _, c := range p.Cloths {
			p.paragraph(c.ID + ": " + c.Reason + ".")
		}
		return
	}
	fmt.Fprintln(p.out)
	for _, c := range p.Cloths {
		fmt.Fprint(p.out, wrapAt(c.ID+": "+c.Because, "", p.width))
	}
	fmt.Fprint(p.out, wrapAt("(--why explains)", "", p.width))
}

// lays prints how each cloth is spread and cut, what a repeat takes, and
// the share of one gown of several.
func (p layPrinter) lays() {
	for _, c := range p.Cloths {
		for _, line := range p.Lines(c) {
			p.paragraph(c.ID + ": " + line)
		}
	}
}

// row prints a row; a name too long for its column gets a line of its own. Where
// the terminal is too narrow for the columns, the cells follow the name in words.
func (p layPrinter) row(name string, cells ...any) {
	if p.width < usualColumns {
		p.narrow(name, cells)
		return
	}
	if len(name) > 12 {
		fmt.Fprintln(p.out, name)
		name = ""
	}
	row := fmt.Sprintf(layRow, append([]any{name}, cells...)...)
	fmt.Fprintln(p.out, strings.TrimRight(row, " \n"))
}

// narrow prints a row as words; the heads are among them.
func (p layPrinter) narrow(name string, cells []any) {
	price := fmt.Sprintf("%v %s", cells[4], p.Currency)
	if cells[4] == unpriced {
		price = "no price"
	}
	switch {
	case name == "cloth":
	case cells[0] == "":
		fmt.Fprint(p.out, wrapAt(fmt.Sprintf("%s: %s, in %v", name, price, cells[5]), "", p.width))
	default:
		fmt.Fprint(p.out, wrapAt(fmt.Sprintf("%s: buy %v, %s", name, cells[2], price), "", p.width))
		fmt.Fprint(p.out, wrapAt(fmt.Sprintf("pieces: %v, length used: %v, %v filled, in %v", cells[0], cells[1],
			cells[3], cells[5]), "  ", p.width))
	}
}

// unpriced stands in the column of amounts for none.
const unpriced = "-"

func priceOr(amount string) string {
	if amount == "" {
		return unpriced
	}
	return amount
}

func seconds(d time.Duration) string { return fmt.Sprintf("%.1f s", d.Seconds()) }
