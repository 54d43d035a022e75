package quote

import (
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/cost"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// A cloth may point more ways only where neither a pile nor a repeat forbids it, and only two ways for one.
func TestNapsThatMayBeFreer(t *testing.T) {
	for _, c := range []struct {
		id, title string
		nap, to   job.Nap
		repeat    float64
		want      bool
	}{
		{"satin", "Moon satin", job.OneWay, job.TwoWay, 0, true}, {"satin", "Moon satin", job.OneWay, job.AllWay, 0, false},
		{"satin", "Moon satin", job.TwoWay, job.TwoWay, 0, false}, {"satin", "Satin", job.OneWay, job.TwoWay, 90, false},
		{"cloth", "Silk VELVET, blue", job.OneWay, job.TwoWay, 0, false},
		{"panne", "", job.OneWay, job.TwoWay, 0, false}, {"furlong", "cloth", job.OneWay, job.TwoWay, 0, true},
		{"faux-fur", "cloth", job.OneWay, job.TwoWay, 0, false},
	} {
		cloth := job.Cloth{ID: c.id, Title: c.title, Nap: c.nap, Repeat: job.Repeat{Along: c.repeat}}
		if got := freer(cloth, c.to); got != c.want {
			t.Errorf("%s, %s: %v may be %v: %v", c.id, c.title, c.nap, c.to, got)
		}
	}
}

// A hem is narrower by half an inch or a centimetre, a gown shorter by an inch or two centimetres, where that leaves
// some; lengths of parts that do not hang stay, and each part is shortened once however often it is worn.
func TestStepsOfHemsAndLengths(t *testing.T) {
	skirt := func(unit, hem, length string) string {
		return "unit = \"" + unit + "\"\n[body]\nwaist_girth = \"28 in\"\n[allowance]\nseam = \"1/2 in\"\nhem = \"" + hem +
			"\"\n[[cloth]]\nid = \"satin\"\nwidth = \"58 in\"\n[[part]]\nname = \"skirt\"\ndraft = \"circle-skirt\"\n" +
			"cloth = \"satin\"\ncircle = \"half\"\nlength = \"" + length + "\"\n" +
			"[[part]]\nname = \"belt\"\ndraft = \"rectangle\"\ncloth = \"satin\"\nlength = \"60 in\"\nwidth = \"4 in\"\n"
	}
	for _, c := range []struct{ unit, hem, length, less, shorter string }{
		{"in", "2", "24", "1 1/2 in", "23 in"}, {"yd", "2 in", "24 in", "1 1/2 in", "23 in"},
		{"cm", "4", "61", "3.0 cm", "59.0 cm"}, {"in", "1/2", "24", "", "23 in"}, {"cm", "1.2", "61", "0.2 cm", "59.0 cm"},
		{"in", "9/16", "24", "1/16 in", "23 in"}, {"mm", "45", "610", "35.0 mm", "590.0 mm"},
		{"m", "4 cm", "61 cm", "3.0 cm", "59.0 cm"},
		{"cm", "2.55", "61.23", "15.500 mm", "592.300 mm"},
	} {
		f := testjobs.File(t, "job.toml", skirt(c.unit, c.hem, c.length))
		var less, shorterBy string
		for _, w := range narrowerHem(f) {
			less = w.changes[0].Value
			if w.name != "hem allowance of "+less || len(w.changes) != 1 || w.changes[0].Key != "allowance.hem" {
				t.Errorf("%+v", w)
			}
		}
		for _, w := range shorter(f) {
			if len(w.changes) != 1 || w.changes[0].Key != "part.skirt.length" {
				t.Errorf("%+v", w)
			}
			shorterBy = w.changes[0].Value
		}
		if less != c.less || shorterBy != c.shorter {
			t.Errorf("%+v: %q and %q", c, less, shorterBy)
		}
	}
	if w := shorter(testjobs.File(t, "job.toml", testjobs.Panels(1, "20", "30", ""))); w != nil {
		t.Errorf("what does not hang is shorter: %+v", w)
	}
}

// A changed length reads back as it is, to the guard of a counter.
func TestChangedLengthsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]measure.Unit{measure.Inch, measure.Yard, measure.Centimetre, measure.Millimetre}).
			Draw(t, "unit")
		mm := rapid.Float64Range(1, 3000).Draw(t, "mm")
		text := shown(mm, unit)
		if back, err := measure.Parse(text, unit); err != nil || math.Abs(back-mm) > measure.Guard {
			t.Fatalf("%v mm is written as %q, %v mm, %v", mm, text, back, err)
		}
	})
}

// What is said below the choices: what cannot be made, what was not tried, and whether anything moves the price.
func TestWhatIsSaidBelowTheChoices(t *testing.T) {
	const each = "Each row changes one thing, and is laid and priced as the job is. A saving below 0 costs more."
	one := []Choice{{}}
	for _, c := range []struct {
		found Choices
		want  []string
	}{
		{Choices{Choices: one}, []string{each}},
		{Choices{}, []string{"None of the choices tried moves the price."}},
		{Choices{Waiting: []string{"a"}}, []string{"None of the choices tried so far moves the price."}},
		{Choices{Choices: one, Skipped: []string{"a", "b"}, LeftOut: []LeftOut{{"c", "it is wide"}}},
			[]string{"c cannot be made: it is wide.",
				"The run ended before it tried these: a, b. A full run prices them.", each}},
		{Choices{Skipped: []string{"a"}}, []string{"The run ended before it tried these: a. A full run prices them.",
			"None of the choices tried so far moves the price."}},
	} {
		if diff := cmp.Diff(c.want, c.found.Said()); diff != "" {
			t.Error(diff)
		}
	}
	q := &Quote{Quote: cost.Quote{Cost: usd(500)}}
	same, less := &Quote{Quote: cost.Quote{Cost: usd(500)}}, &Quote{Quote: cost.Quote{Cost: usd(400)}}
	for _, c := range []struct {
		choice Choice
		shown  string
		want   []string
	}{
		{Choice{Quote: same}, "-", nil}, {Choice{Quote: same, Note: "so"}, "-", []string{"so"}},
		{Choice{Quote: less, Note: "so"}, "-", []string{"the cost is 4.00, rounded to the same total", "so"}},
		{Choice{Quote: less, Saves: usd(100)}, "1.00", nil}, {Choice{Quote: less, Saves: usd(-1)}, "-0.01", nil},
	} {
		if got := c.choice.Shown(); got != c.shown {
			t.Errorf("%q is shown, want %q", got, c.shown)
		}
		if diff := cmp.Diff(c.want, c.choice.Details(q)); diff != "" {
			t.Error(diff)
		}
	}
}

// Of many choices the five that move the total most are told, or the cost where the total is the same, those that save
// most first: no choice left out moves more than one that is told.
func TestTheChoicesThatMoveMost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var all []Choice
		for range rapid.IntRange(0, 9).Draw(t, "choices") {
			all = append(all, Choice{Saves: usd(rapid.Int64Range(-3, 3).Draw(t, "saves")),
				Cost: usd(rapid.Int64Range(-3, 3).Draw(t, "cost"))})
		}
		size := func(c Choice) int64 {
			of := 20*max(c.Saves.Minor, -c.Saves.Minor) + max(c.Cost.Minor, -c.Cost.Minor)
			if c.Saves.Minor > 0 { // told before what adds as much
				of += 10
			}
			return of
		}
		var sizes, told []int64
		for _, c := range all {
			sizes = append(sizes, size(c))
		}
		slices.Sort(sizes)
		got := moving(slices.Clone(all))
		for i, c := range got {
			told = append(told, size(c))
			if i > 0 && (got[i-1].Saves.Minor < c.Saves.Minor ||
				got[i-1].Saves.Minor == c.Saves.Minor && got[i-1].Cost.Minor < c.Cost.Minor) {
				t.Fatalf("%v saves more than %v before it", c, got[i-1])
			}
		}
		slices.Sort(told)
		if want := sizes[max(0, len(sizes)-5):]; len(got) != min(5, len(all)) || !slices.Equal(told, want) {
			t.Fatalf("told are %v of %v", told, sizes)
		}
	})
}

// Why a choice cannot be made is said without place and hint, whatever says it.
func TestReasonsWithoutPlaces(t *testing.T) {
	at := &strict.Error{File: "job.toml", What: "too wide", Hint: "narrower"}
	for want, err := range map[string]error{
		"too wide":  strict.Errors{at, {What: "more"}},
		"no such":   &job.ChangeError{What: "no such"},
		"too short": say.Errorf("too short").Hint("longer"),
		"plain":     errors.New("plain"),
	} {
		if got := reason(err); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// Whole bolts are a choice where a cloth is sold by length too, and are paid for with what they leave.
func TestWholeBoltsAreAChoice(t *testing.T) {
	const bolt = "bolt = { length = \"10 yd\", price = \"60.00\" }"
	const price = "price = \"9.00/yd\"\n"
	for cloth, want := range map[string]bool{price + bolt: true, bolt: false, price: false} {
		var notes []string
		for _, w := range candidates(testjobs.File(t, "job.toml", sash(36, cloth, ""))) {
			if w.name == "whole bolts of satin" && w.changes[0] == (job.Change{Key: "cloth.satin.whole_bolts", Value: "true"}) {
				notes = append(notes, w.note)
			}
		}
		if got := slices.Equal(notes, []string{"leftovers are paid for"}); got != want {
			t.Errorf("%s: %q", cloth, notes)
		}
	}
	for key, want := range map[string][2]string{"cloth.satin.width": {"satin", "width"},
		"part.skirt.gores": {"skirt", "gores"}, "skirt.pieced.within": {"skirt", "within"}, "gap": {"", "gap"}} {
		if table, rest := cutKey(key); table != want[0] || rest != want[1] {
			t.Errorf("%s is %q of %q", key, rest, table)
		}
	}
}
