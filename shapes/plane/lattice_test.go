package plane

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// Floor, Ceil and SnapDown against whole numbers, which are exact.
func TestOntoTheLattice(t *testing.T) {
	offs := []float64{0, 1e-6, -1e-6, 9e-7, -9e-7, 2e-6, -2e-6, 0.4 / 1024, -0.4 / 1024, 0.5 / 1024}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(-1<<36, 1<<36).Draw(t, "steps") // 65 m to either side
		v := float64(n)/1024 + rapid.SampledFrom(offs).Draw(t, "off")
		steps := new(big.Rat).SetFloat64(v)
		steps.Mul(steps, big.NewRat(1024, 1))
		if got, want := Floor(v)*1024, below(steps); got != want {
			t.Fatalf("the floor of %v is %v steps, not %v", v, got, want)
		}
		if got, want := Ceil(v)*1024, -below(new(big.Rat).Neg(steps)); got != want {
			t.Fatalf("the ceiling of %v is %v steps, not %v", v, got, want)
		}
		guarded := new(big.Rat).Add(steps, big.NewRat(1, 1000))
		if got, want := SnapDown(v)*1024, below(guarded); got != want {
			t.Fatalf("%v snaps down to %v steps, not %v", v, got, want)
		}
	})
}

// below is the greatest whole number not above r.
func below(r *big.Rat) float64 {
	whole, _ := new(big.Float).SetInt(new(big.Int).Div(r.Num(), r.Denom())).Float64() // Euclidean
	return whole
}
