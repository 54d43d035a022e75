package outline

import (
	"math"
	"strconv"
	"strings"

	"yardlay/shapes/say"
)

// dxfTag is a group: its code and its value, each on a line of its own.
type dxfTag struct {
	code  int
	value string
	line  int // of the value, from 1
}

// is tells whether the group is one of a word: SECTION, EOF.
func (t dxfTag) is(code int, word string) bool { return t.code == code && t.word() == word }

// word is the value without spaces around it.
func (t dxfTag) word() string { return strings.TrimSpace(t.value) }

// dxfErrorf is an error at a line of the file.
func dxfErrorf(line int, format string, args ...any) *say.Error {
	return say.Errorf("DXF, line %d: %w", line, say.Errorf(format, args...))
}

// number is the value as a finite number.
func (t dxfTag) number() (float64, error) {
	s := t.word()
	v, err := strconv.ParseFloat(s, 64)
	switch {
	case err == nil && !math.IsNaN(v) && !math.IsInf(v, 0):
		return v, nil
	case strings.Contains(s, ","):
		return 0, dxfErrorf(t.line, "%s is no number", quoted(s)).Hint("a point stands before the decimals, not a comma")
	}
	return 0, dxfErrorf(t.line, "%s stands where a number belongs (group code %d)", quoted(s), t.code).
		Hint("the file may be damaged: save it again where it was drawn")
}

// whole is the value as a whole number.
func (t dxfTag) whole() (int, error) {
	v, err := strconv.Atoi(t.word())
	if err == nil {
		return v, nil
	}
	if f, err := t.number(); err != nil || f != math.Trunc(f) || math.Abs(f) > 1<<31 {
		return 0, dxfErrorf(t.line, "%s stands where a whole number belongs (group code %d)", quoted(t.word()), t.code).
			Hint("the file may be damaged: save it again where it was drawn")
	} else {
		return int(f), nil
	}
}

// quoted shows some of a file in an error: no more than fits, nothing that cannot be printed.
func quoted(s string) string {
	const most = 40
	if r := []rune(s[:min(len(s), 4*most)]); len(r) > most {
		s = string(r[:most]) + "..."
	}
	return strconv.Quote(s)
}

// dxfScanner takes a text apart into groups. Lines end by LF or CR LF, or all by CR.
type dxfScanner struct {
	text string // what is left
	line int    // lines taken
	cr   bool
	held dxfTag // put back
	has  bool
	unit dxfUnitWords // of comments
}

// nextLine takes a line; at the end there is none.
func (s *dxfScanner) nextLine() (string, bool) {
	if s.text == "" {
		return "", false
	}
	end := byte('\n')
	if s.cr {
		end = '\r'
	}
	line := s.text
	if at := strings.IndexByte(line, end); at >= 0 {
		line, s.text = line[:at], line[at+1:]
	} else {
		s.text = ""
	}
	s.line++
	for line != "" && line[len(line)-1] == '\r' {
		line = line[:len(line)-1]
	}
	return line, true
}

// Codes that DXF knows run from -5, of programs alone, to 1071, of extended data.
const leastDXFCode, mostDXFCode = -5, 1071

// next takes a group. Comments are passed over, but for what they say of the unit.
func (s *dxfScanner) next() (dxfTag, error) {
	if s.has {
		s.has = false
		return s.held, nil
	}
	for {
		first, ok := s.nextLine()
		if !ok {
			return dxfTag{}, s.short()
		}
		word := strings.TrimSpace(first)
		code, err := strconv.Atoi(word)
		if err != nil || code < leastDXFCode || code > mostDXFCode {
			return dxfTag{}, dxfErrorf(s.line, "%s stands where a group code belongs", quoted(word)).
				Hint("in a DXF a line with a code and a line with its value take turns: save the file again as ASCII DXF")
		}
		value, ok := s.nextLine()
		if !ok {
			return dxfTag{}, s.short()
		}
		if code == 999 {
			s.unit.read(value, s.line)
			continue
		}
		return dxfTag{code, value, s.line}, nil
	}
}

// putBack puts a group back, to be the next one again.
func (s *dxfScanner) putBack(t dxfTag) { s.held, s.has = t, true }

func (s *dxfScanner) short() error {
	return dxfErrorf(max(s.line, 1), "the file ends here, before its end (EOF)").
		Hint("it may have been cut short on its way: fetch or save it again")
}
