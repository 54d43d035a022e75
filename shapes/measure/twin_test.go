package measure

import (
	"fmt"
	"math"
	"math/big"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// One amount and its unit, by regular expressions: a decimal, a whole number with a
// fraction behind a hyphen or spaces, a fraction, or a whole number.
var (
	anAmount = regexp.MustCompile(`^(?:(\d*)\.(\d+)|(?:(\d+)(?:-|\s+))?(\d+)/(\d+)|(?:(\d+)(?:-|\s*))?([½¾])|(\d+))`)
	aUnit    = regexp.MustCompile(`^\s*([^\s\d½¾]*)\s*`)
)

// slowParse reads a length as the manual puts it.
func slowParse(text string, bare Unit) (mm *big.Rat, ok bool) {
	rest := strings.TrimSpace(text)
	sum, sign := new(big.Rat), big.NewRat(1, 1)
	if m := regexp.MustCompile(`^([-+−])\s*`).FindStringSubmatch(rest); m != nil {
		if rest = rest[len(m[0]):]; m[1] != "+" {
			sign.Neg(sign)
		}
	}
	number := func(s string) *big.Rat {
		n, _ := new(big.Int).SetString("0"+s, 10)
		return new(big.Rat).SetInt(n)
	}
	var before Unit
	for first := true; first || rest != ""; first = false {
		m := anAmount.FindStringSubmatch(rest)
		if m == nil {
			return nil, false
		}
		rest = rest[len(m[0]):]
		n := number(m[3] + m[6] + m[8])
		part := new(big.Rat)
		switch {
		case m[2] != "":
			ten := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(len(m[2]))), nil)
			n = number(m[1])
			part.Quo(number(m[2]), new(big.Rat).SetInt(ten))
		case m[5] != "":
			if number(m[5]).Sign() == 0 {
				return nil, false
			}
			part.Quo(number(m[4]), number(m[5]))
		case m[7] != "":
			part = map[string]*big.Rat{"½": big.NewRat(1, 2), "¾": big.NewRat(3, 4)}[m[7]]
		}
		if m[3] != "" && part.Cmp(big.NewRat(1, 1)) >= 0 || rest != "" && strings.ContainsAny(rest[:1], "/.,") {
			return nil, false
		}
		u := aUnit.FindStringSubmatch(rest)
		rest = rest[len(u[0]):]
		unit := bare
		if u[1] == "" {
			if !first || rest != "" {
				return nil, false
			}
		} else {
			known := map[string]Unit{"in": Inch, `"`: Inch, "ft": Foot, "'": Foot, "yd": Yard, "mm": Millimetre,
				"cm": Centimetre, "m": Metre}
			if unit, ok = known[u[1]]; !ok {
				return nil, false
			}
		}
		if !first && (unit.Metric() != before.Metric() || unit.Millimetres() >= before.Millimetres()) {
			return nil, false
		}
		before = unit
		sum.Add(sum, n.Add(n, part).Mul(n, unit.Exact()))
	}
	return sum.Mul(sum, sign), sum.Cmp(big.NewRat(Longest, 1)) <= 0 && sum.Cmp(big.NewRat(-Longest, 1)) >= 0
}

// Whatever is written, well or badly, the reader takes what the regular expressions take,
// to the same exact length.
func TestParseAgainstRegularExpressions(t *testing.T) {
	words := rapid.SampledFrom([]string{"1", "2", "07", "35", "0", "1/2", "3/4", "9/8", "1/0", "/", ".5", ".", "2.25",
		"½",
		"¾", " ", " ", "  ", "-", "+", "in", "ft", "yd", "mm", "cm", "m", `"`, "'", "ell", ","})
	read := 0
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(words, 0, 7).Draw(t, "words"), "")
		if rapid.Bool().Draw(t, "well") { // amounts in falling units
			text = ""
			for u := Yard; u >= Inch; u-- {
				if rapid.Bool().Draw(t, "has") {
					amount := rapid.SampledFrom([]string{"3", "1 1/2", "2-3/8", "4½", "1 ¾", ".5", "10/4", "1 9/8"})
					space := rapid.SampledFrom([]string{"", " "})
					text += amount.Draw(t, "amount") + space.Draw(t, "a") + u.String() + space.Draw(t, "b")
				}
			}
		}
		bare := Unit(rapid.IntRange(0, int(Metre)).Draw(t, "bare"))
		want, ok := slowParse(text, bare)
		got, err := ParseExact(text, bare)
		if (err == nil) != ok || ok && got.Cmp(want) != 0 {
			t.Fatalf("%q in %v is read as %v, %v; want %v, %v", text, bare, got, err, want, ok)
		}
		if ok {
			read++
		}
	})
	if read < 20 {
		t.Errorf("only %d were read", read)
	}
}

// shownIn is how a unit divides lengths that are printed: the step in mm of lengths
// from an inch on, and below that.
var shownIn = map[Unit][2]*big.Rat{
	Inch: {big.NewRat(254, 80), big.NewRat(254, 160)}, Foot: {big.NewRat(254, 80), big.NewRat(254, 160)},
	Yard: {big.NewRat(9144, 80), big.NewRat(9144, 80)}, Millimetre: {big.NewRat(1, 10), big.NewRat(1, 10)},
	Centimetre: {big.NewRat(1, 1), big.NewRat(1, 1)}, Metre: {big.NewRat(10, 1), big.NewRat(10, 1)},
}

// Whole numbers of thirds of a step are printed to the step that is nearest, above or
// below by exact arithmetic, in every unit.
func TestFormatAgainstExactSteps(t *testing.T) {
	guard, half := big.NewRat(1, 100), big.NewRat(1, 2)
	rapid.Check(t, func(t *rapid.T) {
		unit := Unit(rapid.IntRange(0, int(Metre)).Draw(t, "unit"))
		third := big.NewRat(rapid.Int64Range(-4000, 4000).Draw(t, "thirds"), 3)
		step := shownIn[unit][0]
		exact := new(big.Rat).Mul(third, step)
		if exact.Cmp(big.NewRat(254, 10)) < 0 && exact.Cmp(big.NewRat(-254, 10)) > 0 {
			step = shownIn[unit][1]
		}
		mm, _ := exact.Float64()
		floor := func(x *big.Rat) *big.Rat {
			return new(big.Rat).SetInt(new(big.Int).Div(x.Num(), x.Denom())) // Euclidean
		}
		steps := new(big.Rat).Quo(exact, step)
		spare := new(big.Rat).Quo(guard, step)
		up := new(big.Rat).Neg(floor(new(big.Rat).Neg(new(big.Rat).Sub(steps, spare))))
		down := floor(new(big.Rat).Add(steps, spare))
		size := new(big.Rat).Abs(steps)
		nearest := floor(size.Add(size, half))
		if steps.Sign() < 0 {
			nearest.Neg(nearest)
		}
		for _, c := range []struct {
			text string
			want *big.Rat
		}{{Format(mm, unit), nearest}, {FormatUp(mm, unit), up}, {FormatDown(mm, unit), down}} {
			got, err := ParseExact(c.text, unit)
			if want := new(big.Rat).Mul(c.want, step); err != nil || got.Cmp(want) != 0 {
				t.Fatalf("%v mm in %v is printed %q, which is %v, %v; want %v", mm, unit, c.text, got, err, want)
			}
		}
		if both := Both(mm, unit); both != fmt.Sprintf("%s (%s)", Format(mm, unit), Format(mm, unit.Other())) ||
			unit.Other().Metric() == unit.Metric() || unit.Other().Other().Metric() != unit.Metric() {
			t.Fatalf("in both systems it is %s", both)
		}
		if n := math.Round(mm / TapeMark(unit)); FormatTape(mm, unit) == "" ||
			math.Abs(n*TapeMark(unit)-mm) > TapeMark(unit) {
			t.Fatalf("on a tape it is %s", FormatTape(mm, unit))
		}
	})
}

// Units for sizes and for the counter stay in their system, and are no coarser than what
// they stand for is measured in.
func TestUnitsForSizesAndCounters(t *testing.T) {
	for u := Inch; u <= Metre; u++ {
		size, counter := SizeUnit(u), CounterUnit(u)
		if size.Metric() != u.Metric() || counter.Metric() != u.Metric() || size.Millimetres() > u.Millimetres() ||
			SizeUnit(size) != size || size.Millimetres() > 30 || counter.Millimetres() < 900 {
			t.Errorf("%v: sizes in %v, cloth in %v", u, size, counter)
		}
		if got := u.Size(1000); got != Format(1000, size) {
			t.Errorf("%v: a size is printed %s", u, got)
		}
		for _, name := range units[u].names {
			if got, err := ParseUnit(" " + strings.ToUpper(name) + " "); got != u || err != nil {
				t.Errorf("%q is read as %v, %v", name, got, err)
			}
		}
	}
}
