package compare

import (
	"fmt"
	"math"
	"testing"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes/measure"
)

// conversions turns the cloth that a garment takes from one width to others, yards.
// Sarah Doyle's sewing pages, sewwithsarah.com, "Fabric Conversion Chart"; a copy
// at greenspun.com (bboard message 008fgB) agrees.
var (
	chartWidths = []float64{36, 39, 41, 45, 50, 54, 60, 66} // in: 35-36, 39, 41, 44-45, 50, 52-54, 58-60, 66
	conversions = [][]float64{
		{1.75, 1.5, 1.5, 1.375, 1.25, 1.125, 1, 0.875},
		{2, 1.75, 1.75, 1.625, 1.5, 1.375, 1.25, 1.125},
		{2.25, 2, 2, 1.75, 1.625, 1.5, 1.375, 1.25},
		{2.5, 2.25, 2.25, 2.125, 1.75, 1.75, 1.625, 1.5},
		{2.875, 2.5, 2.5, 2.25, 2, 1.875, 1.75, 1.625},
		{3.125, 2.75, 2.75, 2.5, 2.25, 2, 1.875, 1.75},
		{3.375, 3, 2.875, 2.75, 2.375, 2.25, 2, 1.875},
		{3.75, 3.25, 3.125, 2.875, 2.625, 2.375, 2.25, 2.125},
		{4.25, 3.5, 3.375, 3.125, 2.75, 2.625, 2.375, 2.25},
		{4.5, 3.75, 3.625, 3.375, 3, 2.75, 2.625, 2.5},
		{4.75, 4, 3.875, 3.625, 3.25, 2.875, 2.75, 2.625},
		{5, 4.25, 4.125, 3.875, 3.375, 3.125, 2.875, 2.75},
	}
)

// chartSpan returns the least and the greatest of length times width over that of
// the first column.
func chartSpan() (low, high float64) {
	low, high = math.Inf(1), 0
	for _, row := range conversions {
		for i, length := range row {
			share := length * chartWidths[i] / (row[0] * chartWidths[0])
			low, high = min(low, share), max(high, share)
		}
	}
	return low, high
}

// A gown of pieces that are narrow against the cloth, laid anew on every width of
// the chart, takes about the same area of cloth: the chart is a rule of thumb that
// spans 0.89 to 1.10 itself, so it is a band for the sanity of a re-laying, wider
// by a tenth, and never the answer. Narrower cloth never takes less.
func TestWidthsStayNearTheConversionChart(t *testing.T) {
	low, high := chartSpan()
	if math.Round(low*100) != 89 || math.Round(high*100) != 110 {
		t.Fatalf("the chart spans %.3f to %.3f, not 0.89 to 1.10", low, high)
	}
	const gown = `unit = "in"
gap = "1/8"
[body]
waist_girth = 28
hip_girth = 38
waist_to_hips = 8
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "crepe"
width = 36
nap = "two-way"
[[part]]
name = "skirt"
draft = "gored-skirt"
cloth = "crepe"
gores = 8
hip_ease = 2
hem_sweep = 96
length = 30
[[part]]
name = "peplum"
draft = "peplum"
cloth = "crepe"
length = 7
sections = 4
`
	vary := "crepe.width=36"
	for _, w := range chartWidths[1:] {
		vary += fmt.Sprintf(",%v", w)
	}
	r := run(t, gown, plan.Options{Unit: measure.Inch}, vary)
	if len(r.Rows) != len(chartWidths) {
		t.Fatalf("rows are %q", names(r))
	}
	for i, row := range r.Rows {
		if row.Report == nil {
			t.Fatalf("%s: %s", row.Name, row.Why)
		}
		share := row.Cloths[0].Used * chartWidths[i] / (r.Rows[0].Cloths[0].Used * chartWidths[0])
		t.Logf("%v in: %.3f", chartWidths[i], share)
		if share < low-0.1 || share > high+0.1 {
			t.Errorf("%s: area is %.3f of that at 36 in, the chart spans %.3f to %.3f", row.Name, share, low, high)
		}
		if i > 0 && row.Cloths[0].Bought > r.Rows[i-1].Cloths[0].Bought+measure.Guard {
			t.Errorf("%s takes more than %s", row.Name, r.Rows[i-1].Name)
		}
	}
}
