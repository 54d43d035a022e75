package compare

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes/measure"
)

// randomJobs are jobs of a few small parts on one cloth with any of the rules that
// cloth can have, at a width that all their pieces fit on.
var randomJobs = rapid.Custom(func(t *rapid.T) string {
	var b strings.Builder
	b.WriteString(`unit = "in"
gap = "1/8"
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "satin"
width = 28
`)
	for _, rule := range []string{
		"selvedge = \"1/2\"\n", "ends = 1\nskew = \"1/2\"\n", "spare = \"5 %\"\n", "repeat = { along = \"4 1/2\" }\n",
		"shrinkage = { warp = \"-4 %\", weft = \"-2 %\", by = \"prewash\" }\n",
		"flaws = [ { from = 8, to = 9, low = 6, high = 8 } ]\n",
	} {
		if rapid.IntRange(0, 2).Draw(t, "rule") == 0 {
			b.WriteString(rule)
		}
	}
	side := rapid.IntRange(3, 9)
	for i := range rapid.IntRange(1, 2).Draw(t, "rectangles") {
		fmt.Fprintf(&b, "[[part]]\nname = \"panel %d\"\ndraft = \"rectangle\"\ncloth = \"satin\"\nlength = %d\nwidth "+
			"= %d\ncount = %d\n",
			i+1, side.Draw(t, "length"), side.Draw(t, "width"), rapid.IntRange(1, 4).Draw(t, "count"))
	}
	fmt.Fprintf(&b, "[[part]]\nname = \"collar\"\ndraft = \"cape\"\ncloth = \"satin\"\nneck = 16\nlength = "+
		"%d\ncircle = \"half\"\nback_on_fold = %v\n",
		rapid.IntRange(3, 6).Draw(t, "depth"), rapid.Bool().Draw(t, "on the fold"))
	fmt.Fprintf(&b, "[[part]]\nname = \"godet\"\ndraft = \"godet\"\ncloth = \"satin\"\nlength = %d\nhem = %d\ncount "+
		"= %d\n",
		rapid.IntRange(8, 12).Draw(t, "godet"), side.Draw(t, "hem"), rapid.IntRange(2, 4).Draw(t, "godets"))
	return b.String()
})

// On random jobs too nothing that is freer takes more: more turns, a wider cloth,
// the open lay. Each job is laid in twelve ways.
func TestFreerNeverTakesMoreOnRandomJobs(t *testing.T) {
	naps, widths, lays := []string{"one-way", "two-way"}, []string{"26", "28"}, []string{"double-fold",
		"lengthwise-fold", "open"}
	compared, folded := 0, 0
	for _, seed := range often.Seeds([]int{0, 8}, often.Jobs(2, 6)) {
		src := randomJobs.Example(seed)
		r := run(t, src, plan.Options{Unit: measure.Inch}, "satin.nap="+strings.Join(naps, ","),
			"satin.width="+strings.Join(widths, ","), "satin.lay="+strings.Join(lays, ","))
		r.Rows[0].Changes = []job.Change{{Key: "satin.nap", Value: "one-way"}, {Key: "satin.width", Value: "28"},
			{Key: "satin.lay", Value: "open"}}
		freer := func(a, b Row) bool { // b allows what a allows
			lay := func(w Row) string { return w.Changes[2].Value }
			return slices.Index(naps, a.Changes[0].Value) <= slices.Index(naps, b.Changes[0].Value) &&
				slices.Index(widths, a.Changes[1].Value) <= slices.Index(widths, b.Changes[1].Value) &&
				(lay(a) == lay(b) || lay(b) == "open")
		}
		for _, a := range r.Rows {
			for _, b := range r.Rows {
				if a.Report == nil || b.Report == nil || a.Name == b.Name || !freer(a, b) {
					continue
				}
				compared++
				if a.Changes[2].Value != "open" {
					folded++
				}
				if a.Cloths[0].Bought < b.Cloths[0].Bought-measure.Guard {
					t.Errorf("%q takes %s, %q takes %s, in\n%s", a.Name,
						measure.FormatUp(a.Cloths[0].Bought, measure.Yard),
						b.Name, measure.FormatUp(b.Cloths[0].Bought, measure.Yard), src)
				}
			}
		}
	}
	if compared < 40 || folded < 20 {
		t.Errorf("%d pairs of rows were compared, %d of them from a fold", compared, folded)
	}
}

// Wider cloth takes more pieces double, which need not be shorter: the marker of
// the narrower cloth, its open stretch and all, is allowed on the wider one too.
func TestWiderFoldSharesOutAsTheNarrower(t *testing.T) {
	src := `unit = "in"
gap = "1/8"
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "velvet"
width = 60
selvedge = "1/2"
lay = "double-fold"
nap = "two-way"
[[part]]
name = "collar"
draft = "cape"
cloth = "velvet"
neck = 16
length = 6
circle = "half"
back_on_fold = true
times = 2
[[part]]
name = "belt"
draft = "rectangle"
cloth = "velvet"
length = 30
width = 3
[[part]]
name = "panel"
draft = "rectangle"
cloth = "velvet"
length = 12
width = 9
count = 3
`
	r := run(t, src, plan.Options{Unit: measure.Inch}, "velvet.width=45,60")
	wide, narrow := r.Rows[0], r.Rows[1]
	if wide.Report == nil || narrow.Report == nil || narrow.Name != "velvet width 45" {
		t.Fatalf("rows are %q", names(r))
	}
	if wide.Cloths[0].Bought > narrow.Cloths[0].Bought+measure.Guard {
		t.Errorf("60 in takes %v mm, 45 in %v", wide.Cloths[0].Bought, narrow.Cloths[0].Bought)
	}
	if len(wide.Notes) != 1 || !strings.Contains(wide.Notes[0], `A layout of "velvet width 45"`) {
		t.Errorf("notes are %q", wide.Notes)
	}
}
