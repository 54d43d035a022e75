package bound

import (
	"context"

	"github.com/paulmach/orb"
)

// Work returns how many terms of prices and steps of rows all bounds of a problem took.
func Work(p Problem) int {
	f := newFinder(context.Background())
	f.try(p)
	return priceWork - f.work + rowsWork - f.rowWork
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

// UnionOn is what convex rings cover together of a line, mm.
func UnionOn(parts []orb.Ring, axis Axis, s float64) float64 {
	p := unionChords(parts, axis)
	k := p.slab(s)
	if k < 0 || k >= len(p.left) {
		return 0
	}
	return p.left[k] + p.slope[k]*(s-p.at[k])
}
