package sheet

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/testdxf"
)

// textsOf are the texts among entities.
func textsOf(list []testdxf.Entity) (texts []testdxf.Entity) {
	for _, e := range list {
		if e.Kind == "TEXT" {
			texts = append(texts, e)
		}
	}
	return texts
}

// sameTexts holds the texts of a file against those that were drawn: each where it was, as high as its capitals, on the
// layer of words, what has no room in a line below it.
func sameTexts(t *rapid.T, want []Text, got []testdxf.Entity, size float64) {
	for _, w := range want {
		a := w.Turn * math.Pi / 180
		down := orb.Point{math.Sin(a), -math.Cos(a)}
		said := ""
		for i := 0; len(said) < len(plainText(w.Body)) || i == 0; i++ {
			if len(got) == 0 {
				t.Fatalf("%q is not all there", w.Body)
			}
			e := got[0]
			got, said = got[1:], said+testdxf.Plain(t, e.Body)
			for axis := range 2 {
				at := w.At[axis] + down[axis]*1.25*w.Size*float64(i)
				if math.Abs(e.Points[0][axis]*size-at) > 0.0006 {
					t.Fatalf("line %d of %q stands at %v, not at %v from %v", i, w.Body, e.Points[0], at, w.At)
				}
			}
			if e.Layer != "15" || math.Mod(e.Turn-w.Turn, 360) != 0 || e.Anchor != int(w.Anchor) ||
				math.Abs(e.Height*size-0.72*w.Size) > 0.0006 {
				t.Fatalf("%+v is written as %+v", w, e)
			}
		}
		if said != plainText(w.Body) {
			t.Fatalf("%q reads %q", w.Body, said)
		}
	}
	if len(got) > 0 {
		t.Fatalf("%d texts more: %+v", len(got), got[0])
	}
}

// Every text of line work is in its file where it was drawn: those of parts in their blocks, the names of copies beside
// the copies, and, once there are words at all, what the file is and its unit below the page.
func TestDXFWordsStandWhereDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := randomStrokes.Draw(t, "work")
		left, foot := rapid.IntRange(-900, 900).Draw(t, "left"), rapid.IntRange(-900, 400).Draw(t, "foot")
		s.Page.Min = orb.Point{float64(left), float64(foot)}
		for i := range s.Texts {
			s.Texts[i].Anchor = Anchor(rapid.IntRange(0, 2).Draw(t, "anchor"))
		}
		for unit, of := range map[DXFUnit]struct {
			size float64
			said string
		}{
			DXFMillimetres: {1, "UNITS: METRIC, lengths in millimetres"},
			DXFInches:      {25.4, "UNITS: ENGLISH, lengths in inches"},
		} {
			data, err := s.DXF(unit)
			if err != nil {
				t.Fatal(err)
			}
			d := testdxf.Read(t, data)
			words := len(s.Texts) > 0
			for _, l := range s.Loose {
				words = words || l.Layer == LayerWords
			}
			for i, p := range s.Parts {
				sameTexts(t, p.Texts, textsOf(d.Blocks[d.Names[i]]), of.size)
				words = words || len(p.Texts) > 0 || p.Copy != nil
				for _, l := range p.Strokes {
					words = words || l.Layer == LayerWords
				}
			}
			want := s.Texts[:len(s.Texts):len(s.Texts)]
			if words {
				foot := s.Page.Min
				want = append(want, Text{At: orb.Point{foot[0], foot[1] - 15}, Size: 10, Body: s.Title},
					Text{At: orb.Point{foot[0], foot[1] - 30}, Size: 10, Body: of.said})
			}
			for _, p := range s.Places {
				at := s.Parts[p.Part].Copy
				if at == nil || p.Copy == "" {
					continue
				}
				sin, cos := math.Sincos(p.Turn * math.Pi / 180)
				want = append(want, Text{Size: at.Size, Turn: at.Turn + p.Turn, Body: p.Copy, Anchor: at.Anchor,
					At: orb.Point{p.At[0] + at.At[0]*cos - at.At[1]*sin, p.At[1] + at.At[0]*sin + at.At[1]*cos}})
			}
			sameTexts(t, want, textsOf(d.Entities), of.size)
		}
	})
}

// The layers of a file are those that something is drawn on, and the one of what is inserted.
func TestDXFLayersAreThoseUsed(t *testing.T) {
	for l := range layerCount {
		for i, s := range []Strokes{
			{Loose: []Stroke{{l, orb.LineString{{0, 0}, {1, 0}}}}},
			{Parts: []StrokePart{{Strokes: []Stroke{{l, orb.LineString{{0, 0}, {1, 0}, {1, 1}}}}}}},
		} {
			data, err := s.DXF(DXFMillimetres)
			if err != nil {
				t.Fatal(err)
			}
			if got, want := strings.Join(testdxf.Read(t, data).Layers, " "), "0 "+layers[l].dxf; got != want {
				t.Errorf("%d: layers %s, not %s", i, got, want)
			}
		}
	}
}
