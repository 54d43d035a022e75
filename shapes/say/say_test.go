package say

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// feet shows a length in feet, 304.8 mm each, to two decimals.
func feet(mm float64) string { return fmt.Sprintf("%.2f ft", mm/304.8) }

// typed gives an error a type, as those do that callers tell apart.
type typed struct{ error }

func (t typed) Unwrap() error { return t.error }

func TestLengthsAreShownAsAsked(t *testing.T) {
	girth := Textf("the hip of %.1f", MM(914.4))
	inner := Errorf("waist of %.1f is wider than %v", MM(1219.24), girth).Hint("%s, or %.0f more", "an opening",
		MM(304.8))
	for _, c := range []struct {
		err                error
		mm, mmHint         string
		inFeet, inFeetHint string
	}{
		{inner, "waist of 1219.2 mm is wider than the hip of 914.4 mm", "an opening, or 305 mm more",
			"waist of 4.00 ft is wider than the hip of 3.00 ft", "an opening, or 1.00 ft more"},
		{Errorf("part %q: %w", "skirt", inner), `part "skirt": waist of 1219.2 mm is wider than the hip of 914.4 mm`,
			"an opening, or 305 mm more", `part "skirt": waist of 4.00 ft is wider than the hip of 3.00 ft`,
			"an opening, or 1.00 ft more"},
		{Errorf("%w, %d %%", inner, 5).Hint("none of 609.6 mm"),
			"waist of 1219.2 mm is wider than the hip of 914.4 mm, 5 %",
			"none of 609.6 mm", "waist of 4.00 ft is wider than the hip of 3.00 ft, 5 %", "none of 609.6 mm"},
		{typed{inner}, "waist of 1219.2 mm is wider than the hip of 914.4 mm", "an opening, or 305 mm more",
			"waist of 4.00 ft is wider than the hip of 3.00 ft", "an opening, or 1.00 ft more"},
		{errors.New("3048 mm"), "3048 mm", "", "3048 mm", ""},
		{Errorf("%v and %d %s", MM(math.Inf(1)), 7, []string{"a"}), "+Inf mm and 7 [a]", "", "+Inf ft and 7 [a]", ""},
	} {
		if what, hint := Parts(c.err, nil); what != c.mm || hint != c.mmHint {
			t.Errorf("in mm\n%s\n%s", what, hint)
		}
		if what, hint := Parts(c.err, feet); what != c.inFeet || hint != c.inFeetHint {
			t.Errorf("in feet\n%s\n%s", what, hint)
		}
		if got := c.err.Error(); got != Join(c.mm, c.mmHint) {
			t.Errorf("prints\n%s", got)
		}
	}
	if (Text{}).String() != "" || Textf("50 %%").String() != "50 %" {
		t.Error("plain texts do not print as they are")
	}
}

// A length in another unit is told to the digits that it has in mm: both are one length.
func TestDigitsAreThoseOfMillimetres(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm, digits := rapid.Float64Range(-1e5, 1e5).Draw(t, "mm"), rapid.IntRange(0, 6).Draw(t, "digits")
		format := fmt.Sprintf("%%.%df", digits)
		exact := func(mm float64) string { return fmt.Sprint(mm) }
		var printed float64
		if _, err := fmt.Sscanf(Textf(format, MM(mm)).String(), "%g mm", &printed); err != nil {
			t.Fatal(err)
		}
		if got := Textf(format, MM(mm)).In(exact); got != fmt.Sprint(printed) {
			t.Fatalf("%s of %v is %v in mm, %s elsewhere", format, mm, printed, got)
		}
	})
}

func TestCausesAreFound(t *testing.T) {
	err := error(Errorf("cloth: %w",
		Errorf("file: %w", &fs.PathError{Op: "open", Path: "x", Err: fs.ErrNotExist}).Hint("make it")))
	var at *fs.PathError
	if !errors.Is(err, fs.ErrNotExist) || !errors.As(err, &at) || at.Path != "x" {
		t.Errorf("%v lost its cause", err)
	}
	if errors.Is(Errorf("cloth: %v", fs.ErrNotExist), fs.ErrNotExist) {
		t.Error("the verb v wraps")
	}
}
