package plan

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/nest"
	"yardlay/shapes"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// gown is a small job: a pair of sleeves, a collar on the fold, an odd sash.
func gown(cloth string) string {
	return `unit = "cm"
gap = 0.5
[allowance]
seam = 1
hem = 2
[[cloth]]
id = "wool"
width = 120
selvedge = 1
price = "10.00/m"
` + cloth + `
[[part]]
name = "sleeve"
draft = "outline"
cloth = "wool"
file = "testdata/hook.geojson"
count = 2
pair = true
[[part]]
name = "collar"
draft = "cape"
cloth = "wool"
neck = 12
length = 6
circle = "half"
back_on_fold = true
[[part]]
name = "sash"
draft = "outline"
cloth = "wool"
file = "testdata/hook.geojson"
`
}

func refused(t *testing.T, src string, says ...string) {
	t.Helper()
	_, err := Tasks(read(t, src), 1)
	var all strict.Errors
	if !errors.As(err, &all) {
		t.Fatalf("got %v, want a refusal", err)
	}
	for _, s := range says {
		if !strings.Contains(err.Error(), s) {
			t.Errorf("%q is not in: %v", s, err)
		}
	}
}

// Folded along its length, what comes in pairs and what lies on the fold is cut
// double; what is odd is cut from an open stretch behind, and both lengths add up.
func TestLengthwiseFoldHasAnOpenStretchBehindIt(t *testing.T) {
	c := run(t, gown("nap = \"one-way\"\nlay = \"lengthwise-fold\"\nends = 2"), Options{Unit: measure.Centimetre}).Cloths[0]
	if len(c.Stretches) != 2 || c.Stretches[0].Lay != "lengthwise-fold" || c.Stretches[1].Lay != "open" {
		t.Fatalf("stretches: %+v", c.Stretches)
	}
	folded, open := c.Stretches[0], c.Stretches[1]
	if len(folded.Marker) != 2 || len(open.Marker) != 1 || open.Marker[0].Piece != "sash hook" {
		t.Errorf("folded %+v, open %+v", folded.Marker, open.Marker)
	}
	if c.Pieces != 4 || len(c.Marker) != 4 {
		t.Errorf("%d pieces, %d in the marker, want 4", c.Pieces, len(c.Marker))
	}
	if want := folded.Used + open.Used; c.Used != want || math.Abs(c.Needed-want-4*20) > 1e-9 {
		t.Errorf("used %v and needed %v, want %v and 80 mm more", c.Used, c.Needed, want)
	}
	if math.Abs(open.From-folded.Used-40) > 1e-9 {
		t.Errorf("the open stretch begins at %v", open.From)
	}
	if c.Layout.Length > c.Needed {
		t.Errorf("opened out it takes %v mm of %v", c.Layout.Length, c.Needed)
	}
	words := strings.Join(c.Instructions, "\n")
	for _, want := range []string{"right sides together", "the fold is the lower edge", "against a fold, which is not cut: collar cape", "The open stretch begins", "right side up"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is not among the instructions:\n%s", want, words)
		}
	}
}

// Each outline of a folded marker says which copies it cuts, and together they cut
// every copy once.
func TestFoldedMarkersNameEveryCopy(t *testing.T) {
	for _, lay := range []string{"lengthwise-fold", "double-fold", "crosswise-fold\"\nupper_turned = true #"} {
		r := run(t, gown("nap = \"one-way\"\nlay = \""+lay+"\""), Options{Gowns: 2})
		c := r.Cloths[0]
		seen := map[[2]int]int{}
		for _, s := range c.Markers {
			for i, cuts := range s.Cuts {
				for _, cut := range cuts {
					seen[[2]int{cut.Piece, cut.Copy}]++
				}
				if got := c.Spread.Pieces[cuts[0].Piece].Name; s.Marker[i].Piece != got {
					t.Errorf("%s: %q is called %q", lay, got, s.Marker[i].Piece)
				}
			}
		}
		for i, p := range c.Spread.Pieces {
			for k := range p.Count {
				if seen[[2]int{i, k}] != 1 {
					t.Errorf("%s: copy %d of %s is cut %d times", lay, k, p.Name, seen[[2]int{i, k}])
				}
			}
		}
		if len(c.Marker) != c.Pieces || c.Pieces != 8 {
			t.Errorf("%s: %d of %d pieces on the open cloth, want 8", lay, len(c.Marker), c.Pieces)
		}
	}
}

// The upper layer of a crosswise fold points the other way: on one-way cloth it
// has to be turned, and the instructions say so.
func TestCrosswiseFoldTurnsTheUpperLayerOfOneWayCloth(t *testing.T) {
	refused(t, gown("nap = \"one-way\"\nlay = \"crosswise-fold\""), "sleeve", "cut the cloth along the fold and turn the upper layer")
	c := run(t, gown("nap = \"one-way\"\nlay = \"crosswise-fold\"\nupper_turned = true"), Options{}).Cloths[0]
	words := strings.Join(c.Instructions, "\n")
	if !strings.Contains(words, "cut along the fold and turn the upper layer end for end") {
		t.Errorf("instructions:\n%s", words)
	}
	if c.Stretches[0].Layers != 2 || c.Used < 2*c.Stretches[0].Used {
		t.Errorf("used %v, the folded marker %v", c.Used, c.Stretches[0].Used)
	}
	two := run(t, gown("nap = \"two-way\"\nlay = \"crosswise-fold\""), Options{}).Cloths[0]
	if words := strings.Join(two.Instructions, "\n"); strings.Contains(words, "turn the upper") || !strings.Contains(words, "cut end on cut end") {
		t.Errorf("instructions:\n%s", words)
	}
}

// A piece on the fold is the upper half of its opened outline, drawn larger or not.
func TestHalvesMakeTheWhole(t *testing.T) {
	for _, shrinkage := range []string{"", `shrinkage = { warp = "-4.3 %", weft = "-2.1 %", by = "pieces" }`} {
		p := onlyTask(t, gown(shrinkage)).Problem.Pieces[1]
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

// Several gowns are laid together, and each takes no more than one alone but for
// the search; labels say which gown.
func TestGownsAreLaidTogether(t *testing.T) {
	r := run(t, gown("nap = \"two-way\""), Options{Gowns: 3})
	c := r.Cloths[0]
	if c.Pieces != 12 || r.Gowns != 3 || c.PerGown == nil {
		t.Fatalf("%d pieces, per gown %+v", c.Pieces, c.PerGown)
	}
	alone := run(t, gown("nap = \"two-way\""), Options{}).Cloths[0]
	if alone.PerGown != nil || c.PerGown.AloneUsed != alone.Used || c.PerGown.AloneBought != alone.Bought || c.PerGown.AloneCost != alone.Cost {
		t.Errorf("one alone takes %v, said to be %+v", alone.Used, c.PerGown)
	}
	if math.Abs(c.PerGown.Used*3-c.Used) > 1e-9 || math.Abs(c.PerGown.Bought*3-c.Bought) > 1e-9 {
		t.Errorf("shares %+v of %v and %v", c.PerGown, c.Used, c.Bought)
	}
	if got := CopyName(c.Spread.Pieces[0], 5); got != "right, gown 3" {
		t.Errorf("the last sleeve is called %q", got)
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
	base := onlyTask(t, gown("")).Key()
	if again := onlyTask(t, strings.Replace(gown(""), "id = \"wool\"", "id = \"wool\"\ntitle = \"grey wool\"", 1)).Key(); again != base {
		t.Error("a title makes another key")
	}
	keys := []string{base}
	for _, cloth := range []string{
		"nap = \"two-way\"", "lay = \"lengthwise-fold\"", "ends = 1", "skew = 1", "spare = \"1 %\"", "both_faces = true", "sold_by = \"0.5 m\"",
		"repeat = { along = 10 }", "have = [ { length = 50 } ]", "flaws = [ { from = 3, to = 4, low = 1, high = 9 } ]",
		"shrinkage = { warp = \"-3 %\", by = \"prewash\" }", "shrinkage = { warp = \"-3 %\", by = \"pieces\" }",
	} {
		key := onlyTask(t, gown(cloth)).Key()
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
		l, err := Do(context.Background(), onlyTask(t, gown(cloth)), options, start)
		if err != nil {
			t.Fatal(err)
		}
		return l
	}
	for _, lay := range []string{"open", "lengthwise-fold"} {
		one := do("nap = \"one-way\"\nlay = \""+lay+"\"", nil)
		start := one.Task.OpenStart(one)
		two := onlyTask(t, gown("nap = \"two-way\"\nlay = \""+lay+"\""))
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
	if narrow := onlyTask(t, strings.Replace(gown(""), "width = 120", "width = 45", 1)); wide.Task.OpenStart(wide).of(narrow) != nil &&
		nest.Verify(narrow.Problem, wide.Opened) != nil {
		t.Error("a layout that does not fit is taken")
	}
}

// What the shelf leaves over is cut open when none of it can be cut double.
func TestTheRestIsLaidOpenWhenNothingIsDouble(t *testing.T) {
	task := onlyTask(t, gown("lay = \"lengthwise-fold\""))
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
	if words := strings.Join(l.instructions(measure.Centimetre), " "); !strings.Contains(words, "it is laid open") {
		t.Errorf("instructions: %s", words)
	}
}

// Of a bolt that varies the narrowest width counts, and it is said.
func TestNarrowestWidthIsSaid(t *testing.T) {
	c := run(t, strings.Replace(gown(""), "width = 120", "width = [120, 118.5, 119]", 1), Options{Unit: measure.Centimetre}).Cloths[0]
	if c.Width != 1165 || !strings.Contains(strings.Join(c.Instructions, " "), "narrowest of 3 widths measured, 118.5 cm") {
		t.Errorf("width %v, instructions %q", c.Width, c.Instructions)
	}
}

// A run that is interrupted before anything is laid still ends with a layout,
// shelf or not, and says that the shelf was not worked out.
func TestInterruptedRunsEndWithALayout(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for _, cloth := range []string{"lay = \"lengthwise-fold\"", "have = [ { name = \"rest\", length = 45, width = 60 } ]"} {
		l, err := Do(ctx, onlyTask(t, gown(cloth)), Options{}, nil)
		if err != nil {
			t.Fatalf("%s: %v", cloth, err)
		}
		if l.Buy.Bought == 0 {
			t.Errorf("%s: nothing is bought", cloth)
		}
		if l.Shelf != nil && !strings.Contains(strings.Join(l.instructions(measure.Centimetre), " "), "left alone") {
			t.Errorf("%s: %q", cloth, l.instructions(measure.Centimetre))
		}
	}
}

// Flaws are covered on the lattice by zones of the strip behind the end allowance.
func TestFlawsBecomeZones(t *testing.T) {
	task := onlyTask(t, gown("ends = 3\nflaws = [ { from = 20, to = 21.7, low = 5.3, high = 9 }, { outline = [[10, 20], [14, 22.2], [11.1, 27]] }, { from = 0, to = 2, low = 0, high = 50 } ]"))
	zones := task.Problem.Strip.Forbidden
	if len(zones) != 2 {
		t.Fatalf("%d zones: one lies in the end allowance", len(zones))
	}
	if b := plane.Bounds(zones[0]); b.Min[0] > 170 || b.Min[0] < 170-plane.Lattice || b.Max[1] < 80 || b.Max[1] > 80+plane.Lattice ||
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

// randomCloth draws the keys of a cloth over all lays and rules.
var randomCloth = rapid.Custom(func(r *rapid.T) string {
	pick := func(name string, from ...string) string { return rapid.SampledFrom(from).Draw(r, name) + "\n" }
	return pick("lay", "", `lay = "lengthwise-fold"`, `lay = "double-fold"`, `lay = "crosswise-fold"`, "lay = \"crosswise-fold\"\nupper_turned = true") +
		pick("nap", `nap = "one-way"`, `nap = "two-way"`, `nap = "all-way"`) +
		pick("faces", "", "", "both_faces = true") + pick("gap", "", "gap = 0") +
		pick("ends", "", "ends = 1.5") + pick("skew", "", "skew = 2") + pick("spare", "", `spare = "4 %"`) +
		pick("shrinkage", "", "", `shrinkage = { warp = "-3 %", weft = "-3 %", by = "pieces" }`, `shrinkage = { warp = "-5 %", weft = "-2 %", by = "prewash" }`) +
		pick("repeat", "", "", "", "repeat = { along = 12.6 }", "repeat = { along = 9, across = 7 }") +
		pick("flaws", "", "", "flaws = [ { from = 10, to = 14, low = 3, high = 20 } ]") +
		pick("have", "", "", "", "have = [ { name = \"rest\", length = 60, width = 70 } ]")
})

// Random jobs over lays, nap, grain, ends, shrinkage, flaws, repeats and leftovers
// are refused by name, or their layouts pass the judge in the stretch and opened
// out, and the bound stays below what is bought.
func TestRandomJobsPassTheJudge(t *testing.T) {
	grains := rapid.SampledFrom([]string{"", "grain = \"cross\"", "grain = \"either\"", "grain = \"bias\"", "tilt = 2"})
	laid := 0
	for seed := range 60 {
		src := gown(randomCloth.Example(seed)) + grains.Example(seed) + "\n"
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			task, err := Tasks(read(t, src), 1)
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
			if l.LeastBuy > l.Buy.Bought || l.Buy.Bought < l.Needed-measure.Guard || l.Opened.Length > l.Needed && l.Task.Spread.Cloth.Shrinkage.Warp >= 0 {
				t.Errorf("opened %v, needed %v, bought %v, at least %v\n%s", l.Opened.Length, l.Needed, l.Buy.Bought, l.LeastBuy, src)
			}
		})
	}
	if laid < 20 {
		t.Errorf("only %d of 60 were laid", laid)
	}
}

// What is cut from a leftover is named once a piece, with the numbers of its copies.
func TestCopiesAreNamedTogether(t *testing.T) {
	s := Spread{Pieces: []shapes.Piece{
		{Name: "belt", Count: 1}, {Name: "gore", Count: 2, Labels: []string{"left", "right"}}, {Name: "tab", Count: 12},
	}}
	var cuts []nest.Placed
	for _, c := range []int{10, 2, 1, 0, 5, 6} {
		cuts = append(cuts, nest.Placed{Piece: 2, Copy: c})
	}
	cuts = append(cuts, nest.Placed{Piece: 1, Copy: 1}, nest.Placed{Piece: 0}, nest.Placed{Piece: 1})
	want := []string{"belt", "gore (left)", "gore (right)", "tab (1 to 3, 6, 7, 11 of 12)"}
	if got := s.copiesOf(cuts); !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}
