package report

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// What takes up the surplus of a side is said in the order in which it is worked, with the length as drawn; nothing
// where both sides are alike.
func TestSurplusInWords(t *testing.T) {
	in := func(n float64) float64 { return n * measure.Inches }
	for _, c := range []struct {
		side SeamSide
		want string
	}{
		{SeamSide{Cut: in(30)}, ""}, {SeamSide{Cut: in(30), Gather: 1}, ""},
		{SeamSide{Cut: in(60), Gather: 2.5}, "gathered 2.5 to 1, from 60 as drawn"},
		{SeamSide{Cut: in(30), Ease: in(1)}, "ease of 1, from 30 as drawn"},
		{SeamSide{Cut: in(30), Ease: -in(0.5)}, "stretched by 1/2, from 30 as drawn"},
		{SeamSide{Cut: in(36), Pleats: 3, Pleat: in(2), Lap: in(0.25), Darts: []float64{in(1), in(0.75)}},
			"3 x pleat 2 deep, lapped by 1/4, dart of 1, dart of 3/4, from 36 as drawn"},
	} {
		if got := c.side.worked(measure.Inch); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// square is a piece of a side in mm whose edges are of some kinds and allowances, from the lower one on.
func square(count int, mm float64, edges ...shapes.Edge) shapes.Piece {
	corners := []orb.Point{{0, 0}, {mm, 0}, {mm, mm}, {0, mm}, {0, 0}}
	p := shapes.Piece{Name: "square", Count: count}
	for i, e := range edges {
		e.Line = orb.LineString{corners[i], corners[i+1]}
		p.Edges = append(p.Edges, e)
	}
	return p
}

// Hems of one allowance are one, those of another one their own; what lies on a fold counts twice, raw edges and the
// free edges of facings not at all. Edges that are basted round are all but folds and hems, of every copy.
func TestHemsAndRimsOfPieces(t *testing.T) {
	hem := func(name string, allowance float64) shapes.Edge {
		return shapes.Edge{Name: name, Kind: shapes.Hem, Allowance: allowance}
	}
	seam := shapes.Edge{Name: "side", Kind: shapes.Seam, Allowance: 10}
	pieces := []shapes.Piece{square(3, 100, hem("lower", 20), seam, hem("upper", 30),
		shapes.Edge{Name: "top", Kind: shapes.Top}),
		square(1, 100, hem("lower", 20), hem("raw", 0), hem("upper", 40), seam)}
	want := []Hem{{Part: "cape", Cloth: "wool", Allowance: 20, Length: 400, Raw: 400, Onto: 400},
		{Part: "cape", Cloth: "wool", Allowance: 30, Length: 300, Raw: 300, Onto: 300},
		{Part: "cape", Cloth: "wool", Allowance: 40, Length: 100, Raw: 100, Onto: 100}}
	if diff := cmp.Diff(want, hemsOf("cape", "wool", draft.Result{Pieces: pieces})); diff != "" {
		t.Error(diff)
	}
	if all := hemsOf("cape", "wool", draft.Result{Pieces: pieces, Apart: true}); all != nil {
		t.Errorf("a facing has hems: %+v", all)
	}
	if got := (made{pieces: pieces}).rims(); math.Abs(got-700) > 1e-9 {
		t.Errorf("%v mm are basted, want three times two sides of 100 and one", got)
	}
	outer := made{part: job.Part{Name: "cape", Body: "alto"}, cloth: "wool", pieces: pieces}
	lawn := outer
	lawn.cloth, lawn.on = "lawn", job.Underlining
	seams := mounted([]made{outer, lawn})
	if len(seams) != 1 || seams[0].Part != "cape" || seams[0].Cloth != "lawn" || seams[0].Body != "alto" ||
		seams[0].Times != 1 || seams[0].Name != string(job.Underlining)+", basted" || seams[0].A.Cut != 700 ||
		seams[0].B.Finished != 700 || seams[0].B.Onto != "those of wool, to sew both as one" {
		t.Errorf("%+v", seams)
	}
}

// Words of a hem tell ease from stretch, and nothing of what no needle notices.
func TestHemsThatStretch(t *testing.T) {
	h := Hem{Part: "skirt", Cloth: "satin", Allowance: 20, Length: 1000, Ease: -30, Raw: 985, Onto: 1015}
	if got := h.Words(measure.Millimetre); got != "skirt in satin: a hem of 20.0 mm turned up leaves 30.0 mm to stretch "+
		"(3.0 %). Its raw edge is 985.0 mm long, the line it is sewn to 1015.0 mm." {
		t.Error(got)
	}
	h.Onto = 0
	if got := h.Words(measure.Millimetre); got != "" {
		t.Errorf("a hem that is sewn to a point: %q", got)
	}
}

// Where the corners of a part were cut off by itself is said for its first wearer, with what that saves, of cloth or
// of money alone; where no place saves, how many were tried.
func TestPlacesOfCornersInWords(t *testing.T) {
	of := func(p job.Place) (*job.Job, job.Part) {
		part := job.Part{Name: "alto skirt", Called: "skirt", Place: p}
		return &job.Job{Unit: measure.Inch, Parts: []job.Part{part, {Name: "bass skirt", Called: "skirt", Place: p}}}, part
	}
	in := measure.Inches
	const searched = ", by a quick search of both. "
	const keep = " than pieced to the width of the cloth" + searched + "`within = \"40 in\"` in `pieced` keeps it there."
	refused := say.Errorf("front gore: the piecing would lie at its centre front").Hint("centre_front = true allows that")
	for _, c := range []struct {
		place job.Place
		want  string
	}{
		{job.Place{}, ""},
		{job.Place{Along: true, Tried: 1}, "skirt: corners are cut off where the cloth is too narrow, no further " +
			"in: of 1 place there none saves."},
		{job.Place{Along: true, Tried: 3, Within: 40 * in, Less: []job.Saved{{Cloth: "wool", Bought: measure.Yards}}},
			"skirt: pieced within 40 in. That takes 1 yd less of wool" + keep},
		{job.Place{Along: true, Tried: 3, Within: 40 * in, Less: []job.Saved{{Cloth: "wool", Bought: measure.Yards},
			{Cloth: "lawn", Bought: -measure.Yards / 2}}},
			"skirt: pieced within 40 in. That takes 1 yd less of wool, 1/2 yd more of lawn and less money" + keep},
		{job.Place{Along: true, Tried: 3, Within: 40 * in, Less: []job.Saved{{Cloth: "wool", Bought: measure.Yards}},
			Seam: 3 * measure.Yards},
			"skirt: pieced within 40 in. That takes 1 yd less of wool and 3 yd more of seam" + keep},
		{job.Place{Along: true, Tried: 3, Within: 40 * in, Seam: -measure.Yards / 2},
			"skirt: pieced within 40 in. That takes less money and 1/2 yd less of seam" + keep},
		{job.Place{Along: true, Tried: 3, Within: 40 * in}, "skirt: pieced within 40 in. That takes less money" + keep},
		{job.Place{Across: true, Tried: 3}, "skirt: cut no further than the cloth asks for: of 3 places none saves."},
		{job.Place{Across: true, Length: 28 * in, Tried: 3}, "skirt: cut across at 28 in. That takes less money than not " +
			"cut across" + searched + "`length = \"28 in\"` in `pieced` keeps it there."},
		{job.Place{Along: true, Across: true, Within: 40 * in, Length: 28 * in, Tried: 3, Seam: measure.Yards},
			"skirt: pieced within 40 in and cut across at 28 in. That takes less money and 1 yd more of seam than pieced to " +
				"the width of the cloth and not cut across" + searched +
				"`within = \"40 in\", length = \"28 in\"` in `pieced` keeps it there."},
		{job.Place{Along: true, Across: true, Within: 40 * in, Tried: 3},
			"skirt: pieced within 40 in. That takes less money than pieced to the width of the cloth and not cut across" +
				searched + "`within = \"40 in\"` in `pieced`, without `length`, keeps it there."},
		{job.Place{Along: true, Across: true, Within: 40 * in, Bolts: 36 * in, Tried: 3},
			"skirt: pieced within 40 in and cut across at 36 in. That takes less money than pieced to the width of the cloth " +
				"and cut across to the length of the bolts" + searched +
				"`within = \"40 in\", length = \"36 in\"` in `pieced` keeps it there."},
		{job.Place{Across: true, Bolts: 36 * in}, "skirt: cut across so that no part is longer than 36 in, which is what " +
			"the longest bolt holds."},
		{job.Place{Along: true, Within: 40 * in, Tried: 1, Refused: refused},
			"skirt: pieced within 40 in. It cannot be cut " +
				"when it is pieced to the width of the cloth: front gore: the piecing would lie at its centre front. `within = " +
				"\"40 in\"` in `pieced` keeps it there."},
		{job.Place{Along: true, Across: true, Tried: 1, Whole: refused},
			"skirt: cut no further than the cloth asks for: of " +
				"1 place none saves. skirt: nothing is cut across: front gore: the piecing would lie at its centre front; " +
				"centre_front = true allows that."},
	} {
		j, part := of(c.place)
		if got := placeWords(j, part, measure.Inch); got != c.want {
			t.Errorf("%q\nwant %q", got, c.want)
		}
		if got := placeWords(j, j.Parts[1], measure.Inch); got != "" {
			t.Errorf("of a further wearer: %q", got)
		}
	}
}

// A remark concerns the cloths that its parts are cut from, or one of them.
func TestRemarksByCloth(t *testing.T) {
	l := CutList{remarks: []remark{{text: "a", parts: []string{"skirt"}},
		{text: "b", parts: []string{"skirt"}, cloth: "net"},
		{text: "c", parts: []string{"belt", "skirt"}, cloth: "wool"}, {text: "d", parts: []string{"cape"}}}}
	spread := plan.Spread{Cloth: job.Cloth{ID: "wool"}, Cuts: []plan.Cut{{Part: job.Part{Name: "skirt"}}}}
	if got := l.RemarksOn(spread); !slices.Equal(got, []string{"a", "c"}) {
		t.Errorf("of wool %q", got)
	}
	spread.Cloth.ID = "net"
	if got := l.RemarksOn(spread); !slices.Equal(got, []string{"a", "b"}) {
		t.Errorf("of net %q", got)
	}
}

// One of several gowns takes its share, and stands beside one laid alone; its cost is told where there is a price.
func TestShareOfOneGown(t *testing.T) {
	laid := func(used, bought float64, priced bool) laying {
		var l plan.Laid
		l.Task.Gowns = 4
		l.Task.Stretches = []nest.Stretch{{Lay: nest.Open}}
		l.Results = []nest.Result{{Layout: nest.Layout{Length: used}}}
		l.Buy.Bought, l.Buy.Cost = bought, cost.Money{Minor: 1234, Currency: "USD"}
		l.Task.Spread.Cloth.Priced = priced
		return laying{l}
	}
	for priced, want := range map[bool]string{true: "12.34", false: ""} {
		got := laid(8000, 8800, true).perGown(laid(2500, 2600, priced))
		if diff := cmp.Diff(&PerGown{Used: 2000, Bought: 2200, AloneUsed: 2500, AloneBought: 2600, AloneCost: want},
			got); diff != "" {
			t.Error(diff)
		}
	}
}
