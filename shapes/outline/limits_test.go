package outline

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes/plane"
)

// round writes a polygon of so many corners about the origin.
func round(corners int, radius float64) string {
	var all []string
	for i := range corners {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(corners))
		all = append(all, fmt.Sprintf("[%.3f,%.3f]", radius*cos, radius*sin))
	}
	return `{"type":"Polygon","coordinates":[[` + strings.Join(all, ",") + `]]}`
}

// What is at a limit is read, and the least more is refused.
func TestLimitsAreIn(t *testing.T) {
	side := func(x float64) string {
		return fmt.Sprintf(`{"type":"Polygon","coordinates":[[[0,0],[%v,0],[%v,1],[0,1]]]}`, x, x)
	}
	named := func(n int) string { return feature1(fmt.Sprintf(`{"name":%q}`, strings.Repeat("é", n)), square) }
	many := func(n int) string {
		return features(strings.Split(strings.TrimSuffix(strings.Repeat(feature1("{}", square)+"\n", n), "\n"),
			"\n")...)
	}
	for _, c := range []struct{ what, in, out, why string }{
		{"corners", round(MaxVertices, 9000), round(MaxVertices+1, 9000), "the most is 5000"},
		{"coordinate", side(MaxCoordinate), side(MaxCoordinate + 0.001), "lies beyond 30 m"},
		{"area", side(MinArea), side(MinArea - 2*plane.Lattice), "square millimetres, less than 1"},
		{"letters", named(maxNameLength), named(maxNameLength + 1), "has 101 letters, the most is 100"},
		{"outlines", many(MaxOutlines), many(MaxOutlines + 1), "the most that is read is 1000"},
	} {
		if _, err := ReadGeoJSON(strings.NewReader(c.in)); err != nil {
			t.Errorf("%s: at the limit: %v", c.what, err)
		}
		if _, err := ReadGeoJSON(strings.NewReader(c.out)); err == nil || !strings.Contains(err.Error(), c.why) {
			t.Errorf("%s: beyond the limit: %v, want %q", c.what, err, c.why)
		}
	}
	closed := strings.Replace(round(MaxVertices, 9000), "]]]}", "],[9000.000,0.000]]]}", 1)
	if got, err := ReadGeoJSON(strings.NewReader(closed)); err != nil || len(got[0].Ring) != MaxVertices+1 {
		t.Errorf("the first corner written again counts for one more: %v", err)
	}
}

// What stands where something else belongs is named as one who sews would.
func TestWhatStandsInstead(t *testing.T) {
	for value, want := range map[string]string{`"x"`: "text in quotes", "true": "true or false", "[1]": "a list",
		`{"a":1}`: "an object", "3": "a number"} {
		for where, text := range map[string]string{
			"GeoJSON: not an object":    value,
			"\"type\" is not a text":    `{"type":` + value + `}`,
			"not a list of objects":     `{"type":"FeatureCollection","features":` + value + `}`,
			"not a list of rings":       `{"type":"Polygon","coordinates":` + value + `}`,
			"\"geometry\" is not an ob": feature1("{}", value),
			"\"properties\" is not an":  feature1(value, square),
		} {
			_, err := ReadGeoJSON(strings.NewReader(text))
			fits := where == "GeoJSON: not an object" && want == "an object" || want == "an object" &&
				strings.Contains(where, "is not an") || want == "text in quotes" && strings.Contains(where, "type")
			if fits {
				continue // it is what belongs there
			}
			if err == nil || !strings.Contains(err.Error(), where) || !strings.Contains(err.Error(), ", but ") ||
				!strings.Contains(err.Error(), want) && !strings.Contains(where, "list of") {
				t.Errorf("%s: %v, want %q", text, err, want)
			}
		}
	}
	for text, want := range map[string]string{"{\"type\":": "the text ends here",
		"{\n \"type\" \"x\"}": "this is not JSON",
		"{\"type\": \"Poly":   "the text ends here"} {
		if _, err := ReadGeoJSON(strings.NewReader(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
}

// An outline that is read covers what another library reads from the same text, and is
// valid to that; what that finds invalid is refused here.
func TestReadAsAnotherLibraryDoes(t *testing.T) {
	read := map[bool]int{}
	rapid.Check(t, func(t *rapid.T) {
		var all []string
		for range rapid.IntRange(3, 7).Draw(t, "corners") {
			all = append(all, fmt.Sprintf("[%d,%d]", 10*rapid.IntRange(-9, 9).Draw(t, "x"),
				10*rapid.IntRange(-9, 9).Draw(t, "y")))
		}
		text := `{"type":"Polygon","coordinates":[[` + strings.Join(append(all, all[0]), ",") + `]]}`
		other, bad := geom.UnmarshalGeoJSON([]byte(text))
		got, err := ReadGeoJSON(strings.NewReader(text))
		if (err == nil) != (bad == nil) {
			t.Fatalf("%s: %v, by the other library %v", text, err, bad)
		}
		if read[err == nil]++; err != nil {
			return
		}
		if a := plane.Area(got[0].Ring); a != other.Area() {
			t.Fatalf("%s covers %v, by the other library %v", text, a, other.Area())
		}
		if e := other.Envelope(); e.Width() != boxOf(got[0].Ring)[0] || e.Height() != boxOf(got[0].Ring)[1] {
			t.Fatalf("%s is %v large, by the other library %v x %v", text, boxOf(got[0].Ring), e.Width(), e.Height())
		}
	})
	if min(read[true], read[false]) < often.Enough(5) {
		t.Errorf("too few of one kind: %v", read)
	}
}

func boxOf(ring orb.Ring) orb.Point {
	b := ring.Bound()
	return orb.Point{b.Max[0] - b.Min[0], b.Max[1] - b.Min[1]}
}
