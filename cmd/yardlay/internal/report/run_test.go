package report

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
	"yardlay/shapes/outline"
)

func run(t *testing.T, src string, o plan.Options) *Report {
	t.Helper()
	o.Effort = nest.Trial
	r, err := Run(context.Background(), testjobs.Read(t, src), o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// The report holds layouts that pass the judge, buys what they use and adds up.
func TestRunBuysWhatTheLayoutsUse(t *testing.T) {
	r := run(t, testjobs.Small, plan.Options{})
	if len(r.Cloths) != 2 {
		t.Fatalf("%d cloths, want 2", len(r.Cloths))
	}
	for _, c := range r.Cloths {
		if err := nest.Verify(c.Problem, c.Layout); err != nil {
			t.Errorf("%s: %v", c.ID, err)
		}
		if c.Bought < c.Used-measure.Guard || c.Bound > c.Used {
			t.Errorf("%s: bound %v, used %v, bought %v", c.ID, c.Bound, c.Used, c.Bought)
		}
	}
	wool, tulle := r.Cloths[0], r.Cloths[1]
	// 20.00 a yard by eighths: 2.50 for each.
	if eighths := math.Ceil((wool.Used - measure.Guard) / (measure.Yards / 8)); wool.Buy.Cost.Minor != int64(
		250*eighths) {
		t.Errorf("wool costs %v for %v eighths", wool.Buy.Cost, eighths)
	}
	if tulle.Cost != "" || r.Total != wool.Cost {
		t.Errorf("total %s: wool %s, tulle %q has no price", r.Total, wool.Cost, tulle.Cost)
	}
	if len(r.Cautions) != 2 || !strings.Contains(r.Cautions[0], "no fire test") {
		t.Errorf("cautions with tulle: %q", r.Cautions)
	}
}

// The same job, seed and effort give the same bytes, whatever the workers.
func TestRunRepeats(t *testing.T) {
	var first []byte
	for _, workers := range []int{1, 2} {
		r := run(t, testjobs.Small, plan.Options{Workers: workers, Seed: 7})
		all, err := json.Marshal(r)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range r.Cloths {
			text, err := c.GeoJSON(c.Markers[0])
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, text...)
		}
		if first == nil {
			first = all
		}
		if !bytes.Equal(first, all) {
			t.Errorf("with %d workers:\n%s", workers, cmp.Diff(string(first), string(all)))
		}
	}
}

// The GeoJSON reads back as the very outlines that were judged.
func TestGeoJSONReadsBack(t *testing.T) {
	c := run(t, testjobs.Small, plan.Options{}).Cloths[0]
	text, err := c.GeoJSON(c.Markers[0])
	if err != nil {
		t.Fatal(err)
	}
	named, err := outline.ReadGeoJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	for i, placed := range c.Layout.Placed {
		if diff := cmp.Diff(orb.Ring(c.Problem.Outline(placed)), named[i].Ring); diff != "" {
			t.Errorf("%s copy %d: %s", c.Marker[i].Piece, c.Marker[i].Copy, diff)
		}
	}
	var members map[string]any
	if err := json.Unmarshal(text, &members); err != nil {
		t.Fatal(err)
	}
	if members["type"] != "FeatureCollection" || members["cloth"] != "wool" || members["width"] != c.Width ||
		members["length"] != c.Used {
		t.Errorf("members are %v %v %v %v", members["type"], members["cloth"], members["width"], members["length"])
	}
}

// A piece too wide for its cloth is refused for every cloth at once, before
// anything is laid.
func TestTooWideIsRefused(t *testing.T) {
	src := strings.Replace(strings.Replace(testjobs.Small, "width = 58", "width = 17", 1),
		"width = 54", "width = 12", 1)
	_, err := Run(context.Background(), testjobs.Read(t, src), plan.Options{Unit: measure.Inch})
	var all strict.Errors
	if !errors.As(err, &all) || len(all) != 2 {
		t.Fatalf("got %v, want two refusals", err)
	}
	for _, e := range all {
		if e.At.Line != 20 || !strings.Contains(e.What, "cape half") || !strings.Contains(e.Hint, "wider cloth") {
			t.Errorf("refusal: %v", e)
		}
	}
}

// An interrupted run keeps what it has and says so; one stopped by its ceiling
// too.
func TestRunStopsWhenAsked(t *testing.T) {
	src, err := os.ReadFile("../../../../testdata/lantern-gown.toml")
	if err != nil {
		t.Fatal(err)
	}
	j := testjobs.Read(t, string(src))
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	seen := false
	r, err := Run(ctx, j, plan.Options{Effort: nest.Thorough, Exact: true, Progress: func(p plan.Progress) {
		if !seen && p.Length > 0 {
			seen = true
			time.AfterFunc(often.Full[time.Duration](100, 300)*time.Millisecond, cancel)
		}
	}})
	if err != nil {
		t.Fatal(err)
	}
	if got := r.Cloths[0].Ended; got != nest.Stopped {
		t.Errorf("satin ended %v, want stopped", got)
	}
	late, done := context.WithTimeout(context.Background(), often.Full[time.Duration](150, 400)*time.Millisecond)
	defer done()
	r, err = Run(late, j, plan.Options{Effort: nest.Thorough, Exact: true})
	if err != nil {
		t.Fatal(err)
	}
	if got := r.Cloths[0].Ended; got != nest.OutOfTime {
		t.Errorf("satin ended %v, want out of time", got)
	}
}

// Cloths without a price cost nothing that is known: not 0.00.
func TestNoPriceNoTotal(t *testing.T) {
	r := run(t, strings.ReplaceAll(testjobs.Small, "price = \"20.00/yd\"\n", ""),
		plan.Options{Effort: nest.Quick, Unit: measure.Inch})
	if r.Total != "" {
		t.Errorf("the total is %q", r.Total)
	}
}
