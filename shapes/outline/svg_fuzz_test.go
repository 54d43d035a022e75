package outline

import (
	"strings"
	"testing"
	"unicode"
)

// Whatever is read keeps what Line and Marks promise; whatever is not is refused in words.
func FuzzReadSVG(f *testing.F) {
	for _, body := range []string{
		`<path d="M0 0L10 0C1e1-2,3.5.5 0 7zm1 1q1 1 2 2t3 3s1 1 2 2a5 4 30 0110 0A5 5 0 1 0 0 0H4V5h-1v-1"/>`,
		`<g id="l" transform="translate(1 2)rotate(30 5,5) skewX(3)"><rect width="9" height="5%" rx="1"/></g>`,
		`<circle r="5" stroke="#f00"/><ellipse rx="3" ry="2"/><line x2="5"/><polyline points="1,2 3,4"/>`,
		`<symbol id="s" viewBox="0 0 9 9" preserveAspectRatio="xMinYMax slice"><polygon points="0 0 1 0 1 1"/></symbol>` +
			`<use xlink:href="#s" x="1mm" width="20" height="3"/>`,
		`<style>.a, path#b{stroke:rgb(1,2,3)!important} g{display:none}</style><path class="a" id="b" d="M0 0h1"/>`,
		`<text x="1 2" dy="1em">a<tspan x="3">b</tspan></text><image/><switch><g systemLanguage="en"/></switch>`,
		`<svg x="1" width="50%" viewBox="0 0 2 2"><title>t</title><path d="M0 0h1" style="transform: scale(2)"/></svg>`,
	} {
		f.Add(page(body))
	}
	f.Add(`<?xml version="1.0" encoding="iso-8859-1"?><!DOCTYPE svg [<!ENTITY a "b">]><svg/>`)
	f.Add(`<svg width="800" height="10em" viewBox="0 0 8 6" preserveAspectRatio="none"><use href="#a"/><g id="a"/></svg>`)
	f.Fuzz(func(t *testing.T, text string) {
		d, err := ReadSVG(strings.NewReader(text))
		if err != nil {
			if what := err.Error(); !strings.Contains(what, "SVG") {
				t.Fatalf("%q", what)
			}
			return
		}
		checkDrawing(t, d)
		for _, l := range d.Lines {
			checkNames(t, l.Marks)
		}
		for _, x := range d.Texts {
			checkNames(t, x.Marks)
			if strings.ContainsFunc(x.Text, unicode.IsControl) {
				t.Fatalf("text %q", x.Text)
			}
		}
	})
}

func checkNames(t *testing.T, m Marks) {
	t.Helper()
	for _, s := range []string{m.ID, m.Label, m.Group, m.Layer} {
		if strings.ContainsFunc(s, func(c rune) bool { return !unicode.IsPrint(c) }) {
			t.Fatalf("name %q", s)
		}
	}
	if m.Colour != "" && (len(m.Colour) != 7 || m.Colour[0] != '#') {
		t.Fatalf("colour %q", m.Colour)
	}
}
