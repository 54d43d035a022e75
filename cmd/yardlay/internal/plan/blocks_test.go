package plan

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/nest"
	"yardlay/shapes/plane"
)

// Layers of net of several depths lie side by side, too, where that costs nothing:
// here every strip takes a row of its own.
func TestLayersOfSeveralDepthsLieSideBySide(t *testing.T) {
	p := nest.Problem{Strip: nest.Strip{Width: 110}, Gap: 3}
	for i := range 4 {
		p.Pieces = append(p.Pieces, box(fmt.Sprint("layer ", i), float64(40+10*i), 100, 4))
	}
	r, err := nest.Solve(context.Background(), p, nest.Options{Effort: nest.Quick, Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	// The worst order there is: round and round.
	slices.SortStableFunc(r.Layout.Placed, func(a, b nest.Placed) int { return a.Copy - b.Copy })
	at := 0.0
	for i, pl := range r.Layout.Placed {
		r.Layout.Placed[i].At = orb.Point{at, 0}
		at += float64(40+10*pl.Piece) + 3
	}
	r.Layout.Length = at - 3
	if err := nest.Verify(p, r.Layout); err != nil {
		t.Fatal(err)
	}
	ordered := shelf.SideBySide(p, inBlocks(p, r.Layout))
	if err := nest.Verify(p, ordered); err != nil || ordered.Length != r.Layout.Length {
		t.Fatal(ordered.Length, r.Layout.Length, err)
	}
	slices.SortFunc(ordered.Placed, func(a, b nest.Placed) int { return cmp.Compare(a.At[0], b.At[0]) })
	for i, pl := range ordered.Placed {
		if pl.Piece != i/4 || pl.Copy != i%4 {
			t.Fatalf("place %d has copy %d of piece %d", i, pl.Copy, pl.Piece)
		}
	}
}

// Whatever the layout, putting its blocks in order keeps it valid and no longer.
func TestBlocksInOrderKeepTheLayout(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := nest.Problem{Strip: nest.Strip{Width: 200}, Gap: float64(rapid.IntRange(0, 3).Draw(t, "gap")) / 2}
		for i := range rapid.IntRange(1, 5).Draw(t, "pieces") {
			p.Pieces = append(p.Pieces, box(fmt.Sprint(i), float64(10*rapid.IntRange(2, 12).Draw(t, "along")),
				float64(10*rapid.IntRange(2, 19).Draw(t, "across")), rapid.IntRange(1, 4).Draw(t, "count")))
		}
		laid := pushedBack(t, p)
		if err := nest.Verify(p, laid); err != nil {
			t.Fatal("before:", err)
		}
		ordered := inBlocks(p, laid)
		if err := nest.Verify(p, ordered); err != nil || ordered.Length > laid.Length {
			t.Fatal(ordered.Length, laid.Length, err)
		}
	})
}

// pushedBack lays boxes one after the other, each at any height, as near to the cut end
// as those before it let it or a little further on.
func pushedBack(t *rapid.T, p nest.Problem) nest.Layout {
	var l nest.Layout
	var order []int
	for i, piece := range p.Pieces {
		for c := range piece.Count {
			l.Placed = append(l.Placed, nest.Placed{Piece: i, Copy: c})
			order = append(order, len(order))
		}
	}
	gap := plane.Ceil(p.Gap)
	var taken []orb.Bound
	for _, i := range rapid.Permutation(order).Draw(t, "order") {
		pl := &l.Placed[i]
		size := plane.Bounds(p.Pieces[pl.Piece].Outline).Max
		pl.At[1] = float64(rapid.IntRange(0, int(p.Strip.Width-size[1])).Draw(t, "height"))
		for _, b := range taken {
			if b.Min[1] < pl.At[1]+size[1]+gap && b.Max[1]+gap > pl.At[1] {
				pl.At[0] = max(pl.At[0], b.Max[0]+gap)
			}
		}
		pl.At[0] += float64(rapid.SampledFrom([]int{0, 0, 0, 5}).Draw(t, "further"))
		b := plane.Bounds(p.Outline(*pl))
		taken, l.Length = append(taken, b), max(l.Length, b.Max[0])
	}
	return l
}

func box(name string, along, across float64, count int) nest.Piece {
	return nest.Piece{Name: name, Count: count,
		Outline: orb.Ring{{0, 0}, {along, 0}, {along, across}, {0, across}, {0, 0}}}
}
