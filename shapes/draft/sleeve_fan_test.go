package draft

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// A fanned sleeve by closed formulas. Half a cap is x = h (3 t^2 - 2 t^3) below the crown
// at y with dy = w (3/2 - 3 t + 3 t^2) dt, so that x is h/2 and x^2 is 41/105 h^2 on the
// average over y. Then, with d = L - x,
//
//	hem = B (1 + turn (L - h/2)),  area = B (L - h/2) + B turn/2 (L^2 - L h + 41/105 h^2),
//
// the cap is as long as that of the straight sleeve, each underarm seam L - h, and the hem
// stands square on both.
func TestFanByFormulas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSleeve(t)
		s.Style, s.Chord, s.HemRaise = FlutterSleeve, 0.02, 0
		s.Hem = s.Bicep * rapid.Float64Range(1, 3).Draw(t, "hem over bicep")
		pieces, err := piecesOf(s)
		if err != nil {
			t.Skip(err)
		}
		h, err := s.CapHeight()
		if err != nil {
			t.Fatal(err)
		}
		l, b, p := s.Length, s.Bicep, pieces[0]
		turn := (s.Hem/b - 1) / (l - h/2)
		edge := map[string]float64{}
		for _, e := range p.Edges {
			edge[e.Name] = e.Length()
		}
		near(t, "hem", edge["hem"], s.Hem, 0.3)
		near(t, "front seam", edge["front seam"], l-h, 0.01)
		near(t, "back seam", edge["back seam"], l-h, 0.01)
		near(t, "cap", edge["front cap"]+edge["back cap"], s.FrontArmhole+s.BackArmhole+s.CapEase, 0.3)
		area := b*(l-h/2) + b*turn/2*(l*l-l*h+41./105*h*h)
		near(t, "area", plane.Area(p.Seam), area, 0.02*s.Hem+0.02*s.Bicep)
		seam, _ := p.Edge("front seam")
		hem, _ := p.Edge("hem")
		down, along := sub2(seam.Line[1], seam.Line[0]), sub2(hem.Line[1], hem.Line[0])
		across := (down[0]*along[0] + down[1]*along[1]) / math.Hypot(down[0], down[1]) / math.Hypot(along[0], along[1])
		near(t, "corner at the hem", across, 0, 0.1)
	})
}

// A bishop by hand: 1.7 times a bicep of 345 is 586.5 round the lower edge, gathered 586.5
// to 220 into the cuff.
func TestBishopByHand(t *testing.T) {
	s := lanternSleeve(t, BishopSleeve)
	pieces := mustDraft(t, s)
	lower, _ := pieces[0].Edge("lower edge")
	near(t, "lower edge", lower.Length(), 586.5, 0.2)
	if len(pieces) != 2 || pieces[1].Name != "sleeve cuff" || pieces[1].Count != 2 {
		t.Fatalf("%d pieces, the last %q", len(pieces), pieces[len(pieces)-1].Name)
	}
	steps := checkJoins(t, s)
	near(t, "gathers", steps[len(steps)-1].Join.B.Treatment.Gather, 586.5/220, 0.001)
}

// A leg-of-mutton by hand: as wide as a puff at the underarm, as the straight sleeve from
// the elbow down, so that its hem is 240 and its forearm leans as that does.
func TestLegOfMuttonByHand(t *testing.T) {
	s := lanternSleeve(t, LegOfMuttonSleeve)
	p := mustDraft(t, s)[0]
	_, across := p.Finished()
	near(t, "width", across, 1.7*345, 0.01)
	hem, _ := p.Edge("hem")
	near(t, "hem", hem.Length(), 240, 0.01)
	h, err := s.CapHeight()
	if err != nil {
		t.Fatal(err)
	}
	seam, _ := p.Edge("front seam")
	n := len(seam.Line)
	forearm := sub2(seam.Line[n-1], seam.Line[n-2])
	near(t, "forearm", forearm[0], (590-h)/2, 0.01)
	near(t, "its lean", forearm[1]/forearm[0], 52.5/(590-h), 1e-5)
}

// The underarm seam is as long as asked for: a cap sleeve is a straight one with little.
func TestUnderarmSeam(t *testing.T) {
	for _, style := range []SleeveStyle{StraightSleeve, PuffSleeve, BishopSleeve, FlutterSleeve} {
		s := lanternSleeve(t, style)
		s.Length, s.Underarm, s.Puff = 0, 60, 0
		if style == StraightSleeve {
			s.Hem = 330
		}
		seam, _ := mustDraft(t, s)[0].Edge("back seam")
		near(t, "underarm seam", seam.Length(), 60, 0.01)
	}
}
