package nest

import "github.com/paulmach/orb"

// ring closes a list of vertices.
func ring(points ...orb.Point) orb.Ring { return append(orb.Ring(points), points[0]) }

func rect(x, y, w, h float64) orb.Ring {
	return ring(orb.Point{x, y}, orb.Point{x + w, y}, orb.Point{x + w, y + h}, orb.Point{x, y + h})
}

func shifted(ring orb.Ring, dx, dy float64) orb.Ring {
	out := ring.Clone()
	for i := range out {
		out[i][0] += dx
		out[i][1] += dy
	}
	return out
}
