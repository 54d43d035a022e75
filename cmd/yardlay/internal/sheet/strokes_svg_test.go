package sheet

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// readSVG is what a machine sees in the SVG of line work.
type readSVG struct {
	XMLName xml.Name   `xml:"http://www.w3.org/2000/svg svg"`
	Width   string     `xml:"width,attr"`
	Height  string     `xml:"height,attr"`
	ViewBox string     `xml:"viewBox,attr"`
	Title   string     `xml:"title"`
	Desc    string     `xml:"desc"`
	Groups  []svgLayer `xml:"g"`
}

type svgLayer struct {
	ID     string `xml:"id,attr"`
	Fill   string `xml:"fill,attr"`
	Stroke string `xml:"stroke,attr"`
	Title  string `xml:"title"`
	Paths  []struct {
		D string `xml:"d,attr"`
	} `xml:"path"`
	Texts []struct {
		Body string `xml:",chardata"`
	} `xml:"text"`
}

func readStrokes(t rapid.TB, data []byte) readSVG {
	t.Helper()
	var read readSVG
	if err := xml.Unmarshal(data, &read); err != nil {
		t.Fatal(err)
	}
	return read
}

// path reads a path of M, L and Z.
func path(t rapid.TB, d string) orb.LineString {
	t.Helper()
	var line orb.LineString
	rest, closed := strings.CutSuffix(d, " Z")
	for i, part := range strings.Split(strings.TrimPrefix(rest, "M "), " L ") {
		var p orb.Point
		if n, err := fmt.Sscanf(part, "%g %g", &p[0], &p[1]); n != 2 || err != nil {
			t.Fatalf("point %d of %q: %v", i, d, err)
		}
		line = append(line, p)
	}
	if closed {
		line = append(line, line[0])
	}
	return line
}

// Every stroke stands as placed, once, on its layer: what is drawn is worked out here by
// rotation matrices of complex numbers.
func TestSVGHoldsWhatWasDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := randomStrokes.Draw(t, "work")
		data, err := s.SVG()
		if err != nil {
			t.Fatal(err)
		}
		if again, _ := s.SVG(); !bytes.Equal(data, again) {
			t.Fatal("other bytes the second time")
		}
		read := readStrokes(t, data)
		if read.Width != "1000mm" || read.Height != "500mm" || read.ViewBox != "0 0 1000 500" {
			t.Fatalf("page %s x %s, %s", read.Width, read.Height, read.ViewBox)
		}
		want := map[string][]orb.LineString{}
		add := func(l Stroke, turn float64, at orb.Point) {
			var line orb.LineString
			for _, p := range l.Path {
				sin, cos := math.Sincos(turn * math.Pi / 180)
				z := complex(p[0], p[1])*complex(cos, sin) + complex(at[0], at[1])
				line = append(line, orb.Point{real(z), 500 - imag(z)})
			}
			id := layers[l.Layer].id
			want[id] = append(want[id], line)
		}
		for _, l := range s.Loose {
			add(l, 0, orb.Point{})
		}
		for _, p := range s.Places {
			for _, l := range s.Parts[p.Part].Strokes {
				add(l, p.Turn, p.At)
			}
		}
		sameLayers(t, want, read.Groups)
	})
}

func sameLayers(t *rapid.T, want map[string][]orb.LineString, got []svgLayer) {
	seen := map[string]bool{}
	for _, g := range got {
		if g.Fill != "none" || g.Stroke == "" || g.Title == "" || seen[g.ID] || len(g.Paths) != len(want[g.ID]) {
			t.Fatalf("layer %q: %d lines of %d", g.ID, len(g.Paths), len(want[g.ID]))
		}
		seen[g.ID] = true
		for i, p := range g.Paths {
			line := path(t, p.D)
			if len(line) != len(want[g.ID][i]) {
				t.Fatalf("%v is written as %v", want[g.ID][i], line)
			}
			for k, q := range line {
				if w := want[g.ID][i][k]; math.Hypot(q[0]-w[0], q[1]-w[1]) > 0.0002 {
					t.Fatalf("%v is written as %v", w, q)
				}
			}
		}
	}
	for id := range want {
		if !seen[id] {
			t.Fatalf("no layer %s", id)
		}
	}
}

// Machines read plain files: no style, no use, no name space but that of SVG, and what is
// cut comes last.
func TestSVGForMachinesIsPlain(t *testing.T) {
	line := orb.LineString{{0, 0}, {10, 0}}
	s := Strokes{Title: `<b> & "c"`, Description: "d", Notes: []string{"mind"}, Page: orb.Bound{Max: orb.Point{20, 20}},
		Texts: []Text{{At: orb.Point{1, 1}, Size: 2, Turn: 30, Body: "a <b> & c"}}}
	for l := range layerCount {
		s.Loose = append(s.Loose, Stroke{l, line})
	}
	data, err := s.SVG()
	if err != nil {
		t.Fatal(err)
	}
	for _, no := range []string{"<style", "style=", "<use", "clip", "xmlns:", "class=", "<polyline", "inkscape"} {
		if bytes.Contains(data, []byte(no)) {
			t.Errorf("%s stands in it", no)
		}
	}
	read := readStrokes(t, data)
	if read.Title != s.Title || read.Desc != "d mind" {
		t.Errorf("title %q, description %q", read.Title, read.Desc)
	}
	var ids, colours []string
	for _, g := range read.Groups {
		if ids = append(ids, g.ID); slices.Contains(colours, g.Stroke) {
			t.Errorf("two layers are %s", g.Stroke)
		}
		colours = append(colours, g.Stroke)
	}
	if want := []string{"cloth", "words", "grain", "inside", "sew", "fold", "notches", "cut"}; !slices.Equal(ids,
		want) {
		t.Errorf("layers %v, want %v", ids, want)
	}
	if got := read.Groups[1].Texts; len(got) != 1 || got[0].Body != "a <b> & c" {
		t.Errorf("texts %v", got)
	}
}

// Colours and numbers of the DXF layers differ too, and those of the standard are as reproduced
// second-hand: ASTM D6673-10, 1 boundary, 4 notches, 6 mirror line, 7 grain, 8 internal
// lines, 14 sew line, 15 annotation.
func TestLayersOfDXF(t *testing.T) {
	want := [layerCount]string{LayerCut: "1", LayerNotch: "4", LayerFold: "6", LayerGrain: "7", LayerInside: "8",
		LayerSew: "14", LayerWords: "15", LayerCloth: "CLOTH"}
	colours := map[int]bool{}
	for l, look := range layers {
		if look.dxf != want[l] || look.colour < 1 || look.colour > 9 || colours[look.colour] {
			t.Errorf("layer %d is %+v", l, look)
		}
		colours[look.colour] = true
	}
}

// The words of a label stand inside the outline, clear of the grain line, one below the
// other; the grain line lies along the given one.
func TestLabelledWordsLieInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(60, 900).Draw(t, "w"), rapid.Float64Range(60, 900).Draw(t, "h")
		x, y := rapid.Float64Range(-500, 500).Draw(t, "x"), rapid.Float64Range(-500, 500).Draw(t, "y")
		o := Outline{Cut: Box(x, y, x+w, y+h), Grain: orb.LineString{{x + w*0.15, y + h/2}, {x + w*0.85, y + h/2}}}
		l := o.Labelled([]string{"Piece Name: gore", "Size: 1", "left"})
		if len(l.Texts) != 3 {
			t.Fatalf("%d texts", len(l.Texts))
		}
		for i, text := range l.Texts {
			wide, high := textWidth(text.Body, text.Size)/2, capital*text.Size/2
			if text.Turn == 90 {
				wide, high = high, wide
			}
			if text.At[0]-wide < x || text.At[0]+wide > x+w || text.At[1]-high < y || text.At[1]+high > y+h {
				t.Fatalf("%q stands at %v in %v", text.Body, text.At, o.Cut)
			}
			if i > 0 && text.Turn == 0 && text.At[1] >= l.Texts[i-1].At[1] {
				t.Fatal("lines run upwards")
			}
			grain := l.Grain.Bound()
			if math.Abs(text.At[1]-grain.Min[1]) < high && text.At[0]+wide > grain.Min[0] &&
				text.At[0]-wide < grain.Max[0] {
				t.Fatalf("%q at %v lies on the grain line %v", text.Body, text.At, l.Grain)
			}
		}
		if len(l.Grain) != 2 || l.Grain[0][1] != o.Grain[0][1] || l.Grain[0][0] >= l.Grain[1][0] {
			t.Fatalf("grain %v of %v", l.Grain, o.Grain)
		}
	})
}

// Where nothing fits the words are small, and still there.
func TestWordsWithoutRoom(t *testing.T) {
	o := Outline{Cut: Box(0, 0, 8, 2), Grain: orb.LineString{{1, 1}, {7, 1}}}
	l := o.Labelled([]string{"Piece Name: a rather long name", "left"})
	if len(l.Texts) != 2 || l.Texts[0].Size != least || math.Abs(l.Texts[0].At[0]-4) > 1e-9 {
		t.Errorf("%+v", l)
	}
}

// The ground of a lay is its cloth from the squared end on, bounded by what is laid on.
func TestGroundOfALay(t *testing.T) {
	base := Stretch{Width: 1500, Selvedge: 10, Used: 900, Ends: 20, Skew: 30, Length: 1200}
	for _, c := range []struct {
		lay       Lay
		low, high float64
		bounds    []float64
	}{
		{Open, -10, 1490, []float64{0, 1480}},
		{LengthwiseFold, 0, 750, []float64{740}},
		{CrosswiseFold, -10, 1490, []float64{0, 1480}},
		{DoubleFold, 0, 750, []float64{365, 385}},
	} {
		s := base
		s.Lay = c.lay
		cloth, lines := s.Ground()
		if want := (orb.Bound{Min: orb.Point{-20, c.low}, Max: orb.Point{1150, c.high}}); cloth != want {
			t.Errorf("lay %d: %v, want %v", c.lay, cloth, want)
		}
		var levels []float64
		for _, l := range lines {
			if levels = append(levels, l[0][1]); l[0][0] != -20 || l[1] != (orb.Point{1150, l[0][1]}) {
				t.Errorf("lay %d: line %v", c.lay, l)
			}
		}
		if !slices.Equal(levels, c.bounds) {
			t.Errorf("lay %d: bounds %v, want %v", c.lay, levels, c.bounds)
		}
	}
}
