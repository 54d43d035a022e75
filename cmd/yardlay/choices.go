package main

import (
	"fmt"
	"io"
	"strings"

	"yardlay/cmd/yardlay/internal/quote"
)

// printChoices prints what would move the total, the greatest saving first.
func printChoices(out io.Writer, q *quote.Quote, choices []quote.Choice, width int) {
	if len(choices) == 0 {
		fmt.Fprintf(out, "\n%s", wrapAt("None of the choices tried moves the price.", "", width))
		return
	}
	name := width - 2*amountColumn
	fmt.Fprintf(out, "\n%-*s%*s%*s\n", name, "What if", amountColumn, "total", amountColumn, "saves")
	for _, c := range choices {
		saves := c.Saves.Amount()
		if c.Saves.Minor == 0 {
			saves = "-"
		}
		lines := strings.Split(strings.TrimSuffix(wrapAt(c.Name, "  ", name-1), "\n"), "\n")
		lines[0] = fmt.Sprintf("%-*s%*s%*s", name, lines[0], amountColumn, c.Total.Amount(), amountColumn, saves)
		fmt.Fprintln(out, strings.Join(lines, "\n"))
		for _, detail := range details(q, c) {
			fmt.Fprint(out, wrapAt(detail, "    ", name))
		}
	}
	fmt.Fprintf(out, "\n%s", wrapAt("Each of these is laid and priced as the job is, and changes one thing. A saving below 0 costs more.", "", width))
}

// details says what else is to be known about a choice.
func details(q *quote.Quote, c quote.Choice) []string {
	var all []string
	if c.Saves.Minor == 0 && q.Cost != c.Quote.Cost {
		all = append(all, fmt.Sprintf("the cost is %s, rounded to the same total", c.Quote.Cost.Amount()))
	}
	if c.Note != "" {
		all = append(all, c.Note)
	}
	return all
}
