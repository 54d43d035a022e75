package chalk

import (
	"math"

	"github.com/paulmach/orb"
)

type circle struct {
	centre orb.Point
	radius float64
}

// fit returns the circle that a line runs along, and whether it does so within the fit
// of arcs, vertices and middles of chords alike. At its ends, where the last chords of a
// cut line run on to its corners, it may stray a little more.
//
// I. Kåsa, "A circle fitting procedure and its error analysis", IEEE Transactions on
// Instrumentation and Measurement 25 (1976): least squares of x2 + y2 + ax + by + c,
// linear in a, b and c. It is biased where points scatter; those of a sampled arc do not.
func fit(line []orb.Point) (circle, bool) {
	if len(line) < leastChords+1 {
		return circle{}, false
	}
	inner := line
	if len(line) > leastChords+3 {
		inner = line[1 : len(line)-1]
	}
	o := line[0] // from here, which keeps the sums accurate
	var n, sx, sy, sxx, sxy, syy, sz, sxz, syz float64
	for _, p := range inner {
		x, y := p[0]-o[0], p[1]-o[1]
		z := x*x + y*y
		n++
		sx, sy, sxx, sxy, syy = sx+x, sy+y, sxx+x*x, sxy+x*y, syy+y*y
		sz, sxz, syz = sz+z, sxz+x*z, syz+y*z
	}
	// Centred normal equations in half of -a and -b.
	cxx, cxy, cyy := sxx-sx*sx/n, sxy-sx*sy/n, syy-sy*sy/n
	cxz, cyz := sxz-sx*sz/n, syz-sy*sz/n
	det := cxx*cyy - cxy*cxy
	if det <= 1e-12*cxx*cyy || cxx*cyy == 0 {
		return circle{}, false
	}
	cx, cy := (cxz*cyy-cyz*cxy)/(2*det), (cyz*cxx-cxz*cxy)/(2*det)
	r := math.Sqrt(math.Max(0, (sz-2*cx*sx-2*cy*sy)/n+cx*cx+cy*cy))
	c := circle{orb.Point{cx + o[0], cy + o[1]}, r}
	return c, c.strays(inner) <= arcFit && c.strays(line) <= endFit && c.forward(line)
}

// strays returns how far vertices and middles of chords lie off the circle at the most.
func (c circle) strays(line []orb.Point) float64 {
	least, most := away(line, c.centre)
	return math.Max(c.radius-least, most-c.radius)
}

// away returns how far from a point the nearest and the farthest of the ends and middles of
// a line's chords lie.
func away(line []orb.Point, from orb.Point) (least, most float64) {
	least = math.Inf(1)
	for i, p := range line {
		least, most = math.Min(least, distance(p, from)), math.Max(most, distance(p, from))
		if i > 0 {
			least = math.Min(least, distance(between(line[i-1], p, 0.5), from)) // never the farthest
		}
	}
	return least, most
}

// forward tells whether a line goes round the centre one way, and no more than once.
func (c circle) forward(line []orb.Point) bool {
	sum := 0.0
	for i := 1; i < len(line); i++ {
		t := c.angle(line[i-1], line[i])
		if i > 1 && t*sum < 0 {
			return false
		}
		sum += t
	}
	return math.Abs(sum) <= 2*math.Pi+1e-6
}

// angle is that from a to b as seen from the centre, radians.
func (c circle) angle(a, b orb.Point) float64 {
	ux, uy, vx, vy := a[0]-c.centre[0], a[1]-c.centre[1], b[0]-c.centre[0], b[1]-c.centre[1]
	return math.Atan2(ux*vy-uy*vx, ux*vx+uy*vy)
}

// turn is the angle that a line goes round the centre, radians, whichever way.
func (c circle) turn(line []orb.Point) float64 {
	sum := 0.0
	for i := 1; i < len(line); i++ {
		sum += c.angle(line[i-1], line[i])
	}
	return math.Abs(sum)
}
