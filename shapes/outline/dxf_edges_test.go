package outline

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
)

// What lies on another plane than the drawing's is left out, by its normal (DXF Reference, extrusion direction: 210,
// 220, 230), whichever way it leans; one that is none lies on no plane.
func TestPlanesOfEntities(t *testing.T) {
	for normal, flat := range map[string]bool{"0 0 1": true, "0 0 -1": true, "0 0 2.5": true, "1e-12 -1e-12 1": true,
		"1 0 1": false, "-1 0 1": false, "0 1 1": false, "0 -1 1": false, "1 0 -1": false, "0 -1 -1": false,
		"1 0 0": false, "0 0 0": false, "1e-3 0 1": false, "0 -1e-3 -1": false} {
		f := strings.Fields(normal)
		d := readAsDXF(t, ofEntities(lineDXF, fmt.Sprintf("0 CIRCLE | 10 0 | 20 0 | 40 9 | 210 %s | 220 %s | 230 %s",
			f[0], f[1], f[2])))
		notes := strings.Join(d.Notes, "")
		if got := len(d.Lines) == 2; got != flat || (notes == "") != flat ||
			!flat && notes != "CIRCLE on a plane that is not the drawing's, at line 30" {
			t.Errorf("normal %s: %d lines, %q", normal, len(d.Lines), notes)
		}
	}
}

// Whole numbers may be written with a point (common practice of writers), but no part of one, nor one beyond 32 bits;
// group codes run from -5 to 1071 (DXF Reference, group codes in numerical order).
func TestNumbersOfDXF(t *testing.T) {
	square := func(flags string) string {
		return ofEntities("0 LWPOLYLINE | 70 " + flags + " | 10 0 | 20 0 | 10 9 | 20 0 | 10 9 | 20 5")
	}
	for flags, closed := range map[string]bool{"1": true, "1.0": true, " 129 ": true, "128": false, "0.0": false,
		"1e0": true} {
		if d := readAsDXF(t, square(flags)); d.Lines[0].Closed != closed {
			t.Errorf("flags %s: closed %v", flags, d.Lines[0].Closed)
		}
	}
	for _, flags := range []string{"1.5", "1e10", "-1e10", "x", "", "NaN"} {
		_, err := ReadDXF(strings.NewReader(square(flags)))
		if err == nil || !strings.HasPrefix(err.Error(), "DXF, line 22: ") || !strings.Contains(err.Error(),
			"number belongs") {
			t.Errorf("flags %s: %v", flags, err)
		}
	}
	for code, ok := range map[string]bool{"-5": true, "-1": true, "1071": true, "-6": false, "1072": false, "": false,
		"1.0": false} {
		text := strings.Replace(ofEntities(lineDXF), groups("0 ENDSEC | 0 EOF"),
			code+"\nx\n"+groups("0 ENDSEC | 0 EOF"), 1)
		_, err := ReadDXF(strings.NewReader(text))
		if (err == nil) != ok ||
			err != nil && !strings.HasPrefix(err.Error(),
				fmt.Sprintf("DXF, line 29: %q stands where a group code belongs", code)) {
			t.Errorf("code %s: %v", code, err)
		}
	}
	long := strings.Repeat("ü", 41)
	_, err := ReadDXF(strings.NewReader(strings.Replace(ofEntities(lineDXF), " 10\n0\n", long+"\n0\n", 1)))
	if want := "\"" + strings.Repeat("ü", 40) + "...\" stands where"; err == nil || !strings.Contains(err.Error(),
		want) {
		t.Errorf("what is long is shown in part: %v", err)
	}
}

// Kinds of entities are told by their words where those are such as DXF has them.
func TestKindsThatAreNoLines(t *testing.T) {
	for kind, want := range map[string]string{"HATCH": "HATCH", "ACAD_TABLE": "ACAD_TABLE", "3DFACE": "3DFACE",
		"ZZ_99": "ZZ_99", "hatch": "something unknown", "A-B": "something unknown", "A[": "something unknown",
		"A@": "something unknown", "A:": "something unknown", "A/": "something unknown",
		strings.Repeat("A", 40): strings.Repeat("A", 40), strings.Repeat("A", 41): "something unknown"} {
		d := readAsDXF(t, ofEntities(lineDXF, "0 "+kind+" | 10 1"))
		if len(d.Notes) != 1 || d.Notes[0] != want+" at line 30" {
			t.Errorf("%s: %q", kind, d.Notes)
		}
	}
}

// A line is told whose points lie at different heights, and one that lies level at any height is not.
func TestHeightsAreTold(t *testing.T) {
	vertex := func(z string) string { return "0 VERTEX | 10 " + z + " | 20 1" + " | 30 " + z }
	knots := "0 SPLINE | 71 1 | 40 0 | 40 0 | 40 1 | 40 1"
	for name, c := range map[string]struct {
		lines  []string
		slopes bool
	}{
		"level":            {[]string{"0 LINE | 10 0 | 20 0 | 30 7 | 11 9 | 21 0 | 31 7"}, false},
		"no second height": {[]string{"0 LINE | 10 0 | 20 0 | 30 7 | 11 9 | 21 0"}, false},
		"sloping":          {[]string{"0 LINE | 10 0 | 20 0 | 30 7 | 11 9 | 21 0 | 31 8"}, true},
		"down to 0":        {[]string{"0 LINE | 10 0 | 20 0 | 30 7 | 11 9 | 21 0 | 31 0"}, true},
		"in space, level": {[]string{"0 POLYLINE | 66 1 | 70 8", vertex("4"), "0 VERTEX | 10 9 | 20 9 | 30 4",
			"0 SEQEND"}, false},
		"in space, sloping": {[]string{"0 POLYLINE | 66 1 | 70 8", vertex("4"), vertex("5"), "0 SEQEND"}, true},
		"on a plane":        {[]string{"0 POLYLINE | 66 1 | 70 0", vertex("4"), vertex("5"), "0 SEQEND"}, false},
		"a level spline":    {[]string{knots + " | 10 0 | 20 0 | 30 2 | 10 5 | 20 0 | 30 2"}, false},
		"a sloping spline":  {[]string{knots + " | 10 0 | 20 0 | 30 2 | 10 5 | 20 0 | 30 3"}, true},
	} {
		notes := strings.Join(readAsDXF(t, ofEntities(c.lines...)).Notes, "")
		if got := notes == "a line with heights, drawn as it is seen from above, at line 20"; got != c.slopes ||
			!got && notes != "" {
			t.Errorf("%s: %q", name, notes)
		}
	}
}

// Vertices that a program added to make a curve of a polyline are drawn and are no corners, those of a spline's frame
// are not drawn (DXF Reference, VERTEX: flags 1, 8 and 16).
func TestVerticesOfFittedPolylines(t *testing.T) {
	for flag, want := range map[int]string{0: "0,0 5,-2 9,0 | [0 1 2]", 1: "0,0 5,-2 9,0 | [0 2]",
		8:  "0,0 5,-2 9,0 | [0 2]",
		16: "0,0 9,0 | [0 1]", 17: "0,0 9,0 | [0 1]", 32: "0,0 5,-2 9,0 | [0 1 2]", 128: "0,0 9,0 | [0 1]"} {
		d := readAsDXF(t, ofEntities("0 POLYLINE | 66 1 | 70 2", "0 VERTEX | 10 0 | 20 0",
			fmt.Sprintf("0 VERTEX | 10 5 | 20 2 | 70 %d", flag), "0 VERTEX | 10 9 | 20 0", "0 SEQEND"))
		l := d.Lines[0]
		text := ""
		for _, p := range l.Points {
			text += fmt.Sprintf("%g,%g ", p[0], -p[1])
		}
		if got := text + fmt.Sprintf("| %v", l.Corners); strings.ReplaceAll(got, "-0", "0") != want {
			t.Errorf("flag %d: %s, want %s", flag, got, want)
		}
	}
}

// A spline that says it is closed is so where its ends are one place but for rounding, and no other is.
func TestSplinesThatClose(t *testing.T) {
	spline := func(flags int, lastX float64) shape {
		d := readAsDXF(t,
			ofEntities(fmt.Sprintf("0 SPLINE | 70 %d | 71 3 | 40 0 | 40 0 | 40 0 | 40 0 | 40 1 | 40 1 | 40 1 | 40 1 | "+
				"10 0 | 20 0 | 10 90 | 20 0 | 10 0 | 20 90 | 10 %g | 20 0", flags, lastX)))
		return shapesOf(d)[0]
	}
	for _, c := range []struct {
		flags  int
		lastX  float64
		closed bool
	}{{1, 0, true}, {0, 0, true}, {1, .04, true}, {1, .06, false}, {0, .04, false}, {8, .04, false}, {11, .04, true}} {
		s := spline(c.flags, c.lastX)
		if s.Closed != c.closed || (s.Points[0] == s.Points[len(s.Points)-1]) != c.closed {
			t.Errorf("flags %d, %g apart: closed %v from %v to %v", c.flags, c.lastX, s.Closed, s.Points[0],
				s.Points[len(s.Points)-1])
		}
	}
}

// The largest line of a drawing without a unit says in which it is most likely made, wherever it stands, and so how
// near the chords of curves have to keep: 0.05 mm of that unit.
func TestChordsWithoutAUnit(t *testing.T) {
	arc := "0 ARC | 10 0 | 20 0 | 40 8 | 50 0 | 51 90"
	for name, c := range map[string]struct {
		lines []string
		mm    float64 // of the unit that is guessed
	}{
		"inches": {[]string{arc, "0 LINE | 10 0 | 20 0 | 11 50 | 21 0"}, 25.4},
		"inches, the long first": {[]string{"0 LINE | 10 0 | 20 0 | 11 50 | 21 0", arc,
			"0 LINE | 10 0 | 20 0 | 11 3 | 21 0"}, 25.4},
		"inches, and a dot": {[]string{"0 LWPOLYLINE | 10 9 | 20 9", "0 LINE | 10 0 | 20 0 | 11 0 | 21 50", arc},
			25.4},
		"centimetres": {[]string{arc, "0 LINE | 10 0 | 20 0 | 11 150 | 21 0"}, 10},
		"millimetres": {[]string{arc, "0 LINE | 10 0 | 20 0 | 11 1500 | 21 0"}, 1},
	} {
		d := readAsDXF(t, dxfSection("ENTITIES", c.lines...)+groups("0 EOF"))
		if d.Unit.Millimetres != 0 {
			t.Fatalf("%s: %+v", name, d.Unit)
		}
		for _, l := range d.Lines {
			if len(l.Points) < 3 {
				continue
			}
			far := 0. // of the arc from its chords, in units of the file
			for i := 1; i < len(l.Points); i++ {
				middle := orb.Point{(l.Points[i-1][0] + l.Points[i][0]) / 2, (l.Points[i-1][1] + l.Points[i][1]) / 2}
				far = max(far, math.Abs(8-math.Hypot(middle[0], middle[1])))
			}
			if most := ChordError / c.mm; far > most || far < most/4 {
				t.Errorf("%s: its %d chords keep within %g units, asked are %g", name, len(l.Points)-1, far, most)
			}
		}
	}
}
