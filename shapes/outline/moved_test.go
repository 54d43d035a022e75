package outline

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// fullDrawing has a line of each kind: a front with its cut and seam line, grain with a head, notches, a dart, a
// fold, a hole, a line inside, points and texts, and a second piece beside it made of four lines.
func fullDrawing(t testing.TB) Drawing {
	d := drawn(t, "cut:0,0 300,0 300,420 180,400 0,380 z", "seam:15,0 285,0 285,400 180,385 15,365 z",
		"100,60 100,330", "95,70 100,60 105,70", "290,200 302,200", "fold:15,0 285,0", "dart:150,380 165,290 181,384",
		"60,100 64,100 64,104 60,104 z", "mark:200,100 240,130 220,60",
		"400,0 600,0", "600,0 600,150", "600,150 400,190", "400,190 400,0", "~:430,30 570,30", "498,-4 498,4",
		"600,90 590,90")
	d.Points = []Point{{At: orb.Point{250, 250}, Marks: Marks{Layer: "drill"}, Place: "p1"},
		{At: orb.Point{400, 100}, Marks: Marks{Layer: "notch"}, Place: "p2"}}
	d.Texts = []Text{{At: orb.Point{60, 200}, Text: "front\ncut 2"}, {At: orb.Point{500, 100},
		Text: "Piece Name: band\nQuantity: 1"}}
	return d
}

// places are what an assembly found, by where it lies: in the coordinates before a motion.
func places(a Assembly, back affine) (all []string) {
	at := func(p orb.Point) string {
		p = back.apply(p)
		return fmt.Sprintf("%.2f,%.2f", p[0]+0, p[1]+0)
	}
	both := func(l orb.LineString) string { // a line either way round
		p, q := at(l[0]), at(l[len(l)-1])
		return min(p, q) + " to " + max(p, q)
	}
	for _, s := range a.Shapes {
		add := func(format string, args ...any) { all = append(all, s.Name+": "+fmt.Sprintf(format, args...)) }
		add("%.1f in %d edges, %v, %d times, paired %v, %d holes", plane.Area(s.Ring()), len(s.Edges),
			s.Outline, s.Quantity,
			s.Paired, s.Holes)
		if s.Cut != nil {
			add("cut %.1f", plane.Area(s.Cut))
		}
		if s.Grain != nil {
			add("grain %s", both(s.Grain))
		}
		if s.Fold >= 0 {
			add("fold %s", both(s.Edges[s.Fold].Line))
		}
		for _, e := range s.Edges {
			add("edge %s", both(e.Line))
		}
		for _, n := range s.Notches {
			add("notch %s", at(pointAt(s.Edges, n)))
		}
		for _, d := range s.Darts {
			add("dart %s, uneven %.2f, %s", at(d.Apex), d.Uneven,
				both(orb.LineString{pointAt(s.Edges, NotchAt{d.Edge, d.From}), pointAt(s.Edges, NotchAt{d.Edge,
					d.To})}))
		}
		for _, in := range s.Inside {
			add("inside %s, %.2f long", both(in.Line), plane.Length(in.Line))
		}
	}
	for i, r := range a.Roles {
		all = append(all, fmt.Sprintf("line %d is %v of shape %d", i+1, r.Role, r.Shape))
	}
	for _, f := range a.Faults {
		all = append(all, fmt.Sprintf("%v at %s", f.Kind, f.Place))
	}
	slices.Sort(all)
	return all
}

// A drawing that is moved, turned by a quarter, mirrored, or whose lines run the other way, holds the same shapes
// with the same marks at the same places.
func TestMovedDrawingsHoldTheSame(t *testing.T) {
	want := places(assemble(t, Options{}, fullDrawing(t)), identity)
	for _, must := range []string{"front: cut 119400.0", "front: grain 100.00,330.00 to 100.00,60.00",
		"front: notch 285.00,200.00",
		"front: fold 15.00,0.00 to 285.00,0.00",
		"front: dart 165.00,290.00, uneven 3.84, 149.84,381.34 to 180.84,385.12",
		"front: 103087.5 in 4 edges, seam, 2 times, paired false, 0 holes",
		"front: inside 247.00,250.00 to 253.00,250.00, 6.00 long",
		"band: notch 400.00,100.00", "band: 34000.0 in 4 edges, cut, 1 times, paired false, 0 holes",
		"line 9 is inside of shape 1",
		"line 4 is grain of shape 1", "line 7 is dart of shape 1", "line 14 is inside of shape 2"} {
		if !slices.Contains(want, must) {
			t.Errorf("missing: %s", must)
		}
	}
	rapid.Check(t, func(rt *rapid.T) {
		shift := rapid.IntRange(-5000, 5000)
		m := translation(float64(shift.Draw(rt, "x")), float64(shift.Draw(rt, "y"))).
			times(quarters(90 * float64(rapid.IntRange(0, 3).Draw(rt, "quarters")))).
			times(scaling(rapid.SampledFrom([]float64{1, -1}).Draw(rt, "mirrored"), 1))
		d := fullDrawing(t)
		for i := range d.Lines {
			l := &d.Lines[i]
			for k := range l.Points {
				l.Points[k] = m.apply(l.Points[k])
			}
			if rapid.Bool().Draw(rt, "back") {
				l.Points.Reverse()
			}
		}
		for i := range d.Points {
			d.Points[i].At = m.apply(d.Points[i].At)
		}
		for i := range d.Texts {
			d.Texts[i].At = m.apply(d.Texts[i].At)
		}
		det := m.a*m.d - m.b*m.c
		back := affine{m.d / det, -m.b / det, -m.c / det, m.a / det, 0, 0}
		o := back.apply(orb.Point{m.e, m.f})
		back.e, back.f = -o[0], -o[1]
		got := places(assemble(t, Options{}, d), back)
		if !slices.Equal(got, want) {
			for _, w := range want {
				if !slices.Contains(got, w) {
					rt.Errorf("missing: %s", w)
				}
			}
			for _, g := range got {
				if !slices.Contains(want, g) {
					rt.Errorf("instead: %s", g)
				}
			}
			rt.FailNow()
		}
	})
}

// agree says whether two ways to measure do.
func agree(a, b float64) bool { return math.Abs(a-b) < 1e-9 }

// The border of a shape: the place nearest to a point, and the first one on a way, as by every edge in turn.
func TestBordersByEveryEdge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		coordinate := rapid.IntRange(-40, 40)
		point := func(name string) orb.Point {
			return orb.Point{float64(coordinate.Draw(t, name+"x")), float64(coordinate.Draw(t, name+"y"))}
		}
		var edges []Edge
		last := point("start")
		for range rapid.IntRange(1, 3).Draw(t, "edges") {
			line := orb.LineString{last}
			for range rapid.IntRange(1, 4).Draw(t, "points") {
				last = point("p")
				if last != line[len(line)-1] {
					line = append(line, last)
				}
			}
			if len(line) > 1 {
				edges = append(edges, Edge{Line: line})
			}
		}
		if len(edges) == 0 {
			return
		}
		b := newBorder(edges)
		p, q := point("from"), point("to")
		at, far := b.nearest(p)
		if on := pointAt(edges, at); !agree(math.Hypot(on[0]-p[0], on[1]-p[1]), far) {
			t.Fatalf("%v is not %g from %v", on, far, p)
		}
		first, met := math.Inf(1), false
		for _, e := range edges {
			for i := 1; i < len(e.Line); i++ {
				if d := planar.DistanceFromSegment(e.Line[i-1], e.Line[i], p); d < far-1e-9 {
					t.Fatalf("%g from %v, but %g", far, p, d)
				}
				if s, ok := meeting(p, q, e.Line[i-1], e.Line[i]); ok {
					first, met = min(first, s), true
				}
			}
		}
		on, ok := b.crossedBy(p, q)
		if ok != met {
			t.Fatalf("crossed %v on the way from %v to %v of %v", ok, p, q, edges)
		}
		if want := between(p, q, first); ok {
			if got := pointAt(edges, on); cmp.Compare(math.Hypot(got[0]-want[0], got[1]-want[1]), 1e-9) > 0 {
				t.Fatalf("crossed at %v, not %v", got, want)
			}
		}
	})
}

// meeting solves p + s (q-p) = a + u (b-a) by Cramer's rule.
func meeting(p, q, a, b orb.Point) (s float64, ok bool) {
	ux, uy, vx, vy := q[0]-p[0], q[1]-p[1], a[0]-b[0], a[1]-b[1]
	det := ux*vy - uy*vx
	if det == 0 {
		return 0, false
	}
	wx, wy := a[0]-p[0], a[1]-p[1]
	s, u := (wx*vy-wy*vx)/det, (ux*wy-uy*wx)/det
	return s, s >= 0 && s <= 1 && u >= 0 && u <= 1
}
