package outline

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// A line of fold along an edge is one, on whichever side of it rounding or the hand put it, as far
// as an edge may lie from its fold; farther out it belongs to no piece.
func TestFoldsBesideTheEdge(t *testing.T) {
	for _, layer := range []string{"fold", "~"} {
		for _, off := range []float64{.45, .13, .002, 0, -.002, -.13, -.45} {
			got := seen(assemble(t, Options{}, drawn(t, sheet, fmt.Sprintf("%s:%g,20 %g,190", layer, off, off))))
			if d := cmp.Diff([]string{"outline 1 60000 cut, 4 edges, fold fold"}, got); d != "" {
				t.Errorf("%s, %v within the edge: %s", layer, off, d)
			}
		}
		got := seen(assemble(t, Options{}, drawn(t, sheet, layer+":-0.7,20 -0.7,190")))
		if len(got) != 2 || got[0] != "outline 1 60000 cut, 4 edges" {
			t.Errorf("%s, beside the piece: %q", layer, got)
		}
		if got := seen(assemble(t, Options{}, drawn(t, sheet, layer+":-0.125,20 -200,20"))); len(got) != 2 ||
			got[0] != "outline 1 60000 cut, 4 edges" || got[1] != "stray at -0.125,20 (line 2)" {
			t.Errorf("%s, away from the piece: %q", layer, got)
		}
	}
}

// Legs make a dart whichever way they are drawn, whatever lies across its mouth, and though their
// ends differ by rounding; three legs, legs to nowhere and one leg drawn twice make none.
func TestLegsOfDarts(t *testing.T) {
	const one = "outline 1 60000 cut, 4 edges, 1 dart"
	for _, c := range []struct {
		name  string
		lines []string
		want  string
	}{
		{"to the apex", []string{"dart:100,200 120,100", "dart:140,200 120,100"}, one},
		{"from the apex", []string{"dart:120,100 100,200", "dart:120,100 140,200"}, one},
		{"rounded", []string{"dart:120.002,100 100,200", "dart:120,100.003 140,200"}, one},
		{"a mouth drawn last", []string{"dart:120,100 100,200", "dart:120,100 140,200", "dart:100,200 140,200"},
			one + ", 1 inside"},
		{"a mouth drawn first", []string{"dart:100,200 140,200", "dart:120,100 100,200", "dart:140,200 120,100"},
			one + ", 1 inside"},
		{"two darts foot by foot", []string{"dart:80,200 100,100", "dart:100,100 120,200", "dart:120,200 140,100",
			"dart:140,100 160,200"}, "outline 1 60000 cut, 4 edges, 2 dart"},
		{"three legs", []string{"dart:100,200 120,100", "dart:120,100 140,200", "dart:120,200 120,100"},
			"outline 1 60000 cut, 4 edges, 3 inside"},
		{"one leg", []string{"dart:100,200 120,100"}, "outline 1 60000 cut, 4 edges, 1 inside"},
		{"a diamond in the middle", []string{"dart:100,100 120,60", "dart:120,60 140,100", "dart:140,100 120,140",
			"dart:120,140 100,100"}, "outline 1 60000 cut, 4 edges, 4 inside"},
		{"round a corner", []string{"dart:290,200 250,150 300,190"}, "outline 1 60000 cut, 4 edges, 1 inside"},
		{"as wide as a mouth is", []string{"dart:100,200 160,100 220,200"}, one},
		{"wider", []string{"dart:100,200 161,100 222,200"}, "outline 1 60000 cut, 4 edges, 1 inside"},
		{"uneven, but called one", []string{"dart:100,200 130,100 140,200"}, one},
		{"uneven by little", []string{"100,200 121,100 140,200"}, one},
		{"uneven", []string{"100,200 140,100 140,200"}, "outline 1 60000 cut, 4 edges, 1 inside"},
		{"shallow", []string{"dart:100,200 120,181 140,200"}, "outline 1 60000 cut, 4 edges, 1 inside"},
		{"as shallow as may be", []string{"dart:100,200 120,180 140,200"}, one},
		{"short of the edge", []string{"dart:100,197.5 120,100 140,197.5"}, one},
		{"too short of it", []string{"dart:100,196 120,100 140,196"}, "outline 1 60000 cut, 4 edges, 1 inside"},
		{"short of it, without a name", []string{"100,198 120,100 140,198"}, "outline 1 60000 cut, 4 edges, 1 inside"},
	} {
		got := seen(assemble(t, Options{}, drawn(t, append([]string{sheet}, c.lines...)...)))
		if d := cmp.Diff([]string{c.want}, got); d != "" {
			t.Errorf("%s: %s", c.name, d)
		}
	}
}
