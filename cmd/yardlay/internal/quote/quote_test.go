package quote

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// sash is a job whose one cloth takes a single piece of a length in inches, an
// inch less in the file for the allowances.
func sash(length float64, cloth, tables string) string {
	return fmt.Sprintf(`unit = "in"
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "satin"
width = 60
%s
[[part]]
name = "sash"
draft = "rectangle"
cloth = "satin"
length = %v
width = 58
%s
`, cloth, length-1, tables)
}

func made(t testing.TB, src string) *Quote {
	t.Helper()
	q, err := Make(context.Background(), testjobs.Read(t, src), quick(1))
	if err != nil {
		t.Fatal(err)
	}
	return q
}

func quick(gowns int) Options {
	return Options{Options: plan.Options{Effort: nest.Trial, Seed: 1, Gowns: gowns}}
}

// line finds the amount of a line.
func line(t *testing.T, q *Quote, what string) int64 {
	t.Helper()
	for _, l := range q.Lines {
		if l.What == what {
			return l.Amount.Minor
		}
	}
	t.Fatalf("no line %q among %+v", what, q.Lines)
	return 0
}

// From wholesale to retail, by hand: materials 186.40 + 22.5 h x 24.00 = 726.40;
// overhead 15 % = 108.96; cost 835.36; 20 % markup 835.36 x 1.2 = 1002.432; 20 %
// margin 835.36 / 0.8 = 1044.20; doubled 1670.72. That the sum is the wholesale
// price, doubled for retail: Louisiana Voices, Unit VII.
func TestFromWholesaleToRetail(t *testing.T) {
	tables := func(pricing string) string {
		return "[[notion]]\nname = \"materials\"\ncount = 1\nprice = \"186.40/each\"\n[labour]\nhours = 22.5\nrate = " +
			"\"24.00/h\"\n[quote]\noverhead = \"15 %\"\n" + pricing + "\n"
	}
	for pricing, total := range map[string]int64{"": 83536, `markup = "20 %"`: 100243, `margin = "20 %"`: 104420,
		`doubled = true`: 167072} {
		q := made(t, sash(36, "", tables(pricing)))
		if q.Materials.Minor != 18640 || q.Labour.Minor != 54000 || q.Overhead.Minor != 10896 ||
			q.Cost.Minor != 83536 || q.Total.Minor != total {
			t.Errorf("%q: %+v, want a total of %d", pricing, q.Quote, total)
		}
	}
}

// Half a cent goes up: 1/8 yd at 1.00 is 0.125, 3 1/8 yd at 1.00 is 3.125; tax of
// 2 % on 1.25 is 0.025. By hand.
func TestHalfACentGoesUp(t *testing.T) {
	for _, c := range []struct {
		inches float64
		want   int64
	}{{4.5, 13}, {112.5, 313}, {9, 25}} {
		q := made(t, sash(c.inches, `price = "1.00/yd"`, ""))
		if got := line(t, q, "satin"); got != c.want {
			t.Errorf("%v in cost %d, want %d cents", c.inches, got, c.want)
		}
	}
	q := made(t, sash(45, "price = \"1.00/yd\"\nsupplier = \"mill\"", "[[supplier]]\nname = \"mill\"\ntax = \"2 %\"\n"))
	if got := line(t, q, "tax on goods"); got != 3 {
		t.Errorf("tax of 2 %% on 1.25 is %d, want 3 cents", got)
	}
}

// Net by the bolt against cut lengths: ten layers cut 18, 20 ... 36 in deep, of four
// widths each, take 4 x 270 in = 1080 in, 30 yd (common practice, as makers reckon
// the net of such a skirt). At 4.80 a yard the cut is 144.00; a bolt of 40 yd for
// 140.00 is cheaper and leaves 10 yd; a bolt of 25 yd, 900 in, for 84.00 holds what
// leaves 5 yd, 180 in, to be cut: 108.00; two half bolts for 40.00 and 5 yd cut come
// to 104.00; from 32 yd on at 4.20 a yard, 134.40.
func TestNetByTheBolt(t *testing.T) {
	for _, c := range []struct {
		offer    string
		want     int64
		leftover float64 // yards
		lengths  int
	}{
		{`price = "4.80/yd"`, 14400, 0, 1},
		{"price = \"4.80/yd\"\nbolt = { length = \"40 yd\", price = \"140.00\" }", 14000, 10, 1},
		{"price = \"4.80/yd\"\nbolt = { length = \"25 yd\", price = \"84.00\" }", 10800, 0, 2},
		{"price = \"4.80/yd\"\nbreaks = [ { from = \"32 yd\", price = \"4.20/yd\" } ]", 13440, 2, 1},
		{"price = \"4.80/yd\"\nbolt = [ { length = \"25 yd\", price = \"84.00\" }, { length = \"12 1/2 yd\", price = " +
			"\"40.00\" } ]", 10400, 0, 3},
	} {
		var src strings.Builder
		fmt.Fprintf(&src, "unit = \"in\"\n[allowance]\nseam = 0\nhem = 0\n[[cloth]]\nid = \"net\"\nwidth = 120\n%s\n",
			c.offer)
		for depth := 18; depth <= 36; depth += 2 {
			fmt.Fprintf(&src, "[[part]]\nname = \"layer %d\"\ndraft = \"rectangle\"\ncloth = \"net\"\nlength = "+
				"%d\nwidth = 120\ncount = 4\n", depth, depth)
		}
		q := made(t, src.String())
		item := q.Orders[0].Items[0]
		if item.Cost.Minor != c.want || math.Abs(item.Leftover/measure.Yards-c.leftover) > 1e-4 {
			t.Errorf("%s: %+v, want %d and %v yd left", c.offer, item, c.want, c.leftover)
		}
		notes := strings.Join(q.Notes, "\n")
		explained := strings.Contains(item.Reason, "less than 30 yd cut") && strings.Contains(notes, item.Reason+".")
		if cheaper := c.want < 14400; cheaper != explained {
			t.Errorf("%s: the reason is %q, the notes are %q", c.offer, item.Reason, q.Notes)
		}
		if left := strings.Contains(notes, "It leaves "); left != (c.leftover > 0) ||
			strings.Contains(notes, "one dye lot") != (c.lengths > 1) {
			t.Errorf("%s: the notes are %q", c.offer, notes)
		}
		// The same job laid says the same.
		j := testjobs.Read(t, src.String())
		r, err := report.Run(t.Context(), j, plan.Options{Effort: nest.Quick, Seed: 1})
		if err != nil {
			t.Fatal(err)
		}
		if l := r.Cloths[0]; l.Buy.Cost != item.Cost || l.Leftover != item.Leftover || l.Buy.Lengths() != c.lengths ||
			!strings.Contains(notes, report.PurchaseWords(l.Spread.Cloth.Offer, l.Buy)) {
			t.Errorf("%s: laid %+v, quoted %+v", c.offer, l.Buy, item)
		}
	}
}

// Another supplier's bolts hold what is laid on them, no more: three panels of 8 yd
// take three bolts of 10 yd at the mill, 180.00, not two and 4 yd, 160.00, and the
// corner cuts 24 yd at 7.00, 168.00.
func TestBoltsOfOtherSuppliersAreLaidOn(t *testing.T) {
	for cut, want := range map[string]int64{"7.00": 16800, "8.00": 18000} {
		src := strings.Replace(sash(288, `price = "`+cut+`/yd"
offers = [ { supplier = "mill", price = "10.00/yd", bolt = { length = "10 yd", price = "60.00" } } ]`, "count = 3\n[[supplier]]\nname = \"mill\"\n"),
			"hem = 1", "hem = 0", 1)
		q := made(t, strings.Replace(src, `seam = "1/2"`, "seam = 0", 1))
		if q.Total.Minor != want {
			t.Errorf("at %s the corner, %d are paid, want %d: %+v", cut, q.Total.Minor, want, q.Orders)
		}
	}
}

// Two suppliers: what counts is the sum with shipping and tax. 5 yd at the corner
// for 10.00/yd and 8 % tax come to 54.00; the mill asks 8.00/yd and 12.00 for
// shipping, 52.00; for 1 yd the corner is cheaper, 10.80 against 20.00.
func TestSuppliersAreComparedInAll(t *testing.T) {
	offers := "price = \"10.00/yd\"\nsupplier = \"corner\"\noffers = [ { supplier = \"mill\", price = \"8.00/yd\", " +
		"sold_by = \"1 yd\" } ]"
	suppliers := "[[supplier]]\nname = \"corner\"\ntax = \"8 %\"\n[[supplier]]\nname = \"mill\"\nshipping = \"12.00\"\n"
	for inches, want := range map[float64]struct {
		supplier string
		total    int64
	}{36: {"corner", 1080}, 180: {"mill", 5200}} {
		q := made(t, sash(inches, offers, suppliers))
		if len(q.Orders) != 1 || q.Orders[0].Supplier != want.supplier || q.Materials.Minor != want.total {
			t.Errorf("%v in: %+v, want %+v", inches, q.Orders, want)
		}
	}
	// What is bought is whole steps of the counter it is bought at.
	q := made(t, sash(181, offers, suppliers))
	if got := q.Orders[0].Items[0].BoughtLength / measure.Yards; q.Orders[0].Supplier == "mill" &&
		math.Abs(got-6) > 1e-9 {
		t.Errorf("181 in take %v yd at a counter that sells whole yards", got)
	}
}

// A full circle of 28 in waist and 40 in length has a hem of 2 pi (28 / 2 pi + 40)
// = 279.327 in. In four gores it has three seams and an opening of 40 in each, and
// half of the waist counts as seam: 174 in; 14 m of thread to the metre is 61.9 m.
func TestNotionsFollowFromTheDrafts(t *testing.T) {
	q := made(t, `unit = "in"
[body]
waist_girth = 28
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "satin"
width = 118
price = "1/yd"
[[cloth]]
id = "lining"
width = 118
price = "1/yd"
[[part]]
name = "skirt"
draft = "circle-skirt"
cloth = ["satin", "lining"]
circle = "full"
gores = 4
length = 40
[[notion]]
name = "tape"
by = "edge"
edges = "hem"
cloths = "satin"
price = "1.00/yd"
[[notion]]
name = "thread"
by = "seam"
cloths = "satin"
per_metre = 14
reel = { length = "50 m", price = "2.00" }
[[notion]]
name = "zip"
by = "opening"
closed = 9
sizes = [ { length = 7, price = "1.00" }, { length = 9, price = "1.50" }, { length = 12, price = "2.00" } ]
[[notion]]
name = "long zip"
by = "opening"
sizes = [ { length = 45, price = "5.00" } ]
spare = 1
[[notion]]
name = "labels"
by = "piece"
parts = "skirt"
price = "0.10/each"
have = 3
[[notion]]
name = "buttons"
count = 9
price = "3.00/pack"
pack = 8
`)
	items := map[string]Item{}
	for _, o := range q.Orders {
		for _, i := range o.Items {
			items[i.Name] = i
		}
	}
	near := func(name string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-3*want {
			t.Errorf("%s: %v, want %v", name, got, want)
		}
	}
	near("hem", items["tape"].NeededLength, 279.327*measure.Inches)
	near("thread", items["thread"].NeededLength, 14*174*measure.Inches)
	if got := items["thread"]; got.Quantity != "2 reels of 50 m" || got.Cost.Minor != 400 {
		t.Errorf("thread is %+v", got)
	}
	if got := items["zip"]; got.Quantity != "1 of 9 in" || got.Cost.Minor != 150 {
		t.Errorf("zip is %+v", got)
	}
	if got := items["long zip"]; got.NeededCount != 1 || got.BoughtCount != 2 || got.Cost.Minor != 1000 {
		t.Errorf("the long zip is %+v", got)
	}
	if got := items["labels"]; got.NeededCount != 8-3 || got.Cost.Minor != 50 {
		t.Errorf("labels are %+v", got)
	}
	if got := items["buttons"]; got.Quantity != "2 packs of 8" || got.BoughtCount != 16 || got.Cost.Minor != 600 {
		t.Errorf("buttons are %+v", got)
	}
	if len(q.Shelf) != 1 || q.Shelf[0].Count != 3 || q.Shelf[0].Value.Minor != 30 {
		t.Errorf("the shelf is %+v", q.Shelf)
	}
}

// Interfacing is fused to a band whose edges it shares: what goes along those is needed
// once, unless the notion is for the interfacing itself.
func TestInterfacingHasNoEdgesToBind(t *testing.T) {
	tape := func(more string) float64 {
		return made(t, `unit = "in"
[body]
waist_girth = 28
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "satin"
width = 60
price = "1/yd"
[[cloth]]
id = "fusible"
width = 36
[[part]]
name = "band"
draft = "waistband"
cloth = "satin"
width = 2
`+more+`
[[notion]]
name = "tape"
by = "edge"
edges = ["waist", "top", "seam"]
price = "1.00/yd"
`).Orders[0].Items[1].NeededLength
	}
	plain := tape("")
	if fused := tape(`interfacing = "fusible"`); fused != plain || plain < 28*measure.Inches {
		t.Errorf("with interfacing %v mm are needed, without %v", fused, plain)
	}
}

// A leftover is on the shelf unwashed and as it was cut off: a sash of 72 in takes 90 in of
// it where the cloth loses a fifth, and 95 with 4 in off square besides. A spare is for what
// is bought.
func TestTheShelfIsCountedAsItLies(t *testing.T) {
	for keys, want := range map[string]float64{
		"": 72, `shrinkage = { warp = "-20 %", by = "prewash" }`: 90, `spare = "10 %"`: 72, "ends = 1": 74,
		"skew = 4\nshrinkage = { warp = \"-20 %\", by = \"prewash\" }": 95,
	} {
		q := made(t, sash(72, "price = \"10.00/yd\"\nhave = [ { length = 140 } ]\n"+keys, ""))
		if len(q.Shelf) != 1 || math.Abs(q.Shelf[0].Length-want*measure.Inches) > 0.01 {
			t.Errorf("%s: the shelf is %+v, want %v in of it", keys, q.Shelf, want)
		}
	}
}

// Hours by rates: a sash of 71 by 58 in, finished, has edges of 258 in of the kind
// seam, half of which count: 129 in. At 9 min to the yard that is 3.5833 x 9 = 32.25
// min, to the metre 3.2766 x 9 = 29.49 min; with one piece of 6 min 38.25 min, up to
// 0.75 h.
func TestHoursFollowFromRates(t *testing.T) {
	labour := func(per string) *Quote {
		return made(t, sash(72, "", "[labour]\nrate = \"20.00/h\"\nseam = \"9 min/"+per+"\"\npiece = \"6 min\"\n"))
	}
	yards, metres := labour("yd"), labour("m")
	if w := yards.Work; w == nil || math.Abs(w.Seam-129*measure.Inches) > 1e-6 || w.Pieces != 1 {
		t.Fatalf("work is %+v, want 129 in of seam", w)
	}
	if yards.Labour.Minor != 1500 {
		t.Errorf("labour is %v, want 0.75 h at 20.00", yards.Labour)
	}
	if yards.Work.Steps[0].Minutes != "32.3" || metres.Work.Steps[0].Minutes != "29.5" {
		t.Errorf("steps are %+v by the yard and %+v by the metre", yards.Work.Steps, metres.Work.Steps)
	}
	// What is printed comes to the minutes within a tenth: 3.58 x 9, 3.28 x 9.
	if got, want := yards.Work.words(),
		": 3.58 yd of seam 32.3 min, 1 piece 6 min, up to the quarter hour"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := metres.Work.words(),
		": 3.28 m of seam 29.5 min, 1 piece 6 min, up to the quarter hour"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// What the shelf has is counted as the job says, and is not on the list.
func TestTheShelfIsCounted(t *testing.T) {
	have := "price = \"8.00/yd\"\nhave = [ { name = \"end\", length = 50 } ]"
	for owned, want := range map[string]int64{"": 800, "owned = \"replacement\"\n": 800, "owned = \"zero\"\n": 0} {
		q := made(t, sash(36, have, "[quote]\n"+owned))
		list, err := q.Shopping()
		if err != nil || q.Total.Minor != want || len(q.Orders) != 0 || list.Total.Minor != 0 || len(list.Shelf) != 1 {
			t.Errorf("%q: total %v, orders %+v, shelf %+v, %v; want %d", owned, q.Total, q.Orders, q.Shelf, err, want)
		}
	}
}

// A notion from the shelf counts what buying it again would add: the share of those
// used in a pack, 2/12 of 3.60 being 0.60, or nothing where a pack is opened for the
// others anyway.
func TestTheShelfOfNotionsIsCounted(t *testing.T) {
	const hooks = "[[notion]]\nname = \"hook\"\ncount = 2\npack = 12\nprice = \"3.60/pack\"\nhave = 2\n"
	for _, c := range []struct {
		gowns int
		value int64
		at    string
	}{
		{1, 60, "2 from the shelf, at their share of a pack of 12 at 3.60/pack"},
		{2, 0, "2 from the shelf, at nothing: what is bought would do for all"},
		{7, 60, "2 from the shelf, at their share of a pack of 12 at 3.60/pack"},
	} {
		q, err := Make(context.Background(), testjobs.Read(t, sash(36, "", hooks)), quick(c.gowns))
		if err != nil {
			t.Fatal(err)
		}
		last := q.Lines[len(q.Lines)-1]
		if len(q.Shelf) != 1 || q.Shelf[0].Value.Minor != c.value || last.Detail != c.at ||
			last.Amount.Minor != c.value {
			t.Errorf("%d gowns: %+v, %+v; want %d, %q", c.gowns, q.Shelf, last, c.value, c.at)
		}
	}
}

// A quote of several gowns is headed so, and one of materials alone says that it is.
func TestTheLedgerSaysWhatItIs(t *testing.T) {
	const alone = "This counts materials alone"
	for _, c := range []struct {
		gowns  int
		tables string
		alone  bool
	}{{1, "", true}, {2, "", true}, {2, "[labour]\nhours = 1\nrate = \"9.00/h\"\n", false},
		{1, "[quote]\nmarkup = \"5 %\"\n", false}} {
		q, err := Make(context.Background(), testjobs.Read(t, sash(36, "price = \"8.00/yd\"", c.tables)),
			quick(c.gowns))
		if err != nil {
			t.Fatal(err)
		}
		l := q.Ledger()
		if got := strings.Contains(strings.Join(l.Notes, "\n"), alone); got != c.alone {
			t.Errorf("%q: notes are %q", c.tables, l.Notes)
		}
		if got := strings.Contains(strings.Join(l.Facts, "\n"), "for 2 gowns"); got != (c.gowns == 2) {
			t.Errorf("%d gowns: facts are %q", c.gowns, l.Facts)
		}
	}
}

// A run of gowns is laid together, and the price is shared out to the cent.
func TestGownsShareThePrice(t *testing.T) {
	src := sash(36, `price = "10.01/yd"`,
		"[labour]\nhours = 1\nrate = \"10.00/h\"\nfittings = 1\nfitting_hours = 0.5\n")
	q, err := Make(context.Background(), testjobs.Read(t, src), quick(3))
	if err != nil {
		t.Fatal(err)
	}
	// Sashes of 59 in do not lie beside each other on 60 in: they take 3 x 36 in.
	sum := int64(0)
	for _, s := range q.PerGown {
		sum += int64(s.Count) * s.Each.Minor
	}
	if q.Labour.Minor != 4500 || q.Materials.Minor != 3003 || sum != q.Total.Minor {
		t.Errorf("%+v", q.Quote)
	}
}

// The client sees what is included and what is to be paid, and no cost, hour,
// supplier or profit.
func TestTheClientSeesNoCosts(t *testing.T) {
	q := made(t, sash(36, "price = \"17.77/yd\"\nsupplier = \"mill\"",
		"[[supplier]]\nname = \"mill\"\nshipping = \"3.33\"\n[labour]\nhours = 7.25\nrate = "+
			"\"19.19/h\"\n[quote]\nmarkup = \"22 %\"\noverhead = \"11 %\"\nclient = \"the players\"\n"))
	text := fmt.Sprintf("%+v %+v", q.ForClient(), q.ForClient().Ledger(measure.Inch))
	for _, secret := range []string{"mill", "17.77", "3.33", "7.25", "19.19", "22 %", "11 %", "1777", "333", "markup",
		"overhead", "yd"} {
		if strings.Contains(text, secret) {
			t.Errorf("the client reads %q in %s", secret, text)
		}
	}
	if !strings.Contains(text, "satin") || !strings.Contains(text, "the players") ||
		!strings.Contains(text, q.Total.Amount()) {
		t.Errorf("the client misses what is hers in %s", text)
	}
}

// More is bought than is needed where that brings free shipping and costs less in
// all: 9 yd at 10.00 and shipping of 30.00 are 120.00, 10 yd shipped for nothing
// 100.00; with a break, 10 yd at 9.50 are 95.00.
func TestMoreIsBoughtForFreeShipping(t *testing.T) {
	for _, c := range []struct {
		cloth, free string
		total       int64
		words       string
	}{
		{"", "100.00", 10000, "satin: 10 yd cut is bought, more than is needed, so that mill ships for nothing. " +
			"With free shipping the orders come to 100.00 USD, without it to 120.00 USD."},
		{`breaks = [ { from = "10 yd", price = "9.50/yd" } ]`, "92.00", 9500,
			"10 yd at the price from 10 yd is bought"},
		{"", "130.00", 12000, ""},
		{"", "90.00", 9000, ""},
	} {
		q := made(t, sash(9*36, "price = \"10.00/yd\"\nsold_by = \"1 yd\"\nsupplier = \"mill\"\n"+c.cloth,
			"[[supplier]]\nname = \"mill\"\nshipping = \"30.00\"\nfree_from = \""+c.free+"\"\n"))
		notes := strings.Join(q.Notes, " ")
		if q.Total.Minor != c.total || !strings.Contains(notes, c.words) || c.words == "" &&
			strings.Contains(notes, "shipping") {
			t.Errorf("%+v: %v, notes %q", c, q.Total, notes)
		}
	}
}

// A cloth without a price is named as not in the price, on the page and in the
// figures, to the client too; and no cloth or notion is listed as what she gets.
func TestTheClientReadsWhatIsNotIncluded(t *testing.T) {
	q := made(t, sash(36, "", "[[notion]]\nname = \"thread\"\ncount = 1\nprice = \"2.00/pack\"\npack = 1\n"))
	c := q.ForClient()
	if len(c.NotIncluded) != 1 || c.NotIncluded[0] != "satin" || len(q.NotIncluded) != 1 {
		t.Errorf("not included: %q, %q", c.NotIncluded, q.NotIncluded)
	}
	text := fmt.Sprint(c.Ledger(measure.Inch))
	if !strings.Contains(text, "satin, which has no price yet") || strings.Contains(text, "thread") {
		t.Errorf("the client's page is %s", text)
	}
	if len(c.Garments) != 1 || c.Garments[0] != "sash in satin" {
		t.Errorf("garments are %q", c.Garments)
	}
}

// The page of the maker says whose it is; one that says how long it is valid says
// from when.
func TestAPageSaysWhoseAndWhen(t *testing.T) {
	job := sash(36, "price = \"17.77/yd\"", "[quote]\nvalid = \"for 30 days\"\n")
	o := quick(1)
	o.Today = time.Date(2027, 3, 2, 0, 0, 0, 0, time.UTC)
	q, err := Make(t.Context(), testjobs.Read(t, job), o)
	if err != nil {
		t.Fatal(err)
	}
	if l := q.Ledger(); !strings.Contains(l.Banner, "workroom") || !slices.Contains(l.Facts, "2 March 2027") {
		t.Errorf("the page is %+v", l)
	}
	if l := q.ForClient().Ledger(measure.Inch); l.Banner != "" || !slices.Contains(l.Facts, "2 March 2027") {
		t.Errorf("the client's page is %+v", l)
	}
	if q := made(t, job); q.Page.Date != "" {
		t.Errorf("without a day the page says %q", q.Page.Date)
	}
}

// Rounding that leaves nothing is refused, and a price below the cost is told.
func TestRoundingToNothingIsRefused(t *testing.T) {
	job := func(step string) string {
		return sash(36, "price = \"10.00/yd\"\nsold_by = \"1 yd\"", "[quote]\nround_to = \""+step+"\"\n")
	}
	if _, err := Make(t.Context(), testjobs.Read(t, job("100.00")), quick(1)); err == nil ||
		!strings.Contains(err.Error(), "nothing is left of the price\n  hint: a smaller round_to") {
		t.Errorf("rounded to nothing: %v", err)
	}
	q := made(t, job("3.00"))
	if q.Profit.Minor >= 0 || !strings.Contains(strings.Join(q.Notes, " "), "below the cost") {
		t.Errorf("profit %v, notes %q", q.Profit, q.Notes)
	}
}

// Cost never falls when more is bought, but where a break or a bolt makes it;
// then the larger purchase is taken at once and explained.
func TestCostIsMonotone(t *testing.T) {
	offer := "price = \"4.80/yd\"\nbreaks = [ { from = \"10 yd\", price = \"4.00/yd\" } ]\nbolt = { length = \"20 " +
		"yd\", price = \"70.00\" }"
	last := cost.Money{}
	for inches := 36.0; inches <= 720; inches += 57 {
		q := made(t, sash(inches, offer, ""))
		item := q.Orders[0].Items[0]
		if item.Cost.Minor < last.Minor {
			t.Errorf("%v in cost %v, less is %v", inches, item.Cost, last)
		}
		if item.Leftover > 4.5*measure.Inches+measure.Guard && item.Reason == "" {
			t.Errorf("%v in leave %v mm and nothing says why: %+v", inches, item.Leftover, item)
		}
		last = item.Cost
	}
}

// A corset of eight panels in 3/8 in channels: at each of the three seams of a half
// and the centre back, and a second one behind the eyelets, 2 x 5 bones (counted
// off the draft). Its lacing tape follows the opening; the lining has no bones.
func TestBoningFollowsTheChannels(t *testing.T) {
	var sizes []string
	for mm := 200; mm <= 500; mm += 20 {
		sizes = append(sizes, fmt.Sprintf(`{ length = %d, price = "1.00" }`, mm))
	}
	q := made(t, `unit = "mm"
[body]
over_bust_girth = 860
bust_girth = 920
underbust_girth = 780
waist_girth = 720
high_hip_girth = 880
waist_to_over_bust = 235
waist_to_bust = 165
waist_to_underbust = 85
waist_to_high_hip = 110
[allowance]
seam = 12
hem = 10
[[cloth]]
id = "coutil"
width = 1400
price = "20/m"
[[cloth]]
id = "lining"
width = 1400
price = "9/m"
[[part]]
name = "corset"
draft = "corset"
cloth = ["coutil", "lining"]
panels = 8
reduction = 50
lacing_gap = 50
channel = 9
[[notion]]
name = "spiral bones"
by = "channel"
price = "1.10/each"
[[notion]]
name = "boning"
by = "channel"
price = "2.00/m"
[[notion]]
name = "cut bones"
by = "channel"
sizes = [ `+strings.Join(sizes, ", ")+` ]
`)
	for _, i := range q.Orders[0].Items {
		switch i.Name {
		case "cut bones": // none longer than its channel
			short := []float64{}
			for _, c := range q.Orders[0].Items {
				if c.Name == "boning" {
					short = append(short, c.NeededLength-i.BoughtLength)
				}
			}
			if len(short) != 1 || !(short[0] >= 0 && short[0] < 10*20) {
				t.Errorf("bones bought in steps of 20 mm are shorter than their channels by %v mm in all: %+v", short,
					i)
			}
		case "spiral bones":
			if i.NeededCount != 10 || i.Cost.Minor != 1100 {
				t.Errorf("%+v", i)
			}
		case "boning":
			if per := i.NeededLength / 10; !(per > 250 && per < 400) { // from over the bust to the high hip
				t.Errorf("%+v: %.0f mm a bone", i, per)
			}
		}
	}
}

// Net whose hem is raw takes no hemming: ten layers of 9.7 m each were billed as
// 97 m of it. With a hem allowance all of it is hemmed.
func TestRawNetIsNotHemmed(t *testing.T) {
	net := func(hem string) *Work {
		return made(t, `unit = "in"
[body]
waist_girth = 28
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "net"
width = 108
net = true
price = "2/yd"
[[part]]
name = "net"
draft = "net-layers"
cloth = "net"
circle = "full"
skirt_length = 41
first_seam = 23
gap = 2
layers = 10
widths = 4
`+hem+`
[labour]
rate = "20.00/h"
hem = "12 min/yd"
`).Work
	}
	if w := net(""); w.Hem != 0 || w.Gathered == 0 {
		t.Errorf("raw net: %+v", w)
	}
	if w := net(`hem = "1/4"`); w.Hem != w.Gathered {
		t.Errorf("hemmed net: %+v, want as much hem as is gathered", w)
	}
}

// What cannot be bought is refused at its cloth, as lay refuses it, with what would help:
// a quote of the job alone, and one with choices.
func TestWhatCannotBeBoughtHasItsPlace(t *testing.T) {
	src := sash(30, "bolt = { length = \"1 yd\", price = \"5.00\", in_stock = 1 }\nwhole_bolts = true", "")
	f := testjobs.File(t, "job.toml", src)
	_, alone := Make(t.Context(), f.Job(), quick(9))
	_, _, chosen := WhatIf(t.Context(), f, quick(9))
	_, laid := plan.Run(t.Context(), f.Job(), quick(9).Options)
	for _, err := range []error{alone, chosen, laid} {
		var one *strict.Error
		if !errors.As(err, &one) {
			t.Fatalf("no place: %v", err)
		}
		if one.File != "job.toml" || one.At != f.Job().Cloths[0].At || one.Hint == "" ||
			!strings.Contains(one.What, "satin") {
			t.Errorf("%+v", one)
		}
	}
}

// What an inch job cannot buy it says in inches.
func TestInchJobsSpeakInches(t *testing.T) {
	src := sash(36, "", "") + `
[body]
waist_girth = 28
[[part]]
name = "skirt"
draft = "circle-skirt"
cloth = "satin"
circle = "half"
length = 20
[[notion]]
name = "zip"
by = "opening"
sizes = [ { length = 7, price = "1.00" } ]
`
	_, err := Make(context.Background(), testjobs.Read(t, src), quick(1))
	if err == nil || strings.Contains(err.Error(), " mm") || !strings.Contains(err.Error(), "the longest is 7 in") {
		t.Errorf("%v", err)
	}
	src = strings.Replace(src, "length = 7,", "length = 22,", 1)
	o := quick(1)
	o.Unit = measure.Yard
	q, err := Make(context.Background(), testjobs.Read(t, src), o)
	if err != nil {
		t.Fatal(err)
	}
	for _, i := range q.Orders[0].Items {
		if i.Name == "zip" && i.Quantity != "1 of 22 in" {
			t.Errorf("shown by the yard, the zip is %q", i.Quantity)
		}
	}
}
