package kept

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

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
	got, state := f.Begin(now)
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
	if got, state = f.Begin(open); state.Stale() || !state.Begun || !got.LaysAs(now) {
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

// What a file says of its lengths is not trusted: a layout is as long as its pieces lie.
func TestTheLengthIsThatOfThePieces(t *testing.T) {
	laid := laidJob(t, fourPanels(""), nil)
	want := task(t, fourPanels("")).From(layoutsOf(laid[0]))
	for _, says := range []float64{0, 1, 1e5} {
		f, _ := Of(laid)
		f.Cloths[0].Stretches[0].Length = says
		if got, state := f.Begin(task(t, fourPanels(""))); !state.Begun || !reflect.DeepEqual(got, want) {
			t.Errorf("a length of %v: %+v", says, state)
		}
	}
}

// A cloth that the file lacks is laid as it would be without one, and told of.
func TestAClothThatIsMissing(t *testing.T) {
	f, _ := Of(laidJob(t, fourPanels(""), nil))
	f.Cloths[0].ID = "silk"
	now := task(t, fourPanels(""))
	got, state := f.Begin(now)
	want := State{Cloth: "wool", Missing: true}
	if diff := cmp.Diff(want, state); diff != "" || !state.Stale() || !reflect.DeepEqual(got, now) {
		t.Errorf("%s", diff)
	}
}

// Pieces on a fold that the cloth does not have any more are gone, each told of once; so are the others missing.
func TestAFoldThatIsNoMore(t *testing.T) {
	f, _ := Of(laidJob(t, fourPanels(folded), nil))
	_, state := f.Begin(task(t, fourPanels("")))
	want := State{Cloth: "wool", Ground: []string{"lay"}, Fresh: []string{"panel 1", "panel 2"},
		Gone: []string{"panel 1", "panel 2"}}
	if diff := cmp.Diff(want, state); diff != "" {
		t.Error(diff)
	}
}

// A piece that changed counts for each copy that was there, not as one that lies where it did.
func TestKeptAreThoseThatDidNotChange(t *testing.T) {
	f, _ := Of(laidJob(t, fourPanels(""), nil))
	now := strings.Replace(fourPanels(""), "length = 40", "length = 41", 1)
	_, state := f.Begin(task(t, now))
	if diff := cmp.Diff(State{Cloth: "wool", Changed: []string{"panel 1"}, Kept: 4}, state); diff != "" {
		t.Error(diff)
	}
	now = strings.Replace(now, "count = 4", "count = 6", 1)
	_, state = f.Begin(task(t, now))
	want := State{Cloth: "wool", Changed: []string{"panel 1"}, Fresh: []string{"panel 1"}, Kept: 4}
	if diff := cmp.Diff(want, state); diff != "" {
		t.Error(diff)
	}
}

// Of several copies the one that lies where none may is unpinned, by its number; pins that a task had before are those
// of the file no more.
func TestTheCopyThatCannotStay(t *testing.T) {
	f, _ := Of(laidJob(t, fourPanels(""), nil))
	pieces := f.Cloths[0].Stretches[0].Pieces
	for i := range pieces {
		pieces[i].Pinned = true
	}
	all, state := f.Begin(task(t, fourPanels("")))
	if state.Pinned != 8 || all.Pinned() != 8 {
		t.Fatalf("%+v", state)
	}
	for i := range pieces {
		one := &pieces[i]
		was := one.At
		one.At[1] = -5
		got, state := f.Begin(all)
		if len(state.Unpinned) != 1 || state.Unpinned[0].Piece != one.Name || state.Unpinned[0].Copy != one.Copy ||
			got.Pinned() != 7 || state.Begun || state.Broken == nil || state.Broken.Piece != one.Name {
			t.Errorf("%s copy %d: %+v", one.Name, one.Copy, state)
		}
		one.At = was
	}
	for i := range pieces {
		pieces[i].Pinned = i == 0
		pieces[i].At[0] += 4000 // where all of them may lie, and none is pinned
	}
	got, state := f.Begin(all)
	if state.Pinned != 1 || got.Pinned() != 1 || !state.Begun || len(state.Unpinned) > 0 {
		t.Errorf("moved along together: %+v", state)
	}
}

// Of so many pins over each other that the job must be another one none is kept; of a few less one stays.
func TestFarTooManyPinsCannotStay(t *testing.T) {
	for _, c := range []struct{ copies, unpinned, pinned int }{
		{mostUnpinned + 1, mostUnpinned, 1}, {mostUnpinned + 2, mostUnpinned + 1, 0}, {mostUnpinned + 9, mostUnpinned + 1, 0},
	} {
		src := testjobs.Panelled("width = 90\nprice = \"10.00/m\"", [3]float64{4, 3, float64(c.copies)})
		now := task(t, src)
		mark := markOf(now.Stretches[0].Problem.Pieces[0])
		f := File{Cloths: []Cloth{groundOf(now)}}
		s := Stretch{}
		for i := range c.copies {
			s.Pieces = append(s.Pieces, Piece{Name: "panel 1", Copy: i, Mark: mark, Pinned: true})
			s.Pieces[i].At = [2]float64{0, 0}
		}
		f.Cloths[0].Stretches = []Stretch{s}
		got, state := f.Begin(now)
		if len(state.Unpinned) != c.unpinned || state.Pinned != c.pinned || got.Pinned() != c.pinned {
			t.Errorf("of %d pins %d are not kept and %d are, by the task %d", c.copies, len(state.Unpinned), state.Pinned,
				got.Pinned())
		}
		for i, u := range state.Unpinned { // of two over each other the later one goes
			if u.Copy == 0 || u.Why.Rule != nest.Overlap {
				t.Fatalf("%d: %+v", i, u)
			}
		}
	}
}

// Whatever differs, in one way or in several at once, makes a file stale.
func TestAnyDifferenceIsStale(t *testing.T) {
	why := &nest.Broken{}
	ways := []func(s *State){
		func(s *State) { s.Missing = true }, func(s *State) { s.Ground = []string{"gap"} },
		func(s *State) { s.Changed = []string{"a"} }, func(s *State) { s.Fresh = []string{"a"} },
		func(s *State) { s.Gone = []string{"a"} }, func(s *State) { s.Unpinned = []Unpinned{{"a", 0, why}} },
		func(s *State) { s.Broken = why },
	}
	for set := range 1 << len(ways) {
		s := State{Kept: 3, Pinned: 2, Begun: true}
		for i, way := range ways {
			if set>>i&1 > 0 {
				way(&s)
			}
		}
		if s.Stale() != (set > 0) {
			t.Errorf("stale %v: %+v", s.Stale(), s)
		}
	}
}

// Long lists of names end after ten, with how many more there are.
func TestLongListsEndAfterTen(t *testing.T) {
	names := make([]string, 0, 12)
	for i := range 12 {
		names = append(names, fmt.Sprint("n", i+1))
	}
	for n, want := range map[int]string{1: "`n1`", 2: "`n1` and `n2`", 10: "`n9` and `n10`", 11: "`n10` and 1 more",
		12: "`n10` and 2 more"} {
		if got := quoted(names[:n]); !strings.HasSuffix(got, want) || strings.Count(got, "`") != 2*min(n, 10) {
			t.Errorf("%d names: %s", n, got)
		}
	}
	one := State{Cloth: "wool", Ground: []string{"gap"}}.Lines("l.json", nil)
	if one[0] != "wool: its gap changed since l.json was kept." {
		t.Error(one)
	}
}
