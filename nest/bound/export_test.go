package bound

import (
	"context"

	"github.com/paulmach/orb"
)

// Work returns how many terms of prices, steps of rows and worths of rectangles all bounds of a problem took.
func Work(p Problem) int {
	f := newFinder(context.Background())
	f.try(p)
	return priceWork - f.work + rowsWork - f.rowWork + rectanglesWork - f.rectangleWork
}

// Penalised returns the bounds of all rows by penalties, few as their kinds may be, for so
// much work.
func Penalised(ctx context.Context, p Problem, work int) []Bound {
	f := newFinder(ctx)
	f.penaltyWork = work
	s := p.settings()[0]
	all := s.crossings(f.ctx, s.width, true)
	for _, r := range s.together(f.ctx, all) {
		if r = r.unlimited(s); !f.penaltiesPay(r, s) || !r.fill(f.ctx, s, all) {
			continue
		}
		b := newBound(Row, f.byPenalties(r))
		b.Certificate.Gap, b.Certificate.At, b.Pieces = s.gap, r.at, s.names(r.items)
		f.add(b)
	}
	return f.found
}

// OneWays returns the bounds of pieces that point one way by several shares of their shift, worth while or not.
func OneWays(ctx context.Context, p Problem) []Bound {
	f := newFinder(ctx)
	s := p.settings()[0]
	b := s.taken().bodies(convexParts, fineNormals)
	_, longest := s.longest()
	for _, share := range []float64{0.3, 1, 1.5} {
		f.best = max(longest, s.area()/s.width/2)
		f.price(b.exchanged(b.shifted(b.mean(share))))
	}
	return f.found
}

// ConvexParts is convexParts.
func ConvexParts(ring orb.Ring) []orb.Ring { return convexParts(ring) }

// Union is what convex rings cover together, mm2.
func Union(parts []orb.Ring) float64 { return unionChords(parts, LinesAlong).total() }

// UnionOn is what rings cover together of a line, mm.
func UnionOn(parts []orb.Ring, axis Axis, s float64) float64 { return unionChords(parts, axis).on(s) }

// GrownOn tells what an outline grown by half a gap covers of a line, mm.
func GrownOn(ring orb.Ring, axis Axis, gap float64) func(s float64) float64 {
	return grown(ring, axis, gap).on
}

// on is what the profile says of a line, mm.
func (p profile) on(s float64) float64 {
	k := p.slab(s)
	if k < 0 || k >= len(p.left) {
		return 0
	}
	return p.left[k] + p.slope[k]*(s-p.at[k])
}

// Sizes is pieces of rectangles in steps of the lattice: along, across, copies, and whether they may lie across too: 1.
type Sizes [][4]int64

func (s Sizes) on(width, gap int64) rectangles {
	r := rectangles{width: width, gap: gap}
	for _, v := range s {
		sizes := []size{{v[0], v[1]}}
		if v[3] == 1 {
			sizes = append(sizes, size{v[1], v[0]})
		}
		r.kinds = append(r.kinds, newRectangle(int(v[2]), sizes...))
	}
	return r
}

// Schedule returns the length found by searches of so much work that no layout of rectangles is below, a gap behind the
// last piece counted; exact is whether pieces longer by the gap and beside each other with gaps need no more.
func Schedule(ctx context.Context, width, gap int64, sizes Sizes, work int) (length int64, exact bool) {
	r := sizes.on(width, gap)
	walls, rest := r.walls()
	if len(rest.kinds) == 0 {
		return walls, true
	}
	rest.kinds = united(rest.kinds)
	s := newRectangleSearch(ctx, rest, 0, 1<<40)
	s.work = work
	s.run()
	return walls + s.least, s.ended
}

// RectangleWorths returns what each size is worth by all worths that would be looked at, in parts of the whole of a
// line, and whether each is of pieces with a gap beside each.
func RectangleWorths(width, gap int64, sizes Sizes) (of [][]int64, spaced []bool, whole int64) {
	r := sizes.on(width, gap)
	for _, w := range r.worths() {
		of, spaced = append(of, w.of), append(spaced, w.spaced)
	}
	return of, spaced, one
}

// RectangleWork returns how much work the searches for rectangles of a problem took.
func RectangleWork(p Problem) int {
	f := newFinder(context.Background())
	f.simple(p.settings()[0])
	f.rectangles(p.settings()[0])
	return rectanglesWork - f.rectangleWork
}

// RectangleBounds returns the plainest bounds, and that of rectangles, by so much work, if it is longer.
func RectangleBounds(p Problem, work int) []Bound {
	f := newFinder(context.Background())
	f.rectangleWork = work
	f.simple(p.settings()[0])
	f.rectangles(p.settings()[0])
	return f.found
}
