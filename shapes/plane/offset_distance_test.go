package plane

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
)

// distance from a point to a segment.
func distance(p, a, b orb.Point) float64 {
	d := sub(b, a)
	t := dot(sub(p, a), d) / dot(d, d)
	return norm(sub(p, along(a, d, math.Max(0, math.Min(1, t)))))
}

// star returns a random star-shaped outline of straight sides with allowances of
// 0, 5, 10 or 15, all the same where even is true; nil when it is not simple.
func star(seed uint64, even bool) (orb.Ring, []Side) {
	rng := rand.New(rand.NewPCG(seed, 1))
	n := 4 + rng.IntN(12)
	seam := make(orb.Ring, n)
	for i := range seam {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.8*rng.Float64()) / float64(n))
		r := 80 + 120*rng.Float64()
		seam[i] = orb.Point{r * cos, r * sin}
	}
	seam = append(seam, seam[0])
	if CheckSimple(seam) != nil {
		return nil, nil
	}
	sides := make([]Side, n)
	same := float64(1+rng.IntN(3)) * 5
	for i := range sides {
		sides[i] = Side{orb.LineString{seam[i], seam[i+1]}, float64(rng.IntN(4)) * 5}
		if even {
			sides[i].Allowance = same
		}
	}
	return seam, sides
}

// nearer returns where a cut line comes nearer to a side than its allowance. A
// corner with a neighbour of a smaller allowance is left out as far as a mitre
// reaches: there the neighbour's cut line rightly starts.
func nearer(ring orb.Ring, sides []Side) (orb.Point, bool) {
	n := len(sides)
	for i := 1; i < len(ring); i++ {
		for k := range 11 {
			p := along(ring[i-1], sub(ring[i], ring[i-1]), float64(k)/10)
			for j, s := range sides {
				a, b := s.Line[0], s.Line[1]
				reach := MitreLimit * s.Allowance
				if sides[(j+n-1)%n].Allowance < s.Allowance && norm(sub(p, a)) < reach ||
					sides[(j+1)%n].Allowance < s.Allowance && norm(sub(p, b)) < reach {
					continue
				}
				if distance(p, a, b) < s.Allowance-2*Lattice {
					return p, true
				}
			}
		}
	}
	return orb.Point{}, false
}

// On random outlines the cut line never comes nearer to a side than the side's
// allowance and takes in the whole seam line, or the offset is refused.
func TestOffsetKeepsDistance(t *testing.T) {
	for _, even := range []bool{true, false} {
		tried, done := 0, 0
		for seed := range uint64(500) {
			seam, sides := star(seed, even)
			if seam == nil {
				continue
			}
			tried++
			ring, err := Offset(sides, MitreLimit)
			var lost *Swallowed
			if errors.As(err, &lost) {
				continue
			}
			if err != nil {
				t.Fatalf("seed %d: %v", seed, err)
			}
			ring = Tidy(SnapRing(ring))
			if CheckSimple(ring) != nil {
				continue
			}
			done++
			if at, bad := nearer(ring, sides); bad {
				t.Errorf("seed %d, even %v: cut line too near at %v", seed, even, at)
			}
			if Area(ring) < Area(seam)-1 {
				t.Errorf("seed %d: cut area %.1f under seam area %.1f", seed, Area(ring), Area(seam))
			}
		}
		t.Logf("even %v: %d of %d offset", even, done, tried)
		if done*10 < tried*9 {
			t.Errorf("even %v: only %d of %d outlines could be offset", even, done, tried)
		}
	}
}
