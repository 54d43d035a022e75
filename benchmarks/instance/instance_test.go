package instance

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

func readFile(t testing.TB, name string) Instance {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "instances", name+".geojson"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	in, err := Read(f)
	if err != nil {
		t.Fatal(err)
	}
	return in
}

// Kinds and numbers of pieces and strip widths as the literature tabulates them
// (Gomes & Oliveira, EJOR 171, 2006, table 1; from memory): shirts 8 kinds, 99
// pieces; swim 10, 48; trousers 17, 64; albano 8, 24; marques 8, 24; dighe1 16, 16.
func TestReadInstances(t *testing.T) {
	for _, c := range []struct {
		name          string
		width         float64
		kinds, pieces int
		turns         []float64
	}{
		{"shirts", 40, 8, 99, []float64{0, 180}},
		{"swim", 5752, 10, 48, []float64{0, 180}},
		{"trousers", 79, 17, 64, []float64{0, 180}},
		{"albano", 4900, 8, 24, []float64{0, 180}},
		{"marques", 104, 8, 24, []float64{0, 90, 180, 270}},
		{"dighe1", 100, 16, 16, []float64{0}},
	} {
		in := readFile(t, c.name)
		p := in.Problem
		if in.Name != c.name || !strings.Contains(in.Source, "CC0 1.0") {
			t.Errorf("%s: name %q, source %q", c.name, in.Name, in.Source)
		}
		if p.Strip.Width/in.Scale != c.width || p.Strip.Width < 1<<13 || p.Strip.Width >= 1<<15 {
			t.Errorf("%s: width %v at scale %v", c.name, p.Strip.Width, in.Scale)
		}
		if f, _ := math.Frexp(in.Scale); f != 0.5 {
			t.Errorf("%s: scale %v is no power of two", c.name, in.Scale)
		}
		pieces := 0
		for _, piece := range p.Pieces {
			pieces += piece.Count
			if !cmp.Equal(piece.Turns, c.turns) || piece.Mirror != nest.AsDrawn {
				t.Errorf("%s: %s: turns %v, mirror %v", c.name, piece.Name, piece.Turns, piece.Mirror)
			}
			if !cmp.Equal(plane.SnapRing(piece.Outline), piece.Outline) {
				t.Errorf("%s: %s is off the lattice", c.name, piece.Name)
			}
		}
		if len(p.Pieces) != c.kinds || pieces != c.pieces {
			t.Errorf("%s: %d kinds, %d pieces, want %d, %d", c.name, len(p.Pieces), pieces, c.kinds, c.pieces)
		}
	}
}

// The jigsaw covers its square of 100 by 100 wholly.
func TestJigsawArea(t *testing.T) {
	in := readFile(t, "dighe1")
	if area := in.Problem.Area() / in.Scale / in.Scale; area != 100*100 {
		t.Errorf("area %v, want 10000", area)
	}
}

func TestLotsKeepWithinReach(t *testing.T) {
	in := readFile(t, "shirts")
	for _, n := range []int{1, 2, 4, 8, 64} {
		lots := in.Lots(n)
		if err := lots.Problem.Check(); err != nil {
			t.Fatal(err)
		}
		if got := lots.Problem.Pieces[3].Count; got != 15*n {
			t.Errorf("%d lots: %d of the fourth piece", n, got)
		}
		if lots.Problem.Strip.Width/lots.Scale != 40 || lots.Problem.Pieces[0].Outline[1][0]/lots.Scale != 9 {
			t.Errorf("%d lots: scale %v does not bring the unit back", n, lots.Scale)
		}
		if length := lots.Problem.Area() / lots.Problem.Strip.Width; length > nest.Reach/2 {
			t.Errorf("%d lots: %v mm at 100 %%", n, length)
		}
	}
	if in.Problem.Pieces[3].Count != 15 {
		t.Error("the instance itself was changed")
	}
}

const sample = `{"type": "FeatureCollection", "name": "two", "source": "made up", "stripWidth": 10, "note": "foreign",
"features": [
{"type": "Feature", "id": "panel", "properties": {"quantity": 2, "rotations": [0, 180]}, "geometry": {"type": "Polygon", "coordinates": [[[0, 0], [4, 0], [4, 3.5], [0, 3], [0, 0]]]}},
{"type": "Feature", "id": 7, "properties": {"quantity": 1, "rotations": [0]}, "geometry": {"type": "Polygon", "coordinates": [[[0, 0], [2, 0], [2, 0], [0, 2], [0, 0]]]}}
]}`

func TestReadErrors(t *testing.T) {
	for _, c := range []struct{ name, old, new, says string }{
		{"not JSON", `{"type": "FeatureCollection"`, `type: FeatureCollection`, "near byte"},
		{"two values", "\n]}", "\n]} {}", "more than one value"},
		{"another type", "FeatureCollection", "Topology", `type is "Topology"`},
		{"no name", `"two"`, `""`, "no name"},
		{"no width", `"stripWidth"`, `"width"`, "stripWidth is missing"},
		{"width 0", `"stripWidth": 10`, `"stripWidth": 0`, "not above 0"},
		{"width in words", `"stripWidth": 10`, `"stripWidth": "10"`, "stripWidth"},
		{"no features", `"features"`, `"things"`, "no pieces"},
		{"no feature", `"Feature", "id": "panel"`, `"Thing", "id": "panel"`, `feature 0: type is "Thing"`},
		{"odd id", `"id": 7`, `"id": [7]`, "feature 1: id is [7]"},
		{"same id", `"id": 7`, `"id": "panel"`, `feature 1: id "panel" is used before`},
		{"no quantity", `"quantity": 2`, `"count": 2`, "feature 0: no quantity"},
		{"half a piece", `"quantity": 2`, `"quantity": 2.5`, "quantity is 2.5"},
		{"none", `"quantity": 2`, `"quantity": 0`, "quantity is 0"},
		{"too many", `"quantity": 2`, `"quantity": 1e18`, "quantity is 1e+18"},
		{"empty rotations", `"rotations": [0, 180]`, `"rotations": []`, "feature 0: no rotations"},
		{"missing rotations", `, "rotations": [0, 180]`, ``, "feature 0: no rotations"},
		{"line", `"Polygon", "coordinates": [[[0, 0], [4`, `"LineString", "coordinates": [[[0, 0], [4`,
			`geometry is "LineString"`},
		{"hole", `[0, 3], [0, 0]]]`, `[0, 3], [0, 0]], [[1, 1], [1, 2], [2, 1], [1, 1]]]`, "polygon has 2 rings"},
		{"height", `[4, 3.5]`, `[4, 3.5, 1]`, "position 2 has 3 numbers"},
		{"open", `[0, 3], [0, 0]`, `[0, 3]`, `"panel": outline: ring is open`},
		{"crossed", `[4, 3.5], [0, 3]`, `[0, 3], [4, 3.5]`, `"panel": outline: ring crosses`},
		{"too wide", `[4, 3.5]`, `[4, 13.5]`, `"panel" fits in no allowed turn`},
	} {
		if !strings.Contains(sample, c.old) {
			t.Fatalf("%s: sample lacks %q", c.name, c.old)
		}
		_, err := Read(strings.NewReader(strings.Replace(sample, c.old, c.new, 1)))
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: got %v, want %q", c.name, err, c.says)
		}
	}
}

func TestReadSample(t *testing.T) {
	reversed := strings.Replace(sample, "[4, 0], [4, 3.5], [0, 3]", "[0, 3], [4, 3.5], [4, 0]", 1)
	for _, text := range []string{sample, reversed} {
		in, err := Read(strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		const scale = 2048 // 10 * 2048 is from 2^14 to 2^15
		want := Instance{Name: "two", Source: "made up", Scale: scale, Problem: nest.Problem{
			Strip: nest.Strip{Width: 10 * scale},
			Pieces: []nest.Piece{
				{Name: "panel", Count: 2, Turns: []float64{0, 180},
					Outline: times(orb.Ring{{0, 0}, {4, 0}, {4, 3.5}, {0, 3}, {0, 0}}, scale)},
				{Name: "7", Count: 1, Turns: []float64{0},
					Outline: times(orb.Ring{{0, 0}, {2, 0}, {0, 2}, {0, 0}}, scale)},
			},
		}}
		if diff := cmp.Diff(want, in); diff != "" {
			t.Error(diff)
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(sample))
	f.Add([]byte(strings.Replace(sample, "10", "1e-300", 1)))
	f.Add([]byte(strings.Replace(sample, "10", "1e308", 1)))
	f.Add([]byte(`{"type":"FeatureCollection","name":"x","stripWidth":5e-324,"features":[]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		in, err := Read(bytes.NewReader(data))
		if err != nil {
			return
		}
		if err := in.Problem.Check(); err != nil {
			t.Fatalf("accepted an unsound problem: %v", err)
		}
		if f, _ := math.Frexp(in.Scale); f != 0.5 {
			t.Fatalf("scale %v is no power of two", in.Scale)
		}
	})
}
