package plan

import (
	"context"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/cost"
	"yardlay/nest"
)

// figures are what does not hang on the clock of a laying and of what it is set beside.
type figures struct {
	Opened                            []nest.Layout
	Needed, Spare, LeastBuy, LeastFor float64
	Buy                               []cost.Purchase
}

func figuresOf(l Laid) figures {
	f := figures{Needed: l.Needed, Spare: l.Spare, LeastBuy: l.LeastBuy, LeastFor: l.LeastFor}
	for _, one := range []*Laid{&l, l.Plain, l.Alone} {
		if one != nil {
			f.Opened, f.Buy = append(f.Opened, one.Opened), append(f.Buy, one.Buy)
		}
	}
	return f
}

// Cloth by cloth, and watched, a job comes to what a run of it comes to. What is shown meanwhile holds
// in its stretches and on the shelf, needs less and less, and never claims more than the last.
func TestWholeIsWhatRunFinds(t *testing.T) {
	efforts := often.Full([]nest.Effort{nest.Trial, nest.Quick, nest.Trial}, // of jobs that are soon laid
		[]nest.Effort{nest.Quick, nest.Trial, nest.Trial})
	shown := 0
	for n := range often.Jobs(often.Full(2, 3), 30) {
		seed := 9 + n // the first few ask for what cannot be laid
		j := testjobs.Read(t, testjobs.Gown(testjobs.RandomCloth.Example(seed)))
		gowns := 1 + seed%2
		o := Options{Effort: efforts[n%3], Seed: uint64(seed), Gowns: gowns, Unit: j.Unit}
		want, wrong := Run(context.Background(), j, o)
		tasks, err := Tasks(j, gowns)
		if err != nil {
			if wrong == nil {
				t.Fatalf("job %d: %v", seed, err)
			}
			continue
		}
		var alone *Task
		if gowns > 1 {
			one, err := Tasks(j, 1)
			if err != nil {
				t.Fatalf("job %d: %v", seed, err)
			}
			alone = &one[0]
		}
		var met []Laid
		o.Better = func(l Laid) { met = append(met, l) }
		got, err := Whole(context.Background(), j, tasks[0], alone, o)
		if (err == nil) != (wrong == nil) {
			t.Fatalf("job %d: %v, a run says %v", seed, err, wrong)
		}
		if err != nil {
			continue
		}
		if diff := cmp.Diff(figuresOf(want[0]), figuresOf(got)); diff != "" {
			t.Fatalf("job %d comes to something else (-run +whole):\n%s", seed, diff)
		}
		needed := math.Inf(1)
		for i, l := range met {
			shown++
			if l.Needed > needed {
				t.Errorf("job %d, shown %d: %v mm are needed after %v", seed, i, l.Needed, needed)
			}
			needed = l.Needed
			holdsAll(t, l)
			if l.LeastBuy > got.LeastBuy || l.LeastBuy > l.Buy.Bought {
				t.Errorf("job %d, shown %d: at least %v mm are bought, in the end %v", seed, i, l.LeastBuy,
					got.LeastBuy)
			}
		}
		if len(met) > 0 && got.Needed > needed {
			t.Errorf("job %d: %v mm were shown, %v are needed in the end", seed, needed, got.Needed)
		}
	}
	if shown == 0 {
		t.Error("nothing was shown")
	}
}

// holdsAll judges every layout of a laying, and counts that each copy is cut once.
func holdsAll(t *testing.T, l Laid) {
	t.Helper()
	copies := len(l.Opened.Placed)
	for i, s := range l.Task.Stretches {
		if err := nest.Verify(s.Problem, l.Results[i].Layout); err != nil {
			t.Errorf("stretch %d: %v", i, err)
		}
	}
	if err := nest.Verify(l.Rest, l.Opened); err != nil {
		t.Errorf("opened out: %v", err)
	}
	if l.Shelf != nil {
		for _, c := range l.Shelf.Cuts {
			copies += len(c.Layout.Placed)
			if err := nest.Verify(c.Problem, c.Layout); err != nil {
				t.Errorf("%s: %v", c.Name, err)
			}
		}
	}
	if want := l.Task.Spread.Copies(); copies != want {
		t.Errorf("%d copies are laid of %d", copies, want)
	}
}

// A laying belongs to every task of its key, whatever a cloth is called.
func TestOfAnotherTask(t *testing.T) {
	was := onlyTask(t, testjobs.Striped(150, 20)+"title = \"blue\"\n"+stripedPanels)
	is := onlyTask(t, testjobs.Striped(150, 20)+"title = \"green\"\n"+stripedPanels)
	if was.Key() != is.Key() {
		t.Fatal("the name of a cloth is part of the key")
	}
	l, err := Whole(context.Background(), testjobs.Read(t, testjobs.Striped(150, 20)+stripedPanels), was, nil,
		Options{Effort: nest.Trial})
	if err != nil {
		t.Fatal(err)
	}
	got := l.Of(is)
	if got.Task.Spread.Cloth.Title != "green" || got.Plain.Task.Spread.Cloth.Title != "green" {
		t.Errorf("the cloth is called %q, without its repeat %q", got.Task.Spread.Cloth.Title,
			got.Plain.Task.Spread.Cloth.Title)
	}
	if l.Task.Spread.Cloth.Title != "blue" || l.Plain.Task.Spread.Cloth.Title != "blue" {
		t.Error("the laying itself is changed")
	}
	if diff := cmp.Diff(figuresOf(l), figuresOf(got)); diff != "" {
		t.Error(diff)
	}
}

const stripedPanels = "[[part]]\nname = \"panel\"\ndraft = \"rectangle\"\ncloth = \"stripe\"\nlength = 60\n" +
	"width = 40\ncount = 3\n"
