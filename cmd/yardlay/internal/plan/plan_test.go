package plan

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

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/nest"
	"yardlay/shapes/measure"
	"yardlay/shapes/outline"
)

func read(t *testing.T, src string) *job.Job {
	t.Helper()
	j, err := job.Parse("job.toml", []byte(src))
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// small is a job whose cloths are laid at once.
const small = `title = "Short cape"
unit = "in"
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "wool"
width = 58
selvedge = "1/2"
nap = "two-way"
price = "20.00/yd"
[[cloth]]
id = "tulle"
width = 54
both_faces = true
[[cloth]]
id = "spare"
width = 40
[[part]]
name = "cape"
draft = "cape"
cloth = ["wool", "tulle"]
neck = 16
length = 14
circle = "half"
back_seam = true
[[part]]
name = "belt"
draft = "rectangle"
cloth = "wool"
length = 30
width = 4
`

func run(t *testing.T, src string, o Options) *Report {
	t.Helper()
	o.Effort = nest.Trial
	r, err := Run(context.Background(), read(t, src), o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Each cloth gets the pieces of its parts, named by part and piece, with the
// rights that pair and faces give; a cloth that nothing is cut from is left out.
func TestDrawSortsPiecesByCloth(t *testing.T) {
	spreads, err := Draw(read(t, small))
	if err != nil {
		t.Fatal(err)
	}
	type laid struct {
		Cloth, Name string
		Count       int
		Mirror      nest.Mirror
		Turns       int
	}
	var got []laid
	for _, s := range spreads {
		for _, p := range s.Problem().Pieces {
			got = append(got, laid{s.Cloth.ID, p.Name, p.Count, p.Mirror, len(p.Turns)})
		}
	}
	want := []laid{
		{"wool", "cape half", 2, nest.Paired, 2},
		{"wool", "belt", 1, nest.AsDrawn, 2},
		{"tulle", "cape half", 2, nest.Free, 1},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if w := spreads[0].Problem().Strip.Width / measure.Inches; math.Abs(w-57) > 1e-9 {
		t.Errorf("usable width is %v in, want 58 less two selvedges of 1/2", w)
	}
}

// A piece on the fold is laid whole: a cape of half a circle from neck 16 has
// radii 16/pi and 16/pi + 14 (plain geometry), so it is twice 19.1 in across.
func TestFoldIsOpenedOut(t *testing.T) {
	src := strings.Replace(small, "back_seam = true", "back_on_fold = true", 1)
	spreads, err := Draw(read(t, src))
	if err != nil {
		t.Fatal(err)
	}
	if !spreads[0].Pieces[0].OnFold {
		t.Fatal("the cape is not on the fold")
	}
	b := spreads[0].Problem().Pieces[0].Outline.Bound()
	// Hem at the ends: 1 in of allowance outside the radius, 1/2 in beyond the centre front.
	want := 2 * math.Sqrt(math.Pow(16/math.Pi+15, 2)) * measure.Inches
	if got := b.Max[1] - b.Min[1]; math.Abs(got-want) > 1 {
		t.Errorf("the opened cape is %.1f mm across, want %.1f", got, want)
	}
}

// The report holds layouts that pass the judge, buys what they use and adds up.
func TestRunBuysWhatTheLayoutsUse(t *testing.T) {
	r := run(t, small, Options{})
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
	if eighths := math.Ceil((wool.Used - measure.Guard) / (measure.Yards / 8)); wool.Buy.Cost.Minor != int64(250*eighths) {
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
		r := run(t, small, Options{Workers: workers, Seed: 7})
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
	c := run(t, small, Options{}).Cloths[0]
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
	if members["type"] != "FeatureCollection" || members["cloth"] != "wool" || members["width"] != c.Width || members["length"] != c.Used {
		t.Errorf("members are %v %v %v %v", members["type"], members["cloth"], members["width"], members["length"])
	}
}

// A piece too wide for its cloth is refused for every cloth at once, before
// anything is laid.
func TestTooWideIsRefused(t *testing.T) {
	src := strings.Replace(strings.Replace(small, "width = 58", "width = 17", 1), "width = 54", "width = 12", 1)
	_, err := Run(context.Background(), read(t, src), Options{Unit: measure.Inch})
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
	j := read(t, string(src))
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	seen := false
	r, err := Run(ctx, j, Options{Effort: nest.Thorough, Exact: true, Progress: func(_ string, p nest.Progress) {
		if !seen && p.Length > 0 {
			seen = true
			time.AfterFunc(300*time.Millisecond, cancel)
		}
	}})
	if err != nil {
		t.Fatal(err)
	}
	if got := r.Cloths[0].Ended; got != nest.Stopped {
		t.Errorf("satin ended %v, want stopped", got)
	}
	late, done := context.WithTimeout(context.Background(), 400*time.Millisecond)
	defer done()
	r, err = Run(late, j, Options{Effort: nest.Thorough, Exact: true})
	if err != nil {
		t.Fatal(err)
	}
	if got := r.Cloths[0].Ended; got != nest.OutOfTime {
		t.Errorf("satin ended %v, want out of time", got)
	}
}

func TestNamesSayNothingTwice(t *testing.T) {
	for _, c := range []struct{ part, piece, want string }{
		{"skirt", "centre back gore", "skirt centre back gore"},
		{"cape", "cape front", "cape front"},
		{"collar flounce", "flounce section", "collar flounce section"},
		{"net skirt", "skirt half", "net skirt half"},
		{"ruff", "ruffle strip", "ruff ruffle strip"},
		{"waistband", "waistband", "waistband"},
	} {
		if got := fullName(c.part, c.piece); got != c.want {
			t.Errorf("%q of %q is called %q, want %q", c.piece, c.part, got, c.want)
		}
	}
}

// Cloths without a price cost nothing that is known: not 0.00.
func TestNoPriceNoTotal(t *testing.T) {
	r := run(t, strings.ReplaceAll(small, "price = \"20.00/yd\"\n", ""), Options{Effort: nest.Quick, Unit: measure.Inch})
	if r.Total != "" {
		t.Errorf("the total is %q", r.Total)
	}
}
