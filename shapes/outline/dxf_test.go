package outline

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// groups writes a line of codes and values, "0 LINE | 8 front | 10 1.5", as a DXF has them.
func groups(lines ...string) string {
	var b strings.Builder
	for _, line := range lines {
		for _, g := range strings.Split(line, "|") {
			code, value, _ := strings.Cut(strings.TrimSpace(g), " ")
			fmt.Fprintf(&b, "%3s\n%s\n", code, value)
		}
	}
	return b.String()
}

func dxfSection(name string, lines ...string) string {
	return groups("0 SECTION | 2 "+name) + groups(lines...) + groups("0 ENDSEC")
}

// inMM is a header that says millimetres.
var inMM = dxfSection("HEADER", "9 $ACADVER | 1 AC1032 | 9 $INSUNITS | 70 4")

// ofEntities is a drawing in millimetres.
func ofEntities(lines ...string) string {
	return inMM + dxfSection("ENTITIES", lines...) + groups("0 EOF")
}

// ofBlocks is a drawing in millimetres with blocks.
func ofBlocks(blocks []string, entities ...string) string {
	return inMM + dxfSection("BLOCKS", blocks...) + dxfSection("ENTITIES", entities...) + groups("0 EOF")
}

func readAsDXF(t rapid.TB, text string) Drawing {
	t.Helper()
	d, err := ReadDXF(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	checkDXF(t, d)
	return d
}

// checkDXF holds what is promised of every drawing.
func checkDXF(t rapid.TB, d Drawing) {
	t.Helper()
	inside := func(p orb.Point) {
		if !(math.Abs(p[0]) <= MaxCoordinate && math.Abs(p[1]) <= MaxCoordinate) {
			t.Fatalf("%v is beyond the limit", p)
		}
	}
	for _, l := range d.Lines {
		n := len(l.Points)
		if n < 2 || len(l.Corners) < 2 || l.Corners[0] != 0 || l.Corners[len(l.Corners)-1] != n-1 || l.Place == "" {
			t.Fatalf("%d points, corners %v, %q", n, l.Corners, l.Place)
		}
		for i := 1; i < len(l.Corners); i++ {
			if l.Corners[i] <= l.Corners[i-1] {
				t.Fatalf("corners %v", l.Corners)
			}
		}
		if l.Closed && l.Points[0] != l.Points[n-1] {
			t.Fatal("closed, but its ends are two points")
		}
		for i, p := range l.Points {
			if inside(p); i > 0 && p == l.Points[i-1] {
				t.Fatalf("%v twice", p)
			}
		}
	}
	for _, p := range d.Points {
		inside(p.At)
	}
	for _, x := range d.Texts {
		if inside(x.At); x.Text == "" || printable(x.Text) != x.Text {
			t.Fatalf("text %q", x.Text)
		}
	}
}

// shape is what of a line a test looks at.
type shape struct {
	Points  orb.LineString
	Corners []int
	Closed  bool
}

func shapesOf(d Drawing) (all []shape) {
	for _, l := range d.Lines {
		all = append(all, shape{l.Points, l.Corners, l.Closed})
	}
	return all
}

// Straight entities come out as they are written, wherever they are inserted.
func TestReadDXFOfStraightLines(t *testing.T) {
	two := func(a, b orb.Point) shape { return shape{orb.LineString{a, b}, []int{0, 1}, false} }
	corner := []string{"0 BLOCK | 2 b | 10 1 | 20 0 | 70 0", "0 LINE | 8 0 | 10 1 | 20 0 | 11 3 | 21 0",
		"0 LINE | 8 0 | 10 1 | 20 0 | 11 1 | 21 1", "0 ENDBLK"}
	for _, c := range []struct {
		name, text string
		want       []shape
	}{
		{"line", ofEntities("0 LINE | 8 0 | 10 1 | 20 2 | 30 9 | 11 4 | 21 -6"),
			[]shape{two(orb.Point{1, 2}, orb.Point{4, -6})}},
		{"closed polyline", ofEntities("0 LWPOLYLINE | 90 3 | 70 1 | 10 0 | 20 0 | 10 9 | 20 0 | 10 9 | 20 5"),
			[]shape{{orb.LineString{{0, 0}, {9, 0}, {9, 5}, {0, 0}}, []int{0, 1, 2, 3}, true}}},
		{"open, ends meet, a point twice", ofEntities("0 LWPOLYLINE | 70 0 | 10 0 | 20 0 | 10 9 | 20 0 | 10 9 | 20 0",
			"10 9 | 20 5 | 10 0 | 20 0"), []shape{{orb.LineString{{0, 0}, {9, 0}, {9, 5}, {0, 0}}, []int{0, 1, 2, 3}, true}}},
		{"R12 polyline", ofEntities("0 POLYLINE | 8 1 | 66 1 | 10 0 | 20 0 | 70 0", "0 VERTEX | 8 1 | 10 3 | 20 4",
			"0 VERTEX | 10 7 | 20 4", "0 SEQEND | 8 1"), []shape{two(orb.Point{3, 4}, orb.Point{7, 4})}},
		{"frame of a spline is not drawn", ofEntities("0 POLYLINE | 66 1 | 70 4", "0 VERTEX | 10 50 | 20 50 | 70 16",
			"0 VERTEX | 10 0 | 20 0 | 70 8", "0 VERTEX | 10 1 | 20 1 | 70 8", "0 VERTEX | 10 2 | 20 0 | 70 8", "0 SEQEND"),
			[]shape{{orb.LineString{{0, 0}, {1, 1}, {2, 0}}, []int{0, 2}, false}}},
		{"3D polyline from above", ofEntities("0 POLYLINE | 66 1 | 70 8 | 230 -1", "0 VERTEX | 10 1 | 20 0 | 30 5 | 70 32",
			"0 VERTEX | 10 2 | 20 0 | 30 9 | 70 32", "0 SEQEND"), []shape{two(orb.Point{1, 0}, orb.Point{2, 0})}},
		{"seen from behind", ofEntities("0 LWPOLYLINE | 10 1 | 20 2 | 10 3 | 20 4 | 210 0 | 220 0 | 230 -1"),
			[]shape{two(orb.Point{-1, 2}, orb.Point{-3, 4})}},
		{"line with a normal stays", ofEntities("0 LINE | 10 1 | 20 2 | 11 3 | 21 4 | 230 -1"),
			[]shape{two(orb.Point{1, 2}, orb.Point{3, 4})}},
		{"inserted", ofBlocks(corner, "0 INSERT | 2 B | 10 10 | 20 20"),
			[]shape{two(orb.Point{10, 20}, orb.Point{12, 20}), two(orb.Point{10, 20}, orb.Point{10, 21})}},
		{"turned, mirrored, unequal", ofBlocks(corner, "0 INSERT | 2 b | 10 10 | 20 20 | 41 2 | 42 -3 | 50 90"),
			[]shape{two(orb.Point{10, 20}, orb.Point{10, 24}), two(orb.Point{10, 20}, orb.Point{13, 20})}},
		{"behind", ofBlocks(corner, "0 INSERT | 2 b | 10 10 | 20 20 | 230 -1"),
			[]shape{two(orb.Point{-10, 20}, orb.Point{-12, 20}), two(orb.Point{-10, 20}, orb.Point{-10, 21})}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if diff := cmp.Diff(c.want, shapesOf(readAsDXF(t, c.text))); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// Rows and columns are turned with the insertion, and are not scaled with it.
func TestReadDXFRowsAndColumns(t *testing.T) {
	d := readAsDXF(t, ofBlocks([]string{"0 BLOCK | 2 b | 10 0 | 20 0", "0 LINE | 10 0 | 20 0 | 11 1 | 21 0", "0 ENDBLK"},
		"0 INSERT | 2 b | 10 5 | 20 5 | 41 2 | 42 2 | 50 90 | 70 2 | 71 2 | 44 10 | 45 100"))
	var from []orb.Point
	var groups []string
	for _, l := range d.Lines {
		from, groups = append(from, l.Points[0]), append(groups, l.Group)
		if l.Points[1] != (orb.Point{l.Points[0][0], l.Points[0][1] + 2}) {
			t.Errorf("%v", l.Points)
		}
	}
	if want := []orb.Point{{5, 5}, {5, 15}, {-95, 5}, {-95, 15}}; !slices.Equal(from, want) {
		t.Errorf("%v, want %v", from, want)
	}
	if want := []string{"b", "b 2", "b 3", "b 4"}; !slices.Equal(groups, want) {
		t.Errorf("groups %q", groups)
	}
}

// Blocks in blocks: the map, the block that draws, the group; layer 0 and BYBLOCK come from
// outside.
func TestReadDXFNestedBlocks(t *testing.T) {
	text := inMM + dxfSection("TABLES", "0 TABLE | 2 LAYER", "0 LAYER | 2 cloth | 70 0 | 62 3 | 6 DASHED",
		"0 LAYER | 2 red | 70 0 | 62 1 | 6 CONTINUOUS", "0 ENDTAB", "0 TABLE | 2 LTYPE",
		"0 LTYPE | 2 Dashed | 73 2", "0 ENDTAB") +
		dxfSection("BLOCKS", "0 BLOCK | 2 piece", "0 LINE | 5 A1 | 8 0 | 10 0 | 20 0 | 11 1 | 21 0",
			"0 LINE | 8 0 | 62 0 | 6 BYBLOCK | 10 0 | 20 0 | 11 0 | 21 1",
			"0 LINE | 8 red | 10 0 | 20 0 | 11 1 | 21 1", "0 ENDBLK",
			"0 BLOCK | 2 marker", "0 INSERT | 8 0 | 62 5 | 6 CONTINUOUS | 2 piece | 10 10 | 20 0", "0 ENDBLK") +
		dxfSection("ENTITIES", "0 INSERT | 8 Cloth | 2 MARKER | 10 0 | 20 100 | 50 180") + groups("0 EOF")
	d := readAsDXF(t, text)
	var got []Marks
	for _, l := range d.Lines {
		got = append(got, l.Marks)
		if l.Points[0] != (orb.Point{-10, 100}) {
			t.Errorf("at %v", l.Points[0])
		}
	}
	want := []Marks{{ID: "A1", Group: "marker/piece", Block: "piece", Layer: "cloth", Colour: "#00ff00", Dashed: true},
		{Group: "marker/piece", Block: "piece", Layer: "cloth", Colour: "#0000ff"},
		{Group: "marker/piece", Block: "piece", Layer: "red", Colour: "#ff0000"}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// A block that is turned and then stretched is sheared. By hand: (1, 2) is scaled by 1.5 and
// -0.5 to (1.5, -1), turned by 90 degrees to (1, 1.5), moved to (51, 61.5), scaled by -2 and 1
// to (-102, 61.5); (10, 2) comes to (-102, 75) likewise. Turned by 45 degrees it is
// (1.5 + 1, 1.5 - 1) / sqrt(2) before it is moved.
func TestReadDXFShearedInsertion(t *testing.T) {
	for turn, want := range map[string]orb.Point{"90": {-102, 61.5},
		"45": {-2 * (50 + 2.5/math.Sqrt2), 60 + 0.5/math.Sqrt2}} {
		d := readAsDXF(t, ofBlocks([]string{"0 BLOCK | 2 a", "0 LINE | 10 1 | 20 2 | 11 10 | 21 2", "0 ENDBLK",
			"0 BLOCK | 2 b", "0 INSERT | 2 a | 10 50 | 20 60 | 41 1.5 | 42 -0.5 | 50 " + turn, "0 ENDBLK"},
			"0 INSERT | 2 b | 10 0 | 20 0 | 41 -2 | 42 1"))
		if got := d.Lines[0].Points[0]; apart(got, want) > 1e-9 {
			t.Errorf("turned by %s: %v, want %v", turn, got, want)
		}
	}
}

// Known areas: a bulge of 1 is half a circle; that of a quarter is tan(22.5 degrees).
func TestReadDXFAreas(t *testing.T) {
	quarter := fmt.Sprint(math.Tan(math.Pi / 8))
	for name, c := range map[string]struct {
		entity string
		area   float64
	}{
		"circle":     {"0 CIRCLE | 10 5 | 20 5 | 40 100", math.Pi * 1e4},
		"two halves": {"0 LWPOLYLINE | 70 1 | 10 0 | 20 0 | 42 1 | 10 200 | 20 0 | 42 1", math.Pi * 1e4},
		"the other way": {"0 LWPOLYLINE | 70 1 | 10 0 | 20 0 | 42 -1 | 10 200 | 20 0 | 42 -1",
			-math.Pi * 1e4},
		"quarter and its corner": {"0 LWPOLYLINE | 70 1 | 10 100 | 20 0 | 42 " + quarter +
			" | 10 0 | 20 100 | 42 0 | 10 0 | 20 0",
			math.Pi * 1e4 / 4},
		"R12": {"0 POLYLINE | 70 1 | 66 1 | 0 VERTEX | 10 100 | 20 0 | 42 " + quarter +
			" | 0 VERTEX | 10 0 | 20 100 | 0 VERTEX | 10 0 | 20 0 | 0 SEQEND", math.Pi * 1e4 / 4},
		"ellipse": {"0 ELLIPSE | 10 0 | 20 0 | 11 0 | 21 200 | 40 0.5 | 41 0 | 42 6.283185307179586",
			math.Pi * 2e4},
		"ellipse from behind": {"0 ELLIPSE | 10 0 | 20 0 | 11 0 | 21 200 | 40 0.5 | 230 -1", -math.Pi * 2e4},
	} {
		d := readAsDXF(t, ofEntities(c.entity))
		if !d.Lines[0].Closed {
			t.Errorf("%s is open", name)
			continue
		}
		// what an inscribed line of chords lacks: two thirds of the sagitta all along
		got, length := plane.Area(orb.Ring(d.Lines[0].Points)), plane.Length(d.Lines[0].Points)
		if off := math.Abs(got - c.area); off > length*ChordError {
			t.Errorf("%s covers %.1f, not %.1f", name, got, c.area)
		}
	}
}

// An arc runs counter-clockwise from one angle to the other, seen from behind clockwise.
func TestReadDXFArcs(t *testing.T) {
	ends := func(entity string) (from, to orb.Point) {
		l := readAsDXF(t, ofEntities(entity)).Lines[0]
		return l.Points[0], l.Points[len(l.Points)-1]
	}
	for entity, want := range map[string][2]orb.Point{
		"0 ARC | 10 0 | 20 0 | 40 10 | 50 270 | 51 90":                                           {{0, -10}, {0, 10}},
		"0 ARC | 10 5 | 20 0 | 40 10 | 50 0 | 51 90 | 230 -1":                                    {{-15, 0}, {-5, 10}},
		"0 ELLIPSE | 10 0 | 20 0 | 11 20 | 21 0 | 40 0.5 | 41 0 | 42 1.5707963267948966":         {{20, 0}, {0, 10}},
		"0 ELLIPSE | 10 1 | 20 0 | 11 20 | 21 0 | 40 0.5 | 41 0 | 42 1.570796326795|230 -1":      {{21, 0}, {1, -10}},
		"0 ELLIPSE | 10 0 | 20 0 | 11 20 | 21 0 | 40 0.5 | 41 -1.5707963267948966 | 42 0":        {{0, -10}, {20, 0}},
		"0 LWPOLYLINE | 10 0 | 20 0 | 42 0.5 | 10 100 | 20 0":                                    {{0, 0}, {100, 0}},
		"0 SPLINE|71 1|40 0|40 0|40 1|40 1|10 3|20 4|10 5|20 6":                                  {{3, 4}, {5, 6}},
		"0 SPLINE | 71 3 | 70 8 | 11 3 | 21 4 | 11 5 | 21 6 | 11 9 | 21 6 | 12 0|22 1|13 0|23 1": {{3, 4}, {9, 6}},
	} {
		from, to := ends(entity)
		if apart(from, want[0]) > 1e-9 || apart(to, want[1]) > 1e-9 {
			t.Errorf("%s: from %v to %v, want %v", entity, from, to, want)
		}
	}
}
