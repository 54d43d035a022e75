package outline

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"
)

// The examples of the recommendation (SVG 1.1, chapters 8 and 9; SVG 2 has the same), whose
// data are from memory, at the units of their viewBox. What is drawn is by their figures and
// text: where segments end; and by calculus, what they enclose.
func TestExamplesOfTheRecommendation(t *testing.T) {
	for _, c := range []struct {
		name, body, corners string
		area                float64 // as the shoelace formula has it, y down; 0: not told
	}{
		{"triangle01", `<path d="M 100 100 L 300 100 L 200 300 z"/>`, "100,100 300,100 200,300 z", 20000},
		{"cubic01", `<path d="M100,200 C100,100 250,100 250,200 S400,300 400,200"/>`, "100,200 250,200 400,200", 0},
		// Half of cubic01 closed: 3/20 (a x b + a x c + 2 b x c) with a = (0,-100), b = (150,-100),
		// c = (150,0).
		{"cubic01, closed", `<path d="M100,200 C100,100 250,100 250,200z"/>`, "100,200 250,200 z", 9000},
		{"quad01", `<path d="M200,300 Q400,50 600,300 T1000,300"/>`, "200,300 600,300 1000,300", 0},
		// The area under a parabola is 2/3 of that of its control polygon, 400 x 250 / 2.
		{"quad01, closed", `<path d="M200,300 Q400,50 600,300z"/>`, "200,300 600,300 z", 100000. / 3},
		{"arcs01, red", `<path d="M300,200 h-150 a150,150 0 1,0 150,-150 z"/>`, "300,200 150,200 300,50 z",
			-.75 * math.Pi * 150 * 150},
		{"arcs01, yellow", `<path d="M275,175 v-150 a150,150 0 0,0 -150,150 z"/>`, "275,175 275,25 125,175 z",
			-.25 * math.Pi * 150 * 150},
		{"arcs01, line", `<path d="M600,350 l 50,-25 a25,25 -30 0,1 50,-25 l 50,-25 a25,50 -30 0,1 50,-25
			l 50,-25 a25,75 -30 0,1 50,-25 l 50,-25 a25,100 -30 0,1 50,-25 l 50,-25"/>`,
			"600,350 650,325 700,300 750,275 800,250 850,225 900,200 950,175 1000,150 1050,125", 0},
		{"rect02", `<rect x="100" y="100" width="400" height="200" rx="50"/>`,
			"150,100 450,100 500,150 500,250 450,300 150,300 100,250 100,150 z", 400*200 - (4-math.Pi)*50*50},
		{"circle01", `<circle cx="600" cy="200" r="100"/>`, "700,200 z", math.Pi * 100 * 100},
		{"ellipse01", `<g transform="translate(900 200)"><ellipse transform="rotate(-30)" rx="250" ry="100"/></g>`,
			"1117,75 z", math.Pi * 250 * 100},
		{"polygon01", `<polygon points="350,75 379,161 469,161 397,215 423,301 350,250 277,301 303,215 231,161 321,161"/>`,
			"350,75 379,161 469,161 397,215 423,301 350,250 277,301 303,215 231,161 321,161 z", 0},
		{"polyline01", `<polyline points="50,375 150,375 150,325 250,325 250,375"/>`,
			"50,375 150,375 150,325 250,325 250,375", 0},
	} {
		d := svgDrawing(t, `<svg width="12cm" height="4cm" viewBox="0 0 1200 400">`+c.body+`</svg>`)
		if math.Abs(d.Unit.Millimetres-.1) > 1e-12 {
			t.Errorf("%s: %v", c.name, d.Unit)
		}
		l := d.Lines[0]
		for i := range l.Points {
			l.Points[i] = orb.Point{10 * l.Points[i][0], 10 * l.Points[i][1]}
		}
		if got := cornersOf(l); got != c.corners {
			t.Errorf("%s: %s, want %s", c.name, got, c.corners)
		}
		if a := -planar.Area(orb.Ring(l.Points)); c.area != 0 && math.Abs(a/c.area-1) > 1e-4 {
			t.Errorf("%s: area %.2f, want %.2f", c.name, a, c.area)
		}
	}
}

// The arcs of arcs02: from (100,25) along (100,50), 100 and 50 being half diameters, one with
// each pair of flags (SVG 1.1, 8.3.8). Both ellipses through the two ends have their centres at
// (100,75) and (200,25), each end being a vertex of one and of the other.
func TestFlagsOfArcs(t *testing.T) {
	for _, c := range []struct {
		flags  string
		centre orb.Point
		turn   float64 // quarters
	}{
		{"0,0", orb.Point{200, 25}, -1}, {"0,1", orb.Point{100, 75}, 1},
		{"1,0", orb.Point{100, 75}, -3}, {"1,1", orb.Point{200, 25}, 3},
	} {
		large, sweep := c.flags[0] == '1', c.flags[2] == '1'
		a, ok := endpointArc(orb.Point{100, 25}, orb.Point{200, 75}, 100, 50, 0, large, sweep)
		if !ok || planar.Distance(a.centre, c.centre) > 1e-9 || math.Abs(a.to-a.from-c.turn*math.Pi/2) > 1e-9 {
			t.Errorf("%s: centre %v, turn %v, want %v, %v", c.flags, a.centre, (a.to-a.from)/math.Pi*2, c.centre, c.turn)
		}
	}
	// F.6.6: half diameters that are too short grow until they reach, those below 0 are turned round.
	a, _ := endpointArc(orb.Point{0, 0}, orb.Point{60, 0}, -10, 5, 0, false, true)
	if a.centre != (orb.Point{30, 0}) || math.Abs(a.u[0]-30) > 1e-9 || math.Abs(a.v[1]-15) > 1e-9 {
		t.Errorf("%+v", a)
	}
}

// Arcs run from end to end, along an ellipse of the half diameters asked for or of the same
// shape, the longer way if that was asked for, and the right way round.
func TestArcsByTheirEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Float64Range(-100, 100)
		p, q := orb.Point{c.Draw(t, "x1"), c.Draw(t, "y1")}, orb.Point{c.Draw(t, "x2"), c.Draw(t, "y2")}
		rx, ry := rapid.Float64Range(1, 200).Draw(t, "rx"), rapid.Float64Range(1, 200).Draw(t, "ry")
		turn := rapid.Float64Range(-4, 4).Draw(t, "turn")
		large, sweep := rapid.Bool().Draw(t, "large"), rapid.Bool().Draw(t, "sweep")
		if planar.Distance(p, q) < 1e-3 {
			return
		}
		a, ok := endpointArc(p, q, rx, ry, turn, large, sweep)
		if !ok || planar.Distance(a.at(a.from), p) > 1e-6 || planar.Distance(a.at(a.to), q) > 1e-6 {
			t.Fatalf("from %v to %v", a.at(a.from), a.at(a.to))
		}
		long, short := math.Hypot(a.u[0], a.u[1]), math.Hypot(a.v[0], a.v[1])
		if long < rx*(1-1e-9) || math.Abs(long/short-rx/ry) > 1e-9*rx/ry ||
			math.Abs(a.u[1]*math.Cos(turn)-a.u[0]*math.Sin(turn)) > 1e-9*long {
			t.Fatalf("half diameters %v, %v of %v, %v", a.u, a.v, rx, ry)
		}
		angle := a.to - a.from
		if grown := long > rx*(1+1e-9); grown && math.Abs(math.Abs(angle)-math.Pi) > 1e-3 ||
			!grown && math.Abs(math.Abs(angle)-math.Pi) > 1e-6 && math.Abs(angle) > math.Pi != large || angle > 0 != sweep {
			t.Fatalf("turn %v, large %v, sweep %v, grown %v", angle, large, sweep, grown)
		}
	})
}

// preserveAspectRatio as in the recommendation's figure (SVG 1.1, 7.8; from memory): a box of
// 30 x 40 in viewports of 50 x 30 and 30 x 60. The corners of the box lie where the
// equivalent transform of SVG 2, 8.6 puts them, by hand.
func TestPreserveAspectRatio(t *testing.T) {
	for _, c := range []struct{ viewport, how, corners string }{
		{`width="50" height="30"`, "xMinYMid meet", "0,0 22.5,30"},
		{`width="50" height="30"`, "xMidYMid meet", "13.75,0 36.25,30"},
		{`width="50" height="30"`, "xMaxYMid meet", "27.5,0 50,30"},
		{`width="30" height="60"`, "xMidYMin meet", "0,0 30,40"},
		{`width="30" height="60"`, "xMidYMid meet", "0,10 30,50"},
		{`width="30" height="60"`, "xMidYMax meet", "0,20 30,60"},
		{`width="30" height="60"`, "xMinYMid slice", "0,0 45,60"},
		{`width="30" height="60"`, "xMidYMid slice", "-7.5,0 37.5,60"},
		{`width="30" height="60"`, "xMaxYMid slice", "-15,0 30,60"},
		{`width="50" height="30"`, "xMidYMin slice", "0,0 50,66.67"},
		{`width="50" height="30"`, "xMidYMid slice", "0,-18.33 50,48.33"},
		{`width="50" height="30"`, "xMidYMax slice", "0,-36.67 50,30"},
		{`width="50" height="30"`, "none", "0,0 50,30"},
		{`width="50" height="30"`, "", "13.75,0 36.25,30"},
		{`width="50" height="30"`, "defer xMinYMin", "0,0 22.5,30"},
		{`width="50" height="30"`, "xMinYMin slice", "0,0 50,66.67"},
	} {
		d := svgDrawing(t, page(`<svg `+c.viewport+` viewBox="0 0 30 40" preserveAspectRatio="`+c.how+
			`"><path d="M0 0L30 40"/></svg>`))
		if got := corners(d.Lines); got != c.corners {
			t.Errorf("%s, %s: %s, want %s", c.viewport, c.how, got, c.corners)
		}
	}
	for _, how := range []string{"xMid", "meet", "xMidYMid cut", "xmidymid", "xMidYMid meet meet", "xFarYMid"} {
		_, err := ReadSVG(strings.NewReader(`<svg viewBox="0 0 1 1" preserveAspectRatio="` + how + `"/>`))
		if err == nil || !strings.Contains(err.Error(), "preserveAspectRatio") {
			t.Errorf("%s: %v", how, err)
		}
	}
}
