package sheet

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"

	"yardlay/shapes/measure"
)

var update = flag.Bool("update", false, "write the drawings in testdata anew")

const in = measure.Inches

// gore is an invented gore: waist end at the left, grain along x, mm.
func gore(x, y float64) Outline {
	at := func(ps ...orb.Point) []orb.Point {
		for i := range ps {
			ps[i][0] += x
			ps[i][1] += y
		}
		return ps
	}
	return Outline{
		Cut: at(orb.Point{0, 220}, orb.Point{900, 0}, orb.Point{920, 300}, orb.Point{900, 600}, orb.Point{0, 380},
			orb.Point{0, 220}),
		Seam: at(orb.Point{12, 230}, orb.Point{880, 18}, orb.Point{900, 300}, orb.Point{880, 582},
			orb.Point{12, 370}, orb.Point{12, 230}),
		Grain:   at(orb.Point{250, 300}, orb.Point{700, 300}),
		Notches: []Notch{{At: at(orb.Point{446, 124})[0], Outward: orb.Point{-0.237, -0.971}}},
	}
}

// strip is a rectangle with a seam line all round.
func strip(x, y, along, across, seam float64) Outline {
	return Outline{
		Cut:   Box(x, y, x+along, y+across),
		Seam:  Box(x+seam, y+seam, x+along-seam, y+across-seam),
		Grain: orb.LineString{{x + along*0.3, y + across/2}, {x + along*0.7, y + across/2}},
	}
}

// creased marks the crease along the middle of a band.
func creased(o Outline) Outline {
	b := o.Seam.Bound()
	y := (b.Min[1] + b.Max[1]) / 2
	o.Inside = []orb.LineString{{{b.Min[0], y}, {b.Max[0], y}}}
	return o
}

func sampleMarker() Marker {
	return Marker{
		Title: "Lantern Court gown", Cloth: "bridal satin, moon grey", Nap: "one-way",
		Width: 58 * in, Selvedge: in / 2, Used: 1950, Bought: 2057.4, Unit: measure.Inch,
		Notes:    []string{"utilisation 45.1 %"},
		Cautions: []string{"Keep net from flame & hot lamps."},
		Pieces: []Placed{
			{Name: "centre front gore", Copy: "left", Size: "34 1/4 x 22 1/4 in", Outline: gore(10, 10)},
			{Name: "centre front gore", Copy: "right", Size: "34 1/4 x 22 1/4 in", Outline: gore(960, 10)},
			{Name: "waistband", Copy: "", Size: "30 x 2 3/4 in", Outline: creased(strip(10, 700, 800, 95, 12.7))},
			{Name: "loop", Copy: "1 of 2", Size: "2 x 1/2 in", Outline: strip(900, 700, 76, 30, 6)},
			{Name: "loop", Copy: "2 of 2", Size: "2 x 1/2 in", Outline: strip(1000, 700, 76, 30, 6)},
		},
	}
}

func samplePieces() Pieces {
	half := Outline{
		Cut:   orb.Ring{{0, 0}, {900, 0}, {890, 320}, {0, 80}, {0, 0}},
		Seam:  orb.Ring{{12, 0}, {880, 0}, {871, 300}, {12, 70}, {12, 0}},
		Grain: orb.LineString{{300, 80}, {700, 80}},
	}
	return Pieces{
		Title: "Lantern Court gown", Unit: measure.Inch,
		Pieces: []Pattern{
			{Name: "side back gore", Facts: []string{"bridal satin, moon grey: cut 2, mirrored"}, Along: 888,
				Across: 564, Outline: gore(0, 0)},
			{Name: "centre front gore", Facts: []string{"lining: cut 1 on the fold"}, Along: 868, Across: 300,
				Fold: orb.LineString{{12, 0}, {880, 0}}, Outline: half},
			{Name: "loop", Facts: []string{"bridal satin, moon grey: cut 2"}, Along: 64, Across: 18,
				Outline: strip(0, 0, 76, 30, 6)},
		},
	}
}

func svg(t *testing.T, d Drawing) []byte {
	t.Helper()
	b, err := d.SVG()
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// texts reads an SVG as XML and returns the contents of all elements of a name.
func texts(t *testing.T, src []byte, name string) []string {
	t.Helper()
	var out []string
	dec := xml.NewDecoder(bytes.NewReader(src))
	inside := false
	for {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return out
		}
		if err != nil {
			t.Fatalf("not well-formed: %v", err)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			if inside = tok.Name.Local == name; inside {
				out = append(out, "")
			}
		case xml.EndElement:
			inside = false
		case xml.CharData:
			if inside {
				out[len(out)-1] += string(tok)
			}
		}
	}
}

// golden compares a drawing with the one in testdata.
func golden(t *testing.T, name string, d Drawing) {
	t.Helper()
	got := svg(t, d)
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(string(got), "\n")); diff != "" {
		t.Errorf("%s differs (look at the new picture, then go test -update):\n%s", path, diff)
	}
}

func TestGoldens(t *testing.T) {
	golden(t, "marker.svg", sampleMarker().Drawing())
	golden(t, "pieces.svg", samplePieces().Drawing())
}

func TestSameBytesTwice(t *testing.T) {
	if !bytes.Equal(svg(t, sampleMarker().Drawing()), svg(t, sampleMarker().Drawing())) {
		t.Error("the same marker gave two files")
	}
	if !bytes.Equal(svg(t, samplePieces().Drawing()), svg(t, samplePieces().Drawing())) {
		t.Error("the same pieces gave two files")
	}
}

func TestMarkerSaysEverything(t *testing.T) {
	m := sampleMarker()
	src := svg(t, m.Drawing())
	all := strings.Join(texts(t, src, "text"), "\n")
	for _, want := range []string{
		"Lantern Court gown: bridal satin, moon grey",
		"width 58 in (147.3 cm)", "usable 57 in (144.8 cm)", "nap one-way",
		"used 76 7/8 in (195.0 cm)", "to buy 2 1/4 yd (2.06 m)",
		"cut end", "selvedge", "18 in", "utilisation 45.1 %",
		"Keep net from flame & hot lamps.",
		"1 = loop, 2 x 1/2 in: 1 of 2, 2 of 2",
	} {
		if !strings.Contains(all, want) {
			t.Errorf("the marker does not say %q", want)
		}
	}
	titles := texts(t, src, "title")
	for _, p := range m.Pieces {
		want := strings.Join(p.texts(), ", ")
		n := 0
		for _, s := range titles {
			if s == want {
				n++
			}
		}
		if n != 1 {
			t.Errorf("%d groups are titled %q, want 1", n, want)
		}
	}
	if n := bytes.Count(src, []byte(`<polygon class="piece`)); n != len(m.Pieces) {
		t.Errorf("%d cut lines are drawn of %d", n, len(m.Pieces))
	}
	if n := strings.Count(all, "centre front gore"); n != 2 {
		t.Errorf("the gore is named %d times, want 2", n)
	}
}

func TestMetricMarker(t *testing.T) {
	m := sampleMarker()
	m.Unit = measure.Centimetre
	all := strings.Join(texts(t, svg(t, m.Drawing()), "text"), "\n")
	for _, want := range []string{"width 147.3 cm (58 in)", "used 195.0 cm (76 7/8 in)",
		"to buy 2.06 m (2 1/4 yd)", "50 cm"} {
		if !strings.Contains(all, want) {
			t.Errorf("the marker does not say %q", want)
		}
	}
}

func TestPiecesSayEverything(t *testing.T) {
	src := svg(t, samplePieces().Drawing())
	all := strings.Join(texts(t, src, "text"), "\n")
	for _, want := range []string{
		"side back gore", "cut 2, mirrored", "35 in (88.8 cm)", "22 1/4 in (56.4 cm)",
		"lining: cut 1 on the fold", "place on fold", "2 1/2 in by 11/16 in (6.4 cm by 1.8 cm)",
	} {
		if !strings.Contains(all, want) {
			t.Errorf("the sheet does not say %q", want)
		}
	}
	if n := bytes.Count(src, []byte(`class="notch"`)); n != 1 {
		t.Errorf("%d notches, want 1", n)
	}
}

// Names come from the user's file: no text may break the file or pass as markup.
func TestTextIsEscaped(t *testing.T) {
	m := sampleMarker()
	evil := "</text><script>&\"'\x00\x1b\ufffe\xff"
	m.Title, m.Cloth, m.Notes, m.Cautions = evil, evil, []string{evil}, []string{evil}
	for i := range m.Pieces {
		m.Pieces[i].Name, m.Pieces[i].Copy = evil, evil
	}
	src := svg(t, m.Drawing())
	if n := len(texts(t, src, "script")); n != 0 {
		t.Errorf("%d scripts in the drawing", n)
	}
	s := samplePieces()
	s.Title, s.Pieces[0].Name, s.Pieces[0].Facts = evil, evil, []string{evil}
	texts(t, svg(t, s.Drawing()), "text")
}

func TestNoSuchNumber(t *testing.T) {
	for name, spoil := range map[string]func(*Marker){
		"outline": func(m *Marker) { m.Pieces[0].Cut[1][0] = math.NaN() },
		"grain":   func(m *Marker) { m.Pieces[0].Grain[1][1] = math.Inf(1) },
		"width":   func(m *Marker) { m.Width = math.NaN() },
		"used":    func(m *Marker) { m.Used = math.Inf(1) },
	} {
		m := sampleMarker()
		spoil(&m)
		if b, err := m.Drawing().SVG(); err == nil || b != nil {
			t.Errorf("%s: drawn with a coordinate that is not finite: %v", name, err)
		}
	}
}

// Sheets without pieces, pieces without outline, long names: still drawings.
func TestOddInput(t *testing.T) {
	m := sampleMarker()
	m.Pieces = nil
	texts(t, svg(t, m.Drawing()), "text")
	m.Pieces = []Placed{{Name: "nothing"}, {Outline: gore(0, 0)},
		{Name: strings.Repeat("very long name ", 40), Outline: gore(0, 0)}}
	if all := strings.Join(texts(t, svg(t, m.Drawing()), "text"), "\n"); !strings.Contains(all, "1 = nothing") {
		t.Error("a piece without outline has no key")
	}
	m.Used, m.Bought, m.Selvedge = 0, 0, 0
	texts(t, svg(t, m.Drawing()), "text")
	texts(t, svg(t, Pieces{}.Drawing()), "text")
	texts(t, svg(t, Pieces{Pieces: []Pattern{{Name: "nothing"}}}.Drawing()), "text")
}

// A notch on a bare edge that looks across at another part of the piece does not reach over
// to it, on whichever side of the cut line the lattice has put it.
func TestBareNotchesStayAtHome(t *testing.T) {
	fork := orb.Ring{{0, 0}, {100, 0}, {100, 300}, {0, 300}, {0, 200}, {50, 200}, {50, 100}, {0, 100}, {0, 0}}
	for _, off := range []float64{-1.0 / 2048, 0, 1.0 / 2048} {
		n := Notch{At: orb.Point{25, 100 + off}, Outward: orb.Point{0, 1}}
		if reach := (Outline{Cut: fork}).Reach(n); reach != 0 {
			t.Errorf("%g off the cut line it reaches %g", off, reach)
		}
	}
	if reach := (Outline{Cut: fork}).Reach(Notch{At: orb.Point{25, 88}, Outward: orb.Point{0, 1}}); reach != 12 {
		t.Errorf("across an allowance of 12 it reaches %g", reach)
	}
}
