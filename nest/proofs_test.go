package nest

import (
	"context"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
)

// TestProofsAreMadeOnce: askers of one problem at once get what one alone gets, which
// is looked for once; another problem is another proof; one that was cut short is not
// taken for the whole.
func TestProofsAreMadeOnce(t *testing.T) {
	gores := func(count int) Problem {
		gore := orb.Ring{{0, 0}, {1000, 0}, {1000, 420}, {0, 130}, {0, 0}}
		return Problem{Strip: Strip{Width: 900}, Gap: 3,
			Pieces: []Piece{{Name: "gore", Outline: gore, Count: count, Turns: []float64{0, 180}}}}
	}
	var m Proofs
	over, cancel := context.WithCancel(t.Context())
	cancel()
	plain, want := m.LowerBound(over, gores(4)), LowerBound(t.Context(), gores(4))
	if plain.Length >= want.Length || m.found != 0 {
		t.Fatalf("cancelled: %v mm of %v, %d proofs", plain.Length, want.Length, m.found)
	}
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			if diff := cmp.Diff(want, m.LowerBound(t.Context(), gores(4))); diff != "" {
				t.Errorf("-alone +shared\n%s", diff)
			}
		})
	}
	all.Wait()
	if m.found != 1 {
		t.Errorf("%d proofs of one problem", m.found)
	}
	if b := m.LowerBound(t.Context(), gores(5)); b.Length <= want.Length || m.found != 2 {
		t.Errorf("one gore more: %v mm after %v, %d proofs", b.Length, want.Length, m.found)
	}
	short, cut := context.WithCancel(t.Context())
	go cut()
	m.LowerBound(short, gores(6))
	if diff := cmp.Diff(LowerBound(t.Context(), gores(6)), m.LowerBound(t.Context(), gores(6))); diff != "" {
		t.Errorf("after one that was cut short: -alone +shared\n%s", diff)
	}
}
