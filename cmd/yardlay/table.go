package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"time"

	"yardlay/cmd/yardlay/internal/report"
	"yardlay/nest"
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
		p.row(c.ID, fmt.Sprint(c.Pieces), measure.FormatUp(c.Used, p.Unit), toBuy(c),
			percent(c.Utilisation), priceOr(c.Cost), seconds(c.Elapsed))
	}
	p.row("in all", "", "", "", "", priceOr(p.Total), seconds(p.Elapsed))
	p.bounds()
	p.lays()
	for _, note := range notes(p.Report) {
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
			fmt.Fprint(p.out, wrapAt(fmt.Sprintf("%s: %s; %s; %s", name, bound, gap(c.Gap), couldSave(c)), "", p.width))
			continue
		}
		if len(name) > 18 {
			fmt.Fprintln(p.out, name)
			name = ""
		}
		fmt.Fprintf(p.out, row, name, bound, gap(c.Gap), couldSave(c))
	}
	p.proofs()
	for _, c := range p.Cloths {
		if c.Shelf != nil && !c.Proved {
			p.paragraph(fmt.Sprintf("%s: bound and gap are of the bought cloth, with the shelf used as it is. "+
				"Another use of the shelf could save %s at most. None was found, which does not prove that there is "+
				"none.", c.ID, counterSteps(c.Steps)))
		} else if len(c.Stretches) > 0 && !c.Proved {
			p.paragraph(fmt.Sprintf("%s: bound and gap are of the cloth as folded, with all cut double that can be. "+
				"With fewer pieces cut double %s could be saved at most; that was not tried.", c.ID,
				counterSteps(c.Steps)))
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

// couldSave says how much less shorter markers could let be bought, with the pieces
// shared out as they are.
func couldSave(c report.Cloth) string {
	switch {
	case c.Proved:
		return "nothing: proved minimal"
	case c.Laid.Lengths != nil && !c.ProvedAsShared:
		if less, err := c.Buy.Cost.Sub(c.Laid.Lengths.LeastFor); err == nil {
			return less.String()
		}
	case c.ProvedAsShared && c.Shelf != nil:
		return "nothing, as the shelf is used"
	case c.ProvedAsShared:
		return "nothing on these stretches"
	}
	return counterSteps(c.StepsAsShared)
}

// counterSteps counts steps of the counter.
func counterSteps(n int) string {
	if n == 1 {
		return "1 step of the counter"
	}
	return fmt.Sprintf("%d steps of the counter", n)
}

// lays prints how each cloth is spread and cut, what a repeat takes, and
// the share of one gown of several.
func (p layPrinter) lays() {
	for _, c := range p.Cloths {
		lines := slices.Clone(c.Instructions)
		if words := report.PurchaseWords(c.Spread.Cloth.Offer, c.Buy); words != "" {
			lines = append(lines, words)
		}
		if c.Repeat != nil {
			lines = append(lines, repeatWords(p.Report, c))
		}
		if c.PerGown != nil {
			lines = append(lines, gownWords(p.Report, c))
		}
		for _, line := range lines {
			p.paragraph(c.ID + ": " + line)
		}
	}
}

// repeatWords says what keeping to the repeat of a cloth takes, and how far the
// bound, which mostly leaves it out, may be too low.
func repeatWords(r *report.Report, c report.Cloth) string {
	per := c.Spread.Cloth.Offer.Per
	text := fmt.Sprintf("Plain cloth would take %s and %s to buy; ", measure.FormatUp(c.Repeat.PlainUsed, r.Unit),
		measure.BothUp(c.Repeat.PlainBought, per))
	switch {
	case c.Repeat.ExtraBought > 0:
		text += "the repeat takes " + measure.BothUp(c.Repeat.ExtraBought, per) + " more."
	case c.Repeat.Extra > 0:
		text += "the repeat takes " + measure.FormatUp(c.Repeat.Extra,
			r.Unit) + " more, and nothing more at the counter."
	default:
		text += "the repeat takes no more."
	}
	loose := measure.FormatUp(c.Repeat.Loose, r.Unit)
	switch {
	case c.Repeat.Loose < shownLoose:
		return text
	case c.Repeat.Counted:
		return text + " The bound counts whole repeats only where pieces must follow each other: it may be up to " +
			loose + " too low."
	case c.Repeat.PlainLoose < shownLoose:
		text += " The bound leaves the repeat out: on plain cloth it is met"
	default:
		text += " The bound leaves the repeat out: on plain cloth it is " + measure.FormatUp(c.Repeat.PlainLoose,
			r.Unit) + " under the marker"
	}
	return text + ", here it may be up to " + loose + " too low."
}

// shownLoose is the least distance between a bound and a marker that is told, mm: a
// maker measures no finer.
const shownLoose = 1.0

// gownWords sets the cloth of one gown of several beside that of one alone.
func gownWords(r *report.Report, c report.Cloth) string {
	show := func(mm float64) string { return measure.FormatUp(mm, r.Unit) }
	text := fmt.Sprintf("%d gowns on one lay: %s of cloth for each, %s for one alone; bought %s for each, %s for one "+
		"alone",
		r.Gowns, show(c.PerGown.Used), show(c.PerGown.AloneUsed), show(c.PerGown.Bought), show(c.PerGown.AloneBought))
	if c.PerGown.AloneCost != "" {
		text += fmt.Sprintf(". Together they cost %s, one alone %s %s", c.Cost, c.PerGown.AloneCost, r.Currency)
	}
	return text + "."
}

// gap shows by how much a layout is longer than the bound, rounded up.
func gap(share float64) string {
	return fmt.Sprintf("%.1f %%", math.Max(0, math.Ceil(share*1000-1e-6))/10)
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
	switch {
	case name == "cloth":
	case cells[0] == "":
		fmt.Fprint(p.out, wrapAt(fmt.Sprintf("%s: %v %s, in %v", name, cells[4], p.Currency, cells[5]), "", p.width))
	default:
		fmt.Fprint(p.out, wrapAt(fmt.Sprintf("%s: buy %v, %v %s", name, cells[2], cells[4], p.Currency), "", p.width))
		fmt.Fprint(p.out, wrapAt(fmt.Sprintf("pieces: %v, length used: %v, %v filled, in %v", cells[0], cells[1],
			cells[3], cells[5]), "  ", p.width))
	}
}

// toBuy shows the length to buy in both systems, or the bolts and the length cut
// besides.
func toBuy(c report.Cloth) string {
	per := c.Spread.Cloth.Offer.Per
	if c.Bought == 0 {
		return "nothing"
	}
	bolts := fmt.Sprintf("%d bolts", c.Bolts)
	switch c.Bolts {
	case 0:
		return measure.BothUp(c.Bought, per)
	case 1:
		bolts = "1 bolt"
	}
	for _, p := range c.Buy.Parts {
		if !p.Bolt {
			return bolts + " + " + measure.FormatUp(p.Length, per)
		}
	}
	return bolts + ", " + measure.FormatUp(c.Bought, per)
}

// percent shows a share, rounded down so that a full cloth alone says 100 %.
func percent(share float64) string {
	return fmt.Sprintf("%.1f %%", math.Floor(share*1000+1e-9)/10)
}

func priceOr(amount string) string {
	if amount == "" {
		return "-"
	}
	return amount
}

func seconds(d time.Duration) string { return fmt.Sprintf("%.1f s", d.Seconds()) }

// notes says what is out of the ordinary with a run.
func notes(r *report.Report) []string {
	var list, stopped, late []string
	for _, c := range r.Cloths {
		switch c.Ended {
		case nest.Stopped:
			stopped = append(stopped, c.ID)
		case nest.OutOfTime:
			late = append(late, c.ID)
		}
	}
	if len(stopped) > 0 {
		list = append(list, "Interrupted: the best layout so far is kept for "+strings.Join(stopped, ", ")+
			". It holds, but a full run may take less cloth.")
	}
	if len(late) > 0 {
		list = append(list, "Out of time: the best layout so far is kept for "+strings.Join(late, ", ")+
			". It holds, but more time may save cloth.")
	}
	for _, c := range r.Cloths {
		if c.Cost == "" {
			list = append(list, fmt.Sprintf("%s has no price and is not in the sum.", c.ID))
		}
	}
	return list
}
