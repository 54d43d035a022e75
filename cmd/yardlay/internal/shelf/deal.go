package shelf

import (
	"cmp"
	"math"
	"slices"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// SideBySide deals copies whose outlines may change places to their places in
// order along the cloth, those of the first piece first: layers of net that are cut
// alike come to lie one after the other, and so do the copies of a piece. What is cut
// where, and so the length, stays as it is.
func SideBySide(p nest.Problem, l nest.Layout) nest.Layout {
	like := interchangeable(p)
	lots := map[lot][]int{} // indices of placed copies
	for i, pl := range l.Placed {
		piece := p.Pieces[pl.Piece]
		key := lot{like: like[pl.Piece], group: groupOf(p, pl.Piece, pl.Copy)}
		key.odd = piece.Mirror == nest.Paired && pl.Copy%2 == 1
		if piece.Alike {
			key.grain = grainOf(pl)
		}
		lots[key] = append(lots[key], i)
	}
	dealt := slices.Clone(l.Placed)
	for _, lot := range lots {
		places := slices.Clone(lot)
		slices.SortStableFunc(places, func(a, b int) int {
			at, other := plane.Bounds(p.Outline(l.Placed[a])).Min, plane.Bounds(p.Outline(l.Placed[b])).Min
			return cmp.Or(cmp.Compare(at[0], other[0]), cmp.Compare(at[1], other[1]))
		})
		slices.SortStableFunc(lot, func(a, b int) int {
			return cmp.Or(cmp.Compare(l.Placed[a].Piece, l.Placed[b].Piece),
				cmp.Compare(l.Placed[a].Copy, l.Placed[b].Copy))
		})
		for n, i := range lot {
			from := l.Placed[places[n]]
			dealt[i].Turn, dealt[i].Mirrored, dealt[i].At = from.Turn, from.Mirrored, from.At
		}
	}
	l.Placed = dealt
	return l
}

// grainOf tells the turns of pairs apart that do not lie alike.
func grainOf(pl nest.Placed) int {
	turn := pl.Turn
	if pl.Mirrored {
		turn = -turn
	}
	return (int(math.Round(turn*1000))%180000 + 180000) % 180000
}

// lot is what tells copies apart that may not change places.
type lot struct {
	like  int  // the first piece that is cut alike
	group int  // on the repeat
	odd   bool // the mirrored ones of a pair
	grain int  // of pairs that lie on one grain: the turn as drawn but for half turns, thousandths of a degree
}

// interchangeable returns for each piece the first whose copies may lie wherever
// its own do.
func interchangeable(p nest.Problem) []int {
	like := make([]int, len(p.Pieces))
	for i, piece := range p.Pieces {
		like[i] = slices.IndexFunc(p.Pieces[:i+1], func(q nest.Piece) bool { return alike(piece, q) })
	}
	return like
}

// alike says whether two pieces are cut alike and have the same rights.
func alike(p, q nest.Piece) bool {
	if (p.Match == nil) != (q.Match == nil) || p.Match != nil && p.Match.Point != q.Match.Point {
		return false
	}
	return p.Mirror == q.Mirror && p.Alike == q.Alike && p.OnFold == q.OnFold && slices.Equal(p.Outline, q.Outline) &&
		slices.Equal(p.Turns, q.Turns)
}
