package bound

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Rectangles that keep their sides along the cloth and across it are told by where along the cloth each begins: on
// every line across it those that the line meets lie side by side, a gap between two, and must fit the width. So must,
// without gaps, those that it meets when each is longer by the gap: no point of one lies within a gap behind another.
// Places along the cloth where both hold are less than a layout, for nothing is asked of where across it a piece lies,
// and the shortest that has such places is found by going through them (see rectangleSearch).
// Sources, from memory: S. Martello, M. Monaci and D. Vigo, An exact approach to the strip-packing problem, INFORMS
// Journal on Computing 15 (2003); R. Alvarez-Valdes, F. Parreno and J. M. Tamarit, A branch and bound algorithm for the
// strip packing problem, OR Spectrum 31 (2009).

// rectangle is a size of pieces in steps of the lattice, and how many there are.
type rectangle struct {
	along, across int64
	count         int
}

// rectangles are what is laid, on a cloth of a width with a gap, in steps of the lattice. What they say of lengths
// counts one gap behind the last piece.
type rectangles struct {
	width, gap int64
	kinds      []rectangle
}

// steps is a length in whole steps of the lattice, rounded down.
func steps(mm float64) int64 { return int64(math.Floor(mm / plane.Lattice)) }

// rectangles returns the pieces that are rectangles in each of their ways, and their items. A piece of several sizes
// counts as the least along and across.
func (s *setting) rectangles() (r rectangles, items []int) {
	r = rectangles{width: steps(s.width), gap: steps(s.gap)}
	for i, it := range s.items {
		if len(it.ways) == 0 || slices.ContainsFunc(it.ways, func(w way) bool { return !isRectangle(w) }) {
			continue
		}
		size := rectangle{along: math.MaxInt64, across: math.MaxInt64, count: it.count}
		for _, w := range it.ways {
			size.along, size.across = min(size.along, steps(w.along)), min(size.across, steps(w.across))
		}
		items = append(items, i)
		r.kinds = append(r.kinds, size)
	}
	r.kinds = united(r.kinds)
	return r, items
}

// isRectangle says whether a way is its own bounding box: every side of its outline lies on a side of that.
func isRectangle(w way) bool {
	on := func(a, b orb.Point, axis int, at float64) bool { return a[axis] == at && b[axis] == at }
	for i := 1; i < len(w.ring); i++ {
		a, b := w.ring[i-1], w.ring[i]
		if !on(a, b, 0, 0) && !on(a, b, 0, w.along) && !on(a, b, 1, 0) && !on(a, b, 1, w.across) {
			return false
		}
	}
	return true
}

// copies counts the pieces.
func (r rectangles) copies() (n int) {
	for _, k := range r.kinds {
		n += k.count
	}
	return n
}

// mostLength is a length in steps up to which needs are counted in whole numbers: 4,000 km of cloth.
const mostLength = 1 << 42

// length is that of all pieces one behind another.
func (r rectangles) length() (sum float64) {
	for _, k := range r.kinds {
		sum += float64(k.along+r.gap) * float64(k.count)
	}
	return sum
}

// united returns each size once, those that cover most first.
func united(kinds []rectangle) []rectangle {
	kinds = slices.Clone(kinds)
	slices.SortFunc(kinds, func(a, b rectangle) int {
		return cmp.Or(cmp.Compare(b.along*b.across, a.along*a.across), cmp.Compare(b.across, a.across))
	})
	var out []rectangle
	for _, k := range kinds {
		if n := len(out) - 1; n >= 0 && out[n].along == k.along && out[n].across == k.across {
			out[n].count += k.count
		} else {
			out = append(out, k)
		}
	}
	return out
}

// walls takes out what lies beside nothing else, being too wide for even the narrowest of the others: each needs its
// length and a gap of the cloth for itself, and what lies before it and behind may as well lie together.
func (r rectangles) walls() (length int64, rest rectangles) {
	rest = rectangles{width: r.width, gap: r.gap}
	narrow := slices.SortedFunc(slices.Values(r.kinds), func(a, b rectangle) int { return cmp.Compare(a.across, b.across) })
	for _, k := range r.kinds {
		alone := len(narrow) == 1 && k.count == 1
		if other := narrow[0]; !alone {
			if other == k && k.count == 1 {
				other = narrow[1]
			}
			alone = k.across+other.across > r.width
		}
		if alone {
			length += int64(k.count) * (k.along + r.gap)
		} else {
			rest.kinds = append(rest.kinds, k)
		}
	}
	return length, rest
}

// Work of the searches for rectangles, in worths looked at, of which a million takes some 5 ms; the greatest number of
// sizes told apart, and of pieces; and the parts of the best length known that are tried beyond it, first and at the
// least.
const (
	rectanglesWork = 128 << 20
	mostSizes      = 48
	mostRectangles = 4000
	firstReach     = 1.0 / 400
	leastReach     = 1.0 / 2000
)

// rectangles adds the bound of pieces that are rectangles, where it is the longest so far.
func (f *finder) rectangles(s *setting) {
	all, items := s.rectangles()
	if len(all.kinds) == 0 || all.length() > mostLength {
		return
	}
	walls, rest := all.walls()
	known := steps(f.best) + all.gap - walls // what the others are known to need, if what is known is of these alone
	best := max(0, known)
	if rest.copies() <= mostRectangles {
		for _, r := range rest.coarser(mostSizes) {
			best = f.reach(r, best)
		}
	}
	if best <= known {
		return
	}
	length := float64(walls+best-all.gap) * plane.Lattice
	f.add(Bound{
		Length: length, Kind: Rectangles, Pieces: s.names(items),
		Certificate: Certificate{Axis: LinesAcross, Length: length - plane.Lattice, Gap: s.gap},
	})
}

// reach raises the best length known as far as it can be shown that rectangles need more, in greater and greater steps
// until a way to lay them is found.
func (f *finder) reach(r rectangles, best int64) int64 {
	share := f.rectangleWork / 3
	f.rectangleWork -= share
	for part := firstReach; share > 0 && part >= leastReach && !f.stopped(); {
		s := newRectangleSearch(f.ctx, r, best, best+int64(float64(best)*part)+1)
		s.work = share / 2
		share -= s.work
		s.run()
		share += s.work
		if !s.ended {
			part /= 4
			continue
		}
		if best = max(best, s.least); s.found {
			break
		}
		part *= 2
	}
	f.rectangleWork += share
	return best
}
