package outline

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// A shape that is laid on a fold at a side has its longest straight edge there on it; its outline is
// as it was, and notches and darts stay at their places. The shape that was handed over is as it was.
func TestFoldedAtKeepsWhatIsMarked(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		// The left side is straight from low to high, and aside of that for the rest.
		low := float64(rapid.IntRange(0, 6).Draw(rt, "low") * 10)
		high := float64(200 - rapid.IntRange(0, 6).Draw(rt, "high")*10)
		outline := fmt.Sprintf("cut:0,%g ", low)
		if low > 0 {
			outline += "9,0 "
		}
		outline += "300,0 300,200 "
		if high < 200 {
			outline += "9,200 "
		}
		outline += fmt.Sprintf("0,%g z", high)
		lines := []string{outline}
		for range rapid.IntRange(0, 4).Draw(rt, "notches") {
			x := rapid.IntRange(20, 280).Draw(rt, "x")
			lines = append(lines, fmt.Sprintf("notch:%d,196 %d,200", x, x))
		}
		at := float64(rapid.IntRange(70, 130).Draw(rt, "on the fold"))
		lines = append(lines, fmt.Sprintf("notch:0,%g 5,%g", at, at))
		if rapid.Bool().Draw(rt, "dart") {
			lines = append(lines, "dart:100,0 120,80 140,0")
		}
		d := drawn(t, lines...)
		side := "left"
		mirrored := rapid.Bool().Draw(rt, "mirrored")
		for i := range d.Lines {
			if mirrored {
				side = "right"
				for k, p := range d.Lines[i].Points {
					d.Lines[i].Points[k] = orb.Point{-p[0], p[1]}
				}
			}
		}
		s := assemble(t, Options{}, d).Shapes[0]
		before := fmt.Sprintf("%+v", s)
		f, err := s.FoldedAt(side)
		if err != nil {
			rt.Fatalf("%q: %v", lines, err)
		}
		if fmt.Sprintf("%+v", s) != before {
			rt.Fatalf("the shape was %s, is %+v", before, s)
		}
		if f.Fold < 0 || f.Edges[f.Fold].Name != "fold" ||
			math.Abs(plane.Length(f.Edges[f.Fold].Line)-(high-low)) > .01 {
			rt.Fatalf("%q: on the fold lies %d of %+v", lines, f.Fold, f.Edges)
		}
		if r, was := f.Ring(), s.Ring(); math.Abs(plane.Area(r)-plane.Area(was)) > 1e-6 ||
			plane.CheckSimple(plane.Tidy(r)) != nil {
			rt.Fatalf("the outline was %v, is %v", was, r)
		}
		if len(f.Notches) != len(s.Notches) || len(f.Darts) != len(s.Darts) {
			rt.Fatalf("%d notches of %d", len(f.Notches), len(s.Notches))
		}
		for i := range s.Notches {
			if p, q := pointAt(s.Edges, s.Notches[i]), pointAt(f.Edges, f.Notches[i]); planar.Distance(p, q) > .01 {
				rt.Fatalf("%q: a notch was at %v, is at %v", lines, p, q)
			}
		}
		for i, dart := range s.Darts {
			now := f.Darts[i]
			for _, foot := range [2][2]float64{{dart.From, now.From}, {dart.To, now.To}} {
				p, q := pointAt(s.Edges, NotchAt{dart.Edge, foot[0]}), pointAt(f.Edges, NotchAt{now.Edge, foot[1]})
				if planar.Distance(p, q) > .01 || now.Apex != dart.Apex {
					rt.Fatalf("%q: a foot of the dart was at %v, is at %v", lines, p, q)
				}
			}
		}
		names := map[string]bool{}
		for _, e := range f.Edges {
			if names[e.Name] {
				rt.Fatalf("two edges %q", e.Name)
			}
			names[e.Name] = true
		}
		if f = f.Unfolded(); f.Fold >= 0 {
			rt.Fatal("unfolded, it lies on a fold")
		}
	})
}

// Only what is straight along a side, and by a quarter of it at the least, can lie on a fold there.
func TestFoldedAtRefuses(t *testing.T) {
	for _, c := range []struct{ line, side, want string }{
		{"0,0 300,0 300,200 0,200 z", "top", "edge 3"},
		{"0,0 300,0 300,200 0,200 z", "bottom", "edge 1"},
		{"0,0 300,0 300,200 0,200 z", "right", "edge 2"},
		{"0,0 300,0 300,200 20,200 z", "left", ""},
		{"0,75 9,0 300,0 300,200 9,200 0,126 z", "left", "edge"},
		{"0,75 9,0 300,0 300,200 9,200 0,124 z", "left", ""},
		{"0,0 300,0 300,200 150,230 0,200 z", "top", ""},
		{"0,0.4 300,0 300,200 0,200 z", "bottom", "edge 1"}, // by less than a fold may lie off
		{"0,0.7 300,0 300,200 0,200 z", "bottom", ""},
	} {
		s := assemble(t, Options{}, drawn(t, c.line)).Shapes[0]
		f, err := s.FoldedAt(c.side)
		switch {
		case c.want == "" && (err == nil || !strings.Contains(err.Error(), "no straight edge along its "+c.side)):
			t.Errorf("%s, %s: %v", c.line, c.side, err)
		case c.want == "" && cmp.Diff(s, f) != "":
			t.Errorf("%s, %s: what is refused changed", c.line, c.side)
		case c.want != "" && (err != nil || f.Fold < 0):
			t.Errorf("%s, %s: %v", c.line, c.side, err)
		}
	}
}

// What may be a line of fold besides: inside a piece that lies on one already it is marked, along that
// edge it is the same; a dashed line that lies along nothing is a line inside.
func TestSeveralLinesOfFold(t *testing.T) {
	const half = "cut:0,0 300,0 300,200 0,200"
	for name, c := range map[string]struct {
		lines []string
		want  string
	}{
		"closed along it":           {[]string{half, "fold:0,-9 0,209"}, ", fold fold"},
		"and drawn again along it":  {[]string{half, "fold:0,-9 0,209", "fold:0,20 0,180"}, ", fold fold"},
		"and one inside":            {[]string{half, "fold:0,-9 0,209", "fold:150,0 150,200"}, ", 1 inside, fold fold"},
		"a dashed one inside":       {[]string{sheet, "~:150,20 150,180"}, ", 1 inside"},
		"a dashed one, bent":        {[]string{sheet, "~:0,20 30,100 0,180"}, ", 1 inside"},
		"one that ends on the edge": {[]string{sheet, "fold:0,20 0,180", "fold:300,20 300,180"}, ", 1 inside, fold fold"},
	} {
		got := seen(assemble(t, Options{}, drawn(t, c.lines...)))
		if want := "outline 1 60000 cut, 4 edges" + c.want; got[0] != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
}
