package bound_test

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/nest"
	"yardlay/nest/bound"
	"yardlay/shapes/plane"
)

// Rows with walls, as wide as the cloth or nearly, are confirmed by the search that knows of no walls.
func TestRowsWithWallsChecked(t *testing.T) {
	rows := smallProblems(func(t *rapid.T) orb.Ring { return dented(t, 51, 100, 20, 90) })
	problems := rapid.Custom(func(t *rapid.T) bound.Problem {
		p := rows.Draw(t, "row")
		free := 0.0
		if p.Gap > 0 {
			free = rapid.SampledFrom([]float64{0, 1, 3.9}).Draw(t, "free")
		}
		p.Pieces = append(p.Pieces, box("wall", rapid.IntRange(1, 2).Draw(t, "walls"), 30, p.Width-free))
		return p
	})
	seen, walled := map[verdict]int{}, 0
	for _, seed := range often.Seeds([]int{0, 5, 7, 15, 18}, often.Jobs(40, 300)) {
		p := problems.Example(seed)
		for _, b := range rowsOf(p) {
			if b.Kind == bound.Row {
				v := checkRow(t, p, b, 1e5)
				if seen[v]++; v == refuted {
					t.Errorf("problem %d: a row of %v, %v mm, is refuted", seed, b.Pieces, b.Length)
				}
				if slices.Contains(b.Pieces, "wall") {
					walled++
				}
			}
		}
	}
	if walled < 10 || seen[confirmed] < 10 {
		t.Errorf("%d rows with walls, verdicts %v", walled, seen)
	}
}

// A point beside the end of a wall that leaves less than a gap of the cloth free may come nearer to it along the cloth
// than the gap; two of them, one before the wall and one behind, take less than their lengths, that of the wall and
// two gaps. The judge lets them, and no bound asks for more.
func TestPointsBesideAWall(t *testing.T) {
	const gap, free = 10.0, 8.0
	near := math.Sqrt(gap*gap - free*free) // 6
	left, right := ring(0, 0, 100, 0, 0, 72), ring(0, 0, 100, 0, 100, 72)
	p := nest.Problem{Strip: nest.Strip{Width: 100}, Gap: gap, Pieces: []nest.Piece{
		{Name: "wall", Count: 1, Outline: ring(0, 0, 50, 0, 50, 100-free, 0, 100-free)},
		{Name: "left", Count: 1, Outline: left},
		{Name: "right", Count: 1, Outline: right},
	}}
	// Points at the lower edge, the wall at the upper one.
	l := nest.Layout{Length: 250 + 2*near, Placed: []nest.Placed{
		{Piece: 0, At: orb.Point{100 + near, free}},
		{Piece: 1},
		{Piece: 2, At: orb.Point{150 + 2*near, 0}},
	}}
	if err := nest.Verify(p, l); err != nil {
		t.Fatal(err)
	}
	for _, b := range bound.Lower(t.Context(), fromNest(p)) {
		if b.Length > l.Length {
			t.Errorf("%s: %v mm, and a layout takes %v", b.Kind, b.Length, l.Length)
		}
	}
}

// Gores with walls among them, laid by short searches that the judge confirms.
func TestNeverAboveASearchWithWalls(t *testing.T) {
	problems := rapid.Custom(func(t *rapid.T) nest.Problem {
		p := nest.Problem{Strip: nest.Strip{Width: 200}, Gap: rapid.SampledFrom([]float64{0, 3, 12}).Draw(t, "gap")}
		free := rapid.SampledFrom([]float64{0, p.Gap / 2, p.Gap}).Draw(t, "free")
		p.Pieces = append(p.Pieces, nest.Piece{
			Name: "wall", Count: rapid.IntRange(1, 2).Draw(t, "walls"),
			Outline: plane.SnapRing(ring(0, 0, 40, 0, 40, 200-free, 0, 200-free)), Turns: []float64{0, 180},
		})
		for range rapid.IntRange(1, 2).Draw(t, "kinds") {
			p.Pieces = append(p.Pieces, nest.Piece{
				Name: "gore", Count: rapid.IntRange(1, 4).Draw(t, "copies"), Outline: figure(t),
				Turns: rapid.SampledFrom([][]float64{{0}, {0, 180}, {0, 90, 180, 270}}).Draw(t, "turns"),
			})
		}
		return p
	})
	neverAboveSearches(t, problems, often.Seeds([]int{0, 4, 5, 6, 7}, often.Jobs(12, 40)))
}
