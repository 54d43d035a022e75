package main

import (
	"cmp"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/cost"
	"yardlay/shapes/measure"
)

func usd(minor int64) cost.Money { return cost.Money{Minor: minor, Currency: "USD"} }

// may is a day of May 2026.
func may(day int) job.Date { return job.Date{Year: 2026, Month: time.May, Day: day} }

// How an order stands is a line for each thing that is known: of the deposit what is due, of the price what is left,
// and how soon it is to be delivered.
func TestOrdersLineByLine(t *testing.T) {
	whole := job.Gown{Job: "moon.toml", Ordered: may(1), Deliver: may(20), Fittings: []job.Date{may(8), may(15)},
		Price: usd(100000), Deposit: usd(30000), Paid: []job.Payment{{On: may(2), Amount: usd(10000)},
			{On: may(3), Amount: usd(5000)}}, Cut: &job.WasCut{On: may(9)}}
	paid := func(minor int64) job.Gown {
		g := whole
		g.Fittings, g.Cut, g.Paid = nil, nil, []job.Payment{{On: may(4), Amount: usd(minor)}}
		return g
	}
	const ordered = "moon.toml, Moon gown\n  ordered    2026-05-01\n"
	for _, c := range []struct {
		gown  job.Gown
		today job.Date
		want  string
	}{
		{whole, may(10), ordered + "  fitting    2026-05-08\n  fitting    2026-05-15\n  deliver    2026-05-20, in 10 days\n" +
			"  price      1000.00 USD\n  deposit    300.00 USD, 150.00 USD of it due\n  paid       2026-05-02  100.00 USD\n" +
			"  paid       2026-05-03  50.00 USD\n  balance    850.00 USD\n  cut        2026-05-09\n"},
		{paid(30000), may(20), ordered + "  deliver    2026-05-20, today\n  price      1000.00 USD\n" +
			"  deposit    300.00 USD, paid\n  paid       2026-05-04  300.00 USD\n  balance    700.00 USD\n"},
		{paid(29999), may(19), ordered + "  deliver    2026-05-20, in 1 day\n  price      1000.00 USD\n" +
			"  deposit    300.00 USD, 0.01 USD of it due\n  paid       2026-05-04  299.99 USD\n  balance    700.01 USD\n"},
		{paid(100000), may(21), ordered + "  deliver    2026-05-20, 1 day ago\n  price      1000.00 USD\n" +
			"  deposit    300.00 USD, paid\n  paid       2026-05-04  1000.00 USD\n  balance    paid in full\n"},
		{paid(100001), may(22), ordered + "  deliver    2026-05-20, 2 days ago\n  price      1000.00 USD\n" +
			"  deposit    300.00 USD, paid\n  paid       2026-05-04  1000.01 USD\n" +
			"  balance    0.01 USD more paid than agreed\n"},
		{job.Gown{Job: "moon.toml"}, may(1), "moon.toml, Moon gown\n"},
		{job.Gown{Job: "moon.toml", Paid: []job.Payment{{On: may(4), Amount: usd(5)}}}, may(1),
			"moon.toml, Moon gown\n  paid       2026-05-04  0.05 USD\n"},
	} {
		st, err := standing(c.gown, "Moon gown", "USD", c.today)
		var out strings.Builder
		if st.print(&out); err != nil || out.String() != c.want {
			t.Errorf("%v:\n%s\nwant:\n%s", err, &out, c.want)
		}
	}
}

// The book says of a gown how far it is: what was and is to come, how late it is as long as it is not done, what is
// still to be paid, and whether its file is there.
func TestGownsOfTheBookInWords(t *testing.T) {
	p := roomPrinter{Workroom: &job.Workroom{File: "there/workroom.toml", Currency: "USD"}, on: may(10)}
	const gone = "the file is not there"
	for _, c := range []struct {
		gown job.Gown
		want string
	}{
		{job.Gown{Job: "a.toml"}, "a.toml: " + gone},
		{job.Gown{Job: "a.toml", Ordered: may(1), Deliver: may(12), Fittings: []job.Date{may(9), may(10), may(11)}},
			"a.toml: ordered 2026-05-01; fitting 2026-05-10; fitting 2026-05-11; due 2026-05-12; " + gone},
		{job.Gown{Job: "a.toml", Deliver: may(10)}, "a.toml: due 2026-05-10; " + gone},
		{job.Gown{Job: "a.toml", Deliver: may(9), Cut: &job.WasCut{On: may(8)}},
			"a.toml: due 2026-05-09 (1 day ago); cut 2026-05-08; " + gone},
		{job.Gown{Job: "a.toml", Deliver: may(7), Took: &job.Took{On: may(9)}}, "a.toml: due 2026-05-07; done 2026-05-09; " +
			gone},
		{job.Gown{Job: "a.toml", Price: usd(500), Paid: []job.Payment{{On: may(1), Amount: usd(499)}}},
			"a.toml: 0.01 USD to be paid; " + gone},
		{job.Gown{Job: "a.toml", Price: usd(500), Paid: []job.Payment{{On: may(1), Amount: usd(500)}}}, "a.toml: " + gone},
	} {
		if got := p.gown(c.gown); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	for _, c := range []struct {
		person job.Person
		want   string
	}{
		{job.Person{Name: "mara"}, "mara: not measured yet"},
		{job.Person{Name: "mara", Measured: []job.Measuring{
			{On: may(1), Measures: map[string]float64{"waist_girth": 700, "hip_girth": 980}},
			{On: may(5), Measures: map[string]float64{"waist_girth": 710}}}}, "mara: measured 2026-05-05, 2 measures known"},
	} {
		if got := person(c.person); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	if people(0)+people(1)+people(2) != "0 people1 person2 people" {
		t.Error(people(0), people(1), people(2))
	}
}

// A week's shopping is for the gowns that are neither cut nor done, those of a day before those of none, the soonest
// first, and up to the day asked for, that day among them; the book is left as it was.
func TestGownsToShopFor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := &job.Workroom{}
		for i := range rapid.IntRange(0, 8).Draw(t, "gowns") {
			g := job.Gown{Job: string(rune('a' + i))}
			if day := rapid.IntRange(0, 9).Draw(t, "day"); day > 0 {
				g.Deliver = may(day)
			}
			switch rapid.IntRange(0, 4).Draw(t, "state") {
			case 0:
				g.Cut = &job.WasCut{}
			case 1:
				g.Took = &job.Took{}
			}
			w.Gowns = append(w.Gowns, g)
		}
		until := job.Date{}
		if day := rapid.IntRange(0, 9).Draw(t, "until"); day > 0 {
			until = may(day)
		}
		before := slices.Clone(w.Gowns)
		when := func(g job.Gown) int { return cmp.Or(g.Deliver.Day, 99) }
		var want []string
		for day := range 100 {
			for _, g := range w.Gowns {
				open := g.Cut == nil && g.Took == nil && (until.IsZero() || when(g) <= until.Day)
				if open && when(g) == day {
					want = append(want, g.Job)
				}
			}
		}
		var got []string
		for _, g := range openGowns(w, until) {
			got = append(got, g.Job)
		}
		same := slices.EqualFunc(w.Gowns, before, func(a, b job.Gown) bool { return a.Job == b.Job })
		if !slices.Equal(got, want) || !same {
			t.Fatalf("until %v: %v, want %v of %+v", until, got, want, w.Gowns)
		}
	})
}

// Jobs are called by their files, without folder and extension where that tells them apart; the standard input by
// its own name.
func TestNamesOfSeveralJobs(t *testing.T) {
	for _, c := range []struct{ args, want []string }{
		{[]string{"a/moon.toml", "b/pier.toml"}, []string{"moon", "pier"}},
		{[]string{"a/moon.toml", "b/moon.toml", "c/pier"}, []string{"a/moon.toml", "b/moon.toml", "pier"}},
		{[]string{"-", "moon.toml"}, []string{"stdin", "moon"}}, {[]string{"moon.v2.toml"}, []string{"moon.v2"}},
		{[]string{"moon.toml", "moon"}, []string{"moon.toml", "moon"}},
	} {
		if got := namesOf(c.args); !slices.Equal(got, c.want) {
			t.Errorf("%q are called %q, want %q", c.args, got, c.want)
		}
	}
}

// --bought and --lot name cloths of the job; lengths count in the unit of the counter where they have none.
func TestWhatWasBoughtIsNamedByCloth(t *testing.T) {
	j := &job.Job{Cloths: []job.Cloth{{ID: "satin"}, {ID: "net"}}}
	j.Cloths[0].Offer.Per, j.Cloths[1].Offer.Per = measure.Yard, measure.Metre
	c := cutOptions{bought: []string{"satin=4 3/4", "net= 2 ", "satin=90 cm"}, lots: []string{"net=A=7"}}
	bought, lots, err := c.named(j)
	if err != nil || len(bought) != 2 || bought["satin"] != 900 || bought["net"] != 2000 || lots["net"] != "A=7" ||
		len(lots) != 1 {
		t.Errorf("%v, %v, %v", bought, lots, err)
	}
	const names = "the id of a cloth of the job, = and a value: satin, net"
	for one, hint := range map[string]string{"satin": names, "silk=3 yd": names, "satin= ": names, "=3": names,
		"satin=much": `for example satin="4 3/4 yd"`, "satin=0": `for example satin="4 3/4 yd"`} {
		_, _, err := cutOptions{bought: []string{one}}.named(j)
		var usage *usageError
		if !errors.As(err, &usage) || usage.hint != hint || !strings.HasPrefix(usage.what, "--bought cannot be \""+one+"\"") {
			t.Errorf("%q: %v", one, err)
		}
	}
	var usage *usageError
	if _, _, err := (cutOptions{lots: []string{"silk=3"}}).named(j); !errors.As(err, &usage) ||
		usage.what != `--lot cannot be "silk=3"` || usage.hint != names {
		t.Errorf("%v", err)
	}
}

// A length that was taken keeps how it was typed, and has its unit where it counts in one that is not said.
func TestLengthsKeepTheirSpelling(t *testing.T) {
	for text, want := range map[string]string{"4 3/4": "4 3/4 yd", " 4.5 ": "4.5 yd", "4 m": "4 m", " 90 cm": "90 cm"} {
		if got, err := withUnit(text, measure.Yard); err != nil || got != want {
			t.Errorf("%q is kept as %q, %v", text, got, err)
		}
	}
	if got, err := withUnit("30", measure.Inch); err != nil || got != "30 in" {
		t.Errorf("30 in is kept as %q, %v", got, err)
	}
	for _, text := range []string{"", "much", "0", "-1", "1000000 m"} {
		if got, err := withUnit(text, measure.Yard); err == nil {
			t.Errorf("%q is kept as %q", text, got)
		}
	}
}

// What is promised to a job are the leftovers of the room that its cloths lie on, each once; those of the job
// itself, and a shelf that is left alone, are not.
func TestLeftoversOfTheRoomThatAreUsed(t *testing.T) {
	room := &job.Workroom{File: "workroom.toml"}
	have := func(name, file string) job.Have {
		h := job.Have{Name: name}
		h.At.File = file
		return h
	}
	laid := func(verdict shelf.Verdict, cuts ...string) plan.Laid {
		l := plan.Laid{Shelf: &shelf.Use{Verdict: verdict}}
		l.Task.Spread.Cloth.Have = []job.Have{have("end", room.File), have("own", ""), have("rest", room.File)}
		for _, name := range cuts {
			l.Shelf.Cuts = append(l.Shelf.Cuts, shelf.Cut{Length: shelf.Length{Name: name}})
		}
		return l
	}
	var got []string
	for _, h := range fromRoom([]plan.Laid{{}, laid(shelf.Idle, "rest"), laid(shelf.Helps, "end", "own"),
		laid(shelf.Enough, "end")}, room) {
		got = append(got, h.Name)
	}
	if !slices.Equal(got, []string{"end"}) {
		t.Errorf("promised are %q", got)
	}
}
