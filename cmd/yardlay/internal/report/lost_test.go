package report

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// What is done with a cloth is said in the order of the work, with every length. By hand: a panel of 30 in with 1 in
// at both ends and 2 in of skew is 34 in; 34 / 0.95 is 35.79, 1.79 more, and 5 % of that again 1.79: 37.58 in. Two
// panels on a crosswise fold are half a gap longer than one. Cloth that grows by 3 % takes panels of 30 / 1.03 =
// 29.13 in.
func TestInstructionsOfALay(t *testing.T) {
	for _, c := range []struct {
		src  string
		want []string
	}{
		{testjobs.Panels(1, "20", "30", "gap = 0\nends = 1\nskew = 2\nspare = \"5 %\"\n"+
			"shrinkage = { warp = \"-5 %\", weft = \"-2 %\", by = \"prewash\" }"), []string{
			"Wash the cloth before you lay it: it changes by -5 % along and -2 % across. The length to buy and the width " +
				"laid on already count that. The pieces are drawn in their own size.",
			"Needed: 30 in for the pieces, 2 in at the ends of the lays (1 in at each), 2 in to square the cut end, " +
				"1 7/8 in lost in the wash, 1 7/8 in to spare (5 %): 37 5/8 in."}},
		{testjobs.Panels(1, "20", "30", "gap = 0\nshrinkage = { warp = \"+5 %\", by = \"prewash\" }"), []string{
			"Wash the cloth before you lay it: it changes by +5 % along. The length to buy and the width laid on " +
				"already count that. The pieces are drawn in their own size.",
			"Needed: 30 in for the pieces, less 1 1/2 in gained in the wash: 28 5/8 in."}},
		{testjobs.Panels(2, "20", "30", "gap = 1\nlay = \"crosswise-fold\"\nupper_turned = true\nends = 1\nskew = 2\n"+
			"nap = \"one-way\""), []string{
			"Crosswise fold: fold the cloth across its length, right sides together, cut end on cut end, each layer " +
				"32 1/2 in long: the fold is the far end of the drawing. Then cut along the fold and turn the upper layer " +
				"end for end, right sides still together, so that the nap of both layers runs one way. Every outline is " +
				"cut through both layers.",
			"Needed: 61 in for the pieces, 4 in at the ends of the lays (1 in at each), 2 in to square the cut end: 67 in."}},
		{testjobs.Panels(3, "10", "30", "gap = 1\nlay = \"lengthwise-fold\"\nends = 1\nskew = 2\n"+
			"shrinkage = { warp = \"+3 %\", weft = \"-2 %\", by = \"pieces\" }"), []string{
			"Do not wash the cloth before cutting: the pieces are drawn larger, for it changes by +3 % along and -2 % " +
				"across in its first wash.",
			"Lengthwise fold: fold the cloth along its length, right sides together, selvedge on selvedge, for 31 1/4 in: " +
				"the fold is the lower edge of the drawing. Every outline off the fold is cut through both layers. The " +
				"open stretch begins 33 1/4 in from the cut end: one layer, right side up, 31 1/4 in long.",
			"Needed: 58 3/8 in for the pieces, 4 in at the ends of the lays (1 in at each), 2 in to square the cut end: " +
				"64 3/8 in."}},
		{testjobs.Panels(1, "20", "30", "gap = 0\nprice = \"10.00/yd\"\nhave = [ { name = \"rest\", length = 40 } ]"),
			[]string{
				"The shelf is enough: nothing is bought. Without it at least 1/2 yd would be bought, for 5.00 USD. From rest: " +
					"panel. No garment is cut from two lots."}},
		{testjobs.Panels(3, "36", "288", "gap = 0\nprice = \"10.00/yd\"\nbolt = { length = \"10 yd\", price = \"40.00\" }\n"+
			"flaws = [ { from = 0, to = 1, low = 0, high = 1 } ]"), []string{
			"Cut from 3 lengths, each with a marker of its own; from bolt 1 of 10 yd: panel (1 of 3); from bolt 2 of 10 yd: " +
				"panel (2 of 3); from bolt 3 of 10 yd: panel (3 of 3). Every length is laid as if it had the flaws."}},
		{testjobs.Panels(3, "36", "288", "gap = 0\nprice = \"10.00/yd\"\nbolt = { length = \"10 yd\", price = \"40.00\" }"),
			[]string{"Cut from 3 lengths, each with a marker of its own; from bolt 1 of 10 yd: panel (1 of 3); from bolt 2 " +
				"of 10 yd: panel (2 of 3); from bolt 3 of 10 yd: panel (3 of 3)."}},
		{testjobs.Panels(1, "20", "30", "gap = 0\nnap = \"two-way\"") + "tilt = 4\n", []string{
			"Leant off the grain where it saves cloth: panel (2 and 4 degrees either way); no other angles were tried."}},
	} {
		r := run(t, c.src, plan.Options{Unit: measure.Inch})
		if diff := cmp.Diff(c.want, r.Cloths[0].Instructions); diff != "" {
			t.Errorf("%s\n%s", c.src, diff)
		}
	}
}

// Whatever the lay, what is needed is the markers with all that is lost, each reckoned anew from the job: ends of
// every layer, skew once for each length, the wash, a spare. The stretches of one length lie end to end from the cut
// end to the end of what is bought, and every marker lies on its cloth.
func TestWhatIsNeededAddsUp(t *testing.T) {
	laid, lost := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		side := rapid.Float64Range(4, 35)
		src := testjobs.Panelled("width = 80\n"+testjobs.RandomCloth.Draw(rt, "cloth"), [3]float64{
			math.Round(side.Draw(rt, "length")), math.Round(side.Draw(rt, "width")), 3},
			[3]float64{math.Round(side.Draw(rt, "length")), math.Round(side.Draw(rt, "width")), 2})
		r, err := Run(t.Context(), testjobs.Read(rt, src), plan.Options{Effort: nest.Trial, Workers: 1})
		if bad := (strict.Errors)(nil); errors.As(err, &bad) {
			rt.Skip("it cannot be laid")
		} else if err != nil {
			rt.Fatal(err)
		}
		c := r.Cloths[0]
		laid++
		x := c.Spread.Cloth
		near := func(what string, got, want float64) {
			if math.Abs(got-want) > 1e-6 {
				rt.Fatalf("%s: %v, want %v\n%s", what, got, want, src)
			}
		}
		if a := c.Added; a != nil {
			lost++
			near("needed", c.Used+a.Ends+a.Skew+a.Shrinkage+a.Spare, c.Needed)
			near("skew", a.Skew, x.Skew)
			if ends := 2 * x.Ends; ends > 0 && a.Ends < ends-1e-6 {
				rt.Fatalf("%v lost at the ends", a.Ends)
			}
			washed := 1.0
			if x.Shrinkage.Prewash {
				washed += x.Shrinkage.Warp
			}
			near("the wash", a.Shrinkage, (c.Used+a.Ends+a.Skew)*(1/washed-1))
			if c.Shelf == nil || len(c.Shelf.Leftovers) == 0 {
				near("to spare", a.Spare, (c.Used+a.Ends+a.Skew)/washed*x.Spare)
			}
		}
		checkStretches(rt, c, near)
	})
	if laid < 5 || lost < 3 {
		t.Errorf("only %d were laid, %d with something lost", laid, lost)
	}
}

// checkStretches holds where the stretches of a cloth begin and end.
func checkStretches(t *rapid.T, c Cloth, near func(what string, got, want float64)) {
	bought := c.Markers
	if i := slices.IndexFunc(bought, func(s Stretch) bool { return s.Shelf }); i >= 0 {
		bought = bought[:i]
	}
	washed := 1.0
	if w := c.Spread.Cloth.Shrinkage; w.Prewash {
		washed += w.Warp
	}
	end := c.Spread.Cloth.Skew
	for i, s := range bought {
		if s.Length < s.Used+2*c.Spread.Cloth.Ends-measure.Guard || s.Used < s.Bound-measure.Guard || s.Skew > 0 && i > 0 {
			t.Fatalf("a marker of %v on %v after %v, bound %v", s.Used, s.Length, s.Skew, s.Bound)
		}
		if s.From < end-1e-6 { // a gap or a repeat may lie between
			t.Fatalf("a stretch begins at %v, the one before ends at %v", s.From, end)
		}
		end = s.From + (s.Length-s.Skew)*float64(s.Layers)
	}
	if len(bought) > 0 {
		near("the far end", end, c.Bought*washed)
	}
	for _, s := range c.Markers {
		if s.Shelf && (s.Layers != 1 || s.Name == "" || s.Used > s.Length+1e-6 || s.Strip < s.Width) {
			t.Fatalf("a leftover %+v", s)
		}
	}
}

// A run says how its searches ended by the worst of them, and that nothing less can be bought just where that is so.
func TestHowTheSearchesEnded(t *testing.T) {
	of := func(bought float64, all ...nest.Status) laying {
		var l plan.Laid
		for _, s := range all {
			l.Results = append(l.Results, nest.Result{Status: s})
		}
		l.Buy.Bought, l.LeastBuy = bought, 100
		return laying{l}
	}
	for _, c := range []struct {
		l      laying
		ended  nest.Status
		status string
	}{
		{of(200, nest.Finished), nest.Finished, "finished"}, {of(200, nest.Proved), nest.Proved, "finished"},
		{of(100, nest.Finished), nest.Finished, "proved"}, {of(200, nest.OutOfTime), nest.OutOfTime, "out of time"},
		{of(200, nest.Finished, nest.OutOfTime), nest.OutOfTime, "out of time"},
		{of(200, nest.OutOfTime, nest.Finished), nest.OutOfTime, "out of time"},
		{of(200, nest.Stopped, nest.OutOfTime), nest.Stopped, "stopped"},
		{of(200, nest.OutOfTime, nest.Stopped), nest.Stopped, "stopped"},
		{of(200, nest.Finished, nest.Finished), nest.Finished, "finished"},
		{of(200, nest.Proved, nest.Proved), nest.Finished, "finished"},
		{of(100, nest.Stopped, nest.Finished), nest.Proved, "proved"},
	} {
		if ended := c.l.ended(); ended != c.ended || c.l.status(ended) != c.status {
			t.Errorf("%v: ended %v, %q; want %v, %q", c.l.Results, ended, c.l.status(ended), c.ended, c.status)
		}
	}
	late := of(200, nest.Finished)
	late.Lengths = &plan.Lengths{Ended: nest.OutOfTime}
	late.Buy.Cost.Minor = 1
	if got := late.ended(); got != nest.OutOfTime {
		t.Errorf("lengths that ran out of time ended %v", got)
	}
}

// Why nothing can be shorter is told of each stretch, in few words of the longest; where nothing is bought there is
// nothing to prove.
func TestReasonsOfSeveralStretches(t *testing.T) {
	c := run(t, testjobs.Panels(3, "10", "30", "gap = 1\nlay = \"lengthwise-fold\"\nends = 1"), plan.Options{}).Cloths[0]
	l := laying{c.Laid}
	said := l.reason(func(float64) string { return "L" })
	if !strings.HasPrefix(said, "on the folded stretch, ") || strings.Count(said, "; on the open stretch, ") != 1 ||
		l.because() != c.Because || c.Because == "" {
		t.Errorf("%q, %q", said, c.Because)
	}
	l.Results[0].Bound, l.Results[1].Bound = l.Results[1].Bound, l.Results[0].Bound
	l.Results[1].Bound.Length = 2 * l.Results[0].Bound.Length
	if got := l.because(); got != l.Results[1].Bound.Brief() {
		t.Errorf("%q is not of the longest", got)
	}
	none := run(t, testjobs.Panels(1, "20", "30", "have = [ { length = 40 } ]"), plan.Options{}).Cloths[0]
	if none.Because != "nothing is cut from bought cloth" || none.Reason != none.Because || none.Shelf.Steps != 0 {
		t.Errorf("%q, %q, %+v", none.Reason, none.Because, none.Shelf)
	}
}
