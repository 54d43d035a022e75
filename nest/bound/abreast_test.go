package bound_test

import (
	"context"
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/nest/bound"
)

// Pieces like a T, all one way, on a cloth little wider than two of their bars. A line across
// meets no three, as beside a bar at least half of it and half a shaft lie between two middles:
// 3 take b + 2 (a + b)/2. So n of them need half of all their lengths, which pairs side by side
// take, one behind another.
func TestBarsAbreast(t *testing.T) {
	const bar, thick, shaft, long, n = 400., 100., 40., 700., 10
	tee := ring(0, -shaft/2, long, -shaft/2, long, -bar/2, long+thick, -bar/2, long+thick, bar/2, long, bar/2,
		long, shaft/2, 0, shaft/2)
	p := bound.Problem{Width: 2*bar + shaft/2, Pieces: []bound.Piece{turned("tee", n, tee, 0)}}
	b := find(t, p, bound.Abreast)
	if exact := n * (long + thick) / 2; math.Abs(b.Length-exact) > 1e-3 {
		t.Errorf("bound %v, should be %v", b.Length, exact)
	}
	checkAbreast(t, p, b)
	if area := find(t, p, bound.Area); area.Length > 0.3*b.Length {
		t.Errorf("they cover %v by themselves", area.Length)
	}
}

// The shaft of a trumpet: its hems alone keep pieces apart that are a tenth as wide where
// most of their length is.
func TestTrumpetsAbreast(t *testing.T) {
	trumpet := ring(0, -50, 700, -60, 1000, -300, 1000, 300, 700, 60, 0, 50)
	p := bound.Problem{Width: 1450, Gap: 3, Pieces: []bound.Piece{turned("trumpet gore", 8, trumpet, 0)}}
	b := find(t, p, bound.Abreast)
	checkAbreast(t, p, b)
	if chords := find(t, p, bound.Area); b.Length < 1.5*chords.Length {
		t.Errorf("bound %v, by area %v", b.Length, chords.Length)
	}
}

func find(t *testing.T, p bound.Problem, kind bound.Kind) bound.Bound {
	t.Helper()
	for _, b := range bound.Lower(t.Context(), p) {
		if b.Kind == kind {
			return b
		}
	}
	t.Fatalf("no bound by %s", kind)
	return bound.Bound{}
}

// Trumpets of all kinds, of which some may be turned.
func TestSlicesChecked(t *testing.T) {
	problems := rapid.Custom(func(t *rapid.T) bound.Problem {
		of := func(label string, low, high int) float64 { return float64(rapid.IntRange(low, high).Draw(t, label)) }
		hem := of("hem", 80, 200)
		p := bound.Problem{Width: hem * of("width", 21, 40) / 10, Gap: rapid.SampledFrom([]float64{0, 3}).Draw(t, "gap")}
		for range rapid.IntRange(1, 2).Draw(t, "kinds") {
			top, long, flare, lean := of("top", 5, 40), of("length", 60, 400), of("flare", 10, 50), of("lean", -20, 20)
			shape := ring(0, -top/2, long, -top/2-of("belly", 0, 20), long+flare, lean-hem/2, long+flare, lean+hem/2,
				long, top/2, 0, top/2)
			turns := rapid.SampledFrom([][]float64{{0}, {0}, {0}, {0, 180}}).Draw(t, "turns")
			p.Pieces = append(p.Pieces, turned("piece", rapid.IntRange(4, 16).Draw(t, "copies"), shape, turns...))
		}
		return p
	})
	found := 0
	for _, seed := range often.Seeds([]int{7, 10}, often.Jobs(3, 20)) {
		p := problems.Example(seed)
		for _, b := range bound.Lower(t.Context(), p) {
			if b.Kind == bound.Abreast {
				checkAbreast(t, p, b)
				found++
			}
		}
	}
	if found < often.Jobs(1, 7) {
		t.Errorf("%d bounds by steps: not worth the name of a test", found)
	}
}

// Cancelled at any moment, what was found by then is told, and nothing else happens.
func TestAbreastIsCancelled(t *testing.T) {
	trumpet := ring(0, -50, 700, -60, 1000, -300, 1000, 300, 700, 60, 0, 50)
	p := bound.Problem{Width: 1450, Pieces: []bound.Piece{
		turned("gore", 8, trumpet, 0, 180), turned("godet", 3, straightGore(), 0),
	}}
	for n := range often.Jobs(often.Full(6, 10), 14) {
		ctx := &countdown{Context: t.Context(), left: n * n * n}
		if len(bound.Lower(ctx, p)) < 2 {
			t.Fatalf("cancelled at look %d: not even the plainest bounds", n*n*n)
		}
	}
}

// countdown is a context that is cancelled once it has been looked at so often.
type countdown struct {
	context.Context
	left int
}

func (c *countdown) Err() error {
	if c.left--; c.left < 0 {
		return context.Canceled
	}
	return nil
}
