package plan

import (
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// The work of an effort is left to nest, which lets it grow while that pays; only the
// few pieces left over from a fold get less than that, and a fixed amount.
func TestWorkGrowsButOnWhatIsLeftOver(t *testing.T) {
	piece := func(count int) nest.Piece { return nest.Piece{Count: count} }
	stretch := func(count int) nest.Stretch {
		return nest.Stretch{Problem: nest.Problem{Pieces: []nest.Piece{piece(count)}}}
	}
	full := nest.Normal.Work()
	for _, c := range []struct {
		counts []int
		want   []int64 // 0: as the effort has it
	}{
		{[]int{12}, []int64{0}},
		{[]int{12, 4}, []int64{0, full / 2}},
		{[]int{20, 1}, []int64{0, full / 4}},
		{[]int{5, 5}, []int64{0, 0}},
	} {
		task := Task{Spread: Spread{Cloth: job.Cloth{ID: "satin"}}}
		for _, n := range c.counts {
			task.Stretches = append(task.Stretches, stretch(n))
		}
		for i, want := range c.want {
			if got := task.searchOn(i, Options{Unit: measure.Inch}).Work; got != want {
				t.Errorf("%v, stretch %d: work %d, want %d", c.counts, i, got, want)
			}
		}
	}
}
