package bound

import (
	"context"
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"yardlay/benchmarks/processor"
	"yardlay/shapes/plane"
)

// star is an outline of so many corners, near and far from the middle by turns, or by the radius told for each.
func star(corners int, radius func(k int) float64) orb.Ring {
	var out orb.Ring
	for k := range corners {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(corners))
		out = append(out, orb.Point{500 + radius(k)*cos, 500 + radius(k)*sin})
	}
	return plane.SnapRing(append(out, out[0]))
}

// spiral winds in and out again: nearly all of its corners are turned in on one side or the other.
func spiral(corners int) orb.Ring {
	var in, out orb.Ring
	for k := range corners / 2 {
		angle := 6 * math.Pi * float64(k) / float64(corners/2)
		sin, cos := math.Sincos(angle)
		r := 60 + 20*angle
		in, out = append(in, orb.Point{r * cos, r * sin}), append(out, orb.Point{(r + 30) * cos, (r + 30) * sin})
	}
	for k := range in {
		out = append(out, in[len(in)-1-k])
	}
	return plane.SnapRing(append(out, out[0]))
}

// inAMoment fails where work takes more than two seconds of processor time.
func inAMoment(t *testing.T, work func()) {
	t.Helper()
	const limit = 2 * time.Second
	if took := processor.Least(limit, work); processor.Exceeds(took, limit) {
		t.Errorf("it took %v", took)
	} else {
		t.Logf("%v", took)
	}
}

// An outline of a thousand corners, however they lie, is taken apart in a moment, and so are very many pieces.
func TestTakenApartInAMoment(t *testing.T) {
	teeth := func(k int) float64 { return 400 + 60*float64(k%2) }
	waves := func(k int) float64 { return 400 + 50*math.Sin(float64(k)/9) + float64(k*7919%13)/4 }
	for name, r := range map[string]orb.Ring{"teeth": star(1000, teeth), "waves": star(1000, waves),
		"spiral": spiral(1000),
		"circle": star(1000, func(int) float64 { return 450 })} {
		if area := plane.Area(r); area <= 0 {
			t.Fatalf("%s: %v mm2", name, area)
		}
		inAMoment(t, func() {
			for _, part := range convexParts(r) {
				if !convex(part) {
					t.Errorf("%s: a part is not convex", name)
				}
			}
		})
	}
	s := &setting{width: 1500, profiles: map[profileKey]profile{}}
	for k := range 3000 {
		x := 100 + float64(k)/16
		r := orb.Ring{{0, 40}, {x, 0}, {x, 100}, {0, 60}, {0, 40}}
		s.items = append(s.items, item{name: fmt.Sprint(k), count: 1, ways: []way{{ring: r, along: x, across: 100}}})
	}
	inAMoment(t, func() {
		if got := s.oneWay(t.Context()); got != nil {
			t.Errorf("%d problems of 3000 kinds", len(got))
		}
		s.items = s.items[:mostTaken]
		if got := s.oneWay(t.Context()); len(got) == 0 {
			t.Error("no problem of as many kinds as are taken")
		}
	})
}

// A context that has ended leaves nothing half exchanged.
func TestOneWayIsCancelled(t *testing.T) {
	gore := orb.Ring{{0, 40}, {300, 0}, {300, 100}, {0, 60}, {0, 40}}
	s := &setting{width: 500, items: []item{{name: "gore", count: 6, ways: []way{{ring: gore, along: 300, across: 100}}}}}
	if got := s.oneWay(t.Context()); len(got) != 2 {
		t.Fatalf("%d problems", len(got))
	}
	ended, end := context.WithCancel(t.Context())
	end()
	if got := s.oneWay(ended); got != nil {
		t.Errorf("%d problems once it has ended", len(got))
	}
}
