package quote

import (
	"fmt"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cost"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// headings are what groups of lines are called, by their kind.
var headings = map[cost.Kind]string{
	cost.KindCloth: "Cloth", cost.KindNotion: "Notions", cost.KindSupply: "Ordering", cost.KindLabour: "Labour",
}

// Ledger is the quote as it is printed: every line of it, and the sums they come to.
func (q *Quote) Ledger() sheet.Ledger {
	l := ledger(q.Title, "Quote", q.Page, q.Currency, q.Unit)
	l.Banner = "For the workroom alone: this page shows costs and profit."
	if q.Gowns > 1 {
		l.Facts = append([]string{forGowns(q.Gowns)}, l.Facts...)
	}
	last := cost.Kind("")
	for i, line := range q.Lines {
		if title := headings[line.Kind]; title != "" && line.Kind != last {
			l.Lines = append(l.Lines, sheet.Entry{Kind: sheet.EntryHead, Text: title})
		}
		last = line.Kind
		entry := sheet.Entry{Text: line.What, Detail: line.Detail, Amount: line.Amount.Grouped()}
		if headings[line.Kind] == "" && line.Detail != "" {
			entry.Text, entry.Detail = line.What+" of "+line.Detail, ""
		}
		l.Lines = append(l.Lines, entry)
		if line.Kind == cost.KindLabour && q.Work != nil && line.What == "making" {
			l.Lines[len(l.Lines)-1].Detail += q.Work.words()
		}
		next := cost.Kind("")
		if i+1 < len(q.Lines) {
			next = q.Lines[i+1].Kind
		}
		l.Lines = append(l.Lines, q.sums(line.Kind, next)...)
	}
	if q.Total.Minor == 0 && len(q.Lines) == 0 {
		l.Lines = append(l.Lines, sheet.Entry{Kind: sheet.EntryHead, Text: "Nothing has a price"})
	}
	l.Lines = append(l.Lines, paying(q.Total, q.Deposit, q.Balance, q.PerGown, q.Gowns)...)
	if q.Cost == q.Materials && q.Price == q.Cost && q.Total.Minor != 0 {
		l.Notes = append(l.Notes,
			"This counts materials alone: the job gives no hours ([labour]), no overhead and no markup ([quote]).")
	}
	l.Notes = slices.Concat(l.Notes, q.Places, q.Notes)
	return l
}

// sums returns what the lines so far come to, where one group ends and another
// begins.
func (q *Quote) sums(kind, next cost.Kind) []sheet.Entry {
	sum := func(text string, m cost.Money) []sheet.Entry {
		return []sheet.Entry{{Kind: sheet.EntrySum, Text: text, Amount: m.Grouped()}}
	}
	material := func(k cost.Kind) bool { return k == cost.KindCloth || k == cost.KindNotion || k == cost.KindSupply }
	switch {
	case kind == next, next == "":
		return nil // the total follows
	case material(kind) && !material(next):
		if next == cost.KindLabour || next == cost.KindOverhead {
			return sum("Materials", q.Materials)
		}
		return sum("Cost", q.Cost)
	case kind == cost.KindLabour && next == cost.KindOverhead:
		return sum("Labour", q.Labour)
	case kind == cost.KindLabour, kind == cost.KindOverhead:
		return sum("Cost", q.Cost)
	case kind == cost.KindPrice && next == cost.KindTax:
		return sum("Price", q.Price)
	}
	return nil
}

// ledger begins a page with what it says besides figures.
func ledger(title, kind string, page job.Page, currency string, unit measure.Unit) sheet.Ledger {
	l := sheet.Ledger{Title: kind, Head: currency, Metric: unit.Metric()}
	if title != "" {
		l.Title = title + ": " + strings.ToLower(kind)
	}
	for _, f := range []struct{ word, text string }{{"From ", page.Maker}, {"For ", page.Client}, {"", page.Date},
		{"Valid ", page.Valid}} {
		if f.text != "" {
			l.Facts = append(l.Facts, f.word+f.text)
		}
	}
	if page.Note != "" {
		l.Notes = append(l.Notes, page.Note)
	}
	return l
}

// forGowns says for how many gowns a page is.
func forGowns(n int) string { return fmt.Sprintf("for %d gowns", n) }

// paying is the total, what is due first, and the share of each gown of several.
func paying(total, deposit, balance cost.Money, shares []cost.Portion, gowns int) []sheet.Entry {
	lines := []sheet.Entry{{Kind: sheet.EntryTotal, Text: "Total", Amount: total.Grouped()}}
	note := func(text string, m cost.Money) {
		lines = append(lines, sheet.Entry{Kind: sheet.EntryNote, Text: text, Amount: m.Grouped()})
	}
	if deposit.Minor != 0 {
		note("Deposit, due first", deposit)
		note("Balance", balance)
	}
	if gowns > 1 {
		for _, s := range shares {
			switch {
			case len(shares) == 1:
				note(fmt.Sprintf("Each of %d gowns", gowns), s.Each)
			case s.Count == 1:
				note(fmt.Sprintf("One of the %d gowns", gowns), s.Each)
			default:
				note(fmt.Sprintf("Each of %d of the %d gowns", s.Count, gowns), s.Each)
			}
		}
	}
	return lines
}

// Ledger is the client's quote as it is printed.
func (c ClientQuote) Ledger(unit measure.Unit) sheet.Ledger {
	l := ledger(c.Title, "Quote", c.Page, c.Currency, unit)
	l.Lines = append(l.Lines, sheet.Entry{Kind: sheet.EntryHead, Text: "Included"})
	for _, what := range c.Garments {
		l.Lines = append(l.Lines, sheet.Entry{Text: what})
	}
	if c.Fittings > 0 {
		l.Lines = append(l.Lines, sheet.Entry{Text: say.Count(c.Fittings, "fitting")})
	}
	if len(c.NotIncluded) > 0 {
		l.Lines = append(l.Lines, sheet.Entry{Kind: sheet.EntryHead, Text: "Not included"})
	}
	for _, what := range c.NotIncluded {
		l.Lines = append(l.Lines, sheet.Entry{Text: what + ", which has no price yet"})
	}
	price := "One gown"
	if c.Gowns > 1 {
		price = fmt.Sprintf("%d gowns", c.Gowns)
	}
	l.Lines = append(l.Lines, sheet.Entry{Kind: sheet.EntryHead, Text: "Price"},
		sheet.Entry{Text: price, Amount: c.Price.Grouped()})
	if c.Tax.Minor != 0 {
		l.Lines = append(l.Lines, sheet.Entry{Text: "tax", Amount: c.Tax.Grouped()})
	}
	l.Lines = append(l.Lines, paying(c.Total, c.Deposit, c.Balance, c.PerGown, c.Gowns)...)
	l.Notes = append(l.Notes, c.Cautions...)
	return l
}

// words says what hours follow from.
func (w *Work) words() string {
	var words []string
	for _, s := range w.Steps {
		words = append(words, fmt.Sprintf("%s %s min", s.amount, s.Minutes))
	}
	if len(words) == 0 {
		return ""
	}
	return ": " + strings.Join(words, ", ") + ", up to the quarter hour"
}
