package shapes

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// A hem is turned up by its allowance and raw without one; nothing else is hemmed.
func TestEdgesKnowTheirFinish(t *testing.T) {
	for _, c := range []struct {
		edge Edge
		want Finish
	}{
		{Edge{Kind: Hem, Allowance: 30}, Turned}, {Edge{Kind: Hem}, Raw}, {Edge{Kind: Fold}, Whole},
		{Edge{Kind: Seam}, Joined}, {Edge{Kind: Top, Allowance: 10}, Joined}, {Edge{Kind: Opening}, Joined},
	} {
		if got := c.edge.Finish(); got != c.want {
			t.Errorf("%v edge with %g mm is %v, want %v", c.edge.Kind, c.edge.Allowance, got, c.want)
		}
	}
}

// Kinds and finishes that are none say their number, the others a word of their own.
func TestKindsAndFinishesHaveWords(t *testing.T) {
	seen := map[string]bool{}
	for k := Seam; k <= Top; k++ {
		seen[k.String()] = true
	}
	for f := Joined; f <= Whole; f++ {
		seen[f.String()] = true
	}
	if len(seen) != 10 || EdgeKind(9).String() != "EdgeKind(9)" || Finish(-1).String() != "Finish(-1)" {
		t.Errorf("%v, %v, %v", seen, EdgeKind(9), Finish(-1))
	}
}

// walk goes along a line in small steps: the slow twin of At.
func walk(line orb.LineString, distance float64) orb.Point {
	const step = 0.01
	at, next := line[0], 1
	for gone := 0.0; gone < distance && next < len(line); {
		left := planar.Distance(at, line[next])
		if left <= step {
			at, next, gone = line[next], next+1, gone+left
			continue
		}
		s := min(step, distance-gone)
		at = orb.Point{at[0] + (line[next][0]-at[0])*s/left, at[1] + (line[next][1]-at[1])*s/left}
		gone += s
	}
	return at
}

// A point at a distance along an edge is where walking comes to, and is found back at
// that distance; from it outward one leaves the piece, and inward one is in it.
func TestPointsAlongAnEdge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := panelOf(t, "panel", false)
		e := p.Edges[rapid.IntRange(0, 3).Draw(t, "edge")]
		distance := rapid.Float64Range(0, 1).Draw(t, "share") * e.Length()
		at, out := e.At(distance)
		if off := planar.Distance(at, walk(e.Line, distance)); off > 0.02 {
			t.Fatalf("%g along %s it is %g from where walking comes to", distance, e.Name, off)
		}
		if back, ok := e.Along(at); !ok || math.Abs(back-distance) > 1e-3 {
			t.Fatalf("%g along %s is found at %g, %v", distance, e.Name, back, ok)
		}
		if math.Abs(math.Hypot(out[0], out[1])-1) > 1e-12 {
			t.Fatalf("outward %v is no unit vector", out)
		}
		if distance < 1 || distance > e.Length()-1 {
			return // at a corner both ways may leave
		}
		inside := func(far float64) bool {
			return planar.RingContains(p.Seam, orb.Point{at[0] + far*out[0], at[1] + far*out[1]})
		}
		if inside(0.05) || !inside(-0.05) {
			t.Fatalf("%v does not point out of the piece at %v", out, at)
		}
	})
}

// What is not on the edge is at no distance along it.
func TestPointsOffAnEdge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := panelOf(t, "panel", false)
		e := p.Edges[rapid.IntRange(0, 3).Draw(t, "edge")]
		at, out := e.At(rapid.Float64Range(0, 1).Draw(t, "share") * e.Length())
		far := rapid.Float64Range(0.5, 20).Draw(t, "far")
		off := orb.Point{at[0] + far*out[0], at[1] + far*out[1]}
		_, on := e.Along(off)
		if near := planar.DistanceFrom(e.Line, off); on != (near < 1e-3) && (near > 0.1 || near < 1e-9) {
			t.Fatalf("%g off the edge, found on it: %v", near, on)
		}
	})
}

// The curvature of a sampled circle is that of the circle, whichever way it bends, and a
// hem on it is too tight from the allowance on of which 2 h/(r - h), inward 2 h/(r + h), is
// MostHemEase: the girths of the circles that its raw edge has and comes to lie on.
func TestTightHemsOnCircles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.Float64Range(60, 3000).Draw(t, "radius")
		inward := rapid.Bool().Draw(t, "inward")
		const half = 0.3 // rad
		line := orb.LineString{}
		n := rapid.IntRange(6, 60).Draw(t, "samples")
		for i := range n + 1 {
			sin, cos := math.Sincos(-half + 2*half*float64(i)/float64(n))
			line = append(line, orb.Point{r * cos, r * sin})
		}
		if inward { // seen from the other side
			line.Reverse()
			for i := range line {
				line[i][0] = 2*r - line[i][0]
			}
			line.Reverse()
		}
		e := Edge{Name: "hem", Kind: Hem, Line: line}
		bend := e.tightest()
		if want := map[bool]float64{false: 1 / r, true: -1 / r}[inward]; math.Abs(bend-want) > 0.01/r {
			t.Fatalf("curvature %g, want %g", bend, want)
		}
		widest := MostHemEase * r / (2 + MostHemEase)
		if inward {
			widest = MostHemEase * r / (2 - MostHemEase)
		}
		for _, share := range []float64{0.97, 1.03} {
			e.Allowance = share * widest
			tight := Piece{Edges: []Edge{e, {Name: "side", Kind: Seam, Line: line, Allowance: 100}}}.TightHems()
			if len(tight) != map[bool]int{true: 1}[share > 1] {
				t.Fatalf("at %g of the widest: %+v", share, tight)
			}
			for _, h := range tight {
				if math.Abs(h.Radius/r-1) > 0.01 || math.Abs(h.Widest/widest-1) > 0.01 ||
					math.Signbit(h.Excess) != inward {
					t.Fatalf("%+v on a radius of %g, inward %v", h, r, inward)
				}
			}
		}
	})
}

// Corners of a hem are mitred and make it no tighter; a raw hem is never tight.
func TestCornersMakeNoHemTight(t *testing.T) {
	line := orb.LineString{{0, 0}, {100, 0}, {100, 80}, {300, 80}}
	p := Piece{Edges: []Edge{{Name: "hem", Kind: Hem, Line: line, Allowance: 60}}}
	if tight := p.TightHems(); tight != nil {
		t.Errorf("%+v", tight)
	}
}

// Each kind has the allowance of its seams, waist or hem; a fold none.
func TestAllowancesByKind(t *testing.T) {
	a := Allowance{Seam: 1, Waist: 2, Hem: 3}
	for kind, want := range map[EdgeKind]float64{Seam: 1, Opening: 1, Waist: 2, Top: 2, Hem: 3, Fold: 0} {
		if got := a.For(kind); got != want {
			t.Errorf("%v: %g, want %g", kind, got, want)
		}
	}
	for _, bad := range []Allowance{{Seam: -1}, {Waist: math.NaN()}, {Hem: math.Inf(1)}} {
		if bad.Check() == nil {
			t.Errorf("%+v was taken", bad)
		}
	}
	if err := a.Check(); err != nil {
		t.Error(err)
	}
}

// The lengths of the edges make up the seam line.
func TestEdgesMakeUpTheSeamLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := panelOf(t, "panel", rapid.Bool().Draw(t, "fold"))
		sum := 0.0
		for i, e := range p.Edges {
			sum += e.Length()
			next := p.Edges[(i+1)%len(p.Edges)].Line[0]
			if e.Line[len(e.Line)-1] != next {
				t.Fatalf("%s ends at %v, the next begins at %v", e.Name, e.Line[len(e.Line)-1], next)
			}
		}
		near(t, "seam line", sum, plane.Length(p.Seam), 1e-6)
		if plane.Area(p.Seam) <= 0 || plane.Area(p.Cut) < plane.Area(p.Seam)-1 {
			t.Fatalf("seam line holds %g, cut line %g", plane.Area(p.Seam), plane.Area(p.Cut))
		}
	})
}
