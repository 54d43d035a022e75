package plane

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

func TestCheckSimple(t *testing.T) {
	for _, c := range []struct {
		name string
		ring orb.Ring
		want string // part of the error; none when empty
	}{
		{"square", orb.Ring{{0, 0}, {1, 0}, {1, 1}, {0, 1}, {0, 0}}, ""},
		{"collinear vertex", orb.Ring{{0, 0}, {1, 0}, {2, 0}, {1, 1}, {0, 0}}, ""},
		{"clockwise", orb.Ring{{0, 0}, {0, 1}, {1, 1}, {1, 0}, {0, 0}}, "clockwise"},
		{"two vertices", orb.Ring{{0, 0}, {1, 0}, {0, 0}}, "3 vertices"},
		{"open", orb.Ring{{0, 0}, {1, 0}, {1, 1}, {0, 1}}, "open: starts at (0.000, 0.000), ends at (0.000, 1.000)"},
		{"not finite", orb.Ring{{0, 0}, {1, math.NaN()}, {1, 1}, {0, 0}}, "vertex 1 is not finite"},
		{"repeated", orb.Ring{{0, 0}, {1, 0}, {1, 0}, {1, 1}, {0, 0}}, "vertex 2 at (1.000, 0.000) is repeated"},
		{"bow tie", orb.Ring{{0, 0}, {2, 2}, {2, 0}, {0, 2}, {0, 0}}, "at (1.000, 1.000): edges 0 and 2"},
		{"spike", orb.Ring{{0, 0}, {4, 0}, {2, 0}, {2, 2}, {0, 0}}, "turns back upon itself at vertex 1"},
		{"zero-width slit", orb.Ring{{0, 0}, {4, 0}, {4, 4}, {2, 4}, {2, 2}, {2, 4}, {0, 4}, {0, 0}}, "turns back"},
		{"touches a vertex", orb.Ring{{0, 0}, {4, 0}, {4, 4}, {2, 0}, {0, 4}, {0, 0}}, "at (2.000, 0.000)"},
		{"edges overlap", orb.Ring{{0, 0}, {6, 0}, {6, 2}, {4, 2}, {4, 0}, {2, 0}, {2, 2}, {0, 2}, {0, 0}}, "crosses or touches itself"},
	} {
		err := CheckSimple(c.ring)
		switch {
		case c.want == "" && err != nil:
			t.Errorf("%s: %v", c.name, err)
		case c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)):
			t.Errorf("%s: got %v, want %q", c.name, err, c.want)
		}
	}
}

// One lattice step decides: the exact predicates see a vertex on an edge and one beside it.
func TestCheckSimpleByOneStep(t *testing.T) {
	ring := func(y float64) orb.Ring {
		return orb.Ring{{0, 0}, {30000, 10000}, {30000, 20000}, {15000, y}, {0, 20000}, {0, 0}}
	}
	if err := CheckSimple(ring(5000)); err == nil {
		t.Error("a vertex on an edge was let pass")
	}
	if err := CheckSimple(ring(5000 + Lattice)); err != nil {
		t.Errorf("a vertex one step beside an edge: %v", err)
	}
}

// slowSimple tests every pair of edges that are not neighbours: the slow twin.
func slowSimple(r orb.Ring) bool {
	n := len(r) - 1
	for i := range n {
		for j := i + 2; j < n; j++ {
			if (j+1)%n != i && SegmentsMeet(r[i], r[i+1], r[j], r[j+1]) {
				return false
			}
		}
	}
	return true
}

func TestSweepAgreesWithAllPairs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 8).Draw(t, "n")
		coordinate := rapid.IntRange(0, 6)
		ring := make(orb.Ring, n)
		for i := range ring {
			ring[i] = orb.Point{float64(coordinate.Draw(t, "x")), float64(coordinate.Draw(t, "y"))}
		}
		ring = append(ring, ring[0])
		for i := range n {
			if ring[i] == ring[i+1] {
				t.Skip("repeated vertex")
			}
		}
		if checkSpikes(ring) != nil {
			t.Skip("spike")
		}
		if got, want := checkCrossings(ring) == nil, slowSimple(ring); got != want {
			t.Fatalf("%v: sweep says %v, all pairs %v", ring, got, want)
		}
	})
}

func TestCheckSimpleIsFast(t *testing.T) {
	circle := orb.Ring(Arc(orb.Point{}, 5000, 0, 2*math.Pi, 0.006))
	if len(circle) < 2000 {
		t.Fatalf("%d vertices only", len(circle))
	}
	start := time.Now()
	if err := CheckSimple(circle); err != nil {
		t.Fatal(err)
	}
	if d := time.Since(start); d > 500*time.Millisecond { // a few ms; the margin is for busy machines
		t.Errorf("took %v", d)
	}
}

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
			{orb.LineString{{inner * math.Cos(half), -inner * math.Sin(half)}, {outer * math.Cos(half), -outer * math.Sin(half)}}, 0},
			{Arc(orb.Point{}, outer, -half, half, chord), h},
			{orb.LineString{{outer * math.Cos(half), outer * math.Sin(half)}, {inner * math.Cos(half), inner * math.Sin(half)}}, 0},
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

func TestTidy(t *testing.T) {
	square := orb.Ring{{0, 0}, {4, 0}, {4, 4}, {0, 4}, {0, 0}}
	for name, r := range map[string]orb.Ring{
		"repeated":           {{0, 0}, {0, 0}, {4, 0}, {4, 4}, {4, 4}, {0, 4}, {0, 0}, {0, 0}},
		"collinear":          {{0, 0}, {1, 0}, {2, 0}, {4, 0}, {4, 1}, {4, 4}, {0, 4}, {0, 0}},
		"clockwise":          {{0, 0}, {0, 4}, {4, 4}, {4, 0}, {0, 0}},
		"starts mid-side":    {{2, 0}, {4, 0}, {4, 4}, {0, 4}, {0, 0}, {1, 0}, {2, 0}},
		"spike":              {{0, 0}, {4, 0}, {7, 0}, {4, 0}, {4, 4}, {0, 4}, {0, 0}},
		"spike where closed": {{-3, 0}, {4, 0}, {4, 4}, {0, 4}, {0, 0}, {-3, 0}},
	} {
		got := Tidy(r)
		if Area(got) != 16 || len(got) != 5 || CheckSimple(got) != nil {
			t.Errorf("%s: %v, want %v turned about at most", name, got, square)
		}
	}
}
