package shapes

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// halfOf is a panel on the fold, above it or, turned end for end, below it, with a notch on
// each cut edge and a line inside.
func halfOf(t *rapid.T) Piece {
	p := panelOf(t, "front", true)
	if rapid.Bool().Draw(t, "below") {
		edges := cloneEdges(p.Edges)
		for _, e := range edges {
			for i, v := range e.Line {
				e.Line[i] = orb.Point{-v[0], -v[1]}
			}
		}
		var err error
		if p, err = NewPiece("front", edges); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range cutEdges {
		e, _ := p.Edge(name)
		share := rapid.SampledFrom([]float64{0, 0.25, 0.5, 0.8, 1}).Draw(t, "notch")
		if err := p.AddNotch(name, share*e.Length()); err != nil {
			t.Fatal(err)
		}
	}
	at, out := p.Edges[2].At(p.Edges[2].Length() / 2)
	p.Inside = append(p.Inside, orb.LineString{at, {at[0] - 20*out[0], at[1] - 20*out[1]}})
	p.Names = append(p.Names, LineName{0, "tuck"})
	return p
}

// mirror is the mirror image of a point about the middle of the whole.
func mirror(whole Piece, p orb.Point) orb.Point {
	b := plane.Bounds(whole.Cut)
	return orb.Point{p[0], b.Min[1] + b.Max[1] - p[1]}
}

// near reports the least distance of a point from some others.
func nearest(p orb.Point, others []orb.Point) float64 {
	least := math.Inf(1)
	for _, q := range others {
		least = math.Min(least, planar.Distance(p, q))
	}
	return least
}

// The whole is the half and its mirror image: twice the area, the fold gone from its lines,
// and every point, notch and marked line of it stands on both sides.
func TestAWholeIsItsOwnMirrorImage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		half := halfOf(t)
		whole := half.Unfold()
		near(t, "area", whole.Area(), 2*half.Area(), 1e-6*half.Area())
		fold := half.Edges[slices.IndexFunc(half.Edges, func(e Edge) bool { return e.Kind == Fold })].Length()
		near(t, "seam line", plane.Length(whole.Seam), 2*(plane.Length(half.Seam)-fold), 0.002)
		for _, ring := range []orb.Ring{whole.Cut, whole.Seam} {
			for _, v := range ring {
				if d := planar.DistanceFrom(orb.LineString(ring), mirror(whole, v)); d > 0.003 {
					t.Fatalf("%v has no mirror image, %g off", v, d)
				}
			}
		}
		var at []orb.Point
		for _, n := range whole.Notches {
			at = append(at, n.At)
		}
		for _, n := range whole.Notches {
			if d := nearest(mirror(whole, n.At), at); d > 0.003 {
				t.Fatalf("notch at %v has no mirror image, %g off", n.At, d)
			}
			e, ok := whole.Edge(n.Edge)
			if _, on := e.Along(n.At); !ok || !on {
				t.Fatalf("notch at %v is not on edge %q", n.At, n.Edge)
			}
			point := orb.Point{n.At[0] - 0.2*n.Outward[0], n.At[1] - 0.2*n.Outward[1]}
			if planar.RingContains(whole.Seam, orb.Point{2*n.At[0] - point[0], 2*n.At[1] - point[1]}) &&
				!planar.RingContains(whole.Seam, point) {
				t.Fatalf("notch at %v points inwards", n.At)
			}
		}
		if len(whole.Inside) != 2 || len(whole.Names) != 1 || whole.OnFold || whole.Darts != nil {
			t.Fatalf("%d lines, %d names", len(whole.Inside), len(whole.Names))
		}
		for i, v := range whole.Inside[1] {
			if back := mirror(whole, whole.Inside[0][1-i]); planar.Distance(v, back) > 0.003 {
				t.Fatalf("%v is not the mirror image of %v", whole.Inside[1], whole.Inside[0])
			}
		}
	})
}

// No notch is marked twice at one place: one that stands on the fold is its own mirror image.
func TestNoNotchTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := halfOf(t).Unfold()
		for i, n := range whole.Notches {
			for _, m := range whole.Notches[:i] {
				if n.Edge == m.Edge && planar.Distance(n.At, m.At) < 0.001 {
					t.Fatalf("two notches at %v of %s", n.At, n.Edge)
				}
			}
		}
	})
}

// The edges of a whole follow each other round it, each of its own name; those that run
// across the fold are twice as long, and the others stand twice.
func TestEdgesOfAWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		half := halfOf(t)
		whole := half.Unfold()
		names := map[string]bool{}
		for i, e := range whole.Edges {
			if names[e.Name] || e.Kind == Fold {
				t.Fatalf("edge %s, a %v", e.Name, e.Kind)
			}
			names[e.Name] = true
			next := whole.Edges[(i+1)%len(whole.Edges)].Line[0]
			if planar.Distance(e.Line[len(e.Line)-1], next) > 1e-9 {
				t.Fatalf("%s ends at %v, the next begins at %v", e.Name, e.Line[len(e.Line)-1], next)
			}
			of, ok := half.Edge(strings.TrimSuffix(e.Name, mirrored))
			times := map[bool]float64{true: 1, false: 2}[of.Name == "upper"]
			if !ok || e.Allowance != of.Allowance || math.Abs(e.Length()-times*of.Length()) > 0.002 {
				t.Fatalf("%s is %g long, of the half %g", e.Name, e.Length(), of.Length())
			}
		}
		if len(names) != 4 {
			t.Fatalf("edges %v", names)
		}
	})
}

// A piece opened out is the piece drawn whole at once: both sides of it from the same lines.
func TestUnfoldedIsDrawnWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		half := halfOf(t)
		if hem, _ := half.Edge("hem"); len(hem.Line) == 2 {
			return // of the whole it would be taken for a curve of two chords
		}
		unfolded := half.Unfold()
		drawn, err := NewPiece("front", unfolded.Edges)
		if err != nil {
			t.Skip(err) // mitres of the whole may differ on the fold
		}
		if d := math.Abs(drawn.Area() - unfolded.Area()); d > 0.003*plane.Length(drawn.Cut)+400 {
			t.Fatalf("drawn whole it has %g mm2, opened out %g", drawn.Area(), unfolded.Area())
		}
		for _, v := range unfolded.Cut {
			level := (plane.Bounds(unfolded.Cut).Min[1] + plane.Bounds(unfolded.Cut).Max[1]) / 2
			if math.Abs(v[1]-level) < 80 {
				continue // at the fold the half ends square
			}
			by := orb.Point{drawn.Edges[1].Line[1][0] - unfolded.Edges[1].Line[1][0],
				drawn.Edges[1].Line[1][1] - unfolded.Edges[1].Line[1][1]}
			if d := planar.DistanceFrom(orb.LineString(drawn.Cut), orb.Point{v[0] + by[0], v[1] + by[1]}); d > 0.005 {
				t.Fatalf("%v is %g off the cut line drawn whole", v, d)
			}
		}
	})
}
