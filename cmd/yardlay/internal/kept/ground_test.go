package kept

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// begun begins the one task of a job from a file, without laying it.
func begun(t *testing.T, f *File, src string) (plan.Task, State) {
	t.Helper()
	tasks, err := plan.Tasks(testjobs.Read(t, src), 1)
	if err != nil {
		t.Fatal(err)
	}
	return f.Begin(tasks[0])
}

// What of the cloth is another than when its layout was kept is told, each by its name, and nothing
// else; the pieces are as they were.
func TestWhatOfTheClothChanged(t *testing.T) {
	const flaw = "flaws = [{ from = 90, to = 95, low = 3, high = 9 }]\n"
	job := func(cloth string) string { return testjobs.Gown(cloth) }
	for _, c := range []struct {
		was, is string
		want    []string
	}{
		{job(""), job(""), nil},
		{job(flaw), job(flaw), nil},
		{job(""), job(flaw), []string{"flaws"}},
		{job(flaw), job(strings.Replace(flaw, "95", "96", 1)), []string{"flaws"}},
		{job(flaw), job(""), []string{"flaws"}},
		{job(""), strings.Replace(job(""), "width = 120", "width = 121", 1), []string{"width"}},
		{job(""), strings.Replace(job(""), "selvedge = 1", "selvedge = 1.5", 1), []string{"width"}},
		{job(""), strings.Replace(job(""), "gap = 0.5", "gap = 0.4", 1), []string{"gap"}},
		{job("repeat = { along = 7 }\n"), job("repeat = { along = 8 }\n"), []string{"repeat"}},
		{job("repeat = { along = 7 }\n"), job("repeat = { along = 7, across = 7 }\n"), []string{"repeat"}},
		{job(""), job("nap = \"all-way\"\n"), nil},
		{job(""), job("lay = \"crosswise-fold\"\nnap = \"two-way\"\n"), []string{"lay"}},
		{job(""), strings.Replace(job(flaw), "width = 120", "width = 130", 1), []string{"width", "flaws"}},
	} {
		f, _ := Of(laidJob(t, c.was, nil))
		if _, state := begun(t, f, c.is); !slices.Equal(state.Ground, c.want) || len(state.Changed) > 0 {
			t.Errorf("from\n%s\nto\n%s\n%+v, want %q", c.was, c.is, state, c.want)
		}
	}
}

// What is pinned where a flaw was found later is told and laid anew; all else stays pinned.
func TestAFlawUnpinsWhatLiesOverIt(t *testing.T) {
	f, _ := Of(laidJob(t, testjobs.Gown(""), nil))
	pieces := f.Cloths[0].Stretches[0].Pieces
	for i := range pieces {
		pieces[i].Pinned = true
	}
	task, _ := begun(t, f, testjobs.Gown(""))
	p := task.Stretches[0].Problem
	for k := range p.Pieces { // a flaw of 4 mm in the middle of each in turn
		at := slices.IndexFunc(pieces, func(o Piece) bool { return o.Name == p.Pieces[k].Name })
		ring := p.Outline(nest.Placed{Piece: k, Turn: pieces[at].Turn, Mirrored: pieces[at].Mirrored, At: pieces[at].At})
		centre := inside(ring)
		flaw := fmt.Sprintf("flaws = [{ from = %.1f, to = %.1f, low = %.1f, high = %.1f }]\n", (centre[0]-2)/10,
			(centre[0]+2)/10, (centre[1]+8)/10, (centre[1]+12)/10) // from the outer edge of the selvedge
		task, state := begun(t, f, testjobs.Gown(flaw))
		if len(state.Unpinned) != 1 || state.Unpinned[0].Piece != pieces[at].Name ||
			state.Unpinned[0].Copy != pieces[at].Copy || state.Unpinned[0].Why.Rule != nest.InForbidden {
			t.Fatalf("%s, with %s: %+v", pieces[at].Name, flaw, state.Unpinned)
		}
		if state.Pinned != len(pieces)-1 || task.Pinned() != state.Pinned || state.Begun || state.Broken == nil {
			t.Errorf("%s: %+v", pieces[at].Name, state)
		}
	}
}

// inside is a point well within a ring: of a grid, the one farthest from its edges.
func inside(ring orb.Ring) (best orb.Point) {
	far := 0.
	b := plane.Bounds(ring)
	for i := range 40 {
		for k := range 40 {
			p := orb.Point{b.Min[0] + (b.Max[0]-b.Min[0])*float64(i)/40, b.Min[1] + (b.Max[1]-b.Min[1])*float64(k)/40}
			if d := depth(ring, p); d > far {
				best, far = p, d
			}
		}
	}
	return best
}

// depth is how far within a ring a point lies, by lines to its corners and sides; 0 outside.
func depth(ring orb.Ring, p orb.Point) float64 {
	in, least := false, 1e9
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0]+(b[0]-a[0])*(p[1]-a[1])/(b[1]-a[1]) {
			in = !in
		}
		for s := 0.; s <= 1; s += .125 {
			dx, dy := a[0]+s*(b[0]-a[0])-p[0], a[1]+s*(b[1]-a[1])-p[1]
			least = min(least, dx*dx+dy*dy)
		}
	}
	if !in {
		return 0
	}
	return least
}

// A mark is that of an outline: of equal ones alike whatever the sign of a zero, of any other another,
// by the smallest step of the lattice.
func TestMarksTellOutlinesApart(t *testing.T) {
	ring := orb.Ring{{0, 0}, {300, 0}, {300, 200}, {0, 200}, {0, 0}}
	mark := markOfRings([]orb.Ring{ring})
	if len(mark) != 16 || markOfRings(nil) != "" {
		t.Fatalf("%q", mark)
	}
	negative := orb.Ring{{0, 0}, {300, 0}, {300, 200}, {0, 200}, {0, 0}}
	negative[0][0] *= -1
	negative[4][1] *= -1
	within := orb.Ring{{0, 0}, {300, 0}, {300 + plane.Lattice/4, 200}, {0, 200}, {0, 0}}
	for i, same := range []orb.Ring{negative, within} {
		if markOfRings([]orb.Ring{same}) != mark {
			t.Errorf("%d is told apart", i)
		}
	}
	seen := map[string]int{mark: -1}
	for i := range ring {
		for axis := range 2 {
			other := slices.Clone(ring)
			other[i][axis] += plane.Lattice
			m := markOfRings([]orb.Ring{other})
			if was, there := seen[m]; there {
				t.Errorf("corner %d moved by a step is told from %d by nothing", i, was)
			}
			seen[m] = i
		}
	}
	if markOfRings([]orb.Ring{ring, ring}) == mark || markOfRings([]orb.Ring{ring[:3], ring[3:]}) == mark {
		t.Error("several rings are taken for one")
	}
}

// Every way in which a kept layout stands to a job has its sentences, counts in one and in many.
func TestLinesSayHowAFileStands(t *testing.T) {
	broken := func(piece string) *nest.Broken {
		return &nest.Broken{Rule: nest.OutsideStrip, Piece: piece}
	}
	why, _ := broken("sash").Parts(nil)
	for _, c := range []struct {
		state State
		stale bool
		want  []string
	}{
		{State{Missing: true}, true, []string{"wool: l.json has no layout of it. It is laid anew."}},
		{State{Begun: true, Kept: 1}, false, []string{"wool: goes on from l.json, its piece lying as it did."}},
		{State{Begun: true, Kept: 7}, false, []string{"wool: goes on from l.json, its 7 pieces lying as they did."}},
		{State{Begun: true, Kept: 7, Pinned: 2}, false,
			[]string{"wool: goes on from l.json, its 7 pieces lying as they did, 2 pinned."}},
		{State{Ground: []string{"width", "gap"}}, true, []string{"wool: its width and gap changed since l.json was kept.",
			"wool: nothing is pinned now, so all pieces are laid anew."}},
		{State{Changed: []string{"cuff"}, Fresh: []string{"cuff"}, Pinned: 1}, true,
			[]string{"wool: `cuff` changed since l.json was kept. All copies are laid anew.",
				"wool: 1 piece stays pinned, the others are laid around it."}},
		{State{Changed: []string{"cuff"}, Fresh: []string{"cuff", "yoke"}, Gone: []string{"belt"}, Pinned: 3}, true,
			[]string{"wool: `cuff` changed since l.json was kept. All copies are laid anew.",
				"wool: l.json has not every copy of `yoke` that is cut now. The others are laid anew.",
				"wool: l.json has copies of `belt` that are not cut any more. They are left out.",
				"wool: 3 pieces stay pinned, the others are laid around them."}},
		{State{Broken: broken("sash")}, true,
			[]string{"wool: the layout in l.json holds no more: " + why + ". Its pieces are laid anew."}},
		{State{Broken: broken("sash"), Pinned: 2}, true,
			[]string{"wool: the layout in l.json holds no more: " + why +
				". Its pieces are laid anew, but for 2 pinned."}},
		{State{Broken: broken("sash"), Unpinned: []Unpinned{{"sash", 1, broken("sash")}}, Pinned: 2}, true,
			[]string{"wool: \"sash\" copy 2 cannot stay pinned: " + why + ". It is laid anew.",
				"wool: 2 pieces stay pinned, the others are laid around them."}},
	} {
		c.state.Cloth = "wool"
		if diff := cmp.Diff(c.want, c.state.Lines("l.json", nil)); diff != "" || c.state.Stale() != c.stale {
			t.Errorf("%+v: stale %v, %s", c.state, c.state.Stale(), diff)
		}
	}
}

// Lengths in what is wrong are said as the job shows them.
func TestLinesShowLengths(t *testing.T) {
	f, _ := Of(laidJob(t, testjobs.Panelled("width = 90", [3]float64{40, 30, 2}), nil))
	for i := range f.Cloths[0].Stretches[0].Pieces {
		f.Cloths[0].Stretches[0].Pieces[i].Pinned = true
	}
	_, state := begun(t, f, testjobs.Panelled("width = 31", [3]float64{40, 30, 2}))
	text := strings.Join(state.Lines("l.json", measure.SizeUnit(measure.Centimetre).Size), "\n")
	if len(state.Unpinned) == 0 || !strings.Contains(text, " cm") {
		t.Errorf("%+v: %s", state, text)
	}
}
