package workroom

import (
	"strings"
	"testing"
	"time"

	"yardlay/cmd/yardlay/internal/job"
)

const setBook = `# our book
unit = "in"

[[cloth]] # the good one
id    = "moon-satin"
width = "58"
price = "13.50/yd"   # at the counter

[[person]]
name = "mara"
[[person.measured]]
on = 2026-05-01 # after the summer
waist_girth = "26 1/2"

[[gown]]
job = "pier.toml"
`

// Changes go where they belong and leave all else; a price takes its day with it, a measure goes to the table of its
// day.
func TestSet(t *testing.T) {
	on := job.Date{Year: 2026, Month: time.November, Day: 29}
	for _, c := range []struct{ change, was, is string }{
		{"cloth.moon-satin.price=14.00/yd", `price = "13.50/yd"   # at the counter`,
			"price = \"14.00/yd\"   # at the counter\npriced = 2026-11-29"},
		{"moon-satin.width=60", `width = "58"`, `width = "60"`},
		{"moon-satin.bolt.length=25 yd", `price = "13.50/yd"   # at the counter`,
			"price = \"13.50/yd\"   # at the counter\nbolt  = { length = \"25 yd\" }\npriced = 2026-11-29"},
		{"gown.pier.toml.deliver=2026-12-20", `job = "pier.toml"`, "job = \"pier.toml\"\ndeliver = 2026-12-20"},
		{"prices_hold=90", `unit = "in"`, "unit = \"in\"\nprices_hold = 90"},
		{"person.mara.waist_girth=27", `waist_girth = "26 1/2"`,
			"waist_girth = \"26 1/2\"\n[[person.measured]]\non = 2026-11-29\nwaist_girth = \"27\""},
		{"person.mara.unusual=true", `name = "mara"`, "name = \"mara\"\nunusual = true"},
	} {
		key, value, _ := strings.Cut(c.change, "=")
		out, err := Set([]byte(setBook), []job.Change{{Key: key, Value: value}}, on)
		if err != nil {
			t.Errorf("%s: %v", c.change, err)
			continue
		}
		if want := strings.Replace(setBook, c.was, c.is, 1); string(out) != want {
			t.Errorf("%s:\n%s\nwant\n%s", c.change, out, want)
		}
	}
}

// Two measures of one day stand in one table, and what is new has a table of its own.
func TestSetSeveral(t *testing.T) {
	on := job.Date{Year: 2026, Month: time.November, Day: 29}
	src, err := Add([]byte(setBook), Added{"person", "nora"})
	if err != nil {
		t.Fatal(err)
	}
	src, err = Set(src, []job.Change{{Key: "person.nora.waist_girth", Value: "30"}, {Key: "nora.hip_girth", Value: "40"},
		{Key: "mara.hip_girth", Value: "95 cm"}, {Key: "mara.waist_girth", Value: "27"}}, on)
	if err != nil {
		t.Fatal(err)
	}
	w, err := job.ReadWorkroom(job.WorkroomFile, src)
	if err != nil {
		t.Fatalf("%v\n%s", err, src)
	}
	nora, _ := w.Person("nora")
	mara, _ := w.Person("mara")
	if len(nora.Measured) != 1 || len(mara.Measured) != 2 || nora.Measures(on)["hip_girth"] != 40*25.4 ||
		mara.Measures(on)["hip_girth"] != 950 || nora.Measured[0].On != on {
		t.Errorf("%s", src)
	}
}

func TestSetRefuses(t *testing.T) {
	for change, want := range map[string]string{
		"person.nora.waist_girth=27": `there is no person called "nora"`,
		"moon-satn.price=3/yd":       "did you mean `moon-satin`?",
		"mara=3":                     "is a table, not a value",
		"moon-satin.price=":          "it is empty",
	} {
		key, value, _ := strings.Cut(change, "=")
		if out, err := Set([]byte(setBook), []job.Change{{Key: key, Value: value}}, job.Date{}); err == nil ||
			!strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v\n%s", change, err, out)
		}
	}
	if _, err := Add([]byte(setBook), Added{"gwon", "pier.toml"}); err == nil {
		t.Error("anything can be added")
	}
}
