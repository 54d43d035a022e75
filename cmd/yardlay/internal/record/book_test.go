package record

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
	"yardlay/shapes/measure"
)

// took is a gown of a book that is made on a day.
func took(name string, year int, month time.Month, day int) job.Gown {
	return job.Gown{Job: name, Took: &job.Took{On: job.Date{Year: year, Month: month, Day: day}}}
}

// What is made is listed by its day, whatever the order in the book; gowns of one day stay in that order. A year is
// from its first day to its last, and what nobody told is no gown made.
func TestGownsMadeInAYear(t *testing.T) {
	book := &job.Workroom{Gowns: []job.Gown{
		took("cape.toml", 2026, time.December, 31), took("veil.toml", 2025, time.December, 31), {Job: "agreed.toml"},
		took("b.toml", 2026, time.February, 9), took("a.toml", 2026, time.February, 9),
		took("first.toml", 2026, time.January, 1), took("next.toml", 2027, time.January, 1),
	}}
	for year, want := range map[int]string{
		2024: "", 2025: "veil.toml", 2026: "first.toml b.toml a.toml cape.toml",
		0: "veil.toml first.toml b.toml a.toml cape.toml next.toml",
	} {
		var names []string
		for _, g := range Made(book, year) {
			names = append(names, g.Job)
		}
		if got := strings.Join(names, " "); got != want {
			t.Errorf("of %d: %s, want %s", year, got, want)
		}
	}
}

// All that the book tells of a gown is there, a price as it was paid.
func TestWhatAGownTook(t *testing.T) {
	g := took("cape.toml", 2026, time.March, 5)
	g.Took.Hours, g.Took.PlannedHours = 215_000, 180_000
	g.Took.Cloths = []job.ClothTook{
		{Cloth: "satin", Planned: 4572, Length: 5029.2, Price: cost.Money{Minor: 1390, Currency: "USD"}, Per: measure.Yard},
		{Cloth: "net", Length: 3000, Price: cost.Money{Minor: 5, Currency: "JPY"}, Per: measure.Metre},
		{Cloth: "lining", Planned: 2000},
	}
	want := Gown{Job: "cape.toml", On: "2026-03-05", Hours: 215_000, Planned: 180_000, Cloths: []Cloth{
		{Name: "satin", Planned: 4572, Length: 5029.2, Price: "13.90/yd"},
		{Name: "net", Length: 3000, Price: "5/m"}, {Name: "lining", Planned: 2000}}}
	made, ok := Of(g)
	if diff := cmp.Diff(want, made); !ok || diff != "" {
		t.Errorf("%v %s", ok, diff)
	}
	// 5 1/2 yd of 5 yd; the sum has neither a price nor what is told in part
	lines := append(made.Lines(measure.Inch), New("2026", []Gown{made}, measure.Inch).All...)
	if diff := cmp.Diff([]Line{
		{"hours", "18", "21.5", "1.19", ""}, {"satin", "5 yd", "5 1/2 yd", "1.1", "13.90/yd"},
		{"net", "", "3 3/8 yd", "", "5/m"}, {"lining", "2 1/4 yd", "", "", ""},
		{"hours", "18", "21.5", "1.19", ""}, {"satin", "5 yd", "5 1/2 yd", "1.1", ""},
	}, lines); diff != "" {
		t.Error(diff)
	}
	if _, ok := Of(job.Gown{Job: "cape.toml"}); ok {
		t.Error("what nobody told is told")
	}
}

// How often a plan goes into what was taken, a half hundredth up; nothing is said where either is missing.
func TestTimes(t *testing.T) {
	for _, tt := range []struct {
		taken, planned int64
		want           string
	}{{0, 5, ""}, {5, 0, ""}, {7, 7, "1"}, {6, 5, "1.2"}, {1, 3, "0.33"}, {2, 3, "0.67"}, {1, 200, "0.01"}, {1, 201, "0"},
		{100, 1, "100"}, {-1, 2, ""}} {
		if got := Times(big.NewRat(tt.taken, 1), big.NewRat(tt.planned, 1)); got != tt.want {
			t.Errorf("%d of %d: %q, want %q", tt.taken, tt.planned, got, tt.want)
		}
	}
}

// Each kind that is known has a word on its last gowns, in the order in which kinds come: two skirts took 12 of 10 h.
func TestNotesOfAYear(t *testing.T) {
	y := New("2026", []Gown{gown(t, "a", "skirt", "7", "5"), gown(t, "x", "", "9", "3"), gown(t, "b", "cape", "3", "3"),
		gown(t, "v", "veil", "0", "3"), gown(t, "o", otherKind, "1", "2"), gown(t, "c", "skirt", "5", "5"),
		gown(t, "p", otherKind, "1", "2")}, measure.Inch)
	if diff := cmp.Diff([]string{"The last two skirts took 1.2 of the planned hours.",
		"The last cape took 1 of the planned hours.",
		"The last two gowns of another kind took 0.5 of the planned hours."}, y.Notes); diff != "" {
		t.Error(diff)
	}
}

// A bar is what was planned and taken, and then what exceeds the plan or is left of it: together the greater of the
// two.
func TestBarsOfPlanAndFact(t *testing.T) {
	for _, tt := range []struct {
		taken, planned float64
		parts          map[int]float64
	}{
		{5, 5, map[int]float64{0: 5}}, {7, 5, map[int]float64{0: 5, 1: 2}}, {4, 5, map[int]float64{0: 4, 2: 1}},
	} {
		parts := map[int]float64{}
		for _, p := range bar("cape", tt.taken, tt.planned, "").Parts {
			parts[p.Of] += p.Value
		}
		if diff := cmp.Diff(tt.parts, parts); diff != "" {
			t.Errorf("%v of %v: %s", tt.taken, tt.planned, diff)
		}
	}
}

// Hours and cloths have a picture each, of what has both a plan and a fact; of more gowns than can be drawn the latest
// ones, and the picture says so.
func TestPicturesOfAYear(t *testing.T) {
	drawn := func(y Year) (all []string) {
		for _, d := range y.Pictures() {
			svg, err := d.SVG()
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, string(svg))
		}
		return all
	}
	half := Gown{Job: "half.toml", Hours: 10_000, Cloths: []Cloth{{Name: "net", Planned: 100}, {Name: "wool",
		Length: 100}}}
	if all := drawn(New("2026", []Gown{half}, measure.Inch)); len(all) != 0 {
		t.Errorf("%d pictures of nothing that has a plan and a fact", len(all))
	}
	named := gown(t, "b.toml", "cape", "3.5", "3")
	named.Title, named.Cloths = "Moon cape", []Cloth{{Name: "satin", Planned: 914.4, Length: 1828.8}}
	all := drawn(New("2026", []Gown{gown(t, "a.toml", "cape", "2", "3"), named, half}, measure.Inch))
	if len(all) != 2 {
		t.Fatalf("%d pictures", len(all))
	}
	for i, words := range [][]string{
		{"2026: hours of work", "a.toml", "Moon cape", "3.5 h of 3 h", "2 h of 3 h"},
		{"2026: lengths of cloth", "Moon cape: satin", "2 yd of 1 yd"},
	} {
		for _, w := range words {
			if !strings.Contains(all[i], ">"+w+"<") {
				t.Errorf("picture %d lacks %q", i+1, w)
			}
		}
		if strings.Contains(all[i], "half.toml") || strings.Contains(all[i], "The last") {
			t.Errorf("picture %d has what is told in part, or says that it is not all", i+1)
		}
	}
	var many []Gown
	for i := range mostBars + 2 {
		many = append(many, gown(t, fmt.Sprintf("g%03d.toml", i), "cape", "2", "3"))
	}
	svg := drawn(New("all", many, measure.Inch))[0]
	if got := []bool{strings.Contains(svg, "g001.toml"), strings.Contains(svg, "g002.toml"),
		strings.Contains(svg, "g101.toml"), strings.Contains(svg, ">The last 100 of 102.<")}; !slices.Equal(got,
		[]bool{false, true, true, true}) {
		t.Errorf("the latest 100 of 102, and a word on it: %v", got)
	}
}
