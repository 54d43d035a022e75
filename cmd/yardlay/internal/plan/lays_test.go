package plan

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// A piece on the fold is the upper half of its opened outline, drawn larger or not.
func TestHalvesMakeTheWhole(t *testing.T) {
	for _, shrinkage := range []string{"", `shrinkage = { warp = "-4.3 %", weft = "-2.1 %", by = "pieces" }`} {
		p := onlyTask(t, testjobs.Gown(shrinkage)).Problem.Pieces[1]
		if p.Half == nil {
			t.Fatal("the collar has no half")
		}
		if 2*plane.Area(p.Half) != plane.Area(p.Outline) {
			t.Errorf("halves of %v mm2 make %v mm2", plane.Area(p.Half), plane.Area(p.Outline))
		}
		h, w := plane.Bounds(p.Half), plane.Bounds(p.Outline)
		if h.Max != w.Max || h.Min != (orb.Point{w.Min[0], (w.Min[1] + w.Max[1]) / 2}) {
			t.Errorf("half %v of %v", h, w)
		}
	}
}

// A part cut several times for one gown.
func TestPartsAreCutAsOftenAsAsked(t *testing.T) {
	task := onlyTask(t, panel("", "times = 3\ncount = 2"))
	if n := task.Problem.Pieces[0].Count; n != 6 {
		t.Errorf("%d copies, want 6", n)
	}
}

// Keys tell tasks apart by what is laid and how it is sold, not by names.
func TestKeysTellTasksApart(t *testing.T) {
	base := onlyTask(t, testjobs.Gown("")).Key()
	if again := onlyTask(t, strings.Replace(testjobs.Gown(""), "id = \"wool\"", "id = \"wool\"\ntitle = \"grey wool\"",
		1)).Key(); again != base {
		t.Error("a title makes another key")
	}
	keys := []string{base}
	for _, cloth := range []string{
		"nap = \"two-way\"", "lay = \"lengthwise-fold\"", "ends = 1", "skew = 1", "spare = \"1 %\"",
		"both_faces = true", "sold_by = \"0.5 m\"",
		"repeat = { along = 10 }", "have = [ { length = 50 } ]", "flaws = [ { from = 3, to = 4, low = 1, high = 9 } ]",
		"shrinkage = { warp = \"-3 %\", by = \"prewash\" }", "shrinkage = { warp = \"-3 %\", by = \"pieces\" }",
	} {
		key := onlyTask(t, testjobs.Gown(cloth)).Key()
		if slices.Contains(keys, key) {
			t.Errorf("%s: the same key as another", cloth)
		}
		keys = append(keys, key)
	}
}

// A start is taken where it is allowed: the layout of one-way cloth on two-way
// cloth, folded or opened out, and never a longer one comes of it.
func TestLayoutsStartOthers(t *testing.T) {
	options := Options{Effort: nest.Trial}
	do := func(cloth string, start *Start) Laid {
		t.Helper()
		l, err := Do(context.Background(), onlyTask(t, testjobs.Gown(cloth)), options, start)
		if err != nil {
			t.Fatal(err)
		}
		return l
	}
	for _, lay := range []string{"open", "lengthwise-fold"} {
		one := do("nap = \"one-way\"\nlay = \""+lay+"\"", nil)
		start := one.Task.OpenStart(one)
		two := onlyTask(t, testjobs.Gown("nap = \"two-way\"\nlay = \""+lay+"\""))
		if start.of(two) == nil {
			t.Errorf("%s: one-way is not allowed on two-way cloth", lay)
		}
		if l := do("nap = \"two-way\"\nlay = \""+lay+"\"", start); l.Needed > one.Needed {
			t.Errorf("%s: two-way takes %v, started from %v", lay, l.Needed, one.Needed)
		}
		if open := do("nap = \"one-way\"", start); open.Results[0].Layout.Length > one.Opened.Length {
			t.Errorf("open takes %v, started from %v opened out", open.Needed, one.Opened.Length)
		}
	}
	wide := do("", nil)
	if narrow := onlyTask(t, strings.Replace(testjobs.Gown(""), "width = 120", "width = 45",
		1)); wide.Task.OpenStart(wide).of(narrow) != nil &&
		nest.Verify(narrow.Problem, wide.Opened) != nil {
		t.Error("a layout that does not fit is taken")
	}
}

// What the shelf leaves over is cut open when none of it can be cut double.
func TestTheRestIsLaidOpenWhenNothingIsDouble(t *testing.T) {
	task := onlyTask(t, testjobs.Gown("lay = \"lengthwise-fold\""))
	alone := task.Problem
	alone.Pieces = alone.Pieces[2:]
	rest, err := task.of(alone)
	if err != nil || len(rest.Stretches) != 1 || rest.Stretches[0].Lay != nest.Open {
		t.Fatalf("%v, %+v", err, rest.Stretches)
	}
	l, err := rest.layFresh(context.Background(), Options{Effort: nest.Trial}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(l.Results) != 1 || l.Task.Stretches[0].Lay != nest.Open {
		t.Errorf("laid on %+v", l.Task.Stretches)
	}
}

// Flaws are covered on the lattice by zones of the strip behind the end allowance.
func TestFlawsBecomeZones(t *testing.T) {
	task := onlyTask(t, testjobs.Gown(
		"ends = 3\nflaws = [ { from = 20, to = 21.7, low = 5.3, high = 9 }, { outline = [[10, 20], [14, 22.2], "+
			"[11.1, 27]] }, { from = 0, to = 2, low = 0, high = 50 } ]"))
	zones := task.Problem.Strip.Forbidden
	if len(zones) != 2 {
		t.Fatalf("%d zones: one lies in the end allowance", len(zones))
	}
	if b := plane.Bounds(zones[0]); b.Min[0] > 170 || b.Min[0] < 170-plane.Lattice || b.Max[1] < 80 ||
		b.Max[1] > 80+plane.Lattice ||
		b.Max[0] < 187 || b.Min[1] > 43 {
		t.Errorf("zone %v, want 170 to 187 along and 43 to 80 across", b)
	}
	corners := []orb.Point{{70, 190}, {110, 212}, {81, 260}}
	for _, v := range corners {
		if inside, edge := around(zones[1], v); !inside && !edge {
			t.Errorf("corner %v is outside the zone %v", v, zones[1])
		}
	}
	if a := plane.Area(zones[1]); a > plane.Area(orb.Ring{corners[0], corners[1], corners[2], corners[0]})+1 {
		t.Errorf("the zone has grown to %v mm2", a)
	}
}

// around says whether a point lies inside a counter-clockwise convex ring.
func around(ring orb.Ring, p orb.Point) (inside, edge bool) {
	inside = true
	for i := 1; i < len(ring); i++ {
		switch side := plane.Orient(ring[i-1], ring[i], p); {
		case side < 0:
			return false, false
		case side == 0:
			inside, edge = false, true
		}
	}
	return inside, edge
}

// Random jobs over lays, nap, grain, ends, shrinkage, flaws, repeats and leftovers
// are refused by name, or their layouts pass the judge in the stretch and opened
// out, and the bound stays below what is bought.
func TestRandomJobsPassTheJudge(t *testing.T) {
	grains := rapid.SampledFrom([]string{"", "grain = \"cross\"", "grain = \"either\"", "grain = \"bias\"", "tilt = 2"})
	laid := 0
	for seed := range 60 {
		src := testjobs.Gown(testjobs.RandomCloth.Example(seed)) + grains.Example(seed) + "\n"
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			task, err := Tasks(testjobs.Read(t, src), 1)
			var placed strict.Errors
			if errors.As(err, &placed) {
				return
			} else if err != nil {
				t.Fatalf("%v\n%s", err, src)
			}
			l, err := Do(context.Background(), task[0], Options{Effort: nest.Trial}, nil)
			var none *NoLayoutError
			if errors.As(err, &none) {
				return
			} else if err != nil {
				t.Fatalf("%v\n%s", err, src)
			}
			laid++
			if l.LeastBuy > l.Buy.Bought || l.Buy.Bought < l.Needed-measure.Guard || l.Opened.Length > l.Needed &&
				l.Task.Spread.Cloth.Shrinkage.Warp >= 0 {
				t.Errorf("opened %v, needed %v, bought %v, at least %v\n%s", l.Opened.Length, l.Needed,
					l.Buy.Bought, l.LeastBuy, src)
			}
		})
	}
	if laid < 20 {
		t.Errorf("only %d of 60 were laid", laid)
	}
}
