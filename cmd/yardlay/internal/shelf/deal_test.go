package shelf

import (
	"context"
	"fmt"
	"slices"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

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
		dealt := SideBySide(p, r.Layout)
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
		if diff := gocmp.Diff(cuts(r.Layout), cuts(dealt)); diff != "" || dealt.Length != r.Layout.Length {
			t.Fatal(diff)
		}
		for i, pl := range dealt.Placed {
			if was := r.Layout.Placed[i]; was.Piece != pl.Piece || was.Copy != pl.Copy {
				t.Fatalf("%+v was %+v", pl, was)
			}
		}
		if diff := gocmp.Diff(dealt, SideBySide(p, dealt)); diff != "" {
			t.Fatal("dealt twice:", diff)
		}
	})
}
