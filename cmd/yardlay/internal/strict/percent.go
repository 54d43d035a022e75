package strict

import (
	"fmt"
	"strings"
)

// Percent reads text such as "5 %", "-3%" or "+1/2 %" into a ratio between
// least and most (ratios too); ok is false when it is missing or wrong. A number
// without its mark is refused: -3 and -0.03 could both be meant. unsigned, unless
// nil, refuses one other than 0 without a sign as well, with the hint that it returns.
func (t *Table) Percent(
	key, example string, unsigned func(text string) string, least, most float64,
) (ratio float64, ok bool) {
	f := t.Field(key)
	if f == nil {
		return 0, false
	}
	v := f.Value
	if v.Kind == KindNumber {
		t.Fail(v.At, fmt.Sprintf("write it with its mark, in quotes: %s = %q", key, example),
			"`%s` must be text such as %q: a bare number could be a share or a percentage", key, example)
		return 0, false
	}
	if v.Kind != KindText {
		t.Wrong(key, v, "a percentage", fmt.Sprintf("%q", example))
		return 0, false
	}
	number, sign, ok := percentage(v.Text)
	if !ok {
		t.Fail(v.At, fmt.Sprintf("a number and its mark: %s = %q", key, example),
			"`%s`: cannot read %q as a percentage", key, v.Text)
		return 0, false
	}
	if unsigned != nil && sign == "" && number != 0 {
		t.Fail(v.At, unsigned(v.Text), "`%s`: %q has no sign", key, v.Text)
		return 0, false
	}
	if sign == "-" && number > 0 {
		number = -number
	}
	if ratio = number / 100; ratio < least || ratio > most {
		t.Fail(v.At, fmt.Sprintf("from %g %% to %g %%", 100*least, 100*most), "`%s` cannot be %q", key, v.Text)
		return 0, false
	}
	return ratio, true
}

// percentage parts "-2 1/2 %" into its number and its sign: "-", "+" or "".
func percentage(text string) (number float64, sign string, ok bool) {
	text, marked := strings.CutSuffix(strings.TrimSpace(text), "%")
	text = strings.Replace(strings.TrimSpace(text), "−", "-", 1) // the typeset minus
	if strings.HasPrefix(text, "-") || strings.HasPrefix(text, "+") {
		sign, text = text[:1], text[1:]
	}
	number, ok = Fraction(text)
	return number, sign, ok && marked
}
