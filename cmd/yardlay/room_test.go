package main

import (
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/shapes/measure"
)

// rowOf is a row of a comparison of two cloths, bought in yards.
func rowOf(name, cloth, price string, satin, lace float64, d *compare.Difference) compare.Row {
	w := compare.Row{Name: name, Cost: cloth, Price: price, Gap: 0.0123, Difference: d, Report: &report.Report{}}
	for i, yards := range []float64{satin, lace} {
		c := report.Cloth{ID: []string{"satin", "lace-and-netting"}[i]}
		c.Spread.Cloth.Offer.Per = measure.Yard
		w.Report.Cloths = append(w.Report.Cloths, c)
		w.Cloths = append(w.Cloths, compare.Cloth{ID: c.ID, Bought: yards * measure.Yards, Gap: 0.0123 / float64(i+1)})
	}
	return w
}

// twoRows is a comparison of two rows that are laid, the second the best, and one that is not.
func twoRows(price bool) *compare.Result {
	d := &compare.Difference{Cost: "-10.00", Price: "-20.00"}
	written := rowOf("as written", "100.00", "210.00", 6, 2, nil)
	best := rowOf("satin width 45 in, skirt in 4 gores", "90.00", "190.00", 5, 2, d)
	best.Best, best.Proved, best.Cloths[0].Difference = true, true, -measure.Yards
	r := &compare.Result{Title: "Moon gown", Currency: "USD", Unit: measure.Inch,
		Rows: []compare.Row{written, best, {Name: "satin width 20 in", Brief: "a piece is too wide"}}}
	for i := range r.Rows {
		if !price {
			r.Rows[i].Price, d.Price = "", ""
		}
	}
	return r
}

// A comparison has a column a cloth where there is room, else a table of sums with what changes below each row, else
// row under row: the best marked, differences below or beside what they are of, what is not laid with its reason.
func TestComparisonsByTheRoomThereIs(t *testing.T) {
	for _, c := range []struct {
		width int
		price bool
		want  string
	}{
		{80, true, `
Moon gown

                                 satin  lace-and-netting   cloth    gown     gap
                                    yd                yd     USD     USD
  as written                         6                 2  100.00  210.00   1.3 %
* satin width 45 in, skirt in        5                 2   90.00  190.00  proved
  4 gores                           -1                    -10.00  -20.00
  satin width 20 in
    not laid: a piece is too wide`},
		{60, true, `
Moon gown

  USD                             cloth    gown  gap
  as written                     100.00  210.00  1.3 % satin
    satin 6 yd, lace-and-netting 2 yd
* satin width 45 in, skirt in     90.00  190.00  proved
  4 gores                        -10.00  -20.00
    satin 5 yd (-1)
  satin width 20 in
    not laid: a piece is too wide`},
		{64, false, `
Moon gown

                         satin  lace-and-netting     USD     gap
                            yd                yd
  as written                 6                 2  100.00   1.3 %
* satin width 45 in,         5                 2   90.00  proved
  skirt in 4 gores          -1                    -10.00
  satin width 20 in
    not laid: a piece is too wide`},
		{40, true, `
Moon gown

as written
  satin 6 yd
  lace-and-netting 2 yd
  100.00 USD, gap 1.3 %
  gown 210.00 USD

* satin width 45 in, skirt in 4 gores
  satin 5 yd (-1)
  lace-and-netting 2 yd
  90.00 USD (-10.00), proved
  gown 190.00 USD (-20.00)

satin width 20 in
  not laid: a piece is too wide`},
	} {
		var out strings.Builder
		printCompared(&out, twoRows(c.price), c.width)
		table, _, _ := strings.Cut(out.String(), "\n\n* the ")
		if got := "\n" + table; !strings.HasPrefix(got, c.want) || len(got) > len(c.want)+1 {
			t.Errorf("in %d letters:%s\nwant:%s", c.width, got, c.want)
		}
	}
}
