package report

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// corsetList is the cut list of the demo of a corset with its job, some text replaced.
func corsetList(t *testing.T, replace ...string) (*job.Job, CutList) {
	t.Helper()
	return demoList(t, "harbour-corset", replace...)
}

// A bone ends 8 mm from both finished edges of its channel, and its casing goes on into the allowances of both, 1.5
// cm above and none below; the table has the same figures in cm. All is told once, in the outer cloth.
func TestBonesOfACorset(t *testing.T) {
	_, list := corsetList(t)
	if len(list.Boned) != 1 || list.Boned[0].Cloth != "brocade" {
		t.Fatalf("%d parts and cloths are boned", len(list.Boned))
	}
	b := list.Boned[0]
	g := b.Grid(measure.Centimetre)
	if len(b.Bones) == 0 || len(g.Rows) != len(b.Bones) || len(g.Heads) != len(g.Rows[0]) {
		t.Fatalf("%d bones, %d rows, heads %q", len(b.Bones), len(g.Rows), g.Heads)
	}
	for i, one := range b.Bones {
		if math.Abs(one.Edge-2*8-one.Length) > 0.01 || math.Abs(one.Casing-one.Edge-15) > 0.01 || one.Count < 1 {
			t.Errorf("%s: %.2f mm from edge to edge, a bone of %.2f, a casing of %.2f", one.Channel, one.Edge, one.Length,
				one.Casing)
		}
		if row := g.Rows[i]; row[0] != one.Channel || row[3] != Bare(one.Length, measure.Centimetre) ||
			row[4] != Bare(one.Casing, measure.Centimetre) {
			t.Errorf("%q is not the row of %+v", row, one)
		}
	}
	if !strings.Contains(g.Caption, "A bone ends 0.8 cm from each finished edge") {
		t.Error(g.Caption)
	}
	if len((Boned{}).Grid(measure.Inch).Rows) != 0 {
		t.Error("a table of no bones")
	}
}

// A tape is cut as long as it goes and what is caught in at both ends: by hand 74 + 2 x 1.5 = 77 cm.
func TestTapesInWords(t *testing.T) {
	one := Tape{Name: "waist tape", Count: 1, Width: 25, Length: 740, Ends: 15}
	two := one
	two.Count = 2
	got := Boned{Part: "corset", Cloth: "coutil", Tapes: []Tape{one, two}}.Words(measure.Centimetre)
	const rest = ". It goes 74.0 cm from edge to edge; 1.5 cm at each end is caught in. Sew it on inside, its middle " +
		"on the " +
		"line that is marked."
	if diff := cmp.Diff([]string{
		"corset in coutil: cut a waist tape 2.5 cm wide and 77.0 cm long" + rest,
		"corset in coutil: cut 2 pieces of waist tape 2.5 cm wide, each 77.0 cm long" + rest}, got); diff != "" {
		t.Error(diff)
	}
}

// Eyelets lie evenly from end to end, as many on each edge, so two times that in one corset; the busk ends as far from
// both edges as it says. Both come last in the sewing order, when all else is done.
func TestClosingsOfACorset(t *testing.T) {
	_, list := corsetList(t)
	i := slices.IndexFunc(list.Closed, func(c Closed) bool { return c.By == "lacing" })
	k := slices.IndexFunc(list.Closed, func(c Closed) bool { return c.By == "busk" })
	if i < 0 || k < 0 || len(list.Closed) != 2 {
		t.Fatalf("%+v", list.Closed)
	}
	lacing, busk := list.Closed[i], list.Closed[k]
	if ends := lacing.Length - float64(lacing.Places-1)*lacing.Pitch; math.Abs(ends-2*lacing.First) > 0.01 ||
		lacing.Set != 2*lacing.Places || lacing.Inset <= 0 || lacing.Pitch > 25.01 {
		t.Errorf("%d eyelets %.2f mm apart on %.2f, the first at %.2f, %d in all", lacing.Places, lacing.Pitch, lacing.Length,
			lacing.First, lacing.Set)
	}
	if busk.Places != 0 || busk.Set != 0 || busk.First <= 0 || busk.At != "centre front" || lacing.At != "centre back" {
		t.Errorf("%+v", busk)
	}
	var order []string
	for _, s := range list.Seams {
		order = append(order, s.Name)
	}
	last := order[len(order)-1]
	if !strings.HasPrefix(last, "lacing, centre back") || slices.IndexFunc(order, func(name string) bool {
		return strings.HasPrefix(name, "busk, ")
	}) < 0 {
		t.Errorf("the lacing does not come last: %q", order)
	}
}

// How openings are closed, in words; figures are our own.
func TestClosingsInWords(t *testing.T) {
	base := Closed{Part: "bodice", Cloth: "satin", At: "left", Seam: "side", From: "top", Length: 260}
	for _, tt := range []struct {
		with func(*Closed)
		want string
	}{
		{func(c *Closed) { c.By = "zip" }, "zip, 26.0 cm from the top."},
		{func(c *Closed) { c.By, c.First = "busk", 10 }, "a busk of 26.0 cm at the most, which ends 1.0 cm from both edges."},
		{func(c *Closed) { c.By, c.Places, c.First = "hooks", 1, 10 },
			"hooks, 26.0 cm from the top, 1 hook and eye, the first 1.0 cm from the top."},
		{func(c *Closed) { c.By, c.Places, c.Pitch, c.First, c.From = "buttons", 4, 80, 10, "waist" },
			"buttons, 26.0 cm from the waist, 4 buttons and loops, 8.0 cm apart, the first 1.0 cm from the waist."},
		{func(c *Closed) { c.By, c.Places, c.Pitch, c.First, c.Stand = "buttons", 2, 80, 10, 15 },
			"buttons, 26.0 cm from the top, 2 buttons and buttonholes, 8.0 cm apart, the first 1.0 cm from the top."},
		{func(c *Closed) { c.By, c.Places, c.Pitch, c.First, c.Inset = "lacing", 11, 25, 5, 12 },
			"lacing, 26.0 cm from the top, 11 eyelets on each edge, 2.5 cm apart, the first 0.5 cm from the top, 1.2 cm in " +
				"from " +
				"the edge."},
	} {
		c := base
		tt.with(&c)
		if got, want := c.Words(measure.Centimetre), "bodice in satin, left side: "+tt.want; got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
	if base.Seam = ""; base.where() != "left" {
		t.Error(base.where())
	}
}

// pricedCloth is satin by the metre, in steps of 0.1 m, with so many steps that could be saved.
func pricedCloth(steps, asShared int) Cloth {
	c := Cloth{Steps: steps, StepsAsShared: asShared}
	c.Spread.Cloth = job.Cloth{Offer: cost.Offer{Price: cost.Money{Minor: 1000, Currency: "USD"}, Per: measure.Metre}}
	return c
}

// What could be saved at most is never said to be less than the steps of the counter that are not proved, and proof of
// what is shared out is not taken for proof of all. Three steps are 0.3 m, five 0.5 m.
func TestWhatCouldBeSaved(t *testing.T) {
	placed := func(n int) []nest.Result {
		return []nest.Result{{Layout: nest.Layout{Placed: make([]nest.Placed, n)}}}
	}
	stretches := []Stretch{{}, {}}
	for _, tt := range []struct {
		name         string
		with         func(*Cloth)
		saves, other string // parts of them
	}{
		{"open", func(*Cloth) {}, "0.30 m", ""},
		{"proved", func(c *Cloth) { c.Proved, c.ProvedAsShared = true, true }, "nothing: proved minimal", ""},
		{"proved, with pins", func(c *Cloth) { c.Proved, c.ProvedAsShared, c.Pinned = true, true, 2 },
			"nothing: proved minimal",
			""},
		{"pinned", func(c *Cloth) { c.Pinned, c.Laid.Results = 1, placed(3) }, "0.30 m",
			"with the pinned piece where it is. Without pins 0.50 m"},
		{"two pinned, proved with them", func(c *Cloth) { c.ProvedAsShared, c.Pinned, c.Laid.Results = true, 2, placed(3) },
			"nothing around the pins", "with the 2 pinned pieces where they are. Without pins 0.50 m"},
		{"all pinned", func(c *Cloth) { c.Pinned, c.Laid.Results = 3, placed(3) }, "0.30 m",
			"all pieces stay where they are. Laid in another way 0.50 m"},
		{"the shelf", func(c *Cloth) { c.Shelf, c.ProvedAsShared = &Shelf{}, true }, "nothing, as the shelf is used",
			"Another use of the shelf could save 0.50 m"},
		{"a fold, none tried", func(c *Cloth) { c.Stretches, c.ProvedAsShared = stretches, true },
			"nothing on these stretches", "With others cut double 0.50 m (5/8 yd) could be saved at most. That was not tried."},
		{"a fold, some tried", func(c *Cloth) { c.Stretches, c.Laid.SharesTried = stretches, 3 }, "0.30 m",
			"None was found that saves, which does not prove that there is none."},
	} {
		c := pricedCloth(5, 3)
		tt.with(&c)
		if got := c.CouldSave(); !strings.HasPrefix(got, tt.saves) {
			t.Errorf("%s could save %q, want %q", tt.name, got, tt.saves)
		}
		if got := c.SharedOtherwise(); !strings.Contains(got, tt.other) || (got == "") != (tt.other == "") {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.other)
		}
	}
	// Of several lengths no other ones cost less than 80.00: at 90.00, 10.00 could be saved.
	c := pricedCloth(5, 3)
	c.Buy.Cost = cost.Money{Minor: 9000, Currency: "USD"}
	c.Laid.Lengths = &plan.Lengths{LeastFor: cost.Money{Minor: 8000, Currency: "USD"}}
	if got := c.CouldSave(); got != "10.00 USD" {
		t.Error(got)
	}
}

// What the repeat takes is the difference to plain cloth, in cloth or at least in cloth bought; how far its bound may
// be too low is told from a millimetre on.
func TestRepeatInWords(t *testing.T) {
	r := &Report{Unit: measure.Centimetre}
	for _, tt := range []struct {
		repeat Repeat
		want   string
	}{
		{Repeat{Extra: 300, ExtraBought: 300}, "the repeat takes 0.30 m (3/8 yd) more."},
		{Repeat{Extra: 40}, "the repeat takes 4.0 cm more, and nothing more at the counter."},
		{Repeat{Loose: 0.9}, "the repeat takes no more."},
		{Repeat{Loose: 20, Counted: true}, "the repeat takes no more. The bound counts whole repeats only where pieces " +
			"must " +
			"follow each other: it may be up to 2.0 cm too low."},
		{Repeat{Loose: 20}, "the repeat takes no more. The bound leaves the repeat out: on plain cloth it is met, here it " +
			"may " +
			"be up to 2.0 cm too low."},
		{Repeat{Loose: 20, PlainLoose: 10}, "the repeat takes no more. The bound leaves the repeat out: on plain cloth it " +
			"is " +
			"1.0 cm under the marker, here it may be up to 2.0 cm too low."},
	} {
		c := pricedCloth(0, 0)
		tt.repeat.PlainUsed, tt.repeat.PlainBought = 1950, 2000
		c.Repeat = &tt.repeat
		lines := r.Lines(c)
		const plain = "Plain cloth would take 195.0 cm and 2.00 m (2 1/4 yd) to buy; "
		if len(lines) != 1 || lines[0] != plain+tt.want {
			t.Errorf("%q\nwant %q", lines, plain+tt.want)
		}
	}
}

// Pinned pieces leave shelf and bolts aside, and gowns laid together are set beside one alone.
func TestLinesOfACloth(t *testing.T) {
	r := &Report{Unit: measure.Centimetre, Gowns: 3, Currency: "USD"}
	c := pricedCloth(0, 0)
	c.Instructions = []string{"Lay it open."}
	if lines := r.Lines(c); !slices.Equal(lines, c.Instructions) {
		t.Errorf("%q", lines)
	}
	c.Cost, c.Pinned = "60.00", 1
	c.PerGown = &PerGown{Used: 1900, Bought: 2000, AloneUsed: 2100, AloneBought: 2200}
	const aside = "With pieces pinned it is cut from one length; leftovers and whole bolts are left aside."
	const gowns = "3 gowns on one lay: 190.0 cm of cloth for each, 210.0 cm for one alone; bought 200.0 cm for each, " +
		"220.0 cm for " +
		"one alone"
	if lines := r.Lines(c); !slices.Equal(lines, []string{"Lay it open.", gowns + "."}) {
		t.Errorf("%q", lines)
	}
	c.PerGown.AloneCost = "22.00"
	c.Spread.Cloth.Offer.Bolt = &cost.Bolt{Length: 9144, Price: cost.Money{Minor: 5000, Currency: "USD"}}
	if lines := r.Lines(c); !slices.Equal(lines, []string{"Lay it open.", aside, gowns +
		". Together they cost 60.00, one alone 22.00 USD."}) {
		t.Errorf("%q", lines)
	}
}

// A length is called by what it is bought as, and the only one by nothing.
func TestNamesOfLengths(t *testing.T) {
	c := pricedCloth(0, 0)
	if got := LengthName(c, Stretch{Name: "open"}); got != "open" {
		t.Error(got)
	}
	c.Lengths = []Length{{Name: "bolt 1", Bought: 9000}, {Name: "bolt 2", Bought: 4500}, {Name: "cut", Bought: 2500}}
	for want, s := range map[string]Stretch{"bolt 1 of 9.00 m": {Bolt: 1}, "bolt 2 of 4.50 m": {Bolt: 2},
		"cut of 2.50 m": {},
		"rest":          {Shelf: true, Name: "rest"}} {
		if got := LengthName(c, s); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
