package outline

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// Where a viewBox comes to lie in its viewport (SVG 2, 8.6: preserveAspectRatio): the point at the same share of
// both, 0, a half or the whole of each side, is one place; both sides have one scale, the less of the two where all
// has to be seen (meet) and the greater where nothing is left free (slice), unless none is asked for.
func TestViewBoxesLieAsAligned(t *testing.T) {
	shares := map[string]float64{"Min": 0, "Mid": .5, "Max": 1}
	rapid.Check(t, func(t *rapid.T) {
		n := func(name string, from, to int) float64 { return float64(rapid.IntRange(from, to).Draw(t, name)) }
		box := svgBox{n("x", -50, 50), n("y", -50, 50), n("w", 1, 90), n("h", 1, 90)}
		to := svgBox{n("to x", -50, 50), n("to y", -50, 50), n("to w", 1, 90), n("to h", 1, 90)}
		word := rapid.SampledFrom([]string{"Min", "Mid", "Max"})
		x, y := word.Draw(t, "along"), word.Draw(t, "down")
		slice := rapid.SampledFrom([]string{"", " meet", " slice"}).Draw(t, "slice")
		how := rapid.SampledFrom([]string{"", "defer "}).Draw(t, "defer") + "x" + x + "Y" + y + slice
		sx, sy := to.w/box.w, to.h/box.h
		if slice == " slice" {
			sx, sy = math.Max(sx, sy), math.Max(sx, sy)
		} else {
			sx, sy = math.Min(sx, sy), math.Min(sx, sy)
		}
		if rapid.IntRange(0, 4).Draw(t, "none") == 0 {
			how, sx, sy = "none", to.w/box.w, to.h/box.h
		}
		fx, fy := shares[x], shares[y]
		at := orb.Point{box.x + fx*box.w, box.y + fy*box.h}
		want := orb.Point{to.x + fx*to.w, to.y + fy*to.h}
		d := svgLines(t,
			fmt.Sprintf(`<svg x="%g" y="%g" width="%g" height="%g" viewBox="%g %g %g %g" preserveAspectRatio="%s">`+
				`<path d="M%g %gl1 0l0 1"/></svg>`, to.x, to.y, to.w, to.h, box.x, box.y, box.w, box.h, how, at[0], at[1]))
		for i, p := range []orb.Point{want, {want[0] + sx, want[1]}, {want[0] + sx, want[1] + sy}} {
			if got := d[0].Points[i]; math.Hypot(got[0]-p[0], -got[1]-p[1]) > 1e-9 {
				t.Fatalf("%s: point %d is %v, want %v", how, i, got, p)
			}
		}
	})
}

func svgLines(t rapid.TB, body string) []Line {
	d, err := ReadSVG(strings.NewReader(page(body)))
	if err != nil {
		t.Fatalf("%s: %v", body, err)
	}
	return d.Lines
}

// Of a radius alone both are made, one below 0 counts as not given, and one of 0 makes a plain corner, or nothing of
// an ellipse (SVG 2, 10.2 and 10.4).
func TestRadiiThatAreNotGiven(t *testing.T) {
	for as, plain := range map[string]string{`rx="4"`: `rx="4" ry="4"`, `ry="4"`: `rx="4" ry="4"`,
		`rx="4" ry="-1"`: `rx="4" ry="4"`, `rx="-1" ry="4"`: `rx="4" ry="4"`, `rx="0" ry="4"`: ``, `rx="4" ry="0"`: ``,
		`rx="-1" ry="-2"`: ``, `rx="-3"`: ``, `rx="auto" ry="4"`: `rx="4" ry="4"`,
		`rx="40" ry="40"`: `rx="15" ry="10"`} {
		rect := func(radii string) string { return `<rect x="1" y="2" width="30" height="20" ` + radii + `/>` }
		sameLines(t, rect(as), rect(plain))
		if plain == "" || as == `rx="40" ry="40"` {
			continue
		}
		ellipse := func(radii string) string { return `<ellipse cx="9" cy="7" ` + radii + `/>` }
		sameLines(t, ellipse(as), ellipse(plain))
	}
	for _, nothing := range []string{`<ellipse rx="0" ry="4"/>`, `<ellipse rx="4" ry="0"/>`, `<ellipse/>`,
		`<circle r="0"/>`,
		`<rect width="0" height="4"/>`, `<rect width="4" height="0"/>`, `<rect width="4"/>`, `<polygon points=" "/>`} {
		if lines := svgLines(t, nothing); len(lines) != 0 {
			t.Errorf("%s draws %v", nothing, lines)
		}
	}
}

// A property is urgent by the one word that says so, and a declaration that cannot be read leaves what was said
// before (CSS 2.1, 4.2 and 6.4.2).
func TestUrgentDeclarations(t *testing.T) {
	for style, want := range map[string]string{
		"stroke: red !important; stroke: blue": "#ff0000", "stroke: red; stroke: blue": "#0000ff",
		"stroke: red ! important; stroke: blue": "#ff0000", "stroke: red !importan; stroke: blue": "#0000ff",
		"stroke: blue; stroke:": "#0000ff", "stroke: blue; stroke": "#0000ff", "stroke: blue; :red": "#0000ff",
		"STROKE: blue": "#0000ff", "stroke: blue; content: 'a;stroke:red'": "#0000ff",
		"stroke: blue; x: url(a;stroke:red)": "#0000ff"} {
		lines := svgLines(t, `<path stroke="lime" style="`+style+`" d="M0 0h9"/>`)
		if got := lines[0].Colour; got != want {
			t.Errorf("%s: %s, want %s", style, got, want)
		}
	}
}

// What a page says of its size, and the unit that follows (SVG 2, 8.9: what has no unit is px; 96 px to the inch: CSS
// Values 3, 6.2), in words.
func TestWordsForTheUnitOfAPage(t *testing.T) {
	for attrs, want := range map[string]Unit{
		`width="210mm" viewBox="0 0 420 100"`:            {.5, "width 210 mm for 420 units"},
		`height="50mm" viewBox="0 0 420 100"`:            {.5, "height 50 mm for 100 units"},
		`width="99" height="50mm" viewBox="0 0 420 100"`: {99 * 25.4 / 96 / 420, "height 50 mm for 100 units"},
		`width="420px" viewBox="0 0 420 100"`: {25.4 / 96,
			"width 420 px for 420 units, 96 px to the inch"},
		`width="2in" viewBox="0 0 20 10"`:                  {2.54, "width 2 in for 20 units"},
		`width="210" viewBox="0 0 420 100"`:                {0, "width 210 has no unit"},
		`height="70" viewBox="0 0 420 100"`:                {0, "height 70 has no unit"},
		`width="100%" height="100%" viewBox="0 0 420 100"`: {0, "width 100% says no length"},
		`viewBox="0 0 420 100"`:                            {0, "no width and no height"},
		`width="auto" viewBox="0 0 420 100"`:               {0, "no width and no height"},
		`width="30mm"`: {25.4 / 96,
			"width 30 mm and no viewBox: a unit is a px, 96 to the inch"},
		`height="30mm"`: {25.4 / 96,
			"height 30 mm and no viewBox: a unit is a px, 96 to the inch"},
		`width="30"`: {0, "width 30 has no unit"},
		``:           {0, "no width and no height"},
		`width="2in" height="2in" viewBox="0 0 20 10"`:  {2.54, "width 2 in for 20 units"},
		`width="2in" height=".5in" viewBox="0 0 20 10"`: {1.27, "width 2 in for 20 units"},
		`width="20mm" height="30mm" viewBox="0 0 20 10" preserveAspectRatio="xMinYMin slice"`: {3,
			"width 20 mm for 20 units"},
	} {
		d, err := ReadSVG(strings.NewReader(`<svg ` + attrs + `><path d="M0 0h9"/></svg>`))
		if err != nil {
			t.Fatalf("%s: %v", attrs, err)
		}
		if math.Abs(d.Unit.Millimetres-want.Millimetres) > 1e-12 || d.Unit.Because != want.Because {
			t.Errorf("%s: %+v, want %+v", attrs, d.Unit, want)
		}
	}
}

// Percentages on a page without a viewBox are of its size in px.
func TestSharesOfAPageWithoutViewBox(t *testing.T) {
	for _, c := range []struct {
		attrs string
		scale float64
	}{{`width="96px" height="48px"`, 25.4 / 96}, {`width="1in" height=".5in"`, 25.4 / 96}, {`width="96" height="48"`,
		1}} {
		d, err := ReadSVG(strings.NewReader(`<svg ` + c.attrs + `><path d="M0 0h1"/>` +
			`<line x1="25%" y1="50%" x2="100%" y2="100%"/></svg>`))
		if err != nil {
			t.Fatal(err)
		}
		want := orb.LineString{{24 * c.scale, -24 * c.scale}, {96 * c.scale, -48 * c.scale}}
		for i, p := range d.Lines[1].Points {
			if math.Hypot(p[0]-want[i][0], p[1]-want[i][1]) > 1e-9 {
				t.Errorf("%s: %v, want %v", c.attrs, p, want[i])
			}
		}
	}
}

// Names are as lists can show them: white space is one space, letters that only steer others are dropped, and a name
// of more than a hundred letters is cut to ninety-nine and a mark.
func TestNamesOfElements(t *testing.T) {
	long := strings.Repeat("é", 100)
	for name, want := range map[string]string{"a  b\n c": "a b c", "a\u200db": "ab", "\u202efront": "front", long: long,
		long + "x": strings.Repeat("é", 99) + "…", strings.Repeat("ab ", 900): strings.Repeat("ab ", 33) + "…"} {
		lines := svgLines(t, `<path aria-label="`+name+`" d="M0 0h9"/>`)
		if d := cmp.Diff(want, lines[0].Label); d != "" {
			t.Errorf("%.20q: %s", name, d)
		}
	}
	_, err := ReadSVG(strings.NewReader(page(`<g id="a&#xE000;b"><path d="M0 0h9"/></g>`)))
	if err == nil || !strings.Contains(err.Error(), "holds a letter that cannot be printed") ||
		!strings.Contains(err.Error(), "hint: give it another name") {
		t.Errorf("a letter of nobody's: %v", err)
	}
}
