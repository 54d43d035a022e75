package main

import (
	"fmt"
	"io"
	"strings"

	"yardlay/cmd/yardlay/internal/quote"
)

// printChoices prints what would move the total, the greatest saving first, and
// what cannot be made.
func printChoices(out io.Writer, q *quote.Quote, found quote.Choices, width int) {
	name := width - 2*amountColumn
	if len(found.Choices) > 0 {
		fmt.Fprintf(out, "\n%-*s%*s%*s\n", name, "What if", amountColumn, "total", amountColumn, "saves")
	}
	for _, c := range found.Choices {
		lines := strings.Split(strings.TrimSuffix(wrapAt(c.Name, "  ", name-1), "\n"), "\n")
		lines[0] = fmt.Sprintf("%-*s%*s%*s", name, lines[0], amountColumn, c.Total.Grouped(), amountColumn, c.Shown())
		fmt.Fprintln(out, strings.Join(lines, "\n"))
		for _, detail := range c.Details(q) {
			fmt.Fprint(out, wrapAt(detail, "    ", width))
		}
	}
	for _, said := range found.Said() {
		fmt.Fprintf(out, "\n%s", wrapAt(said, "", width))
	}
}
