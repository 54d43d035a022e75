package record

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
	"yardlay/shapes/measure"
)

func hours(t testing.TB, text string) cost.Decimal {
	t.Helper()
	d, err := cost.ParseDecimal(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// gown is one that took so many hours of those planned.
func gown(t testing.TB, name, kind, taken, planned string) Gown {
	t.Helper()
	return Gown{Job: name, Kind: kind, Hours: hours(t, taken), Planned: hours(t, planned)}
}

// By hand: of five skirts the last four count, 21 + 12 + 9 + 18 = 60 h of 18 + 10 + 8 + 14 = 50 h, 1.2 of the plan.
// Capes, and what has no plan, do not count among them.
func TestTheLastFour(t *testing.T) {
	made := []Gown{gown(t, "a", "skirt", "90", "10"), gown(t, "b", "skirt", "21", "18"), gown(t, "c", "skirt", "12", "10"),
		gown(t, "cape", "cape", "5", "8"), gown(t, "d", "skirt", "9", "8"), gown(t, "new", "skirt", "9", "0"),
		gown(t, "e", "skirt", "18", "14")}
	own, ok := Last(made, "skirt")
	if !ok || !slices.Equal(own.Gowns, []string{"e", "d", "c", "b"}) || own.Factor().Cmp(big.NewRat(6, 5)) != 0 {
		t.Errorf("%+v, %v", own, ok)
	}
	if got := own.Words(); got != "The last four skirts took 1.2 of the planned hours." {
		t.Error(got)
	}
	// 5/8, a half going up
	if own, _ := Last(made, "cape"); own.Words() != "The last cape took 0.63 of the planned hours." {
		t.Error(own.Words())
	}
	if _, ok := Last(made, "veil"); ok {
		t.Error("nobody made a veil")
	}
	if got := several("bodice and skirt"); got != "bodices and skirts" {
		t.Error(got)
	}
}

// Every draft is a garment, or of those that are sewn to one or make any.
func TestEveryDraftHasItsKind(t *testing.T) {
	sewnOn := strings.Fields(`strip godet flounce sleeve peplum waistband collar binding sash bow ties loops rectangle
		outline`)
	for _, s := range job.Reference() {
		if !s.Draft {
			continue
		}
		kind := KindOf(&job.Job{Parts: []job.Part{{Draft: s.Name}}})
		if (kind == otherKind) != slices.Contains(sewnOn, s.Name) {
			t.Errorf("`%s` is of kind %q", s.Name, kind)
		}
	}
	gown := &job.Job{Parts: []job.Part{{Draft: "circle-skirt"}, {Draft: "bodice-block"}, {Draft: "sleeve"}}}
	if got := KindOf(gown); got != "bodice and skirt" {
		t.Error(got)
	}
}

// Sums are those of the gowns that have both, whatever the order, and nothing is told of what is missing.
func TestSumsOfAYear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var gowns []Gown
		var taken, planned cost.Decimal
		var bought, laid float64
		for i := range rapid.IntRange(0, 8).Draw(t, "gowns") {
			g := Gown{Job: fmt.Sprint(i), On: "2026-01-01",
				Hours:   cost.Decimal(rapid.IntRange(0, 9).Draw(t, "took")) * 5000,
				Planned: cost.Decimal(rapid.IntRange(0, 9).Draw(t, "planned")) * 5000}
			c := Cloth{Name: "net", Planned: 914.4 * float64(rapid.IntRange(0, 9).Draw(t, "laid")),
				Length: 914.4 * float64(rapid.IntRange(0, 9).Draw(t, "bought"))}
			g.Cloths = []Cloth{c}
			if g.Told() {
				taken, planned = taken+g.Hours, planned+g.Planned
			}
			if c.Planned > 0 && c.Length > 0 {
				bought, laid = bought+c.Length, laid+c.Planned
			}
			gowns = append(gowns, g)
		}
		y := New("all", gowns, measure.Inch)
		want := map[string][2]string{}
		if planned > 0 {
			want["hours"] = [2]string{planned.String(), taken.String()}
		}
		if laid > 0 {
			want["net"] = [2]string{measure.FormatUp(laid, measure.Yard), measure.FormatUp(bought, measure.Yard)}
		}
		if len(y.All) != len(want) {
			t.Fatalf("%+v, want %v", y.All, want)
		}
		for _, l := range y.All {
			if want[l.What] != [2]string{l.Planned, l.Taken} {
				t.Fatalf("%+v, want %v", l, want)
			}
		}
		for _, d := range y.Pictures() {
			if _, err := d.SVG(); err != nil {
				t.Fatal(err)
			}
		}
	})
}
