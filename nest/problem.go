// Package nest lays flat pieces on a strip of cloth: strip packing of irregular
// outlines with the rights a cloth gives (which turns its nap allows, whether a
// piece may be mirrored) and an independent exact judge.
package nest

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Mirror says which copies of a piece lie mirrored about the grain.
type Mirror uint8

const (
	AsDrawn Mirror = iota // every copy as drawn
	Paired                // left and right: copies with an odd index are mirrored; Count is even
	Free                  // each copy either way (a cloth alike on both faces)
)

// Piece is one outline to be placed Count times.
type Piece struct {
	Name    string
	Outline orb.Ring  // closed, counter-clockwise, simple; mm; grain along +x
	Count   int       // copies, at least 1
	Turns   []float64 // allowed turns, degrees counter-clockwise, of a mirrored copy clockwise; empty means {0}
	Mirror  Mirror
	Alike   bool     // copies 2k and 2k+1, left and right, lie on the same grain and lean alike: see sameGrain
	Half    orb.Ring // half of Outline, its least y along the fold that makes it whole; nil: cannot be cut on a fold
	OnFold  bool     // Outline is such a half and must lie against a fold of the strip
	Match   *Match   // where it must lie on a repeat; nil: anywhere
}

// Match ties a point of a piece to the repeat of the cloth: once the pieces are
// placed, the points of all copies of one group lie whole repeats apart, along and
// across, each to the nearest step of the lattice. Where a group lies against the
// repeat, its phase, is free unless Problem.Phases gives it. An axis without a
// repeat is free.
type Match struct {
	Point  orb.Point // in the coordinates of Outline, mm
	Groups []int     // the group of each copy, shared by all pieces; nil: group 0
}

// group returns the group of a copy.
func (m *Match) group(copy int) int {
	if len(m.Groups) == 0 {
		return 0
	}
	return m.Groups[copy]
}

// Repeat is the distance after which the pattern of a cloth comes again, mm; 0
// where it has none.
type Repeat struct{ Along, Across float64 }

// Folds says which edges of a strip are folds.
type Folds uint8

const (
	NoFold    Folds = iota // single cloth
	FoldBelow              // the lower edge, y = 0, is a fold: two layers
	FoldBoth               // both edges are folds, the selvedges meet along the middle of the width
)

// Strip is the cloth to lay on: x along it from the cut end, y across it from
// the lower edge of the usable width.
type Strip struct {
	Width     float64    // usable width, mm
	MaxLength float64    // mm; 0 means as long as it takes
	Forbidden []orb.Ring // flaws: no piece may cover any of their insides
	Folds     Folds      // pieces not on a fold keep half the gap from it
	Middle    float64    // with FoldBoth: no piece may come nearer than this to the middle of the width, mm
	Repeat    Repeat
}

// Problem is what Solve solves and Verify judges.
type Problem struct {
	Strip  Strip
	Pieces []Piece
	Gap    float64 // clear distance kept between two pieces, mm, at least 0
	// Phases gives the phase of groups of copies that what is cut elsewhere has
	// settled: their match points less the phase are whole repeats, mm. Others are free.
	Phases map[int]orb.Point `json:",omitempty"`
	// Pins are copies that lie there and nowhere else, turned and mirrored as they say:
	// the others are laid around them.
	Pins []Placed `json:",omitempty"`
}

// Placed is one copy of a piece where it is to be cut.
type Placed struct {
	Piece    int     // index into Problem.Pieces
	Copy     int     // 0 <= Copy < Count
	Turn     float64 // degrees, one of the piece's Turns
	Mirrored bool
	At       orb.Point // where the piece's origin lies, on the lattice, mm
}

// Layout is a marker: every copy of every piece, and the length it takes up.
type Layout struct {
	Placed []Placed
	Length float64 // used length: the largest x of any placed outline, mm
}

// Used returns the length that placed pieces take up, mm: the largest x of any outline.
func (p Problem) Used(placed []Placed) float64 {
	used := 0.0
	for _, pl := range placed {
		used = max(used, plane.Bounds(p.Outline(pl)).Max[0])
	}
	return used
}

// Outline returns the outline of a placed piece: mirrored, turned, each vertex
// snapped to the lattice, then moved. This is what is cut, drawn and judged.
func (p Problem) Outline(pl Placed) orb.Ring {
	pose := plane.Pose{Mirrored: pl.Mirrored, Turn: pl.Turn}
	ring := plane.SnapRing(pose.Apply(p.Pieces[pl.Piece].Outline))
	for i := range ring {
		ring[i][0] += pl.At[0]
		ring[i][1] += pl.At[1]
	}
	return ring
}

// Area returns the area of all copies together as they are drawn, mm2.
func (p Problem) Area() float64 {
	sum := 0.0
	for _, piece := range p.Pieces {
		sum += plane.Area(piece.Outline) * float64(piece.Count)
	}
	return sum
}

// LeastArea returns what all copies cover at the least, mm2: turned outlines are
// snapped to the lattice, so that the ways of a piece differ in area by a little,
// and a bound may count on the least of them alone.
func (p Problem) LeastArea() float64 {
	sum := 0.0
	for _, some := range p.leastOf(func(w Placed) float64 { return plane.Area(p.Outline(w)) }) {
		sum += some.least * float64(some.copies)
	}
	return sum
}

// measured is the least of a measure over the ways in which some copies may lie.
type measured struct {
	least  float64
	copies int
}

// leastOf returns that of all copies, but for those that may lie in no way.
func (p Problem) leastOf(measure func(way Placed) float64) (all []measured) {
	for i, piece := range p.Pieces {
		for k, copies := range piece.leftAndRight() {
			some := measured{math.Inf(1), copies}
			for _, w := range p.Ways(i, k) {
				some.least = min(some.least, measure(w))
			}
			if !math.IsInf(some.least, 1) {
				all = append(all, some)
			}
		}
	}
	return all
}

// Coverage is what placed outlines cover.
type Coverage struct {
	Area     float64 // mm2
	Rounding float64 // mm2 that the lattice may have taken of it: a step off each side
}

// Covered returns what all placed outlines of a layout cover.
func (p Problem) Covered(l Layout) Coverage {
	var c Coverage
	for _, pl := range l.Placed {
		ring := p.Outline(pl)
		c.Area += plane.Area(ring)
		c.Rounding += plane.Lattice * plane.Length(ring) / 2
	}
	return c
}

// Plus returns what two layouts cover together.
func (c Coverage) Plus(d Coverage) Coverage {
	return Coverage{c.Area + d.Area, c.Rounding + d.Rounding}
}

// Utilisation returns the share of a width times a length that is covered, 0 to 1.
// It is 1 where nothing is free but what the lattice may have taken: an exact fit.
// Source: EU ICT-TEX course, lesson 1027 (there as a percentage).
func (c Coverage) Utilisation(width, length float64) float64 {
	switch all := width * length; {
	case all <= 0:
		return 0
	case math.Abs(all-c.Area) <= c.Rounding:
		return 1
	default:
		return c.Area / all
	}
}

// Utilisation returns the share of the strip's width times the used length that a
// layout covers, 0 to 1.
func (p Problem) Utilisation(l Layout) float64 {
	return p.Covered(l).Utilisation(p.Strip.Width, l.Length)
}
