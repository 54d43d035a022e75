package draft

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// standed is a closing by buttons with a stand.
func standed(at string, over, facing float64) Closing {
	return Closing{At: at, By: Buttons, Spacing: 38, First: 12,
		Stand: Stand{Over: over, Facing: facing, Hole: over}}
}

// Areas of a half with a stand, exactly: with L the opening, A the half, and A' the half cut back to
// the facing, the facing grown on is the mirror image of what is cut back, and the stand a strip that
// lies doubled:
//
//	grown on = A + 2 Over L + (A - A'),  sewn on = A + Over L,  the facing = Over L + (A - A').
//
// Neck and waist keep their lengths, and a facing of the neck goes on from that of the stand.
func TestStandsOfBodices(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		b := drawBody(t)
		b.FrontOnFold, b.BackOnFold = false, true
		drawLines(t, &b)
		b.NeckBackDepth = 30
		over := rapid.Float64Range(8, 25).Draw(t, "stand")
		c := standed("centre front", over, over*rapid.Float64Range(2.3, 3).Draw(t, "facing over stand"))
		plain, err := b.Draft()
		if err != nil {
			t.Skip(err)
		}
		grown, err := c.Of(plain)
		if err != nil {
			t.Skip(err)
		}
		drawn++
		sewnOn, inner := c, c
		sewnOn.Stand.SewnOn, inner.Inner = true, true
		sewn, err := sewnOn.Of(plain)
		if err != nil {
			t.Fatal(err)
		}
		lining, err := inner.Of(plain)
		if err != nil {
			t.Fatal(err)
		}
		apart, err := StandFacing{Of: b, Closing: sewnOn}.Draft()
		if err != nil {
			t.Fatal(err)
		}
		area := func(d Result) float64 { return plane.Area(d.Pieces[0].Seam) }
		opening, _ := plain.Pieces[0].Edge("centre front")
		strip, off := over*opening.Length(), area(plain)-area(lining)
		near(t, "grown on", area(grown), area(plain)+2*strip+off, 1)
		near(t, "sewn on", area(sewn), area(plain)+strip, 1)
		near(t, "facing", area(apart), strip+off, 1)
		for _, d := range []Result{grown, sewn, lining, apart} {
			for _, p := range d.Pieces {
				soundGore(t, p)
				checkAreas(t, p)
			}
		}
		for _, name := range []string{"neck", "waist"} {
			was, _ := plain.Pieces[0].Edge(name)
			now, _ := grown.Pieces[0].Edge(name)
			near(t, name, now.Length(), was.Length(), 1e-6)
		}
		faced, err := Facing{Of: b, At: AtNeck, Width: 20, Stands: []Closing{c}}.Draft()
		if err != nil {
			t.Skip(err)
		}
		f := faced.Faced
		_, long, err := f.A.Measure(grown.Pieces)
		if err != nil {
			t.Fatal(err)
		}
		_, short, err := f.B.Measure(faced.Pieces)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "neck facing", long, short, 0.1)
	})
	if least := often.Enough(40); drawn < least {
		t.Errorf("only %d stands could be drafted, want %d", drawn, least)
	}
}

// By hand: a stand of 20 mm with a facing of 60 widens the front of our block by 2 x 20 + 40 = 80 mm;
// buttonholes of 20 mm begin 3 mm beyond the centre. No seam is left at the centre.
func TestStandByHand(t *testing.T) {
	b := lanternBlock()
	b.FrontOnFold, b.BackOnFold = false, true
	plain, err := b.Draft()
	if err != nil {
		t.Fatal(err)
	}
	d, err := standed("centre front", 20, 60).Of(plain)
	if err != nil {
		t.Fatal(err)
	}
	_, was := plain.Pieces[0].Finished()
	_, now := d.Pieces[0].Finished()
	near(t, "wider by", now-was, 80, 1e-3)
	for _, j := range d.Joins {
		if j.Name == "centre front" {
			t.Error("the centre front is sewn")
		}
	}
	var centre, fold float64
	for _, n := range d.Pieces[0].Names {
		switch y := d.Pieces[0].Inside[n.Line][0][1]; n.Name {
		case centreLine:
			centre = y
		case foldLine:
			fold = y
		}
	}
	near(t, "fold beyond the centre", centre-fold, 20, 1e-6)
	holes := 0
	for _, l := range d.Pieces[0].Inside {
		if len(l) == 6 {
			holes++
			near(t, "buttonhole from the centre", centre-l[0][1], 3, 1e-6)
			near(t, "its length", l[5][1]-l[0][1], 20, 1e-6)
		}
	}
	if c := d.Closed[0]; holes != c.Places || c.Set() != c.Places || c.Stand != 20 {
		t.Errorf("%d buttonholes of %+v", holes, c)
	}
	if n := d.Notes[len(d.Notes)-1].String(); !strings.Contains(n, "go on 20.0 mm beyond") ||
		!strings.Contains(n, "reaches 40.0 mm beyond the centre") {
		t.Error(n)
	}
	ends := 0
	for _, n := range d.Pieces[0].Notches {
		if strings.HasPrefix(n.Edge, standEnd) {
			ends++
		}
	}
	if ends != 4 {
		t.Errorf("%d notches at its ends, want 4", ends)
	}
}

// A skirt buttoned down to its hem has one too: its hem goes on as a hem.
func TestStandOfASkirt(t *testing.T) {
	s := CircleSkirt{Waist: 700, Length: 600, Fraction: 0.5, Gores: 4, Opening: true,
		Allowance: shapes.Allowance{Seam: 12, Waist: 10, Hem: 25}}
	plain, err := s.Draft()
	if err != nil {
		t.Fatal(err)
	}
	c := standed("centre back", 15, 45)
	e, _ := plain.Pieces[0].Edge("centre back")
	c.Length = e.Length()
	d, err := c.Of(plain)
	if err != nil {
		t.Fatal(err)
	}
	hem, ok := d.Pieces[0].Edge(standEnd + "hem")
	if !ok || hem.Kind != shapes.Hem || hem.Allowance != 25 {
		t.Errorf("its hem is %+v", hem)
	}
}

// A yoke is sewn to a tier below, which the stand would have to go on along.
func TestStandBesideASeam(t *testing.T) {
	p := Petticoat{Waist: 700, Hip: 1000, HipDepth: 200, Length: 900, YokeDepth: 250, Tiers: 2, Fullness: 1.6,
		ClothWidth: 1450, Allowance: shapes.Allowance{Seam: 12, Waist: 10, Hem: 25}}
	d, err := p.Draft()
	if err != nil {
		t.Fatal(err)
	}
	if _, err = standed("centre back", 17, 51).Of(d); err == nil ||
		!strings.Contains(err.Error(), "where a stand would have to go on") {
		t.Error(err)
	}
}

func TestStandRefuses(t *testing.T) {
	b := lanternBlock()
	b.FrontOnFold, b.BackOnFold, b.Neckline, b.NecklineBack = false, true, BoatNeck, BoatNeck
	b.NeckWidth, b.NeckDepth, b.NeckBackDepth = 62, 10, 40
	plain, err := b.Draft()
	if err != nil {
		t.Fatal(err)
	}
	for want, spoil := range map[string]func(*Closing){
		"hooks need no stand":                    func(c *Closing) { c.By = Hooks },
		"a stand of 5.0 mm holds no button":      func(c *Closing) { c.Stand.Over = 5 },
		"reaches 5.0 mm beyond the centre":       func(c *Closing) { c.Stand.Facing = 25 },
		"run beyond a facing that ends 40.0":     func(c *Closing) { c.Stand.Hole = 50 },
		"and it is closed for 200.0 mm":          func(c *Closing) { c.Length = 200 },
		"from the centre front, and a facing":    func(c *Closing) { c.Stand.Facing = 200 },
		"not at the left":                        func(c *Closing) { c.At = OnLeft },
		"from the centre front, within a facing": func(c *Closing) { c.Stand.Facing = 110 },
	} {
		c := standed("centre front", 20, 60)
		spoil(&c)
		if _, err := c.Of(plain); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}
