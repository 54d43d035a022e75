package search

import (
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// depthJudge finds the first two items that lie too near by the search's own measure.
func depthJudge(in *instance) func(Layout) Verdict {
	return func(l Layout) Verdict {
		for i := range in.movable {
			for j := range i {
				a, b := &in.items[i].ways[0], &in.items[j].ways[0]
				d, _, _ := in.depthAt(a.shape, b.shape, l.At[i][0]+a.origin[0], l.At[i][1]+a.origin[1],
					l.At[j][0]+b.origin[0], l.At[j][1]+b.origin[1])
				if d > 0 {
					return Verdict{Near: true, Pair: [2]int{i, j}}
				}
			}
		}
		return Verdict{OK: true}
	}
}

// Items that fill the width one above the other, each up to half a step of the
// lattice off its place, settle: the step that rounding makes out of some of those
// must not wander up and down the column.
func TestFullColumnsSettle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Problem{}
		var at []float64
		for range rapid.IntRange(2, 8).Draw(t, "items") {
			h := float64(rapid.IntRange(6, 40).Draw(t, "height"))
			p.Items = append(p.Items, Item{Choices: []Choice{{Ring: rectangle(20, h)}}})
			at = append(at, p.Width)
			p.Width += h
		}
		in := readyInstance(p)
		q := in.emptyPlacement()
		for i := range at {
			q.y[i] = at[i] + plane.Lattice*rapid.Float64Range(-0.9, 0.9).Draw(t, "off")
		}
		if q.length = in.extent(q); in.settle(q, plane.Lattice, settleNudges, depthJudge(in)) == nil {
			t.Fatalf("a column of %d at %v does not settle at %v", len(at), at, q.y)
		}
	})
}

// Two wedges that fill the width between them have no room across: the right one
// gives way to the right.
func TestWedgesSettle(t *testing.T) {
	lower := orb.Ring{{0, 0}, {50, 0}, {0, 20}, {0, 0}}
	upper := orb.Ring{{50, 0}, {50, 20}, {0, 20}, {50, 0}}
	in := readyInstance(Problem{Width: 20,
		Items: []Item{{Choices: []Choice{{Ring: lower}}}, {Choices: []Choice{{Ring: upper}}}}})
	q := in.settle(in.emptyPlacement(), plane.Lattice, settleNudges, depthJudge(in))
	if q == nil {
		t.Fatal("they do not settle")
	}
	if q.length > 50+10*plane.Lattice {
		t.Errorf("they take %v, want hardly more than 50", q.length)
	}
}

// A best that no rounding can save: two items squarely one above the other on a strip
// a step too narrow for both. The shortest that stands in for it counts.
func TestFinishStandsIn(t *testing.T) {
	in := readyInstance(Problem{Width: 20 - plane.Lattice, Items: []Item{
		{Choices: []Choice{{Ring: rectangle(20, 10)}}}, {Choices: []Choice{{Ring: rectangle(20, 10)}}},
	}})
	at := func(x, y float64) *placement {
		q := in.emptyPlacement()
		q.x[1], q.y[1] = x, y
		q.length = in.extent(q)
		return q
	}
	best, long, short := at(0, 10-plane.Lattice), at(50, 0), at(20, 0)
	judge := depthJudge(in)
	if in.rounded(best, judge) != nil {
		t.Fatal("it settles after all")
	}
	lined := in.layout(in.lineUp(best, false)).Length
	for _, c := range []struct {
		bests []*placement
		want  float64
	}{
		{[]*placement{best}, lined},
		{[]*placement{long, best}, lined}, // an earlier one is no better for being earlier
		{[]*placement{long, short, best}, 40},
		{[]*placement{long, short}, 40},
	} {
		l, err := in.finish(c.bests, judge)
		if err != nil || !judge(l).OK || l.Length != c.want {
			t.Errorf("%d layouts: %v mm, %v; want %v", len(c.bests), l.Length, err, c.want)
		}
	}
}
