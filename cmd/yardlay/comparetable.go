package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/report"
)

// printCompared prints a comparison: a table with a column a cloth where the
// terminal is wide enough for it; else one of totals and gaps, with the cloths that
// change below each row; else row under row.
func printCompared(out io.Writer, r *compare.Result, width int) {
	if r.Title != "" {
		fmt.Fprintf(out, "%s\n\n", r.Title)
	}
	t := newComparison(r, width)
	switch brief := t.brief(); {
	case t.Best() != nil && t.name >= leastName:
		t.print(out)
	case t.Best() != nil && brief.name >= leastBriefName:
		brief.print(out)
	default:
		t.stack(out)
	}
	for _, said := range r.Said() {
		fmt.Fprintf(out, "\n%s", wrapAt(said, "", width))
	}
}

// The least width, in letters, for the names of rows in a table: with its cloths
// beside them, and below them.
const leastName, leastBriefName = 18, 24

// comparison is a table of rows.
type comparison struct {
	*compare.Result
	cloths []column // in the order of the job
	cost   int      // width of the column of costs, letters
	price  int      // and of prices, the gap before it included; 0 where cloth alone is counted
	gap    int      // and of gaps
	named  bool     // gaps are shown with the cloth that has them
	name   int      // width of the names, less than leastName when there is no room
	width  int
}

// column is a cloth of the table.
type column struct {
	compare.Column
	width int
}

const (
	gapBefore = 2 // letters between columns
	mark      = 2 // "* " before the best
)

func newComparison(r *compare.Result, width int) comparison {
	t := comparison{Result: r, width: width, cost: len(r.Currency), gap: len("gap")}
	for _, c := range r.Columns() {
		t.cloths = append(t.cloths, column{c, len(c.ID)})
	}
	for _, row := range r.Shown() {
		if row.Report == nil {
			continue
		}
		for _, c := range row.Cloths {
			col := &t.cloths[slices.IndexFunc(t.cloths, func(k column) bool { return k.ID == c.ID })]
			col.width = max(col.width, len(col.Bought(c)), len(col.Change(c)))
		}
		t.cost = max(t.cost, len(priceOr(row.Cost)), len(row.Dearer()))
		if row.Price != "" {
			t.price = max(t.price, gapBefore+max(len(priceHead), len(row.Price), len(row.DearerGown())))
		}
		t.gap = max(t.gap, len(row.Loose()))
	}
	t.name = width - mark - gapBefore - t.cost - t.price - gapBefore - t.gap
	for _, c := range t.cloths {
		t.name -= gapBefore + c.width
	}
	longest, named := 0, t.gap
	for _, row := range r.Shown() {
		longest, named = max(longest, len(row.Title())), max(named, len(row.Loosest()))
	}
	if more := named - t.gap; len(t.cloths) > 1 && t.name-more >= max(longest, leastName) { // there is room
		t.gap, t.name, t.named = named, t.name-more, true
	}
	t.name = min(t.name, max(longest, leastName))
	return t
}

// loose shows it as the table has room for.
func (t comparison) loose(row compare.Row) string {
	if t.named {
		return row.Loosest()
	}
	return row.Loose()
}

// priceHead heads the column of what gowns cost with all that goes into them.
const priceHead = "gown"

// cells sets one line: a name, a cell a cloth, what the cloth costs and the gown, and
// a gap.
func (t comparison) cells(mark, name string, cloths []string, cost, price, gap string) string {
	line := fmt.Sprintf("%-2s%-*s", mark, t.name, name)
	for i, c := range t.cloths {
		line += fmt.Sprintf("  %*s", c.width, cloths[i])
	}
	return strings.TrimRight(line+fmt.Sprintf("  %*s%*s  %*s", t.cost, cost, t.price, price, t.gap, gap), " ") + "\n"
}

// print prints the table. What differs from the job as written stands in the
// line below.
func (t comparison) print(out io.Writer) {
	heads, units := make([]string, len(t.cloths)), make([]string, len(t.cloths))
	for i, c := range t.cloths {
		heads[i], units[i] = c.ID, c.Per.String()
	}
	if t.price > 0 {
		fmt.Fprint(out, t.cells("", "", heads, "cloth", priceHead, "gap"),
			t.cells("", "", units, t.Currency, t.Currency, ""))
	} else {
		fmt.Fprint(out, t.cells("", "", heads, t.Currency, "", "gap"), t.cells("", "", units, "", "", ""))
	}
	for _, row := range t.Shown() {
		names := strings.Split(strings.TrimSuffix(wrapAt(row.Title(), "", t.name), "\n"), "\n")
		if row.Report == nil {
			fmt.Fprintf(out, "  %s\n%s", row.Name, wrapAt(row.WhyNot(), "    ", t.width))
			continue
		}
		if slices.ContainsFunc(names, func(part string) bool { return len(part) > t.name }) {
			fmt.Fprintf(out, "  %s\n", row.Title())
			names = nil
		}
		lines := t.lines(row)
		for i := range max(len(names), len(lines)) {
			name, best := "", ""
			if i < len(names) {
				name = names[i]
			}
			if row.Best && i == 0 {
				best = "*"
			}
			if i < len(lines) {
				fmt.Fprint(out, t.cells(best, name, lines[i].cloths, lines[i].cost, lines[i].price, lines[i].gap))
			} else {
				fmt.Fprintf(out, "  %s\n", name)
			}
		}
	}
}

type compareLine struct {
	cloths           []string
	cost, price, gap string
}

// lines returns what a row buys and, when it differs, by how much.
func (t comparison) lines(row compare.Row) []compareLine {
	buys := compareLine{make([]string, len(t.cloths)), priceOr(row.Cost), row.Price, t.loose(row)}
	differs := compareLine{make([]string, len(t.cloths)), row.Dearer(), row.DearerGown(), ""}
	changed := differs.cost != "" || differs.price != ""
	for i, col := range t.cloths {
		buys.cloths[i] = "-"
		for _, c := range row.Cloths {
			if c.ID == col.ID {
				buys.cloths[i], differs.cloths[i] = col.Bought(c), col.Change(c)
				changed = changed || differs.cloths[i] != ""
			}
		}
	}
	if !changed {
		return []compareLine{buys}
	}
	return []compareLine{buys, differs}
}

// stack prints row under row, each with a line a cloth.
func (t comparison) stack(out io.Writer) {
	for i, row := range t.Shown() {
		if i > 0 {
			fmt.Fprintln(out)
		}
		name := row.Title()
		if row.Best {
			name = "* " + name
		}
		fmt.Fprint(out, wrapAt(name, "", t.width))
		if row.Report == nil {
			fmt.Fprint(out, wrapAt(row.WhyNot(), "  ", t.width))
			continue
		}
		for _, c := range row.Cloths {
			col := t.cloths[slices.IndexFunc(t.cloths, func(k column) bool { return k.ID == c.ID })]
			fmt.Fprint(out, wrapAt(aside(c.ID+" "+col.BoughtOf(c), col.Change(c)), "  ", t.width))
		}
		fmt.Fprint(out, wrapAt(aside(priceOr(row.Cost)+" "+t.Currency, row.Dearer())+", "+loosely(row), "  ", t.width))
		if row.Price != "" {
			fmt.Fprint(out, wrapAt("gown "+aside(row.Price+" "+t.Currency, row.DearerGown()), "  ", t.width))
		}
	}
}

// aside puts a difference, if there is one, in brackets.
func aside(text, difference string) string {
	if difference == "" {
		return text
	}
	return text + " (" + difference + ")"
}

func loosely(row compare.Row) string {
	if row.Proved {
		return "proved"
	}
	return "gap " + report.GapWords(row.Gap)
}
