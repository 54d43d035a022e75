package main

import (
	"bytes"
	"fmt"
	"math"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"yardlay/nest"
)

// ran runs the program and returns what it prints, and its exit code.
func ran(args ...string) (stdout, stderr string, code int) {
	var out, bad bytes.Buffer
	code = run(args, &out, &bad)
	return out.String(), bad.String(), code
}

// The command lists every cloth with its pieces, bounds those that are named, and tells what the runs of a file say.
func TestWhatTheCommandPrints(t *testing.T) {
	cloths, err := listed()
	if err != nil {
		t.Fatal(err)
	}
	want := ""
	for _, c := range cloths {
		want += fmt.Sprintf("%3d pieces  %s\n", copies(c.problem), c.name)
	}
	if out, bad, code := ran("--list"); code != 0 || bad != "" || out != want {
		t.Errorf("%d, %s: %s", code, bad, cmp.Diff(want, out))
	}
	net := cloths[slices.IndexFunc(cloths, func(c cloth) bool { return strings.HasPrefix(c.name, "net layers") })].name
	out, bad, code := ran("--bounds", "--cloth", "^"+regexp.QuoteMeta(net)+"$")
	line := regexp.MustCompile(`^ *[0-9.]+ in +[0-9.]+ s  \S.* ` + regexp.QuoteMeta(net) + `\n *[0-9.]+ s  in all\n$`)
	if !line.MatchString(out) || code != 0 || bad != "" {
		t.Errorf("%d, %s, %q", code, bad, out)
	}
	file := filepath.Join(t.TempDir(), "runs")
	m, err := mark(cloths[3].problem)
	if err != nil {
		t.Fatal(err)
	}
	for seed := range uint64(2) {
		if err := add(file, record{Mark: m, Work: 1, Seed: seed + 1, Length: 20 * inch, Bound: 10 * inch}); err != nil {
			t.Fatal(err)
		}
	}
	if out, bad, code := ran("--report", file); code != 0 || bad != "" || !strings.Contains(out, "| "+cloths[3].name) {
		t.Errorf("%d, %s, %q", code, bad, out)
	}
}

// What is asked for is what is done.
func TestSettingsAreThoseAsked(t *testing.T) {
	named := regexp.MustCompile("^net")
	want := settings{part: 2, parts: 3, first: 4, last: 9, work: 10, worst: 5, unsettled: true, named: named, workers: 7,
		out: "runs"}
	got, err := parse([]string{"--part", "2/3", "--seeds", "4..9", "--work", "10", "--worst", "5", "--unsettled",
		"--cloth", "^net", "--workers", "7", "--out", "runs"}, &bytes.Buffer{})
	same := cmp.Comparer(func(a, b *regexp.Regexp) bool { return a.String() == b.String() })
	if diff := cmp.Diff(want, got, cmp.AllowUnexported(settings{}), same); err != nil || diff != "" {
		t.Errorf("%v: %s", err, diff)
	}
	want = settings{part: 1, parts: 1, first: 1, last: 1, work: 1, named: regexp.MustCompile(""), list: true}
	got, err = parse([]string{"--list"}, &bytes.Buffer{})
	if diff := cmp.Diff(want, got, cmp.AllowUnexported(settings{}), same); err != nil || diff != "" {
		t.Errorf("%v: %s", err, diff)
	}
	for _, args := range [][]string{{"--list", "--work", "1048576"}, {"--list", "--worst", "0"}, {"--bounds"},
		{"--report", "runs"}, {"--list", "--part", "2/2"}, {"--list", "--seeds", "5..5"}} {
		if _, err := parse(args, &bytes.Buffer{}); err != nil {
			t.Errorf("%q: %v", args, err)
		}
	}
	for _, args := range [][]string{{"--list", "--work", "1048577"}, {"--list", "--part", "2"}, {"--list", "--no"}} {
		if _, err := parse(args, &bytes.Buffer{}); err == nil {
			t.Errorf("%q is taken", args)
		}
	}
}

// A cloth holds as many pieces as it may: too many are cut fewer times, then for fewer bodies; too few more times. It
// is called by what it holds then.
func TestClothsAreOfASize(t *testing.T) {
	corset := styles[0] // of 12 panels, a pair each
	for _, c := range []struct {
		bodies, times int
		pieces        int
		name          string
	}{
		{1, 1, 12, "1 body, 45 in, two-way"}, {1, 3, 36, "1 body 3 times, 45 in, two-way"},
		{2, 2, 48, "2 bodies twice, 45 in, two-way"}, {2, 3, 48, "2 bodies twice, 45 in, two-way"},
		{4, 3, 48, "4 bodies, 45 in, two-way"}, {7, 1, 60, "5 bodies, 45 in, two-way"},
		{5, 1, 60, "5 bodies, 45 in, two-way"},
	} {
		o := order{style: corset, bodies: c.bodies, times: c.times, width: 45, nap: naps[0]}
		got, err := o.sized()
		if n := copies(got.problem); err != nil || n != c.pieces || got.name != "corset of 12 panels, "+c.name {
			t.Errorf("%d bodies %d times: %d pieces, %q, %v", c.bodies, c.times, n, got.name, err)
		}
	}
	o := order{style: style{name: "band", drafts: only(waistband)}, bodies: 1, times: 1, width: 60, nap: naps[2]}
	got, err := o.sized()
	if n := copies(got.problem); err != nil || n != fewestLaid || got.name != "band, 1 body 4 times, 60 in, all-way" {
		t.Errorf("%d bands, %q: %v", n, got.name, err)
	}
}

// Pieces lie as their nap lets them, in pairs where they are cut so, on a cloth as wide as it is sold but for its
// selvedges; on a fold they are cut in pairs at once.
func TestClothsAreLaidByTheirNap(t *testing.T) {
	for i, want := range []struct {
		turns  int
		mirror nest.Mirror
	}{{2, nest.Paired}, {1, nest.Paired}, {2, nest.Free}} {
		o := order{style: styles[0], bodies: 1, times: 1, width: 45, nap: naps[i]}
		c, err := o.cloth()
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range c.problem.Pieces {
			if len(p.Turns) != want.turns || p.Turns[0] != 0 || p.Mirror != want.mirror || p.Count != 2 {
				t.Errorf("%s: %s is %+v", o, p.Name, p)
			}
		}
		if w, g := c.problem.Strip.Width, c.problem.Gap; w > 44*inch || w < 44*inch-0.001 || g > inch/8 || g < inch/8-0.001 {
			t.Errorf("%s is %v wide, pieces %v apart", o, w, g)
		}
		o.folded = true
		f, err := o.cloth()
		if err != nil || 2*copies(f.problem) != copies(c.problem) || f.name != c.name+", folded" ||
			math.Abs(f.problem.Strip.Width-22*inch) > 0.001 {
			t.Errorf("%s: %d pieces on %v: %v", f.name, copies(f.problem), f.problem.Strip.Width, err)
		}
	}
}

// What all runs come to is counted over cloths and over seeds; what is proved stands apart from what is compared.
func TestSummaryCountsRuns(t *testing.T) {
	var out bytes.Buffer
	all := []line{
		{name: "far", runs: 3, normal: 103, seeds: []float64{103, 100.9}, longer: 100, best: 100, bound: 80},
		{name: "steady", runs: 2, normal: 100.9, seeds: []float64{100.9, 100.5}, best: 100, bound: 90},
		{name: "near", runs: 2, normal: 100, seeds: []float64{100, 102}, longer: 100, best: 100, bound: 99.5},
		{name: "proved", runs: 2, normal: 110, seeds: []float64{110, 100}, best: 100, bound: 100, proved: true},
	}
	summary(&out, all)
	want := `
4 cloths compared in 9 runs, 2 of them with ten times the work; 1 lie within 1 % of their bounds.
No less can be bought, by the eighth of a yard, than for 1 of the default layouts.
The others within 1 % of the best: 2 of 3 (67 %), median 0.90 %, worst 3.00 %: far.
Layouts of any seed within 1 %: 5 of 8. Best above the bound: median 0.50 %, at most 25.00 %.
`
	if diff := cmp.Diff(want, out.String()); diff != "" {
		t.Error(diff)
	}
	out.Reset()
	summary(&out, all[3:])
	if strings.Contains(out.String(), "The others") {
		t.Errorf("%s", &out)
	}
}
