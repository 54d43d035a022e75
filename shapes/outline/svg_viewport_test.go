package outline

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// Percentages are of the nearest viewport, of its viewBox where it has one: x of its width, y of its
// height, all else of its diagonal over the root of 2 (SVG 2, 8.9).
func TestPercentages(t *testing.T) {
	bound := func(x0, y0, x1, y1 float64) orb.Bound {
		return orb.Bound{Min: orb.Point{x0, y0}, Max: orb.Point{x1, y1}}
	}
	const box = `<svg width="60" height="80" viewBox="0 0 30 40">` // its diagonal over the root of 2: 50 / 1.4142
	r := 50 / math.Sqrt2
	for body, want := range map[string]orb.Bound{
		box + `<rect x="10%" y="10%" width="50%" height="50%"/></svg>`: bound(6, 8, 36, 48),
		box + `<line x1="0" y1="0" x2="100%" y2="100%"/></svg>`:        bound(0, 0, 60, 80),
		box + `<line x1="50%" y1="25%" x2="30" y2="40"/></svg>`:        bound(30, 20, 60, 80),
		box + `<ellipse cx="50%" cy="50%" rx="10%" ry="10%"/></svg>`:   bound(24, 32, 36, 48),
		box + `<circle cx="50%" cy="50%" r="10%"/></svg>`: bound(30-.2*r, 40-.2*r,
			30+.2*r, 40+.2*r),
		`<svg x="10%" y="20%" width="50%" height="25%"><rect width="100%" height="100%"/></svg>`: bound(10, 20, 60, 45),
		`<svg width="auto"><rect width="100%" height="100%"/></svg>`:                             bound(0, 0, 100, 100),
	} {
		b := svgDrawing(t, page(body)).Lines[0].Points.Bound()
		got := bound(b.Min[0], -b.Max[1], b.Max[0], -b.Min[1])
		if planar.Distance(got.Min, want.Min) > ChordError || planar.Distance(got.Max, want.Max) > ChordError {
			t.Errorf("%s: %v, want %v", body, got, want)
		}
	}
}

// A use gives a symbol, or an svg, its place and, where it has them, its width and height (SVG 2, 5.6);
// a viewport without width or height is not drawn (8.2), and one below 0 is an error.
func TestViewportsOfUse(t *testing.T) {
	const symbol = `<symbol id="s" viewBox="0 0 10 10" width="20" height="20"><path d="M0 0L10 10"/></symbol>`
	const inner = `<defs><svg id="s" x="1" y="2" width="20" height="20"><path d="M0 0h10"/></svg></defs>`
	for body, want := range map[string]string{
		symbol + `<use href="#s"/>`:                                                                 "0,0 20,20",
		symbol + `<use href="#s" width="40"/>`:                                                      "10,0 30,20",
		symbol + `<use href="#s" width="40" height="40" x="1" y="2"/>`:                              "1,2 41,42",
		symbol + `<use href="#s" width="auto" height="auto"/>`:                                      "0,0 20,20",
		symbol + `<use href="#s" width="50%" height="50%"/>`:                                        "0,0 50,50",
		symbol + `<use href=" #s " x="5%" y="10%"/>`:                                                "5,10 25,30",
		symbol + `<use href="#s" width="0"/>`:                                                       "",
		symbol + `<g transform="scale(2)"><use href="#s" height="10"/></g>`:                         "10,0 30,20",
		inner + `<use href="#s" x="3" y="4"/>`:                                                      "4,6 14,6",
		inner + `<use href="#s"/><use href="#s" y="1"/>`:                                            "1,2 11,2 | 1,3 11,3",
		`<defs><use id="u" href="#p" x="1"/><path id="p" d="M0 0h1"/></defs><use href="#u" x="2"/>`: "3,0 4,0",
		`<svg width="0"><path d="M0 0h1"/></svg>`:                                                   "",
		`<symbol id="s"><path d="M0 0h1"/></symbol>`:                                                "",
	} {
		if got := corners(svgDrawing(t, page(body)).Lines); got != want {
			t.Errorf("%s: %s, want %s", body, got, want)
		}
	}
	for body, want := range map[string]string{
		page(`<svg width="-1"/>`):       "its width -1 or height 100 is below 0",
		page(`<svg width="1furlong"/>`): "width: 1 furlong has no certain length",
		page(`<svg viewBox="0 0 0 5"/>`): "viewBox: its width 0 and height 5 " +
			"are not above 0",
		page(`<svg viewBox="0 0 5"/>`):                                       "is not four numbers",
		page(`<svg viewBox="0 0 5 5 5"/>`):                                   "viewBox",
		page(`<rect width="-1" height="1"/>`):                                "width -1 is below 0",
		page(`<circle r="-1"/>`):                                             "r -1 is below 0",
		page(`<rect x="1em" width="1" height="1"/>`):                         "x: 1 em has no certain length",
		page(`<ellipse rx="1" ry="b"/>`):                                     "ry: a number is missing",
		page(`<ellipse rx="b"/>`):                                            "rx: a number is missing",
		page(`<rect width="1" height="1" rx="b"/>`):                          "rx: a number is missing",
		page(`<ellipse cy="b"/>`):                                            "cy: a number is missing",
		page(`<line x2="1ex"/>`):                                             "x2: 1 ex has no certain length",
		page(`<polygon points="1 2 3"/>`):                                    "points: 3 numbers make no pairs",
		page(`<polygon points="1 2 x"/>`):                                    "points: no number at character 5",
		page(`<polygon points="1 2,"/>`):                                     "points: a number is missing",
		page(`<use id="u" href="#u"/>`):                                      "it draws itself again and again",
		page(`<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>`): "it draws itself again and again",
		page(`<use href="#p" x="b"/><path id="p" d="M0 0h1"/>`):              "x: a number is missing",
		`<svg><rect width="10%" height="1"/></svg>`: "10% of a page whose size " +
			"the file does not give",
		`<svg><svg viewBox="0 0 1 1"/></svg>`:                                    "it is as large as the page",
		`<svg width="0mm"/>`:                                                     "width 0 is not above 0",
		`<svg width="1" height="b"/>`:                                            "height: a number is missing",
		page(`<path transform="scale(1e200) scale(1e200)" d="M0 0h1"/>`):         "transform: its numbers are too large",
		page(`<path transform="rotate(1)" transform-origin="left" d="M0 0h1"/>`): "transform-origin \"left\" is not read",
	} {
		if _, err := ReadSVG(strings.NewReader(body)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", body, err, want)
		}
	}
	// Whose size is not known may hold what does not ask for it.
	if d := svgDrawing(t, `<svg><svg><path d="M0 0h1"/></svg></svg>`); len(d.Lines) != 1 {
		t.Errorf("%+v", d)
	}
}

// A page that is wider for its units than it is high keeps its unit across, and is stretched along.
func TestPagesThatStretch(t *testing.T) {
	for attrs, want := range map[string]orb.Point{
		`width="20mm" height="10mm" viewBox="0 0 10 10" preserveAspectRatio="none"`: {20, -10},
		`width="20" height="10" viewBox="0 0 10 10" preserveAspectRatio="none"`:     {10, -5},
		`width="20mm" viewBox="0 0 10 5"`:                                           {20, -20},
		`height="20mm" viewBox="0 0 10 5"`:                                          {40, -40},
	} {
		l := svgDrawing(t, `<svg `+attrs+`><path d="M0 0L10 10"/></svg>`).Lines[0]
		if got := l.Points[1]; planar.Distance(got, want) > 1e-9 {
			t.Errorf("%s: %v, want %v", attrs, got, want)
		}
	}
}

// Where texts stand (SVG 1.1, 10.4 and 10.5): x and y place, dx and dy move; an em is the size
// of the font that stands where the text does, an ex half of it (CSS Values 3, 6.1.1: where it is not known).
func TestPlacesOfTexts(t *testing.T) {
	for body, want := range map[string][]Text{
		`<text x="1" y="2">a</text>`:                                     {{At: orb.Point{1, -2}, Text: "a"}},
		`<text x="1,5" y="2 9">a</text>`:                                 {{At: orb.Point{1, -2}, Text: "a"}},
		`<text x="10%" y="20%">a</text>`:                                 {{At: orb.Point{10, -20}, Text: "a"}},
		`<text x="1" y="2" dy="1em">a</text>`:                            {{At: orb.Point{1, -18}, Text: "a"}},
		`<text x="1" y="2" dy="1ex" font-size="20">a</text>`:             {{At: orb.Point{1, -12}, Text: "a"}},
		`<g font-size="10"><text y="2" dy="1em">a</text></g>`:            {{At: orb.Point{0, -12}, Text: "a"}},
		`<text x="1" y="2">a<tspan dx="3">b</tspan></text>`:              {{At: orb.Point{1, -2}, Text: "ab"}},
		`<text x="1" y="2">a<tspan x="">b</tspan></text>`:                {{At: orb.Point{1, -2}, Text: "ab"}},
		`<text x="1" y="2" visibility="hidden">a</text>`:                 nil,
		`<text x="1" y="2">a<tspan display="none">b</tspan>c</text>`:     {{At: orb.Point{1, -2}, Text: "ac"}},
		`<text x="1" y="2">a<tspan visibility="hidden">b</tspan></text>`: {{At: orb.Point{1, -2}, Text: "a"}},
		`<text x="1" y="2">a<tspan x="7">b</tspan><tspan x="8" y="9">c</tspan></text>`: {
			{At: orb.Point{1, -2}, Text: "a"}, {At: orb.Point{7, -2}, Text: "b"}, {At: orb.Point{8, -9}, Text: "c"}},
		`<text x="1" y="2">a<tspan dy="3">b<tspan dy="4">c</tspan></tspan></text>`: {
			{At: orb.Point{1, -2}, Text: "a"}, {At: orb.Point{1, -5}, Text: "b"}, {At: orb.Point{1, -9}, Text: "c"}},
		`<text x="1" y="2" transform="rotate(90)">a</text>`: {{At: orb.Point{-2, -1}, Text: "a"}},
		`<text x="1" y="2"> </text>`:                        nil,
	} {
		got := svgDrawing(t, page(body)).Texts
		for i := range got {
			got[i].Marks = Marks{}
			got[i].At = orb.Point{math.Round(got[i].At[0]*1e6) / 1e6, math.Round(got[i].At[1]*1e6) / 1e6}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s\n%s", body, diff)
		}
	}
	for body, want := range map[string]string{
		`<text x="b">a</text>`:                "x: a number is missing",
		`<text x="1furlong">a</text>`:         "x: 1 furlong has no certain length",
		`<text><tspan y="b">a</tspan></text>`: "y: a number is missing",
		`<text x="1e6">a</text>`:              "coordinate 1e+06 lies beyond",
		"<text>a\u0085b\uFFFE</text>":         "",
		`<text id="a&#x2028;">b</text>`:       "",
	} {
		_, err := ReadSVG(strings.NewReader(page(body)))
		if want != "" && (err == nil || !strings.Contains(err.Error(), want)) {
			t.Errorf("%s: %v, want %q", body, err, want)
		}
	}
}
