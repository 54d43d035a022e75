package nest

import (
	"context"
	"sync"
	"time"

	"yardlay/nest/bound"
)

// prover looks for the bound beside the search.
type prover struct {
	ctx     context.Context
	problem Problem
	effort  Effort
	proofs  *Proofs
	begun   bool
	found   chan bound.Bound
	end     context.CancelFunc // ends the looking
	bound   func() bound.Bound // waits for it, at most until time is up or the context ends
}

// proofGrace is how long a proof may take to notice that it is to end.
const proofGrace = 20 * time.Millisecond

// mostKindsProved bounds the kinds of pieces for which more than the plainest bound
// is looked for: the better ones look at pairs of kinds.
const mostKindsProved = 500

// newProver prepares a prover. It begins when the first layout stands: until then
// the search needs every processor.
func newProver(ctx context.Context, p Problem, o Options, began time.Time) *prover {
	v := &prover{problem: p, effort: o.Effort, proofs: o.Proofs, found: make(chan bound.Bound, 1)}
	if o.Time > 0 {
		v.ctx, v.end = context.WithDeadline(ctx, began.Add(o.Time))
	} else {
		v.ctx, v.end = context.WithCancel(ctx)
	}
	v.bound = sync.OnceValue(v.wait)
	return v
}

func (v *prover) begin() {
	if v.effort == Trial || len(v.problem.Pieces) > mostKindsProved {
		return // the simplest bounds, whatever the machine does
	}
	v.begun = true
	go func() { v.found <- v.proofs.LowerBound(v.ctx, v.problem) }()
}

// wait returns the bound, or the plainest one where there is no time for a better.
func (v *prover) wait() bound.Bound {
	if v.begun {
		select {
		case b := <-v.found:
			return b
		case <-v.ctx.Done():
		}
		select {
		case b := <-v.found: // the best so far
			return b
		case <-time.After(proofGrace):
		}
	}
	return bound.Plain(v.problem.toBound())
}
