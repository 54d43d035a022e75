package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/compare"
)

// briefTable is a comparison without columns for its cloths.
type briefTable struct {
	comparison
	loosest int // width of the column of gaps with their cloths
}

// brief makes room for the names by leaving the cloths out.
func (t comparison) brief() briefTable {
	b := briefTable{comparison: t, loosest: len("gap")}
	longest := leastBriefName
	for _, row := range t.Shown() {
		b.loosest = max(b.loosest, len(row.Loosest()))
		longest = max(longest, len(row.Title()))
	}
	b.name = min(longest, t.width-mark-2*gapBefore-t.cost-t.price-b.loosest)
	return b
}

// print prints a line of total and gap a row, and below it what is bought: in the
// first row of every cloth, in others of those that change.
func (b briefTable) print(out io.Writer) {
	line := func(best, name, cost, price, gap string) {
		text := fmt.Sprintf("%-2s%-*s  %*s%*s  %s", best, b.name, name, b.cost, cost, b.price, price, gap)
		fmt.Fprintln(out, strings.TrimRight(text, " "))
	}
	if b.price > 0 {
		line("", b.Currency, "cloth", priceHead, "gap")
	} else {
		line("", "", b.Currency, "", "gap")
	}
	for i, row := range b.Shown() {
		if row.Report == nil {
			fmt.Fprint(out, wrapAt(row.Name, "  ", b.width), wrapAt(row.WhyNot(), "    ", b.width))
			continue
		}
		best := ""
		if row.Best {
			best = "*"
		}
		names := strings.Split(strings.TrimSuffix(wrapAt(row.Title(), "", b.name), "\n"), "\n")
		for k, name := range names {
			switch k {
			case 0:
				line(best, name, priceOr(row.Cost), row.Price, row.Loosest())
			case 1:
				line("", name, row.Dearer(), row.DearerGown(), "")
			default:
				line("", name, "", "", "")
			}
		}
		if len(names) == 1 && row.Dearer()+row.DearerGown() != "" {
			line("", "", row.Dearer(), row.DearerGown(), "")
		}
		if words := b.buys(row, i == 0); words != "" {
			fmt.Fprint(out, wrapAt(words, "    ", b.width))
		}
	}
}

// buys lists what a row buys of each cloth: of all, or of those that change.
func (t comparison) buys(row compare.Row, all bool) string {
	var words []string
	for _, c := range row.Cloths {
		col := t.cloths[slices.IndexFunc(t.cloths, func(k column) bool { return k.ID == c.ID })]
		if change := col.Change(c); all || change != "" {
			words = append(words, aside(c.ID+" "+col.BoughtOf(c), change))
		}
	}
	return strings.Join(words, ", ")
}
