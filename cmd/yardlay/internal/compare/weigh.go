package compare

import (
	"cmp"
	"context"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// weigh marks the best row, which is one that makes the same gown if there is any, and
// works out how the others differ from the job as
// written.
func (r *Result) weigh() {
	if best := r.least(); best != nil {
		best.Best = true
	}
	for i := range r.Rows[1:] {
		if row := &r.Rows[1+i]; row.Report != nil {
			row.differ(&r.Rows[0])
		}
	}
}

// least is the row that costs least; nil where none was laid.
func (r *Result) least() *Row {
	var best *Row
	for i := range r.Rows {
		if row := &r.Rows[i]; row.Report != nil && (best == nil || precedes(row, best)) {
			best = row
		}
	}
	return best
}

// precedes orders rows: less full ones last, then by the price of the gowns where that is known, then by the cost
// of cloth, then by the length bought of cloth that has no
// price, then by ease: fewer folded cloths, fewer changes. Of rows alike in all
// that the first is the better one.
func precedes(a, b *Row) bool {
	if a.thin != b.thin {
		return b.thin
	}
	return cmp.Or(
		cmp.Compare(a.price.Minor, b.price.Minor),
		cmp.Compare(a.Report.Bill.Total.Minor, b.Report.Bill.Total.Minor),
		cmp.Compare(a.unpriced(), b.unpriced()),
		cmp.Compare(a.folded(), b.folded()),
		cmp.Compare(len(a.Changes), len(b.Changes)),
	) < 0
}

// unpriced is the length bought of cloths without a price, mm.
func (w *Row) unpriced() float64 {
	sum := 0.0
	for _, c := range w.Report.Cloths {
		if c.Cost == "" {
			sum += c.Bought
		}
	}
	return sum
}

// folded counts the cloths that are not laid open.
func (w *Row) folded() int {
	n := 0
	for _, c := range w.Report.Cloths {
		if c.Laid.Task.Lay != nest.Open {
			n++
		}
	}
	return n
}

// differ sets a row against the job as written.
func (w *Row) differ(written *Row) {
	if written.Report == nil {
		return
	}
	was := map[string]float64{}
	d := &Difference{}
	for _, c := range written.Cloths {
		was[c.ID] = c.Bought
		d.Length -= c.Bought
	}
	for i := range w.Cloths {
		c := &w.Cloths[i]
		c.Difference = c.Bought - was[c.ID]
		d.Length += c.Bought
	}
	if w.Cost != "" && written.Cost != "" {
		d.minor = w.Report.Bill.Total.Minor - written.Report.Bill.Total.Minor
		d.Cost = cost.Money{Minor: d.minor, Currency: w.Report.Currency}.Amount()
	}
	if w.Price != "" && written.Price != "" {
		d.Price = cost.Money{Minor: w.price.Minor - written.price.Minor, Currency: w.Report.Currency}.Amount()
	}
	w.sewnMore(written, d)
	w.Difference = d
}

// note says what is out of the ordinary with rows and with the whole.
func (r *Result) note(ctx context.Context) {
	for i := range r.Rows {
		row := &r.Rows[i]
		for k, one := range row.lots {
			if one.other != nil && row.Report != nil {
				row.Notes = append(row.Notes, r.beaten(row.tasks[k], one))
			}
		}
	}
	r.Notes = append(r.Notes, r.unfinished(ctx)...)
	if slices.ContainsFunc(r.Rows, func(w Row) bool { return w.mayShorten() }) && r.Effort == nest.Normal.String() {
		r.Notes = append(r.Notes,
			"All rows are searched alike, and not for long. Laid by itself with lay, a row may take a little less "+
				"cloth.")
	}
	if c, ok := r.priceKept(); ok {
		prices := "45in+9.80/yd,60in+14/yd"
		if r.Unit.Metric() {
			prices = "114cm+9.80/m,150cm+14/m"
		}
		r.Notes = append(r.Notes, fmt.Sprintf("Prices stay as in the job when the width varies. "+
			"To give each width its price: %s.", r.asking(c+".width+"+c+".price", prices)))
	}
	if slices.ContainsFunc(r.Rows, func(w Row) bool { return w.thin && !w.Best }) {
		r.Notes = append(r.Notes,
			"A row that narrower cloth makes less full is another gown, and is not marked as the best.")
	}
	for _, c := range r.unpriced() {
		r.Notes = append(r.Notes, c+" has no price and is not in the sums.")
	}
	if r.freer() {
		r.Notes = append(r.Notes, "The best row takes a freer nap than the job. Only the cloth can allow that: "+
			"with a pile, a sheen or a print that shows, all pieces point one way.")
	}
	if parts := r.leaning(); len(parts) > 0 {
		r.Notes = append(r.Notes, fmt.Sprintf("The best row lets pieces of %s lean off the grain, which the job does not. "+
			"They may twist or hang unevenly: only where the cloth bears it, and never where stripes or a sheen show it.",
			strings.Join(parts, ", ")))
	}
	if parts := r.bent(); len(parts) > 0 {
		r.Notes = append(r.Notes, fmt.Sprintf("The best row bends the grain of %s. "+
			"Pieces cut across or on the bias hang and stretch otherwise: try them on a toile.",
			strings.Join(parts, ", ")))
	}
}

// beaten says that a layout of another row was shorter than what the search for this
// row found on a cloth.
func (r *Result) beaten(t plan.Task, one *lot) string {
	per := t.Spread.Cloth.Offer.Per
	return fmt.Sprintf("%s: the search for this row came to %s. A layout of %q is shorter "+
		"and may lie here too, so this row begins with it.",
		t.Spread.Cloth.ID, measure.FormatUp(one.other.alone, per), r.Rows[one.other.row].Name)
}

// priceKept finds a cloth whose width varies and whose price does not.
func (r *Result) priceKept() (id string, ok bool) {
	written := r.Rows[0].Job
	for _, row := range r.Rows[1:] {
		if row.Job == nil || len(row.Job.Cloths) != len(written.Cloths) {
			continue
		}
		for i, c := range row.Job.Cloths {
			was := written.Cloths[i]
			kept := c.Offer.Price == was.Offer.Price && reflect.DeepEqual(c.Offer.Bolt, was.Offer.Bolt)
			if c.Priced && c.Width != was.Width && kept {
				return c.ID, true
			}
		}
	}
	return "", false
}

// unpriced lists the cloths that some row buys without a price.
func (r *Result) unpriced() []string {
	var ids []string
	for _, row := range r.Rows {
		for _, c := range row.Cloths {
			if c.Cost == "" && !slices.Contains(ids, c.ID) {
				ids = append(ids, c.ID)
			}
		}
	}
	return ids
}

// freer says whether the best row lets pieces of a cloth point more ways than
// the job as written does.
func (r *Result) freer() bool {
	written := r.Rows[0].Job
	for _, row := range r.Rows {
		if !row.Best || len(row.Job.Cloths) != len(written.Cloths) {
			continue
		}
		for i, c := range row.Job.Cloths {
			if c.Nap.Freer(written.Cloths[i].Nap) {
				return true
			}
		}
	}
	return false
}

// bent names the parts that the best row cuts on another grain than the job as
// written, other than back along the warp.
func (r *Result) bent() []string {
	var names []string
	for _, row := range r.Rows {
		if !row.Best {
			continue
		}
		for _, s := range row.Report.Cloths {
			for i, cut := range s.Spread.Cuts {
				p := cut.Part
				grain := s.Spread.CutOn(i)
				bent := grain != job.LengthwiseGrain && grain != r.writtenGrain(s.ID, p)
				if bent && !slices.Contains(names, p.Name) {
					names = append(names, p.Name)
				}
			}
		}
	}
	return names
}

// writtenGrain is the grain of a part on a cloth in the job as written; lengthwise
// where it is not cut from that.
func (r *Result) writtenGrain(cloth string, part job.Part) job.Grain {
	for _, t := range r.Rows[0].tasks {
		for i, cut := range t.Spread.Cuts {
			p := cut.Part
			if t.Spread.Cloth.ID == cloth && p.Name == part.Name {
				return t.Spread.CutOn(i)
			}
		}
	}
	return job.LengthwiseGrain
}
