package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"time"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// Columns of the table of lay, in letters: with the gaps of two between them
// they take the 80 of a terminal.
const layRow = "%-13s%6s  %11s  %-20s%7s  %8s  %6s\n"

// printLay prints what to buy, a line a cloth, what to note and what to mind.
func printLay(out io.Writer, r *plan.Report) {
	if r.Title != "" {
		fmt.Fprintf(out, "%s\n\n", r.Title)
	}
	printRow(out, "cloth", "pieces", "used", "buy", "filled", r.Currency, "time")
	for _, c := range r.Cloths {
		printRow(out, c.ID, fmt.Sprint(c.Pieces), measure.FormatUp(c.Used, r.Unit), toBuy(c),
			percent(c.Utilisation), priceOr(c.Cost), seconds(c.Elapsed))
	}
	printRow(out, "in all", "", "", "", "", priceOr(r.Total), seconds(r.Elapsed))
	printBounds(out, r)
	printLays(out, r)
	for _, note := range notes(r) {
		fmt.Fprintf(out, "\n%s", wrap(note, ""))
	}
	for _, c := range r.Cautions {
		fmt.Fprintf(out, "\n%s", wrap(c, ""))
	}
}

// printBounds prints how much less could ever be enough, and why.
func printBounds(out io.Writer, r *plan.Report) {
	const row = "%-19s  %11s  %8s  %s\n"
	fmt.Fprintf(out, "\n"+row, "no marker is under", "", "gap", "could save at most")
	for _, c := range r.Cloths {
		name := c.ID
		if len(name) > 18 {
			fmt.Fprintln(out, name)
			name = ""
		}
		fmt.Fprintf(out, row, name, measure.FormatDown(c.Bound, r.Unit), gap(c.Gap), couldSave(c))
	}
	for _, c := range r.Cloths {
		fmt.Fprintf(out, "\n%s", wrap(c.ID+": "+c.Reason+".", ""))
		if c.Shelf != nil && !c.Proved {
			fmt.Fprintf(out, "\n%s", wrap(fmt.Sprintf("%s: bound and gap are those of the bought cloth, as the shelf is used. "+
				"Another use of the shelf could save %s at most: none was found that does, which is no proof that there is none.", c.ID, counterSteps(c.Steps)), ""))
		}
	}
}

// couldSave says how much less a shorter marker could let be bought.
func couldSave(c plan.Cloth) string {
	switch {
	case c.Proved && len(c.Stretches) > 1:
		return "nothing on these stretches"
	case c.Proved:
		return "nothing: proved minimal"
	case c.Shelf != nil && c.Shelf.Steps == 0:
		return "nothing, as the shelf is used"
	case c.Shelf != nil:
		return counterSteps(c.Shelf.Steps)
	}
	return counterSteps(c.Steps)
}

// counterSteps counts steps of the counter.
func counterSteps(n int) string {
	if n == 1 {
		return "1 step of the counter"
	}
	return fmt.Sprintf("%d steps of the counter", n)
}

// printLays prints how each cloth is spread and cut, what a repeat takes, and
// the share of one gown of several.
func printLays(out io.Writer, r *plan.Report) {
	for _, c := range r.Cloths {
		lines := slices.Clone(c.Instructions)
		if words := purchaseWords(c); words != "" {
			lines = append(lines, words)
		}
		if c.Repeat != nil {
			lines = append(lines, repeatWords(r, c))
		}
		if c.PerGown != nil {
			lines = append(lines, gownWords(r, c))
		}
		for _, line := range lines {
			fmt.Fprintf(out, "\n%s", wrap(c.ID+": "+line, ""))
		}
	}
}

// purchaseWords says what is bought besides a single length or bolt, and why; ""
// where there is nothing to say.
func purchaseWords(c plan.Cloth) string {
	offer := c.Spread.Cloth.Offer
	text := ""
	switch {
	case c.Buy.Reason != "":
		text = c.Buy.Reason + "."
	case len(c.Buy.Parts) > 1:
		text = "Buy " + offer.InWords(c.Buy) + "."
	}
	if text != "" && c.Buy.Leftover > measure.Guard {
		text += " It leaves " + measure.FormatDown(c.Buy.Leftover, offer.Per) + "."
	}
	return text
}

// repeatWords says what keeping to the repeat of a cloth takes.
func repeatWords(r *plan.Report, c plan.Cloth) string {
	per := c.Spread.Cloth.Offer.Per
	text := fmt.Sprintf("Plain cloth would take %s and %s to buy; ", measure.FormatUp(c.Repeat.PlainUsed, r.Unit), measure.BothUp(c.Repeat.PlainBought, per))
	switch {
	case c.Repeat.ExtraBought > 0:
		return text + "the repeat takes " + measure.BothUp(c.Repeat.ExtraBought, per) + " more."
	case c.Repeat.Extra > 0:
		return text + "the repeat takes " + measure.FormatUp(c.Repeat.Extra, r.Unit) + " more, and nothing more at the counter."
	}
	return text + "the repeat takes no more."
}

// gownWords sets the cloth of one gown of several beside that of one alone.
func gownWords(r *plan.Report, c plan.Cloth) string {
	show := func(mm float64) string { return measure.FormatUp(mm, r.Unit) }
	text := fmt.Sprintf("%d gowns on one lay: %s of cloth for each, %s for one alone; bought %s for each, %s for one alone",
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

// printRow prints a row; a name too long for its column gets a line of its own.
func printRow(out io.Writer, name string, cells ...any) {
	if len(name) > 12 {
		fmt.Fprintln(out, name)
		name = ""
	}
	row := fmt.Sprintf(layRow, append([]any{name}, cells...)...)
	fmt.Fprintln(out, strings.TrimRight(row, " \n"))
}

// toBuy shows the length to buy in both systems, or the bolts and the length cut
// besides.
func toBuy(c plan.Cloth) string {
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
func notes(r *plan.Report) []string {
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
		if c.Split {
			list = append(list, fmt.Sprintf("%s: the marker is longer than any piece that is bought. Ask for the length in one piece, "+
				"or part the marker where no piece crosses.", c.ID))
		}
		if c.Cost == "" {
			list = append(list, fmt.Sprintf("%s has no price and is not in the sum.", c.ID))
		}
	}
	return list
}
