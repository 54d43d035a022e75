package strict

import (
	"math/big"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Numbers as people write them: 2, 2.5, .5, 3/8, 1 1/4; all digits are decimal ones.
var written = regexp.MustCompile(`^(?:([0-9]+) +)?(?:([0-9]*\.?[0-9]*)|([0-9]+)/([0-9]+))$`)

// slowFraction reads those digit by digit.
func slowFraction(text string) (value *big.Rat, ok bool) {
	m := written.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil || m[1] != "" && m[3] == "" || m[3] == "" && (m[2] == "" || m[2] == ".") {
		return nil, false
	}
	digits := func(s string) *big.Rat {
		n := new(big.Rat)
		ten, point := big.NewRat(10, 1), false
		scale := big.NewRat(1, 1)
		for _, c := range s {
			if c == '.' {
				point = true
				continue
			}
			n.Add(n.Mul(n, ten), big.NewRat(int64(c-'0'), 1))
			if point {
				scale.Mul(scale, ten)
			}
		}
		return n.Quo(n, scale)
	}
	value = digits(m[1])
	if m[3] == "" {
		return digits(m[2]), true
	}
	if den := digits(m[4]); den.Sign() != 0 {
		return value.Add(value, new(big.Rat).Quo(digits(m[3]), den)), true
	}
	return nil, false
}

func TestFractionsAgainstSlowTwin(t *testing.T) {
	read := 0
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.StringMatching(`[0-9bo./ ]{0,8}`), rapid.StringMatching(`[0-2]{1,3} 0?[0-9]/0?[0-9]`),
			rapid.StringMatching(`0?[0-9]{1,3}(/0?[0-9]{1,2}|\.[0-9]{0,3})?`)).Draw(t, "text")
		got, ok := Fraction(text)
		want, fine := slowFraction(text)
		if ok != fine {
			t.Fatalf("%q is read: %v, as %v; want %v", text, ok, got, want)
		}
		if ok {
			if exact, _ := want.Float64(); got != exact {
				t.Fatalf("%q is read as %v, want %v", text, got, exact)
			}
			read++
		}
	})
	if read < 20 {
		t.Errorf("only %d were read", read)
	}
}
