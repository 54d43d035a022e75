package compare

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// flags are two rectangles side by side, laid and proved in no time.
const flags = `title = "Lantern flags"
unit = "in"
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "satin"
width = 30
price = "12.00/yd"
[[cloth]]
id = "net"
width = 40
price = "4.00/yd"
[[part]]
name = "flag"
draft = "rectangle"
cloth = "satin"
length = 14
width = 11
count = 2
[[part]]
name = "sash"
draft = "rectangle"
cloth = "net"
length = 30
width = 6
count = 2
`

// wedges take less cloth when they lie head to tail.
const wedges = `unit = "in"
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "satin"
width = 30
price = "12.00/yd"
[[part]]
name = "wedge"
draft = "gored-skirt"
cloth = "satin"
waist = 30
hip = 39
hip_depth = 5
hem_sweep = 60
length = 14
gores = 6
`

// run compares at the least effort, unless another is asked for. Each --vary is
// as typed.
func run(t *testing.T, src string, o plan.Options, vary ...string) *Result {
	t.Helper()
	r, err := try(t.Context(), src, o, vary...)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func try(ctx context.Context, src string, o plan.Options, vary ...string) (*Result, error) {
	var asked []Asked
	for _, text := range vary {
		a, err := Ask(text)
		if err != nil {
			return nil, err
		}
		asked = append(asked, a)
	}
	var ways [][]job.Change
	if asked != nil {
		var err error
		if ways, err = Combine(asked); err != nil {
			return nil, err
		}
	}
	if o.Effort == nest.Normal {
		o.Effort = nest.Trial // a fraction of a second a row
	}
	f, err := job.Read("flags.toml", []byte(src))
	if err != nil {
		return nil, err
	}
	return Run(ctx, f, asked, ways, Options{Options: o})
}

func names(r *Result) []string {
	var all []string
	for _, row := range r.Rows {
		all = append(all, row.Name)
	}
	return all
}

// A freer lay never takes more cloth: one-way against two-way, a
// narrow width against a wider one, a fold against the open cloth, a gap
// against less of it. Each layout of the stricter is allowed in the freer.
func TestFreerNeverTakesMore(t *testing.T) {
	r := run(t, wedges, plan.Options{Seed: 3, Unit: measure.Inch}, "satin.nap=one-way,two-way",
		"satin.width=26,30", "satin.lay=open,lengthwise-fold", "satin.gap=0,1/4")
	order := map[string][]string{
		"satin.nap": {"one-way", "two-way"}, "satin.width": {"26", "30"},
		"satin.lay": {"lengthwise-fold", "open"}, "satin.gap": {"1/4", "0"},
	}
	freer := func(a, b Row) bool { // b allows what a allows
		for i, c := range a.Changes {
			if slices.Index(order[c.Key], c.Value) > slices.Index(order[c.Key], b.Changes[i].Value) {
				return false
			}
		}
		return true
	}
	// as written
	r.Rows[0].Changes = []job.Change{{Key: "satin.nap", Value: "one-way"}, {Key: "satin.width", Value: "30"},
		{Key: "satin.lay", Value: "open"}, {Key: "satin.gap", Value: "0"}}
	laid := 0
	for _, a := range r.Rows {
		if a.Report == nil {
			t.Logf("%s: %s", a.Name, a.Why)
			continue
		}
		laid++
		for _, b := range r.Rows {
			if b.Report == nil || !freer(a, b) {
				continue
			}
			if a.Cloths[0].Bought < b.Cloths[0].Bought {
				t.Errorf("%s takes %s, %s takes %s", a.Name, measure.FormatUp(a.Cloths[0].Bought, measure.Yard),
					b.Name, measure.FormatUp(b.Cloths[0].Bought, measure.Yard))
			}
			if b.Cloths[0].Bound > a.Cloths[0].Used+measure.Guard {
				t.Errorf("%s is laid in %.1f mm, below the bound of %s", a.Name, a.Cloths[0].Used, b.Name)
			}
		}
	}
	if len(r.Rows) != 16 || laid < 12 {
		t.Errorf("%d rows, %d laid, want 16 and most of them", len(r.Rows), laid)
	}
}

// Twelve straight-sided gores, top 5, hem 12, height 40 in, on 55 in [plain
// algebra]: head to tail a row of six takes 6 (5 + 12) / 2 + (12 - 5) / 2 = 54.5
// in of the width, so two rows, 80 in, 2 1/4 yd at 1/8. One way up four stand in
// a row, 48 in, and three rows take 120 in, 3 3/8 yd, at the most.
func TestGoresHeadToTail(t *testing.T) {
	dir := t.TempDir()
	const in = 25.4
	outline := fmt.Sprintf(`{"type":"Feature","properties":{"name":"gore"},"geometry":{"type":"Polygon",`+
		`"coordinates":[[[0,%g],[%g,%g],[%g,%g],[0,%g],[0,%g]]]}}`,
		-2.5*in, 40*in, -6*in, 40*in, 6*in, 2.5*in, -2.5*in)
	if err := os.WriteFile(filepath.Join(dir, "gore.geojson"), []byte(outline), 0o600); err != nil {
		t.Fatal(err)
	}
	src := `unit = "in"
allowance = { seam = 0, hem = 0 }
cloth = [ { id = "satin", width = 55, sold_by = "1/8 yd" } ]
part = [ { name = "gores", draft = "outline", cloth = "satin", file = "gore.geojson", count = 12 } ]
`
	asked, _ := Ask("satin.nap=one-way,two-way")
	ways, _ := Combine([]Asked{asked})
	r, err := Run(t.Context(), testjobs.File(t, filepath.Join(dir, "gores.toml"), src), []Asked{asked}, ways,
		Options{Options: plan.Options{Effort: nest.Quick, Unit: measure.Inch}})
	if err != nil {
		t.Fatal(err)
	}
	oneWay, twoWay := r.Rows[0], r.Rows[1]
	if oneWay.Name != "as written (satin nap one-way)" || oneWay.Cloths[0].Bought > 3.375*914.4+measure.Guard {
		t.Errorf("%s takes %.1f mm, three rows take 3048", oneWay.Name, oneWay.Cloths[0].Bought)
	}
	if got := measure.FormatUp(twoWay.Cloths[0].Bought, measure.Yard); got != "2 1/4 yd" ||
		!twoWay.Proved || !twoWay.Best {
		t.Errorf("%s: buy %s, proved %v, best %v; want 2 1/4 yd, proved, the best", twoWay.Name, got,
			twoWay.Proved, twoWay.Best)
	}
	if want := oneWay.Cloths[0].Bought - twoWay.Cloths[0].Bought; twoWay.Difference.Length != -want {
		t.Errorf("the difference is %v mm, want %v", twoWay.Difference.Length, -want)
	}
}

// The same bytes for a seed, whatever the number of workers.
func TestSameBytesWhateverTheWorkers(t *testing.T) {
	bytesOf := func(workers int) []byte {
		r := run(t, wedges, plan.Options{Seed: 5, Workers: workers, Unit: measure.Inch}, "satin.nap=one-way,two-way",
			"satin.width=26,30")
		text, err := json.Marshal(r)
		if err != nil {
			t.Fatal(err)
		}
		svg, err := r.Picture().SVG()
		if err != nil {
			t.Fatal(err)
		}
		lay, err := json.Marshal(r.Best().Report)
		if err != nil {
			t.Fatal(err)
		}
		return bytes.Join([][]byte{text, svg, lay}, nil)
	}
	if one := bytesOf(1); !bytes.Equal(one, bytesOf(3)) {
		t.Error("one worker and three give different comparisons")
	}
}

// laidByNap lays the satin of a job one-way, then two-way.
func laidByNap(t *testing.T, src string) (*layer, []*lot) {
	t.Helper()
	var lots []*lot
	for i, nap := range []string{"one-way", "two-way"} {
		j, err := testjobs.File(t, "flags.toml", src).With([]job.Change{{Key: "satin.nap", Value: nap}})
		if err != nil {
			t.Fatal(err)
		}
		tasks, err := plan.Tasks(j, 1)
		if err != nil {
			t.Fatal(err)
		}
		one, err := newLot(tasks[0], i)
		if err != nil {
			t.Fatal(err)
		}
		lots = append(lots, one)
	}
	l := &layer{options: Options{Options: plan.Options{Effort: nest.Trial, Workers: 1}}}
	l.layAll(t.Context(), lots)
	return l, lots
}

// A search that did worse than another row's layout goes on from that, and the
// row says so.
func TestBetterLayoutIsTakenOver(t *testing.T) {
	r := &Result{Rows: []Row{{Name: "strict"}, {Name: "free"}}}
	l, lots := laidByNap(t, wedges)
	strict, free := lots[0], lots[1]
	// As if the search for the second had found no more than pieces in single file.
	poor := nest.Layout{}
	for i, p := range free.task.Problem.Pieces {
		for copy := range p.Count {
			at := nest.Placed{Piece: i, Copy: copy, Mirrored: p.Mirror == nest.Paired && copy%2 == 1}
			box := free.task.Problem.Outline(at).Bound()
			at.At[0], at.At[1] = poor.Length-box.Min[0], -box.Min[1]
			poor.Length += box.Max[0] - box.Min[0]
			poor.Placed = append(poor.Placed, at)
		}
	}
	if err := nest.Verify(free.task.Problem, poor); err != nil {
		t.Fatal(err)
	}
	free.laid.Results[0].Layout, free.laid.Opened = poor, poor
	free.laid.Buy.Bought = free.task.Bought([]float64{poor.Length})
	l.share(t.Context(), lots)
	if free.laid.Buy.Bought > strict.laid.Buy.Bought {
		t.Errorf("two-way takes %v mm, one-way %v", free.laid.Buy.Bought, strict.laid.Buy.Bought)
	}
	if free.other == nil || free.other.row != 0 {
		t.Fatalf("two-way was taken over from %+v, want the first row", free.other)
	}
	if note := r.beaten(free.task, free); !strings.Contains(note, "A layout of \"strict\" is shorter") {
		t.Error(note)
	}
	if strict.other != nil {
		t.Error("one-way was taken over too")
	}
}

// With leftovers a row takes over a stricter one whole.
func TestStricterLayingWithLeftoversIsTakenOver(t *testing.T) {
	src := strings.Replace(flags, `price = "12.00/yd"`,
		"price = \"12.00/yd\"\nhave = [ { name = \"remnant\", length = 16, width = 14 } ]", 1)
	l, lots := laidByNap(t, src)
	strict, free := lots[0], lots[1]
	if !onlyStricter(strict.task, free.task) || onlyStricter(free.task, strict.task) {
		t.Fatal("one-way is not what forbids more")
	}
	free.laid.Buy.Bought = strict.laid.Buy.Bought + 1000 // as if the search had done worse
	strict.laid.Buy.Bought += 2000
	l.share(t.Context(), lots)
	if free.other != nil {
		t.Error("two-way took over a laying that buys more")
	}
	strict.laid.Buy.Bought -= 2000
	l.share(t.Context(), lots)
	if free.other == nil || free.laid.Buy.Bought != strict.laid.Buy.Bought || strict.other != nil {
		t.Errorf("two-way buys %v, one-way %v", free.laid.Buy.Bought, strict.laid.Buy.Bought)
	}
}

func TestRowsSayWhyTheyAreNotLaid(t *testing.T) {
	r := run(t, flags, plan.Options{Unit: measure.Inch}, "satin.width=6,30", "flag.width=50,11")
	for name, why := range map[string]string{
		"satin width 6, flag width 11":  "is too wide for `satin`: it takes ",
		"satin width 6, flag width 50":  "",
		"satin width 30, flag width 50": "",
	} {
		i := slices.Index(names(r), name)
		if i < 0 {
			t.Fatalf("no row %q in %q", name, names(r))
		}
		if row := r.Rows[i]; row.Report != nil || row.Why == "" || !strings.Contains(row.Why, why) || row.Best ||
			row.Difference != nil {
			t.Errorf("%s: %+v", name, row)
		}
	}
	if r.Rows[0].Name != "as written (satin width 30, flag width 11)" || !r.Rows[0].Best {
		t.Errorf("rows are %q", names(r))
	}
}

// In the table and the picture the reason takes a few words, with lengths in one
// unit; the whole of it stays in the JSON.
func TestReasonsAreBrief(t *testing.T) {
	src := strings.Replace(flags, "width = 30\n", "width = 24\n", 1)
	for _, c := range []struct {
		vary []string
		unit measure.Unit
		row  int
		want string
	}{
		{[]string{"satin.lay=lengthwise-fold"}, measure.Inch, 1, "folded, satin is 12 in wide, flag 12 1/8 in"},
		{[]string{"satin.lay=lengthwise-fold"}, measure.Centimetre, 1, "folded, satin is 30.4 cm wide, flag 30.8 cm"},
		{[]string{"satin.width=10"}, measure.Yard, 1, "of satin 10 in are usable, flag takes 12 1/8 in"},
		{[]string{"satin.lay=crosswise-fold"}, measure.Inch,
			1, "satin as a crosswise-fold: the nap of the upper layer would run the other way"},
		{[]string{"satin.repeat={ across = 4 }", "satin.lay=double-fold"}, measure.Inch,
			1, "satin as a double-fold: a repeat across does not meet itself over the fold"},
		{[]string{"flag.count=501"}, measure.Inch, 1, "501 pieces on satin, the most is 500"},
		{[]string{"flag.length=14", "satin.nap=two-way", "satin.width=24,10"}, measure.Inch,
			2, "of satin 10 in are usable, flag takes 12 1/8 in"},
	} {
		r := run(t, strings.Replace(src, "width = 11\n", "width = 11.1\n", 1), plan.Options{Unit: c.unit}, c.vary...)
		row := r.Rows[c.row]
		if row.Brief != c.want || len(row.Why) < len(row.Brief) || strings.Contains(row.Brief, "mm") {
			t.Errorf("%q: brief %q, why %q", c.vary, row.Brief, row.Why)
		}
		if svg := svgOf(t, r); strings.Contains(svg, "...") {
			t.Errorf("%q: the picture cuts its reasons short", c.vary)
		}
	}
}

// What no row can read is refused; what some row can is that row's matter.
func TestUnreadableChangesAreRefused(t *testing.T) {
	var refused *job.ChangeError
	if _, err := try(t.Context(), flags, plan.Options{}, "satin.widht=45,60"); !errors.As(err, &refused) ||
		refused.Hint != "did you mean `width`?" {
		t.Errorf("an unknown key: %v", err)
	}
	if _, err := try(t.Context(), flags, plan.Options{}, "satin.width=45,6o"); !errors.As(err, &refused) ||
		refused.Change.Value != "6o" {
		t.Errorf("a slip of the fingers: %v", err)
	}
	r := run(t, flags, plan.Options{}, "satin.lay=open,crosswise-fold", "satin.upper_turned=false,true")
	if i := slices.Index(names(r), "satin lay open, upper turned true"); i < 0 ||
		!strings.Contains(r.Rows[i].Why, "`upper_turned`") {
		t.Errorf("a turned upper layer without a fold: %q", names(r))
	}
	var bad strict.Errors
	if _, err := try(t.Context(), "unit = 3", plan.Options{}, "gap=1"); !errors.As(err, &bad) {
		t.Errorf("a job that does not hold: %v", err)
	}
}

// An interruption keeps the rows that are finished.
func TestInterruptionKeepsFinishedRows(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	o := plan.Options{Effort: nest.Trial, Workers: 1, Unit: measure.Inch}
	o.Progress = func(p plan.Progress) {
		if p.Finished == 3 && p.Cloth != "" {
			cancel()
		}
	}
	r, err := try(ctx, flags, o, "satin.width=26,28,30,32,34,36,38")
	if err != nil {
		t.Fatal(err)
	}
	laid, skipped := 0, 0
	for _, row := range r.Rows {
		if row.Report != nil {
			laid++
		} else if row.Why == errSkipped.Error() {
			skipped++
		}
	}
	if laid < 2 || skipped < 2 || laid+skipped != len(r.Rows) || r.Best() == nil {
		t.Errorf("%d rows are kept and %d skipped of %d", laid, skipped, len(r.Rows))
	}
	if !strings.HasPrefix(r.Notes[0], "Interrupted") {
		t.Errorf("notes: %q", r.Notes)
	}
	if _, err := r.Picture().SVG(); err != nil {
		t.Error(err)
	}
	cancel()
	if _, err := try(ctx, flags, o); err == nil ||
		!strings.Contains(err.Error(), "interrupted before there was anything to keep") {
		t.Errorf("interrupted at once: %v", err)
	}
}

func TestCeilingOnTimeIsSaid(t *testing.T) {
	ctx, done := context.WithTimeout(t.Context(), 1)
	defer done()
	r, err := try(ctx, wedges, plan.Options{Effort: nest.Thorough, Unit: measure.Inch}, "satin.nap=one-way,two-way")
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Notes) == 0 || !strings.HasPrefix(r.Notes[0], "Out of time") || r.Best() == nil {
		t.Errorf("notes: %q", r.Notes)
	}
}

func TestEqualTasksAreLaidOnce(t *testing.T) {
	layings := 0
	r := run(t, flags, plan.Options{Unit: measure.Inch, Progress: func(p plan.Progress) { layings = p.Of }},
		"satin.nap=one-way,two-way", "satin.title=plain,shot")
	if len(r.Rows) != 5 || layings > 3 { // one-way and two-way satin, and the net
		t.Errorf("%d rows take %d layings", len(r.Rows), layings)
	}
}

func TestNotesOnPricesAndNap(t *testing.T) {
	notes := func(src string, vary ...string) string {
		return strings.Join(run(t, src, plan.Options{Unit: measure.Inch}, vary...).Notes, "\n")
	}
	if got := notes(flags, "satin.width=28,34"); !strings.Contains(got, "Prices stay as in the job") ||
		!strings.Contains(got, "satin.width+satin.price=") {
		t.Errorf("widths alone: %s", got)
	}
	if got := notes(flags, "satin.width+satin.price=28+10/yd,34+14/yd"); strings.Contains(got, "Prices stay") {
		t.Errorf("widths with prices: %s", got)
	}
	if got := notes(strings.Replace(flags, "price = \"4.00/yd\"\n", "", 1), "satin.nap=two-way"); !strings.Contains(got,
		"net has no price") {
		t.Errorf("net without a price: %s", got)
	}
	if got := notes(wedges, "satin.nap=two-way"); !strings.Contains(got, "freer nap") {
		t.Errorf("a freer nap: %s", got)
	}
}
