package shapes

import (
	"slices"

	"yardlay/shapes/say"
)

// SewingStep is one line of a sewing-order list: a seam and the lengths of its
// two sides.
type SewingStep struct {
	Join                 Join
	CutA, CutB           float64 // sides as cut, mm
	FinishedA, FinishedB float64 // once their treatments have taken up the surplus, mm
	Difference           float64 // FinishedA - FinishedB, mm: what is left over when sewing
}

// SewingOrder lists the seams in an order in which they can be sewn: one that runs
// on over another seam, as an armhole does over the shoulder, comes after it;
// otherwise the order of the joins is kept. Errors name the join, and pieces or
// edges that are not among the pieces.
func SewingOrder(pieces []Piece, joins []Join) ([]SewingStep, error) {
	steps := make([]SewingStep, 0, len(joins))
	for _, j := range sewable(joins) {
		step := SewingStep{Join: j}
		var err error
		if step.CutA, step.FinishedA, err = j.A.Measure(pieces); err == nil {
			step.CutB, step.FinishedB, err = j.B.Measure(pieces)
		}
		if err != nil {
			return nil, say.Errorf("seam %q: %w", j.Name, err)
		}
		step.Difference = step.FinishedA - step.FinishedB
		steps = append(steps, step)
	}
	return steps, nil
}

// sewable brings joins into an order in which none runs over a seam that is
// still open. Joins that wait for each other keep their order.
func sewable(joins []Join) []Join {
	rest, out := slices.Clone(joins), make([]Join, 0, len(joins))
	for len(rest) > 0 {
		next := slices.IndexFunc(rest, func(j Join) bool {
			return !slices.ContainsFunc(rest, func(other Join) bool { return j.runsOver(other) })
		})
		next = max(next, 0)
		out = append(out, rest[next])
		rest = slices.Delete(rest, next, next+1)
	}
	return out
}

// runsOver says whether a side of j passes from one piece to another that the
// other join sews together.
func (j Join) runsOver(other Join) bool {
	for _, s := range []JoinSide{j.A, j.B} {
		for i := 1; i < len(s.Edges); i++ {
			a, b := s.Edges[i-1].Piece, s.Edges[i].Piece
			if other.sews(a, b) || other.sews(b, a) {
				return true
			}
		}
	}
	return false
}

// sews says whether the join has piece a on its side A and piece b on side B,
// one edge each.
func (j Join) sews(a, b string) bool {
	return len(j.A.Edges) == 1 && len(j.B.Edges) == 1 && j.A.Edges[0].Piece == a && j.B.Edges[0].Piece == b
}
