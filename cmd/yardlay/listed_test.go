package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/record"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cmd/yardlay/internal/take"
	"yardlay/shapes/measure"
	"yardlay/shapes/outline"
	"yardlay/shapes/say"
)

// Faults of a drawing are told by their numbers, what stops first; of many those that fit at a glance, ends that were
// joined in one line, and all of them to who asks why.
func TestFaultsOfADrawing(t *testing.T) {
	fault := func(kind outline.FaultKind, n int) outline.Fault {
		return outline.Fault{Kind: kind, What: say.Textf("what %d", n), Hint: "mend", At: orb.Point{10, 20}, Place: "line 7"}
	}
	printed := func(why bool, faults ...outline.Fault) string {
		var out strings.Builder
		cm := measure.Centimetre
		p := takePrinter{listPrinter{&out, 80, cm}, &taken{Found: &take.Found{}, unit: cm}, why}
		p.Faults = faults
		p.faults()
		return out.String()
	}
	told := func(n int, kind outline.FaultKind) string {
		return fmt.Sprintf("fault %d, %v: what %d, at %s (line 7)\n  mend\n", n, kind, n, "(1.0 cm, 2.0 cm)")
	}
	mended, open := outline.Joined+1, outline.Open
	if open.Stops() == mended.Stops() {
		t.Fatal("what is mended stops")
	}
	if got := printed(false); got != "" {
		t.Errorf("no faults: %q", got)
	}
	few := []outline.Fault{fault(mended, 1), fault(open, 2), fault(outline.Joined, 3), fault(outline.Joined, 4)}
	const joined = "\nJoined where ends nearly met: 2 places (--why tells where).\n"
	if got, want := printed(false, few...), "\n"+told(2, open)+told(1, mended)+joined; got != want {
		t.Errorf("%s\nwant:%s", got, want)
	}
	if got, want := printed(true, few...), "\n"+told(2, open)+told(1, mended)+told(3, outline.Joined)+
		told(4, outline.Joined); got != want {
		t.Errorf("%s\nwant:%s", got, want)
	}
	if got, want := printed(false, few[2:]...), joined; got != want {
		t.Errorf("%s\nwant:%s", got, want)
	}
	var many []outline.Fault
	all := "\n"
	for n := range mostFaults + 2 {
		many = append(many, fault(open, n+1))
		if n < mostFaults {
			all += told(n+1, open)
		}
	}
	if got := printed(false, many[:mostFaults]...); got != all {
		t.Errorf("%s\nwant:%s", got, all)
	}
	if got, want := printed(false, many...), all+"(2 more: --why tells all)\n"; got != want {
		t.Errorf("%s\nwant:%s", got, want)
	}
	plain := outline.Fault{Kind: open, What: say.Textf("odd")}
	if got := printed(false, plain); got != fmt.Sprintf("\nfault 1, %v: odd\n", open) {
		t.Errorf("without place and hint: %s", got)
	}
}

// The unit of a drawing is said as what it is, and goes with inches or centimetres where nobody asks for others;
// what it calls a material becomes an id.
func TestUnitsAndIdsOfDrawings(t *testing.T) {
	for mm, want := range map[float64]string{25.4: "1 in", 25.4 / 72: "1/72 in", 25.4 / 96: "1/96 in", 1: "1 mm",
		10: "10 mm", 304.8: "304.8 mm", 0.2645: "0.2645 mm"} {
		if got := unitWords(mm); got != want {
			t.Errorf("%v mm are said as %q, want %q", mm, got, want)
		}
	}
	for material, want := range map[string]string{"Moon satin": "moon-satin", " LINING_2 ": "lining-2", "net-1": "net-1",
		"Käse": "kse", "": "cloth", "--": "cloth", "§": "cloth", "-a-": "a"} {
		if got := slug(material); got != want {
			t.Errorf("%q becomes %q, want %q", material, got, want)
		}
	}
}

// A table of plan and fact has its heads where there is a line, names too long for it in lines of their own, and the
// price behind; a year of several gowns has one of all.
func TestRecordsInATable(t *testing.T) {
	lines := []record.Line{{What: "hours", Planned: "20", Taken: "21", Times: "1.05"},
		{What: "a cloth of twenty-eight lett", Planned: "4 yd", Taken: "5 yd", Times: "1.25", Price: "10.00/yd"},
		{What: "a cloth of twenty-nine letter", Planned: "", Taken: "5 yd"}}
	const head = "                                   planned          took   times\n"
	const table = head + "  hours                                 20            21    1.05\n" +
		"  a cloth of twenty-eight lett        4 yd          5 yd    1.25  at 10.00/yd\n" +
		"  a cloth of twenty-nine letter\n                                                    5 yd\n"
	var out strings.Builder
	if printLines(&out, lines); out.String() != table {
		t.Errorf("%q\nwant\n%q", &out, table)
	}
	out.Reset()
	if printLines(&out, nil); out.Len() > 0 {
		t.Errorf("no lines: %q", &out)
	}
	gown := record.Gown{Job: "a.toml", Title: "Moon gown", On: "2026-05-01"}
	for n, want := range map[int]string{0: "w.toml tells of no gown what it took. `yardlay took JOB --hours 21` does.\n",
		1: "2026\n\na.toml, Moon gown, 2026-05-01\n\nso\n",
		2: "2026\n\na.toml, Moon gown, 2026-05-01\na.toml, Moon gown, 2026-05-01\n\nIn all, where both are told\n" + head +
			"  hours                                 20            21    1.05\n\nso\n"} {
		out.Reset()
		printYear(&out, record.Year{Title: "2026", Gowns: slices.Repeat([]record.Gown{gown}, n), All: lines[:1],
			Notes: []string{"so"}}, "w.toml")
		if out.String() != want {
			t.Errorf("%d gowns:\n%s\nwant:\n%s", n, &out, want)
		}
	}
}

// A ledger has items in one column and sums in the last, each with its head, banner, facts, details and notes; texts
// that would run into the amounts are wrapped before them.
func TestLedgersInColumns(t *testing.T) {
	l := sheet.Ledger{Title: "Moon gown: quote", Head: "USD", Banner: "For the workroom.", Facts: []string{"for 2 gowns"},
		Notes: []string{"so"}, Lines: []sheet.Entry{{Kind: sheet.EntryHead, Text: "Cloth"},
			{Text: "satin", Amount: "8.00", Detail: "1 yd at 8.00/yd"},
			{Text: "a lining of a name that is longer than the column is", Amount: "0.50"},
			{Kind: sheet.EntryHead, Text: "Labour"}, {Kind: sheet.EntrySum, Text: "Cost", Amount: "8.50"},
			{Kind: sheet.EntryTotal, Text: "Total", Amount: "8.50"}, {Kind: sheet.EntryNote, Text: "Deposit", Amount: "1.00"}}}
	const want = "For the workroom.\n\nMoon gown: quote\nfor 2 gowns\n\n" +
		"                                                         USD\nCloth\n" +
		"  satin                                     8.00\n    1 yd at 8.00/yd\n" +
		"  a lining of a name that is longer         0.50\n  than the column is\n\nLabour\n" +
		"Cost                                                    8.50\n" +
		"Total                                                   8.50\n" +
		"Deposit                                                 1.00\n\nso\n"
	var out strings.Builder
	if printLedger(&out, l, 60); out.String() != want {
		t.Errorf("%s\nwant:\n%s", &out, want)
	}
}

// A key is explained beside its name where a line has room for both, else below it.
func TestKeysBesideTheirNames(t *testing.T) {
	key := job.Keys()[slices.IndexFunc(job.Keys(), func(k job.Key) bool { return k.Name == "gap" })]
	for width, want := range map[int]string{60: "  gap                    length; default: ",
		59: "  gap\n      length; default: "} {
		var out strings.Builder
		if printKey(&out, key, width); !strings.HasPrefix(out.String(), want) {
			t.Errorf("in %d letters: %q", width, &out)
		}
		for line := range strings.Lines(out.String()) {
			if len(line)-1 > width {
				t.Errorf("%q is longer than %d", line, width)
			}
		}
	}
}

// Leftovers, and jobs that could be cut from them alone, are listed by cloth with all that is known.
func TestTheShelfInWords(t *testing.T) {
	l := lyingLeft{}
	l.Name, l.Length, l.Width, l.Area = "end", 1000, 500, 5e5
	if got := l.words(measure.Centimetre); !slices.Equal(got, []string{"100.0 cm x 50.0 cm, 0.50 sq m"}) {
		t.Errorf("%q", got)
	}
	l.Lot, l.From, l.Promised = "A7", "moon.toml", "pier.toml"
	if got := l.words(measure.Yard); !slices.Equal(got, []string{"39 1/4 in x 19 5/8 in, 0.60 sq yd", "lot A7",
		"from moon.toml", "promised to pier.toml"}) {
		t.Errorf("%q", got)
	}
	for want, e := range map[string]enoughFor{"yes, from end, rest": {Enough: true, From: []string{"end", "rest"}},
		"no: satin is not enough": {Why: "satin is not enough"}, "not in time": {Why: "not in time", Open: true}} {
		if got := e.words(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// What may still be cut of a room are the jobs of its book that are neither cut nor done, then those of its folder
// that it does not know.
func TestJobsOfARoomThatAreNotCut(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"a.toml", "b.toml", "z.toml", "y.toml", "note.txt", job.WorkroomFile} {
		if err := os.WriteFile(filepath.Join(dir, name), nil, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	w := &job.Workroom{Gowns: []job.Gown{{Job: "gone.toml"}, {Job: "b.toml", Cut: &job.WasCut{}}, {Job: "a.toml"},
		{Job: "y.toml", Took: &job.Took{}}}}
	names, err := uncutJobs(w, dir)
	for i := range names {
		names[i] = filepath.Base(names[i])
	}
	if err != nil || !slices.Equal(names, []string{"gone.toml", "a.toml", "z.toml"}) {
		t.Errorf("%q, %v", names, err)
	}
}
