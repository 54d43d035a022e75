package shapes

import (
	"math"

	"github.com/paulmach/orb"
)

// apex returns where a dart comes to its point that opens from a distance along
// the edge on by a width: square in from the middle of its mouth by a length, all
// mm. Both legs are equally long.
func (e Edge) apex(from, width, length float64) orb.Point {
	a, _ := e.At(from)
	b, _ := e.At(from + width)
	dx, dy := b[0]-a[0], b[1]-a[1]
	mouth := math.Hypot(dx, dy)
	return orb.Point{(a[0]+b[0])/2 - length*dy/mouth, (a[1]+b[1])/2 + length*dx/mouth}
}
