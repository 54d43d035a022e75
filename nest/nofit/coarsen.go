package nofit

import (
	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// SimplifyTolerance is how far the outlines that regions are made of may stray outward
// from the true ones, mm: a tenth of a millimetre is under a third of the width of
// a chalk line, and turns the hundreds of points of a drafted arc into tens.
const SimplifyTolerance = 0.1

// Long hollow curves fall into as many convex parts as chords, and a no-fit
// region costs the fourth power of those. An outline of more than mostParts is
// simplified further, up to a millimetre or so, a pencil line.
const (
	mostParts         = 16
	coarsestTolerance = 0.8
)

// Combs, cogs and lace have more reflexCorners than that smooths out. What a pair of them
// costs is kept to some milliseconds: they are simplified on and on, at last to
// their hulls. No piece of the published instances or of a gown comes near.
const (
	mostPartsEver   = 32
	mostReflexEver  = 2 * mostPartsEver // a hollow corner makes at most two parts more, and at least half of one
	mostCornersEver = 400
)

// Coarsened returns an outline that contains the given one, whose least corner is at the
// origin, and is simple enough for regions to be made of it at once, with its shape.
func Coarsened(given orb.Ring) (orb.Ring, *Shape) {
	box := plane.Bounds(given)
	coarsest := max(box.Max[0], box.Max[1]) / 4
	for tolerance := SimplifyTolerance; ; tolerance *= 2 {
		ring := Outward(given, tolerance)
		hull := tolerance > coarsestTolerance && tolerance > coarsest
		if hull {
			ring = plane.Hull(given)
		}
		if !hull && (len(ring)-1 > mostCornersEver || reflexCorners(ring) > mostReflexEver) {
			continue
		}
		s := NewShape(ring)
		if s.Parts() <= mostParts || tolerance >= coarsestTolerance && s.Parts() <= mostPartsEver || hull {
			return ring, s
		}
	}
}

// reflexCorners counts the corners at which a ring turns right.
func reflexCorners(ring orb.Ring) int {
	count, n := 0, len(ring)-1
	for i := range n {
		if plane.Orient(ring[(i+n-1)%n], ring[i], ring[i+1]) < 0 {
			count++
		}
	}
	return count
}
