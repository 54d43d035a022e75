package outline

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

const square = `{"type":"Polygon","coordinates":[[[0,0],[100,0],[100,50],[0,50],[0,0]]]}`

func feature1(properties, geometry string) string {
	return `{"type":"Feature","properties":` + properties + `,"geometry":` + geometry + `}`
}

func features(list ...string) string {
	return `{"type":"FeatureCollection","features":[` + strings.Join(list, ",") + `]}`
}

func TestReadGeoJSON(t *testing.T) {
	want := orb.Ring{{0, 0}, {100, 0}, {100, 50}, {0, 50}, {0, 0}}
	for _, c := range []struct {
		name, text string
		want       []Named
	}{
		{"polygon", square, []Named{{"outline 1", want}}},
		{"feature", feature1(`{"name":"godet"}`, square), []Named{{"godet", want}}},
		{"no properties", `{"type":"Feature","geometry":` + square + `}`, []Named{{"outline 1", want}}},
		{"null properties", feature1("null", square), []Named{{"outline 1", want}}},
		{"collection", features(feature1(`{"name":"left wing"}`, square), feature1(`{}`, square)),
			[]Named{{"left wing", want}, {"outline 2", want}}},
		{"name of spaces", feature1(`{"name":" \t"}`, square), []Named{{"outline 1", want}}},
		{"byte order mark", "\ufeff" + square, []Named{{"outline 1", want}}},
		{"left open, clockwise, with heights and a repeat",
			`{"type":"Polygon","coordinates":[[[0,50,7],[100,50,7],[100,50],[100,0],[0,0]]]}`,
			[]Named{{"outline 1", orb.Ring{{0, 50}, {0, 0}, {100, 0}, {100, 50}, {0, 50}}}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := ReadGeoJSON(strings.NewReader(c.text))
			if err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(c.want, got); d != "" {
				t.Error(d)
			}
		})
	}
}

func TestReadGeoJSONRefuses(t *testing.T) {
	ring := func(corners string) string { return `{"type":"Polygon","coordinates":[[` + corners + `]]}` }
	many := make([]string, MaxVertices+2)
	for i := range many {
		a := 2 * math.Pi * float64(i) / float64(len(many))
		many[i] = fmt.Sprintf("[%.3f,%.3f]", 9000*math.Cos(a), 9000*math.Sin(a))
	}
	crowd := make([]string, MaxOutlines+1)
	for i := range crowd {
		crowd[i] = feature1("{}", square)
	}
	for _, c := range []struct{ name, text, want string }{
		{"empty", " \n", "empty"},
		{"not JSON", "{\n  \"type\" \"Polygon\"}", "line 2, column 10"},
		{"letters of two bytes before it", "{\n\"tÿpe\":\"é\" x}", "line 2, column 12"},
		{"cut short", `{"type":`, "line 1, column 8"},
		{"two values", square + square, "line 1, column"},
		{"a list", "[1]", "not an object"},
		{"null", "null", `no "type"`},
		{"no type", `{"coordinates":[]}`, `no "type"`},
		{"type in capitals", `{"TYPE":"Polygon"}`, `no "type"`},
		{"type a number", `{"type":3}`, `"type" is not a text`},
		{"other type", `{"type":"LineString","coordinates":[[0,0],[1,1]]}`, `"LineString" is not an outline`},
		{"no features", `{"type":"FeatureCollection"}`, `no "features"`},
		{"features no list", `{"type":"FeatureCollection","features":3}`, "not a list of objects, but a number"},
		{"no feature in it", features(), "holds no features"},
		{"too many", features(crowd...), "holds 1001 features, the most that is read is 1000"},
		{"polygon among features", features(square), `feature 1: type "Polygon"`},
		{"null among features", features(feature1("{}", square), "null"), `feature 2: no "type"`},
		{"no geometry", `{"type":"Feature","properties":{"name":"yoke"}}`, `feature 1 (yoke): no "geometry"`},
		{"null geometry", feature1("{}", "null"), `"geometry" is null`},
		{"geometry a number", feature1("{}", "4"), `"geometry" is not an object`},
		{"several polygons", features(feature1("{}", square),
			feature1(`{"name":"yoke"}`, `{"type":"MultiPolygon","coordinates":[]}`)),
			"feature 2 (yoke): geometry is a MultiPolygon, not a Polygon"},
		{"properties a list", feature1("[]", square), `"properties" is not an object`},
		{"name a number", feature1(`{"name":7}`, square), `"name" is not a text`},
		{"name too long", feature1(`{"name":"`+strings.Repeat("a", 101)+`"}`, square), "has 101 letters"},
		{"name with a bell", feature1(`{"name":"a\u0007"}`, square), "cannot be printed"},
		{"no coordinates", `{"type":"Polygon"}`, `no "coordinates"`},
		{"coordinates flat", `{"type":"Polygon","coordinates":[0,0]}`, "not a list of rings"},
		{"text for a number", ring(`["0","0"]`), "not a list of rings"},
		{"not a number", ring(`[NaN,0],[1,0],[1,1]`), "line 1, column"},
		{"beyond float64", ring(`[1e999,0],[100,0],[100,100]`), "not a list of rings"},
		{"no ring", `{"type":"Polygon","coordinates":[]}`, "no ring"},
		{"hole", `{"type":"Polygon","coordinates":[[[0,0],[9,0],[9,9],[0,9],[0,0]],[[3,3],[3,6],[6,6],[3,3]]]}`,
			"1 hole(s)"},
		{"one number", ring(`[0,0],[1],[1,1]`), "corner 2: 1 number(s)"},
		{"four numbers", ring(`[0,0],[1,0,0,0],[1,1]`), "corner 2: 4 number(s)"},
		{"null corner", ring(`[0,0],null,[1,1]`), "corner 2: 0 number(s)"},
		{"null for a number", ring(`[0,0],[100,0],[100,50],[null,50]`), "corner 4: null where a number belongs"},
		{"huge", ring(`[0,0],[1e9,0],[0,100]`), "corner 2: coordinate 1e+09 lies beyond 30 m"},
		{"two corners", ring(`[0,0],[100,0],[0,0]`), "2 different corner(s)"},
		{"corners that fall together", ring(`[0,0],[100,0],[100,0.0001],[0,0.0001]`), "2 different corner(s)"},
		{"too many corners", ring(strings.Join(many, ",")), "has 5002 corners, the most is 5000"},
		{"bow tie", ring(`[0,0],[100,100],[100,0],[0,100]`), "(50.000 mm, 50.000 mm)"},
		{"flat", ring(`[0,0],[100,0],[50,0]`), "not one simple closed line"},
		{"drawn in metres", ring(`[0,0],[0.9,0],[0.9,0.5],[0,0.5]`), "covers 0.45 square millimetres"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := ReadGeoJSON(strings.NewReader(c.text))
			if err == nil {
				t.Fatalf("accepted as %v", got)
			}
			if !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %q does not say %q", err, c.want)
			}
			for _, foreign := range []string{"json:", "Go ", "unmarshal", "invalid character", "float64",
				"string into", "EOF"} {
				if strings.Contains(err.Error(), foreign) {
					t.Errorf("error %q says %q to somebody who sews", err, foreign)
				}
			}
		})
	}
}

func TestReadGeoJSONReadErrors(t *testing.T) {
	if _, err := ReadGeoJSON(iotest.ErrReader(errors.New("disk on fire"))); err == nil ||
		!strings.Contains(err.Error(), "disk on fire") {
		t.Errorf("read error lost: %v", err)
	}
	if _, err := ReadGeoJSON(strings.NewReader(strings.Repeat(" ", MaxBytes+1))); err == nil ||
		!strings.Contains(err.Error(), "16 MiB") {
		t.Errorf("a text over the limit gives %v", err)
	}
}

// A star around a point, written either way round, open or closed, comes back
// as the same region on the lattice.
func TestReadGeoJSONKeepsTheRegion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 40).Draw(t, "corners")
		cx := rapid.Float64Range(-20_000, 20_000).Draw(t, "cx")
		drawn := make(orb.Ring, 0, n+1)
		for i := range n {
			a, r := 2*math.Pi*float64(i)/float64(n), rapid.Float64Range(20, 5000).Draw(t, "radius")
			drawn = append(drawn, orb.Point{cx + r*math.Cos(a), r * math.Sin(a)})
		}
		drawn = append(drawn, drawn[0])
		area := plane.Area(drawn)
		if rapid.Bool().Draw(t, "clockwise") {
			drawn.Reverse()
		}
		if rapid.Bool().Draw(t, "open") {
			drawn = drawn[:n]
		}
		text, err := json.Marshal(map[string]any{"type": "Polygon", "coordinates": [][]orb.Point{drawn}})
		if err != nil {
			t.Fatal(err)
		}
		got, err := ReadGeoJSON(strings.NewReader(string(text)))
		if err != nil {
			t.Fatal(err)
		}
		// Snapping moves each corner by at most half the lattice on each axis.
		if slack := plane.Lattice * plane.Length(append(drawn,
			drawn[0])); math.Abs(plane.Area(got[0].Ring)-area) > slack {
			t.Errorf("area %.6f became %.6f", area, plane.Area(got[0].Ring))
		}
	})
}

// Whatever the text, what is accepted keeps the promises of Named.
func FuzzReadGeoJSON(f *testing.F) {
	f.Add([]byte(square))
	f.Add([]byte(feature1(`{"name":"godet"}`, square)))
	f.Add([]byte(features(feature1(`{"name":"wing"}`, square), feature1(`null`, square))))
	f.Add([]byte(`{"type":"Polygon","coordinates":[[[0,0],[1e308,0],[0,1e308]]]}`))
	f.Add([]byte(`{"type":"Polygon","coordinates":[[[0,0],[9,9],[9,0],[0,9]],[[1,1]]]}`))
	f.Add([]byte(`{"type":"FeatureCollection","features":[null]}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		got, err := ReadGeoJSON(strings.NewReader(string(text)))
		if err != nil {
			return
		}
		if len(got) == 0 || len(got) > MaxOutlines {
			t.Fatalf("%d outlines without an error", len(got))
		}
		for _, o := range got {
			if o.Name == "" {
				t.Error("an outline without a name")
			}
			if err := plane.CheckSimple(o.Ring); err != nil {
				t.Errorf("%s: %v", o.Name, err)
			}
			for _, p := range o.Ring {
				if plane.SnapPoint(p) != p || math.Abs(p[0]) > MaxCoordinate || math.Abs(p[1]) > MaxCoordinate {
					t.Errorf("%s: corner %v off the lattice or out of bounds", o.Name, p)
				}
			}
			if plane.Area(o.Ring) < MinArea {
				t.Errorf("%s: area %g", o.Name, plane.Area(o.Ring))
			}
		}
	})
}

// The corners of all outlines of a file together have a limit of their own.
func TestCornersOfAFileAreBounded(t *testing.T) {
	var ring []string
	for i := range MaxVertices {
		a := 2 * math.Pi * float64(i) / MaxVertices
		ring = append(ring, fmt.Sprintf("[%.3f,%.3f]", 900*math.Cos(a), 900*math.Sin(a)))
	}
	one := `{"type":"Feature","geometry":{"type":"Polygon","coordinates":[[` + strings.Join(ring, ",") + `]]}}`
	for n, refused := range map[int]bool{MaxCorners / MaxVertices: false, MaxCorners/MaxVertices + 1: true} {
		src := `{"type":"FeatureCollection","features":[` + strings.TrimSuffix(strings.Repeat(one+",", n), ",") + "]}"
		_, err := ReadGeoJSON(strings.NewReader(src))
		if (err != nil) != refused || refused && !strings.Contains(err.Error(), "over 20000 corners in all") {
			t.Errorf("%d outlines: %v", n, err)
		}
	}
}
