package plan

import (
	"context"
	"reflect"
	"slices"
	"testing"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
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

// Of several lengths thorough work buys what normal work does where it finds nothing better; what normal work proves
// to be least is not looked at again.
func TestThoroughBuysNoMoreThanNormal(t *testing.T) {
	purchase := func(minor int64, bought, needed float64) Laid {
		return Laid{Needed: needed, LeastBuy: 1, Buy: cost.Purchase{Bought: bought, Cost: cost.Money{Minor: minor}}}
	}
	normal := purchase(900, 2000, 1950)
	for _, c := range []struct {
		thorough Laid
		err      error
		kept     bool
	}{
		{purchase(901, 1000, 990), nil, false},
		{purchase(899, 4000, 3990), nil, true}, // a bolt may cost less than a length
		{purchase(900, 1900, 1890), nil, true},
		{purchase(900, 2000, 1960), nil, false},
		{purchase(900, 2000, 1940), nil, true},
		{Laid{}, ErrInterrupted, false},
	} {
		var efforts []nest.Effort
		got, err := atLeastAsNormal(t.Context(), Options{Effort: nest.Thorough},
			func(_ context.Context, o Options) (Laid, error) {
				if efforts = append(efforts, o.Effort); o.Effort == nest.Normal {
					return normal, nil
				}
				return c.thorough, c.err
			})
		if err != nil || !slices.Equal(efforts, []nest.Effort{nest.Normal, nest.Thorough}) {
			t.Fatalf("%v, laid with %v", err, efforts)
		}
		if want := map[bool]Laid{true: c.thorough, false: normal}[c.kept]; !reflect.DeepEqual(got.Buy, want.Buy) {
			t.Errorf("%+v beside %+v: bought %+v", c.thorough.Buy, normal.Buy, got.Buy)
		}
	}
	least := normal
	least.LeastBuy = 2000
	if _, err := atLeastAsNormal(t.Context(), Options{Effort: nest.Thorough}, func(_ context.Context, o Options) (Laid,
		error) {
		if o.Effort != nest.Normal {
			t.Error("what is proved is laid again")
		}
		return least, nil
	}); err != nil {
		t.Error(err)
	}
}
