package plan

import (
	"context"
	"slices"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// Proved says that nothing lets less be bought: no other layouts, and no other
// share of the pieces between the stretches of a fold, or between shelf and bought
// cloth. Of a cloth that comes in several lengths it says that no lengths which hold
// the pieces cost less.
func (l Laid) Proved() bool {
	if l.Lengths != nil {
		return l.Buy.Cost.Minor <= l.Lengths.LeastCost.Minor
	}
	return l.Buy.Bought <= l.LeastBuy
}

// ProvedAsShared says that no other layouts let less be bought with the pieces
// shared out as they are.
func (l Laid) ProvedAsShared() bool {
	if l.Lengths != nil {
		return l.Buy.Cost.Minor <= l.Lengths.LeastFor.Minor
	}
	return l.Buy.Bought <= l.LeastFor
}

// shareIsForced says whether the pieces can be shared out over the stretches in
// one way alone: on an open lay, and on a fold with flaws, which has no open
// stretch, as long as no piece may be cut either double or on the fold.
func (t Task) shareIsForced() bool {
	if t.Stretches[0].Lay == nest.Open {
		return true
	}
	return len(t.Problem.Strip.Forbidden) > 0 && !slices.ContainsFunc(t.Problem.Pieces, func(p nest.Piece) bool {
		return p.Half != nil && p.Count > 1
	})
}

// overShares lowers what is bought at the least to what holds however the pieces
// are shared out over the stretches of the fold.
func (l Laid) overShares(ctx context.Context, o Options) Laid {
	if o.Effort == nest.Trial { // as nest.Solve does: the simplest bounds
		done, cancel := context.WithCancel(ctx)
		cancel()
		ctx = done
	}
	p, _ := l.Task.buy(l.Task.leastHowever(ctx, o.Proofs, l.Rest))
	l.LeastBuy, l.LeastFor = p.Bought, max(l.LeastFor, p.Bought)
	return l
}

// leastHowever is the least that is needed, mm, for an open problem of the cloth, however its pieces are shared out
// over stretches.
//
// Cutting the stretches of any share is cutting the single cloth. Opened out, no
// two pieces lie nearer than the gap: beside a fold each keeps half of it, and
// between stretches lie the ends, and what they leave of the gap. Closed up by the
// ends at the fold and between the stretches, what is laid on is an open lay of
// all pieces, and no shorter than the bound of all of them on the open cloth; less
// a step of the lattice, onto which bounds are rounded up, as pieces closed up need
// not lie on it, and without the repeat, on which they do not stay. Of the ends those of
// the folded stretch are counted, which every share has.
func (t Task) leastHowever(ctx context.Context, proofs *nest.Proofs, open nest.Problem) float64 {
	open.Strip.Repeat = nest.Repeat{}
	least := proofs.LowerBound(ctx, open).Length - plane.Lattice
	ends := float64(t.Stretches[0].Layers()) * 2 * t.Spread.Cloth.Ends
	return LossOf(t.Spread.Cloth).Needed(least + ends)
}
