package judge

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

func TestOverlapByHand(t *testing.T) {
	square := rect(0, 0, 8, 8)
	ell := ring(orb.Point{0, 0}, orb.Point{8, 0}, orb.Point{8, 3}, orb.Point{3, 3}, orb.Point{3, 8}, orb.Point{0, 8})
	cup := ring(orb.Point{0, 0}, orb.Point{9, 0}, orb.Point{9, 6}, orb.Point{6, 6}, orb.Point{6, 3}, orb.Point{3, 3},
		orb.Point{3, 6}, orb.Point{0, 6})
	wedge := ring(orb.Point{8, 4}, orb.Point{12, 0}, orb.Point{12, 8})
	const one = plane.Lattice
	for _, c := range []struct {
		name string
		a, b orb.Ring
		want bool
	}{
		{"the same outline twice", square, square, true},
		{"the same, started at another vertex", square,
			ring(orb.Point{8, 8}, orb.Point{0, 8}, orb.Point{0, 0}, orb.Point{8, 0}), true},
		{"the same with more vertices", square, ring(orb.Point{0, 0}, orb.Point{4, 0}, orb.Point{8, 0}, orb.Point{8, 8},
			orb.Point{0, 8}), true},
		{"one inside the other", square, rect(2, 2, 3, 3), true},
		{"inside, on a whole edge", square, rect(0, 0, 8, 3), true},
		{"inside, in a corner", square, rect(5, 5, 3, 3), true},
		{"inside, touching with its corners only", square,
			ring(orb.Point{4, 0}, orb.Point{8, 4}, orb.Point{4, 8}, orb.Point{0, 4}), true},
		{"side by side", square, rect(8, 0, 8, 8), false},
		{"side by side, half way", square, rect(8, 4, 8, 8), false},
		{"side by side, part of the edge", square, rect(8, 2, 3, 3), false},
		{"corner to corner", square, rect(8, 8, 3, 3), false},
		{"corner on an edge", square, wedge, false},
		{"corner one step through an edge", square, shifted(wedge, -one, 0), true},
		{"corner one step off an edge", square, shifted(wedge, one, 0), false},
		{"one step over", square, rect(8-one, 0, 8, 8), true},
		{"boxes overlap, in the bay of an L", ell, rect(3, 3, 5, 5), false},
		{"one step too deep in the bay", ell, rect(3-one, 3, 5, 5), true},
		{"L in L", ell, shifted(ell, 3, 3), false},
		{"the notch filled", cup, rect(3, 3, 3, 3), false},
		{"the notch filled and more above", cup, rect(3, 3, 3, 9), false},
		{"the notch filled too wide", cup, rect(3, 3, 3+one, 9), true},
		{"across both prongs", cup, rect(-1, 4, 11, 1), true},
		{"prongs crossed, no vertex inside either", rect(0, 3, 9, 3), rect(3, 0, 3, 9), true},
		{"through opposite corners", square, ring(orb.Point{-2, -2}, orb.Point{10, 10}, orb.Point{9, 11},
			orb.Point{-3, -1}), true},
		{"along the diagonal, corner to corner", ring(orb.Point{0, 0}, orb.Point{8, 8}, orb.Point{0, 8}),
			ring(orb.Point{0, 0}, orb.Point{8, 0}, orb.Point{8, 8}), false},
		{"star of two triangles", ring(orb.Point{0, 2}, orb.Point{6, 2}, orb.Point{3, 8}),
			ring(orb.Point{3, 0}, orb.Point{6, 6}, orb.Point{0, 6}), true},
		{"wedges interlaced at a vertex", ring(orb.Point{4, 4}, orb.Point{0, 2}, orb.Point{0, -2}),
			ring(orb.Point{4, 4}, orb.Point{-1, 1}, orb.Point{4, -4}), true},
		{"wedges apart at a vertex", ring(orb.Point{4, 4}, orb.Point{0, 6}, orb.Point{0, 2}),
			ring(orb.Point{4, 4}, orb.Point{8, 2}, orb.Point{8, 6}), false},
		{"far apart", square, rect(20, 20, 2, 2), false},
	} {
		if got := overlaps(t, c.a, c.b); got != c.want {
			t.Errorf("%s: overlap %v, want %v", c.name, got, c.want)
		}
		if slow := slowOverlap(c.a, c.b); slow != c.want {
			t.Errorf("%s: slow twin %v, want %v", c.name, slow, c.want)
		}
	}
}

// The outside library is within 8e-7 mm2 of GEOS on such coordinates (6,500
// pairs); where its area is neither clearly nothing nor clearly something the
// slow twin decides, which must be rare.
func TestOverlapAgainstOutsideAreas(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 7))
	touching, overlapping, unclear := 0, 0, 0
	for range 2500 {
		a, b := gridPair(r)
		area := outsideArea(t, a, b)
		got, want := overlaps(t, a, b), area > 1e-6
		if area > 0 && !want {
			unclear++
			want = slowOverlap(a, b)
		}
		if got != want {
			t.Fatalf("overlap %v, outside library finds %g mm2\na %v\nb %v", got, area, a, b)
		}
		if got {
			overlapping++
		} else if ringsMeet(a, b) {
			touching++
		}
	}
	if touching < 500 || overlapping < 600 || unclear > 25 {
		t.Errorf("%d touching, %d overlapping, %d unclear pairs: not worth the name of a test", touching, overlapping,
			unclear)
	}
}

// Whole markers of several pieces at odd turns, through Verify: it finds an
// overlap if and only if some pair of placed outlines shares an area.
func TestVerifyAgainstOutsideAreas(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 29))
	counts := map[bool]int{}
	for range 300 {
		p := Problem{Width: 60}
		var l Layout
		for i := range 4 {
			turn := 360 * r.Float64()
			// mirrored copies turn clockwise
			p.Pieces = append(p.Pieces,
				Piece{Name: "p", Outline: gridPolygon(r, 12), Count: 1, Turns: []float64{turn, -turn}, Mirror: Free})
			pl := Placed{Piece: i, Turn: turn, Mirrored: r.IntN(2) == 0}
			box := plane.Bounds(p.cutOutline(pl))
			pl.At = plane.SnapPoint(orb.Point{40*r.Float64() - box.Min[0], 40*r.Float64() - box.Min[1]})
			l.Placed = append(l.Placed, pl)
			l.Length = max(l.Length, pl.At[0]+box.Max[0])
		}
		want := false
		for i := range l.Placed {
			for k := range i {
				a, b := outlineAt(p, l.Placed[i]), outlineAt(p, l.Placed[k])
				area := outsideArea(t, a, b)
				want = want || area > 1e-6 || area > 0 && slowOverlap(a, b)
			}
		}
		err := New(p).Verify(l, never)
		var broken *Broken
		if err != nil && (!errors.As(err, &broken) || broken.Rule != Overlap) || (err != nil) != want {
			t.Fatalf("got %v, want an overlap: %v\n%+v\n%+v", err, want, p, l)
		}
		counts[want]++
	}
	if counts[true] < 60 || counts[false] < 60 {
		t.Errorf("lopsided: %v", counts)
	}
}

func ringsMeet(a, b orb.Ring) bool {
	for i := 1; i < len(a); i++ {
		for k := 1; k < len(b); k++ {
			if plane.SegmentsMeet(a[i-1], a[i], b[k-1], b[k]) {
				return true
			}
		}
	}
	return false
}

// One step of the lattice either way decides: pairs nudged by a step against the
// slow twin, where areas are too small for a floating library to be the judge.
func TestOverlapNudgedAgainstSlowTwin(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 11))
	counts := map[bool]int{}
	for range 500 {
		a, b := gridPair(r)
		b = shifted(b, plane.Lattice*float64(r.IntN(3)-1), plane.Lattice*float64(r.IntN(3)-1))
		got, want := overlaps(t, a, b), slowOverlap(a, b)
		if got != want {
			t.Fatalf("overlap %v, slow twin %v\na %v\nb %v", got, want, a, b)
		}
		counts[want]++
	}
	if counts[true] < 100 || counts[false] < 100 {
		t.Errorf("lopsided: %v", counts)
	}
}

// Outlines that touch or cross themselves, as rounding may leave them: no shared
// area may escape, and an overlap without area is a line through the other.
func TestOverlapOfSpoiltOutlines(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 13))
	spoilt := func() orb.Ring {
		for {
			out := make(orb.Ring, 4+r.IntN(4))
			for i := range out {
				out[i] = orb.Point{float64(r.IntN(5)), float64(r.IntN(5))}
			}
			out = append(out, out[0])
			if _, err := newCutLine(out); err == nil {
				return out
			}
		}
	}
	spike := ring(orb.Point{0, 0}, orb.Point{4, 0}, orb.Point{4, 2}, orb.Point{8, 2}, orb.Point{4, 2}, orb.Point{4, 4},
		orb.Point{0, 4})
	if beside := rect(4, 0, 6, 6); !overlaps(t, spike, beside) || slowOverlap(spike, beside) {
		t.Error("a cut into the other piece, without area, is missed")
	}
	if above := rect(4, 2, 6, 6); overlaps(t, spike, above) {
		t.Error("a spike along the other's edge is no overlap")
	}
	counts := map[bool]int{}
	for range 800 {
		a, b := spoilt(), spoilt()
		if r.IntN(2) == 0 {
			b = gridPolygon(r, 5)
		}
		b = shifted(b, float64(r.IntN(9)-4), float64(r.IntN(9)-4))
		got, want := overlaps(t, a, b), slowOverlap(a, b)
		if want && !got {
			t.Fatalf("overlap missed\na %v\nb %v", a, b)
		}
		if got && !want && !runsThrough(a, b) && !runsThrough(b, a) {
			t.Fatalf("the outlines share no area and neither is cut into\na %v\nb %v", a, b)
		}
		counts[got]++
	}
	if counts[true] < 100 || counts[false] < 100 {
		t.Errorf("lopsided: %v", counts)
	}
}

// runsThrough says whether part of a's line has the inside of b on both sides, or a and b
// cross: along a, cut at every edge of b, a trifle to either side. Corners are in whole
// millimetres below 10, so that neither cuts nor sides come near what floats confuse.
func runsThrough(a, b orb.Ring) bool {
	for i := 1; i < len(a); i++ {
		p, d := a[i-1], orb.Point{a[i][0] - a[i-1][0], a[i][1] - a[i-1][1]}
		cuts := []float64{0, 1}
		for k := 1; k < len(b); k++ {
			u, e := orb.Point{b[k-1][0] - p[0], b[k-1][1] - p[1]}, orb.Point{b[k][0] - b[k-1][0], b[k][1] - b[k-1][1]}
			if den := d[0]*e[1] - d[1]*e[0]; den != 0 {
				t, s := (u[0]*e[1]-u[1]*e[0])/den, (u[0]*d[1]-u[1]*d[0])/den
				if 0 < t && t < 1 && 0 < s && s < 1 {
					return true
				}
				cuts = append(cuts, max(0, min(1, t)))
			} else if length := d[0]*d[0] + d[1]*d[1]; length > 0 {
				t := (u[0]*d[0] + u[1]*d[1]) / length
				cuts = append(cuts, max(0, min(1, t)), max(0, min(1, t+(e[0]*d[0]+e[1]*d[1])/length)))
			}
		}
		slices.Sort(cuts)
		for k := 1; k < len(cuts); k++ {
			if cuts[k]-cuts[k-1] < 1e-9 {
				continue
			}
			t, trifle := (cuts[k]+cuts[k-1])/2, 1e-7
			x, y := p[0]+t*d[0], p[1]+t*d[1]
			if turnsRound(b, x-trifle*d[1], y+trifle*d[0]) && turnsRound(b, x+trifle*d[1], y-trifle*d[0]) {
				return true
			}
		}
	}
	return false
}

// turnsRound sums the angles under which a point off a ring sees its edges.
func turnsRound(ring orb.Ring, x, y float64) bool {
	sum := 0.0
	for i := 1; i < len(ring); i++ {
		sum += math.Remainder(math.Atan2(ring[i][1]-y, ring[i][0]-x)-math.Atan2(ring[i-1][1]-y, ring[i-1][0]-x), 2*math.Pi)
	}
	return math.Abs(sum) > 1
}

// Full-size coordinates near the limit of 65 m must not overflow.
func TestOverlapFarOut(t *testing.T) {
	const far, one = Reach, plane.Lattice
	a := ring(orb.Point{-far, -far}, orb.Point{far, -far}, orb.Point{far, far})
	b := ring(orb.Point{-far, -far}, orb.Point{far, far}, orb.Point{-far, far})
	c := ring(orb.Point{-far + one, -far}, orb.Point{far, far}, orb.Point{-far, far})
	if overlaps(t, a, b) {
		t.Error("halves of the largest square overlap")
	}
	if !overlaps(t, a, c) {
		t.Error("a sliver one step wide and 185 m long is missed")
	}
}

func FuzzOverlap(f *testing.F) {
	f.Add([]byte{0, 0, 4, 0, 4, 4, 0, 4}, []byte{4, 0, 8, 0, 8, 4})
	f.Add([]byte{0, 0, 4, 0, 4, 4, 2, 2, 0, 4}, []byte{0, 4, 2, 2, 4, 4})
	f.Fuzz(func(t *testing.T, first, second []byte) {
		a, b := fuzzRing(first), fuzzRing(second)
		if a == nil || b == nil {
			return
		}
		simple := plane.CheckSimple(a) == nil && plane.CheckSimple(b) == nil
		got, want := overlaps(t, a, b), slowOverlap(a, b)
		if want && !got || simple && got != want {
			t.Fatalf("overlap %v, slow twin %v\na %v\nb %v", got, want, a, b)
		}
	})
}

func fuzzRing(data []byte) orb.Ring {
	if len(data) < 6 || len(data) > 24 {
		return nil
	}
	var out orb.Ring
	for i := 1; i < len(data); i += 2 {
		out = append(out, orb.Point{float64(data[i-1] % 16), float64(data[i] % 16)})
	}
	out = append(out, out[0])
	if plane.Area(out) < 0 {
		out.Reverse()
	}
	if _, err := newCutLine(out); err != nil {
		return nil
	}
	return out
}
