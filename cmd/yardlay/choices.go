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
		saves := c.Saves.Grouped()
		if c.Saves.Minor == 0 {
			saves = "-"
		}
		lines := strings.Split(strings.TrimSuffix(wrapAt(c.Name, "  ", name-1), "\n"), "\n")
		lines[0] = fmt.Sprintf("%-*s%*s%*s", name, lines[0], amountColumn, c.Total.Grouped(), amountColumn, saves)
		fmt.Fprintln(out, strings.Join(lines, "\n"))
		for _, detail := range details(q, c) {
			fmt.Fprint(out, wrapAt(detail, "    ", width))
		}
	}
	for _, l := range found.LeftOut {
		fmt.Fprintf(out, "\n%s", wrapAt(l.Name+" cannot be made: "+l.Why+".", "", width))
	}
	if len(found.Skipped) > 0 {
		fmt.Fprintf(out, "\n%s", wrapAt("The run ended before it tried these: "+strings.Join(found.Skipped,
			", ")+". A full run prices them.", "", width))
	}
	last := "Each row changes one thing, and is laid and priced as the job is. A saving below 0 costs more."
	if len(found.Choices) == 0 {
		last = "None of the choices tried moves the price."
		if len(found.Skipped) > 0 {
			last = "None of the choices tried so far moves the price."
		}
	}
	fmt.Fprintf(out, "\n%s", wrapAt(last, "", width))
}

// details says what else is to be known about a choice.
func details(q *quote.Quote, c quote.Choice) []string {
	var all []string
	if c.Saves.Minor == 0 && q.Cost != c.Quote.Cost {
		all = append(all, fmt.Sprintf("the cost is %s, rounded to the same total", c.Quote.Cost.Grouped()))
	}
	if c.Note != "" {
		all = append(all, c.Note)
	}
	return all
}
