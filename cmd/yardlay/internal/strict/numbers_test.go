package strict

import (
	"fmt"
	"math"
	"math/big"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/cost"
	"yardlay/shapes/measure"
)

// readBy reads one key `k` of a file by what reads it, and returns what is refused.
func readBy(t interface{ Fatalf(string, ...any) }, src string, read func(k *Table)) Errors {
	root, bad := roomy.Parse([]byte(src))
	if bad != nil {
		t.Fatalf("%q: %v", src, bad)
	}
	r := &Reader{File: "f", Unit: measure.Inch, Called: "file"}
	k := r.Table(root, "the file")
	read(k)
	k.Finish()
	for _, e := range r.Errors {
		if e.At.Line != 1 || e.At.Column < 1 || e.At.Column > len(src) || e.What == "" || e.Hint == "" ||
			!strings.Contains(e.What, "`k`") {
			t.Fatalf("%q is refused as %+v", src, e)
		}
	}
	return r.Errors
}

// decimals are numbers as they are typed, well or badly.
var decimals = rapid.OneOf(rapid.StringMatching(`-?[0-9]{1,10}(\.[0-9]{1,5})?`),
	rapid.StringMatching(`[-+]?[0-9]{0,3}[.,e/ ]?[0-9]{0,3}`))

var aDecimal = regexp.MustCompile(`^-?[0-9]{1,9}(\.[0-9]{1,4})?$`)

// slowDecimal is a number of at most nine digits and four decimals, in ten-thousandths.
func slowDecimal(text string) (*big.Rat, bool) {
	if !aDecimal.MatchString(text) {
		return nil, false
	}
	n, ok := new(big.Rat).SetString(text)
	return n, ok && n.Sign() >= 0
}

// Decimals are read to the last digit or refused at their place, as text or, where TOML
// has it, as a number.
func TestDecimalsAgainstSlowTwin(t *testing.T) {
	read := 0
	rapid.Check(t, func(t *rapid.T) {
		text := decimals.Draw(t, "text")
		srcs := []string{fmt.Sprintf("k = %q", " "+text+" ")}
		if regexp.MustCompile(`^-?(0|[1-9][0-9]{0,8})(\.[0-9]{1,4})?$`).MatchString(text) {
			srcs = append(srcs, "k = "+text)
		}
		want, fine := slowDecimal(strings.TrimSpace(text))
		for _, src := range srcs {
			var got cost.Decimal
			var ok bool
			wrong := readBy(t, src, func(k *Table) { got, ok = k.Decimal("k", "2.5") })
			if ok != fine || ok == (len(wrong) > 0) || ok && got.Rat().Cmp(want) != 0 {
				t.Fatalf("%s is read as %v, %v, %v; want %v, %v", src, got, ok, wrong, want, fine)
			}
			if ok {
				read++
			}
		}
	})
	if read < 20 {
		t.Errorf("only %d were read", read)
	}
}

// Percentages with their mark: a share of a quote keeps its digits, a ratio of a cloth is
// rounded once; both know fractions, and neither takes a number without its mark.
func TestPercentagesAgainstSlowTwin(t *testing.T) {
	parts := rapid.SampledFrom([]string{"", " 1/2", " 3/8", " 0/1", "1/4", ".5", " 1/0", " 1/3", " 2"})
	read := 0
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.SampledFrom([]string{"", "0", "5", "12", "100", "07"}).Draw(t, "whole") + parts.Draw(t, "part")
		sign := rapid.SampledFrom([]string{"", "", "+", "-", "−"}).Draw(t, "sign")
		mark := rapid.SampledFrom([]string{"%", " %", " %", "", "%%", " percent"}).Draw(t, "mark")
		src := fmt.Sprintf("k = %q", sign+number+mark)
		exact, fine := slowFraction(number)
		fine = fine && (mark == "%" || mark == " %")
		if fine && strings.HasPrefix(strings.ReplaceAll(sign, "−", "-"), "-") {
			exact.Neg(exact)
		}
		least, most := -0.2, 0.12
		var ratio float64
		var ok bool
		wrong := readBy(t, src, func(k *Table) { ratio, ok = k.Percent("k", "5 %", nil, least, most) })
		want := 0.0
		if fine {
			want, _ = exact.Float64()
			want /= 100
		}
		if in := fine && want >= least && want <= most; ok != in || ok == (len(wrong) > 0) || ok && ratio != want {
			t.Fatalf("%s is read as %v, %v, %v; want %v, %v", src, ratio, ok, wrong, want, in)
		}
		var share cost.Decimal
		wrong = readBy(t, src, func(k *Table) { share, ok = k.Share("k", "5 %") })
		if fine = fine && sign == ""; ok && !fine && sign != "-" || ok == (len(wrong) > 0) {
			t.Fatalf("%s is read as a share of %v, %v", src, share, wrong)
		}
		if ok && fine && share.Rat().Cmp(exact) != 0 {
			t.Fatalf("%s is read as a share of %v, want %v", src, share, exact)
		}
		if ok {
			read++
		}
	})
	if read < 10 {
		t.Errorf("only %d were read", read)
	}
	for _, src := range []string{"k = 5", "k = 0.05", "k = true", "k = [5]", `k = "5"`, `k = ""`} {
		readBy(t, src, func(k *Table) {
			if ratio, ok := k.Percent("k", "5 %", nil, 0, 1); ok {
				t.Errorf("%s is read as a ratio of %v", src, ratio)
			}
		})
		readBy(t, src, func(k *Table) {
			if share, ok := k.Share("k", "5 %"); ok {
				t.Errorf("%s is read as a share of %v", src, share)
			}
		})
	}
}

// Whole numbers and ratios within limits that are both in; NaN and the infinite are out.
func TestNumbersWithinLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		least := rapid.IntRange(-5, 5).Draw(t, "least")
		most := least + rapid.IntRange(0, 5).Draw(t, "span")
		v := rapid.Custom(func(t *rapid.T) string {
			n := rapid.IntRange(-12, 12).Draw(t, "n")
			return rapid.SampledFrom([]string{fmt.Sprint(n), fmt.Sprint(n, ".0"), fmt.Sprint(n, ".5"), "nan", "inf", "-inf",
				"1e3", "0x1", "true", `"2"`, "9223372036854775807"}).Draw(t, "v")
		}).Draw(t, "value")
		src := "k = " + v
		var n int
		if _, err := fmt.Sscanf(v+" ", "%d ", &n); err != nil || strings.ContainsAny(v, ".xe") {
			n = math.MinInt
		}
		if v == "0x1" {
			n = 1
		}
		whole := -99
		wrong := readBy(t, src, func(k *Table) { whole = k.Count("k", least, least, most) })
		if in := n >= least && n <= most; in == (len(wrong) > 0) || in && whole != n || !in && whole != least {
			t.Fatalf("%s from %d to %d is read as %d, %v", src, least, most, whole, wrong)
		}
		wrong = readBy(t, src, func(k *Table) {
			ratio, ok := k.Ratio("k", float64(least), float64(most))
			if ok && !(ratio >= float64(least) && ratio <= float64(most)) {
				t.Fatalf("%s is a ratio of %v", src, ratio)
			}
		})
		if (v == "nan" || v == "inf" || v == "-inf" || v == "true") && len(wrong) != 1 {
			t.Fatalf("%s passes for a ratio", src)
		}
	})
}

// Of keys of which one may be given the first in the order asked for counts, and the others
// are refused at their own places.
func TestOnlyOneOfSomeKeys(t *testing.T) {
	root, bad := roomy.Parse([]byte("c = 1\nb = 2\na = 3\n"))
	if bad != nil {
		t.Fatal(bad)
	}
	r := &Reader{File: "f", Called: "file"}
	k := r.Table(root, "the file")
	if got := k.Only("x", "a", "b", "c"); got != "a" || len(r.Errors) != 2 || r.Errors[0].At.Line != 2 ||
		r.Errors[1].At.Line != 1 || r.Errors[0].What != "the file has both `a` and `b`" {
		t.Errorf("%q counts, refused %v", got, r.Errors)
	}
	if got := k.Only("x", "y"); got != "" || len(r.Errors) != 2 {
		t.Errorf("of none %q counts, %v", got, r.Errors)
	}
}
