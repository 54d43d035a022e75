package quote

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
	"yardlay/shapes"
	"yardlay/shapes/measure"
)

// straight is a line of a length in mm.
func straight(mm float64) orb.LineString { return orb.LineString{{0, 0}, {mm, 0}} }

// An edge counts as seam by what it is sewn to: half of one joined to another, all of one sewn onto something,
// nothing of a fold, a hem, a gathered top or what is fused; on an outer cloth all but fold and hem.
func TestWhatOfAnEdgeIsSewn(t *testing.T) {
	plain := cut{copies: 3}
	gathered, fused, lined := plain, plain, plain
	gathered.gathers, fused.fused, lined.on = true, true, job.Underlining
	for _, c := range []struct {
		kind                         shapes.EdgeKind
		plain, gathered, underlining float64
	}{
		{shapes.Seam, 1.5, 1.5, 3}, {shapes.Waist, 1.5, 1.5, 3}, {shapes.Opening, 1.5, 1.5, 3}, {shapes.Top, 3, 0, 3},
		{shapes.Fold, 0, 0, 0}, {shapes.Hem, 0, 0, 0},
	} {
		e := shapes.Edge{Kind: c.kind, Line: straight(100)}
		for cut, want := range map[*cut]float64{&plain: c.plain, &gathered: c.gathered, &lined: c.underlining,
			&fused: 0} {
			if got := cut.sewn(e); math.Abs(got-100*want) > 1e-9 {
				t.Errorf("%v of three copies: %v sewn, want %v", c.kind, got, 100*want)
			}
		}
	}
}

// Openings are as many as pairs of edges, the longest first, and none is closed further than by a zip of a length.
func TestOpeningsAreThoseOfPairsOfEdges(t *testing.T) {
	of := func(copies int, lengths ...float64) cut {
		c := cut{copies: copies}
		for _, l := range lengths {
			c.piece.Edges = append(c.piece.Edges, shapes.Edge{Kind: shapes.Opening, Line: straight(l)},
				shapes.Edge{Kind: shapes.Seam, Line: straight(500)})
		}
		return c
	}
	for _, c := range []struct {
		closed float64
		cuts   []cut
		want   []float64
	}{
		{0, nil, nil}, {0, []cut{of(1, 200), of(1, 200)}, []float64{200}}, {0, []cut{of(2, 150)}, []float64{150}},
		{0, []cut{of(1, 100, 300), of(1, 100, 300)}, []float64{300, 100}},
		{230, []cut{of(2, 100), of(2, 300)}, []float64{230, 100}}, {0, []cut{of(4, 90)}, []float64{90, 90}},
	} {
		if got := openings(c.cuts, c.closed); !slices.Equal(got, c.want) {
			t.Errorf("%v, want %v", got, c.want)
		}
	}
}

// Work is named by its amount in the unit of its rate.
func TestWorkInTheUnitOfItsRate(t *testing.T) {
	w := Work{Seam: 9144, Hem: 2500, Gathered: 1e4, Pieces: 1}
	per := job.RateUnits{Seam: measure.Yard, Hem: measure.Metre, Gathered: measure.Metre}
	for what, want := range map[string]string{"seams": "10.00 yd of seam", "hems": "2.50 m of hem",
		"gathering": "10.00 m of gathering", "pieces": "1 piece"} {
		if got := w.amount(what, per); got != want {
			t.Errorf("%s: %q, want %q", what, got, want)
		}
	}
	if of := per.Of(cost.Work{Seam: 914.4, Hem: 5, Pieces: 2}); math.Abs(of.Seam-1000) > 1e-9 || of.Hem != 5 ||
		of.Pieces != 2 {
		t.Errorf("a yard of seam, 5 mm of hem and 2 pieces count as %+v by the metre", of)
	}
}
