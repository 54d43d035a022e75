package bound

import (
	"cmp"
	"math"
	"slices"

	"yardlay/shapes/plane"
)

// Rectangles that keep their sides along the cloth and across it are told by where along the cloth each begins: on
// every line across it those that the line meets lie side by side, a gap between two, and must fit the width. So must,
// without gaps, those that it meets when each is longer by the gap: no point of one lies within a gap behind another.
// Places along the cloth where both hold are less than a layout, for nothing is asked of where across it a piece lies,
// and the shortest that has such places is found by going through them (see rectangleSearch).
// Sources, from memory: S. Martello, M. Monaci and D. Vigo, An exact approach to the strip-packing problem, INFORMS
// Journal on Computing 15 (2003); R. Alvarez-Valdes, F. Parreno and J. M. Tamarit, A branch and bound algorithm for
// the strip packing problem, OR Spectrum 31 (2009).

// size is that of a rectangle as it lies, in steps of the lattice.
type size struct{ along, across int64 }

// rectangle is pieces that may lie in either of two sizes, the shorter along the cloth first, and how many there are.
// Those that may not be turned by a quarter have the same twice.
type rectangle struct {
	sizes [2]size
	count int
}

// rectangles are what is laid, on a cloth of a width with a gap, in steps of the lattice. What they say of lengths
// counts one gap behind the last piece.
type rectangles struct {
	width, gap int64
	kinds      []rectangle
}

// steps is a length in whole steps of the lattice, rounded down.
func steps(mm float64) int64 { return int64(math.Floor(mm / plane.Lattice)) }

// rectangles returns the pieces that are rectangles in each of their ways, and their items.
func (s *setting) rectangles() (r rectangles, items []int) {
	r = rectangles{width: steps(s.width), gap: steps(s.gap)}
	for i, it := range s.items {
		if len(it.ways) == 0 || slices.ContainsFunc(it.ways, func(w way) bool { return !plane.IsBox(w.ring) }) {
			continue
		}
		var sizes []size
		for _, w := range it.ways {
			sizes = append(sizes, size{steps(w.along), steps(w.across)})
		}
		items = append(items, i)
		r.kinds = append(r.kinds, newRectangle(it.count, sizes...))
	}
	r.kinds = united(r.kinds)
	return r, items
}

// newRectangle returns copies that may lie in some sizes: of more than two, each counts as the least of them.
func newRectangle(count int, sizes ...size) rectangle {
	slices.SortFunc(sizes, compareSizes)
	sizes = slices.Compact(sizes)
	least := sizes[0]
	if len(sizes) == 2 {
		return rectangle{[2]size(sizes), count}
	}
	for _, o := range sizes {
		least = least.and(o)
	}
	return rectangle{[2]size{least, least}, count}
}

// and is the greatest size inside both.
func (s size) and(o size) size { return size{min(s.along, o.along), min(s.across, o.across)} }

// area is in steps squared.
func (s size) area() float64 { return float64(s.along) * float64(s.across) }

func compareSizes(a, b size) int {
	return cmp.Or(cmp.Compare(a.along, b.along), cmp.Compare(b.across, a.across))
}

// area is what a copy covers, in steps squared, or less.
func (k rectangle) area() float64 { return min(k.sizes[0].area(), k.sizes[1].area()) }

// narrowest is the least that a copy takes of a line across the cloth.
func (k rectangle) narrowest() int64 { return min(k.sizes[0].across, k.sizes[1].across) }

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
		sum += float64(max(k.sizes[0].along, k.sizes[1].along)+r.gap) * float64(k.count)
	}
	return sum
}

// united returns each kind once, those of the largest pieces first.
func united(kinds []rectangle) []rectangle {
	kinds = slices.Clone(kinds)
	slices.SortFunc(kinds, func(a, b rectangle) int {
		return cmp.Or(cmp.Compare(b.area(), a.area()), slices.CompareFunc(a.sizes[:], b.sizes[:], compareSizes))
	})
	var out []rectangle
	for _, k := range kinds {
		if n := len(out) - 1; n >= 0 && out[n].sizes == k.sizes {
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
	narrow := slices.SortedFunc(slices.Values(r.kinds), func(a, b rectangle) int {
		return cmp.Compare(a.narrowest(), b.narrowest())
	})
	for _, k := range r.kinds {
		alone := len(narrow) == 1 && k.count == 1
		if other := narrow[0]; !alone {
			if other == k && k.count == 1 {
				other = narrow[1]
			}
			alone = k.narrowest()+other.narrowest() > r.width
		}
		if alone {
			length += int64(k.count) * (k.sizes[0].along + r.gap)
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
	rectanglesWork = 96 << 20
	mostSizes      = 32
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
		told := rest.coarser(mostSizes)
		for i, r := range told {
			best = f.reach(r, best, f.rectangleWork/min(3, len(told)-i))
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
// until a way to lay them is found, with a share of the work.
func (f *finder) reach(r rectangles, best int64, share int) int64 {
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
