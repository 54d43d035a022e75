package bound

import "context"

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
