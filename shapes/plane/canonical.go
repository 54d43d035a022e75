package plane

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"
)

// Canonical returns a closed ring tidied, its least corner moved to the origin,
// beginning at its least vertex: the same for outlines that differ by a move.
func Canonical(ring orb.Ring) orb.Ring {
	ring = Tidy(ring)
	least := Bounds(ring).Min
	open := make(orb.Ring, len(ring)-1)
	for i := range open {
		open[i] = orb.Point{ring[i][0] - least[0], ring[i][1] - least[1]}
	}
	first := slices.Index(open, slices.MinFunc(open, func(a, b orb.Point) int {
		return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1]))
	}))
	out := append(append(make(orb.Ring, 0, len(ring)), open[first:]...), open[:first]...)
	return append(out, out[0])
}
