package nest

import (
	"context"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes/plane"
)

// However the pieces are shared out between a fold and the open stretch behind it,
// the cloth that both take, the gap between them included, is no shorter than the
// bound of all pieces on the open cloth; less a step of the lattice, onto which
// bounds are rounded up.
func TestNoShareOfAFoldIsUnderTheOpenBound(t *testing.T) {
	problems := rapid.Custom(func(t *rapid.T) Problem {
		p := Problem{Strip: Strip{Width: 300}, Gap: rapid.SampledFrom([]float64{0, 5}).Draw(t, "gap")}
		for i := range rapid.IntRange(2, 3).Draw(t, "kinds") {
			long, wide := float64(rapid.IntRange(20, 240).Draw(t, "long")),
				float64(rapid.IntRange(20, 140).Draw(t, "wide"))
			p.Pieces = append(p.Pieces, Piece{
				Name: fmt.Sprint("piece ", i), Outline: rect(0, 0, long, wide),
				Count: rapid.IntRange(2, 3).Draw(t, "count"),
			})
		}
		return p
	})
	laid := 0
	jobs := often.Jobs(often.Full(2, 4), 12)
	for seed := range jobs {
		p := problems.Example(seed)
		bound := LowerBound(context.Background(), p).Length
		for _, lay := range []Lay{LengthwiseFold, CrosswiseTurned, DoubleFold} {
			for share := 1; share < 1<<len(p.Pieces); share++ {
				stretches, err := p.fold(lay, 4, func(i int) Cutting {
					return Cutting{Double: share >> i & 1 * p.Pieces[i].Count / 2}
				})
				if err != nil {
					continue // nothing of this share fits the fold
				}
				cloth := p.Gap * float64(len(stretches)-1)
				for _, s := range stretches {
					r, err := Solve(context.Background(), s.Problem, Options{Effort: Trial, Workers: 1})
					if err != nil {
						t.Fatal(err)
					}
					cloth += s.Cloth(r.Layout.Length)
				}
				if laid++; cloth < bound-plane.Lattice {
					t.Errorf("problem %d, %v, share %b: takes %v mm, and the bound is %v", seed, lay, share, cloth,
						bound)
				}
			}
		}
	}
	if laid < 15*min(jobs, 4) {
		t.Errorf("only %d shares laid", laid)
	}
}
