package strict

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes/measure"
)

// kettle reads a text that holds, as a file in centimetres.
func kettle(t rapid.TB, src string) *Table {
	t.Helper()
	root, bad := roomy.Parse([]byte(src))
	if bad != nil {
		t.Fatalf("%v in\n%s", bad, src)
	}
	r := &Reader{File: "k.toml", Unit: measure.Centimetre, Called: "kettle"}
	return r.Table(root, "the kettle")
}

// Every reader returns what the file says, what it is told otherwise where the file is silent, and what does no harm
// where the file is wrong.
func TestReadersReturnWhatTheFileSays(t *testing.T) {
	length := func(k *Table) any { return k.LengthOr("k", 7, measure.ParsePositive) }
	ratio := func(k *Table) any {
		value, ok := k.Ratio("k", 0.5, 4)
		return fmt.Sprint(value, ok)
	}
	percent := func(k *Table) any {
		value, ok := k.Percent("k", "5 %", nil, -1, 1)
		return fmt.Sprint(value, ok)
	}
	decimal := func(k *Table) any {
		value, ok := k.Decimal("k", "2.5")
		return fmt.Sprint(value, ok)
	}
	must := func(k *Table) any { return k.MustLength("k", "3 cm") }
	alone := func(k *Table) any {
		mm, ok := k.Length("k", measure.ParsePositive)
		return fmt.Sprint(mm, ok)
	}
	choice := func(k *Table) any { return k.Choice("k", "tin", "iron") }
	truth := func(otherwise bool) func(*Table) any { return func(k *Table) any { return k.Truth("k", otherwise) } }
	sub := func(k *Table) any {
		if inner := k.Sub("k", "[k]", "{}"); inner != nil {
			return inner.Name + inner.Value.TextOf("a")
		}
		return nil
	}
	for _, c := range []struct {
		read func(*Table) any
		src  string
		want any
	}{
		{length, "", 7.0}, {length, "k = 3", 30.0}, {length, `k = "3 in"`, 76.2}, {length, `k = "3 ells"`, 7.0},
		{length, "k = []", 7.0}, {must, "k = 2.5", 25.0}, {must, "", 0.0}, {must, "k = -1", 0.0},
		{alone, "", "0 false"}, {alone, "k = 0", "0 false"}, {alone, "k = 4", "40 true"}, {alone, "k = true", "0 false"},
		{ratio, "", "0 false"}, {ratio, "k = 9", "0 false"}, {ratio, `k = "x"`, "0 false"}, {ratio, "k = []", "0 false"},
		{ratio, `k = "1 1/2"`, "1.5 true"}, {percent, "", "0 false"}, {percent, "k = 3", "0 false"},
		{percent, "k = true", "0 false"}, {percent, `k = "x %"`, "0 false"}, {percent, `k = "200 %"`, "0 false"},
		{percent, `k = "-100 %"`, "-1 true"}, {percent, `k = "-0 %"`, "0 true"}, {decimal, "", "0 false"},
		{decimal, "k = -1", "0 false"}, {decimal, "k = []", "0 false"}, {decimal, `k = "x"`, "0 false"},
		{decimal, "k = 0.10", "0.1 true"}, {choice, "", "tin"}, {choice, `k = "iron"`, "iron"}, {choice, `k = "x"`, "tin"},
		{choice, "k = 1", "tin"}, {truth(true), "", true}, {truth(false), "", false}, {truth(true), "k = false", false},
		{truth(false), "k = true", true}, {truth(true), "k = 0", true}, {truth(false), "k = 0", false},
		{sub, "", nil}, {sub, "k = 1", nil}, {sub, `k = { a = "x" }`, "[k]x"},
		{func(k *Table) any { return len(k.List("k", 2, "")) }, "", 0},
		{func(k *Table) any { return len(k.List("k", 2, "")) }, "[[k]]\n[[k]]\n[[k]]", 2},
		{func(k *Table) any { return len(k.List("k", 2, "")) }, "k = [{}, 1]", 1},
		{func(k *Table) any { return len(k.InlineTables("k", "{}", 2)) }, "", 0},
		{func(k *Table) any { return len(k.InlineTables("k", "{}", 2)) }, "k = [1, {}]", 1},
		{func(k *Table) any { return len(k.InlineTables("k", "{}", 2)) }, "k = [{}, {}, {}]", 0},
	} {
		if got := c.read(kettle(t, c.src)); got != c.want {
			t.Errorf("%q is read as %v, want %v", c.src, got, c.want)
		}
	}
	if hint := kettle(t, `k = "3 ells"`); length(hint) != 7.0 ||
		hint.Errors[0].Hint != `a length reads like 35, "35 1/2", `+
			`"90 cm" or "2 3/8 yd"; a bare number takes the kettle's unit, cm` {
		t.Errorf("how a length reads: %s", hint.Errors[0].Hint)
	}
}

// A value put in from another file counts in the unit of that one, and says so where it is wrong.
func TestValuesFromAnotherFileKeepItsUnit(t *testing.T) {
	other := kettle(t, "a = 3\nb = [3, { c = 3 }]\nd = \"3 ells\"")
	other.Value.From("shelf/room.toml", measure.Inch)
	k := kettle(t, "a = 3")
	if mm := k.LengthOr("a", 0, measure.Parse); mm != 30 {
		t.Errorf("3 of the file is %v mm", mm)
	}
	k = k.Table(other.Value, "the room")
	list := k.Field("b").Value.Items
	inner := k.Table(list[1], "b")
	for _, mm := range []float64{k.LengthOr("a", 0, measure.Parse), inner.LengthOr("c", 0, measure.Parse)} {
		if mm != 76.2 {
			t.Errorf("3 of the other file is %v mm", mm)
		}
	}
	if mm, _ := k.LengthOf("b", list[0], measure.Parse); mm != 76.2 {
		t.Errorf("3 in a list of the other file is %v mm", mm)
	}
	k.LengthOr("d", 0, measure.Parse)
	k.Finish()
	if len(k.Errors) != 1 || k.Errors[0].File != "shelf/room.toml" || k.Errors[0].Where() != "room.toml, line 3" {
		t.Errorf("%v at %q", k.Errors, k.Errors[0].Where())
	}
	if inner.Finish(); len(k.Errors) != 1 {
		t.Errorf("%v", k.Errors)
	}
	own := kettle(t, "\nk = 1")
	if own.Finish(); own.Errors[0].Where() != "line 2" {
		t.Errorf("an error of the file is at %q", own.Errors[0].Where())
	}
	for _, f := range []*Field{k.Field("a"), inner.Field("c")} {
		if f.At.File != "shelf/room.toml" || f.Value.At.File != f.At.File {
			t.Errorf("%+v", f)
		}
	}
}

// Plain values are typed again as they were, tables and lists as nothing; a key set twice keeps its place, one that
// is dropped leaves none, and what is moved stands at its new place alone.
func TestTablesAreChangedKeyByKey(t *testing.T) {
	v := kettle(t, "a = 'so'\nb = 12.5\nc = 1000000\nd = true\ne = 2026-05-01\nf = [1]\ng = { h = 1 }\ni = 07:00:00").Value
	want := map[string]string{"a": "so", "b": "12.5", "c": "1e+06", "d": "true", "e": "2026-05-01"}
	for key, f := range v.Fields {
		if got := f.Value.Typed(); got != want[key] {
			t.Errorf("%s is typed as %q", key, got)
		}
	}
	if v.TextOf("a") != "so" || v.TextOf("b") != "" || v.TextOf("e") != "" || v.TextOf("none") != "" {
		t.Errorf("texts are %q, %q, %q, %q", v.TextOf("a"), v.TextOf("b"), v.TextOf("e"), v.TextOf("none"))
	}
	at := Position{Line: 9, Column: 9}
	v.Set("b", at, &Value{Kind: KindText, Text: "new"})
	v.Set("z", at, &Value{Kind: KindBool})
	v.Drop("c")
	v.Drop("none")
	if got := strings.Join(v.Order, ""); got != "abdefgiz" || len(v.Fields) != 8 || v.TextOf("b") != "new" ||
		v.Fields["b"].At != at || v.Fields["c"] != nil {
		t.Errorf("keys %s, %v", got, v.Fields)
	}
	v.MoveTo(at)
	for key, f := range v.Fields {
		if f.At != at || f.Value.At != at {
			t.Errorf("%s is at %v, its value at %v", key, f.At, f.Value.At)
		}
	}
	if h := v.Fields["g"].Value.Fields["h"]; h.At != at || h.Value.At != at || v.Fields["f"].Value.Items[0].At != at {
		t.Error("what stands within is not moved")
	}
}

// Numbers up to two dozen letters are read, longer ones refused unread.
func TestFractionsEndAtTwoDozenLetters(t *testing.T) {
	for letters, want := range map[int]bool{23: true, 24: true, 25: false} {
		text := "1." + strings.Repeat("0", letters-2)
		if got, ok := Fraction(text); ok != want || ok && got != 1 {
			t.Errorf("%d letters: %v, %v", letters, got, ok)
		}
	}
	for text, want := range map[string]float64{"1\t1/2": 1.5, " 2 ": 2, "007/08": 0.875, "0/5": 0, "00": 0} {
		if got, ok := Fraction(text); !ok || got != want {
			t.Errorf("%q is %v, %v", text, got, ok)
		}
	}
	for _, text := range []string{"1 1 1/2", "1 2", "1.5 1/2", "1/2 1/2", "1/", "/2", "1/0", ".", "1..2"} {
		if got, ok := Fraction(text); ok {
			t.Errorf("%q is %v", text, got)
		}
	}
}

// A length is shown in the file's unit as a tape shows it; one millimetre is told in centimetres, less in its own.
func TestLengthsShownByReaders(t *testing.T) {
	for mm, want := range map[float64]string{1000: "39 3/8 in", 9143: "360 in", 9144: "10 yd"} {
		if got := (&Reader{Unit: measure.Inch}).Show(mm); got != want {
			t.Errorf("%v mm is shown as %q, want %q", mm, got, want)
		}
	}
	for mm, want := range map[float64]string{1: "0.1 cm", -1: "-0.1 cm", 0.999: "0.999 mm", -0.5: "-0.5 mm"} {
		if got := Show(measure.Centimetre)(mm); got != want {
			t.Errorf("%v mm is shown as %q, want %q", mm, got, want)
		}
	}
}
