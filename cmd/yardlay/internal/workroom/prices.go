package workroom

import (
	"fmt"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes/say"
)

// Asked says what a cloth costs, at whose counter and since when: "13.50/yd at mill,
// asked 2026-03-01, 273 days ago".
func Asked(o job.Sourced, on job.Date) string {
	words := ""
	switch {
	case o.Offer.Price.Currency != "":
		words = fmt.Sprintf("%s/%s", o.Offer.Price.Amount(), o.Offer.Per)
	case o.Offer.Bolt != nil:
		words = o.Offer.Bolt.Price.Amount() + " a bolt"
	}
	if o.Supplier != "" {
		words += " at " + o.Supplier
	}
	if o.Priced.IsZero() {
		return words
	}
	return words + ", asked " + o.Priced.String() + ago(o.Priced, on)
}

// ago says how long before a day another one was, from the second day on.
func ago(then, on job.Date) string {
	if days := on.DaysSince(then); days > 1 {
		return ", " + say.Count(days, "day") + " ago"
	}
	return ""
}

// OldPrices tells of prices of the cloths of a job that are older on a day than they are
// believed, a sentence each.
func OldPrices(j *job.Job, on job.Date) []string {
	var told []string
	for _, c := range j.Cloths {
		for _, o := range c.Offers {
			days := on.DaysSince(o.Priced)
			if o.Priced.IsZero() || days <= j.PricesHold() {
				continue
			}
			name := c.ID
			if c.From != "" {
				name = c.From
			}
			at := ""
			if o.Supplier != "" {
				at = " at " + o.Supplier
			}
			line := fmt.Sprintf("The price of %s%s is of %s, %s old. Ask again before you count on it.", name, at,
				o.Priced, say.Count(days, "day"))
			if !slices.Contains(told, line) {
				told = append(told, line)
			}
		}
	}
	return told
}
