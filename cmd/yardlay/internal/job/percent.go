package job

import (
	"fmt"
	"strings"
)

// percent reads text such as "5 %", "-3%" or "+1/2 %" into a ratio between
// least and most (ratios too); ok is false when it is missing or wrong. A number
// without its mark is refused: -3 and -0.03 could both be meant. signed refuses
// a percentage other than 0 without a sign as well.
func (t *table) percent(key, example string, signed bool, least, most float64) (ratio float64, ok bool) {
	f := t.field(key)
	if f == nil {
		return 0, false
	}
	v := f.value
	if v.kind == kindNumber {
		t.fail(v.at, fmt.Sprintf("write it with its mark, in quotes: %s = %q", key, example),
			"`%s` must be text such as %q: a bare number could be a share or a percentage", key, example)
		return 0, false
	}
	if v.kind != kindText {
		t.wrong(key, v, "a percentage", fmt.Sprintf("%q", example))
		return 0, false
	}
	number, sign, ok := percentage(v.text)
	if !ok {
		t.fail(v.at, fmt.Sprintf("a number and its mark: %s = %q", key, example), "`%s`: cannot read %q as a percentage", key, v.text)
		return 0, false
	}
	if signed && sign == "" && number != 0 {
		t.fail(v.at, fmt.Sprintf("%s = \"-%s\" where the cloth shrinks, \"+%s\" where it grows (ISO 5077)", key, v.text, v.text),
			"`%s`: %q has no sign", key, v.text)
		return 0, false
	}
	if sign == "-" && number > 0 {
		number = -number
	}
	if ratio = number / 100; ratio < least || ratio > most {
		t.fail(v.at, fmt.Sprintf("from %g %% to %g %%", 100*least, 100*most), "`%s` cannot be %q", key, v.text)
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
	number, ok = fraction(text)
	return number, sign, ok && marked
}
