package main

import (
	"strings"
	"testing"
	"time"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/quote"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// The table of a lay has a line a cloth and one of all, in columns or, where those have no room, in words; names too
// long for their column have a line of their own. Bounds follow, with what could be saved, and why: in short, or
// whole.
func TestLaysByTheRoomThereIs(t *testing.T) {
	r := &report.Report{Title: "Moon gown", Currency: "USD", Unit: measure.Inch, Total: "90.00",
		Elapsed: 2300 * time.Millisecond, Begun: []string{"begun"}, Remarks: []string{"remark"}, Cautions: []string{"care"},
		Wearers: []report.Wearer{{Body: "alto", Count: 1, Cloths: []report.WearerCloth{{ID: "satin", Bought: 914.4}}}},
		Cloths: []report.Cloth{{ID: "satin", Pieces: 12, Used: 200 * measure.Inches, Bought: 216 * measure.Inches,
			Utilisation: 0.8125, Cost: "90.00", Elapsed: 1200 * time.Millisecond, Bound: 190 * measure.Inches, Gap: 0.0527,
			StepsAsShared: 2, Because: "what the pieces cover", Reason: "the pieces cover so much"},
			{ID: "twelve-chars", Pieces: 1, Proved: true, Because: "one piece", Reason: "one piece is as long"},
			{ID: "thirteen-long", Pieces: 1, Proved: true, Because: "one piece", Reason: "one piece is as long"},
			{ID: "a-name-of-19-letter", Pieces: 1, Proved: true, Because: "one piece", Reason: "one piece is as long"}}}
	for i := range r.Cloths {
		r.Cloths[i].Spread.Cloth.Offer.Per = measure.Yard
	}
	for _, c := range []struct {
		cloths, width int
		why           bool
		want          string
	}{
		{4, 80, false, `
Moon gown

cloth        pieces         used  buy                  filled       USD    time
satin            12       200 in  6 yd (5.49 m)        81.2 %     90.00   1.2 s
twelve-chars      1         0 in  nothing               0.0 %         -   0.0 s
thirteen-long
                  1         0 in  nothing               0.0 %         -   0.0 s
a-name-of-19-letter
                  1         0 in  nothing               0.0 %         -   0.0 s
in all                                                            90.00   2.3 s

no marker is under                     gap  could save at most
satin                     190 in     5.3 %  1/4 yd (0.23 m)
twelve-chars                0 in     0.0 %  nothing: proved minimal
thirteen-long               0 in     0.0 %  nothing: proved minimal
a-name-of-19-letter
                            0 in     0.0 %  nothing: proved minimal

satin: what the pieces cover
twelve-chars: one piece
thirteen-long: one piece
a-name-of-19-letter: one piece
(--why explains)

what each takes of what is bought, by the area of its pieces:
alto: satin 1 yd

begun

twelve-chars has no price and is not in the sum.

thirteen-long has no price and is not in the sum.

a-name-of-19-letter has no price and is not in the sum.

remark

care
`},
		{1, 80, true, `
Moon gown

cloth        pieces         used  buy                  filled       USD    time
satin            12       200 in  6 yd (5.49 m)        81.2 %     90.00   1.2 s
in all                                                            90.00   2.3 s

no marker is under                     gap  could save at most
satin                     190 in     5.3 %  1/4 yd (0.23 m)

satin: the pieces cover so much.

what each takes of what is bought, by the area of its pieces:
alto: satin 1 yd

begun

remark

care
`},
		{2, 50, false, `
Moon gown

satin: buy 6 yd (5.49 m), 90.00 USD
  pieces: 12, length used: 200 in, 81.2 % filled,
  in 1.2 s
twelve-chars: buy nothing, no price
  pieces: 1, length used: 0 in, 0.0 % filled, in
  0.0 s
in all: 90.00 USD, in 2.3 s

no marker is under; gap; could save at most
satin: 190 in; 5.3 %; 1/4 yd (0.23 m)
twelve-chars: 0 in; 0.0 %; nothing: proved minimal

satin: what the pieces cover
twelve-chars: one piece
(--why explains)

what each takes of what is bought, by the area of
its pieces:
alto: satin 1 yd

begun

twelve-chars has no price and is not in the sum.

remark

care
`},
	} {
		var out strings.Builder
		shown := *r
		shown.Cloths = r.Cloths[:c.cloths]
		layPrinter{&shown, &out, c.width, c.why}.print()
		if got := "\n" + out.String(); got != c.want {
			t.Errorf("in %d letters:%s\nwant:%s", c.width, got, c.want)
		}
	}
}

// Choices are a line each, wrapped beside their sums, with what else is to be known below.
func TestChoicesInATable(t *testing.T) {
	usd := func(minor int64) cost.Money { return cost.Money{Minor: minor, Currency: "USD"} }
	q := &quote.Quote{Quote: cost.Quote{Cost: usd(1)}}
	found := quote.Choices{Choices: []quote.Choice{
		{Name: "satin 45 in wide and a good deal more than that", Total: usd(100000), Saves: usd(-5), Note: "so", Quote: q},
		{Name: "1 in shorter", Total: usd(900), Quote: &quote.Quote{Quote: cost.Quote{Cost: usd(2)}}}}}
	for _, c := range []struct {
		found quote.Choices
		want  string
	}{
		{found, `
What if                                    total       saves
  satin 45 in wide and a good deal      1 000.00       -0.05
  more than that
    so
  1 in shorter                              9.00           -
    the cost is 0.02, rounded to the same total

Each row changes one thing, and is laid and priced as the
job is. A saving below 0 costs more.
`},
		{quote.Choices{}, `
None of the choices tried moves the price.
`},
	} {
		var out strings.Builder
		printChoices(&out, q, c.found, 60)
		if got := out.String(); got != c.want {
			t.Errorf("%s\nwant:%s", got, c.want)
		}
	}
}

// The line of progress says how far a stage is; that an interrupt keeps a layout only where there is one.
func TestProgressOfEachStage(t *testing.T) {
	var out strings.Builder
	line := &progress{out: &out, began: time.Now()}
	defer line.clear()
	of := func(phase, cloth string, finished, all int) plan.Progress {
		return plan.Progress{Progress: nest.Progress{Phase: phase}, Cloth: cloth, Finished: finished, Of: all}
	}
	building, laid := of("laying", "satin", 0, 0), of("", "a-cloth-with-a-long-name", 1, 12)
	building.Laid, building.Pieces = 3, 8
	laid.Length, laid.Done, laid.Utilisation = 100*measure.Inches, 0.5, 0.875
	for _, c := range []struct {
		now   plan.Progress
		text  string
		keeps bool
	}{
		{of("drafting", "", 2, 5), "drafting 3/5", false}, {of("drafting", "", 0, 0), "drafting", false},
		{building, "satin            laying: 3 of 8 pieces laid", false},
		{of("laying", "satin", 1, 2), "1/2 satin        laying", false},
		{laid, "1/12 a-cloth-wit  50 %  100 in, 87.5 % filled", true},
	} {
		if line.show(measure.Inch)(c.now); line.text != c.text || line.keeps != c.keeps {
			t.Errorf("%+v: %q, keeps %v", c.now, line.text, line.keeps)
		}
	}
	var none *progress
	if none.show(measure.Inch) != nil {
		t.Error("what is silent is shown")
	}
	none.stage("so")
	none.clear()
}
