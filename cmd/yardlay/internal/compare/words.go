package compare

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/report"
	"yardlay/shapes/measure"
)

// Column is a cloth in a table of rows.
type Column struct {
	ID  string
	Per measure.Unit // of its lengths
}

// Columns are the cloths that any row buys, in the order of the job.
func (r *Result) Columns() []Column {
	var all []Column
	for _, row := range r.Rows {
		if row.Report == nil {
			continue
		}
		for _, c := range row.Report.Cloths {
			if !slices.ContainsFunc(all, func(known Column) bool { return known.ID == c.ID }) {
				all = append(all, Column{c.ID, c.Spread.Cloth.Offer.Per})
			}
		}
	}
	return all
}

// Bought shows what a row buys of a cloth, without the unit.
func (c Column) Bought(of Cloth) string {
	switch of.Bolts {
	case 0:
		return report.BareUp(of.Bought, c.Per)
	case 1:
		return "1 bolt"
	}
	return fmt.Sprintf("%d bolts", of.Bolts)
}

// Change shows how much more or less that is than in the job as written, "" when
// it is the same.
func (c Column) Change(of Cloth) string {
	switch d := of.Difference; {
	case d > measure.Guard:
		return "+" + report.Bare(d, c.Per)
	case d < -measure.Guard:
		return "-" + report.Bare(-d, c.Per)
	}
	return ""
}

// Dearer shows how much more the cloth of a row costs than that of the job as written.
func (w Row) Dearer() string {
	if w.Difference == nil {
		return ""
	}
	return signed(w.Difference.Cost)
}

// DearerGown shows how much more the gowns of a row cost.
func (w Row) DearerGown() string {
	if w.Difference == nil {
		return ""
	}
	return signed(w.Difference.Price)
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

// Loose shows how much longer than its bound the loosest marker of a row is.
func (w Row) Loose() string {
	if w.Proved {
		return "proved"
	}
	return report.GapWords(w.Gap)
}

// WhyNot says why a row was not laid, or not priced.
func (w Row) WhyNot() string {
	if w.Unpriced {
		return "not priced: " + w.Brief
	}
	return "not laid: " + w.Brief
}

// BoughtOf is Bought with the unit.
func (c Column) BoughtOf(of Cloth) string {
	if of.Bolts > 0 {
		return c.Bought(of)
	}
	return c.Bought(of) + " " + c.Per.String()
}

// Loosest shows a row's gap with the cloth that has it.
func (w Row) Loosest() string {
	if w.Report == nil || w.Proved || len(w.Cloths) == 0 {
		return w.Loose()
	}
	worst := slices.MaxFunc(w.Cloths, func(a, b Cloth) int { return cmp.Compare(openGap(a), openGap(b)) })
	return w.Loose() + " " + worst.ID
}

// openGap is the gap of a cloth of which less might be bought; below 0 for others.
func openGap(c Cloth) float64 {
	if c.Proved {
		return -1
	}
	return c.Gap
}

// Said is what is said below the table, a paragraph each: what the marks mean, what is out
// of the ordinary with rows and with the whole, and what to mind with the best.
func (r *Result) Said() []string {
	said := []string{r.legend()}
	for _, row := range r.Shown() {
		if sewn := row.Sewn(r.Unit, r.Currency); sewn != "" {
			said = append(said, row.Name+": "+sewn+".")
		}
		for _, note := range row.Notes {
			said = append(said, row.Name+": "+note)
		}
	}
	said = slices.Concat(said, r.places(), r.Notes)
	if best := r.Best(); best != nil {
		said = append(said, slices.Concat(best.Report.Remarks, best.Report.Cautions)...)
	}
	return said
}

// legend explains the marks.
func (r *Result) legend() string {
	if r.Best() == nil {
		return "No row can be laid. `yardlay quote` says why not, and what would help."
	}
	return "* " + r.why() + " Lengths are as bought; +/- is the difference from the job as written." +
		" Gap: how much longer than its bound the loosest marker of the row is" + r.shelved() +
		". Proved: no less can be bought of any cloth."
}

// shelved says what gaps are of where leftovers are cut from as well, or cloth is
// folded.
func (r *Result) shelved() string {
	for _, row := range r.Rows {
		if row.Report != nil && slices.ContainsFunc(row.Report.Cloths,
			func(c report.Cloth) bool { return c.Shelf != nil }) {
			return ", with leftovers used as they are; another use of them may save more"
		}
	}
	unproved := func(c report.Cloth) bool { return len(c.Stretches) > 0 && !c.Proved }
	for _, row := range r.Rows {
		if row.Report != nil && slices.ContainsFunc(row.Report.Cloths, unproved) {
			return ", on a fold with what is cut double as it is; cutting others double may save more"
		}
	}
	return ""
}

// why says what makes the best row the best, and what is counted.
func (r *Result) why() string {
	best := r.Best()
	saved := func(difference string) string {
		if less, ok := strings.CutPrefix(difference, "-"); ok {
			return fmt.Sprintf(", %s less than as written", less)
		}
		return ""
	}
	d := Difference{}
	if best.Difference != nil {
		d = *best.Difference
	}
	switch {
	case best.Price != "":
		return fmt.Sprintf("the gown costs least: %s %s%s, with all that its quote counts.", best.Price,
			r.Currency, saved(d.Price))
	case best.Cost == "":
		return "takes the least cloth."
	}
	return fmt.Sprintf("the cloth costs least: %s %s%s. Cloth alone is counted.", best.Cost, r.Currency, saved(d.Cost))
}
