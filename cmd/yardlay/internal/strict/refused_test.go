package strict

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes/measure"
)

// told reads a file with one reader of a key and returns what is refused.
func told(t *testing.T, src string, read func(*Table)) string {
	t.Helper()
	r := &Reader{File: "k.toml", Unit: measure.Centimetre, Called: "kettle"}
	root, bad := roomy.Parse([]byte(src))
	if bad != nil {
		t.Fatal(bad)
	}
	k := r.Table(root, "the kettle")
	read(k)
	return strings.ReplaceAll(r.Told().Error(), "k.toml:1:", "")
}

// Every reader says what it was given, where, and what would mend it; right values it
// takes without a word.
func TestEveryRefusal(t *testing.T) {
	signed := func(text string) string { return "+" + text }
	for _, c := range []struct {
		read        func(*Table)
		right       string
		wrong, want string
	}{
		{func(k *Table) { k.Text("k", `"tin"`) }, `k = "x"`, `k = 3`,
			"5: `k` must be text in quotes, not a number\n  hint: for example k = \"tin\""},
		{func(k *Table) { k.Text("k", `"tin"`) }, ``, `k = " "`, "5: `k` is empty\n  hint: for example k = \"tin\""},
		{func(k *Table) { k.Choice("k", "tin", "iron") }, `k = "iron"`, `k = "irn"`,
			"5: `k` cannot be \"irn\"\n  hint: did you mean `iron`?"},
		{func(k *Table) { k.Choice("k", "tin", "iron") }, ``, `k = "copper"`,
			"5: `k` cannot be \"copper\"\n  hint: known here: tin, iron"},
		{func(k *Table) { k.Choice("k", "tin", "iron") }, ``, `k = [1]`,
			"1: `k` must be text in quotes, not a list\n  hint: for example k = \"tin\""},
		{func(k *Table) { k.Truth("k", true) }, `k = false`, `k = "yes"`,
			"5: `k` must be true or false, not text\n  hint: for example k = false"},
		{func(k *Table) { k.Count("k", 2, 1, 9) }, `k = 9`, `k = 10`, "5: `k` cannot be 10\n  hint: from 1 to 9"},
		{func(k *Table) { k.Count("k", 0, 1, 9) }, `k = 1`, `k = 1.0`,
			"5: `k` must be a whole number\n  hint: for example k = 1"},
		{func(k *Table) { k.Count("k", 2, 1, 9) }, ``, `k = true`,
			"5: `k` must be a whole number, not true or false\n  hint: for example k = 2"},
		{func(k *Table) { k.Ratio("k", 0.5, 4) }, `k = "2 1/2"`, `k = "2-1/2"`,
			"5: `k`: cannot read \"2-1/2\"\n  hint: a number or a fraction, for example 2.5 or \"2 1/2\""},
		{func(k *Table) { k.Ratio("k", 0.5, 4) }, `k = 4`, `k = -nan`, "5: `k` cannot be NaN\n  hint: from 0.5 to 4"},
		{func(k *Table) { k.Ratio("k", 0.5, 4) }, `k = 0.5`, `k = 07:00:00`,
			"5: `k` must be a number, not a time\n  hint: for example k = 2.5"},
		{func(k *Table) { k.MustLength("k", "3 cm") }, `k = 3`, ``,
			"1: the kettle lacks `k`\n  hint: for example k = \"3 cm\""},
		{func(k *Table) { k.MustLength("k", "3 cm") }, `k = "3 in"`, `k = {}`,
			"5: `k` must be a length, not a table\n  hint: for example k = \"27 1/2\""},
		{func(k *Table) { k.Sub("k", "[k]", "{ a = 1 }") }, `k = {}`, `k = 1`,
			"5: `k` must be a table, not a number\n  hint: for example k = { a = 1 }"},
		{func(k *Table) { k.List("k", 2, "fewer") }, "[[k]]\n[[k]]", "k = 1",
			"1: `k` must be written as [[k]]\n  hint: start each with its own line [[k]]"},
		{func(k *Table) { k.List("k", 2, "fewer") }, "k = []", "k = [{}, {}, {}]",
			"1: 3 tables [[k]], a kettle takes at most 2\n  hint: fewer"},
		{func(k *Table) { k.List("k", 2, "fewer") }, "k = [{}]", "k = [1]",
			"6: `k` must be tables, not a number\n  hint: start each with its own line [[k]]"},
		{func(k *Table) { k.InlineTables("k", "{ a = 1 }", 2) }, "[[k]]", "k = {}",
			"5: `k` must be a list of tables in brackets, not a table\n  hint: for example k = [ { a = 1 } ]"},
		{func(k *Table) { k.InlineTables("k", "{ a = 1 }", 2) }, "k = [{}, {}]", "k = [{}, {}, {}]",
			"1: `k` lists 3\n  hint: at most 2"},
		{func(k *Table) { k.InlineTables("k", "{ a = 1 }", 2) }, "k = []", "k = [{}, true]",
			"10: `k` lists tables, not true or false\n  hint: for example k = [ { a = 1 } ]"},
		{func(k *Table) { k.Percent("k", "-3 %", signed, -0.5, 0.5) }, `k = "-50 %"`, `k = "3 %"`,
			"5: `k`: \"3 %\" has no sign\n  hint: +3 %"},
		{func(k *Table) { k.Percent("k", "-3 %", signed, -0.5, 0.5) }, `k = "0 %"`, `k = "-51 %"`,
			"5: `k` cannot be \"-51 %\"\n  hint: from -50 % to 50 %"},
		{func(k *Table) { k.Percent("k", "-3 %", nil, -0.5, 0.5) }, `k = "3%"`, `k = 3`,
			"5: `k` must be text such as \"-3 %\": a bare number could be a share or a percentage" +
				"\n  hint: write it with its mark, in quotes: k = \"-3 %\""},
		{func(k *Table) { k.Percent("k", "-3 %", nil, -0.5, 0.5) }, ``, `k = "3"`,
			"5: `k`: cannot read \"3\" as a percentage\n  hint: a number and its mark: k = \"-3 %\""},
		{func(k *Table) { k.Percent("k", "-3 %", nil, -0.5, 0.5) }, ``, `k = true`,
			"5: `k` must be a percentage, not true or false\n  hint: for example k = \"-3 %\""},
		{func(k *Table) { k.Decimal("k", "22.5") }, `k = "22.50"`, `k = -1`,
			"5: `k` cannot be -1: it is negative\n  hint: for example k = 22.5"},
		{func(k *Table) { k.Decimal("k", "22.5") }, `k = 0`, `k = [22]`,
			"1: `k` must be a number, not a list\n  hint: for example k = 22.5"},
		{func(k *Table) { k.Share("k", "15 %") }, `k = "15 %"`, `k = 15`,
			"5: `k` must be text such as \"15 %\": a percentage with its mark" +
				"\n  hint: write it with its mark, in quotes: k = \"15 %\""},
		{func(k *Table) { k.Share("k", "15 %") }, `k = "0%"`, `k = "-15 %"`,
			"5: `k` cannot be -15: it is negative\n  hint: write it with its mark, in quotes: k = \"15 %\""},
		{func(k *Table) { k.Only("j", "k", "l") }, `k = 1`, "l = 1\nj = 2",
			"1: the kettle has both `j` and `l`\n  hint: give one of them"},
		{func(k *Table) { k.Finish() }, ``, `k = 1`, "1: the kettle has no key `k`"},
	} {
		if got := told(t, c.wrong, c.read); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.wrong, got, c.want)
		}
		if got := told(t, c.right, c.read); got != "" && c.wrong != "" {
			t.Errorf("%s: %s", c.right, got)
		}
	}
}

// What cannot be read as a length or an amount says so and gives examples.
func TestUnreadableAmounts(t *testing.T) {
	for src, read := range map[string]func(*Table){
		`k = "3 ells"`: func(k *Table) { k.LengthOr("k", 0, measure.Parse) },
		`k = nan`:      func(k *Table) { k.LengthOr("k", 0, measure.Parse) },
		`k = "3,5"`:    func(k *Table) { k.Decimal("k", "22.5") },
		`k = inf`:      func(k *Table) { k.Decimal("k", "22.5") },
		`k = "x %"`:    func(k *Table) { k.Share("k", "15 %") },
	} {
		if got := told(t, src, read); !strings.HasPrefix(got, "5: `k`: ") || strings.Count(got, "\n  hint: ") != 1 {
			t.Errorf("%s: %s", src, got)
		}
	}
}

// Two of one name are told apart by the line of the first.
func TestNamesAreDistinct(t *testing.T) {
	r := &Reader{File: "k.toml"}
	names := []string{"tin", "", "iron", "", "tin", "tin"}
	at := 0
	Distinct(r, names, "kettle", "an id", func(name string) (string, Position) {
		at++
		return name, Position{Line: at, Column: 1}
	})
	want := "k.toml:5:1: kettle `tin` is already on line 1\n  hint: give each kettle an id of its own\n" +
		"k.toml:6:1: kettle `tin` is already on line 1\n  hint: give each kettle an id of its own"
	if got := r.Told().Error(); got != want {
		t.Errorf("got %s", got)
	}
}

// Errors are told once, in the order of the file, the first hundred of them, and what
// caused one is found.
func TestErrorsAreToldInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := &Reader{File: "k.toml"}
		n := rapid.IntRange(0, 2*MostErrors).Draw(t, "errors")
		distinct := map[Position]bool{}
		for range n {
			draw := func(name string, least, most int) int { return rapid.IntRange(least, most).Draw(t, name) }
			at := Position{Line: draw("line", 1, 9), Column: draw("column", 1, 20), Put: Put(draw("put", 0, 1))}
			if len(distinct) < MostErrors {
				distinct[at] = true
			}
			r.Fail(at, "", "wrong at %v", at)
		}
		all := r.Told()
		more := len(all) > len(distinct)
		if len(all) < len(distinct) || more && len(distinct) < MostErrors ||
			more && !strings.HasPrefix(all[len(all)-1].What, "and more is wrong") {
			t.Fatalf("%d errors of %d, %d distinct", len(all), n, len(distinct))
		}
		for i, e := range all[:len(distinct)] {
			if e.What != fmt.Sprintf("wrong at %v", e.At) || !distinct[e.At] {
				t.Fatalf("%v: %s", e.At, e.What)
			}
			if i > 0 && (all[i-1].At == e.At || slices.Compare(key(all[i-1].At), key(e.At)) > 0) {
				t.Fatalf("%v before %v", all[i-1].At, e.At)
			}
		}
	})
	cause := errors.New("out of water")
	all := Errors{{What: "dry"}, {What: "cold", Cause: fmt.Errorf("no tea: %w", cause)}}
	if !errors.Is(all, cause) || errors.Is(all[:1], cause) {
		t.Error("what caused an error is not found")
	}
}

func key(p Position) []int { return []int{p.Line, p.Column, int(p.Put)} }

// Whoever types the beginning of a name, with either of - and _, is reminded of one that
// begins so, and whoever slips by one letter of that very name or one as near.
func TestSlipsAreMended(t *testing.T) {
	names := []string{"lengthwise-fold", "crosswise_fold", "double-fold", "width", "selvedge"}
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom(names).Draw(t, "name")
		begun := name[:rapid.IntRange(3, len(name)).Draw(t, "letters")]
		begun = strings.NewReplacer("-", rapid.SampledFrom([]string{"-", "_"}).Draw(t, "dash")).Replace(begun)
		if got := Nearest(begun, names); got != name {
			t.Fatalf("%q gives %q, not %q", begun, got, name)
		}
		i := rapid.IntRange(0, len(name)-1).Draw(t, "slip")
		if slip := name[:i] + "q" + name[i+1:]; Nearest(slip, names) != name {
			t.Fatalf("%q gives %q, not %q", slip, Nearest(slip, names), name)
		}
	})
}

// A limit that is told in inches is what it is to a sixteenth of an inch where it is
// small, to a hundredth where not; one that is not zero is not told as zero.
func TestLimitsInInches(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(0.01, 3000).Draw(t, "mm")
		back, err := measure.Parse(inches(mm), measure.Millimetre)
		most := max(0.005, 0.06*mm/measure.Inches) * measure.Inches * 1.001
		if err != nil || back == 0 || math.Abs(back-mm) > most {
			t.Fatalf("%v mm is told as %s, %v mm, %v", mm, inches(mm), back, err)
		}
		whole := float64(rapid.IntRange(1, 800).Draw(t, "eighths")) * eighth
		if back, err := measure.Parse(inches(whole), measure.Millimetre); err != nil || math.Abs(back-whole) > 1e-9 {
			t.Fatalf("%v mm is told as %s", whole, inches(whole))
		}
	})
	if Show(measure.Millimetre) != nil || Show(measure.Yard)(25.4) != "1 in" {
		t.Error("a unit shows another's lengths")
	}
}
