package draft

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// drawStyles draws the styles of both edges with what they need.
func drawStyles(t *rapid.T, p *PanelledBody) {
	p.Top = rapid.SampledFrom([]TopStyle{"", CurvedTop, StraightTo, Sweetheart, PointedTop}).Draw(t, "top")
	p.Lower = rapid.SampledFrom([]LowerStyle{"", CurvedLower, StraightDown, PointedLower, Scooped}).Draw(t, "lower")
	switch p.Top {
	case Sweetheart:
		p.FrontDip = rapid.Float64Range(5, 60).Draw(t, "sweetheart")
	case PointedTop:
		p.FrontDip, p.FrontPeak = 0, rapid.Float64Range(1, 60).Draw(t, "peak")
	}
	switch p.Lower {
	case PointedLower:
		p.FrontPoint = rapid.Float64Range(1, 80).Draw(t, "point")
	case Scooped:
		p.FrontRise = rapid.Float64Range(1, 50).Draw(t, "front rise")
	}
}

// On a body as round everywhere as at the waist, 800 mm, the panels are strips of the half
// width 400: their area is 400 times the mean height, and the mean of a course from a to b
// is (a+b)/2, straight or level at both ends, and a + 2(b-a)/3 where it is level at the
// end alone (the integrals of t, 3t^2 - 2t^3 and 2t - t^2). Bust at 0.19 of the half, side
// at a half.
func TestStylesOfEdgesByIntegrals(t *testing.T) {
	even := func(a, b float64) float64 { return (a + b) / 2 }
	hollow := func(a, b float64) float64 { return a + 2*(b-a)/3 }
	const bust, side = 0.19, 0.5
	for name, c := range map[string]struct {
		body     PanelledBody
		top, end float64 // means below the over-bust, mm
	}{
		"straight": {PanelledBody{Top: StraightTo, Lower: StraightDown, FrontDip: 20},
			bust*even(20, 0) + (side-bust)*even(0, 30) + 0.5*even(30, 40), 0.5*even(340, 310) + 0.5*even(310, 320)},
		"sweetheart and point": {PanelledBody{Top: Sweetheart, Lower: PointedLower, FrontDip: 40, FrontPoint: 50},
			bust*hollow(40, 0) + (side-bust)*even(0, 30) + 0.5*even(30, 40),
			0.5*hollow(390, 310) + 0.5*even(310, 320)},
		"pointed and scooped": {PanelledBody{Top: PointedTop, Lower: Scooped, FrontPeak: 25, FrontRise: 15},
			bust*hollow(-25, 0) + (side-bust)*even(0, 30) + 0.5*even(30, 40),
			0.25*even(325, 340) + 0.25*even(340, 310) + 0.5*even(310, 320)},
	} {
		b := c.body
		b.Panels, b.SideDip, b.BackDip, b.SideRise, b.BackRise, b.Chord = 10, 30, 40, 30, 20, 0.01
		b.Figure = Figure{OverBust: 800, Bust: 800, UnderBust: 800, Waist: 800, HighHip: 800, OverBustUp: 240,
			BustUp: 160, UnderBustUp: 80, HighHipDown: 100}
		area := 0.0
		for _, p := range mustDraft(t, Corset{PanelledBody: b}) {
			area += plane.Area(p.Seam)
		}
		near(t, name, area, 400*(c.end-c.top), 4) // 0.01 mm of chord on 400 mm above and below
	}
}

// However its edges run, the panels are sound, each seam as long on both sides, and the
// centre front as long as from the top to the lower edge there.
func TestStylesOfEdges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCorset(t)
		drawStyles(t, &c.PanelledBody)
		b, err := c.body()
		if err != nil {
			t.Skip(err)
		}
		pieces, err := piecesOf(c)
		if err != nil {
			t.Skip(err)
		}
		checkJoins(t, c)
		for _, p := range pieces {
			soundGore(t, p)
			checkAreas(t, p)
			if c.Channel > 1 { // wider than the chord error
				checkInside(t, p)
			}
		}
		end := c.Figure.OverBustUp + c.Figure.HighHipDown - c.HemRaise + c.FrontPoint - c.FrontRise
		front := pieces[0].Edges[0]
		near(t, "centre front", front.Length(), end-c.FrontDip+c.FrontPeak, 1e-6)
		if at := b.top.at(b.bustPosition()); math.Abs(at) > 1e-9 {
			t.Errorf("over the bust the top lies %g below the over-bust", at)
		}
	})
}

func TestStylesThatAreRefused(t *testing.T) {
	var cases []refusal
	for want, spoil := range map[string]func(*Corset){
		"a front peak of 20.0 mm is that of a pointed top":         func(c *Corset) { c.FrontPeak = 20 },
		"a front rise of 20.0 mm is that of a scooped lower edge":  func(c *Corset) { c.FrontRise = 20 },
		"a front point of 20.0 mm is that of a pointed lower edge": func(c *Corset) { c.FrontPoint = 20 },
		"a pointed top rises at centre front, and a front dip of":  func(c *Corset) { c.Top, c.FrontPeak = PointedTop, 20 },
		"a pointed top has a front peak of 0 mm":                   func(c *Corset) { c.Top, c.FrontDip = PointedTop, 0 },
		"a sweetheart top has a front dip of 0 mm":                 func(c *Corset) { c.Top, c.FrontDip = Sweetheart, 0 },
		"a scooped lower edge has a front rise of 0 mm":            func(c *Corset) { c.Lower = Scooped },
		"a pointed lower edge has a front point and a side rise of 0 mm": func(c *Corset) {
			c.Lower, c.SideRise = PointedLower, 0
		},
		"front point is 200.0 mm, must be at most 150 mm": func(c *Corset) { c.Lower, c.FrontPoint = PointedLower, 200 },
		"front rise is 120.0 mm: the lower edge would":    func(c *Corset) { c.Lower, c.FrontRise = Scooped, 120 },
		"centre back is sewn and centre front does not open": func(c *Corset) {
			c.BackSeam, c.Facing = true, 0
		},
		"a facing of 40.0 mm is grown on at centre back, which is sewn": func(c *Corset) {
			c.BackSeam, c.FrontOpening = true, true
		},
		"waist tape is 80.0 mm wide, must be at most 60 mm": func(c *Corset) { c.WaistTape = 80 },
		"bones that end 150.0 mm from both edges leave":     func(c *Corset) { c.BoneEnds = 150 },
	} {
		c := lanternCorset()
		spoil(&c)
		cases = append(cases, refusal{want, c, want})
	}
	s := lanternStrapless()
	s.Lower, s.FrontPoint = PointedLower, 30
	cases = append(cases, refusal{"waist", s, "a pointed lower edge on a body that ends at the waist"})
	refuses(t, cases)
}

// Sewn behind and laced in front, a corset has no opening at the back, its eyelets between
// the bones at the centre front, and as many bones as one that is laced behind.
func TestCorsetLacedInFront(t *testing.T) {
	c := lanternCorset()
	c.Facing, c.MidBones, c.Shares = 0, false, nil
	behind, err := c.Draft()
	if err != nil {
		t.Fatal(err)
	}
	c.BackSeam, c.FrontOpening = true, true
	d, err := c.Draft()
	if err != nil {
		t.Fatal(err)
	}
	back, _ := d.Pieces[len(d.Pieces)-1].Edge("centre back")
	if back.Kind != shapes.Seam || d.LacedAt != "centre front" || len(d.Bones) != len(behind.Bones)+1 {
		t.Errorf("%v, laced at %q, %d bones of %d", back.Kind, d.LacedAt, len(d.Bones), len(behind.Bones))
	}
	closed, err := Closing{At: "centre front", By: Lacing, Spacing: 25, First: 12}.Of(d)
	if err != nil || closed.Closed[0].Inset != d.EyeletsIn || closed.Closed[0].Times != 1 {
		t.Fatalf("%+v, %v", closed.Closed, err)
	}
	if _, err := (Closing{At: "centre back", By: Lacing, Spacing: 25}).Of(d); err == nil {
		t.Error("a seam is laced")
	}
}
