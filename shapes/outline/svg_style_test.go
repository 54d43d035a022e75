package outline

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// strokes are the colours of the lines of a drawing, in its order.
func strokes(t *testing.T, body string) []string {
	t.Helper()
	var all []string
	for _, l := range svgDrawing(t, page(body)).Lines {
		all = append(all, l.Colour)
	}
	return all
}

const (
	red, lime, blue, black = "#ff0000", "#00ff00", "#0000ff", "#000000"
	dash                   = `d="M0 0h1"/>`
)

// Which of several declarations counts: the cascade of CSS 2.1, 6.4.1 (importance, then specificity,
// then order) and SVG 1.1, 6.4, by which attributes count less than any rule.
func TestCascade(t *testing.T) {
	for body, want := range map[string]string{
		`<style>path{stroke:red}</style><path stroke="lime" ` + dash:                                          red,
		`<style>path{stroke:red}</style><path style="stroke:lime" ` + dash:                                    lime,
		`<style>path{stroke:red!important}</style><path style="stroke:lime" ` + dash:                          red,
		`<style>path{stroke:red !important}</style><path style="stroke:lime ! important" ` + dash:             lime,
		`<style>path{stroke:red!important}.a{stroke:lime!important}</style><path class="a" ` + dash:           lime,
		`<style>path{stroke:red!important}.a{stroke:lime}</style><path class="a" ` + dash:                     red,
		`<style>.b{stroke:lime}.a{stroke:red}</style><path class="a b" ` + dash:                               red,
		`<style>.a{stroke:red}.b{stroke:lime}</style><path class="a b" ` + dash:                               lime,
		`<style>.a{stroke:red}</style><style>.b{stroke:lime}</style><path class="b a" ` + dash:                lime,
		`<style>.a.b{stroke:red}.a{stroke:lime}</style><path class="a b" ` + dash:                             red,
		`<style>path.a{stroke:red}.a{stroke:lime}</style><path class="a" ` + dash:                             red,
		`<style>path.a{stroke:red}.a.b{stroke:lime}</style><path class="a b" ` + dash:                         lime,
		`<style>#p{stroke:red}path.a.b.c{stroke:lime}</style><path id="p" class="a b c" ` + dash:              red,
		`<style>path#p{stroke:red}#p.a{stroke:lime}</style><path id="p" class="a" ` + dash:                    lime,
		`<style>path{stroke:red}*{stroke:lime}</style><path ` + dash:                                          red,
		`<style>.a,path,.b{stroke:red}</style><path ` + dash:                                                  red,
		`<style>.a.b{stroke:red}</style><path class="a" stroke="lime" ` + dash:                                lime,
		`<style>rect.a{stroke:red}</style><path class="a" stroke="lime" ` + dash:                              lime,
		`<style>#q.a{stroke:red}</style><path id="p" class="a" stroke="lime" ` + dash:                         lime,
		`<style>#p#p{stroke:red}</style><path id="p" stroke="lime" ` + dash:                                   red,
		`<style>#p#q,..a,.,#,a*{stroke:red}</style><path id="p" class="a" stroke="lime" ` + dash:              lime,
		`<style>path{stroke:red}/* .a{ */.a{stroke:lime}/*</style><path class="a" ` + dash:                    lime,
		`<style>@media print{path{stroke:red}}.a{stroke:lime}</style><path class="a" ` + dash:                 lime,
		`<style>@charset "x";path{stroke:red}</style><path ` + dash:                                           red,
		`<style>path{stroke:red;}.a{</style><path class="a" ` + dash:                                          red,
		`<style>path{Stroke : red}</style><path ` + dash:                                                      red,
		`<path style="stroke:lime;fill" stroke="red" ` + dash:                                                 lime,
		`<path style="stroke:;fill:red" ` + dash:                                                              red,
		`<path style="marker:url('a;stroke:red');stroke:lime" ` + dash:                                        lime,
		`<path style="marker:url(a;b);stroke:lime" ` + dash:                                                   lime,
		`<path style='font:"a;b";;stroke:lime' ` + dash:                                                       lime,
		`<path style='font:");stroke:red";stroke:lime' ` + dash:                                               lime,
		`<path style="colour:red;stroke:lime;" ` + dash:                                                       lime,
		`<path style="stroke:red;stroke:lime" ` + dash:                                                        lime,
		`<path style="stroke:red!important;stroke:lime" ` + dash:                                              red,
		`<g stroke="red"><path stroke="inherit" style="fill:lime" ` + dash + `</g>`:                           red,
		`<g stroke="red"><path style="stroke:inherit" stroke="lime" ` + dash + `</g>`:                         red,
		`<g style="stroke:red"><g><path ` + dash + `</g></g>`:                                                 red,
		`<g color="red" stroke="currentColor"><path color="lime" ` + dash + `</g>`:                            lime,
		`<path stroke="currentColor" ` + dash:                                                                 black,
		`<path stroke="CURRENTCOLOR" color="red" ` + dash:                                                     red,
		`<path stroke="url(#g)" fill="lime" ` + dash:                                                          lime,
		`<path stroke="url(#g)" fill="url(#g) none" ` + dash:                                                  "",
		`<path stroke="none" fill="none" ` + dash:                                                             "",
		`<path stroke="transparent" fill="red" ` + dash:                                                       red,
		`<style>path{stroke:red}</style><defs><path id="p" d="M0 0h1"/></defs><use href="#p" stroke="lime"/>`: red,
		`<defs><path id="p" d="M0 0h1"/></defs><g stroke="red"><use href="#p" stroke="lime"/></g>`:            lime,
	} {
		if diff := cmp.Diff([]string{want}, strokes(t, body)); diff != "" {
			t.Errorf("%s\n%s", body, diff)
		}
	}
}

// What hides: display and opacity with all that stands in the element, visibility each element by
// itself, as it is inherited (SVG 1.1, 11.5); opacity is no inherited property (14.5).
func TestWhatHides(t *testing.T) {
	for attrs, want := range map[string]int{
		`display="none"`: 0, `opacity="0"`: 0, `opacity="0%"`: 0, `opacity="-1"`: 0, `style="opacity:0.0"`: 0,
		`visibility="hidden"`: 1, `visibility="collapse"`: 1, `visibility="visible"`: 2,
		`opacity="0.01"`: 2, `opacity="none"`: 2, `display="inline"`: 2, `fill-opacity="0"`: 2, ``: 2,
	} {
		body := `<g ` + attrs + `><path d="M0 0h1"/><g><path visibility="visible" d="M0 1h1"/></g></g>`
		if n := len(svgDrawing(t, page(body)).Lines); n != want {
			t.Errorf("%s: %d lines are seen, want %d", attrs, n, want)
		}
	}
	root := `<svg display="none" viewBox="0 0 1 1"><path d="M0 0h1"/></svg>`
	if d := svgDrawing(t, root); len(d.Lines) != 0 || len(d.Notes) != 1 {
		t.Errorf("a page that is not displayed: %+v", d)
	}
	notes := svgDrawing(t, page(`<path fill="none" `+dash+`<path fill="none" stroke="none" `+dash+
		`<path fill="none" stroke="red" `+dash+`<path mask="url(#m)" clip-path="none" `+dash)).Notes
	want := []string{"2 lines without stroke or filling, read all the same at line 1", "mask at line 1"}
	if diff := cmp.Diff(want, notes); diff != "" {
		t.Error(diff)
	}
}

// A stroke is broken where its dashes have a length: none, and only zeros, draw it whole (SVG 1.1,
// 11.4). The property is inherited.
func TestDashes(t *testing.T) {
	for dashes, want := range map[string]bool{"none": false, "0": false, "0 0": false, "": false, "4 2": true,
		"0.5": true, "0,9": true, "10%": true} {
		d := svgDrawing(t, page(`<g stroke-dasharray="`+dashes+`"><path `+dash+`</g>`))
		if d.Lines[0].Dashed != want {
			t.Errorf("dashes %q: %v", dashes, d.Lines[0].Dashed)
		}
	}
}

// The examples of colours of CSS 2.1, 4.3.6, those out of its range clipped to it, and CSS Color 4,
// 5.2 (hexadecimal with opacity) and 15.1 (hex(#rrggbbaa)).
func TestColoursOfCSS(t *testing.T) {
	for text, want := range map[string]string{
		"#f00": red, "#ff0000": red, "rgb(255,0,0)": red, "rgb(100%, 0%, 0%)": red, "rgb(300,0,0)": red,
		"rgb(255,-10,0)": red, "rgb(110%, 0%, 0%)": red, "#fb0": "#ffbb00", "RED": red, " lime ": lime,
		"#00f8": blue, "#0000ff80": blue, "rgba(0,0,255,.5)": blue, "rgb( 0 0 255 )": blue, "rgb(0 0 99.9%)": blue,
		"rgb(1,2,3)": "#010203", "rgb(0.4,1.6,50%)": "#000280", "fuchsia": "#ff00ff", "rebeccaviolet": "",
		"#12": "", "#12345": "", "#1234567": "", "#ggg": "", "#-12": "", "rgb(1,2)": "", "rgb()": "", "hsl(0,0%,0%)": "",
		"url(#a)": "", "url(#a) #00f": blue, "url(#a": "", "transparent": "", "": "",
	} {
		if got := parseColour(text); got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
}
