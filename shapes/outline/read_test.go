package outline

import (
	"io"
	"math"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"
)

// A drawing is told by what it begins with, and by the ending of its name where that says nothing:
// %PDF (ISO 32000-1, 7.5.2), a brace (RFC 8259), a bracket (XML 1.0), 1f 8b (RFC 1952), a group code or a
// comment of code 999 (DXF Reference).
func TestWhatADrawingIs(t *testing.T) {
	const svg = `<svg width="1mm" height="1mm" viewBox="0 0 1 1"><path d="M0 0h1"/></svg>`
	dxf := ofEntities(lineDXF)
	const json = `{"type":"Polygon","coordinates":[[[0,0],[9,0],[9,9],[0,0]]]}`
	for _, c := range []struct{ name, text, want string }{
		{"a.svg", svg, "width"}, {"a", svg, "width"}, {"a.dxf", svg, "width"}, {"a", "\ufeff \n" + svg, "width"},
		{"a.dxf", dxf, "$INSUNITS"}, {"a", dxf, "$INSUNITS"}, {"a.svg", dxf, "is not SVG"}, {"A.DXF", "  0\nX",
			"SECTION"},
		{"a.txt", "999\nUNITS: METRIC\n" + dxf, "$INSUNITS"}, {"a", "AC1032", "DWG"}, {"a", dxfBinary, "binary"},
		{"a.geojson", json, "GeoJSON is read in millimetres"}, {"a", json, "GeoJSON"}, {"a.JSON", "[]", ""},
		{"a.svg", "%PDF-1.7", "a PDF is not read"}, {"a.svgz", "\x1f\x8b", "packed by gzip"}, {"a", "\x1f\x8b",
			"packed by gzip"},
		{"a.SVG", "hello", "not SVG"}, {"a.txt", "hello", "no drawing that is read"}, {"a.dxf", "", "empty"},
		{"", "", "no drawing that is read"},
	} {
		d, err := Read(c.name, strings.NewReader(c.text))
		got := d.Unit.Because
		if err != nil {
			got = err.Error()
		}
		if !strings.Contains(got, c.want) || c.want == "" && err == nil {
			t.Errorf("%q of %q: %q, want %q", c.text, c.name, got, c.want)
		}
		for _, chord := range []float64{0, math.NaN(), -1} {
			if _, err := ReadWithin(c.name, strings.NewReader(c.text), chord); err == nil && !d.Apart {
				t.Errorf("%q: a chord error of %g is accepted", c.name, chord)
			}
		}
	}
	if _, err := Read("a.svg", iotest.ErrReader(io.ErrUnexpectedEOF)); err != io.ErrUnexpectedEOF {
		t.Errorf("%v", err)
	}
	d, err := Read("a.geojson", strings.NewReader(json))
	if err != nil || !d.Apart || len(d.Lines) != 1 || !d.Lines[0].Closed || d.Lines[0].Place != "feature 1" {
		t.Errorf("%+v, %v", d, err)
	}
}

// Shapes of too many corners in all lose some, each line staying within the chord error of what was drawn,
// with its ends where they were and its area all but kept; those that are few stay as they are.
func TestFewerCorners(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		radius := rapid.Float64Range(50, 2000).Draw(t, "radius")
		var half orb.LineString
		n := rapid.IntRange(2, 60).Draw(t, "points")
		for i := range n + 1 {
			sin, cos := math.Sincos(math.Pi * float64(i) / float64(n))
			half = append(half, orb.Point{radius * cos, radius * sin})
		}
		got := thinned(half, ChordError)
		if got[0] != half[0] || got[len(got)-1] != half[n] || len(got) > len(half) {
			t.Fatalf("%v of %v", got, half)
		}
		next := 0
		for _, p := range half { // each point is kept or lies by the line, in order
			if next < len(got) && got[next] == p {
				next++
			} else if planar.DistanceFromSegment(got[next-1], got[next], p) > ChordError {
				t.Fatalf("%v lies off %v, %v", p, got[next-1], got[next])
			}
		}
		if next != len(got) {
			t.Fatalf("%v is none of the points", got[next])
		}
		if sagitta := radius * (1 - math.Cos(math.Pi/float64(n))); sagitta < ChordError/8 && len(got) == len(half) {
			t.Fatalf("nothing is left out of %d points with sagittas of %g", n, sagitta)
		}
	})
	var line orb.LineString
	for i := range MaxCorners/2 + 2 {
		line = append(line, orb.Point{float64(i), 0})
	}
	ring := append(append(orb.Ring{}, line...), line[0])
	s := []Shape{{Edges: []Edge{{Name: "a", Line: line}}, Cut: ring}}
	fewer, err := Fewer(s)
	if err != nil || len(fewer[0].Edges[0].Line) != 2 || fewer[0].Edges[0].Name != "a" ||
		len(s[0].Edges[0].Line) != len(line) {
		t.Errorf("%v: %d corners", err, cornersIn(fewer))
	}
	if same, err := Fewer(fewer); err != nil || &same[0] != &fewer[0] {
		t.Error("few corners are thinned")
	}
	for i := range line {
		line[i][1] = float64(i % 2)
	}
	if _, err := Fewer([]Shape{{Edges: []Edge{{Line: line}}}, {Edges: []Edge{{Line: line}}}}); err == nil {
		t.Error("corners without number are kept")
	}
}
