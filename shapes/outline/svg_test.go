package outline

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// page is a drawing of 100 x 100 mm whose units are mm.
func page(body string) string {
	return `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ` +
		`width="100mm" height="100mm" viewBox="0 0 100 100">` + body + `</svg>`
}

func svgDrawing(t *testing.T, text string) Drawing {
	t.Helper()
	d, err := ReadSVG(strings.NewReader(text))
	if err != nil {
		t.Fatalf("%s\n%v", text, err)
	}
	checkDrawing(t, d)
	return d
}

// checkDrawing holds a drawing to what Line promises.
func checkDrawing(t testing.TB, d Drawing) {
	t.Helper()
	for _, l := range d.Lines {
		last := len(l.Points) - 1
		if last < 1 || len(l.Corners) < 2 || l.Corners[0] != 0 || l.Corners[len(l.Corners)-1] != last {
			t.Fatalf("%s: %d points, corners %v", l.Place, last+1, l.Corners)
		}
		for i := 1; i < len(l.Corners); i++ {
			if l.Corners[i] <= l.Corners[i-1] {
				t.Fatalf("%s: corners %v", l.Place, l.Corners)
			}
		}
		for i, p := range l.Points {
			if !(math.Abs(p[0]) <= MaxCoordinate && math.Abs(p[1]) <= MaxCoordinate) {
				t.Fatalf("%s: point %v", l.Place, p)
			}
			if i > 0 && p == l.Points[i-1] {
				t.Fatalf("%s: %v twice", l.Place, p)
			}
		}
		if l.Closed && l.Points[0] != l.Points[last] {
			t.Fatalf("%s: closed from %v to %v", l.Place, l.Points[0], l.Points[last])
		}
	}
}

// cornersOf writes where segments of a line end, y down as in the file: "0,0 10,0 z".
func cornersOf(l Line) string {
	var all []string
	for _, c := range l.Corners {
		all = append(all, fmt.Sprintf("%.4g,%.4g", l.Points[c][0]+0, 0-l.Points[c][1]))
	}
	if l.Closed {
		all[len(all)-1] = "z"
	}
	return strings.Join(all, " ")
}

func corners(lines []Line) string {
	var all []string
	for _, l := range lines {
		all = append(all, cornersOf(l))
	}
	return strings.Join(all, " | ")
}

// Where the segments of paths end, by hand from the rules of SVG 2, 9.3.
func TestPathData(t *testing.T) {
	for data, want := range map[string]string{
		"M1 2L3 4":                             "1,2 3,4",
		"m1,2 3,4 5,6":                         "1,2 4,6 9,12",
		"M1-2.5.5.25 0":                        "1,-2.5 0.5,0.25", // a third pair lacks its y: below
		"M0 0H5V6h-5z":                         "0,0 5,0 5,6 0,6 z",
		"M0 0h1 2 3v1 2":                       "0,0 1,0 3,0 6,0 6,1 6,3",
		"M10 10h5v5zl-1-1":                     "10,10 15,10 15,15 z | 10,10 9,9",
		"M0 0 10 0 10 10ZM20 20h1v1z":          "0,0 10,0 10,10 z | 20,20 21,20 21,21 z",
		"m5 5 1 0 0 1zm10 10 1 0 0 1z":         "5,5 6,5 6,6 z | 15,15 16,15 16,16 z",
		"M0 0L10 0L10 10L0 0":                  "0,0 10,0 10,10 z",
		"M0 0L10 0L0 0":                        "0,0 10,0 0,0",
		"M0 0L10 0L10 10L0 0Z":                 "0,0 10,0 10,10 z",
		"M5 5":                                 "",
		"M5 5z":                                "",
		"":                                     "",
		"none":                                 "",
		" \n\t":                                "",
		"M0 0L0 0L0 0":                         "",
		"M0,0C1,2,3,4,5,6c1,1 2,2 3,3":         "0,0 5,6 8,9",
		"M0 0S3 4 5 6s1 1 2 2":                 "0,0 5,6 7,8",
		"M0 0Q3 4 5 6q1 1 2 2T9 9t1 1":         "0,0 5,6 7,8 9,9 10,10",
		"M0 0A5 5 0 0 1 10 0a5 5 0 0110 0":     "0,0 10,0 20,0",
		"M0 0a5 5 0 1110 0 5 5 0 0010,0":       "0,0 10,0 20,0",
		"M0 0a5,5,0,0,1,10,0,5,5,0,0,1,10,0":   "0,0 10,0 20,0",
		"M0 0A0 5 0 0 1 10 0":                  "0,0 10,0",
		"M0 0A5 5 0 0 1 0 0L1 1":               "0,0 1,1",
		"M1e1 1E+1L2.e1 -1e-1l+.5+.5":          "10,10 20,-0.1 20.5,0.4",
		"M0 0L1 1M2 2M3 3L4 4":                 "0,0 1,1 | 3,3 4,4",
		"M.1.1l.1.1.1.1.1.1-.3-.3":             "0.1,0.1 0.2,0.2 0.3,0.3 0.4,0.4 z", // by rounding only
		"M100-200h-1.5.5":                      "100,-200 98.5,-200 99,-200",
		"M3 4L5 5\n\rL&#13;6 6 , 7 7":          "3,4 5,5 6,6 7,7",
		"M0 0l10 0 0 10-9.9999999 0 -1e-7-10z": "0,0 10,0 10,10 1e-07,10 z",
	} {
		if data == "M1-2.5.5.25 0" {
			data = "M1-2.5.5.25"
		}
		if got := corners(svgDrawing(t, page(`<path d="`+data+`"/>`)).Lines); got != want {
			t.Errorf("%q: %s, want %s", data, got, want)
		}
	}
}

func TestPathDataIsRefusedAtItsPlace(t *testing.T) {
	for data, want := range map[string]string{
		"L1 1":                         "it begins with L, not with M",
		"1 1":                          `no command at character 1: "1 1"`,
		"M1":                           "M: a number is missing at character 3: the text ends",
		"M1 1L":                        "L: a number is missing at character 6: the text ends",
		"M1 1L5,":                      "L: a number is missing at character 8: the text ends",
		"M1 1L5,,5":                    `L: a number is missing at character 8: ",5"`,
		"M1 1,L5 5":                    `M: a number is missing at character 6: "L5 5"`,
		"M,1 1":                        `M: a number is missing at character 2: ",1 1"`,
		"M1 1X5":                       `no command at character 5: "X5"`,
		"M1 1[5":                       `no command at character 5: "[5"`,
		"M1 1z5 5":                     `no command at character 6: "5 5"`,
		"M0 0A5 5 0 2 1 1 1":           `A: a flag, 0 or 1, is missing at character 12: "2 1 1 "`,
		"M0 0A5 5 0 01":                "A: a number is missing at character 14: the text ends",
		"M0 0L1e999 0":                 "L: the number 1e999 at character 6 is too large",
		"M0 0LNaN 0":                   `L: a number is missing at character 6: "NaN 0"`,
		"M0 0L40000 0":                 "L at character 6: coordinate 40000 lies beyond 30 m",
		"M0 0L1e300 0":                 "L at character 6: coordinate 1e+300 lies beyond 30 m",
		"M0 0C1e9 0 0 0 1 1":           "C at character 6: coordinate 1e+09 lies beyond 30 m",
		"M0 0Q1 1e9 1 1":               "Q at character 6: coordinate -1e+09 lies beyond 30 m",
		"M1e308 0l1e308 0":             "coordinate 1e+308 lies beyond 30 m",
		"M0 0A1e300 1e300 0 1 1 10 10": "lies beyond 30 m",
	} {
		_, err := ReadSVG(strings.NewReader("<!-- a drawing -->\n" + page(`<path id="front" d="`+data+`"/>`)))
		place := `SVG, line 2, path "front": `
		if err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), place) {
			t.Errorf("%q: %v, want %q", data, err, want)
		}
	}
}

// Where the unit of a file comes from.
func TestUnits(t *testing.T) {
	px := 25.4 / 96
	for attrs, want := range map[string]Unit{
		`width="210mm" height="297mm" viewBox="0 0 210 297"`:   {1, "width 210 mm for 210 units"},
		`width="21cm" height="29.7cm" viewBox="0 0 2100 2970"`: {.1, "width 21 cm for 2100 units"},
		`width="1in" height="1in" viewBox="5 5 96 96"`:         {px, "width 1 in for 96 units"},
		`width="72pt" height="72pt" viewBox="0 0 72 72"`:       {25.4 / 72, "width 72 pt for 72 units"},
		`width="6pc" height="6pc" viewBox="0 0 1 1"`:           {25.4, "width 6 pc for 1 units"},
		`width="96px" height="96px" viewBox="0 0 96 96"`:       {px, "width 96 px for 96 units, 96 px to the inch"},
		`width="40Q" viewBox="0 0 10 10"`:                      {1, "width 40 Q for 10 units"},
		`height="100mm" viewBox="0 0 10 10"`:                   {10, "height 100 mm for 10 units"},
		`width="100%" height="100mm" viewBox="0 0 10 10"`:      {10, "height 100 mm for 10 units"},
		`width="100mm" height="50mm" viewBox="0 0 10 10"`:      {5, "width 100 mm for 10 units"},
		`width="210mm" height="297mm"`: {px,
			"width 210 mm and no viewBox: a unit is a px, 96 to the inch"},
		`width="800" height="600" viewBox="0 0 400 300"`:             {0, "width 800 has no unit"},
		`width="800" height="600"`:                                   {0, "width 800 has no unit"},
		`width="100%" height="100%" viewBox="0 0 400 300"`:           {0, "width 100% says no length"},
		`width="10em" viewBox="0 0 400 300"`:                         {0, "width 10em says no length"},
		`viewBox="0 0 400 300"`:                                      {0, "no width and no height"},
		``:                                                           {0, "no width and no height"},
		`height="7"`:                                                 {0, "height 7 has no unit"},
		`width="auto" height="auto" viewBox="0 0 1 1"`:               {0, "no width and no height"},
		`width=" 210mm " height="297mm" viewBox="0,0,210 ,297"`:      {1, "width 210 mm for 210 units"},
		`width="1e2mm" height="+1.e2mm" viewBox="-1e1 -10 1e2 100 "`: {1, "width 100 mm for 100 units"},
	} {
		d := svgDrawing(t, `<svg xmlns="http://www.w3.org/2000/svg" `+attrs+`><path d="M0 0h10v10z"/></svg>`)
		if math.Abs(d.Unit.Millimetres-want.Millimetres) > 1e-12 || d.Unit.Because != want.Because {
			t.Errorf("%s: %v, want %v", attrs, d.Unit, want)
		}
		scale := want.Millimetres
		if scale == 0 {
			scale = 1
		}
		p := d.Lines[0].Points
		if w := p[1][0] - p[0][0]; math.Abs(w-10*scale) > 1e-9 {
			t.Errorf("%s: 10 units are %v", attrs, w)
		}
	}
}

func at(t *testing.T, body string) orb.Point {
	t.Helper()
	p := svgDrawing(t, page(body)).Lines[0].Points[0]
	return orb.Point{p[0], -p[1]}
}

// The published examples of transforms. SVG 1.1, 7.4 and 7.5: the values of each matrix; that
// of nested transforms is translate(50,90) rotate(-45) translate(130,160), whose matrix
// is [.707 -.707 255.03; .707 .707 111.21] by the figure (from memory).
func TestTransforms(t *testing.T) {
	for text, want := range map[string]affine{
		"":                          identity,
		"translate(50,50)":          {1, 0, 0, 1, 50, 50},
		"translate(50)":             {1, 0, 0, 1, 50, 0},
		"rotate(30)":                {.866025, .5, -.5, .866025, 0, 0},
		"rotate(90 10 20)":          {0, 1, -1, 0, 30, 10},
		"skewX(30)":                 {1, 0, .577350, 1, 0, 0},
		"skewY(30)":                 {1, .577350, 0, 1, 0, 0},
		"scale(2.5)":                {2.5, 0, 0, 2.5, 0, 0},
		"scale(2 -3)":               {2, 0, 0, -3, 0, 0},
		"matrix(1 2 3 4 5 6)":       {1, 2, 3, 4, 5, 6},
		"matrix(1,2,3,4,5,6)":       {1, 2, 3, 4, 5, 6},
		"translate(10)scale(2)":     {2, 0, 0, 2, 10, 0},
		"scale(2) , translate(10 )": {2, 0, 0, 2, 20, 0},
		" rotate( -90 ) ":           {0, -1, 1, 0, 0, 0},
		"rotate(450)":               {0, 1, -1, 0, 0, 0},
		"rotate(180)":               {-1, 0, 0, -1, 0, 0},
		"translate(-10,-20) scale(2) rotate(45) translate(5,10)": {1.414214, 1.414214, -1.414214, 1.414214,
			-10 + 1.414214*(5-10), -20 + 1.414214*(5+10)},
		"translate(50,90) rotate(-45) translate(130,160)": {.707107, -.707107, .707107, .707107, 255.0610, 111.2132},
		"translate(10px, 1in) rotate(.25turn)":            {0, 1, -1, 0, 10, 96},
	} {
		got, err := parseSVGTransform(text)
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		for i, d := range []float64{got.a - want.a, got.b - want.b, got.c - want.c, got.d - want.d, got.e - want.e,
			got.f - want.f} {
			if math.Abs(d) > 1e-4 {
				t.Errorf("%q: %v, want %v (number %d)", text, got, want, i+1)
			}
		}
	}
	for text, want := range map[string]string{
		"turn(30)":             `"turn" is not a transform`,
		"rotate(1 2)":          "rotate has 2 numbers\n  hint: it takes 1 or 3",
		"matrix(1 2 3)":        "matrix has 3 numbers",
		"scale()":              "scale has 0 numbers",
		"scale(1":              "scale: its closing bracket is missing",
		"scale(a)":             `scale: a number is missing at character 7: "a)"`,
		"scale 1":              `a function is missing at character 1: "scale "`,
		"rotate(1furlong)":     `an unknown unit at character 9: "furlon"`,
		"scale(1 2 3 4 5 6 7)": "over 6 numbers",
		"translate(1e400)":     "is too large",
	} {
		if _, err := parseSVGTransform(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
}

// Transforms of groups follow those around them; a style overrides an attribute.
func TestTransformsNest(t *testing.T) {
	const line = `<path d="M1 2h1"/>`
	const symbol = `<symbol id="s" viewBox="0 0 10 10">` + line + `</symbol>`
	for body, want := range map[string]orb.Point{
		`<g transform="translate(10 20)"><g transform="scale(2)">` + line + `</g></g>`:       {12, 24},
		`<g transform="scale(2)"><g transform="translate(10 20)">` + line + `</g></g>`:       {22, 44},
		`<g transform="scale(3)" style="transform: translate(1px, 1px)">` + line + `</g>`:    {2, 3},
		`<path transform="rotate(90)" transform-origin="10 10" d="M1 2h1"/>`:                 {18, 1},
		`<path transform="rotate(180)" style="transform-origin: 50% 50%" d="M1 2h1"/>`:       {99, 98},
		`<svg x="10" y="20" width="50" height="50" viewBox="0 0 100 100">` + line + `</svg>`: {10.5, 21},
		`<svg x="10%" y="20%">` + line + `</svg>`:                                            {11, 22},
		symbol + `<use href="#s"/>`:                                                                        {10, 20},
		symbol + `<use xlink:href="#s" width="20" height="40" x="5"/>`:                                     {7, 14},
		`<defs><path id="p" d="M1 2h1"/></defs><use href="#p" x="5" y="6" transform="scale(2)"/>`:          {12, 16},
		`<use href="#p" x="5" y="6"/><g display="none"><path id="p" transform="scale(2)" d="M1 2h1"/></g>`: {7, 10},
	} {
		if got := at(t, body); planar.Distance(got, want) > 1e-9 {
			t.Errorf("%s: %v, want %v", body, got, want)
		}
	}
}

// What each kind of line is drawn as, and where its segments end.
func TestShapes(t *testing.T) {
	for body, want := range map[string]string{
		`<rect x="1" y="2" width="3" height="4"/>`:                        "1,2 4,2 4,6 1,6 z",
		`<rect width="10" height="10" rx="2"/>`:                           "2,0 8,0 10,2 10,8 8,10 2,10 0,8 0,2 z",
		`<rect width="10" height="10" ry="1" rx="3"/>`:                    "3,0 7,0 10,1 10,9 7,10 3,10 0,9 0,1 z",
		`<rect width="10" height="6" rx="9"/>`:                            "5,0 10,3 5,6 0,3 z",
		`<rect width="10" height="6" rx="-1" ry="auto"/>`:                 "0,0 10,0 10,6 0,6 z",
		`<rect width="10" height="6" rx="0" ry="2"/>`:                     "0,0 10,0 10,6 0,6 z",
		`<rect width="10%" height="1cm"/>`:                                "0,0 10,0 10,37.8 0,37.8 z",
		`<rect width="0" height="6"/>`:                                    "",
		`<rect style="width:5px;height:5px"/>`:                            "0,0 5,0 5,5 0,5 z",
		`<circle cx="10" cy="20" r="5"/>`:                                 "15,20 z",
		`<circle r="0"/>`:                                                 "",
		`<ellipse cx="10" cy="20" rx="5" ry="3"/>`:                        "15,20 z",
		`<ellipse rx="5"/>`:                                               "5,0 z",
		`<line x1="1" y1="2" x2="3" y2="4"/>`:                             "1,2 3,4",
		`<line x2="3"/>`:                                                  "0,0 3,0",
		`<line/>`:                                                         "",
		`<polyline points="1,2 3,4,5-6"/>`:                                "1,2 3,4 5,-6",
		`<polygon points="0 0 1 0 1 1"/>`:                                 "0,0 1,0 1,1 z",
		`<polygon points=""/>`:                                            "",
		`<polygon points="4 4"/>`:                                         "",
		`<path d="M0 0h1" display="none"/><path d="M2 2h1" opacity="0"/>`: "",
		`<path d="M0 0h1" style="visibility:hidden"/>`:                    "",
		`<g visibility="hidden"><path d="M0 0h1"/><path visibility="visible" d="M5 5h1"/></g>`: "5,5 " +
			"6,5",
		`<defs><path d="M0 0h1"/></defs><clipPath><path d="M0 0h1"/></clipPath><marker><path d="M0 0h1"/></marker>`: "",
		`<symbol><path d="M0 0h1"/></symbol><mask><path d="M0 0h1"/></mask><pattern><path d="M0 0h1"/></pattern>`:   "",
		`<other xmlns="urn:other"><path d="M0 0h1"/></other><unknown><path d="M0 0h1"/></unknown>`:                  "",
		`<switch><g requiredExtensions="x"><path d="M0 0h1"/></g><path d="M1 1h1"/><path d="M2 2h1"/></switch>`: "1,1 " +
			"2,1",
		`<a><path d="M0 0h1"/></a>`:                "0,0 1,0",
		`<circle r="3" cx="9"/><path d="m1 1h1"/>`: "12,0 z | 1,1 2,1",
	} {
		if got := corners(svgDrawing(t, page(body)).Lines); got != want {
			t.Errorf("%s: %s, want %s", body, got, want)
		}
	}
}

func TestMarks(t *testing.T) {
	for body, want := range map[string]Marks{
		`<path id="p" d="M0 0h1"/>`: {ID: "p", Colour: "#000000"},
		`<path id="p" stroke="red" stroke-dasharray="4 2" d="M0 0h1"><title> The
		 sleeve </title></path>`: {ID: "p", Label: "The sleeve", Colour: "#ff0000", Dashed: true},
		`<g id="cut" fill="none" stroke="#12F"><g><g id="g9"><path d="M0 0h1"/></g></g></g>`: {Group: "cut/g9", Layer: "cut",
			Colour: "#1122ff"},
		`<g xmlns:k="urn:any" id="layer1" k:groupmode="layer" k:label="Cut line"><path d="M0 0h1" k:label="front"/></g>`: {
			Label: "front", Group: "Cut line", Layer: "Cut line", Colour: "#000000"},
		`<g xmlns:k="urn:any" k:groupmode="layer" k:label="all"><g k:groupmode="layer" k:label="seams"><g id="x">` +
			`<path d="M0 0h1"/></g></g></g>`: {Group: "all/seams/x", Layer: "seams", Colour: "#000000"},
		`<path id="p" d="M0 0h1" style="stroke: none; fill: rgb(100%,50%,0)"/>`: {ID: "p", Colour: "#ff8000"},
		`<path id="p" d="M0 0h1" fill="none"/>`:                                 {ID: "p"},
		`<g color="blue"><path d="M0 0h1" stroke="currentColor"/></g>`:          {Colour: "#0000ff"},
		`<path d="M0 0h1" stroke="url(#g) green"/>`:                             {Colour: "#008000"},
		`<path id="p" d="M0 0h1"/><style>.a{}</style>`:                          {ID: "p", Colour: "#000000"},
		`<style>path{stroke:red} .a{stroke:blue} #p{stroke:lime}</style><path id="p" class="a" d="M0 0h1"/>`: {ID: "p",
			Colour: "#00ff00"},
		`<style>.a{stroke:blue} path{stroke:red}</style><path class="b a" d="M0 0h1" stroke="lime"/>`: {Colour: "#0000ff"},
		`<style>path.a.b, .c{stroke:blue}</style><path class="b a" d="M0 0h1" stroke="lime"/>`:        {Colour: "#0000ff"},
		`<style>*{stroke:blue!important}</style><path d="M0 0h1" style="stroke:lime"/>`:               {Colour: "#0000ff"},
		`<style><![CDATA[/*{*/ @media x{a{b}} @import "x"; .a{stroke:red}]]></style><g class="a"><path d="M0 0h1"/></g>`: {
			Colour: "#ff0000"},
		`<g aria-label="Front"><path data-name="grain" d="M0 0h1"/></g>`: {Label: "grain", Group: "Front", Layer: "Front",
			Colour: "#000000"},
		`<defs><path id="p" d="M0 0h1"/></defs><g id="twice"><use id="left" href="#p" stroke="red"/></g>`: {ID: "left",
			Group: "twice", Layer: "twice", Colour: "#ff0000"},
		`<defs><g id="p"><path id="o" d="M0 0h1"/></g></defs><use id="left" href="#p"/>`: {ID: "o", Group: "left/p",
			Layer: "left", Colour: "#000000"},
	} {
		d := svgDrawing(t, page(body))
		if len(d.Lines) != 1 {
			t.Errorf("%s: %d lines", body, len(d.Lines))
		} else if diff := cmp.Diff(want, d.Lines[0].Marks); diff != "" {
			t.Errorf("%s:\n%s", body, diff)
		}
	}
}

func TestTextsAndNotes(t *testing.T) {
	d := svgDrawing(t, page(`
<image href="x.png"/>
<text id="t" x="10 20" y="20">Front <tspan>of</tspan> the
  gown<tspan x="10" dy="1.5em" font-size="10px">Cut 2</tspan></text>
<image/><text><textPath>round</textPath></text><use href="other.svg#x"/><use href="#no"/>
<foreignObject/><g display="none"/><path d="M0 0h1" clip-path="url(#c)"/>
<image/><image/><image/><image/><style>g > path { stroke: red }</style>`))
	var texts []string
	for _, x := range d.Texts {
		texts = append(texts, fmt.Sprintf("%s %v %s", x.ID, x.At, x.Text))
	}
	if diff := cmp.Diff([]string{"t [10 -20] Front of the gown", "t [10 -35] Cut 2"}, texts); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]string{"style rule at line 7", "6 pictures at lines 2, 5, 7 and others",
		"text along a path at line 5", "use of another file at line 5", "use of what is not there at line 5",
		"embedded page at line 6", "hidden element at line 6", "clip path at line 6"}, d.Notes); diff != "" {
		t.Error(diff)
	}
}

// Without a unit curves are as fine as the likely unit asks for, and as whoever knows it does.
func TestCurvesOfSVGWithoutAUnit(t *testing.T) {
	for radius, unit := range map[float64]float64{.1: 1000, 20: 25.4, 80: 10, 500: 1} {
		text := fmt.Sprintf(`<svg><circle r="%g"/></svg>`, radius)
		d := svgDrawing(t, text)
		p := d.Lines[0].Points
		middle := between(p[1], p[2], .5)
		if off := (radius - math.Hypot(middle[0], middle[1])) * unit; off > ChordError || off < ChordError/5 {
			t.Errorf("radius %g: %g mm off in a unit of %g mm", radius, off, unit)
		}
		finer, err := ReadSVGWithin(strings.NewReader(text), ChordError/unit/4)
		if n := len(finer.Lines[0].Points); err != nil || n < 2*len(p)-3 || n > 2*len(p) {
			t.Errorf("%v, a quarter of the error: %d points, before %d", err, n, len(p))
		}
	}
	if _, err := ReadSVGWithin(strings.NewReader("<svg/>"), 0); err == nil {
		t.Error("no error at all was accepted")
	}
}

// Old drawing programs declare name spaces as entities.
func TestNameSpacesAsEntities(t *testing.T) {
	d := svgDrawing(t, `<?xml version="1.0" encoding="iso-8859-1"?>
<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd" [
	<!ENTITY ns_svg "http://www.w3.org/2000/svg">
	<!ENTITY ns_link 'http://www.w3.org/1999/xlink'> <!-- and more -->
]>
<svg xmlns="&ns_svg;" xmlns:xlink="&ns_link;" width="1mm" viewBox="0 0 1 1"><path id="`+"\xc4rmel"+`" d="M0 0h1"/></svg>`)
	if len(d.Lines) != 1 || d.Lines[0].ID != "Ärmel" {
		t.Errorf("%+v", d)
	}
}

// What is scaled up keeps its chord error if it is read again as Finer says.
func TestScaledUpDrawingsAreReadFiner(t *testing.T) {
	for text, scale := range map[string]float64{
		`<svg><circle cx="300" r="200"/></svg>`:                                  25.4,
		`<svg width="10mm" viewBox="0 0 10 10"><circle cx="20" r="10"/></svg>`:   10,
		`<svg width="10mm" viewBox="0 0 10 10"><circle cx="200" r="100"/></svg>`: 1,
		`<svg><circle cx="300" r="200"/></svg> `:                                 .5,
	} {
		o := Options{Millimetres: scale}
		d, err := Read("drawing.svg", strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		fine, again := Finer(d, o)
		if again != (scale > 1) || scale > 1 && math.Abs(fine*scale-ChordError) > 1e-12 {
			t.Errorf("%s: %g, %v", text, fine, again)
		}
		if again {
			if d, err = ReadWithin("drawing.svg", strings.NewReader(text), fine); err != nil {
				t.Fatal(err)
			}
		}
		read, err := Assemble(d, o)
		if err != nil || len(read.Shapes) != 1 {
			t.Fatalf("%s: %d shapes, %v", text, len(read.Shapes), err)
		}
		ring := read.Shapes[0].Ring()
		box := ring.Bound()
		centre, radius := box.Center(), (box.Max[0]-box.Min[0])/2
		for i := 1; i < len(ring); i++ {
			if off := math.Abs(planar.Distance(between(ring[i-1], ring[i], .5), centre) - radius); off > 1.5*ChordError {
				t.Fatalf("%s: %g off", text, off)
			}
		}
	}
}
