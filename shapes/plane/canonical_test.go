package plane

import (
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// TestCanonical: moved, begun at another vertex, with a vertex more on a side, a ring has
// one canonical form; another ring has another one.
func TestCanonical(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := orb.Ring{{0, 0}, {8, 0}, {8, 5}, {3, 5}, {3, 9}, {0, 9}}
		want := Canonical(append(slices.Clone(ring), ring[0]))
		first := rapid.IntRange(0, len(ring)-1).Draw(t, "first")
		by := orb.Point{float64(rapid.IntRange(-9, 9).Draw(t, "x")), float64(rapid.IntRange(-9, 9).Draw(t, "y"))}
		var other orb.Ring
		for k := range ring {
			v := ring[(first+k)%len(ring)]
			other = append(other, orb.Point{v[0] + by[0], v[1] + by[1]})
		}
		other = append(other, orb.Point{(other[5][0] + other[0][0]) / 2, (other[5][1] + other[0][1]) / 2}, other[0])
		if got := Canonical(other); !slices.Equal(got, want) {
			t.Fatalf("%v, want %v", got, want)
		}
		other[1][0]++
		if CheckSimple(other) == nil && slices.Equal(Canonical(other), want) {
			t.Fatal("two rings have one form")
		}
	})
}
