package hand

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
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

	mu       sync.Mutex
	judge    *judge.Judge
	shapes   map[shapeKey]shape
	outlines map[string]*outline // by their rings
	regions  map[regionKey]*kept
	bytes    int
	asked    int
}

// shapeKey is a piece as it is turned, or the zone of a flaw, numbered from -1 down.
type shapeKey struct {
	piece    int
	turn     float64
	mirrored bool
}

// shape is the outline of a piece as it is turned, and the box in which it lies unmoved.
type shape struct {
	box orb.Bound
	*outline
}

// outline is one distinct outline, its least corner at the origin; of is made ready for
// regions when the first is needed.
type outline struct {
	mark string // equal for equal rings
	ring orb.Ring
	of   *nofit.Shape
}

// regionKey is a pair of outlines, by their marks, and the gap between them.
type regionKey struct {
	fixed, moving string
	gap           float64
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
		problem: p, judge: p.Judge(), shapes: map[shapeKey]shape{}, outlines: map[string]*outline{},
		regions: map[regionKey]*kept{},
		gap:     nofit.Clearance{Gap: plane.Ceil(p.Gap), Step: plane.Lattice, Tolerance: tolerance},
		bare:    nofit.Clearance{Step: plane.Lattice, Tolerance: tolerance},
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
		clear(t.outlines)
		clear(t.regions)
		t.bytes = 0
		t.judge = t.problem.Judge()
	}
}

// keyOf returns the key of a placed piece.
func keyOf(pl nest.Placed) shapeKey { return shapeKey{pl.Piece, math.Mod(pl.Turn, 360), pl.Mirrored} }

// shapeOf returns the shape of a key.
func (t *Table) shapeOf(key shapeKey) shape {
	if s, ok := t.shapes[key]; ok {
		return s
	}
	var ring orb.Ring
	if key.piece < 0 {
		ring = plane.Tidy(t.problem.Strip.Forbidden[-1-key.piece])
	} else {
		ring = t.problem.Outline(nest.Placed{Piece: key.piece, Turn: key.turn, Mirrored: key.mirrored})
	}
	s := shape{box: plane.Bounds(ring)}
	ring = plane.Canonical(ring)
	text := make([]byte, 0, 16*len(ring))
	for _, v := range ring {
		text = binary.LittleEndian.AppendUint64(text, math.Float64bits(v[0]))
		text = binary.LittleEndian.AppendUint64(text, math.Float64bits(v[1]))
	}
	if s.outline = t.outlines[string(text)]; s.outline == nil {
		sum := sha256.Sum256(text)
		s.outline = &outline{mark: hex.EncodeToString(sum[:8]), ring: ring}
		t.outlines[string(text)] = s.outline
	}
	t.shapes[key] = s
	return s
}
