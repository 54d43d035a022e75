package depict

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// laidJobs are jobs of all lays, with folds, flaws, repeats, a shelf and cloth that shrinks.
func laidJobs() map[string]string {
	jobs := map[string]string{
		"matched": testjobs.Striped(120, 9) + "both_faces = true\n" + matched,
		"shelf": testjobs.Panelled("width = 90\nprice = \"10.00/m\"\nhave = [{ name = \"rest\", length = 45 }]",
			[3]float64{40, 30, 3}, [3]float64{40, 60, 1}),
	}
	for _, cloth := range []string{"", "nap = \"all-way\"\nboth_faces = true\n", "lay = \"lengthwise-fold\"\n",
		"lay = \"double-fold\"\n", "nap = \"two-way\"\nlay = \"crosswise-fold\"\n",
		"lay = \"crosswise-fold\"\nupper_turned = true\n",
		"shrinkage = { warp = \"-3 %\", weft = \"-2 %\", by = \"pieces\" }\n",
		"shrinkage = { warp = \"-5 %\", weft = \"-2 %\", by = \"prewash\" }\nlay = \"lengthwise-fold\"\n",
		"flaws = [{ from = 20, to = 30, low = 0, high = 6 }, { from = 3, to = 5, low = 90, high = 99 }]\n",
		"repeat = { along = 7, across = 9 }\n"} {
		jobs["gown, "+cloth] = testjobs.Gown(cloth)
	}
	return jobs
}

// matched are two parts whose seams are matched on the repeat of their cloth.
const matched = `[[part]]
name = "cape"
draft = "cape"
cloth = "stripe"
neck = 40
length = 30
circle = "half"
back_seam = true
`

// strayed is the farthest that a corner of one ring lies from the other, either way.
func strayed(a, b orb.Ring) float64 {
	far := 0.
	for _, pair := range [2][2]orb.Ring{{a, b}, {b, a}} {
		for _, p := range pair[0] {
			far = max(far, planar.DistanceFrom(orb.LineString(pair[1]), p))
		}
	}
	return far
}

// What is drawn of a marker is what was laid and judged: each outline where it lies, its seam line
// within it, notches on that, pointing outwards, what lies on a fold against one, and each copy of
// each piece once.
func TestMarkersDrawWhatWasLaid(t *testing.T) {
	for name, src := range laidJobs() {
		r, err := report.Run(context.Background(), testjobs.Read(t, src),
			plan.Options{Effort: nest.Trial, Workers: 1, Unit: measure.Centimetre})
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		for k, c := range r.Cloths {
			m, tied := Marker(r, c), TiedMarker(r, c, k)
			if len(m.Stretches) != len(c.Markers) {
				t.Fatalf("%s: %d stretches of %d", name, len(m.Stretches), len(c.Markers))
			}
			seen := map[string]int{}
			for i, s := range m.Stretches {
				laid := c.Markers[i]
				if len(s.Pieces) != len(laid.Layout.Placed) || len(s.Flaws) != len(laid.Problem.Strip.Forbidden) {
					t.Fatalf("%s: %d pieces of %d, %d flaws", name, len(s.Pieces), len(laid.Layout.Placed), len(s.Flaws))
				}
				for n, pl := range s.Pieces {
					what := fmt.Sprintf("%s: %s %s", name, pl.Name, pl.Copy)
					checkLaid(t, what, pl, laid.Problem, laid.Layout.Placed[n])
					for _, id := range strings.Fields(tied.Stretches[i].Pieces[n].ID) {
						seen[id]++
					}
				}
			}
			copies := 0
			for i, cut := range c.Spread.Cuts {
				for copy := range cut.Piece.Count {
					copies++
					if id := CopiesID(k, nest.Placed{Piece: i, Copy: copy}); seen[id] != 1 {
						t.Errorf("%s: %s copy %d is drawn %d times", name, cut.Piece.Name, copy+1, seen[id])
					}
				}
			}
			if len(seen) != copies {
				t.Errorf("%s: %d copies are drawn of %d", name, len(seen), copies)
			}
		}
	}
}

func checkLaid(t *testing.T, what string, pl sheet.Placed, p nest.Problem, at nest.Placed) {
	t.Helper()
	const rounding = 3 * plane.Lattice
	outline := p.Outline(at)
	if d := strayed(pl.Outline.Cut, outline); d > rounding || strayed(pl.Cut, outline) > rounding {
		t.Errorf("%s is drawn %.3f mm off where it lies", what, d)
	}
	seam, cut := orb.LineString(pl.Seam), pl.Outline.Cut
	if len(seam) < 4 || seam[0] != seam[len(seam)-1] {
		t.Fatalf("%s: its seam line is %v", what, seam)
	}
	for _, v := range seam {
		if !planar.RingContains(cut, v) && planar.DistanceFrom(orb.LineString(cut), v) > rounding {
			t.Errorf("%s: the seam line leaves the outline at %v", what, v)
		}
	}
	for _, n := range pl.Notches {
		out := orb.Point{n.At[0] + n.Outward[0]/4, n.At[1] + n.Outward[1]/4}
		if planar.DistanceFrom(seam, n.At) > .05 || math.Abs(math.Hypot(n.Outward[0], n.Outward[1])-1) > 1e-9 ||
			planar.RingContains(pl.Seam, out) {
			t.Errorf("%s: the notch at %v, outwards %v, is none of its seam line", what, n.At, n.Outward)
		}
	}
	for _, l := range append(slices.Clone(pl.Inside), pl.Grain) {
		for _, v := range l {
			if !planar.RingContains(cut, v) && planar.DistanceFrom(orb.LineString(cut), v) > rounding {
				t.Errorf("%s: a line within it leaves it at %v", what, v)
			}
		}
	}
	if onFold := p.Pieces[at.Piece].OnFold; onFold != (pl.Fold != nil) {
		t.Fatalf("%s: on a fold %v, drawn along %v", what, onFold, pl.Fold)
	}
	for _, v := range pl.Fold {
		low := math.Abs(v[1]) <= rounding && p.Strip.Folds != nest.NoFold
		high := math.Abs(v[1]-p.Strip.Width) <= rounding && p.Strip.Folds == nest.FoldBoth
		if !low && !high || planar.DistanceFrom(orb.LineString(cut), v) > rounding {
			t.Errorf("%s: its fold goes by %v", what, v)
		}
	}
	for _, m := range pl.Matches {
		if !pl.Cut.Bound().Pad(rounding).Contains(m.At) {
			t.Errorf("%s: its point of %s lies at %v", what, m.Name, m.At)
		}
	}
}

// Every dart of every draft has its lines inside, which are known as those of a dart, each once; on
// a piece that is opened out they are there a second time, mirrored.
func TestDartsAreKnownAmongTheLinesInside(t *testing.T) {
	darts := 0
	for _, name := range []string{"bodice-block", "strapless-bodice", "corset", "sleeve", "peplum", "petticoat", "cape",
		"waistband"} {
		f, err := job.Example(name)
		if err != nil {
			t.Fatal(err)
		}
		spreads, err := plan.Draw(f.Job())
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range spreads {
			for i, cut := range s.Cuts {
				p := cut.Piece
				got := Pattern(s, i, measure.Centimetre).Outline.Darts
				distinct := slices.Compact(slices.Sorted(slices.Values(got)))
				if len(distinct) != len(p.Darts) || len(got) != len(p.Darts) {
					t.Errorf("%s: %s has %d darts, lines %v are known", name, p.Name, len(p.Darts), got)
				}
				darts += len(got)
				whole := opened(p, p.Unfold(), []nest.Placed{{}})
				if n := len(p.Darts); p.OnFold && len(whole.Darts) != 2*n || !p.OnFold && len(whole.Darts) != n {
					t.Errorf("%s: opened out %s has %d darts of %d", name, p.Name, len(whole.Darts), n)
				}
				for _, k := range whole.Darts {
					if k >= len(whole.Inside) || len(whole.Inside[k]) != 3 {
						t.Errorf("%s: opened out, line %d of %d of %s is no dart", name, k, len(whole.Inside), p.Name)
					}
				}
			}
		}
	}
	if darts < 3 {
		t.Errorf("only %d darts in all examples", darts)
	}
}
