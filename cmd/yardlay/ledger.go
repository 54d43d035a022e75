package main

import (
	"fmt"
	"io"
	"strings"

	"yardlay/cmd/yardlay/internal/sheet"
)

// amountColumn is how wide a column of amounts is, letters, the gap before it
// included.
const amountColumn = 12

// printLedger prints what the page of a ledger says, in lines of at most so many
// letters: the amounts of items, and in the last column sums.
func printLedger(out io.Writer, l sheet.Ledger, columns int) {
	if l.Banner != "" {
		fmt.Fprintf(out, "%s\n", wrapAt(l.Banner, "", columns))
	}
	for i, line := range append([]string{l.Title}, l.Facts...) {
		if line != "" {
			fmt.Fprint(out, wrapAt(line, "", columns))
		}
		if i == len(l.Facts) {
			fmt.Fprintln(out)
		}
	}
	fmt.Fprintf(out, "%*s\n", columns, l.Head)
	for i, e := range l.Lines {
		indent, column := "", 2
		switch e.Kind {
		case sheet.EntryHead:
			if i > 0 {
				fmt.Fprintln(out)
			}
		case sheet.EntryItem:
			indent, column = "  ", 1
		}
		printEntry(out, e, indent, columns, columns-amountColumn*(2-column))
	}
	for _, n := range l.Notes {
		fmt.Fprintf(out, "\n%s", wrapAt(n, "", columns))
	}
}

// printEntry prints one line with its amount ending in a column, and its detail.
func printEntry(out io.Writer, e sheet.Entry, indent string, columns, end int) {
	most := max(columns-2*amountColumn, columns/2)
	lines := strings.Split(strings.TrimSuffix(wrapAt(e.Text, indent, most), "\n"), "\n")
	if e.Amount != "" {
		lines[0] = fmt.Sprintf("%s%*s", lines[0], end-len([]rune(lines[0])), e.Amount)
	}
	fmt.Fprintln(out, strings.Join(lines, "\n"))
	if e.Detail != "" {
		fmt.Fprint(out, wrapAt(e.Detail, indent+"  ", columns))
	}
}
