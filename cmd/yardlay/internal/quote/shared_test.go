package quote

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/nest"
)

// What was out of the ordinary with the layouts is said once: cloths without a price, each, and a search that was
// ended.
func TestNotesOnWhatWasLaid(t *testing.T) {
	laid := func(title string, priced bool, all ...nest.Status) plan.Laid {
		l := plan.Laid{Task: plan.Task{Spread: plan.Spread{Cloth: job.Cloth{Title: title, Priced: priced}}}}
		for _, s := range all {
			l.Results = append(l.Results, nest.Result{Status: s})
		}
		return l
	}
	const ended = "The search was ended early: the layouts hold, but a full run may take less cloth and cost less."
	for _, c := range []struct {
		laid   []plan.Laid
		goesOn bool
		want   []string
	}{
		{[]plan.Laid{laid("Satin", true, nest.Finished)}, false, []string{}},
		{[]plan.Laid{laid("Satin", false), laid("Net", true), laid("Lawn", false)}, false,
			[]string{"Satin has no price and is not in the quote.", "Lawn has no price and is not in the quote."}},
		{[]plan.Laid{laid("Satin", true, nest.Finished, nest.Stopped), laid("Net", true, nest.OutOfTime)}, false,
			[]string{ended}},
		{[]plan.Laid{laid("Satin", true, nest.OutOfTime)}, false, []string{ended}},
		{[]plan.Laid{laid("Satin", false, nest.Stopped)}, true, []string{"Satin has no price and is not in the quote."}},
	} {
		m := &maker{laid: c.laid, options: Options{GoesOn: c.goesOn}}
		if diff := cmp.Diff(c.want, m.notes()); diff != "" {
			t.Error(diff)
		}
	}
}

// A length that is bought for several is divided by what each needs, down to the tenth of a millimetre: all is dealt
// out, and nobody but the first has more than her part.
func TestSharesOfALength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		needed := rapid.SliceOfN(rapid.Float64Range(1, 5000), 1, 5).Draw(t, "needed")
		bought, sum, dealt := rapid.Float64Range(100, 20_000).Draw(t, "bought"), 0.0, 0.0
		for _, n := range needed {
			sum += n
		}
		all := shares(bought, needed)
		for i, got := range all {
			part := bought * needed[i] / max(sum, 1)
			dealt += got
			if tenths := got * 10; i > 0 && (got > part+0.01 || got < part-0.1 || math.Abs(tenths-math.Round(tenths)) > 1e-6) ||
				i == 0 && got < part-0.01 {
				t.Fatalf("%v of %v for %v, whose part is %v", got, bought, needed[i], part)
			}
		}
		if len(all) != len(needed) || math.Abs(dealt-bought) > 1e-6 {
			t.Fatalf("%v of %v is dealt out", dealt, bought)
		}
	})
}

// Gowns that need the same notion buy it at once: what is counted with the spare of each, packs opened for all, one
// shelf for both; the list says whom it is for, and what is from the shelf too. By hand: 5 and 7 pins, less 3 of the
// shelf, and two spare for each are 13, two packs of 12 for 8.00.
func TestNotionsOfSeveralGowns(t *testing.T) {
	src := func(count, have string) string {
		return sash(36, `price = "10.00/yd"`, "[[notion]]\nname = \"pins\"\ncount = "+count+
			"\nspare = 2\nprice = \"4.00/pack\"\npack = 12\nhave = "+have+"\n")
	}
	l := together(t, src("5", "3"), src("7", "2"))
	i := slices.IndexFunc(l.Orders[0].Items, func(i Item) bool { return i.Name == "pins" })
	if i < 0 {
		t.Fatalf("%+v", l.Orders)
	}
	item := l.Orders[0].Items[i]
	if item.NeededCount != 9 || item.Cost != usd(800) || item.Spare != "4" || !slices.Equal(item.For, []string{"a", "b"}) {
		t.Errorf("%+v", item)
	}
	if len(l.Shelf) != 1 || l.Shelf[0].Count != 3 || !slices.Equal(l.Shelf[0].For, []string{"a", "b"}) {
		t.Errorf("%+v", l.Shelf)
	}
	var takes []string
	for _, g := range l.PerGown {
		for _, w := range g.What {
			takes = append(takes, g.Name+" "+w.words())
		}
	}
	if diff := cmp.Diff([]string{"a 1 yd, satin", "a 2, pins", "b 1 yd, satin", "b 5, pins"}, takes); diff != "" {
		t.Error(diff)
	}
	all := together(t, src("5", "9"), sash(36, `price = "10.00/yd"`, ""))
	if len(all.PerGown[0].What) != 1 || len(all.Shelf) != 1 || all.Shelf[0].Count != 7 ||
		!slices.Equal(all.Shelf[0].For, []string{"a"}) || strings.Contains(all.Orders[0].Items[0].Name, "pins") {
		t.Errorf("pins that are there: %+v, %+v", all.PerGown[0].What, all.Shelf)
	}
}

// A leftover that one gown is cut from is for that gown, which buys nothing of the cloth; the other buys its length.
func TestALeftoverIsForItsGown(t *testing.T) {
	l := together(t, sash(36, "price = \"10.00/yd\"\nhave = [ { name = \"end\", length = 40 } ]", ""),
		sash(72, "price = \"10.00/yd\"\nlay = \"open\"", ""), sash(36, "price = \"10.00/yd\"\ntitle = \"Lawn\"", ""))
	if len(l.Shelf) != 1 || l.Shelf[0].What != "end" || !slices.Equal(l.Shelf[0].For, []string{"a"}) {
		t.Fatalf("%+v", l.Shelf)
	}
	var takes []string
	for _, g := range l.PerGown {
		for _, w := range g.What {
			takes = append(takes, g.Name+" "+w.words())
		}
	}
	if diff := cmp.Diff([]string{"a `end` off the shelf, satin", "b 2 yd, satin", "c 1 yd, Lawn"}, takes); diff != "" {
		t.Error(diff)
	}
	for _, i := range l.Orders[0].Items {
		if want := map[string]string{"satin": "b", "Lawn": "c"}[i.Name]; len(i.For) != 1 || i.For[0] != want ||
			i.Spare != "" {
			t.Errorf("%s is bought for %q, %q to spare", i.Name, i.For, i.Spare)
		}
	}
}
