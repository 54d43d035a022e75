package kept

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
)

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
