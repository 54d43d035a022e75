package judge

import (
	"math"

	"yardlay/shapes/say"
)

// judgeAlike judges whether the copies that must lie alike two by two lie on the
// same grain and lean alike.
func judgeAlike(p Problem, l Layout) error {
	type pair struct{ piece, number int }
	first := map[pair]Placed{}
	for _, pl := range l.Placed {
		if !p.Pieces[pl.Piece].Alike {
			continue
		}
		of := pair{pl.Piece, pl.Copy / 2}
		other, met := first[of]
		if !met {
			first[of] = pl
		} else if !sameGrain(other.drawnTurn(), pl.drawnTurn()) {
			return &Broken{Rule: MixedGrain, Piece: p.Pieces[pl.Piece].Name, Copy: pl.Copy, At: pl.At,
				Detail: say.Textf("it is turned off copy %d by %.3g degrees", other.Copy+1,
					math.Abs(math.Remainder(other.drawnTurn()-pl.drawnTurn(), 180)))}
		}
	}
	return nil
}

// sameGrain says whether two turns, as drawn, lay the threads of the cloth along the
// same lines of a piece: whether they are half turns apart.
func sameGrain(a, b float64) bool { return math.Abs(math.Remainder(a-b, 180)) < turnTolerance }

// turnTolerance is how far turns may differ and count as one, degrees: they are given
// to a few decimals.
const turnTolerance = 1e-6
