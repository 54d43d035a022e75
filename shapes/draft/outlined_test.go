package draft

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/outline"
	"yardlay/shapes/plane"
)

func readOutlines(t *testing.T, text string) []outline.Shape {
	t.Helper()
	d, err := outline.Read("drawn.geojson", strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return assembled(t, d, outline.Options{})
}

func assembled(t interface {
	Helper()
	Fatal(...any)
}, d outline.Drawing, o outline.Options) []outline.Shape {
	t.Helper()
	a, err := outline.Assemble(d, o)
	if err != nil {
		t.Fatal(err)
	}
	return a.Shapes
}

// seamAll is the same allowance at every edge, of outlines that are sewn.
func seamAll(list []outline.Shape, mm float64) Outline {
	for i := range list {
		list[i].Outline = outline.SeamLine
	}
	return Outline{Shapes: list, Allowance: shapes.Allowance{Seam: mm}}
}

const drawnYoke = `{"type":"Feature","properties":{"name":"yoke"},"geometry":{"type":"Polygon",
	"coordinates":[[[100,20],[300,20],[300,120],[200,60],[100,120],[100,20]]]}}`

func TestOutlineIsTheCutLine(t *testing.T) {
	p := draftOne(t, Outline{Shapes: readOutlines(t, drawnYoke), Count: 2, Pair: true})
	want := orb.Ring{{0, 0}, {200, 0}, {200, 100}, {100, 40}, {0, 100}, {0, 0}}
	if d := cmp.Diff(want, p.Cut); d != "" {
		t.Errorf("cut line (-drawn, moved to the corner; +got):\n%s", d)
	}
	if p.Name != "yoke" || p.Count != 2 || !p.Pair {
		t.Errorf("got %q, %d copies, pair %v", p.Name, p.Count, p.Pair)
	}
	if d := cmp.Diff([]string{"left", "right"}, p.Labels); d != "" {
		t.Errorf("labels (-want +got):\n%s", d)
	}
}

func TestOutlineTellsSeveralPairsApart(t *testing.T) {
	p := draftOne(t, Outline{Shapes: readOutlines(t, drawnYoke), Count: 4, Pair: true})
	if d := cmp.Diff([]string{"left 1 of 2", "right 1 of 2", "left 2 of 2", "right 2 of 2"}, p.Labels); d != "" {
		t.Errorf("labels (-want +got):\n%s", d)
	}
}

func TestOutlineTakesAnAllowance(t *testing.T) {
	square := `{"type":"Polygon","coordinates":[[[0,0],[100,0],[100,50],[0,50]]]}`
	p := draftOne(t, seamAll(readOutlines(t, square), 10))
	if along, across := p.CutSize(); along != 120 || across != 70 {
		t.Errorf("100 x 50 with 10 all round is cut %g x %g", along, across)
	}
	if p.Name != "outline 1" || p.Count != 1 {
		t.Errorf("got %q, %d copies", p.Name, p.Count)
	}
}

func TestOutlineRefuses(t *testing.T) {
	yoke := readOutlines(t, drawnYoke)
	refuses(t, []refusal{
		{"none", Outline{}, "no outline"},
		{"negative allowance", Outline{Shapes: yoke, Allowance: shapes.Allowance{Seam: -3}}, "allowance is -3 mm"},
		{"odd pair", Outline{Shapes: yoke, Count: 3, Pair: true}, "count is 3"},
		{"negative count", Outline{Shapes: yoke, Count: -1}, "count is -1"},
		{"no name", Outline{Shapes: []outline.Shape{{Edges: yoke[0].Edges}}}, "outline 1 has no name"},
	})
}

// A drawn star, without allowance, is cut exactly as drawn: same area, moved.
func TestOutlineKeepsAnyStar(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 30).Draw(t, "corners")
		turn := rapid.Float64Range(0, 6.3).Draw(t, "turn")
		ring := make(orb.Ring, 0, n+1)
		even := rapid.Bool().Draw(t, "regular")
		for i := range n {
			a, r := turn+2*math.Pi*float64(i)/float64(n), 700.0
			if !even {
				r = rapid.Float64Range(50, 900).Draw(t, "radius")
			}
			ring = append(ring, plane.SnapPoint(orb.Point{r * math.Cos(a), r * math.Sin(a)}))
		}
		ring = append(ring, ring[0])
		pieces, err := piecesOf(Outline{Shapes: assembled(t, drawingOf(ring), outline.Options{})})
		if err != nil {
			t.Fatal(err)
		}
		if got, want := pieces[0].Area(), plane.Area(ring); got != want {
			t.Errorf("drawn %.6f mm2, cut %.6f mm2", want, got)
		}
	})
}

// drawingOf is a drawing of one closed line.
func drawingOf(ring orb.Ring) outline.Drawing {
	return outline.Drawing{Unit: outline.Unit{Millimetres: 1},
		Lines: []outline.Line{{Points: orb.LineString(ring), Closed: true,
			Corners: []int{0, len(ring) - 1}, Place: "line 1"}}}
}

// upright is half of a piece drawn with the grain upright: its fold at the left, a dart at the
// top, a notch at the right; with a seam line 15 mm within the cut line if both are drawn.
func upright(both bool) outline.Drawing {
	line := func(layer string, closed bool, points ...orb.Point) outline.Line {
		l := outline.Line{Points: points, Closed: closed, Marks: outline.Marks{Layer: layer}, Place: layer}
		for i := range points {
			l.Corners = append(l.Corners, i)
		}
		return l
	}
	d := outline.Drawing{Unit: outline.Unit{Millimetres: 1}}
	sewn := "cut"
	if both {
		sewn = "seam"
		d.Lines = append(d.Lines, line("cut", false, orb.Point{0, -15}, orb.Point{215, -15}, orb.Point{215, 415},
			orb.Point{0, 415}))
	}
	d.Lines = append(d.Lines,
		line(sewn, false, orb.Point{0, 0}, orb.Point{200, 0}, orb.Point{200, 400}, orb.Point{0, 400}),
		line("fold", false, orb.Point{0, -15}, orb.Point{0, 415}),
		line("grain", false, orb.Point{50, 100}, orb.Point{50, 300}),
		line("notch", false, orb.Point{200, 120}, orb.Point{205, 120}),
		line("dart", false, orb.Point{90, 400}, orb.Point{100, 300}, orb.Point{110, 400}))
	return d
}

// A piece drawn upright lies along its grain, on its fold, with all that is marked on it.
func TestOutlineLiesAlongItsGrain(t *testing.T) {
	for _, both := range []bool{false, true} {
		p := draftOne(t, Outline{Shapes: assembled(t, upright(both), outline.Options{}),
			Allowance: shapes.Allowance{Seam: 10}})
		cutAlong, cutAcross, allowance := 400., 200., 0.
		if both {
			cutAlong, cutAcross, allowance = 430, 215, 15
		}
		along, across := p.CutSize()
		finished, wide := p.Finished()
		if along != cutAlong || across != cutAcross || finished != 400 || wide != 200 || !p.OnFold {
			t.Errorf("both %v: cut %g x %g, finished %g x %g, on fold %v", both, along, across, finished, wide, p.OnFold)
		}
		if len(p.Darts) != 1 || math.Abs(p.Darts[0].Mouth.Width-20) > .001 || len(p.Notches) != 3 {
			t.Errorf("both %v: %d darts, %d notches", both, len(p.Darts), len(p.Notches))
		}
		for _, e := range p.Edges {
			want := allowance
			if e.Kind == shapes.Fold {
				want = 0
			}
			if e.Allowance != want {
				t.Errorf("both %v: edge %s allows %g, want %g", both, e.Name, e.Allowance, want)
			}
		}
		if whole := p.Unfold(); plane.Area(whole.Cut) != 2*cutAlong*cutAcross {
			t.Errorf("both %v: opened out it covers %g", both, plane.Area(whole.Cut))
		}
	}
}

// A fold that is not along the grain is refused.
func TestOutlineRefusesAFoldOffTheGrain(t *testing.T) {
	across := 0.
	_, err := Outline{Shapes: assembled(t, upright(false), outline.Options{}), Grain: &across}.Draft()
	if err == nil || !strings.Contains(err.Error(), "its fold lies 90.0 degrees off the grain") {
		t.Error(err)
	}
}
