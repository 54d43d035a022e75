package shapes

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// What closes an opening stops at one notch, as far from its top as it is long, whichever way
// the edge runs; on an edge that it reaches down, on one that reaches no hem and on a seam
// there is none, and a second time none is added.
func TestStopsAreMarkedOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := panelOf(t, "back", false)
		// lower runs from the waist down to the hem, upper from the hem up to the waist.
		kinds := []EdgeKind{Seam, Opening}
		p.Edges[0].Kind = rapid.SampledFrom(kinds).Draw(t, "lower")
		p.Edges[2].Kind = rapid.SampledFrom(kinds).Draw(t, "upper")
		p.Edges[1].Kind = rapid.SampledFrom([]EdgeKind{Hem, Waist}).Draw(t, "hem")
		down := rapid.Float64Range(20, 700).Draw(t, "down")
		for range 2 {
			if err := p.MarkStop(down); err != nil {
				t.Fatal(err)
			}
		}
		want := map[string]float64{}
		for _, i := range []int{0, 2} {
			e := p.Edges[i]
			if e.Kind == Opening && p.Edges[1].Kind == Hem && down < e.Length()-atSeam {
				want[e.Name] = map[int]float64{0: down, 2: e.Length() - down}[i]
			}
		}
		if len(p.Notches) != len(want) {
			t.Fatalf("%d notches of %d", len(p.Notches), len(want))
		}
		for _, n := range p.Notches {
			e, _ := p.Edge(n.Edge)
			at, ok := e.Along(n.At)
			if !ok || math.Abs(at-want[n.Edge]) > 0.001 {
				t.Fatalf("%s is notched at %g, want %g", n.Edge, at, want[n.Edge])
			}
		}
	})
}
