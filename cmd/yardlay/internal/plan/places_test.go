package plan_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// openSkirt is a job of a gored skirt that leaves open where its corners are cut off, some lined, some folded.
func openSkirt(seed int) string {
	r := rand.New(rand.NewPCG(uint64(seed), 41))
	lay, lining := "", ""
	if r.IntN(3) == 0 {
		lay = "lay = \"lengthwise-fold\"\n"
	}
	if r.IntN(3) == 0 {
		lining = "lining = { cloth = \"lawn\" }\n"
	}
	return testjobs.PiecedSkirt(40+r.IntN(16), lay, 4+2*r.IntN(2), 20+r.IntN(10), 110+r.IntN(60), lining)
}

// proofs remembers the bounds of all that is laid here, much of it more than once.
var proofs = new(nest.Proofs)

// wideSkirt is one whose gores fit the cloth, and which saves cloth with narrower ones.
var wideSkirt = testjobs.PiecedSkirt(45, "nap = \"one-way\"\n", 4, 20, 120, "")

// paid is what all cloths of a job cost with its skirt pieced at a place, by a quick search, which
// by hand is left off where it is hopeless; -1 where it cannot be cut so.
func paid(t *testing.T, j *job.Job, at job.Place) (minor int64) {
	t.Helper()
	laid, err := plan.Lay(context.Background(), j.PiecedAt("skirt", at), plan.Options{
		Effort: nest.Quick, Seed: 1, Steady: true, Proofs: proofs, Compare: often.ByHand(),
	})
	if err != nil {
		return -1
	}
	for _, l := range laid {
		minor += l.Buy.Cost.Minor
	}
	return minor
}

// paidOf is what the place chosen costs, laid in full, and what the cheapest does of that, of the job as it is written
// and of the others. By hand no other is laid: they are figures to read alone.
func paidOf(t *testing.T, j *job.Job, at job.Place, written int64, places []job.Place) (cost, least int64) {
	t.Helper()
	cost, least = written, written
	for _, place := range places {
		chosen := place.Within == at.Within && place.Length == at.Length
		if often.ByHand() && !chosen {
			continue
		}
		one := paid(t, j, place)
		if chosen {
			cost = one
		}
		if one >= 0 {
			least = min(least, one)
		}
	}
	return cost, least
}

// savedBy is what a place saves of all cloths together, mm.
func savedBy(at job.Place) (mm float64) {
	for _, l := range at.Less {
		mm += l.Bought
	}
	return mm
}

// All places laid in full are the slow twin: the one chosen costs no more than the job as it is written, what it is
// said to save is what it saves, and few places cost less. Where the job cannot be cut as it is written, one that can
// be is chosen if there is any.
func TestPlacesAgainstAllOfThem(t *testing.T) {
	chosen, missed, cut := 0, 0, 0
	skirts := []string{wideSkirt} // whose bounds other tests need too
	if !often.ByHand() {
		skirts = nil
		for seed := range often.Jobs(6, 40) { // a third of them has a fold on which nothing can be cut double
			skirts = append(skirts, openSkirt(seed))
		}
	}
	for seed, src := range skirts {
		j := testjobs.Read(t, src)
		if got := j.PlacesOpen(); !cmp.Equal(got, []string{"skirt"}) {
			t.Fatalf("open: %q", got)
		}
		at := plan.Placed(context.Background(), j, plan.Options{Proofs: proofs}).Parts[0].Place
		parts, c := plan.OuterParts(j, "wool")
		var places []job.Place
		for _, step := range plan.PieceSteps("skirt", parts, c, measure.Inch) {
			places = append(places, job.Place{Within: step})
		}
		written := paid(t, j, job.Place{})
		if written < 0 {
			cost, least := paidOf(t, j, at, math.MaxInt64, places)
			if (at.Refused == nil) != (least == math.MaxInt64) || (at.Within > 0) != (at.Refused != nil) || cost < 0 {
				t.Errorf("seed %d cannot be cut as written: %+v costs %d, the cheapest place %d", seed, at, cost, least)
			}
			continue
		}
		cut++
		cost, least := paidOf(t, j, at, written, places)
		saved := savedBy(at)
		switch {
		case cost > written:
			t.Errorf("seed %d: within %v mm it costs %d, as written %d", seed, at.Within, cost, written)
		case at.Within > 0 && (cost == written || saved <= 0):
			t.Errorf("seed %d: %v mm saves nothing: %+v", seed, at.Within, at)
		case at.Within == 0 && len(at.Less) > 0:
			t.Errorf("seed %d: %+v", seed, at)
		}
		if at.Within > 0 {
			chosen++
		}
		if cost > least {
			missed++
		}
	}
	t.Logf("of %d jobs %d can be cut as written, a place is chosen for %d, for %d another one costs less", len(skirts),
		cut, chosen, missed)
	if chosen == 0 || 2*cut < len(skirts) || 10*missed > len(skirts) {
		t.Error("no place was chosen, few jobs were tried, or too often another place costs less")
	}
}

// A job is cut alike whatever is asked of it. One that says where is left alone, and so is what is interrupted.
func TestPlacesAreThoseOfTheJob(t *testing.T) {
	src := wideSkirt
	f := testjobs.File(t, "job.toml", src)
	plan.Settle(context.Background(), f, plan.Options{Workers: 1, Proofs: proofs})
	for _, o := range []plan.Options{{Workers: 3, Seed: 7, Effort: nest.Thorough, Gowns: 2, Proofs: proofs}} {
		again := plan.Placed(context.Background(), testjobs.Read(t, src), o)
		if d := cmp.Diff(f.Job().Parts[0].Place, again.Parts[0].Place); d != "" {
			t.Errorf("%+v: %s", o, d)
		}
	}
	settled := f.Job()
	if settled.Parts[0].Place.Tried == 0 {
		t.Error("no place was weighed")
	}
	if plan.Settle(context.Background(), f, plan.Options{}); f.Job() != settled || len(settled.PlacesOpen()) > 0 {
		t.Error("what is settled is chosen anew")
	}
	ended, end := context.WithCancel(context.Background())
	end()
	f = testjobs.File(t, "job.toml", src)
	if plan.Settle(ended, f, plan.Options{}); len(f.Job().PlacesOpen()) != 1 {
		t.Error("an interrupted choice is kept")
	}
	fixed := testjobs.Read(t, strings.Replace(src, "pieced = {}", "pieced = { within = \"40\" }", 1))
	if plan.Placed(context.Background(), fixed, plan.Options{}) != fixed {
		t.Error("a place that the job says is chosen")
	}
}

// Where the job has rates of labour, a place that saves cloth is not chosen when sewing the larger corners on costs
// more than the cloth saved: at little an hour it is, and told with the seam, at much it is not.
func TestSewingCountsForThePlace(t *testing.T) {
	for hour, chosen := range map[string]bool{"1.00/h": true, "900.00/h": false} {
		src := strings.Replace(wideSkirt, "[allowance]", "[labour]\nrate = \""+hour+"\"\nseam = \"10 min/m\"\npiece = "+
			"\"5 min\"\n"+
			"[allowance]", 1)
		at := plan.Placed(context.Background(), testjobs.Read(t, src), plan.Options{Proofs: proofs}).Parts[0].Place
		if at.Tried == 0 || (at.Within > 0) != chosen || chosen != (at.Seam > 300) {
			t.Errorf("at %s: %+v", hour, at)
		}
	}
}

// What a cloth costs that has no price is not known: a place that saves money on another cloth is not chosen where more
// of that one is bought.
func TestMoreOfAClothWithoutAPriceIsNotWorthIt(t *testing.T) {
	const price, lining = "width = 60\nprice = \"6.00/yd\"\n", "width = 60\nrepeat = { along = 10, across = 30 }\n"
	src := wideSkirt + "lining = { cloth = \"lawn\" }\n"
	for lawn, chosen := range map[string]bool{lining + "price = \"6.00/yd\"\n": true, lining: false} {
		j := testjobs.Read(t, strings.Replace(src, price, lawn, 1))
		at := plan.Placed(context.Background(), j, plan.Options{Proofs: proofs}).Parts[0].Place
		more := slices.ContainsFunc(at.Less, func(s job.Saved) bool { return s.Cloth == "lawn" && s.Bought < 0 })
		if at.Tried == 0 || more != chosen {
			t.Errorf("%s: %+v", lawn, at)
		}
	}
}

// What is laid to weigh places is remembered for a job that has the same pieces on the same cloth, whatever its price
// is and what else there is of it: its places are those that it has by itself.
func TestPlacesAreWeighedOnceForLikeJobs(t *testing.T) {
	laid := 0
	o := plan.Options{Proofs: proofs, Weighed: new(plan.Weighed), Progress: func(plan.Progress) { laid++ }}
	first := plan.Placed(context.Background(), testjobs.Read(t, wideSkirt), o).Parts[0].Place
	if first.Within == 0 || laid == 0 {
		t.Fatalf("%+v, told %d times how it is laid", first, laid)
	}
	for _, c := range []struct {
		was, is string
		again   bool
	}{
		{"24.00/yd", "20.00/yd", false}, {"width = 60", "width = 50", false}, {"one-way", "two-way", true},
	} {
		laid = 0
		like := testjobs.Read(t, strings.Replace(wideSkirt, c.was, c.is, 1))
		at := plan.Placed(context.Background(), like, o).Parts[0].Place
		if laid > 0 != c.again || !c.again && !cmp.Equal(at, first) {
			t.Errorf("%s: told %d times how it is laid, %+v, at first %+v", c.is, laid, at, first)
		}
	}
}

// Of many parts with many pieces those that come first are weighed, as far as their copies go; all are settled.
func TestPlacesOfManyParts(t *testing.T) {
	src := wideSkirt
	for i := range 12 {
		src += fmt.Sprintf("[[part]]\nname = \"skirt %d\"\ndraft = \"gored-skirt\"\ncloth = \"wool\"\ngores = 6\n"+
			"length = %d\nhem_sweep = 170\ntimes = 4\npieced = {}\n", i, 30+i)
	}
	j := plan.Placed(context.Background(), testjobs.Read(t, src), plan.Options{})
	for _, p := range j.Parts {
		if p.Place.Within > 0 || p.Place.Tried > 0 {
			t.Errorf("%s is weighed: %+v", p.Name, p.Place)
		}
	}
	if len(j.PlacesOpen()) > 0 {
		t.Errorf("open: %q", j.PlacesOpen())
	}
}
