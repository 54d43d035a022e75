package compare

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/chart"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cost"
	"yardlay/shapes/measure"
)

// mostBars is the most rows that are drawn as bars.
const mostBars = 60

// Best returns the row that costs least; nil when none was laid.
func (r *Result) Best() *Row {
	for i := range r.Rows {
		if r.Rows[i].Best {
			return &r.Rows[i]
		}
	}
	return nil
}

// Picture draws the comparison: what is bought against a quantity, where a
// single length or number is varied, else a bar for each row.
func (r *Result) Picture() sheet.Drawing {
	if q := r.quantity(); q != nil {
		return r.points(q).Drawing()
	}
	return r.bars().Drawing()
}

func (r *Result) heading() string {
	if r.Title == "" {
		return "Compared"
	}
	return r.Title + ", compared"
}

// description says in a sentence what the picture shows.
func (r *Result) description() string {
	best := r.Best()
	if best == nil {
		return "No row was laid."
	}
	if best.Amount() == "" {
		return fmt.Sprintf("%d rows; the least cloth is bought for: %s.", len(r.Shown()), best.Title())
	}
	return fmt.Sprintf("%d rows; the best one costs %s %s: %s.", len(r.Shown()), best.Amount(), r.Currency, best.Title())
}

// inUnit shows a bought length without its unit.
func inUnit(mm float64, per measure.Unit) string {
	return strings.TrimSuffix(measure.FormatUp(mm, per), " "+per.String())
}

// drawn are the rows to draw: all, or the best so many with the job as written.
func (r *Result) drawn(most int) []*Row {
	var rows []*Row
	for i := range r.Rows {
		if !r.Rows[i].PassedOver {
			rows = append(rows, &r.Rows[i])
		}
	}
	if len(rows) <= most {
		return rows
	}
	laid := slices.DeleteFunc(slices.Clone(rows[1:]), func(w *Row) bool { return w.Report == nil })
	slices.SortStableFunc(laid, func(a, b *Row) int {
		switch {
		case precedes(a, b):
			return -1
		case precedes(b, a):
			return 1
		}
		return 0
	})
	keep := append(laid[:min(len(laid), most-1)], rows[0])
	return slices.DeleteFunc(rows, func(w *Row) bool { return !slices.Contains(keep, w) })
}

// scale says what bars measure.
type scale struct {
	title string
	of    func(c report.Cloth) (value, least float64)
	total func(w *Row, value float64) string
}

// scale measures bars in money, or in length where some cloth has no price.
func (r *Result) scale() scale {
	if len(r.unpriced()) == 0 {
		one := math.Pow10(cost.Decimals(r.Currency))
		return scale{"cost of cloth, " + r.Currency, func(c report.Cloth) (float64, float64) {
			return float64(c.Buy.Cost.Minor) / one, float64(c.Laid.LeastCost().Minor) / one
		}, func(w *Row, _ float64) string {
			if w.Price != "" {
				return w.Cost + ", gown " + w.Price
			}
			return w.Cost
		}}
	}
	per := measure.CounterUnit(r.Unit)
	return scale{"bought length of all cloths, " + per.String(), func(c report.Cloth) (float64, float64) {
		return c.Bought / per.Millimetres(), c.Laid.LeastBuy / per.Millimetres()
	}, func(_ *Row, value float64) string { return inUnit(value*per.Millimetres(), per) }}
}

// bars is a bar for each row, of a part for each cloth.
func (r *Result) bars() chart.Bars {
	s := r.scale()
	rows := r.drawn(mostBars)
	b := chart.Bars{Title: r.heading(), Description: r.description(), Axis: s.title}
	for _, row := range rows {
		b.Rows = append(b.Rows, row.bar(s, &b.Parts))
	}
	if len(rows) < len(r.Shown()) {
		b.Notes = append(b.Notes, fmt.Sprintf("The %d best of %d rows and the job as written.",
			len(rows)-1, len(r.Shown())))
	}
	b.Notes = append(b.Notes, "In the bars: the length bought of each cloth, in the unit it is sold by.")
	if slices.ContainsFunc(rows, func(w *Row) bool { return w.Report != nil && !w.Proved }) {
		b.Notes = append(b.Notes,
			"Dashed: no layouts could undercut this. Where there is none the purchase is proved minimal.")
	}
	return b
}

// bar is that of a row; cloths that it names first join cloths.
func (w *Row) bar(s scale, cloths *[]string) chart.Bar {
	b := chart.Bar{Name: w.Title(), Best: w.Best, Least: math.NaN()}
	if w.Report == nil {
		b.Why = w.WhyNot()
		return b
	}
	sum, undercut := 0.0, 0.0
	for _, c := range w.Report.Cloths {
		k := slices.Index(*cloths, c.ID)
		if k < 0 {
			k = len(*cloths)
			*cloths = append(*cloths, c.ID)
		}
		value, least := s.of(c)
		b.Parts = append(b.Parts, chart.Part{Of: k, Value: value, Label: inUnit(c.Bought, c.Spread.Cloth.Offer.Per)})
		undercut += least
		sum += value
	}
	slices.SortFunc(b.Parts, func(a, b chart.Part) int { return a.Of - b.Of })
	if !w.Proved {
		b.Least = undercut
	}
	b.Total = s.total(w, sum)
	return b
}
