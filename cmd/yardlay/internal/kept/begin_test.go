package kept

import (
	"reflect"
	"slices"
	"testing"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
)

// fourPanels are two kinds of rectangles on a fold, four copies of each.
func fourPanels(lay string) string {
	return testjobs.Panelled("width = 90\nselvedge = 0\nprice = \"10.00/m\"\nboth_faces = true\n"+lay,
		[3]float64{40, 30, 4}, [3]float64{25, 20, 4})
}

const folded = "lay = \"lengthwise-fold\"\n"

// task is the one task of a job.
func task(t *testing.T, src string) plan.Task {
	t.Helper()
	tasks, err := plan.Tasks(testjobs.Read(t, src), 1)
	if err != nil {
		t.Fatal(err)
	}
	return tasks[0]
}

// However copies were shared out over a fold and the open cloth behind it when they were kept, a task that shares them
// out otherwise is begun as they were, and from where they lie.
func TestSharedOutAsKept(t *testing.T) {
	for _, share := range [][]nest.Cutting{{{Double: 2}, {Double: 2}}, {{Double: 1}, {Double: 2}}, {{Double: 2}, {}},
		{{Double: 1}, {Double: 1}}} {
		var shared plan.Task
		laid := laidJob(t, fourPanels(folded), func(task plan.Task) plan.Task {
			var ok bool
			if shared, ok = task.SharedBy(share); !ok {
				t.Fatalf("cannot be cut by %v", share)
			}
			return shared
		})
		f, _ := Of(laid)
		now := task(t, fourPanels(folded))
		if shared.LaysAs(now) { // as it is shared out anew
			shared = now
		}
		got, state := f.Begin(now)
		if state.Stale() || !state.Begun || state.Kept != placedIn(f) {
			t.Errorf("%v: %+v of %d", share, state, placedIn(f))
		}
		if now := nest.ShareOf(got.Stretches, 2); !slices.Equal(now, share) {
			t.Errorf("%v is shared out as %v", share, now)
		}
		if want := shared.From(layoutsOf(laid[0])); !reflect.DeepEqual(got, want) {
			t.Errorf("%v: not begun from where its copies lie", share)
		}
	}
}

// A pair of copies cut from one outline on the fold is kept as such, beside others that are cut double.
func TestCutOnTheFoldAsKept(t *testing.T) {
	f, _ := Of(laidJob(t, testjobs.Gown(folded), nil))
	now := task(t, testjobs.Gown(folded))
	was := nest.ShareOf(now.Stretches, len(now.Problem.Pieces))
	if !slices.ContainsFunc(was, func(c nest.Cutting) bool { return c.OnFold }) ||
		!slices.ContainsFunc(was, func(c nest.Cutting) bool { return c.Double > 0 }) {
		t.Fatalf("%+v is no test of a fold", was)
	}
	for i, c := range was { // of what is cut on the fold the other share is open
		if c.OnFold {
			was[i].OnFold = false
		}
	}
	open, ok := now.SharedBy(was)
	if !ok {
		t.Fatal("what is cut on the fold cannot be cut open")
	}
	got, state := f.Begin(open)
	if state.Stale() || !state.Begun || !got.LaysAs(now) {
		t.Errorf("%+v", state)
	}
	apart, _ := Of(laidJob(t, testjobs.Gown(folded), func(plan.Task) plan.Task { return open }))
	if got, state = apart.Begin(now); state.Stale() || !state.Begun || !got.LaysAs(open) {
		t.Errorf("%+v", state)
	}
}

// Where copies are missing, or are others, nothing says how the rest was shared out: it is cut as it would be anew.
func TestSharedOutAnewWhereCopiesDiffer(t *testing.T) {
	var other plan.Task
	f, _ := Of(laidJob(t, fourPanels(folded), func(task plan.Task) plan.Task {
		other, _ = task.SharedBy([]nest.Cutting{{Double: 1}, {Double: 1}})
		return other
	}))
	now := task(t, fourPanels(folded))
	for name, change := range map[string]func(s *Stretch){
		"one fewer": func(s *Stretch) { s.Pieces = s.Pieces[1:] },
		"one more": func(s *Stretch) {
			s.Pieces = append(s.Pieces, Piece{Name: "panel 1", Copy: 9, Mark: s.Pieces[0].Mark})
		},
		"another": func(s *Stretch) { s.Pieces[0].Name = "panel 3" },
	} {
		changed := File{Cloths: []Cloth{f.Cloths[0]}}
		c := &changed.Cloths[0]
		c.Stretches = slices.Clone(c.Stretches)
		c.Stretches[0].Pieces = slices.Clone(c.Stretches[0].Pieces)
		change(&c.Stretches[0])
		if got, state := changed.Begin(now); !got.LaysAs(now) || state.Begun || !state.Stale() {
			t.Errorf("%s: %+v", name, state)
		}
	}
	if got, _ := f.Begin(now); !got.LaysAs(other) {
		t.Error("the whole layout is shared out anew")
	}
}

// placedIn counts the pieces of a file.
func placedIn(f *File) (n int) {
	for _, c := range f.Cloths {
		for _, s := range c.Stretches {
			n += len(s.Pieces)
		}
	}
	return n
}

// layoutsOf are those of a laid cloth, one a stretch.
func layoutsOf(l plan.Laid) (list []nest.Layout) {
	for _, r := range l.Results {
		list = append(list, nest.Layout{Placed: r.Layout.Placed, Length: r.Layout.Length})
	}
	return list
}
