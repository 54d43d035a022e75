package draft

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/outline"
	"yardlay/shapes/plane"
)

// drawnShape is a sheet of 400 by 300 with a dart at its upper edge, a notch at its right, and two lines to mark.
func drawnShape(t *testing.T, apex orb.Point, turn float64) outline.Shape {
	t.Helper()
	line := func(marks outline.Marks, closed bool, points ...orb.Point) outline.Line {
		l := outline.Line{Closed: closed, Marks: marks, Place: "line"}
		for i, p := range points {
			l.Points, l.Corners = append(l.Points, plane.Pose{Turn: turn}.ApplyPoint(p)), append(l.Corners, i)
		}
		return l
	}
	d := outline.Drawing{Unit: outline.Unit{Millimetres: 1}, Lines: []outline.Line{
		line(outline.Marks{Layer: "seam"}, true, orb.Point{0, 0}, orb.Point{400, 0}, orb.Point{400, 300}, orb.Point{0,
			300}, orb.Point{0, 0}),
		line(outline.Marks{Layer: "dart"}, false, orb.Point{180, 300}, apex, orb.Point{220, 300}),
		line(outline.Marks{Layer: "notch"}, false, orb.Point{400, 90}, orb.Point{394, 90}),
		line(outline.Marks{Layer: "a", ID: "roll line x"}, false, orb.Point{50, 50}, orb.Point{80, 60}, orb.Point{120,
			40}),
		line(outline.Marks{Layer: "a", ID: "path9"}, false, orb.Point{250, 50}, orb.Point{280, 60}, orb.Point{320, 40}),
		line(outline.Marks{Layer: "grain"}, false, orb.Point{60, 200}, orb.Point{160, 200}),
	}}
	return assembled(t, d, outline.Options{})[0]
}

// What is drawn on a piece is marked on it, moved with it, by the name that a person gave it; a dart whose legs are
// of one length is one, another is marked by its two legs, with a notch at each foot, and that is said.
func TestWhatIsDrawnIsMarked(t *testing.T) {
	for _, turn := range []float64{0, 90, 180, 30} {
		even, err := Outline{Shapes: []outline.Shape{drawnShape(t, orb.Point{200, 200}, turn)},
			Allowance: shapes.Allowance{Seam: 10}}.Draft()
		if err != nil {
			t.Fatal(err)
		}
		uneven, err := Outline{Shapes: []outline.Shape{drawnShape(t, orb.Point{206, 200}, turn)},
			Allowance: shapes.Allowance{Seam: 10}}.Draft()
		if err != nil {
			t.Fatal(err)
		}
		p, q := even.Pieces[0], uneven.Pieces[0]
		if len(p.Darts) != 1 || len(even.Notes) != 0 || len(q.Darts) != 0 {
			t.Fatalf("turned by %g: %d darts, %v; uneven %d", turn, len(p.Darts), even.Notes, len(q.Darts))
		}
		if want := "outline 1: the legs of a dart differ by 2.3 mm, so it is marked by its " +
			"lines alone."; len(uneven.Notes) != 1 ||
			uneven.Notes[0].String() != want {
			t.Errorf("turned by %g: %v", turn, uneven.Notes)
		}
		var marks []string
		for i, l := range q.Inside {
			named := ""
			for _, n := range q.Names {
				if n.Line == i {
					named = n.Name
				}
			}
			marks = append(marks, fmt.Sprintf("%q %.0f", named, plane.Length(l)))
		}
		legs := math.Hypot(26, 100) + math.Hypot(14, 100)
		bent := math.Hypot(30, 10) + math.Hypot(40, 20)
		want := []string{fmt.Sprintf(`"" %.0f`, legs), fmt.Sprintf(`"roll line x" %.0f`, bent), fmt.Sprintf(`"" %.0f`,
			bent)}
		if d := cmp.Diff(want, marks); d != "" {
			t.Errorf("turned by %g: %s", turn, d)
		}
		if len(q.Notches) != 3 {
			t.Errorf("turned by %g: %d notches", turn, len(q.Notches))
		}
		along, across := q.Finished()
		if math.Abs(along-400) > .01 || math.Abs(across-300) > .01 {
			t.Errorf("turned by %g: %g by %g, and not along its grain", turn, along, across)
		}
	}
}

// Grain that is asked for turns the piece so that it lies along it, whichever way the drawing has it, and no more
// than it has to: what is drawn level or upright stays exactly so.
func TestOutlineLiesAsAsked(t *testing.T) {
	shape := drawnShape(t, orb.Point{200, 200}, 0)
	for grain, want := range map[float64][2]float64{0: {400, 300}, 90: {300, 400}, 180: {400, 300}, -90: {300, 400},
		45: {700 / math.Sqrt2, 700 / math.Sqrt2}, 30: {400*math.Cos(math.Pi/6) + 150, 300*math.Cos(math.Pi/6) + 200}} {
		d, err := Outline{Shapes: []outline.Shape{shape}, Grain: &grain}.Draft()
		if err != nil {
			t.Fatal(err)
		}
		along, across := d.Pieces[0].Finished()
		if math.Abs(along-want[0]) > .01 || math.Abs(across-want[1]) > .01 {
			t.Errorf("grain of %g: %g by %g, want %v", grain, along, across, want)
		}
	}
	for _, c := range []struct {
		line orb.LineString
		want float64
	}{
		{orb.LineString{{0, 0}, {100, .02}}, 0}, {orb.LineString{{100, 0}, {0, -.02}}, 0}, {orb.LineString{{0, 0},
			{.02, 100}}, 90},
		{orb.LineString{{0, 0}, {0, -100}}, 90}, {orb.LineString{{0, 0}, {100, 100}}, 45}, {orb.LineString{{100, 100},
			{0, 0}}, 45},
		{orb.LineString{{0, 0}, {-100, 100}}, -45}, {orb.LineString{{0, 0}, {100, -100}}, -45}, {orb.LineString{{0,
			0}, {-1, 100}}, -89.427},
		{orb.LineString{{0, 0}, {1, -100}}, -89.427}, {orb.LineString{{0, 0}, {-1, -100}}, 89.427},
	} {
		if got := heading(c.line); math.Abs(got-c.want) > 1e-3 {
			t.Errorf("%v heads %g, want %g", c.line, got, c.want)
		}
	}
}

// What becomes of an edge may be said edge by edge; what is cut as it is drawn takes no allowance besides.
func TestEdgesOfOutlinesAsSaid(t *testing.T) {
	say := func(e outline.Edge) (shapes.EdgeKind, float64) {
		if e.Name == "edge 1" {
			return shapes.Hem, 30
		}
		return shapes.Seam, 8
	}
	shape := drawnShape(t, orb.Point{200, 200}, 0)
	for kind, want := range map[outline.Role]string{outline.SeamLine: "hem 30, seam 8, seam 8, seam 8",
		outline.CutLine: "hem 0, seam 0, seam 0, seam 0"} {
		shape.Outline = kind
		d, err := Outline{Shapes: []outline.Shape{shape}, Edge: say}.Draft()
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, e := range d.Pieces[0].Edges {
			got = append(got, fmt.Sprintf("%v %g", e.Kind, e.Allowance))
		}
		if s := strings.Join(got, ", "); s != want {
			t.Errorf("a %v line: %s, want %s", kind, s, want)
		}
	}
}

// How many copies are cut: as asked, else as the drawing says; by pairs as either says, unless all are cut alike.
func TestCopiesOfOutlines(t *testing.T) {
	shape := drawnShape(t, orb.Point{200, 200}, 0)
	for name, c := range map[string]struct {
		o        Outline
		quantity int
		paired   bool
		want     string
	}{
		"nobody says":         {Outline{}, 0, false, "1 []"},
		"the drawing":         {Outline{}, 2, false, "2 []"},
		"the drawing, a pair": {Outline{}, 2, true, "2 pair [left right]"},
		"two pairs":           {Outline{}, 4, true, "4 pair [left 1 of 2 right 1 of 2 left 2 of 2 right 2 of 2]"},
		"all alike":           {Outline{Single: true}, 2, true, "2 []"},
		"a pair is asked for": {Outline{Pair: true}, 2, false, "2 pair [left right]"},
		"more are asked for":  {Outline{Count: 3}, 2, true, "3 []"},
		"a pair of one": {Outline{Pair: true}, 1, false,
			"outline: count is 1, left and right pieces come in even numbers\n  hint: give the count of outline 1"},
		"an odd pair": {Outline{}, 3, true,
			"outline: count is 3, left and right pieces come in even numbers\n  hint: give the count of outline 1"},
		"too many asked for":   {Outline{Count: 1001}, 0, false, "outline: count is 1001, must be from 1 to 1000"},
		"too many drawn":       {Outline{}, 1001, false, "outline 1: count is 1001, must be from 1 to 1000"},
		"as many as there are": {Outline{}, 1000, false, "1000 []"},
	} {
		s := shape
		s.Quantity, s.Paired = c.quantity, c.paired
		c.o.Shapes = []outline.Shape{s}
		d, err := c.o.Draft()
		got := fmt.Sprint(err)
		if err == nil {
			p := d.Pieces[0]
			got = strings.Replace(fmt.Sprintf("%d pair %v", p.Count, p.Labels), "pair ",
				map[bool]string{true: "pair "}[p.Pair], 1)
		}
		if got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}
