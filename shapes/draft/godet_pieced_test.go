package draft

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes"
)

// A godet is set into a pieced skirt where what carries it is whole from the hem to 25 mm above its point: every line
// that is marked for one lies on an edge that runs to the hem of its piece, as far above it as the godet is long.
// Others are refused, and have an edge at the hem that is too short.
func TestGodetsOfPiecedSkirts(t *testing.T) {
	taken, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := anySkirt(t)
		whole, err := s.Draft()
		if err != nil {
			return
		}
		_, wide := whole.Pieces[0].Unfold().CutSize()
		c := Corners{
			Within: wide * rapid.Float64Range(0.5, 0.97).Draw(t, "within"), Most: 2, Centre: true, FromWaist: 200,
			Allowance: 12.7,
		}
		if rapid.Bool().Draw(t, "across") {
			c.Length = s.Length * rapid.Float64Range(0.55, 1).Draw(t, "length of parts")
		}
		made, err := c.Of(whole)
		if err != nil || len(made.Parted) == 0 {
			return
		}
		g := Godet{Length: s.Length * rapid.Float64Range(0.1, 0.5).Draw(t, "godet"), Hem: 100}
		slits := Slits{Of: s}
		if _, _, err := g.slits(slits); err != nil {
			return
		}
		least := math.Inf(1) // of the edges at a hem that may carry a godet
		for _, p := range made.Pieces {
			for k, e := range p.Edges {
				if atHem(p, k) > 0 && carries(whole, slits, e.Name) {
					least = min(least, e.Length())
				}
			}
		}
		err = g.Clear(slits, made)
		if (err == nil) != (least >= g.Length+clearOfPiecing) {
			t.Fatalf("a godet of %v over an edge of %v: %v", g.Length, least, err)
		}
		if err != nil {
			refused++
			return
		}
		taken++
		marked := whole
		marked.Pieces = whole.ToMark()
		if err := g.MarkInto(slits, marked.Pieces); err != nil {
			t.Fatal(err)
		}
		if made, err = c.Of(marked); err != nil {
			t.Fatal(err)
		}
		want, got := 0, 0
		for _, p := range marked.Pieces {
			want += len(p.Names)
		}
		for _, p := range made.Pieces {
			got += slitsOf(t, p, g.Length)
		}
		if got != want {
			t.Errorf("%d lines at their places, want %d", got, want)
		}
	})
	if taken < often.Enough(20) || refused < often.Enough(20) {
		t.Errorf("%d taken, %d refused", taken, refused)
	}
}

// carries says whether an edge of that name, or a part of it, lies in a seam that takes a godet.
func carries(d Result, s Slits, edge string) bool {
	for _, j := range d.Joins {
		for _, side := range []shapes.JoinSide{j.A, j.B} {
			if s.Take(j.Name, j.Times) && (side.Edges[0].Edge == edge || strings.HasPrefix(edge, side.Edges[0].Edge+" ")) {
				return true
			}
		}
	}
	return false
}

// atHem is 1 for an edge that starts at a hem, 2 for one that ends there, else 0.
func atHem(p shapes.Piece, k int) int {
	n := len(p.Edges)
	switch e := p.Edges[k]; {
	case e.Kind != shapes.Seam || strings.HasPrefix(e.Name, shapes.PiecingSeam):
		return 0
	case p.Edges[(k+n-1)%n].Kind == shapes.Hem:
		return 1
	case p.Edges[(k+1)%n].Kind == shapes.Hem:
		return 2
	}
	return 0
}

// slitsOf counts the lines of a piece that begin so far above the hem on an edge that runs there.
func slitsOf(t *rapid.T, p shapes.Piece, length float64) (n int) {
	for _, name := range p.Names {
		for k, e := range p.Edges {
			way := atHem(p, k)
			if way == 0 {
				continue
			}
			for _, end := range p.Inside[name.Line] {
				at, ok := e.Along(end)
				if way == 2 {
					at = e.Length() - at
				}
				if ok && math.Abs(at-length) < 1e-2 {
					n++
				}
			}
		}
	}
	return n
}
