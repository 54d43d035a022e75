package plane

import (
	"math"
	"math/cmplx"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"
)

// drawn is a ring of whole numbers around the origin that is simple.
func drawn(t *rapid.T) orb.Ring {
	n := rapid.IntRange(3, 9).Draw(t, "corners")
	ring := make(orb.Ring, 0, n+1)
	for i := range n {
		r := float64(rapid.IntRange(50, 900).Draw(t, "radius"))
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.3) / float64(n))
		ring = append(ring, orb.Point{math.Round(r * cos), math.Round(r * sin)})
	}
	ring = Tidy(append(ring, ring[0]))
	if CheckSimple(ring) != nil {
		t.Skip("not simple")
	}
	return ring
}

// A pose is a mirror, a turn and a move, in that order: in complex numbers
// conj(v) exp(i turn) + at.
func TestPosesAreComplexNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := drawn(t)
		p := Pose{rapid.Bool().Draw(t, "mirrored"), rapid.Float64Range(-800, 800).Draw(t, "turn"),
			orb.Point{rapid.Float64Range(-1e4, 1e4).Draw(t, "x"), rapid.Float64Range(-1e4, 1e4).Draw(t, "y")}}
		placed := p.Apply(ring)
		if Area(placed) < 0 || math.Abs(Area(placed)-Area(ring)) > 1e-3 {
			t.Errorf("area %.4f became %.4f", Area(ring), Area(placed))
		}
		if p.Mirrored {
			placed.Reverse()
		}
		for i, v := range ring {
			z := complex(v[0], v[1])
			if p.Mirrored {
				z = cmplx.Conj(z)
			}
			z = z*cmplx.Rect(1, p.Turn*math.Pi/180) + complex(p.At[0], p.At[1])
			if want := (orb.Point{real(z), imag(z)}); norm(sub(placed[i], want)) > 1e-8 || placed[i] != p.ApplyPoint(v) {
				t.Fatalf("%v comes to lie at %v and %v, want %v", v, placed[i], p.ApplyPoint(v), want)
			}
		}
	})
}

// Area, bounds and length by two libraries of others, far from the origin too.
func TestSizesByOtherLibraries(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := drawn(t)
		far := float64(rapid.IntRange(-20000, 20000).Draw(t, "far"))
		moved := Pose{At: orb.Point{far, -far}}.Apply(ring)
		flat := make([]float64, 0, 2*len(ring))
		for _, v := range moved {
			flat = append(flat, v[0], v[1])
		}
		other := geom.NewPolygonXY(flat)
		if got := Area(moved); math.Abs(got-planar.Area(moved)) > 1e-6*got || math.Abs(got-other.Area()) > 1e-6*got {
			t.Errorf("area %v, orb %v, simplefeatures %v", got, planar.Area(moved), other.Area())
		}
		if got := Length(moved); math.Abs(got-planar.Length(moved)) > 1e-6 {
			t.Errorf("length %v, orb %v", got, planar.Length(moved))
		}
		if Bounds(moved) != moved.Bound() {
			t.Errorf("bounds %v, orb %v", Bounds(moved), moved.Bound())
		}
		if err := other.Validate(); err != nil {
			t.Errorf("simple here, not to the other library: %v", err)
		}
		if form := Canonical(moved); form[0][0] > slices.MinFunc(form, byX)[0] || !slices.Equal(form, Canonical(ring)) {
			t.Errorf("the canonical form begins at %v, moved it is another one", form[0])
		}
	})
	if a := Area(orb.Ring{{0, 0}, {4, 0}, {0, 0}}); a != 0 {
		t.Errorf("two corners have area %v", a)
	}
}

func byX(a, b orb.Point) int { return int(math.Copysign(1, a[0]-b[0])) }

// The sweep that judges whether a ring is simple, by another library.
func TestSimpleByAnotherLibrary(t *testing.T) {
	judged := map[bool]int{}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 7).Draw(t, "n")
		ring, flat := make(orb.Ring, 0, n+1), []float64{}
		for range n {
			v := orb.Point{float64(rapid.IntRange(0, 9).Draw(t, "x")), float64(rapid.IntRange(0, 9).Draw(t, "y"))}
			if len(ring) > 0 && ring[len(ring)-1] == v {
				t.Skip("a corner twice, which the other library forgives")
			}
			ring = append(ring, v)
		}
		if ring[0] == ring[n-1] {
			t.Skip("a corner twice")
		}
		ring = append(ring, ring[0])
		for _, v := range ring {
			flat = append(flat, v[0], v[1])
		}
		other := geom.NewPolygonXY(flat).Validate() == nil
		reversed := slices.Clone(ring)
		reversed.Reverse()
		if mine := CheckSimple(ring) == nil || CheckSimple(reversed) == nil; mine != other {
			t.Fatalf("%v: simple %v, by the other library %v", ring, mine, other)
		}
		if other && (CheckSimple(ring) == nil) == (CheckSimple(reversed) == nil) {
			t.Fatalf("%v runs both ways", ring)
		}
		judged[other]++
	})
	if judged[true] < 5 || judged[false] < 5 {
		t.Errorf("too few of one kind: %v", judged)
	}
	for _, bad := range []orb.Point{{math.Inf(1), 0}, {math.Inf(-1), 0}, {0, math.Inf(1)}, {0, math.Inf(-1)},
		{math.NaN(), 0}, {0, math.NaN()}} {
		if CheckSimple(orb.Ring{{0, 0}, {1, 0}, bad, {0, 0}}) == nil {
			t.Errorf("%v passes for a corner", bad)
		}
	}
}

// Half an outline on its fold and its reflection make the whole: twice the area, as wide,
// and the same seen in the fold.
func TestUnfoldedHalves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		level := float64(rapid.IntRange(-40, 40).Draw(t, "level"))
		half := orb.Ring{{0, level}, {900, level}}
		for x := 900.0; x >= 0; x -= 300 {
			half = append(half, orb.Point{x, level + float64(rapid.IntRange(1, 500).Draw(t, "y"))})
		}
		start := rapid.IntRange(0, len(half)-1).Draw(t, "start")
		half = append(slices.Clone(half[start:]), half[:start]...)
		half = append(half, half[0])
		whole := Unfold(half, level)
		if err := CheckSimple(whole); err != nil || Area(whole) != 2*Area(half) {
			t.Fatalf("%v unfolds to %v: %v", half, whole, err)
		}
		if b, h := Bounds(whole), Bounds(half); b.Min[0] != h.Min[0] || b.Max != h.Max || b.Min[1] != 2*level-h.Max[1] {
			t.Errorf("%v unfolds to %v", h, b)
		}
		seen := orb.Ring(MirrorLine(orb.LineString(whole), level))
		if !slices.Equal(Canonical(seen), Canonical(whole)) {
			t.Errorf("%v is not its own reflection", whole)
		}
	})
	square := orb.Ring{{0, 5}, {4, 5}, {4, 9}, {0, 9}, {0, 5}}
	if got := Unfold(square, 3); !got.Equal(square) {
		t.Errorf("off the fold it becomes %v", got)
	}
	line := orb.LineString{{1, 2}, {3, 4}}
	if MoveLine(line, orb.Point{10, -20}); !line.Equal(orb.LineString{{11, -18}, {13, -16}}) {
		t.Errorf("moved to %v", line)
	}
}

// However large the error that is allowed, a full turn is a triangle at least; and no arc
// takes one chord more than its error asks for.
func TestFewestChords(t *testing.T) {
	for _, sagitta := range []float64{0.5, 1, 5, 10, 19.9, 20, 25, 1e6} {
		if line := Arc(orb.Point{}, 10, 0, 2*math.Pi, sagitta); len(line) < 4 || Area(orb.Ring(line)) < 129 {
			t.Errorf("error %v: %d chords", sagitta, len(line)-1)
		}
	}
	for n := 3; n < 200; n++ { // the sagitta of exactly n chords
		sagitta := 300 * (1 - math.Cos(math.Pi/float64(n)))
		if line := Arc(orb.Point{}, 300, 0, 2*math.Pi, sagitta); len(line) != n+1 {
			t.Errorf("%d chords where %d will do", len(line)-1, n)
		}
	}
	if line := Arc(orb.Point{}, 300, 0, 0.01, 0.1); len(line) != 2 {
		t.Errorf("a shallow arc takes %d chords", len(line)-1)
	}
	if line := Arc(orb.Point{5, 5}, 0, 1, 2, 0.1); line[0] != (orb.Point{5, 5}) || line[len(line)-1] != line[0] {
		t.Errorf("an arc of no radius: %v", line)
	}
}

// Coordinates in messages are to a micrometre, with their unit.
func TestPointsInMessages(t *testing.T) {
	if got := Point(orb.Point{1.0 / 3, -2}).String(); got != "(0.333 mm, -2 mm)" {
		t.Errorf("said as %s", got)
	}
	if got := Place(orb.Point{1.0 / 3, -2}).String(); got != "(0.333 mm, -2.000 mm)" {
		t.Errorf("said as %s", got)
	}
	if p := SnapPoint(orb.Point{0.4 / 1024, 1.6 / 1024}); p != (orb.Point{0, 2.0 / 1024}) {
		t.Errorf("snapped to %v", p)
	}
}
