package plane

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"
)

// Hull returns the convex hull of the points as a closed counter-clockwise ring
// without collinear vertices, exactly. Fewer than three points that are not on
// one line give the ring of their two ends, or of the single point.
//
// A. M. Andrew, "Another efficient algorithm for convex hulls in two
// dimensions", Information Processing Letters 9 (1979): lower then upper chain.
func Hull(points []orb.Point) orb.Ring {
	sorted := slices.Clone(points)
	slices.SortFunc(sorted, func(a, b orb.Point) int {
		return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1]))
	})
	sorted = slices.Compact(sorted)
	if len(sorted) == 0 {
		return nil
	}
	if len(sorted) == 1 {
		return orb.Ring{sorted[0], sorted[0]}
	}
	hull := chain(nil, sorted)
	slices.Reverse(sorted)
	return chain(hull, sorted[1:])
}

// chain extends a hull by points in order, dropping those the hull passes by.
// What the hull held before, its last vertex apart, is left alone.
func chain(hull orb.Ring, points []orb.Point) orb.Ring {
	base := max(len(hull), 1)
	for _, p := range points {
		for len(hull) > base && Orient(hull[len(hull)-2], hull[len(hull)-1], p) <= 0 {
			hull = hull[:len(hull)-1]
		}
		hull = append(hull, p)
	}
	return hull
}
