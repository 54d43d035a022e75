package sheet

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/testdxf"
	"yardlay/shapes/plane"
)

// randomStrokes is line work of a few parts, placed and turned, on the lattice or off it.
var randomStrokes = rapid.Custom(func(t *rapid.T) Strokes {
	coordinate := rapid.Custom(func(t *rapid.T) float64 {
		if rapid.Bool().Draw(t, "lattice") {
			return float64(rapid.IntRange(-60e6, 60e6).Draw(t, "steps")) * plane.Lattice
		}
		return rapid.Float64Range(-60e3, 60e3).Draw(t, "mm")
	})
	point := rapid.Custom(func(t *rapid.T) orb.Point {
		return orb.Point{coordinate.Draw(t, "x"), coordinate.Draw(t, "y")}
	})
	stroke := rapid.Custom(func(t *rapid.T) Stroke {
		path := rapid.SliceOfNDistinct(point, 2, 6, func(p orb.Point) orb.Point { return p }).Draw(t, "path")
		if len(path) > 2 && rapid.Bool().Draw(t, "closed") {
			path = append(path, path[0])
		}
		return Stroke{Layer(rapid.IntRange(0, int(layerCount)-1).Draw(t, "layer")), path}
	})
	text := rapid.Custom(func(t *rapid.T) Text {
		return Text{At: point.Draw(t, "at"), Size: rapid.Float64Range(0.5, 20).Draw(t, "size"),
			Turn: float64(rapid.IntRange(-180, 180).Draw(t, "turn")), Body: rapid.String().Draw(t, "body")}
	})
	s := Strokes{Title: rapid.String().Draw(t, "title"), Page: orb.Bound{Max: orb.Point{1000, 500}}}
	s.Loose = rapid.SliceOfN(stroke, 0, 3).Draw(t, "loose")
	s.Texts = rapid.SliceOfN(text, 0, 2).Draw(t, "texts")
	for range rapid.IntRange(1, 3).Draw(t, "parts") {
		part := StrokePart{Name: rapid.String().Draw(t, "name"),
			Strokes: rapid.SliceOfN(stroke, 1, 4).Draw(t, "strokes"),
			Texts:   rapid.SliceOfN(text, 0, 2).Draw(t, "words")}
		if rapid.Bool().Draw(t, "copies") {
			at := text.Draw(t, "copy")
			part.Copy = &at
		}
		s.Parts = append(s.Parts, part)
	}
	for range rapid.IntRange(0, 4).Draw(t, "places") {
		s.Places = append(s.Places, Place{Part: rapid.IntRange(0, len(s.Parts)-1).Draw(t, "part"),
			At: point.Draw(t, "at"), Turn: rapid.SampledFrom([]float64{0, 45, 90, 180, 270, 7.5, 358.25}).Draw(t,
				"turn"),
			Copy: rapid.SampledFrom([]string{"", "left", "2 of 4"}).Draw(t, "copy")})
	}
	return s
})

// What is written is read back: every stroke on its layer, exact on the lattice and within
// a thousandth elsewhere, in both units; every insertion where it was, turned as it was.
func TestDXFHoldsWhatWasDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := randomStrokes.Draw(t, "work")
		for unit, size := range map[DXFUnit]float64{DXFMillimetres: 1, DXFInches: mmPerInch} {
			data, err := s.DXF(unit)
			if err != nil {
				t.Fatal(err)
			}
			if again, _ := s.DXF(unit); !bytes.Equal(data, again) {
				t.Fatal("other bytes the second time")
			}
			d := testdxf.Read(t, data)
			for i, name := range d.Names {
				sameStrokes(t, s.Parts[i].Strokes, d.Blocks[name], size)
			}
			sameStrokes(t, s.Loose, d.Entities, size)
			samePlaces(t, s, d, size)
		}
	})
}

func sameStrokes(t *rapid.T, want []Stroke, got []testdxf.Entity, size float64) {
	lines := slices.DeleteFunc(slices.Clone(got), func(e testdxf.Entity) bool {
		return e.Kind != "LINE" && e.Kind != "POLYLINE"
	})
	if len(lines) != len(want) {
		t.Fatalf("%d lines of %d", len(lines), len(want))
	}
	for i, s := range want {
		path := s.Path
		if s.Closed() {
			path = path[:len(path)-1]
		}
		if lines[i].Layer != layers[s.Layer].dxf || lines[i].Closed != s.Closed() || len(lines[i].Points) != len(path) {
			t.Fatalf("%+v is written as %+v", s, lines[i])
		}
		for k, p := range path {
			samePoint(t, p, lines[i].Points[k], size)
		}
	}
}

// samePoint holds a point read in a unit of so many mm against one drawn.
func samePoint(t *rapid.T, want, got orb.Point, size float64) {
	for axis := range want {
		off := math.Abs(got[axis]*size - want[axis])
		if off > 0.0005+1e-9 || size == 1 && want[axis] == plane.Snap(want[axis]) && off != 0 {
			t.Fatalf("%v is written as %v, %g off", want, got, off)
		}
	}
}

func samePlaces(t *rapid.T, s Strokes, d testdxf.Drawing, size float64) {
	var inserted []testdxf.Entity
	for _, e := range d.Entities {
		if e.Kind == "INSERT" {
			inserted = append(inserted, e)
		}
	}
	if len(inserted) != len(s.Places) {
		t.Fatalf("%d insertions of %d", len(inserted), len(s.Places))
	}
	for i, p := range s.Places {
		if inserted[i].Body != d.Names[p.Part] || inserted[i].Turn != p.Turn {
			t.Fatalf("%+v is written as %+v", p, inserted[i])
		}
		samePoint(t, p.At, inserted[i].Points[0], size)
	}
}

// A layer taken away is gone, and all else stays; without words there is no text.
func TestWithoutALayer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := randomStrokes.Draw(t, "work")
		gone := Layer(rapid.IntRange(0, int(layerCount)-1).Draw(t, "gone"))
		rest := s.Without(gone)
		lines, texts, left := 0, 0, 0
		count := func(s Strokes, add func(Stroke)) {
			for _, l := range s.Loose {
				add(l)
			}
			for _, p := range s.Parts {
				for _, l := range p.Strokes {
					add(l)
				}
			}
		}
		count(s, func(l Stroke) {
			if l.Layer != gone {
				lines++
			}
		})
		count(rest, func(l Stroke) {
			if left++; l.Layer == gone {
				t.Fatalf("%v is left", l)
			}
		})
		data, err := rest.DXF(DXFMillimetres)
		if err != nil {
			t.Fatal(err)
		}
		d := testdxf.Read(t, data)
		for _, e := range d.Entities {
			if e.Kind == "TEXT" {
				texts++
			}
		}
		if left != lines || gone == LayerWords && texts > 0 || len(rest.Places) != len(s.Places) {
			t.Fatalf("%d lines of %d, %d texts", left, lines, texts)
		}
	})
}

// plainText is what a text says once its escapes are undone, as the writer promises: the
// slow twin of dxfText, by patterns.
func plainText(s string) string {
	s = strings.ToValidUTF8(s, "\uFFFD")
	s = regexp.MustCompile(`[\x00-\x1f\x7f]`).ReplaceAllString(s, " ")
	s = strings.ReplaceAll(s, "^", "^ ")
	for strings.Contains(s, "%%") {
		s = strings.ReplaceAll(s, "%%", "% %")
	}
	return s
}

func checkText(t rapid.TB, s string) {
	t.Helper()
	var joined string
	for _, line := range dxfText(s) {
		if len(line) > longestDXF {
			t.Fatalf("%q has a line of %d bytes", s, len(line))
		}
		for i := range len(line) {
			if line[i] < ' ' || line[i] > '~' {
				t.Fatalf("%q is written as %q", s, line)
			}
		}
		if strings.Contains(line, "%%") || strings.Contains(line, `\M+`) {
			t.Fatalf("%q is written as %q, which means something else", s, line)
		}
		joined += testdxf.Plain(t, line)
	}
	if want := plainText(s); joined != want {
		t.Fatalf("%q reads %q, want %q", s, joined, want)
	}
}

func FuzzDXFText(f *testing.F) {
	for _, s := range []string{"skirt", "jupe à volants", "юбка", "φούστα", "50%%d", `C:\U+0041`, "a^J",
		"a\r\n0\r\nEOF",
		"\U0001F457", "\xff", strings.Repeat("ж", 300), "%%%", `\M+18140`, ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) { checkText(t, s) })
}

func TestDXFTextMeansWhatItSaid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		checkText(t, rapid.OneOf(rapid.String(), rapid.StringMatching(`([%^\\UM+0-9a-f]|é|𝛑){0,40}`)).Draw(t, "text"))
	})
}

// Names of blocks are such as R12 takes, and no two are the same.
func TestBlockNamesAreSafeAndUnique(t *testing.T) {
	safe := regexp.MustCompile(`^[A-Z0-9][A-Z0-9-]{0,29}[A-Z0-9]$|^[A-Z0-9]$`)
	names := rapid.OneOf(rapid.String(), rapid.StringMatching(`[ab](-[12])?`),
		rapid.StringMatching(`[a-c ]{28,40}(-2)?`))
	rapid.Check(t, func(t *rapid.T) {
		var parts []StrokePart
		for range rapid.IntRange(1, 30).Draw(t, "parts") {
			parts = append(parts, StrokePart{Name: names.Draw(t, "name")})
		}
		taken := map[string]bool{}
		for i, name := range blockNames(parts) {
			if !safe.MatchString(name) || taken[name] {
				t.Fatalf("%q is called %q", parts[i].Name, name)
			}
			taken[name] = true
		}
	})
}

func TestPlainBlockNamesStayPlain(t *testing.T) {
	parts := []StrokePart{{Name: "skirt side back gore"}, {Name: "skirt side back gore"}, {Name: "юбка"},
		{Name: "skirt (side) back gore"}}
	want := []string{"SKIRT-SIDE-BACK-GORE", "SKIRT-SIDE-BACK-GORE-2", "PIECE", "SKIRT-SIDE-BACK-GORE-3"}
	if got := blockNames(parts); !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

// Four thousand pieces of one name, the most of a job, are named at once.
func TestManyBlocksOfOneName(t *testing.T) {
	parts := slices.Repeat([]StrokePart{{Name: strings.Repeat("gore ", 10)}}, 4000)
	names := blockNames(parts)
	if last := names[3999]; last != "GORE-GORE-GORE-GORE-GORE-G-4000" {
		t.Errorf("the last is %s", last)
	}
}

// A file says its unit in each of the places where one is looked for.
func TestDXFSaysItsUnit(t *testing.T) {
	s := Strokes{Title: "skirt", Page: orb.Bound{Max: orb.Point{254, 508}},
		Loose: []Stroke{{LayerCut, orb.LineString{{0, 0}, {254, 0}}}}}
	for unit, want := range map[DXFUnit]struct{ measurement, units, words, width string }{
		DXFMillimetres: {"1", "4", "UNITS: METRIC, lengths in millimetres", "254.0"},
		DXFInches:      {"0", "1", "UNITS: ENGLISH, lengths in inches", "10.0"},
	} {
		data, err := s.DXF(unit)
		if err != nil {
			t.Fatal(err)
		}
		d := testdxf.Read(t, data)
		if d.Header["$MEASUREMENT"] != want.measurement || d.Header["$INSUNITS"] != want.units ||
			d.Header["$EXTMAX"] != want.width || d.Header["$ACADVER"] != "AC1009" || d.Header["$LUNITS"] != "2" {
			t.Errorf("header %v", d.Header)
		}
		if !slices.Contains(d.Comments, want.words) {
			t.Errorf("comments %q lack %q", d.Comments, want.words)
		}
	}
}

func TestNoFileOfWhatIsNoNumber(t *testing.T) {
	nan, far := math.NaN(), math.Inf(1)
	at := Text{At: orb.Point{0, nan}}
	for i, s := range []Strokes{
		{Page: orb.Bound{Max: orb.Point{far, 0}}},
		{Loose: []Stroke{{LayerCut, orb.LineString{{0, 0}, {nan, 1}}}}},
		{Texts: []Text{{Size: far}}},
		{Parts: []StrokePart{{Strokes: []Stroke{{LayerSew, orb.LineString{{0, far}, {1, 1}}}}}}},
		{Parts: []StrokePart{{Copy: &at}}},
		{Parts: []StrokePart{{}}, Places: []Place{{Turn: nan}}},
	} {
		for _, write := range []func() ([]byte, error){s.SVG, func() ([]byte, error) { return s.DXF(DXFInches) }} {
			if data, err := write(); err == nil || data != nil || !strings.Contains(err.Error(), "finite") {
				t.Errorf("%d: %d bytes, %v", i, len(data), err)
			}
		}
	}
}

// A text too long for R12 goes on below, in the direction of its lines.
func TestLongTextsGoOnBelow(t *testing.T) {
	s := Strokes{Texts: []Text{{At: orb.Point{100, 100}, Size: 8, Turn: 90, Body: strings.Repeat("ж", 80)}}}
	data, err := s.DXF(DXFMillimetres)
	if err != nil {
		t.Fatal(err)
	}
	var at []orb.Point
	said := ""
	for _, e := range testdxf.Read(t, data).Entities {
		if len(e.Body) > 0 && e.Layer == "15" {
			at, said = append(at, e.Points[0]), said+testdxf.Plain(t, e.Body)
		}
	}
	if !strings.HasPrefix(said, s.Texts[0].Body) || len(at) < 3 ||
		fmt.Sprint(at[:3]) != "[[100 100] [110 100] [120 100]]" {
		t.Errorf("%d letters at %v", len([]rune(said)), at)
	}
}
