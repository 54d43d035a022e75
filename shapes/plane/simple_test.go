package plane

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/processor"
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
		{"open", orb.Ring{{0, 0}, {1, 0}, {1, 1}, {0, 1}},
			"open: starts at (0.000 mm, 0.000 mm), ends at (0.000 mm, 1.000 mm)"},
		{"not finite", orb.Ring{{0, 0}, {1, math.NaN()}, {1, 1}, {0, 0}}, "vertex 1 is not finite"},
		{"repeated", orb.Ring{{0, 0}, {1, 0}, {1, 0}, {1, 1}, {0, 0}}, "vertex 2 at (1.000 mm, 0.000 mm) is repeated"},
		{"bow tie", orb.Ring{{0, 0}, {2, 2}, {2, 0}, {0, 2}, {0, 0}}, "at (1.000 mm, 1.000 mm): edges 0 and 2"},
		{"spike", orb.Ring{{0, 0}, {4, 0}, {2, 0}, {2, 2}, {0, 0}}, "turns back upon itself at vertex 1"},
		{"zero-width slit", orb.Ring{{0, 0}, {4, 0}, {4, 4}, {2, 4}, {2, 2}, {2, 4}, {0, 4}, {0, 0}}, "turns back"},
		{"touches a vertex", orb.Ring{{0, 0}, {4, 0}, {4, 4}, {2, 0}, {0, 4}, {0, 0}}, "at (2.000 mm, 0.000 mm)"},
		{"edges overlap", orb.Ring{{0, 0}, {6, 0}, {6, 2}, {4, 2}, {4, 0}, {2, 0}, {2, 2}, {0, 2}, {0, 0}},
			"crosses or touches itself"},
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
	const most = 100 * time.Millisecond // a few ms
	took := processor.Least(most, func() {
		if err := CheckSimple(circle); err != nil {
			t.Fatal(err)
		}
	})
	if processor.Exceeds(took, most) {
		t.Errorf("took %v", took)
	}
}
