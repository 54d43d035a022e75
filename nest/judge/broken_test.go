package judge

import (
	"fmt"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// What the judge says is said in the unit of whoever reads it: lengths within a detail and
// the place too.
func TestBrokenIsSaidInEveryUnit(t *testing.T) {
	p := Problem{Width: 508, MaxLength: 254, Gap: 12.7,
		Pieces: []Piece{{Name: "yoke", Outline: rect(0, 0, 127, 254), Count: 2}}}
	twice := func(dx, dy, length float64) Layout {
		return Layout{[]Placed{{}, {Copy: 1, At: orb.Point{dx, dy}}}, length}
	}
	inches := func(mm float64) string { return fmt.Sprintf("%g in", mm/25.4) }
	for _, c := range []struct {
		l             Layout
		inMM, inInchs string
	}{
		{twice(0, 254, 127), `"yoke" copy 1 is too close to "yoke" copy 2 near (127 mm, 254 mm): the gap is 12.7 mm`,
			`"yoke" copy 1 is too close to "yoke" copy 2 near (5 in, 10 in): the gap is 0.5 in`},
		{twice(0, 381, 127), `"yoke" copy 2 lies outside the strip near (127 mm, 635 mm): the strip is 508 mm wide`,
			`"yoke" copy 2 lies outside the strip near (5 in, 25 in): the strip is 20 in wide`},
		{twice(254, 0, 381), `"yoke" copy 2 lies outside the strip near (381 mm, 0 mm): the strip is at most 254 mm long`,
			`"yoke" copy 2 lies outside the strip near (15 in, 0 in): the strip is at most 10 in long`},
	} {
		err := New(p).Verify(c.l, never)
		if inMM, _ := say.Parts(err, nil); inMM != c.inMM || err.Error() != inMM {
			t.Errorf("in mm: %v", err)
		}
		if inInches, _ := say.Parts(say.Errorf("%w", err), inches); inInches != c.inInchs {
			t.Errorf("in inches: %s", inInches)
		}
	}
}

// Called off at any question, the judge returns no verdict; never asked, it would be deaf.
func TestJudgeIsCalledOff(t *testing.T) {
	p := Problem{Width: 100, Gap: 1, Forbidden: []orb.Ring{rect(90, 90, 5, 5)},
		Pieces: []Piece{{Name: "tab", Outline: rect(0, 0, 10, 10), Count: 3}}}
	l := Layout{[]Placed{{}, {Copy: 1, At: orb.Point{0, 11}}, {Copy: 2, At: orb.Point{11, 0}}}, 21}
	asked := 0
	if err := New(p).Verify(l, func() bool { asked++; return false }); err != nil {
		t.Fatal(err)
	}
	if asked != 3+3+3 { // each piece, each with the zone, each pair
		t.Errorf("asked %d times", asked)
	}
	for last := range asked {
		n := 0
		if err := New(p).Verify(l, func() bool { n++; return n > last }); err != errInterrupted {
			t.Errorf("called off at question %d: %v", last+1, err)
		}
	}
}

// A coordinate may lie 2^16 mm from the origin and no step farther, on either axis and side.
func TestLatticePointsEndAtReach(t *testing.T) {
	const one = 1.0 / steps
	for _, far := range []float64{Reach, -Reach} {
		for _, p := range []orb.Point{{far, 0}, {0, far}, {far, far}} {
			if s, ok := latticePoint(p); !ok || s.point() != p {
				t.Errorf("%v: %v, %v", p, s, ok)
			}
			if _, ok := latticePoint(orb.Point{p[0] * (1 + one/Reach), p[1] * (1 + one/Reach)}); ok {
				t.Errorf("a step beyond %v is taken", p)
			}
		}
	}
	if _, ok := latticePoint(orb.Point{1, one / 2}); ok {
		t.Error("half a step across is taken")
	}
}

// The edges of an outline come by their least x, the closing one among them, and its box
// is that of its corners, wherever it has been moved.
func TestCutLineIsSortedAndBoxed(t *testing.T) {
	for first := range 5 {
		corners := []orb.Point{{3, 1}, {9, 2}, {7, 8}, {5, 4}, {1, 6}}
		corners = slices.Concat(corners[first:], corners[:first])
		line := mustLine(t, ring(corners...)).moved(step{-2 * steps, 7 * steps})
		if line.low != (step{-1 * steps, 8 * steps}) || line.high != (step{7 * steps, 15 * steps}) {
			t.Errorf("from corner %d: box %v to %v", first, line.low, line.high)
		}
		last := int64(-1 * steps)
		for _, i := range line.byX {
			from, to := line.edge(i)
			if least := min(from.x, to.x); least < last {
				t.Errorf("from corner %d: an edge from %d after one from %d", first, least, last)
			} else {
				last = least
			}
		}
		if seen := slices.Sorted(slices.Values(line.byX)); !slices.Equal(seen, []int{0, 1, 2, 3, 4}) {
			t.Errorf("from corner %d: edges %v", first, line.byX)
		}
	}
}
