package sheet

import (
	"fmt"
	"strings"
	"unicode"

	"github.com/paulmach/orb"
)

// lineHeight is the height taken by one line of text, in its size: room for
// the parts of letters above and below with a little air.
const lineHeight = 1.25

// glyphWidths gives widths in hundredths of the size: the wider of DejaVu Sans
// and Liberation Sans, two faces that a plain "sans-serif" commonly stands for,
// as measured in their files and rounded up.
var glyphWidths = []struct {
	width int
	chars string
}{
	{28, `'ijl`},
	{30, `I`},
	{32, " \u00a0,.’"},
	{34, `/:;\|·`},
	{36, `f`},
	{40, `()-[]t`},
	{42, `!r`},
	{46, `"`},
	{50, "*J`°"},
	{54, `sz“”`},
	{58, `?L_ck–`},
	{62, `FTaeovxyéèöä`},
	{64, `$0123456789bdghnpqu{}üßñ`},
	{67, `EKPSY`},
	{73, `ABCRVXZ`},
	{77, `HNU`},
	{80, `&DGOQ`},
	{82, `w`},
	{84, `#+<=>^~×`},
	{88, `M`},
	{98, `%m½¼¾⅛⅜⅝⅞`},
	{102, `@W—`},
	// Letters of Latin, Greek and Cyrillic beyond those.
	{28, `ìíîïĩīĭįıĵĺļіїј`},
	{30, `ÌÍÎÏĨĪĬĮİłΙΪІЇ`},
	{34, `ΐίιϊ`},
	{40, `ľţŧ`},
	{42, `ŀŕŗřťΊ`},
	{50, `ĴЈ`},
	{54, `śŝşšźżžгзѓѕґ`},
	{58, `çćĉċčĳķĸĹĻĽĿŁΓέΰεζνξυχϋύсэє`},
	{62, `àáâãåêëðòóôõøýÿāăąēĕėęěōŏőŢŤŦŷΤγδθκλοςτόЃГТабвекотухчьяѐёќўҐ`},
	{64, `ùúûþďđĝğġģĥńņňŋũūŭůűųΣήβημρσЎУлрђ`},
	{67, `ÈÉÊËÝÞĒĔĖĘĚĶŚŜŞŠŶŸΕΚΞΡΥΫάαφЀЁЅЕЗРийнпћѝџ`},
	{73, `ÀÁÂÃÄÅÇĀĂĄĆĈĊČħŔŖŘŹŻŽΆΑΒΔΖΛΧπψЄЌАБВКСХЧЬЭЯдцъ`},
	{77, `ÑÙÚÛÜĤĲŃŅŇŊŨŪŬŮŰŲΗΝΠΩЍЏИЙЛНПм`},
	{80, `ÐÒÓÔÕÖØĎĐĜĞĠĢŌŎŐΈΘΟΦДОЦы`},
	{82, `ŉŵΌ`},
	{84, `ΏΨωώЪ`},
	{88, `ΉΎΜЂЋМФфю`},
	{98, `ĦЫжшщљњ`},
	{102, `ÆæŴ`},
	{105, `œЊ`},
	{115, `ŒЖШЩЮ`},
	{134, `ǄǅǇǊǱǲЉѠѬѸѼѾҦ₧₨№☻`},
}

var charWidth = func() map[rune]int {
	widths := map[rune]int{}
	for _, g := range glyphWidths {
		for _, c := range g.chars {
			widths[c] = g.width
		}
	}
	return widths
}()

// otherWidth is the width of every other character: a full square and a little,
// enough for ideographs and for all other letters of Liberation Sans.
const otherWidth = 105

// boldness widens bold text: what the bold face of DejaVu Sans takes beyond the
// plain one, on lines of words.
const boldness = 1.16

// textWidth estimates the width of a line at a size, never below what it takes
// in common faces.
func textWidth(s string, size float64) float64 {
	sum := 0
	for _, c := range s {
		w, ok := charWidth[c]
		if !ok {
			w = otherWidth
		}
		sum += w
	}
	return float64(sum) * size / 100
}

// Width is the room that the text takes along its line, mm of cloth: never less than it
// does in common faces.
func (t Text) Width() float64 {
	w := textWidth(t.Body, t.Size)
	if t.Role == RoleHeading {
		w *= boldness
	}
	return w
}

// widest is the width of the widest of some lines.
func widest(lines []string, size float64) float64 {
	most := 0.0
	for _, l := range lines {
		most = max(most, textWidth(l, size))
	}
	return most
}

// wrap breaks a text between words into lines of at most width; a word wider
// than that is broken where it must be.
func wrap(s string, size, width float64) []string {
	return setIn(strings.FieldsFunc(s, func(c rune) bool { return c != noBreak && unicode.IsSpace(c) }), size, width)
}

// setIn sets words in lines as wrap does.
func setIn(words []string, size, width float64) []string {
	var broken []string
	for _, word := range words {
		part := ""
		for _, c := range word {
			if part != "" && textWidth(part+string(c), size) > width {
				broken = append(broken, part)
				part = ""
			}
			part += string(c)
		}
		broken = append(broken, part)
	}
	return atSpaces(broken, size, width)
}

const noBreak = '\u00a0' // a space at which lines do not break

// atSpaces sets words in lines of at most width; a wider word stands alone, whole.
func atSpaces(words []string, size, width float64) []string {
	var lines []string
	for i, word := range words {
		if last := len(lines) - 1; i > 0 && textWidth(lines[last]+" "+word, size) <= width {
			lines[last] += " " + word
			continue
		}
		lines = append(lines, word)
	}
	return lines
}

// inPieces counts pieces in words.
func inPieces(n int) string {
	if n == 1 {
		return "1 piece"
	}
	return fmt.Sprintf("%d pieces", n)
}

// column collects lines of text from the top down.
type column struct {
	items []Item
	x, y  float64 // left edge, and top of the next line
	width float64
}

// add wraps a text into the column.
func (c *column) add(role Role, size float64, s string) {
	width := c.width
	if role == RoleHeading {
		width /= boldness
	}
	for _, l := range wrap(s, size, width) {
		c.items = append(c.items, Text{Role: role, At: orb.Point{c.x, c.y + size*lineHeight/2}, Size: size, Body: l})
		c.y += size * lineHeight
	}
}

// Paragraph is a text to be set in lines.
type Paragraph struct {
	Role  Role
	Size  float64 // mm of cloth
	Body  string
	After float64 // mm of cloth, free below it
}

func (c *column) set(all ...Paragraph) {
	for _, p := range all {
		c.add(p.Role, p.Size, p.Body)
		c.y += p.After
	}
}

// Column sets paragraphs below each other, from a corner down, in lines of at most a
// width; bottom is where they end.
func Column(corner orb.Point, width float64, all ...Paragraph) (items []Item, bottom float64) {
	c := &column{x: corner[0], y: corner[1], width: width}
	c.set(all...)
	return c.items, c.y
}

// TextWidth is the room that a line takes at a size in common faces, at the most; a role
// of bold letters takes more.
func TextWidth(role Role, s string, size float64) float64 {
	width := textWidth(s, size)
	if tinted.looks[role].bold {
		width *= boldness
	}
	return width
}

// Lines sets words in lines of at most a width; a word wider than that is broken where
// it must be. A word may be several, with spaces, that are not to be parted.
func Lines(role Role, words []string, size, width float64) []string {
	if tinted.looks[role].bold {
		width /= boldness
	}
	return setIn(words, size, width)
}
