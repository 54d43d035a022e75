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

	_ "yardlay/benchmarks/often"
	"yardlay/shapes/plane"
)

// drawn is a drawing in mm of lines like "cut: 0,0 300,0 300,200 0,200 z". What is before the
// colon is the layer; after a / it is the id, after a # the colour, and ~ makes it dashed.
func drawn(t testing.TB, lines ...string) Drawing {
	t.Helper()
	d := Drawing{Unit: Unit{Millimetres: 1}}
	for i, text := range lines {
		marks, path, ok := strings.Cut(text, ":")
		if !ok {
			marks, path = "", text
		}
		l := Line{Place: fmt.Sprintf("line %d", i+1)}
		l.Dashed = strings.Contains(marks, "~")
		marks = strings.ReplaceAll(marks, "~", "")
		if before, colour, ok := strings.Cut(marks, "#"); ok {
			marks, l.Colour = before, "#"+colour
		}
		l.Layer, l.ID, _ = strings.Cut(marks, "/")
		for _, word := range strings.Fields(path) {
			if word == "z" {
				l.Points, l.Closed = append(l.Points, l.Points[0]), true
				continue
			}
			var p orb.Point
			if _, err := fmt.Sscanf(word, "%g,%g", &p[0], &p[1]); err != nil {
				t.Fatal(err)
			}
			l.Points = append(l.Points, p)
		}
		for k := range l.Points {
			l.Corners = append(l.Corners, k)
		}
		d.Lines = append(d.Lines, l)
	}
	return d
}

func assemble(t testing.TB, o Options, d Drawing) Assembly {
	t.Helper()
	a, err := Assemble(d, o)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// seen is what an assembly comes to, in words: shapes, then faults.
func seen(a Assembly) (words []string) {
	for _, s := range a.Shapes {
		w := fmt.Sprintf("%s %.0f %v, %d edges", s.Name, plane.Area(s.Ring()), s.Outline, len(s.Edges))
		for _, extra := range []struct {
			what string
			n    int
		}{{"cut line", min(len(s.Cut), 1)}, {"grain", len(s.Grain) / 2}, {"notch", len(s.Notches)}, {"dart", len(s.Darts)},
			{"inside", len(s.Inside)}, {"hole", s.Holes}} {
			if extra.n > 0 {
				w += fmt.Sprintf(", %d %s", extra.n, extra.what)
			}
		}
		if s.Fold >= 0 {
			w += ", fold " + s.Edges[s.Fold].Name
		}
		words = append(words, w)
	}
	for _, f := range a.Faults {
		words = append(words, fmt.Sprintf("%v at %.6g,%.6g (%s)", f.Kind, f.At[0], f.At[1], f.Place))
	}
	return words
}

const sheet = "0,0 300,0 300,200 0,200 z"

func TestDrawings(t *testing.T) {
	for name, c := range map[string]struct {
		lines []string
		o     Options
		want  []string
	}{
		"a closed line": {lines: []string{sheet}, want: []string{"outline 1 60000 cut, 4 edges"}},
		"lines whose ends meet": {lines: []string{"0,0 300,0", "300,200 300,0", "300,200 0,200 0,0"},
			want: []string{"outline 1 60000 cut, 4 edges"}},
		"ends apart": {lines: []string{"0,0 300,0", "300.3,0 300,200", "300,200 0,200 0,0"},
			want: []string{"outline 1 60000 cut, 4 edges", "joined at 300.3,0 (line 1 and line 2)"}},
		"ends too far apart": {lines: []string{"0,0 300,0", "303,0 300,200", "300,200 0,200 0,0"},
			want: []string{"open at 300,0 (line 1)"}},
		"ends far apart, asked for": {lines: []string{"0,0 300,0", "303,0 300,200", "300,200 0,200 0,0"},
			o: Options{Tolerance: 4}, want: []string{"outline 1 60000 cut, 4 edges", "joined at 303,0 (line 1 and line 2)"}},
		"hem on a layer of its own": {lines: []string{"a:300,0 300,200 0,200 0,0", "b/hem:0,0 300,0"},
			want: []string{"outline 1 60000 cut, 4 edges"}},
		"drawn twice": {lines: []string{sheet, "300,200 300,0 0,0 0,200 z", "300,200 300,0 0,0 0,200 z"},
			want: []string{"outline 1 60000 cut, 4 edges", "twice at 300,200 (line 2)", "twice at 300,200 (line 3)"}},
		"a dot": {lines: []string{sheet, "50,50 50.01,50"},
			want: []string{"outline 1 60000 cut, 4 edges", "hair at 50,50 (line 2)"}},
		"a spike": {lines: []string{"0,0 300,0 300,100 340,100 300,100.01 300,200 0,200 z"},
			want: []string{"outline 1 60000 cut, 4 edges", "hair at 340,100 (line 1)"}},
		"a bow tie": {lines: []string{"0,0 300,200 300,0 0,250 z"},
			want: []string{"crossing at 166.667,111.111 (line 1)"}},
		"a cut-out": {lines: []string{sheet, "50,50 100,50 100,100 50,100 z"},
			want: []string{"outline 1 60000 cut, 4 edges, 1 inside, 1 hole", "cut-out at 50,50 (line 2)"}},
		"a hole to drill": {lines: []string{sheet, "50,50 55,50 55,55 50,55 z"},
			want: []string{"outline 1 60000 cut, 4 edges, 1 inside"}},
		"a seam line within": {lines: []string{sheet, "15,15 285,15 285,185 15,185 z"},
			want: []string{"outline 1 45900 seam, 4 edges, 1 cut line"}},
		"a seam line by name": {lines: []string{"Stitching:15,15 285,15 285,185 15,185 z", "Cutting lines:" + sheet},
			want: []string{"outline 1 45900 seam, 4 edges, 1 cut line"}},
		"a seam line on the cut line": {lines: []string{"cut:" + sheet, "seam:" + sheet},
			want: []string{"outline 1 60000 cut, 4 edges", "twice at 0,0 (line 2)"}},
		"seam lines alone": {lines: []string{"seam:" + sheet}, want: []string{"outline 1 60000 seam, 4 edges"}},
		"drawn as seam lines": {lines: []string{sheet}, o: Options{Outline: SeamLine},
			want: []string{"outline 1 60000 seam, 4 edges"}},
		"a frame": {lines: []string{"-50,-50 900,-50 900,500 -50,500 z", sheet, "400,0 700,0 700,200 400,200 z"},
			want: []string{"outline 1 60000 cut, 4 edges", "outline 2 60000 cut, 4 edges", "doubtful at -50,-50 (line 1)"}},
		"grain, notches, a line inside": {lines: []string{sheet, "20,100 280,100", "150,-3 150,4",
			"grey:200,150 250,130 240,50"},
			want: []string{"outline 1 60000 cut, 4 edges, 1 grain, 1 notch, 1 inside"}},
		"two lines that may be grain": {lines: []string{sheet, "20,100 280,100", "20,50 280,50"},
			want: []string{"outline 1 60000 cut, 4 edges, 2 inside"}},
		"an arrow among lines": {lines: []string{sheet, "20,100 280,100", "20,50 280,50", "270,105 280,100 270,95"},
			want: []string{"outline 1 60000 cut, 4 edges, 1 grain, 1 inside"}},
		"a dart of one line": {lines: []string{sheet, "100,200 120,100 140,200"},
			want: []string{"outline 1 60000 cut, 4 edges, 1 dart"}},
		"a dart of two legs": {lines: []string{sheet, "100,200 120,100", "120,100 140,200"},
			want: []string{"outline 1 60000 cut, 4 edges, 1 dart"}},
		"an uneven dart is lines": {lines: []string{sheet, "100,200 130,100 140,200"},
			want: []string{"outline 1 60000 cut, 4 edges, 1 inside"}},
		"a fold along an edge": {lines: []string{sheet, "fold:0,20 0,180"},
			want: []string{"outline 1 60000 cut, 4 edges, fold fold"}},
		"a dashed fold": {lines: []string{sheet, "~:0,0 0,200"},
			want: []string{"outline 1 60000 cut, 4 edges, fold fold"}},
		"closed along a fold": {lines: []string{"cut:0,0 300,0 300,200 0,200", "mirror line:0,-10 0,210"},
			want: []string{"outline 1 60000 cut, 4 edges, fold fold"}},
		"both lines closed along a fold": {lines: []string{"cut:0,-15 315,-15 315,215 0,215", "seam:0,0 300,0 300,200 0,200",
			"mirror:0,-15 0,215"}, want: []string{"outline 1 60000 seam, 4 edges, 1 cut line, fold fold"}},
		"a fold inside": {lines: []string{sheet, "fold:100,0 100,200"},
			want: []string{"outline 1 60000 cut, 4 edges, 1 inside", "doubtful at 100,0 (line 2)"}},
		"a line far away": {lines: []string{sheet, "900,900 1000,1000"},
			want: []string{"outline 1 60000 cut, 4 edges", "stray at 900,900 (line 2)"}},
		"a line across": {lines: []string{"#000000:0,0 300,0", "#000000:300,0 300,200", "#000000:300,200 0,200",
			"#000000:0,200 0,0",
			"#000000:300,0 0,200"}, want: []string{"outline 1 60000 cut, 4 edges, 1 inside", "doubtful at 300,0 (line 5)"}},
		"roles given": {lines: []string{"a#ff0000:" + sheet, "b:20,100 280,100", "c/path7:20,50 280,50"},
			o: Options{Rules: []Rule{{Layer: "A", Colour: "#FF0000", Role: SeamLine}, {Prefix: "path", Role: Grain},
				{Layer: "b", Role: Ignored}}},
			want: []string{"outline 1 60000 seam, 4 edges, 1 grain"}},
		"too small": {lines: []string{"0,0 3,0 3,2 0,2 z"},
			want: []string{"outline 1 6 cut, 4 edges", "unit at 0,0 (line 1)"}},
		"too large": {lines: []string{"0,0 5000,0 5000,200 0,200 z"},
			want: []string{"outline 1 1000000 cut, 4 edges", "unit at 0,0 (line 1)"}},
	} {
		if d := cmp.Diff(c.want, seen(assemble(t, c.o, drawn(t, c.lines...)))); d != "" {
			t.Errorf("%s (-want +got):\n%s", name, d)
		}
	}
}

// Names, copies and materials that texts say.
func TestTextsInShapes(t *testing.T) {
	for _, c := range []struct {
		texts    []string
		name     string
		quantity int
		paired   bool
	}{
		{[]string{"Sleeve", "cut 2"}, "Sleeve", 2, false},
		{[]string{"Cut 1 pair", "cuff"}, "cuff", 2, true},
		{[]string{"yoke\ncut 2 pairs on fold"}, "yoke", 4, true},
		{[]string{"2 x", "Collar"}, "Collar", 2, false},
		{[]string{"Piece name: Back", "Quantity: 1,1"}, "Back", 2, true},
		{[]string{"Name: Back"}, "outline 1", 0, false},
		{[]string{"fold", "12"}, "outline 1", 0, false},
	} {
		d := drawn(t, sheet)
		for i, text := range c.texts {
			d.Texts = append(d.Texts, Text{At: orb.Point{50, 100 - 10*float64(i)}, Text: text})
		}
		s := assemble(t, Options{}, d).Shapes[0]
		if s.Name != c.name || s.Quantity != c.quantity || s.Paired != c.paired {
			t.Errorf("%q: %q, %d, %v", c.texts, s.Name, s.Quantity, s.Paired)
		}
	}
}

// Where notches, darts and folds lie on the edges of a shape.
func TestPlacesOnEdges(t *testing.T) {
	a := assemble(t, Options{}, drawn(t, "cut:-10,-15 310,-15 310,215 -10,215 z", "seam:0,0 300,0 300,200 0,200 z",
		"notch:100,-15 100,-9", "notch:310,50 304,50", "dart:200,200 220,100 240,200", "notch:-10,215 -4,209"))
	s := a.Shapes[0]
	if d := cmp.Diff([]NotchAt{{0, 100}, {1, 50}, {2, 295}}, s.Notches); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([]DartAt{{Edge: 2, From: 60, To: 100, Apex: orb.Point{220, 100}, Place: "line 5"}},
		s.Darts); d != "" {
		t.Error(d)
	}
	for _, r := range a.Roles {
		if r.Shape != 1 || r.Role == Unnamed {
			t.Errorf("%+v", r)
		}
	}
}

// Edges are where lines of other names end and where the outline turns sharply; runs of short
// lines are one.
func TestEdges(t *testing.T) {
	lines := []string{"/hem:0,0 300,0", "/side-seam:300,0 300,200"}
	for i := range 20 { // an arc of many lines
		at := func(k int) string {
			sin, cos := math.Sincos(math.Pi * float64(k) / 20)
			return fmt.Sprintf("%.4f,%.4f", 150+150*cos, 200+60*sin)
		}
		lines = append(lines, fmt.Sprintf("/path%d:%s %s", i, at(i), at(i+1)))
	}
	lines = append(lines, "/path99:0,200 0,0")
	s := assemble(t, Options{}, drawn(t, lines...)).Shapes[0]
	var names []string
	for _, e := range s.Edges {
		names = append(names, fmt.Sprintf("%s %d", e.Name, len(e.Line)))
	}
	// The arc of an ellipse meets the sides smoothly: its tangents there are upright.
	if d := cmp.Diff([]string{"hem 2", "side-seam 2", "edge 3 22"}, names); d != "" {
		t.Error(d)
	}
}

// The order of lines, and which way round they run, changes numbers and nothing else.
func TestAnyOrderIsTheSameShape(t *testing.T) {
	all := []string{"0,0 300,0", "300,0 300,200", "300,200 0,200", "0,200 0,0", "20,100 280,100", "150,-3 150,4",
		"100,200 120,120", "120,120 140,200", "notch:300,50 296,50"}
	rapid.Check(t, func(rt *rapid.T) {
		lines := rapid.Permutation(all).Draw(rt, "order")
		for i, l := range lines {
			if rapid.Bool().Draw(rt, "back") {
				layer, path, ok := strings.Cut(l, ":")
				if !ok {
					layer, path = "", l
				}
				words := strings.Fields(path)
				words[0], words[len(words)-1] = words[len(words)-1], words[0]
				lines[i] = layer + ":" + strings.Join(words, " ")
			}
		}
		got := seen(assemble(t, Options{}, drawn(t, lines...)))
		if d := cmp.Diff([]string{"outline 1 60000 cut, 4 edges, 1 grain, 2 notch, 1 dart"}, got); d != "" {
			rt.Fatalf("%q: %s", lines, d)
		}
	})
}

// Points that are left out, and those of what is left, stay within the distance.
func TestThinnedStaysWithin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		within := rapid.SampledFrom([]float64{.05, 1}).Draw(t, "within")
		line := orb.LineString{{}}
		for range rapid.IntRange(1, 60).Draw(t, "points") {
			last, step := line[len(line)-1], rapid.Float64Range(-2, 2)
			line = append(line, orb.Point{last[0] + step.Draw(t, "x"), last[1] + step.Draw(t, "y")/8})
		}
		got := thinned(line, within)
		if got[0] != line[0] || got[len(got)-1] != line[len(line)-1] {
			t.Fatalf("the ends of %v moved: %v", line, got)
		}
		if d := strays(line, got); d > within+1e-9 {
			t.Fatalf("%v strays %g from %v", line, d, got)
		}
	})
}

// Where a point lies by a ring is what all its edges say.
func TestSidesAsByAllEdges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Float64Range(0, 100)
		var ring orb.Ring
		for range rapid.IntRange(3, 30).Draw(t, "corners") {
			ring = append(ring, orb.Point{c.Draw(t, "x"), c.Draw(t, "y")})
		}
		ring = append(ring, ring[0])
		b := newBands(ring, .125)
		for range 20 {
			p := orb.Point{c.Draw(t, "px"), c.Draw(t, "py")}
			want, near := outside, math.Inf(1)
			for i := 1; i < len(ring); i++ {
				near = min(near, planar.DistanceFromSegment(ring[i-1], ring[i], p))
			}
			if planar.RingContains(ring, p) {
				want = insideRing
			}
			if near <= .125 {
				want = onRing
			}
			if got, _ := b.side(p); got != want {
				t.Fatalf("%v is %v by bands, %v by all edges", p, got, want)
			}
		}
	})
}
