package compare

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/sheet"
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
	written, takes := job.Written(r.src, key)
	unit := r.Rows[0].job.Unit
	length := strings.HasPrefix(takes, "length")
	q := &quantity{title: strings.TrimSpace(nameOf([]job.Change{{Key: key}}))}
	if length {
		q.title += ", " + unit.String()
	} else if !job.Counted(takes) && !strings.Contains(takes, "ratio") {
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

// read reads a length in mm or a plain number.
func read(value string, length bool, unit measure.Unit) (float64, bool) {
	value = strings.Trim(value, `"'`)
	if length {
		mm, err := measure.Parse(value, unit)
		return mm, err == nil
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

// Measures of the points, mm of paper.
const (
	high      = 90.0 // of the axis of lengths
	leastStep = 17.0 // between two values
	dot       = 1.5  // half the size of a point
	tall      = 3.6  // of a label beside a point
)

// series is one cloth across the rows.
type series struct {
	id     string
	per    measure.Unit
	bought []float64 // of each value, mm; NaN where it was not laid
	least  []float64
}

// points draws what is bought of each cloth against the quantity. Cloths of
// which every row buys the same are named below.
func (p *picture) points(q *quantity) {
	all, same := p.series(q)
	xs, even := q.places()
	most, per := 0.0, all[0].per
	for _, s := range all {
		for _, b := range s.bought {
			if !math.IsNaN(b) {
				most = max(most, b/per.Millimetres())
			}
		}
	}
	at, decimals := ticks(most)
	x0, top := edge+14, p.y+4
	bottom := top + high
	up := func(mm float64) float64 { return bottom - mm/per.Millimetres()*high/at[len(at)-1] }
	width := xs[len(xs)-1] + 12
	for _, v := range at {
		y := up(v * per.Millimetres())
		p.line(sheet.RoleDim, orb.Point{x0, y}, orb.Point{x0 + width, y})
		label := number(v, decimals)
		p.text(sheet.RoleNote, x0-2-float64(len(label))*small*digit, y, small, label)
	}
	p.add(sheet.Text{
		Role: sheet.RoleNote, At: orb.Point{edge, (top + bottom) / 2}, Anchor: sheet.Middle, Size: text, Turn: 90,
		Body: "bought length, " + per.String(),
	})
	for i := range xs {
		xs[i] += x0
	}
	p.curves(all, xs, up)
	p.y = bottom
	p.under(q, xs)
	p.centred(sheet.RoleNote, x0+width/2, p.y+text/2, text, q.title)
	p.y += text * 2.2
	p.right = max(p.right, x0+width)
	p.tell(all, same, even)
}

// places spaces the values out: in proportion when the closest then still stand
// apart, else evenly, as where all are equal.
func (q *quantity) places() (at []float64, even bool) {
	const first = 12.0
	closest := math.Inf(1)
	for i := range q.values[1:] {
		closest = min(closest, q.values[i+1].value-q.values[i].value)
	}
	span := q.values[len(q.values)-1].value - q.values[0].value
	at = make([]float64, len(q.values))
	even = span == 0 || leastStep*float64(len(at)-1) > plot || closest*plot/span < leastStep
	for i, v := range q.values {
		if at[i] = first + (v.value-q.values[0].value)/span*plot; even {
			at[i] = first + float64(i)*max(leastStep, plot/float64(len(at)-1))
		}
	}
	return at, even
}

// series collects the cloths; those that every row buys alike are only named,
// unless all are.
func (p *picture) series(q *quantity) (varying, same []series) {
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
