package plan

import (
	"context"
	"sync"
	"testing"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
)

// The shelf asks from several goroutines at once what is left to cut from bought cloth:
// each is answered alike. Go itself ends a program in which they meet at a map, and the
// race detector finds it wherever they may.
func TestWhatIsLeftIsLaidFromManyGoroutines(t *testing.T) {
	task := onlyTask(t, testjobs.Panelled("width = 40\nsold_by = \"10 cm\"", [3]float64{18, 13, 2},
		[3]float64{23, 8, 3}))
	b := beside{task: task, o: Options{Effort: nest.Trial, Workers: 1}, laid: map[string]Laid{},
		best: map[string]Laid{}}
	needed := make([]float64, often.Full(8, 24))
	var all sync.WaitGroup
	for i := range needed {
		all.Go(func() {
			p := task.Problem
			p.Pieces = p.Pieces[i%2:] // two rests, each asked for by half of them
			l, err := b.fresh(context.Background(), shelf.AllOf(p), nest.Options{Effort: nest.Trial, Workers: 1})
			if err != nil {
				t.Error(err)
			}
			needed[i] = l.Needed
		})
	}
	all.Wait()
	for i := range needed {
		if needed[i] <= 0 {
			t.Errorf("ask %d: %v mm", i, needed[i])
		}
	}
	if len(b.laid) != 2 {
		t.Errorf("%d rests are known, want 2", len(b.laid))
	}
}
