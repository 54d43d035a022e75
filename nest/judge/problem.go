package judge

import (
	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Problem is what a layout is judged by: the cloth, and what each piece may do on
// it. It is sound as nest.Problem.Check finds it: finite numbers, simple outlines.
type Problem struct {
	Width     float64    // usable width, mm
	MaxLength float64    // mm; 0: as long as it takes
	Forbidden []orb.Ring // zones on the lattice of which no piece may cover any of the inside
	FoldBelow bool       // y = 0 is a fold
	FoldAbove bool       // so is y = Width, then on the lattice; the selvedges meet along the middle
	Middle    float64    // with FoldAbove: kept clear on either side of the middle, mm
	Repeat    [2]float64 // of the pattern, along and across the cloth, mm; 0: none
	Gap       float64    // clear distance between two pieces, mm; half of it from a fold
	Pieces    []Piece
	Phases    map[int]orb.Point // of groups of copies whose place on the repeat is settled, mm
	Pins      []Placed          // copies that lie there and nowhere else
}

// Piece is one outline to be cut Count times.
type Piece struct {
	Name    string
	Outline orb.Ring  // closed, counter-clockwise, simple, mm
	Count   int       // copies
	Turns   []float64 // allowed, degrees counter-clockwise, of a mirrored copy clockwise
	Mirror  Mirror
	Alike   bool   // copies 2k and 2k+1 lie on the same grain and lean alike
	OnFold  bool   // the outline's least y must lie against a fold
	Match   *Match // where it must lie on the repeat; nil: anywhere
}

// Mirror says which copies of a piece may lie mirrored about the grain.
type Mirror uint8

const (
	AsDrawn Mirror = iota // none
	Paired                // those with an odd index, and they must
	Free                  // any
)

// Match ties a point of a piece to the repeat: the points of all copies of a group
// lie whole repeats apart, each to the nearest step of the lattice.
type Match struct {
	Point  orb.Point // in the coordinates of Outline, mm
	Groups []int     // of each copy; empty: all are of group 0
}

func (m *Match) group(copy int) int {
	if len(m.Groups) == 0 {
		return 0
	}
	return m.Groups[copy]
}

// Placed is one copy of a piece where it is to be cut.
type Placed struct {
	Piece    int     // index into Problem.Pieces
	Copy     int     // 0 <= Copy < Count
	Turn     float64 // degrees
	Mirrored bool
	At       orb.Point // where the piece's origin lies, mm
}

// Layout is every copy of every piece, and the length they take up, mm.
type Layout struct {
	Placed []Placed
	Length float64
}

// pose is the move that brings a piece to its place.
func (pl Placed) pose() plane.Pose {
	return plane.Pose{Mirrored: pl.Mirrored, Turn: pl.Turn, At: pl.At}
}

// drawnTurn returns the turn counted as one of the piece's Turns: of a mirrored copy
// clockwise.
func (pl Placed) drawnTurn() float64 {
	if pl.Mirrored {
		return -pl.Turn
	}
	return pl.Turn
}

// cutOutline returns what is cut of a piece that lies turned and mirrored at the origin,
// each vertex snapped to the lattice.
func (p Problem) cutOutline(pl Placed) orb.Ring {
	pl.At = orb.Point{}
	return plane.SnapRing(pl.pose().Apply(p.Pieces[pl.Piece].Outline))
}
