package draft

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// The block of our own gown by hand: its centres are straight, its shoulders 125 in front and 8 longer behind, its
// necks together half of 370; across the bust line it is a quarter of 1000 with 5 more in front; notches lie in the
// middle of the shoulder and a third up the side; what the waist is sewn to goes round 760.
func TestLinesOfTheBlockByHand(t *testing.T) {
	d, err := lanternBlock().Draft()
	if err != nil {
		t.Fatal(err)
	}
	front, back := d.Pieces[0], d.Pieces[1]
	length := func(p shapes.Piece, name string) float64 { e, _ := p.Edge(name); return e.Length() }
	near(t, "front shoulder", length(front, "shoulder"), 125, 1e-2)
	near(t, "back shoulder", length(back, "shoulder"), 133, 1e-2)
	near(t, "neck", length(front, "neck")+length(back, "neck"), 185, 1e-1)
	near(t, "centre back", length(back, "centre back"), 410, 1e-2)
	for _, c := range []struct {
		p     shapes.Piece
		width float64
	}{{front, 255}, {back, 245}} {
		armhole, _ := c.p.Edge("armhole")
		centre, _ := c.p.Edge(map[bool]string{true: "centre front", false: "centre back"}[inFront(c.p.Name)])
		far := 0.
		for _, v := range armhole.Line {
			far = max(far, math.Abs(v[1]-centre.Line[0][1]))
		}
		near(t, c.p.Name+" across the bust line", far, c.width, 1e-2)
	}
	for _, j := range d.Joins {
		switch j.Name {
		case "shoulder seam":
			if !alike(j.Notches, []float64{62.5}) || math.Abs(j.B.Treatment.Ease-8) > 1e-9 || j.Times != 2 {
				t.Errorf("%+v", j)
			}
		case "side seam":
			if !alike(j.Notches, []float64{length(back, "side seam") / 3}) {
				t.Errorf("%+v", j)
			}
		}
	}
	waist, err := WaistOf(d)
	if err != nil {
		t.Fatal(err)
	}
	_, round, err := waist.Measure(d.Pieces)
	near(t, "waist", round, 760, .1)
	if err != nil || len(d.Rings) != 0 {
		t.Errorf("%v, rings %v", err, d.Rings)
	}
}

// Cut on both folds it closes at the waist, which the bust has to pass, and at the neck, which the head has to: as
// long as it was measured, or as it is drawn where it is another.
func TestRingsOfBodicesByHand(t *testing.T) {
	b := lanternBlock()
	b.BackOnFold, b.WaistEase = true, 200
	for _, c := range []struct {
		change func(*BodiceBlock)
		neck   float64 // 0: longer than at the base of the neck
	}{{func(*BodiceBlock) {}, 370}, {func(b *BodiceBlock) { b.NeckDepth = 20 }, 0},
		{func(b *BodiceBlock) { b.Neckline, b.NeckWidth, b.NeckDepth = SquareNeck, 20, 40 }, 0}} {
		styled := b
		c.change(&styled)
		d, err := styled.Draft()
		if err != nil {
			t.Fatal(err)
		}
		if len(d.Rings) != 2 || d.Rings[0].Name != "waist with ease" || d.Rings[0].Girth != 920 ||
			d.Rings[0].Needs != 920 ||
			d.Rings[0].Over != OverBust || d.Rings[1].Name != "neck" || d.Rings[1].Over != OverHead {
			t.Fatalf("%+v", d.Rings)
		}
		neck := 0.
		for _, p := range d.Pieces {
			e, _ := p.Edge("neck")
			neck += 2 * e.Length()
		}
		near(t, "neck as drawn", d.Rings[1].Girth, neck, .2)
		if c.neck > 0 != (math.Abs(d.Rings[1].Girth-370) < 1e-9) {
			t.Errorf("the neck is %g round", d.Rings[1].Girth)
		}
	}
}

// A front whose bust dart opens at its centre is sewn there, where the back opens: a seam whose two sides are alike,
// the dart on both; cut otherwise it is a fold, or opens.
func TestCentresOfBodices(t *testing.T) {
	b := lanternBlock()
	kind := func() shapes.EdgeKind {
		d, err := b.Draft()
		if err != nil {
			t.Fatal(err)
		}
		e, _ := d.Pieces[0].Edge("centre front")
		return e.Kind
	}
	if k := kind(); k != shapes.Fold {
		t.Errorf("on the fold it is a %v", k)
	}
	b.BustDartAt = DartAtCentre
	if k := kind(); k != shapes.Seam {
		t.Errorf("with a dart there it is a %v", k)
	}
	d, _ := b.Draft()
	if darts := dartsOf(t, d.Pieces[0]); len(d.Pieces[0].Darts) != 2 || d.Pieces[0].OnFold ||
		d.Pieces[0].Count != 2 || len(darts) != 2 {
		t.Errorf("%d darts, on the fold %v, %d cut", len(d.Pieces[0].Darts), d.Pieces[0].OnFold, d.Pieces[0].Count)
	}
	onCentre := 0
	for _, dart := range d.Pieces[0].Darts {
		if dart.Edge == "centre front" {
			onCentre++
		}
	}
	if onCentre != 1 || len(d.OpensAt()) != 1 || d.OpensAt()[0] != "centre back" {
		t.Errorf("%d darts at the centre, it opens at %v", onCentre, d.OpensAt())
	}
	b.BustDartAt, b.FrontOnFold = "", false
	if k := kind(); k != shapes.Opening {
		t.Errorf("off the fold it is a %v", k)
	}
}

// A hem that is taken up by darts, or let out by a pleat, names its darts by it.
func TestDartsOnAHem(t *testing.T) {
	b := lanternBlock()
	b.Hemmed, b.EasePleat, b.FrontOnFold, b.BackOnFold, b.Allowance.Hem = true, 20, false, true, 25
	d, err := b.Draft()
	if err != nil {
		t.Fatal(err)
	}
	back := d.Pieces[1]
	_, across := back.Finished()
	near(t, "back with its pleat", across, 245+20, 1e-2)
	if len(back.Darts) != 1 || back.Darts[0].Edge != "hem" {
		t.Errorf("%+v", back.Darts)
	}
	side, err := d.hems()
	if err != nil {
		t.Fatal(err)
	}
	_, round, err := side.Measure(d.Pieces)
	near(t, "hems", round, 760, .1)
	if err != nil || side.Treatment.Pleats != 1 || side.Treatment.PleatDepth != 20 || d.EasePleat != 20 {
		t.Errorf("%v, %+v", err, side.Treatment)
	}
}

// Of a corset of ten panels with bones in the middle of each: a laced edge takes two channels of 9 beside eyelets in
// a strip of 15, and its panel's own bone lies in the middle of what is left.
func TestBonesBesideALacedEdge(t *testing.T) {
	for _, inFront := range []bool{false, true} {
		c := lanternCorset()
		c.BackSeam, c.FrontOpening, c.Facing = inFront, inFront, 0
		b, err := c.body()
		if err != nil {
			t.Fatal(err)
		}
		panel, sign := len(b.springs), -1.
		if inFront {
			panel, sign = 0, 1
		}
		waist := b.levels[atWaist].x
		lower, upper := b.bounds(panel, waist)
		edge := upper
		if inFront {
			edge = lower
		}
		var walls []float64 // from the laced edge
		for _, ch := range b.channels(panel) {
			if strings.Contains(ch.name, " to ") {
				continue // at its other seam
			}
			for _, w := range ch.walls {
				walls = append(walls, sign*(w(waist)[1]-edge))
			}
		}
		free := upper - lower - (2*9 + 15) // beyond both bones
		want := []float64{9, 24, 33, 33 + free/2 - 4.5, 33 + free/2 + 4.5}
		if !inFront {
			want[3], want[4] = want[4], want[3]
		}
		if len(walls) != len(want) {
			t.Fatalf("laced in front %v: walls at %v", inFront, walls)
		}
		for i := range want {
			near(t, "wall", walls[i], want[i], .05)
		}
	}
}

// A panel that a wedge is set into has no bone in its middle, where its slit is.
func TestNoBoneRunsThroughAGusset(t *testing.T) {
	c := lanternCorset()
	c.Panels, c.Channel, c.Facing, c.HipGusset = 8, 6, 0, 70
	d, err := c.Draft()
	if err != nil {
		t.Fatal(err)
	}
	c.HipGusset = 0
	plain, err := c.Draft()
	if err != nil {
		t.Fatal(err)
	}
	if was, is := len(plain.Bones), len(d.Bones); was-is != 1 {
		t.Errorf("%d channels with a gusset at the hip of either side, %d without", is, was)
	}
	for _, p := range d.Pieces {
		for i, l := range p.Inside {
			for _, m := range p.Inside[:i] {
				if len(l) > 1 && len(m) > 1 && planar.DistanceFrom(l, m[0]) < 1 && plane.Length(m) > 1 {
					t.Errorf("%s: lines %v and %v run together", p.Name, m, l)
				}
			}
		}
	}
}
