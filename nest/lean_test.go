package nest

import (
	"math"
	"testing"
)

func TestStraightOf(t *testing.T) {
	for _, c := range []struct {
		turns []float64
		want  map[float64]float64 // those that lean
	}{
		{nil, nil},
		{[]float64{0, 180}, nil},
		{[]float64{0, 1, 2, -1, -2}, map[float64]float64{1: 0, 2: 0, -1: 0, -2: 0}},
		{[]float64{0, 5, 10, -5, -10, 180, 185, 190, 175, 170},
			map[float64]float64{5: 0, 10: 0, -5: 0, -10: 0, 185: 180, 190: 180, 175: 180, 170: 180}},
		{[]float64{45, 43, 44, 46, 47}, map[float64]float64{43: 45, 44: 45, 46: 45, 47: 45}},
		{[]float64{0, 3}, nil},
		{[]float64{359, 0, 1, 90}, map[float64]float64{359: 0, 1: 0}},
	} {
		got := Piece{Turns: c.turns}.straightOf()
		for turn, straight := range got {
			want, leans := c.want[turn]
			if !leans {
				want = turn
			}
			if straight != want {
				t.Errorf("%v: %v leans off %v, want %v", c.turns, turn, straight, want)
			}
		}
	}
	all := make([]float64, 72)
	for k := range all {
		all[k] = float64(5 * k)
	}
	for turn, straight := range (Piece{Turns: all}).straightOf() {
		if turn != straight {
			t.Errorf("all round, %v leans off %v", turn, straight)
		}
	}
	piece := Piece{Turns: []float64{0, 2, -2}}
	if off, from := lean(Placed{Turn: -2, Mirrored: true}, piece.straightOf()); math.Abs(off-2) > 1e-12 || from != 0 {
		t.Errorf("mirrored, turned -2: leans %v off %v, want 2 off 0", off, from)
	}
}
