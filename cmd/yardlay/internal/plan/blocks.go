package plan

import (
	"cmp"
	"slices"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// inBlocks puts the blocks of a layout in the order of their pieces: parts of the
// marker between two lines straight across the cloth that no piece crosses. So the
// strips of a layer of net lie side by side and are cut one after the other. A layout
// on a repeat or with flaws, and one that would become longer, stays as it is.
func inBlocks(p nest.Problem, l nest.Layout) nest.Layout {
	if p.Strip.Repeat != (nest.Repeat{}) || len(p.Strip.Forbidden) > 0 {
		return l
	}
	blocks := blocksOf(p, l)
	slices.SortStableFunc(blocks, func(a, b block) int { return slices.Compare(a.pieces, b.pieces) })
	gap := plane.Ceil(p.Gap)
	moved, from, to := slices.Clone(l.Placed), 0.0, 0.0
	for _, b := range blocks {
		for _, i := range b.placed {
			moved[i].At[0] += from - b.from
		}
		to = from + b.to - b.from
		from = to + gap
	}
	if to > l.Length {
		return l
	}
	return nest.Layout{Placed: moved, Length: to}
}

// block is a part of a marker.
type block struct {
	from, to float64 // along the cloth, mm
	placed   []int   // indices of the placed outlines
	pieces   []int   // theirs, in order
}

// blocksOf parts a layout wherever a line straight across crosses no piece.
func blocksOf(p nest.Problem, l nest.Layout) []block {
	var blocks []block
	order, low, high := make([]int, len(l.Placed)), make([]float64, len(l.Placed)), make([]float64, len(l.Placed))
	for i, pl := range l.Placed {
		b := plane.Bounds(p.Outline(pl))
		order[i], low[i], high[i] = i, b.Min[0], b.Max[0]
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(low[a], low[b]) })
	for _, i := range order {
		if n := len(blocks); n == 0 || low[i] >= blocks[n-1].to {
			blocks = append(blocks, block{from: low[i]})
		}
		b := &blocks[len(blocks)-1]
		b.to = max(b.to, high[i])
		b.placed, b.pieces = append(b.placed, i), append(b.pieces, l.Placed[i].Piece)
	}
	for i := range blocks {
		slices.Sort(blocks[i].pieces)
	}
	return blocks
}
