package nest

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// SizeError says that a piece fits on the cloth in none of its allowed turns,
// clear of its folds and on its repeat.
type SizeError struct {
	Piece     int     // index into Problem.Pieces
	Name      string  // the piece's name
	Mirrored  bool    // it is the mirrored copies of a pair that do not fit
	Along     float64 // extent along the cloth in the allowed turn that is least across it, mm
	Across    float64 // least extent across the cloth over the allowed turns, mm
	Width     float64 // width of the strip that it may use, mm
	MaxLength float64 // longest the strip may be, mm; 0: no limit
	Repeat    bool    // it would fit, but not where the repeat puts it
}

// Error names the piece with both sizes.
func (e *SizeError) Error() string {
	limit := fmt.Sprintf("%s mm wide", millimetres(e.Width))
	if e.MaxLength > 0 {
		limit += fmt.Sprintf(" and at most %s mm long", millimetres(e.MaxLength))
	}
	if e.Repeat {
		limit += ", and the repeat of the cloth puts it nowhere between the edges"
	}
	return fmt.Sprintf("%q fits in no allowed turn: it takes %s mm across and %s mm along, the strip is %s",
		e.Name, millimetres(e.Across), millimetres(e.Along), limit)
}

// sizeOf returns a *SizeError unless each way round that piece i must be cut has
// an allowed turn in which it fits.
func (p Problem) sizeOf(i int) *SizeError {
	piece := p.Pieces[i]
	drawn := p.fits(i, false)
	switch {
	case piece.Mirror == Paired && drawn == nil:
		return p.fits(i, true)
	case (piece.Mirror == Free || piece.OnFold) && drawn != nil && p.fits(i, true) == nil:
		return nil
	}
	return drawn
}

// fits returns nil when piece i, mirrored or not, fits in one of its turns. Whole
// lattice moves bring its least corner to the origin, so extents decide, but for
// a repeat.
func (p Problem) fits(i int, mirrored bool) *SizeError {
	piece, strip := p.Pieces[i], p.Strip
	lanes := p.lanes(piece)
	miss := &SizeError{
		Piece: i, Name: piece.Name, Mirrored: mirrored, Across: math.Inf(1), MaxLength: strip.MaxLength,
		Width: lanes[0].high - lanes[0].low,
	}
	for _, turn := range piece.turnsOf(mirrored) {
		pl := Placed{Piece: i, Turn: turn, Mirrored: mirrored}
		box := plane.Bounds(p.Outline(pl))
		along, across := box.Max[0]-box.Min[0], box.Max[1]-box.Min[1]
		far := math.Inf(1) // the farthest along that it may begin
		if strip.MaxLength > 0 {
			far = strip.MaxLength - along
		}
		repeat := false
		for _, lane := range lanes {
			if across > lane.high-lane.low || far < 0 {
				continue
			}
			if p.meetsRepeat(pl, box, lane, far) {
				return nil
			}
			repeat = true
		}
		if across < miss.Across {
			miss.Along, miss.Across, miss.Repeat = along, across, repeat
		}
	}
	return miss
}

// lane is a range of levels across the strip, mm.
type lane struct{ low, high float64 }

// lanes returns where a piece may lie across the strip, clear of folds and middle.
func (p Problem) lanes(piece Piece) []lane {
	s, clear := p.Strip, halfGap(p.Gap)
	if piece.OnFold {
		clear = 0
	}
	switch s.Folds {
	case FoldBelow:
		return []lane{{clear, s.Width}}
	case FoldBoth:
		return []lane{{clear, s.Width/2 - s.Middle}, {s.Width/2 + s.Middle, s.Width - clear}}
	}
	return []lane{{0, s.Width}}
}

// meetsRepeat says whether a piece has a place on its repeat in a lane, and no
// farther along than far.
func (p Problem) meetsRepeat(pl Placed, box orb.Bound, in lane, far float64) bool {
	piece := p.Pieces[pl.Piece]
	if piece.Match == nil {
		return true
	}
	point := plane.Pose{Mirrored: pl.Mirrored, Turn: pl.Turn}.ApplyPoint(piece.Match.Point)
	phase := piece.Match.Phase
	return meetsPlace(p.Strip.Repeat.Along, phase[0]-point[0]+box.Min[0], 0, far) &&
		meetsPlace(p.Strip.Repeat.Across, phase[1]-point[1]+box.Min[1], in.low, in.high-(box.Max[1]-box.Min[1]))
}

// meetsPlace says whether place and whole repeats from it, rounded to the
// lattice, come to lie from low to high.
func meetsPlace(repeat, place, low, high float64) bool {
	if repeat == 0 {
		return true
	}
	k := math.Floor((low - place) / repeat)
	for range 3 { // rounding to the lattice may bring one more, or one less, in
		if at := plane.Snap(place + k*repeat); at >= low && at <= high {
			return true
		}
		k++
	}
	return false
}
