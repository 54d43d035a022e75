package draft

import (
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// A two-piece sleeve is the straight one divided: as much cloth at the bicep, the cap as
// long, both hems together the hem. The bend shifts each level across, which keeps areas, so
// that both pieces have that of the straight sleeve.
func TestTwoPieceByFormulas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSleeve(t)
		s.Style, s.Chord, s.HemRaise = TwoPieceSleeve, 0.02, 0
		s.Hem = s.Bicep * rapid.Float64Range(0.5, 1).Draw(t, "hem over bicep")
		made, err := s.Draft()
		if err != nil {
			t.Skip(err)
		}
		checkJoins(t, s)
		cut, finished, err := made.Cap.Measure(made.Pieces)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "cap", cut, s.FrontArmhole+s.BackArmhole+s.CapEase, 0.3)
		near(t, "cap in the armhole", finished, s.FrontArmhole+s.BackArmhole, 0.3)
		hem, area := 0.0, 0.0
		for _, p := range made.Pieces {
			e, _ := p.Edge("hem")
			hem += e.Length()
			area += plane.Area(p.Seam)
		}
		near(t, "hem", hem, s.Hem, 0.01)
		plain := s
		plain.Style = StraightSleeve
		whole, err := piecesOf(plain)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "area", area, plane.Area(whole[0].Seam), 0.05*s.Length)
	})
}
