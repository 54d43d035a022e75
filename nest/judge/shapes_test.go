package judge

import (
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/peterstace/simplefeatures/geom"

	"yardlay/shapes/plane"
)

// Polygons on a coarse grid, so that shared vertices, vertices on edges and
// shared edges come up all the time.

// gridHull returns a convex polygon with vertices on a grid of n by n.
func gridHull(r *rand.Rand, n int) orb.Ring {
	for {
		points := make([]orb.Point, 3+r.IntN(5))
		for i := range points {
			points[i] = orb.Point{float64(r.IntN(n)), float64(r.IntN(n))}
		}
		if ring := plane.Hull(points); plane.CheckSimple(ring) == nil {
			return ring
		}
	}
}

// gridTangle returns a non-convex simple polygon with vertices on a grid of n by
// n: a random tour with its crossings undone two edges at a time.
func gridTangle(r *rand.Rand, n, vertices int) orb.Ring {
	for {
		ring := make(orb.Ring, vertices, vertices+1)
		for i := range ring {
			ring[i] = orb.Point{float64(r.IntN(n)), float64(r.IntN(n))}
		}
		ring = append(ring, ring[0])
		for range 30 {
			if !undoCrossing(ring) {
				break
			}
		}
		if plane.Area(ring) < 0 {
			ring.Reverse()
		}
		if plane.CheckSimple(ring) == nil {
			return ring
		}
	}
}

func undoCrossing(ring orb.Ring) bool {
	for i := 0; i+1 < len(ring); i++ {
		for k := i + 2; k+1 < len(ring); k++ {
			if (i > 0 || k+2 < len(ring)) && plane.SegmentsMeet(ring[i], ring[i+1], ring[k], ring[k+1]) {
				slices.Reverse(ring[i+1 : k+1])
				return true
			}
		}
	}
	return false
}

// gridStairs returns a rectilinear polygon under a random skyline.
func gridStairs(r *rand.Rand, n int) orb.Ring {
	ring := orb.Ring{{0, 0}}
	width := 2 + r.IntN(n-2)
	ring = append(ring, orb.Point{float64(width), 0})
	for x := width; x > 0; x-- {
		y := float64(1 + r.IntN(n-1))
		ring = append(ring, orb.Point{float64(x), y}, orb.Point{float64(x - 1), y})
	}
	return plane.Tidy(append(ring, ring[0]))
}

func gridPolygon(r *rand.Rand, n int) orb.Ring {
	switch r.IntN(4) {
	case 0:
		return gridHull(r, n)
	case 1:
		return gridStairs(r, n)
	default:
		return gridTangle(r, n, 4+r.IntN(6))
	}
}

// gridNeighbours parts a rectangle by a random line of grid points, so that the
// two halves share all of it and overlap nowhere.
func gridNeighbours(r *rand.Rand, n int) (below, above orb.Ring) {
	for {
		line := []orb.Point{{0, float64(1 + r.IntN(n-1))}}
		for x := 0; x < n; {
			x = min(n, x+r.IntN(3))
			line = append(line, orb.Point{float64(x), float64(1 + r.IntN(n-1))})
		}
		below = append(orb.Ring{{0, 0}, {float64(n), 0}}, line...)
		slices.Reverse(below[2:])
		below = append(below, below[0])
		above = append(orb.Ring{{float64(n), float64(n)}, {0, float64(n)}}, line...)
		above = append(above, above[0])
		if plane.CheckSimple(below) == nil && plane.CheckSimple(above) == nil {
			return below, above
		}
	}
}

// gridPair returns two polygons near each other, in whole millimetres.
func gridPair(r *rand.Rand) (a, b orb.Ring) {
	n := 4 + r.IntN(5)
	switch r.IntN(4) {
	case 0:
		return gridNeighbours(r, n)
	case 1: // the same outline, moved a little or not at all
		a = gridPolygon(r, n)
		return a, shifted(a, float64(r.IntN(n)), float64(r.IntN(3)-1))
	}
	a, b = gridPolygon(r, n), gridPolygon(r, n)
	return a, shifted(b, float64(r.IntN(2*n)-n), float64(r.IntN(2*n)-n))
}

func shifted(ring orb.Ring, dx, dy float64) orb.Ring {
	out := ring.Clone()
	for i := range out {
		out[i][0] += dx
		out[i][1] += dy
	}
	return out
}

func outlineAt(p Problem, pl Placed) orb.Ring { return shifted(p.cutOutline(pl), pl.At[0], pl.At[1]) }

func never() bool { return false }

func mustLine(t testing.TB, ring orb.Ring) *cutLine {
	t.Helper()
	line, err := newCutLine(ring)
	if err != nil {
		t.Fatalf("%v: %v", ring, err)
	}
	return line
}

// overlaps asks the judge, both ways round: it must not matter.
func overlaps(t testing.TB, a, b orb.Ring) bool {
	t.Helper()
	var j pairing
	la, lb := mustLine(t, a), mustLine(t, b)
	_, ab := j.overlap(la, lb)
	_, ba := j.overlap(lb, la)
	if ab != ba {
		t.Fatalf("overlap of a and b is %v, of b and a %v\na %v\nb %v", ab, ba, a, b)
	}
	return ab
}

// outsideArea is the area of the intersection by an outside geometry library,
// github.com/peterstace/simplefeatures.
func outsideArea(t testing.TB, a, b orb.Ring) float64 {
	t.Helper()
	polygon := func(ring orb.Ring) geom.Geometry {
		var xys []float64
		for _, v := range ring {
			xys = append(xys, v[0], v[1])
		}
		return geom.NewPolygonXY(xys).AsGeometry()
	}
	shared, err := geom.Intersection(polygon(a), polygon(b))
	if err != nil {
		t.Fatalf("intersection of %v and %v: %v", a, b, err)
	}
	return shared.Area()
}

// slowOverlap is the slow twin of overlap, by another way altogether: it cuts
// the plane into upright slabs at every vertex and every crossing of two lines
// of edges, all in fractions, and looks along the middle of each slab for a
// stretch around which both winding numbers are other than zero.
func slowOverlap(a, b orb.Ring) bool {
	edges := append(slowEdges(a, 0), slowEdges(b, 1)...)
	var xs []*big.Rat
	for i, e := range edges {
		xs = append(xs, e.x0, e.x1)
		for _, f := range edges[:i] {
			if den := new(big.Rat).Sub(e.slope, f.slope); den.Sign() != 0 {
				num := new(big.Rat).Sub(f.at(new(big.Rat)), e.at(new(big.Rat)))
				xs = append(xs, num.Quo(num, den))
			}
		}
	}
	slices.SortFunc(xs, (*big.Rat).Cmp)
	for i := 1; i < len(xs); i++ {
		if xs[i].Cmp(xs[i-1]) == 0 {
			continue
		}
		middle := new(big.Rat).Add(xs[i], xs[i-1])
		if slowSlab(edges, middle.Quo(middle, big.NewRat(2, 1))) {
			return true
		}
	}
	return false
}

type slowEdge struct {
	x0, x1, y0, slope *big.Rat
	owner, turn       int
}

// slowEdges returns the edges of a ring that are not upright, from left to right.
func slowEdges(ring orb.Ring, owner int) []slowEdge {
	rat := func(v float64) *big.Rat { return new(big.Rat).SetFloat64(v) }
	var edges []slowEdge
	for i := 1; i < len(ring); i++ {
		p, q, turn := ring[i-1], ring[i], 1
		if p[0] > q[0] {
			p, q, turn = q, p, -1
		}
		if p[0] != q[0] {
			rise, run := new(big.Rat).Sub(rat(q[1]), rat(p[1])), new(big.Rat).Sub(rat(q[0]), rat(p[0]))
			edges = append(edges, slowEdge{rat(p[0]), rat(q[0]), rat(p[1]), rise.Quo(rise, run), owner, turn})
		}
	}
	return edges
}

func (e slowEdge) at(x *big.Rat) *big.Rat {
	y := new(big.Rat).Sub(x, e.x0)
	return y.Add(y.Mul(y, e.slope), e.y0)
}

func slowSlab(edges []slowEdge, x *big.Rat) bool {
	type crossing struct {
		y *big.Rat
		e slowEdge
	}
	var up []crossing
	for _, e := range edges {
		if e.x0.Cmp(x) < 0 && x.Cmp(e.x1) < 0 {
			up = append(up, crossing{e.at(x), e})
		}
	}
	slices.SortFunc(up, func(a, b crossing) int { return a.y.Cmp(b.y) })
	var winding [2]int
	for i, c := range up {
		winding[c.e.owner] += c.e.turn
		if i+1 < len(up) && c.y.Cmp(up[i+1].y) < 0 && winding[0] != 0 && winding[1] != 0 {
			return true
		}
	}
	return false
}

// ring closes a list of vertices.
func ring(points ...orb.Point) orb.Ring { return append(orb.Ring(points), points[0]) }

func rect(x, y, w, h float64) orb.Ring {
	return ring(orb.Point{x, y}, orb.Point{x + w, y}, orb.Point{x + w, y + h}, orb.Point{x, y + h})
}

// disc returns a regular polygon of n vertices, snapped.
func disc(x, y, radius float64, n int) orb.Ring {
	out := make(orb.Ring, n)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		out[i] = plane.SnapPoint(orb.Point{x + radius*cos, y + radius*sin})
	}
	return append(out, out[0])
}
