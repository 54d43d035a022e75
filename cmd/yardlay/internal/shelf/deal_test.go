package shelf

import (
	"fmt"
	"math"
	"slices"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// Dealing places anew changes neither what is cut where nor what the judge says.
func TestDealingKeepsTheLayout(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := nest.Problem{Strip: nest.Strip{Width: 200}}
		for i := range rapid.IntRange(1, 5).Draw(t, "pieces") {
			piece := oblong(fmt.Sprint(i), float64(10*rapid.IntRange(2, 3).Draw(t, "along")), 30,
				2*rapid.IntRange(1, 4).Draw(t, "pairs"))
			piece.Outline[1][1], piece.Outline[0][1] = 5, 5 // one side shorter: its mirror image is another
			piece.Outline[len(piece.Outline)-1][1] = 5
			piece.Mirror = rapid.SampledFrom([]nest.Mirror{nest.AsDrawn, nest.Paired, nest.Free}).Draw(t, "mirror")
			if piece.Alike = piece.Mirror == nest.Paired; piece.Alike {
				piece.Turns = []float64{0, 90, 180, 270}
			}
			p.Pieces = append(p.Pieces, piece)
		}
		laid := anyHow(t, p)
		if err := nest.Verify(p, laid); err != nil {
			t.Fatal("before:", err)
		}
		dealt := SideBySide(p, laid)
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
		if diff := gocmp.Diff(cuts(laid), cuts(dealt)); diff != "" || dealt.Length != laid.Length {
			t.Fatal(diff)
		}
		for i, pl := range dealt.Placed {
			if was := laid.Placed[i]; was.Piece != pl.Piece || was.Copy != pl.Copy {
				t.Fatalf("%+v was %+v", pl, was)
			}
		}
		if diff := gocmp.Diff(dealt, SideBySide(p, dealt)); diff != "" {
			t.Fatal("dealt twice:", diff)
		}
	})
}

// anyHow lays pieces that turn within squares of 30, in the way they are drawn and
// wherever a square is free.
func anyHow(t *rapid.T, p nest.Problem) nest.Layout {
	const square = 30.0
	columns := int(p.Strip.Width / square)
	var l nest.Layout
	for i, piece := range p.Pieces {
		for c := range piece.Count {
			pl := nest.Placed{Piece: i, Copy: c, Turn: rapid.SampledFrom(append(slices.Clone(piece.Turns), 0)).Draw(t,
				"turn")}
			switch piece.Mirror {
			case nest.Paired:
				pl.Mirrored = c%2 == 1
			case nest.Free:
				pl.Mirrored = rapid.Bool().Draw(t, "mirrored")
			}
			if piece.Alike && c%2 == 1 { // the other hand lies on the grain of the first
				pl.Turn = math.Mod(360-l.Placed[len(l.Placed)-1].Turn, 360)
			}
			l.Placed = append(l.Placed, pl)
		}
	}
	squares := make([]int, len(l.Placed))
	for i := range squares {
		squares[i] = i
	}
	for i, k := range rapid.Permutation(squares).Draw(t, "squares") {
		pl := &l.Placed[i]
		low := plane.Bounds(p.Outline(*pl)).Min
		pl.At = orb.Point{square*float64(k/columns) - low[0], square*float64(k%columns) - low[1]}
		l.Length = max(l.Length, plane.Bounds(p.Outline(*pl)).Max[0])
	}
	return l
}
