package nest

import (
	"fmt"
	"math"
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
				Detail: fmt.Sprintf("it is turned off copy %d by %.3g degrees", other.Copy+1,
					math.Abs(math.Remainder(other.drawnTurn()-pl.drawnTurn(), 180)))}
		}
	}
	return nil
}
