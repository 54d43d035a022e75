package plan

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// Layers of net that are cut alike lie one after the other along the cloth.
func TestLayersLieSideBySide(t *testing.T) {
	var parts strings.Builder
	for _, layer := range []string{"first", "second", "third"} {
		fmt.Fprintf(&parts, "[[part]]\nname = \"%s\"\ndraft = \"rectangle\"\ncloth = \"satin\"\nwidth = 12\nlength = 20\ncount = 4\n", layer)
	}
	src := panels(2, "12", "30", "")
	r, err := runJob(t, src+parts.String())
	if err != nil {
		t.Fatal(err)
	}
	c := r.Cloths[0]
	places := map[string][]float64{}
	for _, pl := range c.Layout.Placed {
		name := c.Problem.Pieces[pl.Piece].Name
		places[name] = append(places[name], pl.At[0])
	}
	last := 0.0
	for _, layer := range []string{"first", "second", "third"} {
		if first := slices.Min(places[layer]); first < last {
			t.Errorf("%s begins at %v, before the one above it ends: %v", layer, first, places)
		}
		last = slices.Max(places[layer])
	}
}

// Dealing places anew changes neither what is cut where nor what the judge says.
func TestDealingKeepsTheLayout(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := nest.Problem{Strip: nest.Strip{Width: 200}}
		for i := range rapid.IntRange(1, 5).Draw(t, "pieces") {
			piece := oblong(fmt.Sprint(i), float64(10*rapid.IntRange(2, 3).Draw(t, "along")), 30, 2*rapid.IntRange(1, 4).Draw(t, "pairs"))
			piece.Outline[1][1], piece.Outline[0][1] = 5, 5 // one side shorter: its mirror image is another
			piece.Outline[len(piece.Outline)-1][1] = 5
			piece.Mirror = rapid.SampledFrom([]nest.Mirror{nest.AsDrawn, nest.Paired, nest.Free}).Draw(t, "mirror")
			if piece.Alike = piece.Mirror == nest.Paired; piece.Alike {
				piece.Turns = []float64{0, 90, 180, 270}
			}
			p.Pieces = append(p.Pieces, piece)
		}
		r, err := nest.Solve(context.Background(), p, nest.Options{Effort: nest.Trial, Workers: 1})
		if err != nil {
			t.Fatal(err)
		}
		dealt := sideBySide(p, r.Layout)
		if err := nest.Verify(p, dealt); err != nil {
			t.Fatal(err)
		}
		cuts := func(l nest.Layout) []string {
			var all []string
			for _, pl := range l.Placed {
				ring := p.Outline(pl)
				all = append(all, fmt.Sprint(plane.Bounds(ring), plane.Area(ring), pl.Turn, pl.Mirrored))
			}
			slices.Sort(all)
			return all
		}
		if diff := cmp.Diff(cuts(r.Layout), cuts(dealt)); diff != "" || dealt.Length != r.Layout.Length {
			t.Fatal(diff)
		}
		for i, pl := range dealt.Placed {
			if was := r.Layout.Placed[i]; was.Piece != pl.Piece || was.Copy != pl.Copy {
				t.Fatalf("%+v was %+v", pl, was)
			}
		}
		if diff := cmp.Diff(dealt, sideBySide(p, dealt)); diff != "" {
			t.Fatal("dealt twice:", diff)
		}
	})
}
