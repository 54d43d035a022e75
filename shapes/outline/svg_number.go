package outline

import (
	"strconv"

	"yardlay/shapes/say"
)

// svgScan goes through the text of an attribute: numbers, commas, words.
type svgScan struct {
	text string
	at   int
}

// space passes white space.
func (s *svgScan) space() {
	for s.at < len(s.text) && isSVGSpace(s.text[s.at]) {
		s.at++
	}
}

func isSVGSpace(c byte) bool { return c == ' ' || c == '\n' || c == '\t' || c == '\r' || c == '\f' }

// comma passes white space with at most one comma in it and tells whether there was one.
func (s *svgScan) comma() bool {
	s.space()
	if !s.take(',') {
		return false
	}
	s.space()
	return true
}

func (s *svgScan) take(c byte) bool {
	if s.at < len(s.text) && s.text[s.at] == c {
		s.at++
		return true
	}
	return false
}

func (s *svgScan) end() bool { return s.at >= len(s.text) }

// startsNumber tells whether a number can begin here.
func (s *svgScan) startsNumber() bool {
	if s.end() {
		return false
	}
	c := s.text[s.at]
	return c >= '0' && c <= '9' || c == '.' || c == '-' || c == '+'
}

// digits passes digits and tells how many.
func (s *svgScan) digits() int {
	from := s.at
	for s.at < len(s.text) && s.text[s.at] >= '0' && s.text[s.at] <= '9' {
		s.at++
	}
	return s.at - from
}

// number reads a number as SVG writes them, as far as it goes: "1.5.5" is 1.5 and then .5,
// "3-4" is 3 and then -4 (SVG 2, 9.3.9). An e belongs to it if digits follow: 2em is 2.
func (s *svgScan) number() (float64, error) {
	from := s.at
	if !s.take('-') {
		s.take('+')
	}
	n := s.digits()
	if s.take('.') {
		n += s.digits()
	}
	if n == 0 {
		s.at = from
		return 0, say.Errorf("a number is missing at character %d%s", from+1, s.found())
	}
	if mark := s.at; s.take('e') || s.take('E') {
		if !s.take('-') {
			s.take('+')
		}
		if s.digits() == 0 {
			s.at = mark
		}
	}
	v, err := strconv.ParseFloat(s.text[from:s.at], 64)
	if err != nil {
		return 0, say.Errorf("the number %.20s at character %d is too large", s.text[from:s.at], from+1)
	}
	return v, nil
}

// numbers reads as many numbers as there are, with white space or one comma between.
func (s *svgScan) numbers(most int) ([]float64, error) {
	var all []float64
	for s.space(); ; {
		v, err := s.number()
		if err != nil {
			return nil, err
		}
		if all = append(all, v); len(all) > most {
			return nil, say.Errorf("over %d numbers", most)
		}
		if between := s.comma(); !between && !s.startsNumber() {
			return all, nil
		}
	}
}

// word passes letters and hyphens.
func (s *svgScan) word() string {
	from := s.at
	for s.at < len(s.text) && (s.text[s.at] == '-' || s.text[s.at]|0x20 >= 'a' && s.text[s.at]|0x20 <= 'z') {
		s.at++
	}
	return s.text[from:s.at]
}

// found says what stands here instead of what belongs here.
func (s *svgScan) found() string {
	if s.end() {
		return ": the text ends"
	}
	return ": " + strconv.Quote(s.text[s.at:min(s.at+6, len(s.text))])
}

// svgUnits are the lengths of units, mm (CSS Values 3, 6.2: 96 px to the inch, 72 pt, a pc
// is 12 pt, a Q a quarter of a mm). What has no unit counts as px (SVG 2, 8.9).
var svgUnits = map[string]float64{"": 25.4 / 96, "px": 25.4 / 96, "mm": 1, "cm": 10, "in": 25.4, "pt": 25.4 / 72,
	"pc": 25.4 / 6, "Q": .25, "q": .25}

// svgLength is a length as written.
type svgLength struct {
	n    float64
	unit string // "%" and those of svgUnits
}

// parseSVGLength reads a length.
func parseSVGLength(text string) (svgLength, error) {
	s := svgScan{text: text}
	s.space()
	n, err := s.number()
	if err != nil {
		return svgLength{}, err
	}
	l := svgLength{n: n}
	if s.take('%') {
		l.unit = "%"
	} else {
		l.unit = s.word()
	}
	if s.space(); !s.end() {
		return svgLength{}, say.Errorf("%.20q is not a length", text)
	}
	return l, nil
}
