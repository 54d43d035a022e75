package quote

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"yardlay/benchmarks/processor"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
)

// gownsOf reads jobs and calls them a, b and so on.
func gownsOf(t rapid.TB, sources ...string) []Gown {
	t.Helper()
	var gowns []Gown
	for i, src := range sources {
		name := string(rune('a' + i))
		gowns = append(gowns, Gown{Name: name, Job: testjobs.File(t, name+".toml", src).Job()})
	}
	return gowns
}

func together(t testing.TB, sources ...string) *Joint {
	t.Helper()
	l, err := Together(t.Context(), gownsOf(t, sources...), quick(1))
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// mill is a supplier of so much shipping, free from a sum on.
func mill(shipping, free string) string {
	return fmt.Sprintf("[[supplier]]\nname = \"mill\"\nshipping = \"%s\"\nfree_from = \"%s\"\n", shipping, free)
}

// Sums over several gowns, each reckoned by hand. A sash is as wide as the cloth, so that lengths add up: one of 90 in
// takes 2 1/2 yd, two of them together 5 yd.
func TestJointOrdersByHand(t *testing.T) {
	const sold = "price = \"10.00/yd\"\nsupplier = \"mill\"\n"
	buttons := func(n int) string {
		return fmt.Sprintf("[[notion]]\nname = \"button\"\ncount = %d\nprice = \"3.00/pack\"\npack = 6\nsupplier = "+
			"\"mill\"\n", n)
	}
	for _, c := range []struct {
		name         string
		a, b         string
		total, apart int64 // cents
		laid         string
	}{
		// Apart 2 1/2 yd at 10.00 for each; 5 yd in one cut are at 9.00: 45.00.
		{"a price break", sash(90, sold+"breaks = [ { from = \"5 yd\", price = \"9.00/yd\" } ]", mill("0", "1")),
			sash(90, sold+"breaks = [ { from = \"5 yd\", price = \"9.00/yd\" } ]", mill("0", "1")), 4500, 5000, "together"},
		// A bolt of 5 yd at 40.00 holds both; for one alone it costs more than 25.00 cut.
		{"a bolt", sash(90, sold+"bolt = { length = \"5 yd\", price = \"40.00\" }", mill("0", "1")),
			sash(90, sold+"bolt = { length = \"5 yd\", price = \"40.00\" }", mill("0", "1")), 4000, 5000, "together"},
		// 25.00 and 9.00 shipping for each; 50.00 over both ship for nothing.
		{"free shipping", sash(90, sold, mill("9.00", "50.00")), sash(90, "title = \"other\"\n"+sold, mill("9.00",
			"50.00")), 5000, 6800, ""},
		// One order: shipping once. 25.00 + 25.00 + 9.00.
		{"shipping once", sash(90, sold, mill("9.00", "500.00")), sash(90, "title = \"other\"\n"+sold, mill("9.00",
			"500.00")), 5900, 6800, ""},
		// 4 and 2 buttons are one pack of six: 3.00 instead of twice 3.00. The cloth has no price.
		{"a pack", sash(90, "", mill("0", "1")+buttons(4)), sash(90, "", mill("0", "1")+buttons(2)), 300, 600, "apart"},
		// 4 and 3 are two packs.
		{"two packs", sash(90, "", mill("0", "1")+buttons(4)), sash(90, "", mill("0", "1")+buttons(3)), 600, 600, "apart"},
		// Sold by the bolt of 3 yd alone, each holds one sash whether they are laid together or not.
		{"bolts alone", sash(90, "bolt = { length = \"3 yd\", price = \"28.00\" }\nlots = \"all\"", ""),
			sash(90, "bolt = { length = \"3 yd\", price = \"28.00\" }\nlots = \"all\"", ""), 5600, 5600, "apart"},
		// 40 in are 1 1/8 yd, twice 11.25; together 80 in are 2 1/4 yd: 22.50. Nothing is saved, so each has its own.
		{"steps that fall together", sash(40.5, sold, mill("0", "1")), sash(40.5, sold, mill("0", "1")), 2250, 2250,
			"apart"},
		// 38 in are 1 1/8 yd too, but 76 in are 2 1/8 yd: 21.25 instead of 22.50.
		{"half steps", sash(38, sold, mill("0", "1")), sash(38, sold, mill("0", "1")), 2125, 2250, "together"},
		// 9 in are 1/4 yd at 1.50: 0.375, rounded to 0.38; 1/2 yd together are 0.75. A cent is no reason to share a cloth.
		{"a cent of rounding", sash(9, "price = \"1.50/yd\"", ""), sash(9, "price = \"1.50/yd\"", ""), 76, 76, "apart"},
		// A leftover holds one of them, whichever: 25.00. It is there once, in however many files.
		{"one leftover", sash(90, sold+"have = [ { name = \"end\", length = 95 } ]", mill("0", "1")),
			sash(90, sold+"have = [ { name = \"end\", length = 95 } ]", mill("0", "1")), 2500, 2500, "apart"},
	} {
		l := together(t, c.a, c.b)
		if l.Total.Minor != c.total || l.Apart.Minor != c.apart {
			t.Errorf("%s: %v together and %v apart, want %d and %d cents", c.name, l.Total, l.Apart, c.total, c.apart)
		}
		got := ""
		for _, s := range l.Shared {
			got += map[bool]string{true: "together", false: "apart"}[s.Together]
		}
		if got != c.laid {
			t.Errorf("%s: laid %q, want %q", c.name, got, c.laid)
		}
		if l.Total.Currency != "USD" {
			t.Errorf("%s: the total is in %q", c.name, l.Total.Currency)
		}
	}
}

// What is laid together says how much it saves over all orders: 5 yd at 9.00 instead of twice 2 1/2 yd at 10.00.
func TestWhatLayingTogetherSaves(t *testing.T) {
	src := sash(90, "price = \"10.00/yd\"\nbreaks = [ { from = \"5 yd\", price = \"9.00/yd\" } ]", "")
	l := together(t, src, src, src)
	if len(l.Shared) != 1 || l.Shared[0].Saves.Minor != 3*2500-7*1000+500-250 {
		t.Errorf("%+v, want 75.00 less 7 1/2 yd at 9.00, 67.50, saved", l.Shared)
	}
	if item := l.Orders[0].Items[0]; !slices.Equal(item.For, []string{"a", "b", "c"}) {
		t.Errorf("%+v, want it to be for all three", item)
	}
	for _, g := range l.PerGown {
		if len(g.What) != 1 || g.What[0].Length != 90*25.4 || g.Alone.Minor != 2500 {
			t.Errorf("%+v takes 90 in by itself, for 25.00", g)
		}
	}
}

// Cloths that are called alike and are not are bought for each, and the list says what differs.
func TestClothsThatDiffer(t *testing.T) {
	l := together(t, sash(90, "price = \"10.00/yd\"\nnap = \"two-way\"", ""), sash(90, "price = \"11.00/yd\"", ""))
	if l.Total.Minor != 2500+2750 || len(l.Shared) != 0 {
		t.Errorf("%v, %+v", l.Total, l.Shared)
	}
	if want := "satin of a and of b differs in nap and price: it is bought for each."; !slices.Contains(l.Notes, want) {
		t.Errorf("%q, want %q among them", l.Notes, want)
	}
}

// Jobs that cannot be bought for at once are refused by name.
func TestJointRefusals(t *testing.T) {
	plain := sash(36, "price = \"10.00/yd\"", mill("5.00", "50.00"))
	for want, other := range map[string]string{
		"b.toml are in EUR, those of a.toml in USD": "currency = \"EUR\"\n" + plain,
		"supplier `mill` of b.toml has other":       strings.Replace(plain, "5.00\"\nfree", "6.00\"\nfree", 1),
	} {
		_, err := Together(t.Context(), gownsOf(t, plain, other), quick(1))
		if err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "hint") {
			t.Errorf("%v, want %q and a hint", err, want)
		}
	}
}

// Whatever the jobs: no leftover is used twice, orders sum to the total, and it is not more than bought for one gown
// after the other. Of all ways to lay shared cloths together none costs less than the one that is chosen.
func TestRandomJointOrders(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var sources []string
		free := rapid.IntRange(10, 90).Draw(rt, "free")
		for range rapid.IntRange(2, 3).Draw(rt, "gowns") {
			src := sash(float64(rapid.IntRange(20, 120).Draw(rt, "inches")), "price = \"10.00/yd\"\nsupplier = \"mill\"\n"+
				"breaks = [ { from = \"4 yd\", price = \"8.50/yd\" } ]\nhave = [ { name = \"end\", length = 50 } ]",
				mill("7.00", fmt.Sprintf("%d.00", free))+fmt.Sprintf("[[notion]]\nname = \"pins\"\ncount = %d\nprice = "+
					"\"2.00/pack\"\npack = 10\nsupplier = \"mill\"\n[[cloth]]\nid = \"net\"\nwidth = 40\nprice = \"4.00/yd\"\n"+
					"[[part]]\nname = \"veil\"\ndraft = \"rectangle\"\ncloth = \"net\"\nlength = %d\nwidth = %d\n",
					rapid.IntRange(1, 25).Draw(rt, "pins"), rapid.IntRange(10, 60).Draw(rt, "long"),
					rapid.IntRange(10, 38).Draw(rt, "wide")))
			sources = append(sources, src)
		}
		j := joint{options: quick(1), gowns: gownsOf(rt, sources...), tried: map[string]plan.Laid{},
			weighed: map[string]weighed{}}
		l, err := j.shop(t.Context())
		if err != nil {
			rt.Fatal(err)
		}
		var sum int64
		for _, o := range l.Orders {
			sum += o.Total.Minor
		}
		if sum != l.Total.Minor || l.Total.Minor > l.Apart.Minor {
			rt.Fatalf("orders of %d come to %v, apart to %v", sum, l.Total, l.Apart)
		}
		used := map[string]bool{}
		for _, o := range l.Shelf {
			if o.What != "" && used[o.What] {
				rt.Fatalf("%q is used twice: %+v", o.What, l.Shelf)
			}
			used[o.What] = true
		}
		for way := range 1 << len(j.groups) {
			var chosen []bool
			for k := range j.groups {
				chosen = append(chosen, way>>k&1 == 1)
			}
			if w := j.weigh(context.Background(), chosen); w.err == nil && w.total() < l.Total.Minor-int64(2*len(sources)) {
				rt.Fatalf("%v costs %d, the list %v", chosen, w.total(), l.Total)
			}
		}
	})
}

// An interrupt keeps the gowns that are laid, and lays the others as far as there is no time at all; before the first
// one there is nothing to keep.
func TestAnInterruptKeepsTheList(t *testing.T) {
	src := sash(90, "price = \"10.00/yd\"", "")
	gowns := gownsOf(t, src, sash(45, "price = \"10.00/yd\"", ""), src)
	ctx, cancel := context.WithCancel(t.Context())
	o := quick(1)
	drafted := 0
	o.Progress = func(p plan.Progress) {
		if p.Phase == "drafting" {
			if drafted++; drafted == 2 {
				cancel()
			}
		}
	}
	l, err := Together(ctx, gowns, o)
	if err != nil || len(l.PerGown) != 3 || l.Total.Minor != 2*2500+1250 {
		t.Errorf("%+v, %v", l, err)
	}
	if _, err := Together(ctx, gowns, quick(1)); !errors.Is(err, plan.ErrInterrupted) {
		t.Error(err)
	}
}

// Pieces of several gowns on one cloth pass the judge, each under the name of its gown.
func TestGownsOnOneClothAreJudged(t *testing.T) {
	src := sash(90, "price = \"10.00/yd\"\nbreaks = [ { from = \"5 yd\", price = \"9.00/yd\" } ]", "")
	l := together(t, src, src)
	laid := l.Shared[0].Laid
	if err := nest.Verify(laid.Rest, laid.Opened); err != nil {
		t.Error(err)
	}
	for i, want := range []string{"a sash", "b sash"} {
		if got := laid.Rest.Pieces[i].Name; got != want {
			t.Errorf("piece %d is called %q, want %q", i, got, want)
		}
	}
}

// A hundred gowns on twenty cloths: which of them are laid together, and where all is bought, is settled within 2 s
// beside the layouts.
func TestAHundredGownsAreChosenAtOnce(t *testing.T) {
	var sources []string
	for i := range MostGowns {
		cloth := fmt.Sprintf("title = \"cloth %d\"\nprice = \"%d.50/yd\"\nsupplier = \"mill %d\"\noffers = [ { supplier = "+
			"\"mill %d\", price = \"%d.90/yd\" } ]", i%20, 8+i%5, i%4, (i+1)%4, 8+i%5)
		tables := fmt.Sprintf("[[notion]]\nname = \"button\"\ncount = %d\nprice = \"3.00/pack\"\npack = 6\nsupplier = "+
			"\"mill 1\"\n", i%7+1)
		for k := range 4 {
			tables += fmt.Sprintf("[[supplier]]\nname = \"mill %d\"\nshipping = \"8.50\"\nfree_from = \"%d.00\"\n", k, 300+50*k)
		}
		cloth = strings.Replace(cloth, "offers = [", "breaks = [ { from = \"12 yd\", price = \"8.00/yd\" } ]\noffers = [", 1)
		full := strings.Replace(sash(float64(31+i*7%60), cloth, tables), "width = 58", "width = 59", 1) // proved at once
		sources = append(sources, full)
	}
	gowns := gownsOf(t, sources...)
	for i := range gowns {
		gowns[i].Name = fmt.Sprint("gown ", i)
	}
	o := quick(1)
	j := joint{options: o, gowns: gowns, tried: map[string]plan.Laid{}, weighed: map[string]weighed{}}
	if err := errors.Join(j.common(), j.layApart(t.Context()), j.joinNotions()); err != nil {
		t.Fatal(err)
	}
	j.group()
	j.layTogether(t.Context())
	const limit = 2 * time.Second
	var l *Joint
	took := processor.Least(limit, func() {
		j.weighed = map[string]weighed{}
		best, err := j.best(t.Context())
		if err == nil {
			l, err = j.list(t.Context(), best)
		}
		if err != nil {
			t.Fatal(err)
		}
	})
	if t.Logf("%v for %d groups", took, len(j.groups)); processor.Exceeds(took, limit) {
		t.Errorf("choosing took %v", took)
	}
	if len(l.Shared) != 20 || len(l.PerGown) != MostGowns || l.Total.Minor >= l.Apart.Minor {
		t.Errorf("%d shared, %v, apart %v", len(l.Shared), l.Total, l.Apart)
	}
}
