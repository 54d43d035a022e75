package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/nest"
)

// panelled is a cloth 900 mm wide with so many panels of 508 mm, 20 in, by 450: two abreast, by hand.
func panelled(name string, n int) cloth {
	x, y := 508., 450.
	return cloth{name: name, problem: nest.Problem{Strip: nest.Strip{Width: 900, MaxLength: 100_000},
		Pieces: []nest.Piece{{Name: "panel", Outline: orb.Ring{{0, 0}, {x, 0}, {x, y}, {0, y}, {0, 0}}, Count: n}}}}
}

var everything = regexp.MustCompile("")

// A survey makes each run once: those that stand in the file are passed by when it goes on, and a cloth that was
// drawn anew is laid anew. Two panels take 20 in, three and four 40 in, and no less.
func TestSurveyGoesOnWhereItEnded(t *testing.T) {
	cloths := []cloth{panelled("two", 2), panelled("three", 3)}
	s := settings{part: 1, parts: 1, first: 1, last: 2, work: 1, named: everything, workers: 1,
		out: filepath.Join(t.TempDir(), "runs")}
	laid := func() []string {
		t.Helper()
		var out bytes.Buffer
		if err := survey(t.Context(), s, cloths, &out); err != nil {
			t.Fatal(err)
		}
		var all []string
		for line := range strings.Lines(out.String()) {
			all = append(all, regexp.MustCompile(`, [0-9.]+ s`).ReplaceAllString(strings.TrimSpace(line), ""))
		}
		return all
	}
	want := []string{"20.00 in  seed 1, work 1: two", "40.00 in  seed 1, work 1: three",
		"20.00 in  seed 2, work 1: two", "40.00 in  seed 2, work 1: three"}
	if got := laid(); !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
	cloths[1] = panelled("three", 4)
	if got := laid(); !slices.Equal(got, []string{want[1], want[3]}) {
		t.Errorf("when it goes on: %q", got)
	}
	runs, err := read(s.out)
	if err != nil || len(runs) != 6 {
		t.Fatalf("%d runs, %v", len(runs), err)
	}
	for _, r := range runs {
		if !r.Proved || r.Bound > r.Length || r.Evaluations < 0 {
			t.Errorf("%+v", r)
		}
	}
	ctx, stop := context.WithCancel(t.Context())
	stop()
	s.last = 3
	open := panelled("open", 7) // triangles, of which nothing is proved at once
	open.problem.Pieces[0].Outline = orb.Ring{{0, 0}, {508, 0}, {300, 450}, {0, 0}}
	if err := survey(ctx, s, []cloth{open}, &bytes.Buffer{}); err == nil ||
		!strings.HasPrefix(err.Error(), "open, seed 1: ") {
		t.Errorf("an interrupted run is one: %v", err)
	}
	if runs, err := read(s.out); err != nil || len(runs) != 6 {
		t.Errorf("an interrupted run stands in the file: %d, %v", len(runs), err)
	}
}

// Shares have every cloth once; the worst first, by how far the default layout is above the best; those that are near
// their bounds may be left out.
func TestClothsThatAreSurveyed(t *testing.T) {
	var cloths []cloth
	for n := range 5 {
		cloths = append(cloths, panelled(fmt.Sprintf("cloth %d", n), n+1))
	}
	run := func(n int, seed uint64, work int64, length, bound float64) record {
		m, err := mark(cloths[n].problem)
		if err != nil {
			t.Fatal(err)
		}
		return record{Mark: m, Seed: seed, Work: work, Length: length, Bound: bound}
	}
	// Cloth 1 is 10 % above its best, cloth 3 20 %, cloth 2 is settled; the others were not laid.
	runs := []record{run(1, 1, 1, 110, 90), run(1, 1, 10, 100, 90), run(3, 1, 1, 120, 90), run(3, 2, 1, 100, 90),
		run(2, 1, 1, 100, 99.5)}
	picked := func(with func(*settings)) string {
		s := settings{part: 1, parts: 1, named: everything}
		with(&s)
		got, err := pick(s, cloths, runs)
		if err != nil {
			t.Fatal(err)
		}
		var names []string
		for _, c := range got {
			names = append(names, strings.TrimPrefix(c.name, "cloth "))
		}
		return strings.Join(names, " ")
	}
	for _, tt := range []struct {
		what string
		with func(*settings)
		want string
	}{
		{"all", func(*settings) {}, "0 1 2 3 4"},
		{"first share", func(s *settings) { s.parts = 2 }, "0 2 4"},
		{"second share", func(s *settings) { s.part, s.parts = 2, 2 }, "1 3"},
		{"the worst", func(s *settings) { s.worst = 2 }, "3 1"},
		{"more than there are", func(s *settings) { s.worst = 9 }, "3 1 2"},
		{"unsettled", func(s *settings) { s.unsettled = true }, "0 1 3 4"},
		{"named", func(s *settings) { s.named = regexp.MustCompile("[34]$") }, "3 4"},
	} {
		if got := picked(tt.with); got != tt.want {
			t.Errorf("%s: %s, want %s", tt.what, got, tt.want)
		}
	}
}

// What no run can better comes last, however far any seed lies above the best.
func TestWorstFirst(t *testing.T) {
	all := []line{{name: "proved", normal: 200, best: 100, seeds: []float64{200}, proved: true},
		{name: "steady", normal: 105, best: 100, seeds: []float64{105}}, {name: "worst", normal: 110, best: 100,
			seeds: []float64{110}},
		{name: "unsteady", normal: 105, best: 100, seeds: []float64{105, 130}}}
	worstFirst(all)
	var names []string
	for _, l := range all {
		names = append(names, l.name)
	}
	if got := strings.Join(names, " "); got != "worst unsteady steady proved" {
		t.Error(got)
	}
	for want, v := range map[float64][]float64{3: {5, 3, 1}, 2: {4, 2, 9, 1}, 7: {7}} {
		if got := median(v); got != want {
			t.Errorf("the middle of %v is %v", v, got)
		}
	}
}

// Cloth is bought by the eighth of a yard, 4.5 in, up.
func TestEighths(t *testing.T) {
	for used, want := range map[float64]float64{0: 0, 4.5: 4.5, 4.6: 9, 36: 36, 40: 40.5} {
		if got := eighths(used*inch) / inch; got < want-1e-9 || got > want+1e-9 {
			t.Errorf("%v in: %v in bought, want %v", used, got, want)
		}
	}
}

// Bounds are printed cloth by cloth, without a layout: two abreast, two panels take 20 in and four 40.
func TestBoundsAlone(t *testing.T) {
	var out bytes.Buffer
	if err := bounds(t.Context(), []cloth{panelled("two", 2), panelled("four", 4)}, &out); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	if len(lines) != 3 || !strings.HasPrefix(strings.TrimSpace(lines[0]), "20.000 in ") ||
		!strings.HasPrefix(strings.TrimSpace(lines[1]), "40.000 in ") || !strings.HasSuffix(lines[1], " four") {
		t.Errorf("%q", lines)
	}
	ctx, stop := context.WithCancel(t.Context())
	stop()
	if err := bounds(ctx, []cloth{panelled("two", 2)}, &out); err == nil {
		t.Error("an interrupted run prints bounds")
	}
}

// Wrong use is told before any cloth is drawn, and a file that is none of runs at its line.
func TestSettings(t *testing.T) {
	for _, tt := range []struct {
		args []string
		why  string
	}{
		{nil, "one of --list"}, {[]string{"--list", "x"}, `unexpected "x"`}, {[]string{"--list", "--work", "0"}, "--work 0"},
		{[]string{"--list", "--worst", "-1"}, "--worst -1"}, {[]string{"--list", "--seeds", "0"}, "--seeds 0"},
		{[]string{"--list", "--seeds", "3..2"}, "--seeds 3..2"}, {[]string{"--list", "--seeds", "x"}, "--seeds x"},
		{[]string{"--list", "--part", "3/2"}, "--part 3/2"}, {[]string{"--list", "--part", "0/2"}, "--part 0/2"},
		{[]string{"--list", "--cloth", "("}, "--cloth ("},
	} {
		var stderr bytes.Buffer
		if code := run(tt.args, &bytes.Buffer{}, &stderr); code != 2 || !strings.Contains(stderr.String(), tt.why) {
			t.Errorf("%q: %d, %s", tt.args, code, &stderr)
		}
	}
	var help bytes.Buffer
	if code := run([]string{"--help"}, &bytes.Buffer{}, &help); code != 0 || !strings.Contains(help.String(), "--seeds") {
		t.Errorf("%d: %s", code, &help)
	}
	for text, want := range map[string][2]uint64{"3": {3, 3}, "1..8": {1, 8}} {
		if first, last, err := span(text); err != nil || [2]uint64{first, last} != want {
			t.Errorf("%s: %d to %d, %v", text, first, last, err)
		}
	}
	file := filepath.Join(t.TempDir(), "runs")
	if err := os.WriteFile(file, []byte("{}\nno\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := read(file); err == nil || !strings.HasPrefix(err.Error(), file+":2: ") {
		t.Error(err)
	}
	if runs, err := read(file + ".gone"); err != nil || runs != nil {
		t.Errorf("%v, %v", runs, err)
	}
	if err := report(&bytes.Buffer{}, nil, nil); err == nil || !strings.Contains(err.Error(), "run with --seeds 1 first") {
		t.Error(err)
	}
}
