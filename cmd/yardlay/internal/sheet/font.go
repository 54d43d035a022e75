package sheet

import (
	"slices"
	"strings"
	"sync"

	bold "github.com/go-fonts/liberation/liberationsansbold"
	regular "github.com/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font/sfnt"
)

// lackingSign stands for a letter that the font does not have.
const lackingSign = '□'

// printed is the font of the files to print: its regular face, whose letters the bold
// one has too, but for some of Hebrew.
var printed = sync.OnceValues(func() (faces [2]*sfnt.Font, err error) {
	for i, ttf := range [][]byte{regular.TTF, bold.TTF} {
		if faces[i], err = sfnt.Parse(ttf); err != nil {
			break
		}
	}
	return faces, err
})

// lettered replaces what the font has no letter for.
type lettered struct {
	faces [2]*sfnt.Font
	buf   sfnt.Buffer
	known map[rune]bool
	lacks []rune
}

func newLettered() (*lettered, error) {
	faces, err := printed()
	return &lettered{faces: faces, known: map[rune]bool{}}, err
}

// text returns a text in which the sign stands for each letter that is lacking. What is
// not UTF-8 is lacking too.
func (l *lettered) text(s string) string {
	return strings.Map(func(c rune) rune {
		if l.has(c) {
			return c
		}
		return lackingSign
	}, s)
}

// basic replaces what lies beyond the letters that the library writes into the list of
// pages and the title, those of Unicode's basic plane, and what is not UTF-8.
func basic(s string) string {
	return strings.Map(func(c rune) rune {
		if c > 0xffff {
			return lackingSign
		}
		return c
	}, s)
}

// has tells whether both faces have a letter, and keeps what they lack.
func (l *lettered) has(c rune) bool {
	known, ok := l.known[c]
	if !ok {
		known = true
		for _, face := range l.faces {
			glyph, err := face.GlyphIndex(&l.buf, c)
			known = known && err == nil && glyph != 0
		}
		if l.known[c] = known; !known {
			l.lacks = append(l.lacks, c)
		}
	}
	return known
}

// Lacking returns the letters of the document's texts that its font does not have, in
// order; "□" is printed for each of them.
func (d Document) Lacking() (string, error) {
	l, err := newLettered()
	if err != nil {
		return "", err
	}
	for _, drawing := range d.drawings() {
		for _, g := range drawing.Groups {
			for _, it := range g.Items {
				if t, ok := it.(Text); ok {
					l.text(t.Body)
				}
			}
		}
	}
	slices.Sort(l.lacks)
	return string(l.lacks), nil
}
