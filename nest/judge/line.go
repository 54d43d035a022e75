package judge

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// steps is the number of lattice steps in a millimetre.
const steps = 1 / plane.Lattice

// Reach is the farthest a coordinate may lie from the origin, mm: 2^16 mm, a
// little over 65 m, or 2^26 steps of the lattice. Within it the products below fit
// an int64.
const Reach = 1 << 16

// farthest is Reach in lattice steps, 2^26. Differences of coordinates then stay
// within 2^27 and the cross products below within 2^55; with one point in half
// steps (winding, below) within 2^57.
const farthest = Reach * steps

// step is a point of the lattice, in lattice steps.
type step struct{ x, y int64 }

func (p step) point() orb.Point { return orb.Point{float64(p.x) / steps, float64(p.y) / steps} }
func (p step) add(q step) step  { return step{p.x + q.x, p.y + q.y} }
func (p step) sub(q step) step  { return step{p.x - q.x, p.y - q.y} }
func (p step) dot(q step) int64 { return p.x*q.x + p.y*q.y }

// cross is twice the signed area of the triangle abc, positive counter-clockwise.
func cross(a, b, c step) int64 {
	u, v := b.sub(a), c.sub(a)
	return u.x*v.y - u.y*v.x
}

// latticePoint returns p in lattice steps; false when p is not a lattice point
// within reach of the origin.
func latticePoint(p orb.Point) (step, bool) {
	x, y := p[0]*steps, p[1]*steps // exact: steps is a power of two
	if !(math.Abs(x) <= farthest && math.Abs(y) <= farthest) || x != math.Trunc(x) || y != math.Trunc(y) {
		return step{}, false
	}
	return step{int64(x), int64(y)}, true
}

// cutLine is an outline in lattice steps: edge i runs from points[i] to the next.
type cutLine struct {
	points    []step // open ring, counter-clockwise, neighbours distinct
	byX       []int  // edges in the order of their least x
	low, high step   // corners of the upright box around it
	simple    bool   // it neither touches nor crosses itself
}

// newCutLine takes a closed ring on the lattice. A ring that was simple before
// it was turned and snapped may touch or cross itself by a step; one that has
// no area left is refused.
func newCutLine(ring orb.Ring) (*cutLine, error) {
	c := &cutLine{simple: plane.CheckSimple(ring) == nil}
	for _, v := range ring[:len(ring)-1] {
		s, ok := latticePoint(v)
		if !ok {
			return nil, say.Errorf("vertex %v is not a lattice point within reach", plane.Point(v))
		}
		if n := len(c.points); n == 0 || c.points[n-1] != s {
			c.points = append(c.points, s)
		}
	}
	for n := len(c.points); n > 1 && c.points[n-1] == c.points[0]; n-- {
		c.points = c.points[:n-1]
	}
	area := int64(0) // twice; wraps around on the way, is right in the end
	for i := range c.points {
		p, q := c.edge(i)
		area += cross(c.points[0], p, q)
	}
	if area <= 0 {
		return nil, errors.New("the outline has no area left on the lattice")
	}
	c.low, c.high = c.points[0], c.points[0]
	c.byX = make([]int, len(c.points))
	for i, s := range c.points {
		c.low = step{min(c.low.x, s.x), min(c.low.y, s.y)}
		c.high = step{max(c.high.x, s.x), max(c.high.y, s.y)}
		c.byX[i] = i
	}
	least := func(i int) int64 { p, q := c.edge(i); return min(p.x, q.x) }
	slices.SortStableFunc(c.byX, func(i, j int) int { return cmp.Compare(least(i), least(j)) })
	return c, nil
}

// CheckCut says why an outline on the lattice, closed and counter-clockwise, cannot be
// cut: it has no area left there, or lies beyond Reach. It may touch or cross itself.
func CheckCut(ring orb.Ring) error {
	_, err := newCutLine(ring)
	return err
}

func (c *cutLine) edge(i int) (from, to step) {
	if i+1 == len(c.points) {
		return c.points[i], c.points[0]
	}
	return c.points[i], c.points[i+1]
}

// moved returns c shifted by move; the order of its edges is shared.
func (c *cutLine) moved(move step) *cutLine {
	out := *c
	out.low, out.high = c.low.add(move), c.high.add(move)
	out.points = make([]step, len(c.points))
	for i, s := range c.points {
		out.points[i] = s.add(move)
	}
	return &out
}

// lineStore keeps the cut line of each piece in each turn used, unmoved: a move
// by lattice steps changes nothing else.
type lineStore struct {
	problem Problem
	lines   map[lineKey]*cutLine
}

type lineKey struct {
	piece    int
	turn     float64
	mirrored bool
}

func (s lineStore) get(pl Placed) (*cutLine, error) {
	key := lineKey{pl.Piece, pl.Turn, pl.Mirrored}
	if line, ok := s.lines[key]; ok {
		return line, nil
	}
	line, err := newCutLine(s.problem.cutOutline(pl))
	if err != nil {
		return nil, err
	}
	s.lines[key] = line
	return line, nil
}
