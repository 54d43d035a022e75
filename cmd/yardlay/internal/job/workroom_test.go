package job

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cost"
	"yardlay/shapes/measure"
)

// aRoom is a book with a table of every kind.
const aRoom = `# our room
unit = "in"
currency = "EUR"
prices_hold = 120

[labour]
hours = 10
rate = "24.00/h"

[quote]
overhead = "15 %"

[[supplier]]
name = "mill"
shipping = "8.50"
[[supplier]]
name = "far away"

[[notion]]
name = "thread"
count = 2
price = "1.50/each"

[[cloth]]
id = "moon-satin"
title = "bridal satin"
width = "58"
selvedge = "1/2"
shrinkage = { warp = "-3 %", by = "prewash" }
price = "13.50/yd"
priced = 2026-03-01
supplier = "mill"
offers = [ { supplier = "far away", price = "11.80/yd", priced = 2026-10-02 } ]
[[cloth]]
id = "net"
width = "60"

[[person]]
name = "mara"
[[person.measured]]
on = 2026-09-01
waist_girth = "27"
[[person.measured]]
on = 2026-05-01
waist_girth = "26 1/2"
hip_girth = "38"

[[leftover]]
name = "moon-satin 7"
cloth = "moon-satin"
lot = "B"
length = "40"
width = "30"
flaws = [ { from = "1", to = "2" } ]
from = "lantern.toml"
on = 2026-11-29
promised = "pier.toml"
[[leftover]]
name = "moon-satin 8"
cloth = "moon-satin"
outline = [[0, 0], [0, 400], [900, 400]]
[[leftover]]
name = "moon-satin 9"
cloth = "moon-satin"
length = "1 yd"

[[gown]]
job = "lantern.toml"
ordered = 2026-10-01
deliver = 2026-12-20
fittings = [2026-11-20, 2026-12-10]
price = "840.00"
deposit = "400.00"
paid = [ { on = 2026-10-02, amount = "400.00" } ]
[gown.cut]
on = 2026-11-29
cloths = [ { cloth = "moon-satin", length = "4 1/2 yd", lot = "B", used = ["moon-satin 3"] } ]
[gown.took]
on = 2026-12-01
hours = 21
planned_hours = 18.5
cloths = [ { cloth = "moon-satin", planned = "4 1/2 yd", length = "4 3/4 yd", price = "13.90/yd" } ]
`

func readRoom(t *testing.T, src string) *Workroom {
	t.Helper()
	w, err := ReadWorkroom(WorkroomFile, []byte(src))
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func TestAWorkroomIsRead(t *testing.T) {
	w := readRoom(t, aRoom)
	if w.Unit != measure.Inch || w.Currency != "EUR" || w.PricesHold != 120 || len(w.Cloths) != 2 {
		t.Errorf("%+v", w)
	}
	satin, _ := w.Cloth("moon-satin")
	if satin.Width != 58*25.4 || satin.Offers[0].Priced != (Date{2026, time.March, 1}) ||
		satin.Offers[1].Priced.String() != "2026-10-02" || satin.Shrinkage.Warp != -0.03 {
		t.Errorf("%+v", satin)
	}
	mara, _ := w.Person("mara")
	inches := func(measures map[string]float64) map[string]float64 {
		in := map[string]float64{}
		for name, mm := range measures {
			in[name] = math.Round(mm/25.4*1e6) / 1e6
		}
		return in
	}
	for _, c := range []struct {
		by   Date
		want map[string]float64
	}{
		{Date{}, map[string]float64{"waist_girth": 27, "hip_girth": 38}},
		{Date{2026, time.August, 31}, map[string]float64{"waist_girth": 26.5, "hip_girth": 38}},
		{Date{2026, time.September, 1}, map[string]float64{"waist_girth": 27, "hip_girth": 38}},
		{Date{2026, time.April, 30}, map[string]float64{}},
	} {
		if got := inches(mara.Measures(c.by)); !cmp.Equal(got, c.want) {
			t.Errorf("by %v: %v, not %v", c.by, got, c.want)
		}
	}
	if l := w.Leftovers[1]; l.Length != 900 || l.Width != 400 || len(l.Outline) != 4 || l.Outline[1][0] != 900 {
		t.Errorf("an outline that runs the other way round: %+v", l)
	}
	if l := w.Leftovers[0]; l.Lot != "B" || l.Promised != "pier.toml" || l.From != "lantern.toml" || len(l.Flaws) != 1 {
		t.Errorf("%+v", l)
	}
	g, ok := w.Gown("room/lantern.toml")
	if !ok || g.Price != (cost.Money{Minor: 84000, Currency: "EUR"}) || len(g.Fittings) != 2 ||
		g.Paid[0].Amount.Minor != 40000 ||
		g.Cut.Cloths[0].Length != 4.5*measure.Yards || g.Cut.Cloths[0].Used[0] != "moon-satin 3" ||
		g.Took.Hours != cost.Whole(21) || g.Took.Cloths[0].Length != 4.75*measure.Yards ||
		g.Took.Cloths[0].Per != measure.Yard {
		t.Errorf("%+v", g)
	}
}

// What is wrong with a book is told at its place, with what would mend it.
func TestAWorkroomIsReadStrictly(t *testing.T) {
	for _, c := range []struct{ was, is, want string }{
		{"on = 2026-11-29\npromised", "on = \"2026-11-29\"\npromised", "56:6: `on` must be a date, without quotes, not text"},
		{"ordered = 2026-10-01", "ordered = 2026-10-01T10:00:00", "`ordered` must be a date, without quotes, not a time"},
		{"ordered = 2026-10-01", "ordered = 2026-02-30", "not TOML"},
		{"ordered = 2026-10-01", "orderd = 2026-10-01", "gown `lantern.toml` has no key `orderd`"},
		{"deliver = 2026-12-20", "deliver = 2026-09-20", "is to be delivered 2026-09-20, before it was ordered 2026-10-01"},
		{`deposit = "400.00"`, `deposit = "840.01"`,
			"73:11: gown `lantern.toml` has a deposit of 840.01 EUR, more than its price of 840.00 EUR"},
		{`name = "moon-satin 8"`, `name = "moon-satin 7"`, "leftover `moon-satin 7` is already on line"},
		{`id = "net"`, `id = "moon-satin"`, "cloth `moon-satin` is already on line"},
		{`id = "net"`, "id = \"net\"\nhave = []", "cloth `net` has no key `have`"},
		{"cloth = \"moon-satin\"\noutline", "cloth = \"moon-satn\"\noutline", "there is no cloth \"moon-satn\""},
		{"[900, 400]]", "[900, 400], [0, -1]]", "a corner at 0, -1 is not on any cloth"},
		{"[900, 400]]", `["9", 400]]`, "each point is a list of two numbers"},
		{"[0, 400], [900, 400]]", "[900, 400], [900, 0], [0, 400]]", "leftover `moon-satin 8`: "},
		{"[900, 400]]", "[900, 1600]]", "lies up to 63 in across, the cloth is 58 in wide"},
		{"outline = ", "length = 3\noutline = ", "has both `outline` and `length`"},
		{"on = 2026-09-01", "on = 2026-05-01", "`on` is the day of another one"},
		{`waist_girth = "27"`, `waist_girth = "9"`, "people measure"},
		{`supplier = "mill"`, `supplier = "mil"`, "there is no supplier \"mil\""},
		{`from = "lantern.toml"`, `from = "../lantern.toml"`, "not a file in the workroom"},
		{"prices_hold = 120", "prices_hold = 0", "`prices_hold` cannot be 0"},
		{"unit = \"in\"\n", "", "the workroom lacks `unit`"},
		{"[[gown]]\njob = \"lantern.toml\"", "[[gown]]", "gown 1 lacks `job`"},
		{"paid = [ { on = 2026-10-02, ", "paid = [ { ", "payment 1 of gown `lantern.toml` lacks `on`"},
	} {
		src := strings.Replace(aRoom, c.was, c.is, 1)
		if src == aRoom {
			t.Errorf("%q is not in the book", c.was)
		}
		if _, err := ReadWorkroom(WorkroomFile, []byte(src)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s:\n%v\nwant %s", c.is, err, c.want)
		}
	}
	if _, err := ReadWorkroom(WorkroomFile, make([]byte, MaxWorkroom+1)); err == nil {
		t.Error("a file that is far too long is read")
	}
}

// inRoom reads a job that stands beside a book.
func inRoom(t *testing.T, room, src string) (*File, error) {
	t.Helper()
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, WorkroomFile), []byte(room), 0o644); err != nil {
		t.Fatal(err)
	}
	return Read(filepath.Join(dir, "pier.toml"), []byte(src))
}

// aJob takes its cloth and its body from the room, and counts otherwise than that.
const aJob = `unit = "cm"
[body]
from = "mara"
[allowance]
seam = 1
hem = 2
[[cloth]]
id = "satin"
from = "moon-satin"
[[part]]
name = "skirt"
draft = "circle-skirt"
cloth = "satin"
circle = "half"
length = 60
`

// A job in a room is what it would be with all that it takes from there written in it.
func TestAJobTakesFromItsWorkroom(t *testing.T) {
	f, err := inRoom(t, aRoom, aJob)
	if err != nil {
		t.Fatal(err)
	}
	j := f.Job()
	satin := j.Cloths[0]
	if satin.From != "moon-satin" || satin.ID != "satin" || satin.Width != 58*25.4 || satin.Title != "bridal satin" ||
		satin.Shrinkage.Warp != -0.03 || len(satin.Offers) != 2 || satin.Offers[0].Priced.IsZero() {
		t.Errorf("%+v", satin)
	}
	if got := j.Bodies[0]; got.From != "mara" || got.Measures["waist_girth"] != 27*25.4 ||
		got.Measures["hip_girth"] != 38*25.4 {
		t.Errorf("%+v", got)
	}
	if j.Room == nil || j.Currency != "EUR" || j.Labour.Hours != cost.Whole(10) || len(j.Suppliers) != 2 ||
		filepath.Base(j.RatesFrom) != WorkroomFile {
		t.Errorf("%+v", j)
	}
	var names []string
	for _, h := range satin.Have {
		names = append(names, h.Name)
	}
	if want := []string{"moon-satin 9", "moon-satin 7", "moon-satin 8"}; !cmp.Equal(names, want) {
		t.Errorf("from the shelf: %q, not %q: a promise to the job itself is kept", names, want)
	}
}

// A leftover that was washed is as wide as the cloth is then.
func TestWashedOutlines(t *testing.T) {
	for _, c := range []struct {
		weft, washed string
		width        int
		ok           bool
	}{
		{"+5 %", "true", 1050, true}, {"+5 %", "true", 1051, false}, {"+5 %", "false", 1001, false},
		{"-5 %", "true", 951, false}, {"-5 %", "true", 950, true},
	} {
		src := fmt.Sprintf("unit = \"cm\"\n[[cloth]]\nid = \"net\"\nwidth = 100\n"+
			"shrinkage = { weft = %q, by = \"prewash\" }\n"+
			"[[leftover]]\nname = \"net 1\"\ncloth = \"net\"\noutline = [[0, 0], [900, 0], [0, %d]]\nwashed = %s\n",
			c.weft, c.width, c.washed)
		if _, err := ReadWorkroom(WorkroomFile, []byte(src)); (err == nil) != c.ok {
			t.Errorf("%s, washed %s, %d mm: %v", c.weft, c.washed, c.width, err)
		}
	}
}

// What was used is on the shelf no more, and what is promised to another job is not for this one.
func TestLeftoversThatAreGone(t *testing.T) {
	for _, key := range []string{"used", "promised"} {
		gone := strings.Replace(aRoom, "length = \"1 yd\"", "length = \"1 yd\"\n"+key+" = \"other.toml\"", 1)
		f, err := inRoom(t, gone, aJob)
		if err != nil {
			t.Fatal(err)
		}
		for _, h := range f.Job().Cloths[0].Have {
			if h.Name == "moon-satin 9" {
				t.Errorf("%s: moon-satin 9 is taken", key)
			}
		}
	}
}

// Keys beside `from` win, and so do changes, within tables of the room too.
func TestWhatAJobSaysItselfWins(t *testing.T) {
	own := strings.Replace(aJob, `from = "mara"`, "from = \"mara\"\nwaist_girth = 70", 1)
	own = strings.Replace(own, `from = "moon-satin"`, "from = \"moon-satin\"\nprice = \"9.00/m\"\nwidth = 140", 1)
	f, err := inRoom(t, aRoom, own)
	if err != nil {
		t.Fatal(err)
	}
	satin := f.Job().Cloths[0]
	if satin.Width != 1400 || satin.Offer.Price.Minor != 900 || !satin.Offers[0].Priced.IsZero() ||
		f.Job().Bodies[0].Measures["waist_girth"] != 700 || satin.Offers[0].Supplier != "mill" {
		t.Errorf("%+v", satin)
	}
	j, err := f.With([]Change{{"satin.shrinkage.warp", "-5 %"}, {"body.hip_girth", "100"}})
	if err != nil {
		t.Fatal(err)
	}
	if s := j.Cloths[0].Shrinkage; s.Warp != -0.05 || !s.Prewash || j.Bodies[0].Measures["hip_girth"] != 1000 {
		t.Errorf("%+v", s)
	}
	for key, want := range map[string]string{"satin.selvedge": "1/2 in", "satin.width": "140",
		"satin.shrinkage.warp": "-3 %", "body.hip_girth": "38 in", "satin.lay": ""} {
		if got, _ := f.Written(key); got != want {
			t.Errorf("%s is written %q, not %q", key, got, want)
		}
	}
	j, err = f.With([]Change{{"satin.from", "net"}, {"satin.width", "100"}})
	if err != nil || j.Cloths[0].From != "net" || j.Cloths[0].Width != 1000 || j.Cloths[0].Shrinkage != (Shrinkage{}) {
		t.Errorf("%v %+v", err, j)
	}
	var bad *ChangeError
	_, err = f.With([]Change{{"satin.from", "nett"}})
	if !errors.As(err, &bad) || !strings.Contains(err.Error(), "`net`") {
		t.Errorf("%v", err)
	}
}

// What a job cannot take from its room is told where the job asks for it, once; what is
// wrong in the room, there.
func TestWhatAJobCannotTake(t *testing.T) {
	for _, c := range []struct{ room, job, want string }{
		{aRoom, strings.Replace(aJob, `"mara"`, `"maro"`, 1), "pier.toml:3:8: [body]: the workroom has no person \"maro\"\n" +
			"  hint: did you mean `mara`?"},
		{aRoom, strings.Replace(aJob, `"moon-satin"`, `"velvet"`, 1),
			"pier.toml:9:8: cloth `satin`: the workroom has no cloth"},
		{aRoom, "currency = \"USD\"\n" + aJob, "the workroom counts in EUR and the job in USD"},
		{aRoom, strings.Replace(aJob, `from = "moon-satin"`, "from = \"moon-satin\"\nselvedge = 90", 1),
			"pier.toml:10:12: two selvedges"},
		{strings.Replace(aRoom, `width = "58"`, `width = "5 miles"`, 1), aJob, "workroom.toml:27:9: `width`"},
		{strings.Replace(aRoom, `width = "58"`, `width = "58`, 1), aJob, "workroom.toml:27:"},
	} {
		_, err := inRoom(t, c.room, c.job)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v\nwant %s", err, c.want)
		} else if wrong := (strict.Errors)(nil); errors.As(err, &wrong) && len(wrong) > 1 {
			t.Errorf("%d errors: %v", len(wrong), err)
		}
	}
	_, err := Read("pier.toml", []byte(aJob))
	if err == nil || !strings.Contains(err.Error(), "no workroom.toml stands beside the job") {
		t.Errorf("without a room: %v", err)
	}
}

// A job of another currency leaves the rates of the room alone, and one with rates of its
// own takes them and the suppliers that its cloth needs.
func TestRatesOfAWorkroom(t *testing.T) {
	plain := strings.Replace(aJob, `from = "moon-satin"`, "width = 150", 1)
	plain = strings.Replace(plain, `from = "mara"`, "waist_girth = 70", 1)
	f, err := inRoom(t, aRoom, "currency = \"USD\"\n"+plain)
	if err != nil || f.Job().RatesFrom != "" || f.Job().Labour.Hours != 0 {
		t.Errorf("%v %+v", err, f)
	}
	f, err = inRoom(t, aRoom, plain)
	if err != nil || f.Job().RatesFrom == "" || f.Job().Labour.Hours != cost.Whole(10) || len(f.Job().Suppliers) != 0 {
		t.Errorf("%v %+v", err, f)
	}
	dir := t.TempDir()
	own := "currency = \"EUR\"\n[labour]\nhours = 3\nrate = \"10.00/h\"\n"
	for name, src := range map[string]string{WorkroomFile: aRoom, "own.toml": own} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(src), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	f, err = Read(filepath.Join(dir, "pier.toml"), []byte("rates = \"own.toml\"\n"+aJob))
	if err != nil || f.Job().Labour.Hours != cost.Whole(3) || len(f.Job().Suppliers) != 2 {
		t.Errorf("%v %+v", err, f)
	}
}

// Of a shelf with more leftovers of a cloth than are tried, the largest are, and the job
// knows how many are not.
func TestTheLargestLeftoversAreTried(t *testing.T) {
	room := "unit = \"cm\"\n[[cloth]]\nid = \"moon-satin\"\nwidth = 150\n[[person]]\nname = \"mara\"\n" +
		"[[person.measured]]\non = 2026-01-01\nwaist_girth = 70\n"
	for i := range 40 {
		room += fmt.Sprintf("[[leftover]]\nname = \"l%d\"\ncloth = \"moon-satin\"\nlength = %d\n", i, 10+i)
	}
	f, err := inRoom(t, room, aJob)
	if err != nil {
		t.Fatal(err)
	}
	c := f.Job().Cloths[0]
	if len(c.Have) != mostHave || c.Untried != 40-mostHave || c.Have[0].Name != "l39" || c.Have[mostHave-1].Name != "l8" {
		t.Errorf("%d, %d untried, from %v to %v", len(c.Have), c.Untried, c.Have[0], c.Have[len(c.Have)-1])
	}
}
