package shapes

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"
)

// dartOn marks a dart on an edge of a panel, its apex above the middle of the mouth's chord, so
// that its legs are equal; ok is false where the mouth would not fit.
func dartOn(t *rapid.T, p *Piece, edge string, from, width, depth float64) (apex orb.Point, err error) {
	e, _ := p.Edge(edge)
	a, _ := e.At(from)
	b, _ := e.At(from + width)
	dx, dy := b[0]-a[0], b[1]-a[1]
	length := math.Hypot(dx, dy)
	apex = orb.Point{(a[0]+b[0])/2 - depth*dy/length, (a[1]+b[1])/2 + depth*dx/length}
	return apex, p.AddDart(edge, Mouth{from, width}, apex)
}

// A dart has two legs as long as each other from its edge to its apex, a notch at the foot of
// each, and takes its mouth from the finished edge.
func TestDartsTakeUpTheirMouth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := panelOf(t, "front", false)
		edge := rapid.SampledFrom(cutEdges).Draw(t, "edge")
		e, _ := p.Edge(edge)
		width := rapid.Float64Range(0.05, 0.2).Draw(t, "width") * e.Length()
		from := rapid.Float64Range(0.05, 0.7).Draw(t, "from") * e.Length()
		apex, err := dartOn(t, &p, edge, from, width, rapid.Float64Range(20, 100).Draw(t, "depth"))
		if err != nil {
			t.Fatal(err)
		}
		legs := p.Inside[0]
		near(t, "legs differ by", planar.Distance(legs[0], apex)-planar.Distance(apex, legs[2]), 0, 1e-6)
		for i, foot := range []orb.Point{legs[0], legs[2]} {
			at, ok := e.Along(foot)
			if !ok || planar.Distance(p.Notches[i].At, foot) > 1e-9 || math.Abs(at-from-float64(i)*width) > 0.001 {
				t.Fatalf("foot %d at %g of %s, notch %v", i, at, edge, p.Notches[i])
			}
		}
		s := JoinSide{Edges: []SewnEdge{{Piece: "front", Edge: edge, Reversed: rapid.Bool().Draw(t, "reversed")}}}
		if err := s.FoldDarts([]Piece{p}); err != nil {
			t.Fatal(err)
		}
		cut, finished, err := s.Measure([]Piece{p})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "taken up", cut-finished, width, 1e-6)
	})
}

// Legs that differ by more than can be eased are refused, and nothing is marked.
func TestUnevenDartsLeaveNoMark(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, err := NewPiece("front", box(300, 200, 10, 10, 10))
		if err != nil {
			t.Fatal(err)
		}
		off := rapid.Float64Range(-20, 20).Draw(t, "off")
		upper, _ := p.Edge("upper")
		foot, out := upper.At(150)
		apex := orb.Point{foot[0] + off*out[1], foot[1] - 80*out[1]}
		a, _ := upper.At(135)
		b, _ := upper.At(165)
		uneven := math.Abs(planar.Distance(a, apex)-planar.Distance(b, apex)) > legSlack
		err = p.AddDart("upper", Mouth{135, 30}, apex)
		if (err != nil) != uneven || uneven && len(p.Inside)+len(p.Notches)+len(p.Darts) > 0 {
			t.Fatalf("apex %g off: %v, %d marks", off, err, len(p.Inside)+len(p.Notches)+len(p.Darts))
		}
	})
}

// A dart that runs off its edge, or is on none, leaves no mark either.
func TestDartsOffTheirEdge(t *testing.T) {
	for _, c := range []struct {
		edge string
		m    Mouth
	}{{"upper", Mouth{290, 30}}, {"upper", Mouth{-10, 30}}, {"neck", Mouth{10, 30}}} {
		p, err := NewPiece("front", box(300, 200, 10, 10, 10))
		if err != nil {
			t.Fatal(err)
		}
		upper, _ := p.Edge("upper")
		a, _ := upper.At(c.m.From)
		b, _ := upper.At(c.m.From + c.m.Width)
		apex := orb.Point{(a[0] + b[0]) / 2, a[1] - 80}
		if err := p.AddDart(c.edge, c.m, apex); err == nil {
			t.Errorf("%s %+v was taken", c.edge, c.m)
		}
		if n := len(p.Inside) + len(p.Notches) + len(p.Darts); n > 0 {
			t.Errorf("%s %+v: %d marks", c.edge, c.m, n)
		}
	}
}

// Pleats laid one after the other as a hand lays them, each outer line brought to the next:
// what is left between them is even, half as much before the first and behind the last, and
// makes up the finished edge.
func TestPleatsAreEven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Float64Range(200, 2000).Draw(t, "width")
		p, err := NewPiece("skirt", box(w, 200, 10, 10, 10))
		if err != nil {
			t.Fatal(err)
		}
		tr := Treatment{Pleats: rapid.IntRange(1, 12).Draw(t, "pleats")}
		tr.PleatDepth = rapid.Float64Range(0.05, 0.4).Draw(t, "depth") * w / float64(tr.Pleats)
		if err := p.AddPleats("upper", tr, 60); err != nil {
			t.Fatal(err)
		}
		upper, _ := p.Edge("upper")
		finished, err := tr.Finished(w)
		if err != nil {
			t.Fatal(err)
		}
		if len(p.Inside) != 3*tr.Pleats {
			t.Fatalf("%d lines of %d pleats", len(p.Inside), tr.Pleats)
		}
		last, left := 0.0, finished/float64(tr.Pleats)
		for i := 0; i < len(p.Inside); i += 3 {
			var at [3]float64
			for k := range at {
				line := p.Inside[i+k]
				var ok bool
				if at[k], ok = upper.Along(line[0]); !ok || planar.Distance(line[0], line[1]) < 59.9 {
					t.Fatalf("line %v of pleat %d", line, i/3)
				}
			}
			want := map[bool]float64{true: left / 2, false: left}[i == 0]
			near(t, "left before the pleat", at[0]-last, want, 1e-6)
			near(t, "first half of the pleat", at[1]-at[0], tr.PleatDepth, 1e-6)
			near(t, "second half of the pleat", at[2]-at[1], tr.PleatDepth, 1e-6)
			last = at[2]
		}
		near(t, "left behind the last", w-last, left/2, 1e-6)
	})
}

// Measures that are none are refused by name and number.
func TestMeasuresAreRefused(t *testing.T) {
	nan := math.NaN()
	for _, v := range []float64{0, -1, nan, math.Inf(1), MaxExtent + 1} {
		if Positive("length", v) == nil {
			t.Errorf("%g was taken for a length", v)
		}
	}
	for _, v := range []float64{-1, nan, math.Inf(1)} {
		if NotNegative("ease", v) == nil {
			t.Errorf("%g was taken for an ease", v)
		}
	}
	for _, f := range []float64{0, 0.99, 101, nan} {
		if CheckFullness(f) == nil {
			t.Errorf("a fullness of %g was taken", f)
		}
	}
	if Positive("length", MaxExtent) != nil || NotNegative("ease", 0) != nil || CheckFullness(1) != nil {
		t.Error("a good measure was refused")
	}
}
