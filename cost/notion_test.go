package cost

import (
	"math"
	"math/big"
	"strings"
	"testing"

	"yardlay/shapes/measure"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

const cm = measure.Centimetres

// Prices and quantities are our own; the sums beside them are plain arithmetic.
func TestNotions(t *testing.T) {
	thread, err := ThreadLength(120_000, 25_000) // 120 m of seam at 2.5 m the metre
	if err != nil || thread != 300_000 {
		t.Fatalf("thread for 120 m of seam: %v mm, %v", thread, err)
	}
	tests := []struct {
		notion Notion
		want   Item
	}{
		{ // 14 and 2 spare at 0.35
			Notion{Name: "buttons", Count: 14, SpareCount: 2, Each: &Each{Price: usd(35)}},
			Item{NeededCount: 14, BoughtCount: 16, Packs: 16, Cost: usd(560)},
		},
		{ // 26 and 10 % are 28.6, so 29: three packs of 12
			Notion{Name: "hooks", Count: 26, Spare: Whole(10), Each: &Each{usd(199), 12}},
			Item{NeededCount: 26, BoughtCount: 36, Packs: 3, Cost: usd(597)},
		},
		{
			Notion{Name: "interfacing", Count: 3, Each: &Each{Price: usd(250)}},
			Item{NeededCount: 3, BoughtCount: 3, Packs: 3, Cost: usd(750)},
		},
		{ // an opening of 56.2 cm takes a zip of 60, one of 20 cm a zip of 20
			Notion{Name: "zip", Lengths: []float64{56.2 * cm, 20 * cm},
				Sizes: []Size{{60 * cm, usd(420)}, {20 * cm, usd(180)}, {25 * cm, usd(200)}}},
			Item{
				NeededCount: 2, BoughtCount: 2, NeededLength: 762, BoughtLength: 800, Cost: usd(600),
				Sizes: []Sized{{Size{20 * cm, usd(180)}, 1, usd(180)}, {Size{60 * cm, usd(420)}, 1, usd(420)}},
			},
		},
		{ // a bone lies inside its channel: 12 1/4 in takes 12 in, not 14; 12 in takes 12
			Notion{Name: "bones", Lengths: []float64{12.25 * 25.4, 12 * 25.4}, Inside: true,
				Sizes: []Size{{14 * 25.4, usd(140)}, {12 * 25.4, usd(120)}, {10 * 25.4, usd(100)}}},
			Item{
				NeededCount: 2, BoughtCount: 2, NeededLength: 24.25 * 25.4, BoughtLength: 24 * 25.4, Cost: usd(240),
				Sizes: []Sized{{Size{12 * 25.4, usd(120)}, 2, usd(240)}},
			},
		},
		{ // a spare of the size bought
			Notion{Name: "zip", Lengths: []float64{58 * cm}, SpareCount: 1, Sizes: []Size{{60 * cm, usd(420)}}},
			Item{NeededCount: 1, BoughtCount: 2, NeededLength: 580, BoughtLength: 1200, Cost: usd(840),
				Sizes: []Sized{{Size{60 * cm, usd(420)}, 2, usd(840)}}},
		},
		{ // 7.1 m of edge and 5 % are 7.455 m: 7.5 m at 1.20
			Notion{Name: "binding", Length: 7100, Spare: Whole(5),
				ByLength: &Offer{Price: usd(120), Per: measure.Metre}},
			Item{NeededLength: 7100, BoughtLength: 7500, Cost: usd(900)},
		},
		{ // twelve channels of 33 cm are 3.96 m: 4 m by the half metre at 1.85
			Notion{Name: "boning", Length: 12 * 33 * cm,
				ByLength: &Offer{Price: usd(185), Per: measure.Metre, Step: big.NewRat(500, 1)}},
			Item{NeededLength: 3960, BoughtLength: 4000, Cost: usd(740)},
		},
		{ // 300 m and 10 % are 330 m: four reels of 100 m
			Notion{Name: "thread", Length: thread, Spare: Whole(10), Reel: &Bolt{Length: 100_000, Price: usd(240)}},
			Item{NeededLength: 300_000, BoughtLength: 400_000, Packs: 4, Cost: usd(960)},
		},
		{
			Notion{Name: "thread", Reel: &Bolt{Length: 100_000, Price: usd(240)}},
			Item{Cost: usd(0)},
		},
	}
	for _, tt := range tests {
		tt.want.Name = tt.notion.Name
		got, err := tt.notion.Buy()
		if diff := cmp.Diff(tt.want, got, approx, cmpopts.IgnoreFields(Item{}, "Purchase")); err != nil || diff != "" {
			t.Errorf("%s: %v\n%s", tt.notion.Name, err, diff)
		}
	}
}

func TestNotionsRefused(t *testing.T) {
	each, reel := &Each{Price: usd(1)}, &Bolt{Length: 1000, Price: usd(1)}
	sizes := []Size{{200, usd(1)}}
	for _, tt := range []struct {
		why    string
		notion Notion
	}{
		{"hooks: it has no price", Notion{Count: 1}},
		{"more than one way", Notion{Count: 1, Each: each, Reel: reel}},
		{"the price does not fit what is needed", Notion{Length: 1, Each: each}},
		{"the price does not fit what is needed", Notion{Count: 1, Reel: reel}},
		{"the price does not fit what is needed", Notion{Count: 1, Sizes: sizes}},
		{"count is -1 with 0 spare", Notion{Count: -1, Each: each}},
		{"count is 0 with -1 spare", Notion{SpareCount: -1, Each: each}},
		{"spare: -5 is negative", Notion{Count: 1, Spare: Whole(-5), Each: each}},
		{"of a length it must be a percentage", Notion{Length: 1, SpareCount: 1, Reel: reel}},
		{"by size it must be a number", Notion{Lengths: []float64{1}, Spare: Whole(5), Sizes: sizes}},
		{"1000001 are needed with the spare", Notion{Count: mostCount, SpareCount: 1, Each: each}},
		{"pack of -1, must", Notion{Count: 1, Each: &Each{usd(1), -1}}},
		{"is negative", Notion{Count: 1, Each: &Each{Price: usd(-1)}}},
		{"no currency code", Notion{Count: 1, Each: &Each{}}},
		{"reel of NaN mm, must", Notion{Length: 1, Reel: &Bolt{Length: math.NaN(), Price: usd(1)}}},
		{"a length of NaN mm", Notion{Length: math.NaN(), Reel: reel}},
		{"a length of -1 mm", Notion{Length: -1, Reel: reel}},
		{"are needed with the spare", Notion{Length: longestSum, Spare: Whole(1), Reel: reel}},
		{"reels are needed", Notion{Length: longestSum, Reel: &Bolt{Length: 1, Price: usd(1)}}},
		{"no price, neither", Notion{Length: 1, ByLength: &Offer{}}},
		{"the longest is 200 mm", Notion{Lengths: []float64{200.02}, Sizes: sizes}},
		{"a size of 200 mm is given twice", Notion{Lengths: []float64{1}, Sizes: append(sizes, sizes...)}},
		{"is not in USD", Notion{Lengths: []float64{1}, Sizes: append(sizes, Size{300, Money{1, "EUR"}})}},
		{"a length of NaN", Notion{Lengths: []float64{math.NaN()}, Sizes: sizes}},
		{"too large", Notion{Count: 2, Each: &Each{Price: usd(math.MaxInt64)}}},
	} {
		tt.notion.Name = "hooks"
		if item, err := tt.notion.Buy(); err == nil || !strings.Contains(err.Error(), tt.why) ||
			!strings.HasPrefix(err.Error(), "hooks: ") {
			t.Errorf("%+v bought %+v, %v; want an error with %q", tt.notion, item, err, tt.why)
		}
	}
	if _, err := ThreadLength(-1, one); err == nil {
		t.Error("a seam shorter than nothing takes thread")
	}
	if _, err := ThreadLength(1, -one); err == nil {
		t.Error("a seam takes less than no thread")
	}
}

// What is bought holds what is needed with the spare, and needing more never
// costs less.
func TestNotionsAreMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := Notion{Name: "n", Spare: Whole(int32(rapid.IntRange(0, 30).Draw(t, "spare")))}
		more := n
		if rapid.Bool().Draw(t, "counted") {
			e := &Each{usd(rapid.Int64Range(0, 500).Draw(t, "price")), rapid.IntRange(0, 20).Draw(t, "pack")}
			n.Count, n.Each, more.Each = rapid.IntRange(0, 500).Draw(t, "count"), e, e
			more.Count = n.Count + rapid.IntRange(0, 50).Draw(t, "more")
		} else {
			reel := &Bolt{Length: rapid.Float64Range(1000, 1e6).Draw(t, "reel"),
				Price: usd(rapid.Int64Range(0, 500).Draw(t, "price"))}
			n.Length, n.Reel, more.Reel = rapid.Float64Range(0, 1e6).Draw(t, "length"), reel, reel
			more.Length = n.Length + rapid.Float64Range(0, 1e5).Draw(t, "more")
		}
		a, err := n.Buy()
		b, err2 := more.Buy()
		if err != nil || err2 != nil || a.Cost.Minor > b.Cost.Minor {
			t.Fatalf("%+v, %v; for more %+v, %v", a, err, b, err2)
		}
		spare := 1 + float64(n.Spare)/(100*one)
		if float64(a.BoughtCount) < float64(n.Count)*spare-1e-6 || a.BoughtLength < n.Length*spare-measure.Guard-1e-6 {
			t.Fatalf("%+v does not hold %+v", a, n)
		}
	})
}

// The spare is a share of all that is needed, and what is there comes after it: of 10
// with 10 % 11 are wanted, 8 besides 3; of 1 m 1.1 m, 0.8 m besides 0.3. By hand.
func TestSpareComesBeforeWhatIsThere(t *testing.T) {
	share, err := ParseDecimal("10")
	if err != nil {
		t.Fatal(err)
	}
	metre := &Offer{Price: usd(100), Per: measure.Metre}
	for _, c := range []struct {
		n              Notion
		needed, bought float64
	}{
		{Notion{Count: 10, Spare: share, OwnedCount: 3, Each: &Each{Price: usd(5)}}, 7, 8},
		{Notion{Count: 10, SpareCount: 2, OwnedCount: 11, Each: &Each{Price: usd(5)}}, 0, 1},
		{Notion{Count: 10, Spare: share, OwnedCount: 12, Each: &Each{Price: usd(5)}}, 0, 0},
		{Notion{Length: 1000, Spare: share, OwnedLength: 300, ByLength: metre}, 700, 800},
		{Notion{Length: 1000, Spare: share, OwnedLength: 1050, ByLength: metre}, 0, 100},
		{Notion{Length: 1000.1, Spare: share, OwnedLength: Notion{Length: 1000.1, Spare: share}.Wanted(),
			ByLength: metre}, 0, 0},
		{Notion{Length: 1000, Spare: share, OwnedLength: 300, Reel: &Bolt{Length: 400, Price: usd(7)}}, 700, 800},
	} {
		item, err := c.n.Buy()
		if needed, bought := item.NeededLength+float64(item.NeededCount),
			item.BoughtLength+float64(item.BoughtCount); err != nil || needed != c.needed || bought != c.bought {
			t.Errorf("%+v: %+v, %v; want %v needed, %v bought", c.n, item, err, c.needed, c.bought)
		}
	}
	if _, err := (Notion{Count: 1, OwnedCount: -1, Each: &Each{Price: usd(5)}}).Buy(); err == nil {
		t.Error("fewer than none are there")
	}
}
