package workroom

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	_ "yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
)

// gownBooks are ways in which a book may write its gowns; %s is a comment that has to stay.
var gownBooks = []string{
	"unit = \"in\" %s\n",
	"unit = \"in\"\n[[gown]] %s\njob = \"other.toml\"\nprice = \"7.00\"\n",
	"unit = \"in\"\n[[gown]]\njob = \"pier.toml\" %s\n[gown.cut]\non = 2026-01-02\n[[gown]]\njob = \"other.toml\"\n",
	"unit = \"in\"\n[[gown]]\njob = \"pier.toml\"\n[gown.took] %s\non = 2026-01-02\nhours = 3\n[[gown.took.cloths]]\n" +
		"cloth = \"net\"\nlength = \"3 yd\"\n",
	"unit = \"in\"\ngown = [ { job = \"pier.toml\", took = { on = 2026-01-02, cloths = [ { cloth = \"net\" } ] } } ] %s\n",
	"unit = \"in\"\n[[gown]]\njob = \"pier.toml\"\nprice = \"1.00\" %s\nfittings = [\n  2026-02-01, # first\n]\n" +
		"paid = [ { on = 2026-02-01, amount = \"1.00\" } ]\ntook.on = 2026-02-02\n",
}

func someDay(t *rapid.T) job.Date {
	return job.Date{Year: 2026, Month: time.Month(rapid.IntRange(1, 12).Draw(t, "month")),
		Day: rapid.IntRange(1, 28).Draw(t, "day")}
}

func someMoney(t *rapid.T) cost.Money {
	return cost.Money{Minor: rapid.Int64Range(0, 99999).Draw(t, "minor"), Currency: "USD"}
}

// However a book writes its gowns, what is agreed, paid and taken is read back as it was told, all else is as it was,
// and comments stay.
func TestWhatIsToldOfAGownIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const comment = "# as she said"
		src := []byte(fmt.Sprintf(rapid.SampledFrom(gownBooks).Draw(t, "book"), comment))
		w, err := job.ReadWorkroom("workroom.toml", src)
		if err != nil {
			t.Fatal(err)
		}
		var o Order
		want, _ := w.Gown("pier.toml")
		if rapid.Bool().Draw(t, "priced") {
			price := someMoney(t)
			o.Price, want.Price = &price, price
		}
		if rapid.Bool().Draw(t, "due") {
			o.Deliver = someDay(t)
			want.Deliver = o.Deliver
		}
		for range rapid.IntRange(0, 3).Draw(t, "fittings") {
			if d := someDay(t); !slices.Contains(want.Fittings, d) {
				o.Fittings = append(o.Fittings, d)
				want.Fittings = append(want.Fittings, d)
			}
		}
		for range rapid.IntRange(0, 3).Draw(t, "payments") {
			p := job.Payment{On: someDay(t), Amount: someMoney(t)}
			o.Paid, want.Paid = append(o.Paid, p), append(want.Paid, p)
		}
		if src, err = o.Into(src, w, "room/pier.toml"); err != nil {
			t.Fatal(err)
		}
		if w, err = job.ReadWorkroom("workroom.toml", src); err != nil {
			t.Fatalf("%v\n%s", err, src)
		}
		took := Took{On: someDay(t), Hours: cost.Decimal(rapid.IntRange(1, 400000).Draw(t, "hours")), Cloths: []TookCloth{
			{Cloth: "net", Length: "2 1/2 yd", Planned: "2 yd"}, {Cloth: "satin", Price: "13.90/yd"}}}
		if src, err = took.Into(src, w, "pier.toml"); err != nil {
			t.Fatal(err)
		}
		if w, err = job.ReadWorkroom("workroom.toml", src); err != nil {
			t.Fatalf("%v\n%s", err, src)
		}
		got, _ := w.Gown("pier.toml")
		if got.Took == nil || got.Took.On != took.On || got.Took.Hours != took.Hours || len(got.Took.Cloths) != 2 ||
			got.Took.Cloths[0].Length != 2.5*914.4 || got.Took.Cloths[0].Planned != 2*914.4 ||
			got.Took.Cloths[1].Price.Minor != 1390 {
			t.Fatalf("%+v\n%s", got.Took, src)
		}
		want.Job, want.At, want.Took, got.Took = "pier.toml", got.At, nil, nil
		if want.Cut != nil {
			want.Cut.At = got.Cut.At
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatalf("%s\n%s", diff, src)
		}
		other, ok := w.Gown("other.toml")
		if ok && (other.Took != nil || other.Paid != nil || other.Fittings != nil) {
			t.Fatalf("%+v was told of another gown", other)
		}
		if !strings.Contains(string(src), comment) {
			t.Fatalf("a comment is lost:\n%s", src)
		}
	})
}
