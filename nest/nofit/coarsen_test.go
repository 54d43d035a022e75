package nofit

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// wedge and hook have no symmetry of their own.
var (
	wedge = orb.Ring{{0, 0}, {30, 0}, {22, 9}, {0, 14}, {0, 0}}
	hook  = orb.Ring{{0, 0}, {26, 0}, {26, 18}, {17, 18}, {19, 7}, {0, 5}, {0, 0}}
)

func rectangle(w, h float64) orb.Ring { return orb.Ring{{0, 0}, {w, 0}, {w, h}, {0, h}, {0, 0}} }

// fineComb is a bar with teeth.
func fineComb(teeth int) orb.Ring {
	ring := orb.Ring{{0, 0}, {float64(4 * teeth), 0}}
	for k := teeth; k > 0; k-- {
		x := float64(4 * k)
		ring = append(ring, orb.Point{x, 60}, orb.Point{x - 2, 60}, orb.Point{x - 2, 8}, orb.Point{x - 4, 8})
	}
	return append(ring, ring[0])
}

// TestOutlinesAreKeptSmall: whatever is given, what is searched on has few parts and corners
// and leaves nothing of the given outline out; simple ones stay as they are.
func TestOutlinesAreKeptSmall(t *testing.T) {
	rough := rand.New(rand.NewPCG(3, 3))
	burr := orb.Ring{}
	for k := range 900 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / 900)
		r := 80 + 6*rough.Float64()
		burr = append(burr, orb.Point{100 + r*cos, 100 + r*sin})
	}
	burr = plane.SnapRing(append(burr, burr[0]))
	for name, given := range map[string]orb.Ring{
		"rectangle": rectangle(40, 20), "hook": hook, "comb": fineComb(12), "long comb": fineComb(150), "burr": burr,
	} {
		given = plane.Canonical(given)
		ring, s := Coarsened(given)
		if s.Parts() > mostPartsEver || len(ring)-1 > mostCornersEver {
			t.Errorf("%s: %d parts, %d corners", name, s.Parts(), len(ring)-1)
		}
		for _, v := range given {
			if inside, on := windsRound(ring, v); !inside && !on {
				t.Fatalf("%s: %v is left out", name, v)
			}
		}
		if plane.Area(ring) < plane.Area(given)*(1-1e-9) {
			t.Errorf("%s: %v mm2 of %v", name, plane.Area(ring), plane.Area(given))
		}
		if len(given) < 10 && !slices.Equal(ring, given) {
			t.Errorf("%s: %v is searched on as %v", name, given, ring)
		}
	}
}

// windsRound says whether a point lies within a ring or on it, by counting crossings.
func windsRound(ring orb.Ring, v orb.Point) (inside, on bool) {
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		cross := (b[0]-a[0])*(v[1]-a[1]) - (b[1]-a[1])*(v[0]-a[0])
		if math.Abs(cross) < 1e-9 && (v[0]-a[0])*(v[0]-b[0]) <= 1e-9 && (v[1]-a[1])*(v[1]-b[1]) <= 1e-9 {
			return true, true
		}
		if (a[1] <= v[1]) != (b[1] <= v[1]) && v[0] < a[0]+(b[0]-a[0])*(v[1]-a[1])/(b[1]-a[1]) {
			inside = !inside
		}
	}
	return inside, false
}

// TestReflexCorners: of a comb two for each gap between teeth, of anything convex none.
func TestReflexCorners(t *testing.T) {
	for n := 1; n < 9; n++ {
		if got := reflexCorners(plane.Tidy(fineComb(n))); got != 2*n-1 {
			t.Errorf("%d teeth: %d", n, got)
		}
	}
	if got := reflexCorners(rectangle(3, 4)) + reflexCorners(wedge); got != 0 {
		t.Errorf("%d of convex ones", got)
	}
}
