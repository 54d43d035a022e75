package remains

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

func box(x0, y0, x1, y1 float64) orb.Ring {
	return orb.Bound{Min: orb.Point{x0, y0}, Max: orb.Point{x1, y1}}.ToRing()
}

func clothOf(length, width float64, pieces ...orb.Ring) Cloth {
	return Cloth{Strip: nest.Strip{Width: width, MaxLength: length}, Pieces: pieces, Covered: length * width}
}

// A plain rectangle off the end stays one, to the millimetre.
func TestTheEndStaysARectangle(t *testing.T) {
	left, err := Of(clothOf(2000, 1400, box(0, 0, 700, 1400)))
	if err != nil {
		t.Fatal(err)
	}
	if len(left) != 1 || left[0].From != (orb.Point{700, 0}) || left[0].Area() != 1300*1400 || len(left[0].Outline) != 5 {
		t.Errorf("left %v, want 1300 x 1400 from 700 on", left)
	}
}

// A corridor of 39 mm is cut off, one of 40 stays with the hole that it leads to.
func TestCorridors(t *testing.T) {
	for _, c := range []struct{ gap, want float64 }{{39, 400 * 500}, {40, 400*500 + 600*40}} {
		left, err := Of(clothOf(1500, 500, box(0, 0, 600, 500-c.gap), box(1000, 0, 1500, 500)))
		if err != nil {
			t.Fatal(err)
		}
		if len(left) != 1 || left[0].Area() != c.want {
			t.Errorf("corridor of %v: left %v, want one of %v mm2", c.gap, left, c.want)
		}
	}
}

// A piece near a corner: a union of all that is swept at once would lose a sliver there, from which
// what is kept would then reach into the piece.
func TestAPieceNearACorner(t *testing.T) {
	c := clothOf(300, 200, box(11.732421875, 20.357421875, 40.017578125, 48.642578125))
	left, err := Of(c)
	if err != nil || len(left) != 1 {
		t.Fatalf("left %v (%v), want one outline", left, err)
	}
	if area := left[0].Area(); area < 296*196-70*41 || area > 300*200-60*40 {
		t.Errorf("kept %v mm2", area)
	}
}

// Sizes that are kept, exactly so large and a millimetre less.
func TestWhatIsWorthKeeping(t *testing.T) {
	triangle := func(leg float64) orb.Ring { return orb.Ring{{0, 0}, {leg, 0}, {0, leg}, {0, 0}} }
	for _, c := range []struct {
		name string
		ring orb.Ring
		want bool
	}{
		{"rectangle", box(0, 0, KeptLength, KeptWidth), true},
		{"rectangle across", box(0, 0, KeptWidth, KeptLength), true},
		{"a little less", box(0, 0, KeptWidth-1, KeptLength), false},
		{"band", box(0, 0, BandLength, BandWidth), true},
		{"shorter band", box(0, 0, BandLength-1, BandWidth), false},
		{"triangle", triangle(KeptLeg), true},
		{"smaller triangle", triangle(KeptLeg - 1), false},
	} {
		got, err := insets[0].useful(areaOf(c.ring))
		if err != nil || got != c.want {
			t.Errorf("%s: kept %v (%v), want %v", c.name, got, err, c.want)
		}
	}
}

// What lies all round a piece is cut up: an outline on the shelf has no hole. The end stays whole.
func TestHolesAreOpened(t *testing.T) {
	left, err := Of(clothOf(1000, 900, box(200, 300, 400, 600)))
	if err != nil {
		t.Fatal(err)
	}
	area := 0.0
	for _, l := range left {
		area += l.Area()
	}
	if want := 1000*900 - 200*300.0; area != want || len(left) != 4 {
		t.Errorf("left %d outlines of %v mm2, want 4 of %v", len(left), area, want)
	}
	if end := left[len(left)-1]; end.Area() != 600*900 {
		t.Errorf("the end is %v, want 600 x 900", end)
	}
}

// On a cloth with a repeat an outline is said from a corner of it.
func TestOnARepeat(t *testing.T) {
	c := clothOf(1000, 900, box(0, 0, 503.5, 900))
	c.Strip.Repeat = nest.Repeat{Along: 120.25}
	left, err := Of(c)
	if err != nil {
		t.Fatal(err)
	}
	if len(left) != 1 || left[0].From != (orb.Point{481, 0}) || plane.Bounds(left[0].Outline).Min != (orb.Point{23, 0}) {
		t.Errorf("left %v, want one from (481, 0), its edge at 23", left)
	}
}

// flawed puts rectangles, triangles and round pieces on a cloth where there is room.
func flawed(t *rapid.T) Cloth {
	c := clothOf(float64(rapid.IntRange(300, 3000).Draw(t, "length")), float64(rapid.IntRange(200, 1500).Draw(t, "width"))+
		rapid.SampledFrom([]float64{0, 0.5, 0.25}).Draw(t, "more"))
	for range rapid.IntRange(0, 25).Draw(t, "pieces") {
		at := orb.Point{rapid.Float64Range(0, c.Strip.MaxLength).Draw(t, "x"),
			rapid.Float64Range(0, c.Strip.Width).Draw(t, "y")}
		r := rapid.Float64Range(20, 400).Draw(t, "size")
		n := rapid.SampledFrom([]int{3, 4, 5, 40}).Draw(t, "corners")
		turn := rapid.SampledFrom([]float64{0, 45, 10}).Draw(t, "turn")
		var ring orb.Ring
		for i := range n {
			s, co := math.Sincos(2*math.Pi*float64(i)/float64(n) + turn*math.Pi/180)
			ring = append(ring, orb.Point{at[0] + r*co, at[1] + r*s})
		}
		ring = plane.SnapRing(append(ring, ring[0]))
		with := c
		with.Pieces = append(slices.Clone(c.Pieces), ring)
		if (Cloth{Strip: c.Strip, Pieces: with.Pieces[1:]}).judge([]Left{{Outline: with.Pieces[0]}}) == nil {
			c = with
		}
	}
	return c
}

// Whatever lies on the cloth, what is kept is judged apart from it, every outline is worth it, has
// whole millimetres, and areas balance: waste by lines across the cloth, not by the overlay.
func TestWhatRemains(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := flawed(t)
		left, err := Of(c)
		if err != nil {
			t.Fatal(err)
		}
		var kept []orb.Ring
		for _, l := range left {
			for _, v := range l.Outline {
				if v[0] != math.Trunc(v[0]) || v[1] != math.Trunc(v[1]) || v[0] < 0 || v[1] < 0 {
					t.Fatalf("%v has no whole millimetres", l)
				}
			}
			if good, err := insets[0].useful(areaOf(l.Outline)); err != nil || !good {
				t.Fatalf("%v is not worth keeping (%v)", l, err)
			}
			kept = append(kept, l.OnCloth())
		}
		b := BalanceOf(c, left)
		free := freeByLines(c.Strip, slices.Concat(c.Pieces, kept))
		if math.Abs(free-b.Waste) > 1 {
			t.Fatalf("waste is %v by the balance, %v by lines across", b.Waste, free)
		}
	})
}

// What is dropped on the way to whole millimetres is little: of every part that is worth keeping, all but
// a border of 3 mm is, unless that border decides.
func TestLittleIsLost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := flawed(t)
		var parts []area
		var h inset
		for _, h = range insets {
			rest, err := c.rest()
			if err == nil {
				parts, err = h.simple(rest, 0)
			}
			if err == nil {
				break
			}
		}
		for _, p := range parts {
			within, err := p.drawnIn(3)
			if err != nil {
				t.Fatal(err)
			}
			sure, err := h.useful(within)
			if err != nil || !sure {
				continue
			}
			kept, err := c.keep(p, h)
			area := 0.0
			for _, l := range kept {
				area += l.Area()
			}
			if patches := within.patches(); err != nil || len(patches) == 1 && area < plane.Area(patches[0].outer)-1 {
				t.Fatalf("kept %v mm2 of %v, within %v (%v)", area, p.g.Area(), within.g.Area(), err)
			}
		}
	})
}

// freeByLines is the area of a strip that none of the rings covers, mm2: between two neighbours
// among all corners and crossings the width that is free is linear, so that its middle counts.
func freeByLines(s nest.Strip, rings []orb.Ring) float64 {
	xs := []float64{0, s.MaxLength}
	for _, r := range rings {
		for _, v := range r {
			xs = append(xs, v[0])
		}
	}
	slices.Sort(xs)
	free := 0.0
	for i := 1; i < len(xs); i++ {
		if wide := xs[i] - xs[i-1]; wide > 0 {
			free += wide * (s.Width - coveredAt((xs[i]+xs[i-1])/2, rings))
		}
	}
	return free
}

// coveredAt is how much of a line across the cloth rings cover that lie apart.
func coveredAt(x float64, rings []orb.Ring) float64 {
	sum := 0.0
	for _, r := range rings {
		var ys []float64
		for i := 1; i < len(r); i++ {
			a, b := r[i-1], r[i]
			if (a[0] < x) != (b[0] < x) {
				ys = append(ys, a[1]+(x-a[0])/(b[0]-a[0])*(b[1]-a[1]))
			}
		}
		slices.Sort(ys)
		for i := 1; i < len(ys); i += 2 {
			sum += ys[i] - ys[i-1]
		}
	}
	return sum
}
