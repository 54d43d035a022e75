package strict

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes/measure"
)

// Columns count letters whatever stands before them in the line.
func TestPlacesInLongLines(t *testing.T) {
	w := walker{src: []byte("é=1 # ü\nab, é, x\n"), lines: []int{0, 10}}
	for _, c := range []struct {
		offset int
		want   Position
	}{
		{0, Position{Line: 1, Column: 1}}, {2, Position{Line: 1, Column: 2}}, {10, Position{Line: 2, Column: 1}},
		{17, Position{Line: 2, Column: 7}}, {12, Position{Line: 2, Column: 3}}, {5, Position{Line: 1, Column: 5}},
	} {
		if got := w.place(c.offset); got != c.want {
			t.Errorf("byte %d is at %v, want %v", c.offset, got, c.want)
		}
	}
}

// Any percentage in hundredths reads back, signed, with or without the space.
func TestPercentagesReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hundredths := rapid.IntRange(0, 3000).Draw(t, "hundredths")
		sign := rapid.SampledFrom([]string{"-", "+", "−", ""}).Draw(t, "sign")
		spaces := strings.Repeat(" ", rapid.IntRange(0, 2).Draw(t, "spaces"))
		text := fmt.Sprintf("%s%d.%02d%s%%", sign, hundredths/100, hundredths%100, spaces)
		number, read, ok := percentage(text)
		if !ok || math.Abs(number-float64(hundredths)/100) > 1e-12 || read != strings.Replace(sign, "−", "-", 1) {
			t.Fatalf("%q reads %v %q %v", text, number, read, ok)
		}
	})
}

func TestPercentagesAreStrict(t *testing.T) {
	for _, text := range []string{
		"", "%", "3", "-3", "--3 %", "- -3 %", "3 % %", "3 percent", "3,5 %", "1e1 %", "1/0 %", "0x3 %", "3 -2 %",
		"NaN %", "٣ %",
	} {
		if number, sign, ok := percentage(text); ok {
			t.Errorf("%q is read as %s%v %%", text, sign, number)
		}
	}
}

// Edit distance is a metric.
func TestEditDistanceIsAMetric(t *testing.T) {
	word := rapid.StringMatching(`[a-d]{0,8}`)
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := word.Draw(t, "a"), word.Draw(t, "b"), word.Draw(t, "c")
		ab := editDistance(a, b)
		if ab != editDistance(b, a) || (ab == 0) != (a == b) || ab > max(len(a), len(b)) {
			t.Fatalf("distance of %q and %q is %d", a, b, ab)
		}
		if editDistance(a, c) > ab+editDistance(b, c) {
			t.Fatalf("%q is further from %q than by way of %q", a, c, b)
		}
	})
}

// A kettle is no gown: what is read, refused and hinted at follows from the caller alone.
func TestAnyFileIsReadStrictly(t *testing.T) {
	format := Format{Deep: 3, Keys: 5, Tables: 2, KeysHint: "fewer", SyntaxHint: "as TOML", TwiceHint: "once"}
	for src, want := range map[string]string{
		"lid = 1\nlitres = 2\n": "kettle.toml:2:1: the kettle has no key `litres`\n  hint: did you mean `litre`?",
		"litre = \"much\"": "kettle.toml:1:9: `litre`: cannot read \"much\"\n" +
			"  hint: a number or a fraction, for example 2.5 or \"2 1/2\"",
		"litre = 9": "kettle.toml:1:9: `litre` cannot be 9\n  hint: from 0.5 to 4",
		"lid = 3":   "kettle.toml:1:7: `lid` cannot be 3\n  hint: from 0 to 1",
		"spout = \"3 cm\"\nhandle = 1": "kettle.toml:2:1: the kettle has no key `handle`\n  hint: known here: litre, " +
			"lid, spout",
		"spout = 3\nspout = 4":         "kettle.toml:2:1: not TOML: key spout is already defined\n  hint: once",
		"a=1\nb=1\nc=1\nd=1\ne=1\nf=1": "kettle.toml:6:1: more than 5 keys in one table\n  hint: fewer",
		"a.b.c = [1]":                  "kettle.toml:1:1: more than 3 names, lists and tables within each other",
	} {
		r := &Reader{File: "kettle.toml", Unit: measure.Centimetre, Called: "kettle"}
		root, bad := format.Parse([]byte(src))
		if bad != nil {
			bad.File = r.File
			r.Errors = Errors{bad}
		} else {
			k := r.Table(root, "the kettle")
			k.Ratio("litre", 0.5, 4)
			k.Count("lid", 0, 0, 1)
			k.LengthOr("spout", 0, measure.ParsePositive)
			k.Finish()
		}
		if got := r.Told().Error(); got != want {
			t.Errorf("%q:\n got %s\nwant %s", src, got, want)
		}
	}
}
