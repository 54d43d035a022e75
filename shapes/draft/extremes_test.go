package draft

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes"
)

// Whatever the measures, a skirt is sound pieces or a refusal, never a panic.
func TestSkirtsAnswerAnything(t *testing.T) {
	measure := func(t *rapid.T, name string) float64 {
		return math.Pow(10, rapid.Float64Range(-1, 5).Draw(t, name))
	}
	rapid.Check(t, func(t *rapid.T) {
		a := shapes.Allowance{Seam: measure(t, "seam") - 0.1, Waist: measure(t, "waist allowance") - 0.1,
			Hem: measure(t, "hem allowance") - 0.1}
		gores := rapid.IntRange(-1, 110).Draw(t, "gores")
		opening := rapid.Bool().Draw(t, "opening")
		raise := measure(t, "raise") - 1
		drafts := []Draft{
			CircleSkirt{
				Fraction: measure(t, "fraction") / 10, Gores: gores, Waist: measure(t, "waist"),
				Length:      measure(t, "length"),
				FrontOnFold: rapid.Bool().Draw(t, "fold"), Opening: opening, HemRaise: raise, Allowance: a, Chord: 1,
			},
			GoredSkirt{
				Waist: measure(t, "waist"), Hip: measure(t, "hip"), HipDepth: measure(t, "depth"),
				HemSweep: measure(t, "sweep"),
				FrontHem: measure(t, "front hem") - 1, Length: measure(t, "length"), Gores: gores,
				FlareFrom: measure(t, "flare") - 1,
				HemRaise:  raise, Opening: opening, Allowance: a, Chord: 1,
			},
		}
		for _, d := range drafts {
			pieces, err := piecesOf(d)
			if err != nil {
				continue
			}
			for _, p := range pieces {
				sound(t, p)
				if p.OnFold {
					sound(t, p.Unfold())
				}
			}
		}
	})
}
