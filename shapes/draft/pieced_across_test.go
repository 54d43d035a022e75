package draft

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// anySkirt is a gored skirt as wide and as long as may be.
func anySkirt(t *rapid.T) GoredSkirt {
	waist := rapid.Float64Range(600, 900).Draw(t, "waist")
	return GoredSkirt{
		Waist: waist, Hip: waist + 250, HipDepth: 200, Length: rapid.Float64Range(700, 1200).Draw(t, "length"),
		Gores: rapid.IntRange(4, 9).Draw(t, "gores"), HemSweep: rapid.Float64Range(2000, 6000).Draw(t, "sweep"),
		Opening: true, Allowance: shapes.Allowance{Seam: 12.7, Waist: 12.7, Hem: 25},
	}
}

// Gores pieced along and across the grain are no longer and no wider than asked for, are together
// as large as whole ones, and all seams are as long, on the parts of the parts too.
func TestGoresPiecedAcrossMakeTheSkirt(t *testing.T) {
	cut := 0
	rapid.Check(t, func(t *rapid.T) {
		s := anySkirt(t)
		whole, err := s.Draft()
		if err != nil {
			return
		}
		long, wide := 0.0, 0.0
		for _, p := range whole.Pieces {
			along, across := p.Unfold().CutSize()
			long, wide = max(long, along), max(wide, across)
		}
		c := Corners{
			Within: wide * rapid.Float64Range(0.7, 1).Draw(t, "within"),
			Length: long * rapid.Float64Range(0.45, 0.95).Draw(t, "length of parts"), Most: 2, Centre: true,
			FromWaist: 200, Allowance: 12.7,
		}
		made, err := c.Of(whole)
		if err != nil {
			if !strings.Contains(err.Error(), "gore") {
				t.Fatal(err)
			}
			return
		}
		cut++
		was, is, names := 0.0, 0.0, map[string]bool{}
		for _, p := range whole.Pieces {
			was += float64(p.Count*layers(p)) * plane.Area(p.Seam)
		}
		for _, p := range made.Pieces {
			is += float64(p.Count*layers(p)) * plane.Area(p.Seam)
			along, across := p.Unfold().CutSize()
			if across > c.Within+plane.Lattice || along > c.Length+plane.Lattice || names[p.Name] {
				t.Errorf("%s is %v x %v, of %v x %v", p.Name, along, across, c.Length, c.Within)
			}
			names[p.Name] = true
		}
		if math.Abs(was-is) > 1e-6*was {
			t.Errorf("%v mm2 together, of %v", is, was)
		}
		for _, p := range whole.Pieces {
			rejoins(t, p, made)
		}
		cutAreas(t, c, whole, made)
		steps, err := shapes.SewingOrder(made.Pieces, made.Joins)
		if err != nil {
			t.Fatal(err)
		}
		for _, step := range steps[:len(made.Parted)] {
			if step.CutA != step.CutB && math.Abs(step.CutA-step.CutB) > 1e-5 {
				t.Errorf("piecing %q: %v and %v", step.Join.Name, step.CutA, step.CutB)
			}
		}
		sameJoins(t, whole, made)
	})
	if least := often.Enough(90); cut < least {
		t.Errorf("only %d were cut, want %d", cut, least)
	}
}

// A strip of 1000 x 100 that may be 400 long: by hand two cuts, 380 below the waist and as far again,
// which leaves 240, with 10 on either side of each.
func TestCutsAcrossByHand(t *testing.T) {
	made, err := Corners{Within: 1000, Length: 400, Most: 2, Centre: true, Allowance: 10}.Of(longStrip(t))
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]float64{"strip upper part": 400, "strip": 400, "strip lower part": 260}
	for _, p := range made.Pieces {
		along, across := p.CutSize()
		if across != 120 || math.Abs(along-want[p.Name]) > 2*plane.Lattice {
			t.Errorf("%s: %v x %v, want %v x 120", p.Name, along, across, want[p.Name])
		}
	}
	if _, err := (Corners{Within: 1000, Length: 400, Most: 1, Centre: true, Allowance: 10}).Of(longStrip(t)); err == nil ||
		!strings.Contains(err.Error(), "more than 1 cuts across") {
		t.Errorf("one cut: %v", err)
	}
	if _, err := (Corners{Within: 1000, Length: 400, Most: 2, FromWaist: 381,
		Allowance: 10}).Of(longStrip(t)); err == nil ||
		!strings.Contains(err.Error(), "of its waist") {
		t.Errorf("near the waist: %v", err)
	}
}

// edgeOf is an edge along a line of points.
func edgeOf(name string, kind shapes.EdgeKind, allowance float64, xy ...float64) shapes.Edge {
	e := shapes.Edge{Name: name, Kind: kind, Allowance: allowance}
	for i := 0; i < len(xy); i += 2 {
		e.Line = append(e.Line, orb.Point{xy[i], xy[i+1]})
	}
	return e
}

// longStrip is a piece of 1000 x 100 with 10 round it, its waist at the lesser x.
func longStrip(t *testing.T) Result {
	t.Helper()
	p, err := shapes.NewPiece("strip", []shapes.Edge{
		edgeOf("lower", shapes.Seam, 10, 0, 0, 1000, 0), edgeOf("hem", shapes.Hem, 10, 1000, 0, 1000, 100),
		edgeOf("upper", shapes.Seam, 10, 1000, 100, 0, 100), edgeOf("waist", shapes.Waist, 10, 0, 100, 0, 0),
	})
	if err != nil {
		t.Fatal(err)
	}
	return Result{Pieces: []shapes.Piece{p}}
}

// Faced waists keep piecing seams off as others do; the sides of facings and of bagged hems run
// over corners, as long as before.
func TestPiecingKnowsFacedEdges(t *testing.T) {
	skirt := GoredSkirt{
		Waist: 700, Hip: 950, HipDepth: 200, Length: 900, Gores: 6, HemSweep: 5400, Opening: true,
		Allowance: shapes.Allowance{Seam: 12, Waist: 12, Hem: 12},
	}
	whole, err := skirt.Draft()
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range []Finish{
		{Faced: []Place{AtWaist}, Seam: 12}, {Faced: []Place{AtHem, AtWaist}, Seam: 12}, {BaggedHem: true, Seam: 12},
	} {
		d, err := f.Of(whole)
		if err != nil {
			t.Fatal(err)
		}
		c := Corners{Within: 700, Most: 2, FromWaist: 850, Allowance: 12}
		if _, err := c.OfFinished(d, whole); err == nil || !strings.Contains(err.Error(), "of its waist") {
			t.Errorf("%+v: piecing near the waist: %v", f, err)
		}
		c.FromWaist = 200
		made, err := c.OfFinished(d, whole)
		if err != nil || len(made.Parted) == 0 {
			t.Fatalf("%+v: %d cuts: %v", f, len(made.Parted), err)
		}
		var sides [][2]shapes.JoinSide
		if f.BaggedHem {
			sides = append(sides, [2]shapes.JoinSide{d.Bag, made.Bag})
		}
		for _, at := range f.Faced {
			facing, err := Facing{Of: skirt, At: at, Width: 50, Seam: 12}.Draft()
			if err != nil {
				t.Fatal(err)
			}
			on, err := made.SewnTo(facing.Faced.A)
			if err != nil {
				t.Fatal(err)
			}
			sides = append(sides, [2]shapes.JoinSide{facing.Faced.A, on})
		}
		for _, s := range sides {
			was, _, err := s[0].Measure(d.Pieces)
			is, _, err2 := s[1].Measure(made.Pieces)
			if err != nil || err2 != nil || math.Abs(was-is) > 1e-4 {
				t.Errorf("%+v: a side of %v is %v long when pieced: %v, %v", f, was, is, err, err2)
			}
		}
	}
}

// rejoins holds a piece to be what is sewn again of its parts: laid back where they were cut, all their
// edges but the new seams lie on its net, within the lattice, and are as long together.
func rejoins(t *rapid.T, whole shapes.Piece, made Result) {
	at := map[string]orb.Point{whole.Name: {}} // to where each part lay on the whole
	for _, part := range made.Parted {
		from, ok := at[part.Main.Name]
		if !ok {
			continue
		}
		for _, p := range []struct {
			shapes.Piece
			side shapes.JoinSide
		}{{part.Main, part.Join.A}, {part.Corner, part.Join.B}} {
			e, _ := p.Edge(p.side.Edges[0].Edge)
			was, is := part.Line.Bound(), e.Line.Bound()
			at[p.Name] = orb.Point{from[0] + was.Min[0] - is.Min[0], from[1] + was.Min[1] - is.Min[1]}
		}
	}
	net := plane.Length(orb.LineString(whole.Seam))
	long := 0.0
	for _, p := range made.Pieces {
		by, ok := at[p.Name]
		for _, e := range p.Edges {
			if !ok || strings.HasPrefix(e.Name, shapes.PiecingSeam) {
				continue
			}
			long += e.Length()
			for _, v := range e.Line {
				v = orb.Point{v[0] + by[0], v[1] + by[1]}
				if off := clearance(orb.LineString{v}, orb.LineString(whole.Seam)); off > plane.Lattice {
					t.Errorf("%s, %s: %v lies %v mm off the net of the whole", p.Name, e.Name, v, off)
				}
			}
		}
	}
	if math.Abs(long-net) > 1e-5*net {
		t.Errorf("%s: its parts have %v mm of its net, which is %v long", whole.Name, long, net)
	}
}

// cutAreas holds what is cut of pieces to be what is cut of the whole and the allowances of the new
// seams, but for their ends: each is two strips as long as the seam, and at each end no more than a
// square of the widest allowance beyond its own.
func cutAreas(t *rapid.T, c Corners, whole, made Result) {
	cut := func(d Result) (mm2 float64) {
		for _, p := range d.Pieces {
			mm2 += float64(p.Count*layers(p)) * p.Area()
		}
		return mm2
	}
	strips, ends := 0.0, 0.0
	for i, join := range made.Joins {
		if i == len(made.Parted) {
			break
		}
		long, _, err := join.A.Measure(made.Pieces)
		if err != nil {
			t.Fatal(err)
		}
		strips += float64(join.Times) * 2 * c.Allowance * long
		ends += float64(join.Times) * 4 * 60 * 60
	}
	if more := cut(made) - cut(whole); more < strips-ends || more > strips+ends {
		t.Errorf("cut in parts %v mm2 more, of seams %v, ends %v", more, strips, ends)
	}
}
