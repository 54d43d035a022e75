package hand

import (
	"math"
	"sync"

	"github.com/paulmach/orb"

	"yardlay/nest"
	"yardlay/nest/judge"
	"yardlay/nest/nofit"
	"yardlay/shapes/plane"
)

// Table is a cloth on which pieces are moved by hand. Any number of goroutines may ask. Of
// placed pieces that are none of the problem, or lie beyond nest.Reach, it takes no notice.
type Table struct {
	problem nest.Problem
	gap     nofit.Clearance // between two pieces
	bare    nofit.Clearance // between a piece and a flaw

	mu      sync.Mutex
	judge   *judge.Judge
	shapes  map[shapeKey]*shape
	regions map[regionKey]*kept
	bytes   int
	asked   int
}

// shapeKey is a piece as it is turned, or the zone of a flaw, numbered from -1 down.
type shapeKey struct {
	piece    int
	turn     float64
	mirrored bool
}

type regionKey struct{ fixed, moving shapeKey }

// shape is an outline with its least corner at the origin, ready for regions, and the box
// in which it lies unmoved.
type shape struct {
	box orb.Bound
	of  *nofit.Shape
}

// kept is a region in the cache.
type kept struct {
	region *nofit.Region
	asked  int // when it was asked for last
}

// mostBytes bounds what regions take: those of a gown of 65 pieces take a few megabytes.
const mostBytes = 48 << 20

// New returns a table for a problem that nest.Problem.Check finds sound, its error else.
func New(p nest.Problem) (*Table, error) {
	if err := p.Check(); err != nil {
		return nil, err
	}
	tolerance := min(p.Strip.Width*1e-7, plane.Lattice/4) // as the search has it
	t := &Table{
		problem: p, judge: p.Judge(), shapes: map[shapeKey]*shape{}, regions: map[regionKey]*kept{},
		gap:  nofit.Clearance{Gap: plane.Ceil(p.Gap), Step: plane.Lattice, Tolerance: tolerance},
		bare: nofit.Clearance{Step: plane.Lattice, Tolerance: tolerance},
	}
	return t, nil
}

// knows says whether a placed piece is one of the problem, in whatever way and wherever it
// lies: what comes from a page may be anything.
func (t *Table) knows(pl nest.Placed) bool {
	const mostTurn = 1 << 20 // degrees
	return pl.Piece >= 0 && pl.Piece < len(t.problem.Pieces) && pl.Copy >= 0 &&
		pl.Copy < t.problem.Pieces[pl.Piece].Count && math.Abs(pl.Turn) <= mostTurn &&
		math.Abs(pl.At[0]) <= nest.Reach && math.Abs(pl.At[1]) <= nest.Reach
}

// mostShapes bounds the ways of pieces that are remembered, for those who turn a piece
// as it may not lie.
const mostShapes = 1 << 12

// forget forgets the ways of pieces when there are too many.
func (t *Table) forget() {
	if len(t.shapes) > mostShapes {
		clear(t.shapes)
		t.judge = t.problem.Judge()
	}
}

// keyOf returns the key of a placed piece.
func keyOf(pl nest.Placed) shapeKey { return shapeKey{pl.Piece, math.Mod(pl.Turn, 360), pl.Mirrored} }

// shapeOf makes the shape of a key.
func (t *Table) shapeOf(key shapeKey) *shape {
	if s, ok := t.shapes[key]; ok {
		return s
	}
	var ring orb.Ring
	if key.piece < 0 {
		ring = plane.Tidy(t.problem.Strip.Forbidden[-1-key.piece])
	} else {
		ring = t.problem.Outline(nest.Placed{Piece: key.piece, Turn: key.turn, Mirrored: key.mirrored})
	}
	s := &shape{box: plane.Bounds(ring)}
	_, s.of = nofit.Coarsened(plane.Canonical(ring))
	t.shapes[key] = s
	return s
}

// obstacle is what a moving piece may not lie over: where its origin is, less at, lies in
// the region.
type obstacle struct {
	index  int // of the others; of a flaw -1 less its number
	key    regionKey
	at     orb.Point
	region *nofit.Region
}

// obstaclesTo lists what is in the way of a piece whose origin stays within a bound.
func (t *Table) obstaclesTo(held nest.Placed, others []nest.Placed, within orb.Bound) []obstacle {
	var list []obstacle
	moving := keyOf(held)
	b := t.shapeOf(moving).box
	add := func(index int, fixed shapeKey, origin orb.Point, keep nofit.Clearance) {
		a := t.shapeOf(fixed).box
		at := orb.Point{origin[0] + a.Min[0] - b.Min[0], origin[1] + a.Min[1] - b.Min[1]}
		pad := keep.Gap + strays
		for axis := range 2 { // by their boxes, so that no region is made for what is far off
			if within.Min[axis] > origin[axis]+a.Max[axis]-b.Min[axis]+pad ||
				within.Max[axis] < origin[axis]+a.Min[axis]-b.Max[axis]-pad {
				return
			}
		}
		key := regionKey{fixed, moving}
		list = append(list, obstacle{index, key, at, t.region(key, keep)})
	}
	for i, pl := range others {
		if t.knows(pl) && (pl.Piece != held.Piece || pl.Copy != held.Copy) {
			add(i, keyOf(pl), pl.At, t.gap)
		}
	}
	for i := range t.problem.Strip.Forbidden {
		add(-1-i, shapeKey{piece: -1 - i}, orb.Point{}, t.bare)
	}
	return list
}

// strays is more than two coarsened outlines stray beyond their boxes, mm.
const strays = 4

// region returns the region of a pair, from the cache or made now.
func (t *Table) region(key regionKey, keep nofit.Clearance) *nofit.Region {
	t.asked++
	if k, ok := t.regions[key]; ok {
		k.asked = t.asked
		return k.region
	}
	never := func() bool { return false }
	r := nofit.New(never, t.shapeOf(key.fixed).of, t.shapeOf(key.moving).of, keep)
	t.regions[key] = &kept{r, t.asked}
	for t.bytes += r.Bytes(); t.bytes > mostBytes && len(t.regions) > 1; {
		oldest := key
		for k, v := range t.regions {
			if v.asked < t.regions[oldest].asked {
				oldest = k
			}
		}
		t.bytes -= t.regions[oldest].region.Bytes()
		delete(t.regions, oldest)
	}
	return r
}
