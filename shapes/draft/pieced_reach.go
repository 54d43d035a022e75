package draft

import (
	"math"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// Reach is how far along the grain a piece is cut no wider than a width, from its end that is nearer to
// the waist: where it is cut across there, what is near the waist is as wide as that, mm. It is the
// length of the piece where that is narrow enough, and 0 where the piece is wider from the start.
func Reach(p shapes.Piece, width float64) float64 {
	high := hangsHigh(p, uppersOf(p.Name, []shapes.Piece{p}))
	cut := p.Unfold().Cut
	box := plane.Bounds(cut)
	from, along := box.Min[0], 1.0
	if !high {
		from, along = box.Max[0], -1
	}
	// Of each chord no more is near than begins so far from the end; where it is cut its width is that of
	// all ends there.
	wide := func(far float64) float64 {
		low, top := math.Inf(1), math.Inf(-1)
		take := func(y float64) { low, top = min(low, y), max(top, y) }
		for i := 1; i < len(cut); i++ {
			a, b := cut[i-1], cut[i]
			da, db := along*(a[0]-from), along*(b[0]-from)
			if da > db {
				a, b, da, db = b, a, db, da
			}
			if da > far {
				continue
			}
			take(a[1])
			if db <= far {
				take(b[1])
			} else {
				take(a[1] + (far-da)/(db-da)*(b[1]-a[1]))
			}
		}
		return top - low
	}
	least, most := 0.0, box.Max[0]-box.Min[0]
	if wide(most) <= width {
		return most
	}
	for most-least > plane.Lattice {
		if half := (least + most) / 2; wide(half) <= width {
			least = half
		} else {
			most = half
		}
	}
	return least
}
