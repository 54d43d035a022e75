package plane

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

func TestHull(t *testing.T) {
	got := Hull([]orb.Point{{0, 0}, {1, 1}, {2, 0}, {1, 0}, {2, 2}, {0, 2}, {1, 2}, {0, 0}})
	if d := cmp.Diff(orb.Ring{{0, 0}, {2, 0}, {2, 2}, {0, 2}, {0, 0}}, got); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff(orb.Ring{{0, 0}, {2, 2}, {0, 0}}, Hull([]orb.Point{{0, 0}, {1, 1}, {2, 2}})); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff(orb.Ring{{1, 1}, {1, 1}}, Hull([]orb.Point{{1, 1}, {1, 1}})); d != "" {
		t.Error(d)
	}
}

func TestHullProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) orb.Point {
			c := rapid.IntRange(-40, 40)
			return orb.Point{float64(c.Draw(t, "x")) / 8, float64(c.Draw(t, "y")) / 8}
		}), 3, 40).Draw(t, "points")
		hull := Hull(points)
		if len(hull) < 4 {
			t.Skip("all on one line")
		}
		if err := CheckSimple(hull); err != nil {
			t.Fatal(err)
		}
		for i := 1; i < len(hull); i++ {
			for _, p := range points {
				if Orient(hull[i-1], hull[i], p) < 0 {
					t.Fatalf("%v lies outside", p)
				}
			}
		}
	})
}

// Vertices on the circle, chords within the error, ends where they belong.
func TestArc(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		radius := rapid.Float64Range(0.5, 20000).Draw(t, "radius")
		from := rapid.Float64Range(-7, 7).Draw(t, "from")
		angle := rapid.Float64Range(-2*math.Pi, 2*math.Pi).Draw(t, "angle")
		sagitta := rapid.Float64Range(0.01, 2).Draw(t, "sagitta")
		line := Arc(orb.Point{3, 4}, radius, from, from+angle, sagitta)
		for i, p := range line {
			if d := math.Hypot(p[0]-3, p[1]-4); math.Abs(d-radius) > 1e-9*radius {
				t.Fatalf("vertex at %g from the centre, radius %g", d, radius)
			}
			if i == 0 {
				continue
			}
			q := line[i-1]
			middle := math.Hypot((p[0]+q[0])/2-3, (p[1]+q[1])/2-4)
			if radius-middle > sagitta*(1+1e-6)+1e-9 {
				t.Fatalf("chord strays by %g, allowed %g", radius-middle, sagitta)
			}
		}
		end := orb.Point{3 + radius*math.Cos(from+angle), 4 + radius*math.Sin(from+angle)}
		if math.Abs(angle) < 2*math.Pi && line[len(line)-1] != end {
			t.Fatalf("ends at %v, want %v", line[len(line)-1], end)
		}
	})
	full := Arc(orb.Point{1, 1}, 10, -math.Pi, math.Pi, 0.1)
	if full[0] != full[len(full)-1] {
		t.Error("a full turn does not close")
	}
	if err := CheckSimple(orb.Ring(full)); err != nil {
		t.Error(err)
	}
}
