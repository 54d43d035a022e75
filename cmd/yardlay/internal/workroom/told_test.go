package workroom

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/edit"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
	"yardlay/shapes/measure"
)

// folderOf writes files side by side and reads one of them as a job.
func folderOf(t *testing.T, texts map[string]string, name string) *job.Job {
	t.Helper()
	dir := t.TempDir()
	for name, text := range texts {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	f, err := job.Read(filepath.Join(dir, name), []byte(texts[name]))
	if err != nil {
		t.Fatal(err)
	}
	return f.Job()
}

// skirtFor is a job for people of the workroom, each a table of [body] or of [[body]].
func skirtFor(head, bodies string) string {
	return "unit = \"cm\"\n" + head + bodies + `
[allowance]
seam = 1
hem = 2
[[cloth]]
id = "satin"
width = 150
[[part]]
name = "skirt"
draft = "circle-skirt"
cloth = "satin"
circle = "half"
length = 60
`
}

const oneBody = "[body]\nfrom = \"mara\"\n"

// maras are what Mara measured at three times: her waist 68, 70 and 70.5 cm, her hips 96 cm once.
const maras = `unit = "cm"
[[person]]
name = "mara"
[[person.measured]]
on = 2026-01-10
waist_girth = 68
hip_girth = 96
[[person.measured]]
on = 2026-03-10
waist_girth = 70
[[person.measured]]
on = 2026-05-10
waist_girth = 70.5
[[person]]
name = "nora"
[[person.measured]]
on = 2026-01-01
waist_girth = 80
`

// cutOn is a gown of the book that was cut on a day.
func cutOn(name, day string) string {
	return "[[gown]]\njob = \"" + name + "\"\n[gown.cut]\non = " + day + "\n"
}

// What has changed is told of whoever the job is for, since the last other job that was cut for her: jobs of others,
// those that were never cut or are gone, and the job itself do not count, nor what its own text says otherwise.
func TestHowPeopleHaveChanged(t *testing.T) {
	for _, tt := range []struct {
		name, gowns, job string
		others           map[string]string
		want             []string
	}{
		{"nothing was cut", "", skirtFor("", oneBody), nil, nil},
		{"the last of two", cutOn("old.toml", "2026-02-01") + cutOn("new.toml", "2026-04-01"), skirtFor("", oneBody),
			map[string]string{"old.toml": skirtFor("", oneBody), "new.toml": skirtFor("", oneBody)},
			[]string{"mara: waist girth 70.5 cm, was 70.0 cm when new.toml was cut 2026-04-01."}},
		{"the only one of hers", cutOn("old.toml", "2026-02-01") + cutOn("new.toml", "2026-04-01"), skirtFor("", oneBody),
			map[string]string{"old.toml": skirtFor("", "[[body]]\nfrom = \"nora\"\n[[body]]\nfrom = \"mara\"\n"),
				"new.toml": skirtFor("", "[body]\nfrom = \"nora\"\n")},
			[]string{"mara: waist girth 70.5 cm, was 68.0 cm when old.toml was cut 2026-02-01."}},
		{"since the last measures", cutOn("old.toml", "2026-06-01"), skirtFor("", oneBody),
			map[string]string{"old.toml": skirtFor("", oneBody)}, nil},
		{"the file is gone", cutOn("old.toml", "2026-02-01"), skirtFor("", oneBody), nil, nil},
		{"it is no job any more", cutOn("old.toml", "2026-02-01"), skirtFor("", oneBody), map[string]string{"old.toml": "=="},
			nil},
		{"it was agreed alone", "[[gown]]\njob = \"old.toml\"\n", skirtFor("", oneBody),
			map[string]string{"old.toml": skirtFor("", oneBody)}, nil},
		{"this job itself", cutOn("gown.toml", "2026-02-01"), skirtFor("", oneBody), nil, nil},
		{"the job says otherwise", cutOn("old.toml", "2026-02-01"), skirtFor("", oneBody+"waist_girth = 72\n"),
			map[string]string{"old.toml": skirtFor("", oneBody)}, nil},
		{"for nobody of the room", cutOn("old.toml", "2026-02-01"), skirtFor("", "[body]\nwaist_girth = 70\n"),
			map[string]string{"old.toml": skirtFor("", oneBody)}, nil},
	} {
		texts := map[string]string{job.WorkroomFile: maras + tt.gowns, "gown.toml": tt.job}
		for name, text := range tt.others {
			texts[name] = text
		}
		if got := Changed(folderOf(t, texts, "gown.toml"), measure.Centimetre); !slices.Equal(got, tt.want) {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
	alone := folderOf(t, map[string]string{"gown.toml": skirtFor("", "[body]\nwaist_girth = 70\n")}, "gown.toml")
	if got := append(Changed(alone, measure.Inch), Rates(alone)...); got != nil {
		t.Errorf("without a workroom: %q", got)
	}
}

// A price is told with whose it is and when it was asked, from the second day on how long ago.
func TestPricesAsAsked(t *testing.T) {
	usd := func(minor int64) cost.Money { return cost.Money{Minor: minor, Currency: "USD"} }
	march := job.Date{Year: 2026, Month: 3, Day: 1}
	cut := cost.Offer{Price: usd(1350), Per: measure.Yard}
	for _, tt := range []struct {
		of   job.Sourced
		on   job.Date
		want string
	}{
		{job.Sourced{Offer: cut}, march, "13.50/yd"},
		{job.Sourced{Offer: cut, Supplier: "mill", Priced: march}, march, "13.50/yd at mill, asked 2026-03-01"},
		{job.Sourced{Offer: cut, Priced: march}, job.Date{Year: 2026, Month: 3, Day: 2}, "13.50/yd, asked 2026-03-01"},
		{job.Sourced{Offer: cut, Priced: march}, job.Date{Year: 2026, Month: 3, Day: 3},
			"13.50/yd, asked 2026-03-01, 2 days ago"},
		// March to November: 31 + 30 + 31 + 30 + 31 + 31 + 30 + 31 + 28 days
		{job.Sourced{Offer: cost.Offer{Bolt: &cost.Bolt{Price: usd(9000)}}, Supplier: "mill", Priced: march},
			job.Date{Year: 2026, Month: 11, Day: 29}, "90.00 a bolt at mill, asked 2026-03-01, 273 days ago"},
	} {
		if got := Asked(tt.of, tt.on); got != tt.want {
			t.Errorf("%s, want %s", got, tt.want)
		}
	}
}

// A price that is older than prices are believed is told once, by the name of the cloth in the workroom and its
// counter.
func TestOldPricesAreTold(t *testing.T) {
	asked := job.Date{Year: 2026, Month: 1, Day: 1}
	old := job.Sourced{Priced: asked, Supplier: "mill"}
	j := &job.Job{Cloths: []job.Cloth{
		{ID: "satin", From: "moon-satin", Offers: []job.Sourced{old, {Priced: asked}}},
		{ID: "lining", From: "moon-satin", Offers: []job.Sourced{old}},
		{ID: "net", Offers: []job.Sourced{{}, {Priced: asked}}},
	}}
	hold := j.PricesHold()
	on := func(days int) job.Date {
		d := asked.Time().AddDate(0, 0, days)
		return job.Date{Year: d.Year(), Month: d.Month(), Day: d.Day()}
	}
	if got := OldPrices(j, on(hold)); got != nil {
		t.Errorf("on the last day that they are believed: %q", got)
	}
	const rest = " old. Ask again before you count on it."
	age := fmt.Sprintf(" is of 2026-01-01, %d days%s", hold+1, rest)
	want := []string{"The price of moon-satin at mill" + age, "The price of moon-satin" + age, "The price of net" + age}
	if got := OldPrices(j, on(hold+1)); !slices.Equal(got, want) {
		t.Errorf("%q\nwant %q", got, want)
	}
}

// What a job leaves on the shelf, and whose rates it counts with, is told a sentence each.
func TestNotesOnTheRoom(t *testing.T) {
	j := &job.Job{Currency: "EUR", Cloths: []job.Cloth{{ID: "satin"}, {ID: "net", From: "moon-net", Untried: 3,
		Have: make([]job.Have, 32)}, {ID: "lawn", From: "lawn", Untried: 1, Have: make([]job.Have, 2)}}}
	if got := Shelf(j); !slices.Equal(got, []string{
		"The shelf has 3 leftovers of moon-net besides, smaller than the 32 that are tried.",
		"The shelf has 1 leftover of lawn besides, smaller than the 2 that are tried."}) {
		t.Errorf("%q", got)
	}
	j.Room = &job.Workroom{File: "room/workroom.toml", Currency: "USD"}
	for from, want := range map[string]string{
		"room/workroom.toml": "Labour, terms, suppliers and notions that the job does not give are those of workroom.toml.",
		"": "workroom.toml counts in USD and the job in EUR, so its labour, terms and notions are left " +
			"alone.",
		"rates.toml": "",
	} {
		j.RatesFrom = from
		if got := strings.Join(Rates(j), "|"); got != want {
			t.Errorf("rates from %q: %q", from, got)
		}
	}
	j.RatesFrom, j.Room.Currency = "", "EUR"
	if got := Rates(j); got != nil {
		t.Errorf("%q", got)
	}
}

// The book calls a cloth as the workroom does, so that it is the same one in every job; two of one job keep their own
// names.
func TestWhatTheBookCallsACloth(t *testing.T) {
	one := &job.Job{Cloths: []job.Cloth{{ID: "outer", From: "moon-satin"}, {ID: "lining"}}}
	two := &job.Job{Cloths: []job.Cloth{{ID: "outer", From: "moon-satin"}, {ID: "inner", From: "moon-satin"}}}
	for want, got := range map[string]string{"moon-satin": CalledInBook(one, one.Cloths[0]),
		"lining": CalledInBook(one, one.Cloths[1]), "outer": CalledInBook(two, two.Cloths[0]),
		"inner": CalledInBook(two, two.Cloths[1])} {
		if got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

// A job to start from for somebody takes her measures from the book and gives none itself; for nobody it is as it is.
func TestStartersForSomebody(t *testing.T) {
	c, err := Starter("", "new.toml")
	if err != nil || string(c.Text) != string(job.Starter()) {
		t.Errorf("%v\n%s", err, c.Text)
	}
	// Whatever the starter cuts, she has all it needs.
	room := "unit = \"in\"\n[[person]]\nname = \"mara\"\n[[person.measured]]\non = 2026-05-01\n"
	for _, name := range job.MeasureNames() {
		if text, ok := edit.Written(job.Starter(), edit.Of("body", name)); ok {
			room += name + " = " + text + "\n"
		}
	}
	path := roomWith(t, room)
	c, err = Starter("mara", filepath.Join(filepath.Dir(path), "new.toml"))
	if err != nil {
		t.Fatal(err)
	}
	text := string(c.Text)
	if strings.Count(text, "[body]") != 1 || !strings.Contains(text, "from = \"mara\"") || strings.Contains(text,
		"_girth") {
		t.Errorf("%s", text)
	}
}

// A job for two people is no style for one: it says how many it is cut for, and what can be done.
func TestStylesOfSeveralPeople(t *testing.T) {
	src := []byte(skirtFor("", "[[body]]\nname = \"a\"\nwaist_girth = 70\n[[body]]\nname = \"b\"\nwaist_girth = 80\n"))
	_, err := Style(src, true, "mara", "new.toml")
	if err == nil || !strings.Contains(err.Error(), "the job is cut for 2 bodies") ||
		!strings.Contains(err.Error(), "give each [[body]] its `from`") {
		t.Error(err)
	}
	if _, err = Person(src, "new.toml"); err == nil || !strings.Contains(err.Error(), "the job is cut for 2 bodies") ||
		!strings.Contains(err.Error(), "by hand") {
		t.Error(err)
	}
}

// A cut is not taken back where what it left has gone elsewhere since, nor where what it used is not in the book as
// used for it; a job that is not cut has nothing to take back. The book stays, and the way out is told.
func TestCutsThatAreNotTakenBack(t *testing.T) {
	w := roomOf(t, []byte(shelved))
	cut, err := cutting([]job.Have{w.Leftovers[0].Have}, remnant(900, 400)).Into([]byte(shelved), w, "lantern.toml")
	if err != nil {
		t.Fatal(err)
	}
	left := roomOf(t, cut).Leftovers[len(w.Leftovers)].Name
	with := func(old, more string) string {
		text := strings.Replace(string(cut), old, more, 1)
		if text == string(cut) {
			t.Fatalf("no %q in\n%s", old, text)
		}
		return text
	}
	line := "name = \"" + left + "\"\n"
	for _, tt := range []struct{ name, book, file, what, hint string }{
		{"used since", with(line, line+"used = \"tide.toml\"\n"), "lantern.toml", "was used for tide.toml since",
			"`yardlay cut tide.toml --undo` first"},
		{"promised", with(line, line+"promised = \"tide.toml\"\n"), "lantern.toml", "is promised to tide.toml",
			"`yardlay shelf --release tide.toml` makes it free"},
		{"not used any more", with("used = \"lantern.toml\"\n", ""), "lantern.toml",
			"is not in the book as used for it", "used = \"lantern.toml\", then undo"},
		{"not cut", string(cut), "tide.toml", "tide.toml is not cut, by the book", "`yardlay cut tide.toml` says that it is"},
		{"not in the book", string(cut), "pier.toml", "pier.toml is not cut", ""},
	} {
		src, err := Uncut([]byte(tt.book), roomOf(t, []byte(tt.book)), tt.file)
		if err == nil || src != nil || !strings.Contains(err.Error(), tt.what) || !strings.Contains(err.Error(), tt.hint) {
			t.Errorf("%s: %v", tt.name, err)
		}
	}
	// What it left and is promised to the job itself, or is gone from the book, keeps nothing from being undone.
	for _, text := range []string{with(line, line+"promised = \"lantern.toml\"\n"), string(cut)} {
		if _, err := Uncut([]byte(text), roomOf(t, []byte(text)), "lantern.toml"); err != nil {
			t.Error(err)
		}
	}
}

// What stands in the way of reading a book says what it is, and how to begin one.
func TestBooksThatCannotBeRead(t *testing.T) {
	gone := filepath.Join(t.TempDir(), job.WorkroomFile)
	if _, _, err := Read(gone); err == nil || !strings.Contains(err.Error(), "there is no "+gone) ||
		!strings.Contains(err.Error(), "`yardlay workroom --new` writes one to start from") {
		t.Error(err)
	}
	folder := filepath.Join(t.TempDir(), job.WorkroomFile)
	if err := os.Mkdir(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	if _, _, err := Read(folder); err == nil || !strings.Contains(err.Error(), folder+" is no plain file") {
		t.Error(err)
	}
}
