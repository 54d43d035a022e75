package nest

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// SizeError says that a piece fits on the cloth in none of its allowed turns,
// clear of its folds, or not where its group lies on the repeat.
type SizeError struct {
	Piece     int     // index into Problem.Pieces
	Name      string  // the piece's name
	Mirrored  bool    // it is the mirrored copies of a pair that do not fit
	Along     float64 // extent along the cloth in the allowed turn that is least across it, mm
	Across    float64 // least extent across the cloth over the allowed turns, mm
	Width     float64 // width of the strip that it may use, mm
	MaxLength float64 // longest the strip may be, mm; 0: no limit
	Repeat    bool    // it would fit, but not on one phase of the repeat with the group that it belongs to
}

// Error names the piece with both sizes.
func (e *SizeError) Error() string { return say.Join(e.Parts(nil)) }

// Parts says what Error does, with lengths as shown.
func (e *SizeError) Parts(show say.Show) (what, hint string) {
	limit := say.Textf("%v wide", micron(e.Width))
	if e.MaxLength > 0 {
		limit = say.Textf("%v and at most %v long", limit, micron(e.MaxLength))
	}
	if e.Repeat {
		limit = say.Textf("%v, and where the repeat of the cloth meets what it is matched with, "+
			"it lies nowhere between the edges", limit)
	}
	return say.Textf("%q fits in no allowed turn: it takes %v across and %v along, the strip is %v",
		e.Name, micron(e.Across), micron(e.Along), limit).In(show), ""
}

// micron is a length for a message, to 0.001 mm, about one lattice step.
func micron(mm float64) say.MM { return say.MM(math.Round(mm*1000) / 1000) }

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
// lattice moves bring its least corner to the origin, so extents decide; repeats
// are a matter of groups (sizeOfGroups).
func (p Problem) fits(i int, mirrored bool) *SizeError {
	ranges := p.levels(p.Pieces[i])
	for _, turn := range p.Pieces[i].turnsOf(mirrored) {
		along, across := p.extent(Placed{Piece: i, Turn: turn, Mirrored: mirrored})
		if p.Strip.MaxLength > 0 && along > p.Strip.MaxLength {
			continue
		}
		for _, r := range ranges {
			if across <= r.high-r.low {
				return nil
			}
		}
	}
	return p.extents(i, mirrored)
}

// extents sets the least that piece i takes across the cloth, and what it then
// takes along it, beside the room that there is.
func (p Problem) extents(i int, mirrored bool) *SizeError {
	first := p.levels(p.Pieces[i])[0]
	miss := &SizeError{
		Piece: i, Name: p.Pieces[i].Name, Mirrored: mirrored, Across: math.Inf(1),
		MaxLength: p.Strip.MaxLength, Width: first.high - first.low,
	}
	for _, turn := range p.Pieces[i].turnsOf(mirrored) {
		along, across := p.extent(Placed{Piece: i, Turn: turn, Mirrored: mirrored})
		if across < miss.Across {
			miss.Along, miss.Across = along, across
		}
	}
	return miss
}

// extent returns what a piece takes along and across the cloth as it lies, mm.
func (p Problem) extent(pl Placed) (along, across float64) {
	box := plane.Bounds(p.Outline(pl))
	return box.Max[0] - box.Min[0], box.Max[1] - box.Min[1]
}

// levels is a range of levels across the strip, mm.
type levels struct{ low, high float64 }

// levels returns where a piece may lie across the strip, clear of folds and middle.
func (p Problem) levels(piece Piece) []levels {
	s, clear := p.Strip, halfGap(p.Gap)
	if piece.OnFold {
		clear = 0
	}
	switch s.Folds {
	case FoldBelow:
		return []levels{{clear, s.Width}}
	case FoldBoth:
		return []levels{{clear, s.Width/2 - s.Middle}, {s.Width/2 + s.Middle, s.Width - clear}}
	}
	return []levels{{0, s.Width}}
}

// levelsOf returns where a piece that is so tall across the strip may lie across it, as
// pl is turned and mirrored: on its fold, if it must lie on one.
func (p Problem) levelsOf(pl Placed, tall float64) []levels {
	piece := p.Pieces[pl.Piece]
	switch {
	case piece.OnFold && pl.Mirrored == sameTurn(pl.Turn, 180):
		return []levels{{0, tall}}
	case piece.OnFold:
		return []levels{{p.Strip.Width - tall, p.Strip.Width}}
	}
	return p.levels(piece)
}

// Room lists where the origin of a piece may be, turned and mirrored as pl says, for it to
// lie on the strip, clear of folds and middle: bounds on the lattice, mm. It is empty
// where it fits nowhere, and goes to Reach along a strip that is as long as it takes.
func (p Problem) Room(pl Placed) []orb.Bound {
	pl.At = orb.Point{}
	box := plane.Bounds(p.Outline(pl))
	far := p.Strip.MaxLength
	if far == 0 {
		far = Reach
	}
	var rooms []orb.Bound
	for _, r := range p.levelsOf(pl, box.Max[1]-box.Min[1]) {
		room := orb.Bound{
			Min: orb.Point{-box.Min[0], plane.Ceil(r.low - box.Min[1])},
			Max: orb.Point{plane.Floor(far - box.Max[0]), plane.Floor(r.high - box.Max[1])},
		}
		if room.Min[0] <= room.Max[0] && room.Min[1] <= room.Max[1] {
			rooms = append(rooms, room)
		}
	}
	return rooms
}
