package nest

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/nest/search"
	"yardlay/shapes/plane"
)

// A rectangle as wide as the strip is a wall, and where all pieces are rectangles so is one that leaves less room
// than the narrowest takes: nothing lies beside it, so every other piece lies before it or behind it, a gap off at
// the least. Taken out, with what lies behind it moved back by its length and a gap, it leaves a layout of the
// others, and put at the beginning of any layout of them it lengthens that by as much. So the shortest layout is
// all walls one behind another and the shortest of the others, which alone are searched for. What is ragged then
// lies at the end, beside what is left of the cloth.

// wall is how a wall lies at the beginning of the strip.
type wall struct {
	Placed
	length float64 // mm; 0: it is none
}

// beside returns the width that a wall leaves less than, mm: what a rectangle takes, or any other outline on the
// lattice. It is 0 where no walls are told apart, since it matters where along the cloth a piece lies.
func (p Problem) beside() float64 {
	if p.Strip.Repeat != (Repeat{}) || len(p.Strip.Forbidden) > 0 || len(p.Pins) > 0 {
		return 0
	}
	narrowest := p.Strip.Width
	for i, piece := range p.Pieces {
		for k := range piece.leftAndRight() {
			for _, pl := range p.Ways(i, k) {
				ring := p.Outline(pl)
				if !plane.IsBox(ring) {
					return plane.Lattice
				}
				box := plane.Bounds(ring)
				narrowest = min(narrowest, box.Max[1]-box.Min[1])
			}
		}
	}
	return narrowest
}

// wall returns the shortest way in which a copy that may lie in some ways does; none where one of them leaves
// that much beside it.
func (p Problem) wall(choices []search.Choice, ways []way, beside float64) wall {
	shortest := wall{length: math.Inf(1)}
	for k, c := range choices {
		box := plane.Bounds(c.Ring)
		length, across := box.Max[0]-box.Min[0], box.Max[1]-box.Min[1]
		switch {
		case across > c.Seat.High-c.Seat.Low: // it fits the strip in other ways alone
		case p.Strip.Width-across >= beside, !plane.IsBox(c.Ring):
			return wall{}
		case length < shortest.length:
			shortest = wall{ways[k].Placed, length}
			shortest.At = orb.Point{-box.Min[0], c.Seat.Low - box.Min[1]}
		}
	}
	if math.IsInf(shortest.length, 1) {
		return wall{}
	}
	return shortest
}

// add lays a wall behind those that are there.
func (s *searcher) add(w wall) {
	w.At[0] += s.walls
	s.order, s.items = append(s.order, w.Placed), append(s.items, wallItem)
	s.walls += w.length + plane.Ceil(s.of.Gap)
}

// whole returns the length of a layout of so many mm besides the walls.
func (s *searcher) whole(length float64) float64 {
	if s.walls > 0 && len(s.copies) == 0 {
		return s.walls - plane.Ceil(s.of.Gap)
	}
	return s.walls + length
}

// withoutWalls returns what a layout that has passed Verify leaves when its walls are taken out.
func (s *searcher) withoutWalls(l Layout) Layout {
	if s.walls == 0 {
		return l
	}
	isWall := map[[2]int]bool{}
	for n, pl := range s.order {
		isWall[[2]int{pl.Piece, pl.Copy}] = s.items[n] == wallItem
	}
	var rest Layout
	var taken []orb.Bound
	for _, pl := range l.Placed {
		if isWall[[2]int{pl.Piece, pl.Copy}] {
			taken = append(taken, plane.Bounds(s.of.Outline(pl)))
		} else {
			rest.Placed = append(rest.Placed, pl)
		}
	}
	for n, pl := range rest.Placed {
		from := plane.Bounds(s.of.Outline(pl)).Min[0]
		for _, w := range taken {
			if w.Min[0] < from {
				rest.Placed[n].At[0] -= w.Max[0] - w.Min[0] + plane.Ceil(s.of.Gap)
			}
		}
	}
	rest.Length = s.of.Used(rest.Placed)
	return rest
}
