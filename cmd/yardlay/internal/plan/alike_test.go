package plan

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes/plane"
)

// aPart is a part of a job: its lines, and the cloth it is cut from.
type aPart struct{ name, lines string }

// gown is a job of a few parts on cloths of their own rules.
type gown struct {
	cloths []string // tables
	parts  []aPart
}

func (g gown) String() string {
	var b strings.Builder
	b.WriteString("unit = \"in\"\n[body]\nwaist_girth = 28\nhip_girth = 38\nwaist_to_hips = 8\n[allowance]\n" +
		"seam = \"1/2\"\nhem = 1\n")
	for _, c := range g.cloths {
		b.WriteString(c)
	}
	for _, p := range g.parts {
		fmt.Fprintf(&b, "[[part]]\nname = %q\n%s", p.name, p.lines)
	}
	return b.String()
}

func anyGown(t *rapid.T) gown {
	var g gown
	ids := []string{"satin", "tulle", "velvet"}
	for _, id := range ids {
		c := fmt.Sprintf("[[cloth]]\nid = %q\nwidth = %d\n", id, rapid.IntRange(50, 70).Draw(t, "width"))
		for _, rule := range []string{"nap = \"two-way\"\n", "selvedge = \"1/2\"\n", "ends = 1\nspare = \"5 %\"\n",
			"shrinkage = { warp = \"-3 %\", by = \"pieces\" }\n", "price = \"9.00/yd\"\n"} {
			if rapid.Bool().Draw(t, "rule") {
				c += rule
			}
		}
		g.cloths = append(g.cloths, c)
	}
	drafts := []string{
		"draft = \"circle-skirt\"\ncircle = \"half\"\ngores = 4\nlength = 20\n",
		"draft = \"gored-skirt\"\ngores = 6\nhem_sweep = 90\nlength = 24\n",
		"draft = \"waistband\"\nwidth = 1\n", "draft = \"rectangle\"\nlength = 30\nwidth = 9\n",
		"draft = \"godet\"\nlength = 12\nhem = 9\n",
		"draft = \"cape\"\nneck = 16\nlength = 12\ncircle = \"half\"\nback_seam = true\n",
	}
	for i := range rapid.IntRange(1, 4).Draw(t, "parts") {
		lines := rapid.SampledFrom(drafts).Draw(t, "draft")
		lines += fmt.Sprintf("cloth = %q\ntimes = %d\n", rapid.SampledFrom(ids).Draw(t, "cloth"),
			rapid.IntRange(1, 2).Draw(t, "times"))
		g.parts = append(g.parts, aPart{fmt.Sprint("part ", i+1), lines})
	}
	return g
}

// cutOf lists what is laid on each cloth: outlines, rights and how often, whatever they are
// called and in whatever order.
func cutOf(t rapid.TB, src string, gowns int) map[string][]string {
	tasks, err := Tasks(testjobs.Read(t, src), gowns)
	if err != nil {
		t.Fatalf("%v\n%s", err, src)
	}
	all := map[string][]string{}
	for _, task := range tasks {
		counts := map[string]int{}
		for _, p := range task.Problem.Pieces {
			counts[fmt.Sprint(plane.Canonical(p.Outline), p.Turns, p.Mirror)] += p.Count
		}
		id := task.Spread.Cloth.ID
		for what, n := range counts {
			all[id] = append(all[id], fmt.Sprint(n, " x ", what))
		}
		slices.Sort(all[id])
		all[id] = append(all[id], fmt.Sprint(task.Problem.Strip))
	}
	return all
}

// What is cut from a cloth hangs neither on the order of parts and cloths in the file nor
// on parts of other cloths, nor on cloths that nothing is cut from; and n gowns are cut as
// one whose parts are counted n times.
func TestWhatIsCutHangsOnItsOwnLines(t *testing.T) {
	for seed := range often.Jobs(12, 300) {
		g := rapid.Custom(anyGown).Example(seed)
		want := cutOf(t, g.String(), 1)
		same := func(what string, got map[string][]string) {
			t.Helper()
			for id := range want {
				if !slices.Equal(got[id], want[id]) {
					t.Fatalf("%s, on %s\n%v\nare cut, want\n%v\n%s", what, id, got[id], want[id], g)
				}
			}
		}
		turned := gown{slices.Clone(g.cloths), slices.Clone(g.parts)}
		slices.Reverse(turned.cloths)
		slices.Reverse(turned.parts)
		same("the other way round", cutOf(t, turned.String(), 1))
		more := gown{append(slices.Clone(g.cloths), "[[cloth]]\nid = \"canvas\"\nwidth = 40\n",
			"[[cloth]]\nid = \"unused\"\nwidth = 60\n"), append([]aPart{{"stay", "draft = \"rectangle\"\ncloth = " +
			"\"canvas\"\nlength = 10\nwidth = 3\n"}}, g.parts...)}
		same("with a part of another cloth", cutOf(t, more.String(), 1))

		n := 2 + seed%2
		want = cutOf(t, g.String(), n)
		counted := gown{g.cloths, slices.Clone(g.parts)}
		for i, p := range counted.parts {
			once, twice := "times = 1\n", "times = 2\n"
			counted.parts[i].lines = strings.NewReplacer(once, fmt.Sprintf("times = %d\n", n), twice,
				fmt.Sprintf("times = %d\n", 2*n)).Replace(p.lines)
		}
		same(fmt.Sprint("counted ", n, " times"), cutOf(t, counted.String(), 1))
	}
}

// Nothing of a job is changed by drawing it, and drawn again it comes to the same.
func TestDrawingLeavesTheJob(t *testing.T) {
	for seed := range often.Jobs(8, 100) {
		src := rapid.Custom(anyGown).Example(1000 + seed).String()
		j := testjobs.Read(t, src)
		keys := func() (all []string) {
			for _, n := range []int{1, 2} {
				tasks, err := Tasks(j, n)
				if err != nil {
					t.Fatal(err)
				}
				for _, task := range tasks {
					all = append(all, task.Key())
				}
			}
			return all
		}
		if first, second := keys(), keys(); !slices.Equal(first, second) {
			t.Fatalf("drawn twice it differs: %s", src)
		}
		if !j.Same(testjobs.Read(t, src)) {
			t.Fatalf("drawing changed the job: %s", src)
		}
	}
}
