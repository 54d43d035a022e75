package bound_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/nest"
	"yardlay/nest/bound"
	"yardlay/shapes/plane"
)

// Right triangles as wide as the cloth: head to tail two make a rectangle, one way
// each takes its whole length.
func TestRowOfTriangles(t *testing.T) {
	triangle := ring(0, 0, 300, 0, 0, 1000)
	for _, tc := range []struct {
		turns []float64
		want  float64
	}{{[]float64{0, 180}, 900}, {[]float64{0}, 1800}} {
		p := bound.Problem{Width: 1000, Pieces: []bound.Piece{turned("half", 6, triangle, tc.turns...)}}
		if b := best(p); b.Length != tc.want {
			t.Errorf("turns %v: bound %v by %s, want %v", tc.turns, b.Length, b.Kind, tc.want)
		}
	}
}

// Wide pieces laid in a row in every order, every way, at three places across:
// none of these markers is shorter than the bound. Pieces are put as near behind
// each other as lines through all their vertices allow.
func TestNeverAboveARow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := bound.Problem{Width: 100}
		n := 0
		for i := range rapid.IntRange(1, 2).Draw(t, "kinds") {
			count := rapid.IntRange(1, 3-2*i).Draw(t, "count")
			turns := rapid.SampledFrom([][]float64{{0}, {0, 180}}).Draw(t, "turns")
			x := func(label string, lo, hi int) float64 { return float64(rapid.IntRange(lo, hi).Draw(t, label)) }
			wide, long := x("wide", 51, 100), x("long", 20, 90)
			outline := ring(x("a", 0, 10), 0, long-x("b", 0, 9), x("c", 0, 40), long, wide, x("d", 0, 15),
				wide-x("e", 0, 15))
			if plane.CheckSimple(outline) != nil || plane.Area(outline) <= 0 {
				t.Skip("not an outline")
			}
			p.Pieces = append(p.Pieces, turned(fmt.Sprint("piece ", i), count, outline, turns...))
			n += count
		}
		b := best(p)
		left := make([]int, len(p.Pieces))
		for i := range p.Pieces {
			left[i] = p.Pieces[i].Count
		}
		if shortest := shortestRow(p, left, nil, math.Inf(1)); b.Length > shortest+plane.Lattice {
			t.Fatalf("%s: bound %v, and a row takes %v", b.Kind, b.Length, shortest)
		}
	})
}

// shortestRow lays what is left behind the laid pieces in all ways.
func shortestRow(p bound.Problem, left []int, laid []orb.Ring, best float64) float64 {
	end := 0.0
	for _, r := range laid {
		end = max(end, plane.Bounds(r).Max[0])
	}
	if end >= best {
		return best
	}
	done := true
	for i, piece := range p.Pieces {
		if left[i] == 0 {
			continue
		}
		done = false
		left[i]--
		for _, way := range piece.Ways {
			box := plane.Bounds(way)
			for k := range 3 {
				y := (p.Width-(box.Max[1]-box.Min[1]))*float64(k)/2 - box.Min[1]
				x := -box.Min[0]
				for _, other := range laid {
					x = max(x, clearance(other, moved(way, 0, y)))
				}
				best = shortestRow(p, left, append(slices.Clone(laid), moved(way, x, y)), best)
			}
		}
		left[i]++
	}
	if done {
		return end
	}
	return best
}

func moved(r orb.Ring, x, y float64) orb.Ring {
	out := make(orb.Ring, len(r))
	for i, v := range r {
		out[i] = orb.Point{v[0] + x, v[1] + y}
	}
	return out
}

// clearance returns how far b must move along to lie behind a on every line.
func clearance(a, b orb.Ring) float64 {
	most := math.Inf(-1)
	for _, r := range []orb.Ring{a, b} {
		for _, v := range r {
			if _, right, ok := ends(a, v[1]); ok {
				if left, _, ok := ends(b, v[1]); ok {
					most = max(most, right-left)
				}
			}
		}
	}
	return most
}

func ends(r orb.Ring, s float64) (left, right float64, ok bool) {
	left, right = math.Inf(1), math.Inf(-1)
	for i := 1; i < len(r); i++ {
		a, b := r[i-1], r[i]
		if min(a[1], b[1]) > s || max(a[1], b[1]) < s {
			continue
		}
		xs := []float64{a[0], b[0]}
		if a[1] != b[1] {
			xs = []float64{a[0] + (b[0]-a[0])*(s-a[1])/(b[1]-a[1])}
		}
		left, right, ok = min(left, slices.Min(xs)), max(right, slices.Max(xs)), true
	}
	return left, right, ok
}

// A row of more copies than are told apart beside others is a row all the same: 1,100
// strips of 5 x 60 mm on 100 mm, which all cross the middle, take 5,500.
func TestRowOfManyCopies(t *testing.T) {
	strip := ring(0, 0, 5, 0, 5, 60, 0, 60)
	for count, want := range map[int]float64{1022: 5110, 1023: 5115, 1100: 5500, nest.MostPieces: 5 * nest.MostPieces} {
		p := bound.Problem{Width: 100, Pieces: []bound.Piece{turned("strip", count, strip, 0)}}
		if b := best(p); b.Length != want {
			t.Errorf("%d strips: bound %v by %s, want %v", count, b.Length, b.Kind, want)
		}
	}
}

// cancelledAfter is a context that is cancelled when it has been asked so many times.
type cancelledAfter struct {
	context.Context
	left int
}

func (c *cancelledAfter) Err() error {
	if c.left--; c.left < 0 {
		return context.Canceled
	}
	return nil
}

// Once cancelled no row is set up any more: of 24 gores in four ways each way would
// have to be put beside 96, some ten allocations each. What is in hand is finished.
func TestCancelledRowsCostNothing(t *testing.T) {
	p := bound.Problem{Width: 1100}
	for i := range 24 {
		piece := turned(fmt.Sprint("gore ", i), 1, circleGore(), 0, 180, 1, 181)
		p.Pieces = append(p.Pieces, piece)
	}
	plain := testing.AllocsPerRun(1, func() { bound.Plain(p) })
	for _, asked := range []int{0, 1, 10, 30} {
		var found []bound.Bound
		took := testing.AllocsPerRun(1, func() {
			found = bound.Lower(&cancelledAfter{context.Background(), asked}, p)
		})
		if len(found) < 2 {
			t.Fatalf("cancelled when asked %d times, %d bounds are left", asked, len(found))
		}
		t.Logf("asked %d times: %v allocations, %v for the plain bounds", asked, took, plain)
		if most := 1.2*plain + 960*float64(asked); took > most {
			t.Errorf("cancelled when asked %d times it takes %v allocations, more than %v", asked, took, most)
		}
	}
}
