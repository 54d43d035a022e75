package outline

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// The distances by which lines are told apart (common practice, no source): a drawing just within each is read one
// way, one just beyond it the other.
func TestDistancesThatTellLinesApart(t *testing.T) {
	const one = "outline 1 60000 cut, 4 edges"
	const large = "0,0 600,0 600,600 0,600 z"
	for name, c := range map[string]struct {
		within, beyond []string // drawings
		is, becomes    []string
	}{
		"the least piece": {[]string{"0,0 30,0 30,25 0,25 z"}, []string{"0,0 29.9,0 29.9,25 0,25 z"},
			[]string{"outline 1 750 cut, 4 edges"},
			[]string{"outline 1 748 cut, 4 edges", "unit at 0,0 (line 1)"}},
		"the largest piece": {[]string{"0,0 3000,0 3000,100 0,100 z"}, []string{"0,0 3001,0 3001,100 0,100 z"},
			[]string{"outline 1 300000 cut, 4 edges"},
			[]string{"outline 1 300100 cut, 4 edges", "unit at 0,0 (line 1)"}},
		"a hole to drill, and one to cut": {[]string{sheet, "50,50 69.5,50 69.5,60 50,60 z"},
			[]string{sheet, "50,50 70,50 70,60 50,60 z"}, []string{one + ", 1 inside"},
			[]string{one + ", 1 inside, 1 hole", "cut-out at 50,50 (line 2)"}},
		"a small piece beside a large one, and a speck": {[]string{sheet, "400,0 420,0 420,5 400,5 z"},
			[]string{sheet, "400,0 419.5,0 419.5,5 400,5 z"}, []string{one, "outline 2 100 cut, 4 edges"},
			[]string{one, "stray at 400,0 (line 2)"}},
		"a speck among what is small": {[]string{"0,0 99,0 99,60 0,60 z", "400,0 419,0 419,5 400,5 z"},
			[]string{"0,0 100,0 100,60 0,60 z", "400,0 419,0 419,5 400,5 z"},
			[]string{"outline 1 5940 cut, 4 edges", "outline 2 95 cut, 4 edges"},
			[]string{"outline 1 6000 cut, 4 edges", "stray at 400,0 (line 2)"}},
		"a frame around pieces, and a piece with holes": {
			[]string{large, "100,100 150,100 150,120 100,120 z", "300,100 350,100 350,120 300,120 z"},
			[]string{large, "100,100 150,100 150,120 100,120 z", "300,100 349,100 349,120 300,120 z"},
			[]string{"outline 1 1000 cut, 4 edges", "outline 2 1000 cut, 4 edges", "doubtful at 0,0 (line 1)"},
			[]string{"outline 1 360000 cut, 4 edges, 2 inside, 2 hole", "cut-out at 100,100 (line 2)",
				"cut-out at 300,100 (line 3)"}},
		"a frame around one piece with a hole in it": {
			[]string{large, "100,100 300,100 300,200 100,200 z", "150,120 170,120 170,130 150,130 z"},
			[]string{large, "100,100 300,100 300,200 100,200 z", "150,120 169,120 169,130 150,130 z"},
			[]string{"outline 1 20000 cut, 4 edges, 1 inside, 1 hole", "doubtful at 0,0 (line 1)",
				"cut-out at 150,120 (line 3)"},
			[]string{"outline 1 360000 cut, 4 edges, 2 inside, 1 hole", "cut-out at 100,100 (line 2)"}},
		"a frame is a rectangle": {
			[]string{"0,0 600,0 600,600 20,600 0,580 z", "100,100 250,100 250,220 100,220 z",
				"300,100 450,100 450,220 300,220 z"},
			[]string{"0,0 600,0 600,600 40,600 0,560 z", "100,100 250,100 250,220 100,220 z",
				"300,100 450,100 450,220 300,220 z"},
			[]string{"outline 1 18000 cut, 4 edges", "outline 2 18000 cut, 4 edges", "doubtful at 0,0 (line 1)"},
			[]string{"outline 1 359200 cut, 5 edges, 2 inside, 2 hole", "cut-out at 100,100 (line 2)",
				"cut-out at 300,100 (line 3)"}},
		"a notch, and a line to mark": {[]string{sheet, "150,0 150,25"}, []string{sheet, "150,0 150,26"},
			[]string{one + ", 1 notch"}, []string{one + ", 1 inside"}},
		"a notch that begins at the edge, and inside": {[]string{sheet, "150,1.5 150,9"}, []string{sheet,
			"150,1.75 150,9"},
			[]string{one + ", 1 notch"}, []string{one + ", 1 inside"}},
		"a mark beside the piece, and far from it": {[]string{sheet, "notch:150,-29.5 150,-35"},
			[]string{sheet, "notch:150,-30.5 150,-35"}, []string{one + ", 1 notch"},
			[]string{one, "stray at 150,-30.5 (line 2)"}},
		"a long line beside the piece": {[]string{sheet, "5,-5 55,-5"}, []string{sheet, "5,-5 56,-5"},
			[]string{one + ", 1 inside"}, []string{one, "stray at 5,-5 (line 2)"}},
		"a seam line as deep as a hem is": {[]string{large, "80,20 580,20 580,580 80,580 z"},
			[]string{large, "81,20 580,20 580,580 81,580 z"},
			[]string{"outline 1 280000 seam, 4 edges, 1 cut line"},
			[]string{"outline 1 360000 cut, 4 edges, 1 inside, 1 hole", "cut-out at 81,20 (line 2)"}},
		"a seam line of a small piece": {[]string{"0,0 60,0 60,60 0,60 z", "10,10 50,10 50,50 10,50 z"},
			[]string{"0,0 60,0 60,60 0,60 z", "10,10 49,10 49,49 10,49 z"},
			[]string{"outline 1 1600 seam, 4 edges, 1 cut line"},
			[]string{"outline 1 3600 cut, 4 edges, 1 inside, 1 hole", "cut-out at 10,10 (line 2)"}},
		"a quarter of what is cut, and less": {[]string{"0,0 140,0 140,140 0,140 z", "35,35 105,35 105,105 35,105 z"},
			[]string{"0,0 140,0 140,140 0,140 z", "35,35 105,35 105,104 35,104 z"},
			[]string{"outline 1 4900 seam, 4 edges, 1 cut line"},
			[]string{"outline 1 19600 cut, 4 edges, 1 inside, 1 hole", "cut-out at 35,35 (line 2)"}},
		"grain in a small piece": {[]string{"0,0 100,0 100,80 0,80 z", "20,40 60,40"},
			[]string{"0,0 100,0 100,80 0,80 z", "20,40 59.5,40"}, []string{"outline 1 8000 cut, 4 edges, 1 grain"},
			[]string{"outline 1 8000 cut, 4 edges, 1 inside"}},
		"heads of a slanted arrow": {[]string{sheet, "50,50 150,120", "150,120 150,80"},
			[]string{sheet, "50,50 150,120", "150,120 150,79.5"}, []string{one + ", 1 grain"},
			[]string{one + ", 2 inside"}},
		"an arrow and its head apart": {[]string{sheet, "50,50 150,120", "151.5,120 140,120"},
			[]string{sheet, "50,50 150,120", "151.75,120 153,130"}, []string{one + ", 1 grain"},
			[]string{one + ", 2 inside"}},
		"a corner that ends an edge": {[]string{"0,0 300,0 400,57 400,200 0,200 z"},
			[]string{"0,0 300,0 400,58.5 400,200 0,200 z"},
			[]string{"outline 1 77150 cut, 4 edges"}, []string{"outline 1 77075 cut, 5 edges"}},
		"a dot, and a line": {[]string{sheet, "150,150 150.0987,150"}, []string{sheet, "150,150 150.1007,150"},
			[]string{one, "hair at 150,150 (line 2)"}, []string{one + ", 1 inside"}},
		"drawn twice, and two lines": {[]string{sheet, "50,50 90,50 90,95 z", "50,50 90,50 90.0195,95 z"},
			[]string{sheet, "50,50 90,50 90,95 z", "50,50 90,50 90.0206,95 z"},
			[]string{one + ", 1 inside, 1 hole", "twice at 50,50 (line 3)", "cut-out at 50,50 (line 2)"},
			[]string{one + ", 2 inside, 2 hole", "cut-out at 50,50 (line 2)", "cut-out at 50,50 (line 3)"}},
		"a spike, and a slit": {[]string{"0,0 300,0 300,100 340,100 300,100.0195 300,200 0,200 z"},
			[]string{"0,0 300,0 300,100 340,100 300,100.0206 300,200 0,200 z"},
			[]string{one, "hair at 340,100 (line 1)"}, []string{"outline 1 60000 cut, 7 edges"}},
		"a small outline that nearly closes": {[]string{sheet, "700,0 725,0", "725,0 725,25", "725,25 700,25"},
			[]string{sheet, "700,0 726,0", "726,0 726,26", "726,26 700,26"}, []string{one, "open at 700,25 (line 2)"},
			[]string{one, "stray at 700,0 (line 2)", "stray at 726,0 (line 3)", "stray at 726,26 (line 4)"}},
		"an outline open by a fifth of its length": {[]string{sheet, "700,0 750,0 750,40 700,40 700,30"},
			[]string{sheet, "700,0 750,0 750,40 700,40 700,30.5"}, []string{one, "open at 700,30 (line 2)"},
			[]string{one, "stray at 700,0 (line 2)"}},
		"a narrow outline that nearly closes, and a line drawn to and fro": {[]string{sheet,
			"700,0 900,0 900,8.75 700,8.75"},
			[]string{sheet, "700,0 900,0 900,8.65 700,8.65"}, []string{one, "open at 700,8.75 (line 2)"},
			[]string{one, "stray at 700,0 (line 2)"}},
		"a tiny outline that nearly closes": {[]string{sheet, "700,0 711,0 711,9 700,9 700,1"},
			[]string{sheet, "700,0 711,0 711,8.9 700,8.9 700,1"}, []string{one, "open at 700,1 (line 2)"},
			[]string{one, "stray at 700,0 (line 2)"}},
	} {
		if d := cmp.Diff(c.is, seen(assemble(t, Options{}, drawn(t, c.within...)))); d != "" {
			t.Errorf("%s, within it (-want +got):\n%s", name, d)
		}
		if d := cmp.Diff(c.becomes, seen(assemble(t, Options{}, drawn(t, c.beyond...)))); d != "" {
			t.Errorf("%s, beyond it (-want +got):\n%s", name, d)
		}
	}
}
