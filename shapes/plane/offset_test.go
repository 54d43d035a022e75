package plane

import (
	"errors"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

func rect(w, h float64, allowances ...float64) []Side {
	c := []orb.Point{{0, 0}, {w, 0}, {w, h}, {0, h}, {0, 0}}
	sides := make([]Side, 4)
	for i := range sides {
		sides[i] = Side{Line: orb.LineString{c[i], c[i+1]}, Allowance: allowances[i]}
	}
	return sides
}

func offsetRing(t *testing.T, sides []Side) orb.Ring {
	t.Helper()
	ring, err := Offset(sides, MitreLimit)
	if err != nil {
		t.Fatal(err)
	}
	return Tidy(SnapRing(ring))
}

// Each side by its own allowance; next to a fold the ends are square on the fold.
func TestOffsetRectangle(t *testing.T) {
	got := offsetRing(t, rect(100, 50, 0, 25, 10, 5))
	want := orb.Ring{{-5, 0}, {125, 0}, {125, 60}, {-5, 60}, {-5, 0}}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

// An equilateral triangle of side s keeps its mitres at limit 2.5 (they stand
// out by 2 a): the cut line is a triangle of inradius r + a.
func TestOffsetKeepsMitre(t *testing.T) {
	h := 50 * math.Sqrt(3)
	tri := orb.LineString{{0, 0}, {100, 0}, {50, h}, {0, 0}}
	got := offsetRing(t, []Side{{tri, 10}})
	inradius := h / 3
	want := 3 * math.Sqrt(3) * (inradius + 10) * (inradius + 10) // area of a triangle about a circle
	if a := Area(got); math.Abs(a-want) > 0.1 || len(got) != 4 {
		t.Errorf("area %.3f, want %.3f; %v", a, want, got)
	}
}

// A point of 20 degrees would be mitred 5.76 a away; it is squared off at 2.5 a.
func TestOffsetSquaresSharpCorner(t *testing.T) {
	half := 10 * math.Pi / 180
	x, y := 200*math.Cos(half), 200*math.Sin(half)
	got := offsetRing(t, []Side{{orb.LineString{{0, 0}, {x, -y}, {x, y}, {0, 0}}, 10}})
	b := Bounds(got)
	if math.Abs(b.Min[0]+25) > Lattice {
		t.Errorf("squared at %.4f, want -25", b.Min[0])
	}
	// There the offset flanks stand a/cos - 2.5 a tan of the half angle from the axis.
	want := 10/math.Cos(half) - 25*math.Tan(half)
	for _, p := range got {
		if p[0] < -24 && math.Abs(math.Abs(p[1])-want) > Lattice {
			t.Errorf("corner at %v, want +-%.4f", p, want)
		}
	}
}

// A sharp corner on a fold is squared to the fold: unfolded, the end is one straight cut.
func TestOffsetSquaresToFold(t *testing.T) {
	got := offsetRing(t, []Side{
		{orb.LineString{{0, 0}, {300, 0}}, 0},
		{orb.LineString{{300, 0}, {300, 50}, {0, 0}}, 12},
	})
	b := Bounds(got)
	if b.Min[0] != -30 || b.Min[1] != 0 {
		t.Errorf("starts at %v, want -30 on the fold", b.Min)
	}
	count := 0
	for _, p := range got[1:] {
		if p[0] == -30 {
			count++
		}
	}
	if count != 2 {
		t.Errorf("%d vertices at the squared end: %v", count, got)
	}
}

// Where the outline runs straight on and the allowance changes the cut line steps.
func TestOffsetSteps(t *testing.T) {
	got := offsetRing(t, []Side{
		{orb.LineString{{0, 0}, {50, 0}}, 10},
		{orb.LineString{{50, 0}, {100, 0}, {100, 40}, {0, 40}, {0, 0}}, 20},
	})
	// (100 + 20 + 20) x (40 + 20 + 20), less 10 over the 50 + 20 mm of the first side.
	if a := Area(got); a != 140*80-10*70 {
		t.Errorf("area %g: %v", a, got)
	}
	if err := CheckSimple(got); err != nil {
		t.Error(err)
	}
}

// The cut line of a sampled arc is the arc of radius r +- a within the chord error.
func TestOffsetArc(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inner := rapid.Float64Range(40, 400).Draw(t, "inner")
		outer := inner + rapid.Float64Range(50, 1000).Draw(t, "length")
		half := rapid.Float64Range(0.1, 1.5).Draw(t, "half")
		a := rapid.Float64Range(0, 30).Draw(t, "waist")
		h := rapid.Float64Range(0, 30).Draw(t, "hem")
		const chord = 0.1
		ring, err := Offset([]Side{
			{orb.LineString{{inner * math.Cos(half), -inner * math.Sin(half)},
				{outer * math.Cos(half), -outer * math.Sin(half)}}, 0},
			{Arc(orb.Point{}, outer, -half, half, chord), h},
			{orb.LineString{{outer * math.Cos(half), outer * math.Sin(half)},
				{inner * math.Cos(half), inner * math.Sin(half)}}, 0},
			{Arc(orb.Point{}, inner, half, -half, chord), a},
		}, MitreLimit)
		if err != nil {
			t.Fatal(err)
		}
		ring = Tidy(SnapRing(ring))
		if err := CheckSimple(ring); err != nil {
			t.Fatal(err)
		}
		for i := 1; i < len(ring); i++ {
			p, q := ring[i-1], ring[i]
			m := orb.Point{(p[0] + q[0]) / 2, (p[1] + q[1]) / 2}
			if math.Abs(math.Abs(math.Atan2(m[1], m[0]))-half) < 1e-3 {
				continue // the straight sides
			}
			for _, v := range []orb.Point{p, m, q} {
				d := math.Hypot(v[0], v[1])
				if math.Min(math.Abs(d-(inner-a)), math.Abs(d-(outer+h))) > chord+Lattice {
					t.Fatalf("%v is %.3f from the centre, want %.3f or %.3f", v, d, inner-a, outer+h)
				}
			}
		}
		// Closed form of the ring sector; sampling loses at most chord along each arc.
		want := half * ((outer+h)*(outer+h) - (inner-a)*(inner-a))
		if got := Area(ring); math.Abs(got-want) > 2*half*chord*(outer+h+inner)+1 {
			t.Fatalf("area %.1f, want %.1f", got, want)
		}
	})
}

// An inside bend tighter than the allowance: the notch of a heart closes up.
func TestOffsetDropsLoops(t *testing.T) {
	dent := Arc(orb.Point{50, 0}, 6, math.Pi, 0, 0.05) // a dent of radius 6 in the lower side
	lower := append(orb.LineString{{0, 0}}, dent...)
	lower = append(lower, orb.Point{100, 0})
	got := offsetRing(t, []Side{
		{lower, 10},
		{orb.LineString{{100, 0}, {100, 60}, {0, 60}, {0, 0}}, 10},
	})
	if err := CheckSimple(got); err != nil {
		t.Fatal(err)
	}
	want := orb.Ring{{-10, -10}, {110, -10}, {110, 70}, {-10, 70}, {-10, -10}}
	if a := Area(got); math.Abs(a-Area(want)) > 2 {
		t.Errorf("area %.3f, want %.3f: %v", a, Area(want), got)
	}
}

func TestOffsetSwallowed(t *testing.T) {
	dent := Arc(orb.Point{50, 0}, 6, math.Pi, 0, 0.05)
	_, err := Offset([]Side{
		{orb.LineString{{0, 0}, dent[0]}, 10},
		{dent, 10},
		{orb.LineString{dent[len(dent)-1], {100, 0}, {100, 60}, {0, 60}, {0, 0}}, 10},
	}, MitreLimit)
	var lost *Swallowed
	if !errors.As(err, &lost) || lost.Side != 1 {
		t.Errorf("got %v, want side 1 swallowed", err)
	}
}
