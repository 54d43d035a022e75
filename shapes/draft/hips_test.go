package draft

import "testing"

// Hip clearance of a partial circle, plane geometry: W + 2 pi f d. W = 28 in and
// f = 1/4 give 40.566 in at a depth of 8 and 38.996 at 7, which fails a hip of 40.
func TestQuarterCircleClearsTheHip(t *testing.T) {
	s := circleSkirt(0.25, 28, 40, 4)
	s.Opening, s.Hip, s.HipDepth = true, 40*inch, 8*inch
	mustDraft(t, s)
	s.HipDepth = 7 * inch
	refuses(t, []refusal{
		{"seven inches", s,
			"0.25 of a circle goes 990.5 mm round at 177.8 mm below the waist and does not clear the hip of 1016.0 mm"},
		{"says how much would do", s, "at least 0.273 of a circle"}, // (40 - 28)/(2 pi 7) = 0.2728
	})
	s.Fraction = 0.273
	mustDraft(t, s)
}

func TestSkirtsThatCannotBeWorn(t *testing.T) {
	circle := func(change func(*CircleSkirt)) CircleSkirt {
		s := circleSkirt(0.5, 28, 40, 4)
		s.Opening, s.Hip, s.HipDepth = true, 38*inch, 8*inch
		change(&s)
		return s
	}
	gored := func(change func(*GoredSkirt)) GoredSkirt {
		s := fiveGores()
		s.FrontHem = 0
		change(&s)
		return s
	}
	refuses(t, []refusal{
		{"circle, no opening", circle(func(s *CircleSkirt) { s.Opening = false }),
			"waist of 711.2 mm does not pass the hip of 965.2 mm"},
		{"circle, waist wider", circle(func(s *CircleSkirt) { s.Opening, s.Waist = false, 1000 }),
			"waist of 1000.0 mm is larger than the hip of 965.2 mm"},
		{"circle, no hip depth", circle(func(s *CircleSkirt) { s.HipDepth = 0 }), "hip depth is 0 mm"},
		{"circle, negative hip", circle(func(s *CircleSkirt) { s.Hip = -5 }), "hip is -5 mm"},
		{"gored, waist wider", gored(func(s *GoredSkirt) { s.Opening, s.Waist = false, 1100 }),
			"waist of 1100.0 mm is larger than the hip of 1016.0 mm"},
		{"gored, hem under the waist", gored(func(s *GoredSkirt) { s.Waist, s.HemSweep = 1200, 1100 }),
			"hem of 220.0 mm a gore is narrower than its waist of 240.0 mm"},
		{"gored, front hem under the waist", gored(func(s *GoredSkirt) {
			s.Waist, s.HemSweep, s.FrontHem = 1200, 1500,
				220
		}), "hem of 220.0 mm a gore is narrower"},
	})
}
