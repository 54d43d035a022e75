package nofit

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Outward returns a simpler ring that contains the given one and nowhere
// strays further than tolerance (mm) from it: hollow vertices are bridged, and
// short edges of rounded corners replaced by the crossing of their neighbours.
// The judge works on the fine outline; the search on this one.
// If the simpler ring would cross itself, the given ring is returned.
func Outward(ring orb.Ring, tolerance float64) orb.Ring {
	ring = plane.Tidy(ring)
	verts := make([]corner, len(ring)-1)
	for i := range verts {
		verts[i].at = ring[i]
	}
	for len(verts) > 3 {
		i, c, cut := cheapest(verts, tolerance)
		if i < 0 {
			break
		}
		n := len(verts)
		if cut { // edge i, i+1 gives way to the crossing of its neighbours
			verts[i] = c
			h, j := (i+n-1)%n, (i+1)%n
			verts[h].strayed = max(verts[h].strayed, c.strayed)
			verts = append(verts[:j], verts[j+1:]...)
			continue
		}
		h := (i + n - 1) % n // hollow vertex i is bridged
		verts[h].strayed = c.strayed
		verts = append(verts[:i], verts[i+1:]...)
	}
	out := make(orb.Ring, 0, len(verts)+1)
	for _, v := range verts {
		out = append(out, v.at)
	}
	out = append(out, out[0])
	if plane.CheckSimple(out) != nil {
		return ring
	}
	return out
}

// corner is a vertex of the growing outline; strayed bounds how far the edge
// that leaves it lies from the given ring.
type corner struct {
	at      orb.Point
	strayed float64
}

// cheapest finds the change that strays least, within tolerance: i < 0 if none.
func cheapest(verts []corner, tolerance float64) (best int, with corner, cut bool) {
	n, least := len(verts), tolerance
	best = -1
	for i := range verts {
		a, b, c, d := verts[(i+n-1)%n], verts[i], verts[(i+1)%n], verts[(i+2)%n]
		if plane.Orient(a.at, b.at, c.at) <= 0 {
			off := segmentDistance(b.at, a.at, c.at) + max(a.strayed, b.strayed)
			if off < least {
				best, with, cut, least = i, corner{strayed: off}, false, off
			}
			continue
		}
		if n < 5 || plane.Orient(b.at, c.at, d.at) <= 0 {
			continue
		}
		x, ok := crossing(a.at, b.at, d.at, c.at)
		if !ok {
			continue
		}
		off := segmentDistance(x, b.at, c.at) + max(a.strayed, b.strayed, c.strayed)
		if off < least {
			best, with, cut, least = i, corner{at: x, strayed: off}, true, off
		}
	}
	return best, with, cut
}

// segmentDistance returns the distance from p to the segment a b.
func segmentDistance(p, a, b orb.Point) float64 {
	dx, dy := b[0]-a[0], b[1]-a[1]
	s := ((p[0]-a[0])*dx + (p[1]-a[1])*dy) / (dx*dx + dy*dy)
	s = math.Max(0, math.Min(1, s))
	return math.Hypot(p[0]-a[0]-s*dx, p[1]-a[1]-s*dy)
}

// crossing returns where the ray a->b beyond b meets the ray d->c beyond c.
func crossing(a, b, d, c orb.Point) (orb.Point, bool) {
	ux, uy := b[0]-a[0], b[1]-a[1]
	vx, vy := c[0]-d[0], c[1]-d[1]
	det := ux*vy - uy*vx
	if det == 0 {
		return orb.Point{}, false
	}
	s := ((c[0]-b[0])*vy - (c[1]-b[1])*vx) / det
	t := ((c[0]-b[0])*uy - (c[1]-b[1])*ux) / det
	if s < 0 || t < 0 || math.IsInf(s, 0) || math.IsInf(t, 0) {
		return orb.Point{}, false
	}
	return orb.Point{b[0] + s*ux, b[1] + s*uy}, true
}
