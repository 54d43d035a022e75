package outline

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
)

// dxfCodepages are the codes of letters that $DWGCODEPAGE names, of releases before 2007.
var dxfCodepages = map[string]*charmap.Charmap{
	"ANSI_874": charmap.Windows874, "ANSI_1250": charmap.Windows1250, "ANSI_1251": charmap.Windows1251,
	"ANSI_1252": charmap.Windows1252, "ANSI_1253": charmap.Windows1253, "ANSI_1254": charmap.Windows1254,
	"ANSI_1255": charmap.Windows1255, "ANSI_1256": charmap.Windows1256, "ANSI_1257": charmap.Windows1257,
	"ANSI_1258": charmap.Windows1258, "DOS437": charmap.CodePage437, "DOS850": charmap.CodePage850,
	"DOS852": charmap.CodePage852, "DOS855": charmap.CodePage855, "DOS858": charmap.CodePage858,
	"DOS860": charmap.CodePage860, "DOS862": charmap.CodePage862, "DOS863": charmap.CodePage863,
	"DOS865": charmap.CodePage865, "DOS866": charmap.CodePage866, "MACINTOSH": charmap.Macintosh,
	"ISO8859-1": charmap.ISO8859_1, "ISO8859-2": charmap.ISO8859_2, "ISO8859-5": charmap.ISO8859_5,
	"ISO8859-7": charmap.ISO8859_7, "ISO8859-9": charmap.ISO8859_9, "ISO8859-15": charmap.ISO8859_15,
}

// decode makes UTF-8 of a value. From release 2007 on it is that already; what is UTF-8
// before, letters of several bytes included, hardly means anything else. Of a codepage that
// is not known each byte becomes a letter of its own, so that names stay apart.
func (f *dxfFile) decode(s string) string {
	ascii := true
	for i := 0; i < len(s) && ascii; i++ {
		ascii = s[i] < utf8.RuneSelf
	}
	if !ascii && !utf8.ValidString(s) {
		if f.version >= "AC1021" {
			s = strings.ToValidUTF8(s, "\uFFFD")
		} else {
			page := dxfCodepages["ANSI_1252"]
			if f.codepage != "" {
				page = dxfCodepages[f.codepage]
			}
			if page == nil {
				f.strange = true
				page = charmap.CodePage437
			}
			s, _ = page.NewDecoder().String(s)
		}
	}
	if strings.Contains(s, `\U+`) {
		s = unescape(s)
	}
	return s
}

// unescape undoes \U+XXXX; two halves of UTF-16 that follow each other are one letter.
func unescape(s string) string {
	var out strings.Builder
	var units []uint16
	flush := func() {
		out.WriteString(string(utf16.Decode(units)))
		units = units[:0]
	}
	for s != "" {
		if len(s) >= 7 && s[0] == '\\' && s[1] == 'U' && s[2] == '+' {
			if v, err := strconv.ParseUint(s[3:7], 16, 16); err == nil {
				units, s = append(units, uint16(v)), s[7:]
				continue
			}
		}
		flush()
		out.WriteByte(s[0])
		s = s[1:]
	}
	flush()
	return out.String()
}

// name reads a name: of a layer, a block, a line type. One that cannot be printed is refused.
func (f *dxfFile) name(t dxfTag, of string) (string, error) {
	if len(t.value) <= 16 {
		if known, ok := f.known[t.value]; ok {
			return known, nil
		}
	}
	s := strings.TrimSpace(f.decode(t.value))
	for _, r := range s {
		if !unicode.IsPrint(r) {
			return "", dxfErrorf(t.line, "the name of a %s, %s, holds a letter that cannot be printed", of, quoted(s)).
				Hint("name it with letters and figures where it was drawn")
		}
	}
	if utf8.RuneCountInString(s) > maxDXFName {
		return "", dxfErrorf(t.line, "the name of a %s has over %d letters, the most that DXF allows", of, maxDXFName).
			Hint("give it a shorter name where it was drawn")
	}
	s = strings.Clone(s) // the file itself is let go
	if len(t.value) <= 16 && len(f.known) < maxDXFNames {
		f.known[strings.Clone(t.value)] = s
	}
	return s, nil
}

// plainText undoes the codes of a TEXT: %%d and its like, and carets for control characters.
func plainText(s string) string {
	if strings.Contains(s, "%%") {
		s = undoPercents(s)
	}
	if strings.Contains(s, "^") {
		s = strings.NewReplacer("^ ", "^", "^I", " ", "^J", " ", "^M", " ").Replace(s)
	}
	return printable(s)
}

// undoPercents replaces %%d by the sign of degrees, %%p by plus or minus, %%c by that of a
// diameter, %%% by a percent sign, %%nnn by the letter of that number, and drops the codes
// that switch lines over and under a text on and off.
func undoPercents(s string) string {
	var out strings.Builder
	for s != "" {
		if !strings.HasPrefix(s, "%%") || len(s) < 3 {
			out.WriteByte(s[0])
			s = s[1:]
			continue
		}
		switch s[2] {
		case 'd', 'D':
			out.WriteString("\u00b0")
		case 'p', 'P':
			out.WriteString("\u00b1")
		case 'c', 'C':
			out.WriteString("\u2300")
		case '%':
			out.WriteByte('%')
		case 'u', 'U', 'o', 'O', 'k', 'K':
		default:
			if v, err := strconv.ParseUint(s[2:min(len(s), 5)], 10, 8); err == nil && len(s) >= 5 {
				out.WriteRune(rune(v))
				s = s[5:]
				continue
			}
			out.WriteString(s[:3])
		}
		s = s[3:]
	}
	return out.String()
}

// printable puts a space for what cannot be printed, but for ends of lines, and leaves no
// spaces around.
func printable(s string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if r == '\n' || unicode.IsPrint(r) {
			return r
		}
		return ' '
	}, s))
}
