package report

import (
	"context"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// Bolts with everything else a cloth may have: each length holds its marker, each
// copy is cut once, and no proof lies above what is paid.
func TestBoltsWithAllElse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pick := func(name string, of ...string) string { return rapid.SampledFrom(of).Draw(t, name) + "\n" }
		cloth := pick("lay", "", "", "lay = \"lengthwise-fold\"", "lay = \"crosswise-fold\"\nnap = \"two-way\"") +
			pick("bolts", "bolt = { length = \"60\", price = \"4\" }",
				"bolt = [ { length = \"60\", price = \"4\" }, { length = \"41\", price = \"2\", in_stock = 1 } ]") +
			pick("cut", "price = \"5.00/yd\"", "whole_bolts = true") + pick("ends", "", "ends = 1") + pick("spare", "",
			"spare = \"5 %\"") +
			pick("have", "", "have = [ { name = \"end\", length = 45 } ]") + pick("lots", "", "lots = \"all\"",
			"lots = \"none\"") +
			pick("gap", "", "gap = \"1/4\"") + pick("faces", "", "both_faces = true")
		src := strings.Replace(testjobs.Panels(2, "10", "34", cloth), "[[part]]",
			"[[part]]\n"+strings.TrimSpace(pick("keep", "", "keep = \"piece\"", "keep = \"garment\"")), 1)
		src += "[[part]]\nname = \"tab\"\ndraft = \"rectangle\"\ncloth = \"satin\"\nlength = 9\nwidth = 7\ncount = 3\n" +
			pick("times", "", "times = 2")
		j := testjobs.Read(t, src)
		r, err := Run(context.Background(), j, plan.Options{Effort: nest.Trial, Unit: measure.Inch, Workers: 1})
		if err != nil {
			t.Fatalf("%v\n%s", err, src)
		}
		c := r.Cloths[0]
		judgeLengths(t, c)
		if l := c.Laid.Lengths; l != nil && (l.LeastCost.Minor > c.Buy.Cost.Minor || c.Leftover < 0 ||
			c.Buy.Bought < c.Needed-2*measure.Guard*float64(c.Buy.Lengths())) {
			t.Fatalf("%+v, at least %v, needed %v\n%s", c.Buy, l.LeastCost, c.Needed, src)
		}
	})
}
