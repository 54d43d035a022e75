package shapes

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// convexEdges are the edges of a convex polygon without sharp corners, with one allowance for
// all of them, or of one like a rectangle, with an allowance of its own for each.
func convexEdges(t *rapid.T, kinds ...EdgeKind) []Edge {
	n := rapid.IntRange(4, 9).Draw(t, "corners")
	rx := rapid.Float64Range(150, 600).Draw(t, "rx")
	ry := rx * rapid.Float64Range(0.7, 1.4).Draw(t, "ry")
	var corners []orb.Point
	for i := range n {
		turn := float64(i) + 0.5 + rapid.Float64Range(-0.1, 0.1).Draw(t, "off")
		sin, cos := math.Sincos(2 * math.Pi * turn / float64(n))
		corners = append(corners, orb.Point{rx * cos, ry * sin})
	}
	var edges []Edge
	allowance := rapid.Float64Range(5, 20) // none so narrow that a wider one ends square
	all := allowance.Draw(t, "all")
	for i, a := range corners {
		e := Edge{Name: string(rune('a' + i)), Kind: rapid.SampledFrom(kinds).Draw(t, "kind"),
			Line: orb.LineString{a, corners[(i+1)%n]}, Allowance: all}
		if n == 4 {
			e.Allowance = allowance.Draw(t, "allowance")
		}
		edges = append(edges, e)
	}
	return edges
}

// clipped cuts off what lies to the right of the line through a and b: the slow twin of an
// offset, one half plane at a time.
func clipped(ring []orb.Point, a, b orb.Point) []orb.Point {
	side := func(p orb.Point) float64 { return (b[0]-a[0])*(p[1]-a[1]) - (b[1]-a[1])*(p[0]-a[0]) }
	var out []orb.Point
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		sp, sq := side(p), side(q)
		if sp >= 0 {
			out = append(out, p)
		}
		if sp > 0 && sq < 0 || sp < 0 && sq > 0 {
			s := sp / (sp - sq)
			out = append(out, orb.Point{p[0] + s*(q[0]-p[0]), p[1] + s*(q[1]-p[1])})
		}
	}
	return out
}

// The cut line of a convex piece whose edges are sewn is what is left of the plane when
// each edge, moved out by its allowance, cuts off its side.
func TestCutLineIsWhatTheEdgesLeave(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		edges := convexEdges(t, Waist, Top)
		p, err := NewPiece("panel", edges)
		if err != nil {
			t.Fatal(err)
		}
		const far = 5000.0
		want := []orb.Point{{-far, -far}, {far, -far}, {far, far}, {-far, far}}
		for _, e := range edges {
			a, b := e.Line[0], e.Line[1]
			length := planar.Distance(a, b)
			ox, oy := (b[1]-a[1])/length*e.Allowance, -(b[0]-a[0])/length*e.Allowance
			want = clipped(want, orb.Point{a[0] + ox, a[1] + oy}, orb.Point{b[0] + ox, b[1] + oy})
		}
		ring := append(orb.Ring(want), want[0])
		by := p.Shift(edges)
		plane.MoveLine(orb.LineString(ring), by)
		slack := 2 * plane.Length(ring) * plane.Lattice // each corner is on the lattice
		if got := plane.Area(p.Cut); math.Abs(got-plane.Area(ring)) > slack {
			t.Fatalf("the cut line holds %.2f mm2, the half planes leave %.2f", got, plane.Area(ring))
		}
		for _, v := range p.Cut {
			if d := planar.DistanceFrom(orb.LineString(ring), v); d > 2*plane.Lattice {
				t.Fatalf("%v of the cut line is %g off", v, d)
			}
		}
	})
}

// However it is bent, a cut line keeps to its allowances: it lies nowhere nearer to an edge
// than the least allowance, nor farther from the seam line than the corners of a
// mitre squared off at its limit, an allowance to each side; and the piece begins at 0, 0 on
// the lattice.
func TestCutLineKeepsItsDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := panelOf(t, "panel", rapid.Bool().Draw(t, "fold"))
		least, most := math.Inf(1), 0.0
		for _, e := range p.Edges {
			least, most = math.Min(least, e.Allowance), math.Max(most, e.Allowance)
		}
		for i, v := range p.Cut {
			if v != plane.SnapPoint(v) {
				t.Fatalf("%v is off the lattice", v)
			}
			d := planar.DistanceFrom(orb.LineString(p.Seam), v)
			if d < least-0.002 || d > math.Hypot(plane.MitreLimit, 1)*most+0.01 {
				t.Fatalf("%v of the cut line is %g off the seam line, allowances %g to %g", v, d, least, most)
			}
			if i > 0 {
				middle := orb.Point{(v[0] + p.Cut[i-1][0]) / 2, (v[1] + p.Cut[i-1][1]) / 2}
				if d := planar.DistanceFrom(orb.LineString(p.Seam), middle); d < least-0.002 {
					t.Fatalf("%v of the cut line is %g off the seam line, allowances from %g", middle, d, least)
				}
			}
		}
		if b := plane.Bounds(p.Cut); b.Min != (orb.Point{}) {
			t.Fatalf("the piece begins at %v", b.Min)
		}
		if err := plane.CheckSimple(p.Cut); err != nil {
			t.Fatal(err)
		}
	})
}

// In the middle of a straight stretch of an edge the cut line lies its own allowance away.
func TestEachEdgeHasItsOwnAllowance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := panelOf(t, "panel", rapid.Bool().Draw(t, "fold"))
		for _, e := range p.Edges {
			var middle, length float64
			gone := 0.0
			for i := 1; i < len(e.Line); i++ {
				step := planar.Distance(e.Line[i-1], e.Line[i])
				if step > length {
					middle, length = gone+step/2, step
				}
				gone += step
			}
			at, out := e.At(middle)
			if math.Min(planar.Distance(at, e.Line[0]), planar.Distance(at, e.Line[len(e.Line)-1])) < 3*e.Allowance {
				continue // a mitre, or the end of an edge without allowance, may reach there
			}
			on := orb.Point{at[0] + e.Allowance*out[0], at[1] + e.Allowance*out[1]}
			if d := planar.DistanceFrom(orb.LineString(p.Cut), on); d > 0.002 {
				t.Fatalf("%s: %g off the cut line, %g out", e.Name, d, e.Allowance)
			}
		}
	})
}

// Where a piece is drawn makes no difference to it.
func TestPiecesAreTheSameWhereverDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		edges := convexEdges(t, Seam, Waist, Hem, Top, Opening)
		moved := cloneEdges(edges)
		by := orb.Point{float64(rapid.IntRange(-1e6, 1e6).Draw(t, "x")) * plane.Lattice,
			float64(rapid.IntRange(-1e6, 1e6).Draw(t, "y")) * plane.Lattice}
		for _, e := range moved {
			plane.MoveLine(e.Line, by)
		}
		a, errA := NewPiece("panel", edges)
		b, errB := NewPiece("panel", moved)
		if (errA == nil) != (errB == nil) {
			t.Fatalf("%v, moved %v", errA, errB)
		}
		if errA != nil {
			return
		}
		for i, v := range a.Cut {
			if len(a.Cut) != len(b.Cut) || planar.Distance(v, b.Cut[i]) > 3*plane.Lattice {
				t.Fatalf("%v, moved %v", a.Cut, b.Cut)
			}
		}
		if shift := b.Shift(moved); planar.Distance(shift, orb.Point{a.Shift(edges)[0] - by[0],
			a.Shift(edges)[1] - by[1]}) > 2*plane.Lattice {
			t.Fatalf("shifted by %v, moved by %v", a.Shift(edges), shift)
		}
	})
}

// Lines marked where the edges were given lie on the piece as they lay on the edges.
func TestMarkedLinesMoveWithThePiece(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		edges := convexEdges(t, Seam, Hem)
		p, err := NewPiece("panel", edges)
		if err != nil {
			t.Skip(err)
		}
		line := edges[0].Line.Clone()
		p.Mark(edges, line)
		for i, v := range p.Inside[0] {
			if planar.Distance(v, p.Edges[0].Line[i]) > 1e-9 {
				t.Fatalf("%v, the edge is at %v", p.Inside[0], p.Edges[0].Line)
			}
		}
		if line[0] != edges[0].Line[0] {
			t.Fatal("the caller's line has moved")
		}
	})
}
