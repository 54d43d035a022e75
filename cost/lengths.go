package cost

import (
	"math/big"

	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Lengths come as float64 millimetres and are turned into exact fractions here,
// and back, and nowhere else in the package.

// exact gives the exact value of a finite length in mm.
func exact(mm float64) *big.Rat { return new(big.Rat).SetFloat64(mm) }

// nearest gives the float64 nearest to an exact length in mm.
func nearest(mm *big.Rat) float64 {
	f, _ := mm.Float64()
	return f
}

// needed gives the exact length that must be bought for a used length of more
// than 0: less measure.Guard, and still more than 0.
func needed(used float64) *big.Rat {
	if used > measure.Guard {
		return exact(used - measure.Guard)
	}
	return exact(used)
}

// stepsUp counts the steps that hold a length of more than 0 with the guard
// taken off already: at least one.
func stepsUp(need, step *big.Rat) *big.Int { return ceil(new(big.Rat).Quo(need, step)) }

// longestSum is the greatest sum of lengths worked with, mm: a thousand
// kilometres, the thread and seams of a large run.
const longestSum = 1000 * measure.Longest

// checkLength refuses by name a length that is no number from 0 to most mm.
func checkLength(name string, mm, most float64) error {
	if !(mm >= 0) || mm > most {
		return say.Errorf("%s of %v is not between 0 and %v km", name, say.MM(mm), most/measure.Longest)
	}
	return nil
}
