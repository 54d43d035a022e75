package benchmarks

import (
	"context"
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/nest"
	"yardlay/nest/hand"
)

// laidShirts is a table with the 99 pieces of shirts on it, laid by a short search.
func laidShirts(b *testing.B) (*hand.Table, []nest.Placed) {
	p := read(b, "shirts").Problem
	r, err := nest.Solve(context.Background(), p, nest.Options{Effort: nest.Trial})
	if err != nil {
		b.Fatal(err)
	}
	t, err := hand.New(p)
	if err != nil {
		b.Fatal(err)
	}
	return t, r.Layout.Placed
}

// BenchmarkHandContact moves pieces by up to 60 mm and lets them snap into contact; bytes of
// a slide, which a page asks for once a drag, are reported besides.
func BenchmarkHandContact(b *testing.B) {
	t, placed := laidShirts(b)
	rng := rand.New(rand.NewPCG(1, 1))
	wishes := make([]nest.Placed, 256)
	for i := range wishes {
		wishes[i] = placed[rng.IntN(len(placed))]
		wishes[i].At = orb.Point{wishes[i].At[0] + 60*rng.Float64(), wishes[i].At[1] + 60*rng.Float64()}
	}
	sent := 0
	for _, pl := range placed {
		asJSON, err := json.Marshal(t.Slide(pl, placed, math.Inf(1), nil))
		if err != nil {
			b.Fatal(err)
		}
		sent = max(sent, len(asJSON))
	}
	snapped := 0
	for i := 0; b.Loop(); i++ {
		if t.Contact(wishes[i%len(wishes)], placed, 60).Snapped {
			snapped++
		}
	}
	b.ReportMetric(float64(snapped)/float64(b.N), "snapped")
	b.ReportMetric(float64(sent), "B/slide")
}

// BenchmarkHandFaults asks the judge of a piece among 99.
func BenchmarkHandFaults(b *testing.B) {
	t, placed := laidShirts(b)
	for i := 0; b.Loop(); i++ {
		held := placed[i%len(placed)]
		held.At[0] += 20
		t.Faults(held, placed)
	}
}

// BenchmarkHandSlideAnew asks for the first slide of a table: every region is made.
func BenchmarkHandSlideAnew(b *testing.B) {
	_, placed := laidShirts(b)
	p := read(b, "shirts").Problem
	for i := 0; b.Loop(); i++ {
		t, err := hand.New(p)
		if err != nil {
			b.Fatal(err)
		}
		t.Slide(placed[i%len(placed)], placed, math.Inf(1), nil)
	}
}
