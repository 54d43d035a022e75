package plan

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/plane"
)

// cornerOf is a corner to lay by.
func cornerOf(ring orb.Ring) orb.Point { return ring[0] }

// stepJob is a skirt and two sashes on a cloth as spread and sold otherwise than plain.
func stepJob(cloth string) string {
	return fmt.Sprintf(`unit = "in"
[body]
waist_girth = 28
[allowance]
seam = "1/2"
hem = 1
[[cloth]]
id = "satin"
width = 58
selvedge = "3/8"
ends = "1/3"
nap = "two-way"
price = "10.00/yd"
sold_by = "1/8 yd"
%s
[[part]]
name = "skirt"
draft = "circle-skirt"
cloth = "satin"
circle = "half"
gores = 6
front_on_fold = true
length = 20
[[part]]
name = "sash"
draft = "rectangle"
cloth = "satin"
length = 20
width = 5
count = 2
`, cloth)
}

// The corner that a piece is laid by lies whole steps from the cut end and the edge of the
// cloth, ends and selvedge counted, and pieces keep their distance: on every marker.
func TestPiecesLieOnSteps(t *testing.T) {
	const step, gap = 6.35, 3.175
	for name, c := range map[string]struct {
		cloth string
		steps nest.Repeat
	}{
		"plain":  {"", nest.Repeat{Along: step, Across: step}},
		"flawed": {`flaws = [ { from = 11, to = 13, low = 5, high = 7 } ]`, nest.Repeat{Along: step, Across: step}},
		"folded": {`lay = "lengthwise-fold"`, nest.Repeat{Along: step}},
		"across": {`lay = "crosswise-fold"`, nest.Repeat{}},
		"leftovers": {`have = [ { name = "remnant", length = 40, width = 40 } ]`,
			nest.Repeat{Along: step, Across: step}},
		"bolts":   {`bolt = { length = "1 1/2 yd", price = "9.00" }`, nest.Repeat{Along: step, Across: step}},
		"striped": {`repeat = { along = 3 }`, nest.Repeat{}},
		"washed": {`shrinkage = { warp = "-4 %", weft = "-2 %", by = "prewash" }`,
			nest.Repeat{Along: step, Across: step}},
	} {
		t.Run(name, func(t *testing.T) {
			j := testjobs.Read(t, stepJob(c.cloth))
			laid, err := Lay(context.Background(), j, Options{Effort: nest.Trial,
				Steps: Steps{Step: step, Gap: gap, Corner: cornerOf}})
			if err != nil {
				t.Fatal(err)
			}
			l := laid[0]
			if l.Task.Spread.Steps != c.steps {
				t.Fatalf("laid on steps of %v, want %v", l.Task.Spread.Steps, c.steps)
			}
			for i, s := range l.Task.Stretches {
				checkSteps(t, l.Task.Spread, s.Problem, l.Results[i].Layout, gap)
			}
			for _, cut := range l.BoltCuts() {
				checkSteps(t, l.Task.Spread, cut.Problem, cut.Layout, gap)
			}
			if l.Shelf != nil {
				for _, cut := range l.Shelf.Cuts {
					checkSteps(t, l.Task.Spread, cut.Problem, cut.Layout, gap)
				}
			}
		})
	}
}

// checkSteps checks one marker.
func checkSteps(t *testing.T, s Spread, p nest.Problem, l nest.Layout, gap float64) {
	t.Helper()
	if p.Gap < plane.Floor(gap) {
		t.Errorf("a gap of %v", p.Gap)
	}
	if err := nest.Verify(p, l); err != nil {
		t.Error(err)
	}
	from := [2]float64{s.Cloth.Ends, s.WashedAcross(s.Cloth.Selvedge)}
	for _, pl := range l.Placed {
		match := p.Pieces[pl.Piece].Match
		for axis, step := range []float64{s.Steps.Along, s.Steps.Across} {
			if step == 0 {
				continue
			}
			at := plane.Pose{Mirrored: pl.Mirrored, Turn: pl.Turn, At: pl.At}.ApplyPoint(match.Point)
			if off := math.Abs(math.Remainder(at[axis]+from[axis], step)); off > plane.Lattice {
				t.Errorf("piece %d lies %v off the step on axis %d", pl.Piece, off, axis)
			}
		}
	}
}

// A cloth that no step puts a piece on between its edges keeps the steps along alone.
func TestStepsAcrossGiveWay(t *testing.T) {
	j := testjobs.Read(t, `unit = "mm"
[allowance]
seam = 0
hem = 0
[[cloth]]
id = "band"
width = 103
selvedge = 1
price = "10.00/m"
[[part]]
name = "sash"
draft = "rectangle"
cloth = "band"
length = 200
width = 100
`)
	laid, err := Lay(context.Background(), j,
		Options{Effort: nest.Trial, Steps: Steps{Step: 5, Gap: 2, Corner: cornerOf}})
	if err != nil {
		t.Fatal(err)
	}
	if got := laid[0].Task.Spread.Steps; got != (nest.Repeat{Along: 5}) {
		t.Errorf("steps %v", got)
	}
}

// Steps that nobody asks for change nothing.
func TestNoStepsNoChange(t *testing.T) {
	j := testjobs.Read(t, stepJob(""))
	tasks, err := Tasks(j, 1)
	if err != nil {
		t.Fatal(err)
	}
	same, err := onSteps(j, tasks, Steps{})
	if err != nil || same[0].Key() != tasks[0].Key() {
		t.Errorf("another task: %v", err)
	}
}
