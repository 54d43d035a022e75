package chalk

import (
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// texts lists what is written on a drawing, with the items of one role.
func texts(d *sheet.Drawing) (bodies []string) {
	for _, g := range d.Groups {
		for _, it := range g.Items {
			if text, ok := it.(sheet.Text); ok {
				bodies = append(bodies, strings.ReplaceAll(text.Body, noBreak, " "))
			}
		}
	}
	return bodies
}

// A sketch keeps to its paper and says every distance of its table, each once on each axis.
func TestSketchSaysEveryDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tape, ring := tapes(t), outline(t)
		f, err := tape.Figure(Outline{Cut: ring}, table)
		if err != nil {
			t.Fatal(err)
		}
		p := Piece{Number: 1, Name: "piece", Outline: Outline{Cut: ring}, Figures: f}
		d := p.Sketch(tape, "selvedge", 190, 92)
		if d.Width/d.Scale > 190+1e-6 || d.Height/d.Scale > 92+1e-6 {
			t.Errorf("%v by %v mm of paper", d.Width/d.Scale, d.Height/d.Scale)
		}
		if _, err := d.SVG(); err != nil {
			t.Error(err)
		}
		if len(f.Places) > 12 {
			return // figures may lack the room
		}
		said := texts(d)
		for i, place := range f.Places {
			for _, m := range place {
				if !slices.Contains(said, strings.ReplaceAll(tape.Show(m), noBreak, " ")) && d.Width/d.Scale > 60 &&
					d.Height/d.Scale > 60 {
					t.Errorf("point %d: %s is not in the sketch: %q", i+1, tape.Show(m), said)
				}
			}
		}
	})
}

// The corners of a gore's waist that cannot be told apart at the scale of the whole are drawn
// larger in a square of paper, all of them and nothing that lies elsewhere.
func TestDetailOfACrowd(t *testing.T) {
	tape := Tape{measure.Inch}
	ring := orb.Ring{{10, 10}, {1200, 10}, {1200, 300}, {10, 40}, {25, 30}, {25, 20}, {10, 10}}
	p := Piece{Number: 3, Name: "gore", Outline: Outline{Cut: ring}}
	var err error
	if p.Figures, err = tape.Figure(p.Outline, table); err != nil {
		t.Fatal(err)
	}
	var near []int
	for i, place := range p.Figures.Places {
		if tape.point(place)[0] < 100 {
			near = append(near, i)
		}
	}
	const k = 8
	if got := p.crowd(tape, k); !slices.Equal(got, near) || len(near) != 4 {
		t.Fatalf("points %v stand close, want %v", got, near)
	}
	v := p.Detail(tape, k, orb.Point{100, 20})
	if v == nil || v.Window.Max[0]-v.Window.Min[0] != detailSize || v.Drawing.Scale >= k {
		t.Fatalf("detail %+v", v)
	}
	for i, place := range p.Figures.Places {
		at := tape.point(place)
		// as the drawing of the detail has it: its own free edge about the outline
		free, b := detailSize*v.Drawing.Scale, plane.Bounds(ring)
		x := (free + at[0] - b.Min[0] - v.From[0]) / v.Drawing.Scale
		y := (free + b.Max[1] - at[1] - v.From[1]) / v.Drawing.Scale
		in := x > 0 && x < detailSize && y > 0 && y < detailSize
		if in != slices.Contains(near, i) {
			t.Errorf("point %d at %.1f, %.1f of the square", i+1, x, y)
		}
	}
	if p.Detail(tape, 0.5, orb.Point{}) != nil {
		t.Error("a detail of what is plain to see")
	}
}

// A number stands inside its piece, as far from its edge and from a pivot as a slow search finds.
func TestNumbersStandInTheirPieces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := outline(t)
		b := plane.Bounds(ring)
		pivot := b.Center()
		at := roomiest(ring, []orb.Point{pivot})
		room := func(p orb.Point) float64 {
			if !planar.RingContains(ring, p) {
				return 0
			}
			return min(planar.DistanceFrom(orb.LineString(ring), p), planar.Distance(p, pivot))
		}
		best := 0.0
		for i := 1; i < 12; i++ {
			for j := 1; j < 12; j++ {
				best = max(best, room(orb.Point{b.Min[0] + float64(i)/12*(b.Max[0]-b.Min[0]),
					b.Min[1] + float64(j)/12*(b.Max[1]-b.Min[1])}))
			}
		}
		if got := room(at); got < best-1e-9 {
			t.Errorf("at %v there is room for %v, elsewhere for %v", at, got, best)
		}
	})
}

// The overview numbers every piece, names the edge and shows flaws no farther than the marker.
func TestOverview(t *testing.T) {
	l := sample(t)
	l.Flaws = []orb.Ring{{{300, 600}, {5000, 600}, {5000, 650}, {300, 650}, {300, 600}}}
	d := l.Overview(Tape{measure.Inch}, 190, 130)
	if d.Width/d.Scale > 190+1e-6 || d.Height/d.Scale > 130+1e-6 {
		t.Errorf("%v by %v mm of paper", d.Width/d.Scale, d.Height/d.Scale)
	}
	said := texts(d)
	for _, want := range []string{"1", "2", "P of 1", "cut end", "fold: across is measured from here",
		"last line at 20"} {
		if !slices.Contains(said, want) {
			t.Errorf("%q is not in %q", want, said)
		}
	}
	flaws := 0
	for _, g := range d.Groups {
		for _, it := range g.Items {
			if s, ok := it.(sheet.Shape); ok && s.Role == sheet.RoleFlaw {
				flaws++
				if b := plane.Bounds(s.Ring); b.Max[0] > d.Width {
					t.Errorf("a flaw reaches to %v of %v", b.Max[0], d.Width)
				}
			}
		}
	}
	if flaws != 1 {
		t.Errorf("%d flaws", flaws)
	}
}

// Pieces are numbered along the cloth, those at one place from the edge on.
func TestPiecesAreNumberedAlongTheCloth(t *testing.T) {
	l := Marker{Cloth: table, Edge: "selvedge",
		Pieces: []Piece{rectangle("c", 300, 0, 50, 50), rectangle("b", 0, 100, 50, 50),
			rectangle("a", 0, 0, 50, 50)}}
	if err := l.Figure(Tape{measure.Millimetre}); err != nil {
		t.Fatal(err)
	}
	var got []string
	for i, p := range l.Pieces {
		got = append(got, p.Name)
		if p.Number != i+1 {
			t.Errorf("%s has number %d", p.Name, p.Number)
		}
	}
	if !slices.Equal(got, []string{"a", "b", "c"}) {
		t.Errorf("in the order %v", got)
	}
}

// The side is said once for distances that follow each other on it.
func TestOffWords(t *testing.T) {
	tape := Tape{measure.Inch}
	for want, off := range map[string][]Marks{
		"out 1/4, 5/16, 0, in 1/8, 1/16, out 1": {4, 5, 0, -2, -1, 16},
		"0, 0":                                  {0, 0},
		"in 1 1/16":                             {-17},
	} {
		if got := strings.ReplaceAll(tape.offWords(off, [2]string{"in", "out"}), noBreak, " "); got != want {
			t.Errorf("%v: %q, want %q", off, got, want)
		}
	}
}
