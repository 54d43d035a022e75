package quote

import (
	"errors"
	"math"
	"math/big"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/cost"
	"yardlay/shapes/measure"
)

// needs is what so many gowns take of each notion.
func needs(t *testing.T, j *job.Job, gowns int) map[job.NotionBy]cost.Notion {
	t.Helper()
	m := newMaker(j, Options{Options: plan.Options{Gowns: gowns}})
	var err error
	if m.cuts, err = cutsOf(j, m.gowns); err != nil {
		t.Fatal(err)
	}
	all := map[job.NotionBy]cost.Notion{}
	for _, n := range j.Notions {
		if all[n.By], err = m.needed(n); err != nil {
			t.Fatal(err)
		}
	}
	return all
}

func listed(t *testing.T, j *job.Job) report.CutList {
	t.Helper()
	spreads, err := plan.Draw(j)
	if err != nil {
		t.Fatal(err)
	}
	list, err := report.List(j, spreads, j.Unit)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// What a corset takes of its notions is what its cut list says of bones, tapes and closings, as often as gowns are
// made.
func TestNotionsOfACorsetAreThoseOfItsList(t *testing.T) {
	const name = "../../../../testdata/harbour-corset.toml"
	src, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	j := testjobs.File(t, name, string(src)).Job()
	list := listed(t, j)
	var bones []float64
	var casing, tape, busk float64
	eyelets := 0
	for _, b := range list.Boned {
		for _, one := range b.Bones {
			bones = append(bones, slices.Repeat([]float64{one.Length}, one.Count)...)
			casing += one.Casing * float64(one.Count)
		}
		for _, one := range b.Tapes {
			tape += (one.Length + 2*one.Ends) * float64(one.Count)
		}
	}
	for _, c := range list.Closed {
		if eyelets += c.Set; c.By == "busk" {
			busk += c.Length
		}
	}
	for gowns := 1; gowns <= 3; gowns += 2 {
		all, times := needs(t, j, gowns), float64(gowns)
		if got := all[job.ByEyelet].Count; got != eyelets*gowns || got == 0 {
			t.Errorf("%d gowns: %d eyelets, the list has %d for one", gowns, got, eyelets)
		}
		for by, want := range map[job.NotionBy]float64{job.ByCasing: casing, job.ByTape: tape} {
			if got := all[by].Length; math.Abs(got-want*times) > 0.01 || got == 0 {
				t.Errorf("%d gowns: %.1f mm by %v, the list has %.1f for one", gowns, got, by, want)
			}
		}
		got := slices.Sorted(slices.Values(all[job.ByChannel].Lengths))
		if want := slices.Sorted(slices.Values(slices.Repeat(bones, gowns))); !slices.Equal(got, want) ||
			!all[job.ByChannel].Inside {
			t.Errorf("%d gowns: bones of %.1f, the list has %.1f", gowns, got, want)
		}
		if got := all[job.ByBusk]; len(got.Lengths) != gowns || got.Lengths[0] != busk || !got.Inside {
			t.Errorf("%d gowns: busks of %.1f, the list has one of %.1f", gowns, got.Lengths, busk)
		}
	}
}

// closedJob is a skirt with a zip of 23 cm, two of them, and a bodice with as many buttons as it takes.
const closedJob = `unit = "cm"
[body]
waist_girth = 70
bust_girth = 90
hip_girth = 96
neck_base_girth = 37
shoulder_length = 12.5
back_neck_point_to_waist = 41
armhole_depth = 21
[allowance]
seam = 1.5
hem = 3
[[cloth]]
id = "satin"
width = 150
[[part]]
name = "bodice"
draft = "bodice-block"
cloth = "satin"
closings = [ { by = "buttons", panel = 3 } ]
[[part]]
name = "skirt"
draft = "circle-skirt"
circle = "half"
cloth = "satin"
length = 60
times = 2
closings = [ { by = "zip", length = 23 } ]
[[notion]]
name = "zip"
by = "opening"
sizes = [ { length = "20 cm", price = "2.10" }, { length = "25 cm", price = "2.30" } ]
[[notion]]
name = "buttons"
by = "button"
price = "2.50/pack"
pack = 6
`

// Each opening takes what closes it: a skirt cut twice two zips of 25 cm, 4.60, and the bodice its buttons, in packs
// of 6.
func TestOpeningsTakeWhatClosesThem(t *testing.T) {
	j := testjobs.Read(t, closedJob)
	buttons := 0
	for _, c := range listed(t, j).Closed {
		if c.By == "buttons" {
			buttons += c.Set
		}
	}
	for _, gowns := range []int{1, 2} {
		m := newMaker(j, Options{Options: plan.Options{Gowns: gowns}})
		if err := m.count(); err != nil {
			t.Fatal(err)
		}
		zips, sewn := m.notions[0], m.notions[1]
		if zips.NeededCount != 2*gowns || zips.Cost.Minor != int64(460*gowns) || zips.NeededLength != float64(460*gowns) {
			t.Errorf("%d gowns: %d zips on %v mm for %v", gowns, zips.NeededCount, zips.NeededLength, zips.Cost)
		}
		if packs := (buttons*gowns + 5) / 6; sewn.NeededCount != buttons*gowns || buttons < 2 || sewn.Packs != packs ||
			sewn.Cost.Minor != int64(250*packs) {
			t.Errorf("%d gowns: %d buttons in %d packs for %v, the list has %d", gowns, sewn.NeededCount, sewn.Packs,
				sewn.Cost, buttons)
		}
	}
}

// A notion that follows from nothing is refused at its place, whatever it would follow from, with what can be given
// instead.
func TestNotionsThatFollowFromNothing(t *testing.T) {
	for by, what := range map[string]string{
		"opening": "opening", "channel": "boning channel", "eyelet": "eyelet of `closings`", "button": "button of `closings`",
		"hook": "hook of `closings`", "busk": "busk of `closings`", "casing": "boning channel", "tape": "tape sewn on inside",
		"hoop": "hoop", "comb": "comb", "edging": "lace of `edgings`",
	} {
		price := "price = \"1.00/each\""
		if slices.Contains([]string{"casing", "tape", "edging", "hoop"}, by) {
			price = "price = \"1.00/yd\""
		}
		for of, where := range map[string]string{"": "the job", "\nparts = \"panel\"": "these parts and cloths",
			"\ncloths = \"satin\"": "these parts and cloths"} {
			src := testjobs.Panels(1, "20", "30", "") + "[[notion]]\nname = \"extra\"\nby = \"" + by + "\"\n" + price + of + "\n"
			m := newMaker(testjobs.Read(t, src), Options{})
			var bad *strict.Error
			if err := m.count(); !errors.As(err, &bad) || bad.At.Line == 0 || bad.What !=
				"notion `extra`: there is no "+what+" in "+where+" that it could follow from" ||
				bad.Hint != "give a `count` or a `length`" {
				t.Errorf("by %s%s: %v", by, of, err)
			}
		}
	}
}

// labourJob is a panel with a table of labour.
func labourJob(labour string) string {
	return strings.Replace(testjobs.Panels(1, "20", "30", ""), "[[cloth]]", "[labour]\n"+labour+"\n[[cloth]]", 1)
}

// Planned hours are those of one gown as the job plans them, whatever is made of it and however others turned out; by
// the record of the workroom they are taken once, up to the quarter hour: 9 h by 6/5 are 10.8, so 11 h at 20.00.
func TestPlannedHoursAndTheRecord(t *testing.T) {
	for src, want := range map[string]string{
		"hours = 9\nrate = \"20.00/h\"\nfittings = 2\nfitting_hours = 1": "9", "fittings = 0": "0",
	} {
		if got, err := PlannedHours(testjobs.Read(t, labourJob(src))); err != nil || got.String() != want {
			t.Errorf("%s: %v h, %v; want %s", src, got, err, want)
		}
	}
	j := testjobs.Read(t, labourJob("hours = 9\nrate = \"20.00/h\""))
	o := quick(1)
	o.Own = &Own{Factor: big.NewRat(6, 5), Words: "The last cape took 1.2 of the planned hours."}
	q, err := Make(t.Context(), j, o)
	if err != nil {
		t.Fatal(err)
	}
	if got := line(t, q, "making"); got != 22000 || !slices.Contains(q.Notes,
		"The last cape took 1.2 of the planned hours. So the 9 planned hours count as 11 h.") {
		t.Errorf("making for %d, %q", got, q.Notes)
	}
	o.Own.Factor = big.NewRat(1, 3)
	if q, err = Make(t.Context(), testjobs.Read(t, labourJob("")), o); err != nil || slices.ContainsFunc(q.Notes,
		func(note string) bool { return strings.Contains(note, "planned hours") }) {
		t.Errorf("no hours are planned, and some count: %q, %v", q.Notes, err)
	}
}

// texts lists entries as they read, headings in brackets.
func texts(entries []sheet.Entry) (all []string) {
	for _, e := range entries {
		text := strings.TrimSpace(e.Text + " " + e.Amount)
		if e.Kind == sheet.EntryHead {
			text = "[" + text + "]"
		}
		all = append(all, text)
	}
	return all
}

// The list for several gowns says of each what it takes, and what buying for all at once changes. Figures are our own.
func TestLedgerOfSeveralGowns(t *testing.T) {
	usd := func(minor int64) cost.Money { return cost.Money{Minor: minor, Currency: "USD"} }
	l := Joint{
		List: List{Currency: "USD", Unit: measure.Inch, Total: usd(3950),
			per: func(string) measure.Unit { return measure.Yard }},
		Apart: usd(7650),
		PerGown: []Takes{
			{Name: "lantern", Title: "Lantern skirt", Due: "2026-12-24", What: []Take{
				{Name: "moon satin", Length: 2.5 * measure.Yards, per: measure.Yard}, {Name: "button", Count: 4},
				{Name: "moon satin", Shelf: "end", Length: 300}}},
			{Name: "pier"},
		},
		Shared: []Shared{
			{ID: "satin", Name: "moon satin", Gowns: []string{"lantern", "pier"}, Together: true, Saves: usd(500)},
			{ID: "net", Name: "net", Gowns: []string{"lantern", "pier", "third"}, Why: "it is too wide"},
			{ID: "lawn", Name: "lawn", Gowns: []string{"pier"}},
		},
	}
	page := l.Ledger()
	if page.Title != "Shopping list for 2 gowns" {
		t.Error(page.Title)
	}
	lines := texts(page.Lines)
	from := slices.Index(lines, "[Takes: lantern, Lantern skirt, to deliver 2026-12-24]")
	if from < 0 {
		t.Fatalf("%q", lines)
	}
	if diff := cmp.Diff([]string{"2 1/2 yd, moon satin", "4, button", "`end` off the shelf, moon satin", "[Takes: pier]"},
		lines[from+1:]); diff != "" {
		t.Error(diff)
	}
	for _, want := range []string{"net: lantern, pier and third are laid apart, since together they cannot be: it is " +
		"too wide",
		"lawn: pier are laid apart, since laying them together saves nothing.",
		"Bought for one gown after the other, the orders would come to 76.50 USD: 37.00 USD more."} {
		if !slices.Contains(page.Notes, want) {
			t.Errorf("%q lacks %q", page.Notes, want)
		}
	}
	if !strings.HasPrefix(page.Notes[0], "moon satin: lantern and pier are laid together on ") ||
		!strings.HasSuffix(page.Notes[0], " That saves 5.00 USD over all orders.") {
		t.Error(page.Notes[0])
	}
	l.Apart = l.Total
	if got := l.said(); len(got) != 3 {
		t.Errorf("nothing is saved, and %q", got[3:])
	}
}

// A client reads what is made and what she pays, of one gown or several, with tax where there is some.
func TestLedgerOfAClient(t *testing.T) {
	usd := func(minor int64) cost.Money { return cost.Money{Minor: minor, Currency: "USD"} }
	c := ClientQuote{Title: "Moon gown", Garments: []string{"skirt in satin"}, NotIncluded: []string{"veil"}, Fittings: 2,
		ClientQuote: cost.ClientQuote{Currency: "USD", Gowns: 1, Price: usd(100000), Tax: usd(20000), Total: usd(120000),
			Deposit: usd(40000), Balance: usd(80000), PerGown: []cost.Portion{{Count: 1, Each: usd(120000)}}}}
	page := c.Ledger(measure.Inch)
	lines := texts(page.Lines)
	if diff := cmp.Diff([]string{"[Included]", "skirt in satin", "2 fittings", "[Not included]",
		"veil, which has no price yet", "[Price]", "One gown 1\u00a0000.00", "tax 200.00"}, lines[:8]); diff != "" ||
		page.Title != "Moon gown: quote" {
		t.Errorf("%s %s", page.Title, diff)
	}
	c.Title, c.Gowns, c.Tax, c.Fittings, c.NotIncluded = "", 3, cost.Money{}, 0, nil
	c.Page.Note = "Valid for 30 days."
	page = c.Ledger(measure.Inch)
	if diff := cmp.Diff([]string{"[Included]", "skirt in satin", "[Price]", "3 gowns 1\u00a0000.00"},
		texts(page.Lines)[:4]); diff != "" || page.Title != "Quote" || !slices.Contains(page.Notes, "Valid for 30 days.") {
		t.Errorf("%s, %q %s", page.Title, page.Notes, diff)
	}
}

// Hours that follow from the drafts say how; a quote of nothing says so.
func TestLedgerOfTheWorkroom(t *testing.T) {
	usd := func(minor int64) cost.Money { return cost.Money{Minor: minor, Currency: "USD"} }
	q := &Quote{Quote: cost.Quote{Currency: "USD", Gowns: 1, Total: usd(5400), Lines: []cost.Line{
		{What: "making", Amount: usd(5400), Kind: cost.KindLabour, Detail: "2.25 h at 24.00 USD/h"}}},
		Work: &Work{Steps: []Step{{"seams", "120", "30.00 m of seam"}, {"pieces", "10", "2 pieces"}}}}
	var details []string
	for _, e := range q.Ledger().Lines {
		if e.Text == "making" {
			details = append(details, e.Detail)
		}
	}
	if !slices.Equal(details, []string{
		"2.25 h at 24.00 USD/h: 30.00 m of seam 120 min, 2 pieces 10 min, up to the quarter hour"}) {
		t.Errorf("%q", details)
	}
	if none := texts((&Quote{}).Ledger().Lines); !slices.Contains(none, "[Nothing has a price]") {
		t.Errorf("%q", none)
	}
}
