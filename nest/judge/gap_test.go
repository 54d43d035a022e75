package judge

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
)

// Distances in fractions, every vertex against every edge, for the gap.
func slowSquaredDistance(a, b orb.Ring) *big.Rat {
	least := (*big.Rat)(nil)
	for _, pair := range [2][2]orb.Ring{{a, b}, {b, a}} {
		for _, v := range pair[0] {
			for i := 1; i < len(pair[1]); i++ {
				if d := slowPointEdge(v, pair[1][i-1], pair[1][i]); least == nil || d.Cmp(least) < 0 {
					least = d
				}
			}
		}
	}
	return least
}

// slowPointEdge finds the foot of p on the edge, kept between its ends.
func slowPointEdge(p, from, to orb.Point) *big.Rat {
	rat := func(v float64) *big.Rat { return new(big.Rat).SetFloat64(v) }
	dot := func(ax, ay, bx, by *big.Rat) *big.Rat {
		x := new(big.Rat).Mul(ax, bx)
		return x.Add(x, new(big.Rat).Mul(ay, by))
	}
	ux, uy := rat(to[0]-from[0]), rat(to[1]-from[1])
	vx, vy := rat(p[0]-from[0]), rat(p[1]-from[1])
	t := dot(ux, uy, vx, vy)
	t.Quo(t, dot(ux, uy, ux, uy))
	if t.Sign() < 0 {
		t = new(big.Rat)
	} else if t.Cmp(big.NewRat(1, 1)) > 0 {
		t = big.NewRat(1, 1)
	}
	vx.Sub(vx, ux.Mul(ux, t))
	vy.Sub(vy, uy.Mul(uy, t))
	return dot(vx, vy, vx, vy)
}

// The gap is exact: at the distance itself, and a float64 to either side of it.
func TestGapAgainstSlowTwin(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 19))
	exact := 0
	for range 600 {
		a, b := gridPair(r)
		if overlaps(t, a, b) {
			continue
		}
		square := slowSquaredDistance(a, b)
		float, _ := square.Float64()
		for _, gap := range []float64{math.Sqrt(float), math.Nextafter(math.Sqrt(float), 0),
			math.Nextafter(math.Sqrt(float), 99), float64(1 + r.IntN(5))} {
			if gap == 0 {
				continue // Verify asks only for gaps above 0
			}
			given := new(big.Rat).SetFloat64(gap)
			order := square.Cmp(given.Mul(given, given))
			if order == 0 {
				exact++
			}
			var j pairing
			if _, got := j.tooClose(mustLine(t, a), mustLine(t, b), newClearance(gap)); got != (order < 0) {
				t.Fatalf("gap %v: too close %v, squared distance %v\na %v\nb %v", gap, got, square, a, b)
			}
		}
	}
	if exact < 60 {
		t.Errorf("only %d gaps met exactly", exact)
	}
}
