package measure

import (
	"fmt"
	"math/big"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Longest is the greatest length read, in millimetres: one kilometre, ten times
// any bolt. Anything longer is a slip of the pen or of the unit.
const Longest = 1e6

// longestText is the most bytes a length may be written with. The longest sane
// text ("12 yards 2 feet 11 15/16 inches") is half of it; without a limit a
// page of digits would be turned into a fraction of that size.
const longestText = 64

// Error says which text could not be read as a length, and why.
type Error struct {
	Text string // what was written
	Why  string // what is wrong with it
}

// Error quotes the text and gives the reason.
func (e *Error) Error() string {
	return fmt.Sprintf("cannot read %q as a length: %s", clip(e.Text), e.Why)
}

// clip shortens a text for quoting in an error.
func clip(s string) string {
	if len(s) <= longestText {
		return s
	}
	cut := longestText
	for cut > 0 && !utf8.RuneStart(s[cut]) {
		cut--
	}
	return s[:cut] + "..."
}

// Parse reads a length into millimetres. It takes a whole number, a decimal, a
// fraction or a whole number and a fraction ("35 1/2", "35-1/2", "35½"), then a
// unit; without a unit the number counts in otherwise. Amounts in falling units of
// one system add up ("3 ft 2 in"). A leading minus makes the whole negative.
// The error is an *Error.
func Parse(text string, otherwise Unit) (float64, error) {
	exact, err := ParseExact(text, otherwise)
	if err != nil {
		return 0, err
	}
	mm, _ := exact.Float64()
	return mm, nil
}

// ParsePositive is Parse for a length that must be more than zero.
func ParsePositive(text string, otherwise Unit) (float64, error) {
	mm, err := Parse(text, otherwise)
	if err == nil && mm <= 0 {
		return 0, &Error{text, "it must be more than zero"}
	}
	return mm, err
}

// ParseNonNegative is Parse for a length that may be zero but not less.
func ParseNonNegative(text string, otherwise Unit) (float64, error) {
	mm, err := Parse(text, otherwise)
	if err == nil && mm < 0 {
		return 0, &Error{text, "it must not be negative"}
	}
	return mm, err
}

// ParseExact is Parse with the millimetres as an exact fraction.
func ParseExact(text string, otherwise Unit) (*big.Rat, error) {
	if len(text) > longestText {
		return nil, &Error{text, fmt.Sprintf("it is %d bytes long, a length takes at most %d", len(text), longestText)}
	}
	if !otherwise.Valid() {
		return nil, &Error{text, fmt.Sprintf("%v is no unit to count it in", otherwise)}
	}
	r := &reader{text: text, rest: []rune(strings.TrimSpace(text)), otherwise: otherwise}
	mm, err := r.length()
	if err != nil {
		return nil, err
	}
	if new(big.Rat).Abs(mm).Cmp(big.NewRat(Longest, 1)) > 0 {
		return nil, &Error{text, "it is longer than 1 km"}
	}
	return mm, nil
}

// reader walks over the text of one length.
type reader struct {
	text      string
	rest      []rune
	otherwise Unit
}

func (r *reader) fail(why string, args ...any) error {
	return &Error{r.text, fmt.Sprintf(why, args...)}
}

// length reads sign, then amounts with their units until the text ends.
func (r *reader) length() (*big.Rat, error) {
	negative := r.take('-') || r.take('−')
	if !negative {
		r.take('+')
	}
	r.space()
	if len(r.rest) == 0 {
		return nil, r.fail("there is no number in it")
	}
	sum := new(big.Rat)
	var last Unit
	for first := true; len(r.rest) > 0; first = false {
		amount, err := r.amount()
		if err != nil {
			return nil, err
		}
		unit, named, err := r.unit()
		if err != nil {
			return nil, err
		}
		if !named && (!first || len(r.rest) > 0) {
			return nil, r.fail("every amount but a single one needs its unit (%s)", unitList)
		}
		if !first && (unit.Metric() != last.Metric() || unit.Millimetres() >= last.Millimetres()) {
			return nil, r.fail("%v cannot follow %v: amounts go from the larger unit to the smaller, in one system",
				unit, last)
		}
		sum.Add(sum, amount.Mul(amount, unit.Exact()))
		last = unit
	}
	if negative {
		sum.Neg(sum)
	}
	return sum, nil
}

// amount reads one number: decimal, fraction, or whole number and fraction.
func (r *reader) amount() (*big.Rat, error) {
	if f, ok := r.glyph(); ok {
		return f, r.endOfNumber()
	}
	whole, err := r.digits()
	if err != nil {
		return nil, err
	}
	if r.take('.') {
		return r.decimals(whole)
	}
	if whole == "" {
		return nil, r.fail("a number was expected at %q", string(r.rest))
	}
	if r.slash() {
		f, err := r.below(whole)
		if err != nil {
			return nil, err
		}
		return f, r.endOfNumber()
	}
	value, _ := new(big.Rat).SetString(whole)
	return r.mixed(value)
}

// mixed reads the fraction that may follow a whole number, after a space, a
// hyphen or nothing (½ only), and adds it.
func (r *reader) mixed(whole *big.Rat) (*big.Rat, error) {
	ahead := *r
	hyphen := ahead.take('-')
	if !hyphen {
		ahead.space()
	}
	f, isFraction := ahead.glyph()
	if !isFraction {
		top, err := ahead.digits()
		if err != nil {
			return nil, err
		}
		if isFraction = top != "" && ahead.slash(); isFraction {
			if f, err = ahead.below(top); err != nil {
				return nil, err
			}
		}
	}
	if !isFraction {
		if hyphen {
			return nil, r.fail("a fraction was expected after the hyphen")
		}
		return whole, r.endOfNumber()
	}
	if f.Cmp(big.NewRat(1, 1)) >= 0 {
		return nil, r.fail("the fraction after a whole number must be less than 1")
	}
	*r = ahead
	return whole.Add(whole, f), r.endOfNumber()
}

// decimals reads what follows the decimal point.
func (r *reader) decimals(whole string) (*big.Rat, error) {
	part, err := r.digits()
	if err != nil {
		return nil, err
	}
	if part == "" {
		return nil, r.fail("digits were expected after the decimal point")
	}
	value, _ := new(big.Rat).SetString("0" + whole + "." + part)
	return value, r.endOfNumber()
}

// below reads the lower number of a fraction whose upper number and slash are read.
func (r *reader) below(top string) (*big.Rat, error) {
	bottom, err := r.digits()
	if err != nil {
		return nil, err
	}
	if bottom == "" {
		return nil, r.fail("a whole number was expected after %s/", top)
	}
	if strings.Trim(bottom, "0") == "" {
		return nil, r.fail("%s/%s divides by zero", top, bottom)
	}
	value, _ := new(big.Rat).SetString(unpadded(top) + "/" + unpadded(bottom))
	return value, nil
}

// unpadded takes leading zeros off digits: big.Rat reads the parts of a fraction
// that begin with one as octal.
func unpadded(digits string) string {
	if digits = strings.TrimLeft(digits, "0"); digits == "" {
		return "0"
	}
	return digits
}

// endOfNumber refuses what would make a number read so far mean something else.
func (r *reader) endOfNumber() error {
	if len(r.rest) == 0 {
		return nil
	}
	switch c := r.rest[0]; {
	case c == '/' || c == '⁄':
		return r.fail("a fraction has one slash, after a whole number")
	case c == ',':
		return r.fail("write the decimals after a point, not a comma")
	case c == '.':
		return r.fail("a number has one decimal point and no fraction beside it")
	}
	return nil
}

// unit reads the unit after an amount; named is false where none is written.
func (r *reader) unit() (u Unit, named bool, err error) {
	r.space()
	n := 0
	for n < len(r.rest) && !unicode.IsSpace(r.rest[n]) && !isNumber(r.rest[n]) {
		n++
	}
	if n == 0 {
		return r.otherwise, false, nil
	}
	u, err = ParseUnit(string(r.rest[:n]))
	if err != nil {
		return 0, false, r.fail("%v", err)
	}
	r.rest = r.rest[n:]
	r.space()
	return u, true, nil
}

func isNumber(c rune) bool { return c >= '0' && c <= '9' || glyphs[c] != [2]int64{} }

// digits reads ASCII digits, perhaps none. Digits of other scripts are refused
// with their own reason rather than taken for a unit.
func (r *reader) digits() (string, error) {
	n := 0
	for n < len(r.rest) && unicode.IsDigit(r.rest[n]) {
		if r.rest[n] > '9' {
			return "", r.fail("the digit %q is not one of 0 to 9", r.rest[n])
		}
		n++
	}
	s := string(r.rest[:n])
	r.rest = r.rest[n:]
	return s, nil
}

// glyphs are the fractions that Unicode has a character for.
var glyphs = map[rune][2]int64{
	'½': {1, 2}, '⅓': {1, 3}, '⅔': {2, 3}, '¼': {1, 4}, '¾': {3, 4},
	'⅕': {1, 5}, '⅖': {2, 5}, '⅗': {3, 5}, '⅘': {4, 5}, '⅙': {1, 6}, '⅚': {5, 6},
	'⅐': {1, 7}, '⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8}, '⅑': {1, 9}, '⅒': {1, 10},
}

// glyph reads one fraction character.
func (r *reader) glyph() (*big.Rat, bool) {
	if len(r.rest) == 0 {
		return nil, false
	}
	g, ok := glyphs[r.rest[0]]
	if !ok {
		return nil, false
	}
	r.rest = r.rest[1:]
	return big.NewRat(g[0], g[1]), true
}

func (r *reader) slash() bool { return r.take('/') || r.take('⁄') }

func (r *reader) take(c rune) bool {
	if len(r.rest) > 0 && r.rest[0] == c {
		r.rest = r.rest[1:]
		return true
	}
	return false
}

func (r *reader) space() {
	for len(r.rest) > 0 && unicode.IsSpace(r.rest[0]) {
		r.rest = r.rest[1:]
	}
}
