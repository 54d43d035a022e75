package remains

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// ragged is a ring of many corners, as what lies between pieces with curved edges has.
func ragged(t *rapid.T) orb.Ring {
	n := rapid.IntRange(MostCorners+1, 4*MostCorners).Draw(t, "corners")
	size := rapid.Float64Range(200, 900).Draw(t, "size")
	waves, deep := rapid.IntRange(2, 9).Draw(t, "waves"), rapid.Float64Range(0, .4).Draw(t, "deep")
	ring := make(orb.Ring, n, n+1)
	for i := range n {
		a := 2 * math.Pi * float64(i) / float64(n)
		r := size * (1 + deep*math.Sin(float64(waves)*a))
		sin, cos := math.Sincos(a)
		ring[i] = plane.SnapPoint(orb.Point{2000 + r*cos, 2000 + r*sin})
	}
	return append(ring, ring[0])
}

// An outline of too many corners loses some, and is within what it was: nothing is kept that is no cloth. It stays
// simple, and loses little. Only corners that stand out can go. Areas are by simplefeatures.
func TestFewerCornersStayWithin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := ragged(t)
		got := fewer(ring)
		in := 0
		for i := 1; i < len(ring)-1; i++ {
			if plane.Orient(ring[i-1], ring[i], ring[i+1]) < 0 {
				in++
			}
		}
		if n := len(got) - 1; n > max(MostCorners, 2*in) || n < 3 {
			t.Fatalf("%d corners are left of %d", n, len(ring)-1)
		}
		if err := plane.CheckSimple(got); err != nil || plane.Area(got) <= 0 {
			t.Fatalf("%v: %v", got, err)
		}
		beyond, err := geom.Difference(areaOf(got).g, areaOf(ring).g)
		if err != nil || beyond.Area() > 1e-6 {
			t.Fatalf("%v mm2 lie beyond what there was, %v", beyond.Area(), err)
		}
		if was, is := plane.Area(ring), plane.Area(got); is < .7*was {
			t.Fatalf("%.0f mm2 are left of %.0f", is, was)
		}
	})
	if few := box(0, 0, 400, 300); len(fewer(few)) != len(few) {
		t.Error("an outline of few corners loses some")
	}
}

// Corners that stand out lie in the triangle of three others only where that is cut off; those that stand
// in are kept whatever their size, as an outline without them would grow.
func TestShrunkCutsOffWhatStandsOut(t *testing.T) {
	for name, c := range map[string]struct{ ring, want orb.Ring }{
		"a low corner goes": {orb.Ring{{0, 0}, {50, -1}, {100, 0}, {100, 100}, {0, 100}, {0, 0}}, box(0,
			0, 100, 100)},
		"a high one stays":         {orb.Ring{{0, 0}, {50, -9}, {100, 0}, {100, 100}, {0, 100}, {0, 0}}, nil},
		"one that stands in stays": {orb.Ring{{0, 0}, {50, 1}, {100, 0}, {100, 100}, {0, 100}, {0, 0}}, nil},
		"a triangle stays":         {orb.Ring{{0, 0}, {100, 0}, {50, 1}, {0, 0}}, nil},
		"one with another beneath": {orb.Ring{{0, 0}, {50, -2}, {100, 0}, {60, 40}, {50, -1}, {40, 40}, {0, 0}}, nil},
	} {
		if c.want == nil {
			c.want = c.ring
		}
		if got := shrunk(c.ring, 3); len(got) != len(c.want) || plane.Area(got) != plane.Area(c.want) {
			t.Errorf("%s: %v", name, got)
		}
	}
}

// A right triangle is kept whichever way its right angle looks, and none with a leg less a millimetre is.
func TestTrianglesLookAnyWay(t *testing.T) {
	for _, s := range [][2]float64{{1, 1}, {-1, 1}, {-1, -1}, {1, -1}} {
		for leg, want := range map[float64]bool{KeptLeg: true, KeptLeg - 1: false} {
			ring := orb.Ring{{300, 300}, {300 + s[0]*leg, 300}, {300, 300 + s[1]*leg}, {300, 300}}
			if plane.Area(ring) < 0 {
				ring.Reverse()
			}
			if got, err := insets[0].useful(areaOf(ring)); err != nil || got != want {
				t.Errorf("legs of %v towards %v: kept %v, %v", leg, s, got, err)
			}
		}
	}
}

// What is left around a large round piece is whole millimetres, apart from it, in the order in which it begins
// along the cloth, and adds up with it to no more than the cloth.
func TestAroundARoundPiece(t *testing.T) {
	round := make(orb.Ring, 0, 721)
	for i := range 720 {
		sin, cos := math.Sincos(math.Pi * float64(i) / 360)
		round = append(round, plane.SnapPoint(orb.Point{900 + 699*cos, 700 + 699*sin}))
	}
	c := clothOf(2600, 1400, append(round, round[0]))
	left, err := Of(c)
	if err != nil || len(left) < 2 {
		t.Fatalf("%d outlines, %v", len(left), err)
	}
	kept := 0.
	for i, l := range left {
		for _, p := range l.Outline {
			if p[0] != math.Trunc(p[0]) || p[1] != math.Trunc(p[1]) {
				t.Errorf("%v is no whole millimetre", p)
			}
		}
		if n := len(l.Outline) - 1; n > MostCorners {
			t.Errorf("outline %d has %d corners", i+1, n)
		}
		if b := plane.Bounds(l.OnCloth()); i > 0 && b.Min[0] < plane.Bounds(left[i-1].OnCloth()).Min[0] {
			t.Errorf("outline %d begins before the one before it", i+1)
		}
		over, err := geom.Intersection(areaOf(l.OnCloth()).g, areaOf(c.Pieces[0]).g)
		if err != nil || over.Area() > 0 {
			t.Errorf("%v mm2 of outline %d are cut, %v", over.Area(), i+1, err)
		}
		kept += l.Area()
	}
	b := BalanceOf(c, left)
	if free := 2600*1400 - plane.Area(c.Pieces[0]); kept > free || kept < .9*free {
		t.Errorf("%.0f mm2 are kept of %.0f that are free", kept, free)
	}
	if twice := b.Plus(b); b.Kept != kept || twice.Cloth != 2*b.Cloth || twice.Pieces != 2*plane.Area(c.Pieces[0]) ||
		twice.Kept != 2*kept || math.Abs(twice.Waste-2*(2600*1400-kept-plane.Area(c.Pieces[0]))) > 1e-6 {
		t.Errorf("%+v, twice %+v", b, twice)
	}
}
