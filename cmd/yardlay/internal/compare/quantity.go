package compare

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"yardlay/cmd/yardlay/internal/chart"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/measure"
)

// quantity is the one length or number that a comparison varies.
type quantity struct {
	title  string
	values []valued // rising
}

// valued is a row with its value.
type valued struct {
	row   *Row
	value float64
	name  string
}

// quantity returns what is varied when that is one length or number, with a row
// for each of two values or more; else nil.
func (r *Result) quantity() *quantity {
	if len(r.asked) != 1 {
		return nil
	}
	key := r.asked[0].Keys[0]
	written, takes := r.file.Written(key)
	unit := r.Rows[0].Job.Unit
	length := takes.Form == job.Length
	q := &quantity{title: strings.TrimSpace(Name([]job.Change{{Key: key}}))}
	if length {
		q.title += ", " + unit.String()
	} else if !takes.Counted() && takes.Form != job.Ratio {
		return nil
	}
	for i := range r.Rows {
		row := &r.Rows[i]
		value := written
		if len(row.Changes) > 0 {
			value = row.Changes[0].Value
		}
		v, ok := read(value, length, unit)
		switch {
		case ok:
			q.values = append(q.values, valued{row, v, shown(v, value, length, unit)})
		case i > 0 || value != "":
			return nil
		}
	}
	slices.SortStableFunc(q.values, byValue)
	laid := slices.DeleteFunc(slices.Clone(q.values), func(v valued) bool { return v.row.Report == nil })
	if len(laid) < 2 {
		return nil
	}
	return q
}

func byValue(a, b valued) int { return cmp.Compare(a.value, b.value) }

// read reads a length in mm, or a plain number or fraction.
func read(value string, length bool, unit measure.Unit) (float64, bool) {
	value = strings.Trim(value, `"'`)
	if length {
		mm, err := measure.Parse(value, unit)
		return mm, err == nil
	}
	if v, ok := strict.Fraction(value); ok {
		return v, true
	}
	v, err := strconv.ParseFloat(value, 64)
	return v, err == nil && !math.IsInf(v, 0) && !math.IsNaN(v)
}

func shown(v float64, value string, length bool, unit measure.Unit) string {
	if length {
		return strings.TrimSuffix(measure.Format(v, unit), " "+unit.String())
	}
	return value
}

// series is one cloth across the rows.
type series struct {
	id     string
	per    measure.Unit
	bought []float64 // of each value, mm; NaN where it was not laid
	least  []float64
}

// points is what is bought of each cloth against the quantity. Cloths of which
// every row buys the same are named below.
func (r *Result) points(q *quantity) chart.Points {
	all, same := q.series()
	per := all[0].per
	p := chart.Points{Title: r.heading(), Description: r.description(), Across: q.title,
		Up: "bought length, " + per.String()}
	for _, v := range q.values {
		p.Places = append(p.Places, chart.Place{Value: v.value, Best: v.row.Best, Lines: v.lines()})
	}
	for _, s := range all {
		p.Series = append(p.Series, s.in(per))
	}
	p.Notes = r.pointNotes(all, same, p.Even())
	return p
}

// lines are written below a value: itself, what it costs or that it was not laid, and
// what becomes of the gown.
func (v valued) lines() []string {
	lines := []string{v.name}
	switch {
	case v.row.Report == nil:
		lines = append(lines, "not laid")
	case v.row.Amount() != "":
		lines = append(lines, v.row.Amount())
	}
	if change := v.row.change(); change != "" {
		lines = append(lines, change)
	}
	return lines
}

// in measures a series in a unit; its labels are in the unit the cloth is sold by.
func (s series) in(per measure.Unit) chart.Series {
	c := chart.Series{Name: s.id}
	for i, b := range s.bought {
		c.Values = append(c.Values, b/per.Millimetres())
		c.Least = append(c.Least, s.least[i]/per.Millimetres())
		c.Labels = append(c.Labels, "")
		if !math.IsNaN(b) {
			c.Labels[i] = inUnit(b, s.per)
		}
	}
	return c
}

// series collects the cloths; those that every row buys alike are only named,
// unless all are.
func (q *quantity) series() (varying, same []series) {
	var all []series
	for i, v := range q.values {
		if v.row.Report == nil {
			continue
		}
		for _, c := range v.row.Report.Cloths {
			k := slices.IndexFunc(all, func(s series) bool { return s.id == c.ID })
			if k < 0 {
				k = len(all)
				none := slices.Repeat([]float64{math.NaN()}, len(q.values))
				all = append(all, series{c.ID, c.Spread.Cloth.Offer.Per, none, slices.Clone(none)})
			}
			all[k].bought[i], all[k].least[i] = c.Bought, c.Laid.LeastBuy
		}
	}
	for _, s := range all {
		laid := slices.DeleteFunc(slices.Clone(s.bought), math.IsNaN)
		if slices.Min(laid) < slices.Max(laid) {
			varying = append(varying, s)
		} else {
			same = append(same, s)
		}
	}
	if varying == nil {
		return same, nil
	}
	return varying, same
}

// pointNotes says what is to know about the picture.
func (r *Result) pointNotes(all, same []series, even bool) []string {
	var notes, kept []string
	for _, s := range same {
		laid := slices.IndexFunc(s.bought, func(b float64) bool { return !math.IsNaN(b) })
		kept = append(kept, fmt.Sprintf("%s %s", s.id, measure.FormatUp(s.bought[laid], s.per)))
	}
	if kept != nil {
		notes = append(notes, "The same everywhere: "+strings.Join(kept, ", ")+".")
	}
	switch some := func(of func(Row) string) bool {
		return slices.ContainsFunc(r.Rows, func(w Row) bool { return of(w) != "" })
	}; {
	case some(func(w Row) string { return w.Price }):
		notes = append(notes, "Below each value: what the gown costs, "+r.Currency+".")
	case some(func(w Row) string { return w.Cost }):
		notes = append(notes, "Below each value: what all cloth costs, "+r.Currency+".")
	}
	if slices.ContainsFunc(all, series.mayShorten) {
		notes = append(notes, "Dashes: no layout could undercut this. Where there is none the purchase is proved "+
			"minimal.")
	}
	if even {
		notes = append(notes, "The values stand evenly, not to scale.")
	}
	for _, w := range r.Rows {
		if w.Report == nil {
			notes = append(notes, w.Name+" was "+w.WhyNot()+".")
		}
	}
	return notes
}

// mayShorten says that less might be bought somewhere.
func (s series) mayShorten() bool {
	for i := range s.bought {
		if s.least[i] < s.bought[i] {
			return true
		}
	}
	return false
}
