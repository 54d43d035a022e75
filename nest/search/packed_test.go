package search

import (
	"testing"

	"pgregory.net/rapid"
)

// TestPackedBoxesMissNothing: boxes that overlap or touch do so packed, wherever they lie; those
// that are two steps apart do not, within what is told apart.
func TestPackedBoxesMissNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		reach := rapid.SampledFrom([]float64{1, 5e3, 1e6, 1e9}).Draw(t, "reach")
		draw := func(name string) box {
			x := rapid.Float64Range(-reach, reach).Draw(t, name+" x")
			y := rapid.Float64Range(-reach, reach).Draw(t, name+" y")
			w, h := rapid.Float64Range(0, reach).Draw(t, name+" w"), rapid.Float64Range(0, reach).Draw(t, name+" h")
			return box{x, x + w, y, y + h}
		}
		a, b := draw("a"), draw("b")
		if rapid.Bool().Draw(t, "touch") {
			a.x1, a.y0 = b.x0, min(a.y0, b.y1)
			a.x0 = min(a.x0, a.x1)
		}
		apart := max(b.x0-a.x1, a.x0-b.x1, b.y0-a.y1, a.y0-b.y1)
		p, q := pack(&a), pack(&b)
		switch met := p.meets(&q); {
		case met != q.meets(&p):
			t.Fatal("one meets the other, but not the other way round")
		case apart <= 0 && met == 0:
			t.Fatalf("%v and %v meet, and do not packed", a, b)
		case apart > 2./packedSteps && reach <= 5e3 && met == 1:
			t.Fatalf("%v and %v are %v apart, and meet packed", a, b, apart)
		}
	})
}
