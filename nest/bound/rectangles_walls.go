package bound

import (
	"math"

	"yardlay/shapes/plane"
)

// Rectangles so wide that between one of them and an edge of the cloth there is less than a gap part the cloth: every
// other piece lies before such a wall or behind it. In the free width u the corner of a piece may come nearer to it
// along the cloth than the gap g, but not than h = sqrt(g^2 - u^2). Taken out, with what lies behind it moved back by
// its length and 2 h - g, it leaves a layout of the others: points before and behind it are a gap apart again.

// wall returns by how much of the cloth each copy of an item shortens what is left without it, mm; 0 where it is no
// wall.
func (s *setting) wall(it item) float64 {
	least := math.Inf(1)
	for _, w := range it.ways {
		free := s.width - w.across
		if !plane.IsBox(w.ring) || free > 0 && free >= s.gap {
			return 0
		}
		least = min(least, w.along+2*math.Sqrt(s.gap*s.gap-free*free)*(1-safety)-s.gap)
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return max(0, least)
}

// withoutWalls returns what is laid besides walls, what those take of the cloth, mm, and their items.
func (s *setting) withoutWalls() (rest *setting, length float64, walls []int) {
	rest = &setting{width: s.width, gap: s.gap, profiles: make(map[profileKey]profile)}
	for i, it := range s.items {
		if l := s.wall(it); l > 0 {
			length += l * float64(it.count)
			walls = append(walls, i)
		} else {
			rest.items = append(rest.items, it)
		}
	}
	return rest, length, walls
}

// walledRow adds the bounds of pieces that must lie in a row with walls, which are no part of any choice: of the
// others more can then be told apart.
func (f *finder) walledRow(s *setting) {
	rest, length, walls := s.withoutWalls()
	if len(walls) == 0 {
		return
	}
	for r := range f.rows(rest, true, false) {
		b := newBound(Row, length+f.measure(r, mostRanges))
		b.Certificate.Gap, b.Certificate.At = s.gap, r.at
		b.Pieces = append(s.names(walls), rest.names(r.items)...)
		if f.add(b); f.stopped() {
			return
		}
	}
}
