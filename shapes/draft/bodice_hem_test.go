package draft

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// A block that is hemmed has the outline of one that is sewn to a skirt, with the allowance of a
// hem; of layers that differ in length the seams lie on each other from the underarm down.
func TestHemsOfBlocks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBody(t)
		drawLines(t, &b)
		b.Allowance.Hem = 30
		sewn, err := b.Draft()
		if err != nil {
			t.Skip(err)
		}
		b.Hemmed = true
		hemmed, err := b.Draft()
		if err != nil {
			t.Fatal(err)
		}
		checkJoins(t, b)
		if _, err := WaistOf(hemmed); err == nil {
			t.Error("a hem that is sewn to a skirt")
		}
		for i, p := range hemmed.Pieces {
			soundGore(t, p)
			near(t, p.Name, plane.Area(p.Seam), plane.Area(sewn.Pieces[i].Seam), 1e-3)
			e, ok := p.Edge("hem")
			if !ok || e.Kind != shapes.Hem || e.Allowance != 30 {
				t.Fatalf("%s has the hem %+v", p.Name, e)
			}
		}
		b.HemRaise = rapid.Float64Range(1, 20).Draw(t, "shorter by")
		short, err := b.Draft()
		if err != nil {
			t.Skip(err)
		}
		darts := func(d Result) (n int) {
			for _, p := range d.Pieces {
				n += len(p.Darts)
			}
			return n
		}
		if darts(short) != darts(hemmed) {
			return // one at the waist that is too narrow to sew by now is taken in at the side
		}
		side := func(d Result) float64 {
			e, _ := d.Pieces[len(d.Pieces)-1].Edge("side seam")
			return e.Length()
		}
		if was, now := side(hemmed), side(short); was-now < 0.9*b.HemRaise-0.5 || was-now > 1.3*b.HemRaise+0.5 {
			t.Errorf("side seams of %.1f and %.1f mm, shorter by %.1f", was, now, b.HemRaise)
		}
	})
}

// An ease pleat so deep widens the back panel by a rectangle of that and the centre back, on both
// sides, exactly; what is sewn at the waist stays as long.
func TestEasePleatsOfPanelledBodies(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCorset(t)
		c.Facing, c.BustGusset, c.HipGusset = 0, 0, 0
		plain, err := c.Draft()
		if err != nil {
			t.Skip(err)
		}
		c.EasePleat = rapid.Float64Range(3, 40).Draw(t, "ease pleat")
		pleated, err := c.Draft()
		if err != nil {
			t.Fatal(err)
		}
		n := len(plain.Pieces) - 1
		back, _ := plain.Pieces[n].Edge("centre back")
		wide, now := plane.Area(plain.Pieces[n].Seam), plane.Area(pleated.Pieces[n].Seam)
		near(t, "area", now-wide, c.EasePleat*back.Length(), 0.5)
		for i := range n {
			near(t, plain.Pieces[i].Name, plane.Area(pleated.Pieces[i].Seam), plane.Area(plain.Pieces[i].Seam), 1e-9)
		}
		soundGore(t, pleated.Pieces[n])
		checkJoins(t, c)
		s := lanternStrapless()
		s.Facing = 0
		was, err := s.Draft()
		if err != nil {
			t.Fatal(err)
		}
		s.EasePleat = c.EasePleat
		is, err := s.Draft()
		if err != nil {
			t.Fatal(err)
		}
		_, long, err := was.Waist.Measure(was.Pieces)
		if err != nil {
			t.Fatal(err)
		}
		_, same, err := is.Waist.Measure(is.Pieces)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "waist", same, long, 0.01)
	})
}

func TestHemsOfBodicesRefuse(t *testing.T) {
	sewn := lanternBlock()
	sewn.HemRaise = 10
	short := lanternBlock()
	short.Hemmed, short.HemRaise = true, 150
	deep, faced := lanternCorset(), lanternCorset()
	deep.Facing, deep.EasePleat, faced.Facing, faced.EasePleat = 0, 80, 40, 10
	refuses(t, []refusal{
		{"sewn", sewn, "10.0 mm shorter at a waist that is sewn to a skirt"},
		{"short", short, "of side seam left, needs 100 mm"},
		{"deep", deep, "ease pleat is 80.0 mm deep"},
		{"faced", faced, "where a facing of 40.0 mm is grown on"},
	})
	hemmed := lanternStrapless()
	hemmed.Hemmed = true
	d, err := hemmed.Draft()
	if err != nil {
		t.Fatal(err)
	}
	if e := d.Pieces[0].Edges[1]; e.Kind != shapes.Hem || !strings.Contains(e.Name, "lower edge") {
		t.Errorf("its lower edge is %+v", e)
	}
}
