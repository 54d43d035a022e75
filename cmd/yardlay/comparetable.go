package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/shapes/measure"
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
	fmt.Fprintf(out, "\n%s", wrapAt(t.legend(), "", width))
	for _, row := range r.Rows {
		for _, note := range row.Notes {
			fmt.Fprintf(out, "\n%s", wrapAt(row.Name+": "+note, "", width))
		}
	}
	for _, note := range r.Notes {
		fmt.Fprintf(out, "\n%s", wrapAt(note, "", width))
	}
	if best := r.Best(); best != nil {
		for _, c := range slices.Concat(best.Report.Remarks, best.Report.Cautions) {
			fmt.Fprintf(out, "\n%s", wrapAt(c, "", width))
		}
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
	id    string
	per   measure.Unit // of its lengths
	width int
}

const (
	gapBefore = 2 // letters between columns
	mark      = 2 // "* " before the best
)

func newComparison(r *compare.Result, width int) comparison {
	t := comparison{Result: r, width: width, cost: len(r.Currency), gap: len("gap")}
	for _, row := range r.Rows {
		if row.Report == nil {
			continue
		}
		for i, c := range row.Report.Cloths {
			k := slices.IndexFunc(t.cloths, func(known column) bool { return known.id == c.ID })
			if k < 0 {
				k = len(t.cloths)
				t.cloths = append(t.cloths, column{c.ID, c.Spread.Cloth.Offer.Per, len(c.ID)})
			}
			col := &t.cloths[k]
			col.width = max(col.width, len(col.bought(row.Cloths[i])), len(col.change(row.Cloths[i])))
		}
		t.cost = max(t.cost, len(priceOr(row.Cost)), len(dearer(row)))
		if row.Price != "" {
			t.price = max(t.price, gapBefore+max(len(priceHead), len(row.Price), len(dearerGown(row))))
		}
		t.gap = max(t.gap, len(loose(row)))
	}
	t.name = width - mark - gapBefore - t.cost - t.price - gapBefore - t.gap
	for _, c := range t.cloths {
		t.name -= gapBefore + c.width
	}
	longest, named := 0, t.gap
	for _, row := range r.Rows {
		longest, named = max(longest, len(row.Title())), max(named, len(loosest(row)))
	}
	if more := named - t.gap; len(t.cloths) > 1 && t.name-more >= max(longest, leastName) { // there is room
		t.gap, t.name, t.named = named, t.name-more, true
	}
	t.name = min(t.name, max(longest, leastName))
	return t
}

// bought shows what a row buys of a cloth, without the unit.
func (c column) bought(of compare.Cloth) string {
	switch of.Bolts {
	case 0:
		return report.BareUp(of.Bought, c.per)
	case 1:
		return "1 bolt"
	}
	return fmt.Sprintf("%d bolts", of.Bolts)
}

// change shows how much more or less that is than in the job as written, "" when
// it is the same.
func (c column) change(of compare.Cloth) string {
	switch d := of.Difference; {
	case d > measure.Guard:
		return "+" + report.Bare(d, c.per)
	case d < -measure.Guard:
		return "-" + report.Bare(-d, c.per)
	}
	return ""
}

// dearer shows how much more the cloth of a row costs than that of the job as written.
func dearer(row compare.Row) string {
	if row.Difference == nil {
		return ""
	}
	return signed(row.Difference.Cost)
}

// dearerGown shows how much more the gowns of a row cost.
func dearerGown(row compare.Row) string {
	if row.Difference == nil {
		return ""
	}
	return signed(row.Difference.Price)
}

// signed shows a difference with its sign, and nothing for none.
func signed(more string) string {
	switch {
	case strings.Trim(more, "0.") == "":
		return ""
	case more[0] != '-':
		return "+" + more
	default:
		return more
	}
}

// loose shows how much longer than its bound the loosest marker of a row is.
func loose(row compare.Row) string {
	if row.Proved {
		return "proved"
	}
	return report.GapWords(row.Gap)
}

// loose shows it as the table has room for.
func (t comparison) loose(row compare.Row) string {
	if t.named {
		return loosest(row)
	}
	return loose(row)
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
		heads[i], units[i] = c.id, c.per.String()
	}
	if t.price > 0 {
		fmt.Fprint(out, t.cells("", "", heads, "cloth", priceHead, "gap"),
			t.cells("", "", units, t.Currency, t.Currency, ""))
	} else {
		fmt.Fprint(out, t.cells("", "", heads, t.Currency, "", "gap"), t.cells("", "", units, "", "", ""))
	}
	for _, row := range t.Rows {
		names := strings.Split(strings.TrimSuffix(wrapAt(row.Title(), "", t.name), "\n"), "\n")
		if row.Report == nil {
			fmt.Fprintf(out, "  %s\n%s", row.Name, wrapAt(whyNot(row), "    ", t.width))
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
	differs := compareLine{make([]string, len(t.cloths)), dearer(row), dearerGown(row), ""}
	changed := differs.cost != "" || differs.price != ""
	for i, col := range t.cloths {
		buys.cloths[i] = "-"
		for _, c := range row.Cloths {
			if c.ID == col.id {
				buys.cloths[i], differs.cloths[i] = col.bought(c), col.change(c)
				changed = changed || differs.cloths[i] != ""
			}
		}
	}
	if !changed {
		return []compareLine{buys}
	}
	return []compareLine{buys, differs}
}

func whyNot(row compare.Row) string {
	if row.Unpriced {
		return "not priced: " + row.Brief
	}
	return "not laid: " + row.Brief
}

// stack prints row under row, each with a line a cloth.
func (t comparison) stack(out io.Writer) {
	for i, row := range t.Rows {
		if i > 0 {
			fmt.Fprintln(out)
		}
		name := row.Title()
		if row.Best {
			name = "* " + name
		}
		fmt.Fprint(out, wrapAt(name, "", t.width))
		if row.Report == nil {
			fmt.Fprint(out, wrapAt(whyNot(row), "  ", t.width))
			continue
		}
		for _, c := range row.Cloths {
			col := t.cloths[slices.IndexFunc(t.cloths, func(k column) bool { return k.id == c.ID })]
			fmt.Fprint(out, wrapAt(aside(c.ID+" "+col.boughtOf(c), col.change(c)), "  ", t.width))
		}
		fmt.Fprint(out, wrapAt(aside(priceOr(row.Cost)+" "+t.Currency, dearer(row))+", "+loosely(row), "  ", t.width))
		if row.Price != "" {
			fmt.Fprint(out, wrapAt("gown "+aside(row.Price+" "+t.Currency, dearerGown(row)), "  ", t.width))
		}
	}
}

// boughtOf is bought with the unit.
func (c column) boughtOf(of compare.Cloth) string {
	if of.Bolts > 0 {
		return c.bought(of)
	}
	return c.bought(of) + " " + c.per.String()
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

// legend explains the marks.
func (t comparison) legend() string {
	if t.Best() == nil {
		return "No row can be laid. `yardlay quote` says why not, and what would help."
	}
	return "* " + t.why() + " Lengths are as bought; +/- is the difference from the job as written." +
		" Gap: how much longer than its bound the loosest marker of the row is" + t.shelved() +
		". Proved: no less can be bought of any cloth."
}

// shelved says what gaps are of where leftovers are cut from as well, or cloth is
// folded.
func (t comparison) shelved() string {
	for _, row := range t.Rows {
		if row.Report != nil && slices.ContainsFunc(row.Report.Cloths,
			func(c report.Cloth) bool { return c.Shelf != nil }) {
			return ", with leftovers used as they are; another use of them may save more"
		}
	}
	unproved := func(c report.Cloth) bool { return len(c.Stretches) > 0 && !c.Proved }
	for _, row := range t.Rows {
		if row.Report != nil && slices.ContainsFunc(row.Report.Cloths, unproved) {
			return ", on a fold with all cut double that can be; cutting less double may save more"
		}
	}
	return ""
}

// why says what makes the best row the best, and what is counted.
func (t comparison) why() string {
	best := t.Best()
	saved := func(difference string) string {
		if less, ok := strings.CutPrefix(difference, "-"); ok {
			return fmt.Sprintf(", %s less than as written", less)
		}
		return ""
	}
	d := compare.Difference{}
	if best.Difference != nil {
		d = *best.Difference
	}
	switch {
	case best.Price != "":
		return fmt.Sprintf("the gown costs least: %s %s%s, as `quote` prices it.", best.Price,
			t.Currency, saved(d.Price))
	case best.Cost == "":
		return "takes the least cloth."
	}
	return fmt.Sprintf("the cloth costs least: %s %s%s. Cloth alone is counted.", best.Cost, t.Currency, saved(d.Cost))
}
