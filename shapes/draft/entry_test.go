package draft

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes"
)

// shortYoke is a petticoat whose fitted yoke ends 120 mm above the hip: its lower
// edge is 700 + 260 x 80/200 = 804 mm round, and the hip 960.
func shortYoke() Petticoat {
	return Petticoat{
		Waist: 700, Hip: 960, HipDepth: 200, Length: 800, YokeDepth: 80, Tiers: 2, Fullness: 1.75,
		ClothWidth: 1400, Join: 10, Allowance: shapes.Allowance{Seam: 15, Waist: 15, Hem: 30},
	}
}

// The opening runs on into the first tier, down to the hip, and ends at notches on
// both sides of its seam. With the 50 mm of ease of a hip of 1010 the yoke is 824 mm.
func TestShortYokeOpensIntoTheTier(t *testing.T) {
	p := shortYoke()
	near(t, "yoke's lower edge", p.YokeEdge(), 804, 1e-9)
	near(t, "opening in the tier", p.openingInTier(), 120, 1e-9)
	notes, err := notesOf(p)
	if err != nil || len(notes) == 0 || !strings.Contains(notes[len(notes)-1],
		"804.0 mm round, so the opening runs on 120.0 mm into the first tier") {
		t.Errorf("notes %q, %v", notes, err)
	}
	for _, piece := range mustDraft(t, p) {
		if !strings.Contains(piece.Name, "tier 1") {
			continue
		}
		marks := map[string]int{}
		for _, n := range piece.Notches {
			e, _ := piece.Edge(n.Edge)
			d := fromStart(e, n.At)
			if n.Edge == "upper join" {
				d = e.Length() - d
			}
			if strings.HasSuffix(n.Edge, "join") && math.Abs(d-120) < 0.01 {
				marks[n.Edge]++
			}
		}
		if marks["upper join"] != 1 || marks["lower join"] != 1 {
			t.Errorf("%s: marks %v at the end of the opening", piece.Name, marks)
		}
	}
	p.YokeDepth = 200
	if notes, err := notesOf(p); err != nil || len(notes) > 0 {
		t.Errorf("a yoke down to the hip: %q, %v", notes, err)
	}
}

// What cannot be put on is refused with the number that would do.
func TestNothingIsTooNarrowToPutOn(t *testing.T) {
	with := func(change func(*Petticoat)) Petticoat { p := shortYoke(); change(&p); return p }
	cases := []refusal{
		{"straight tiers", with(func(p *Petticoat) { p.Fullness = 1.1 }),
			"first tier below the opening of 884.4 mm does not pass the hip of 960.0 mm: it cannot be put on\n" +
				"  hint: a fullness of 1.20 or more, or a yoke of 200.0 mm"},
		{"short tier", with(func(p *Petticoat) { p.Tiers, p.Depths = 0, []float64{100, 620} }),
			"the opening does not fit into the first tier of 100.0 mm\n" +
				"  hint: a yoke of 200.0 mm, or a first tier of 145.0 mm or more"},
		{"skirt", CircleSkirt{Fraction: 1, Gores: 4, Waist: 700, Length: 900, Hip: 960, HipDepth: 200},
			"waist of 700.0 mm does not pass the hip of 960.0 mm"},
	}
	refuses(t, cases)
	body := map[Passage]float64{OverHand: 215, OverHips: 960}
	sleeve := Sleeve{FrontArmhole: 210, BackArmhole: 220, CapEase: 25, Bicep: 340, Length: 600, Hem: 200}
	if err := checkEntry(sleeve, body); err == nil ||
		!strings.Contains(err.Error(), "hem of the sleeve of 200.0 mm does not pass the hand of 215.0 mm") {
		t.Errorf("sleeve: %v", err)
	}
	if err := checkEntry(sleeve, nil); err != nil {
		t.Errorf("a hand that is not measured: %v", err)
	}
	// Without a hip of its own the skirt is held against the body's.
	skirt := CircleSkirt{Fraction: 1, Gores: 4, Waist: 700, Length: 900}
	if err := checkEntry(skirt, body); err == nil ||
		!strings.Contains(err.Error(), "does not pass the hip of 960.0 mm") {
		t.Errorf("skirt: %v", err)
	}
}

// Whatever the body, a petticoat that is drafted lets it in: no ring above the hip
// and below the opening is narrower than the hip.
func TestPetticoatsOfAnyBodyLetItIn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		waist, hip, depth := anyBody(t)
		p := shortYoke()
		p.Waist, p.Hip, p.HipDepth, p.Length = waist, hip, depth, depth+500
		p.YokeDepth = rapid.Float64Range(40, 300).Draw(t, "yoke")
		p.Fullness = rapid.Float64Range(1, 2.5).Draw(t, "fullness")
		if rapid.Bool().Draw(t, "high hip") {
			p.HighHip = EstimatedHighHip(waist, hip, depth)
		}
		pieces, err := piecesOf(p)
		if err != nil {
			return
		}
		edge, flat := 0.0, 0.0
		for _, piece := range pieces {
			if e, ok := piece.Edge("lower edge"); ok {
				switch {
				case strings.Contains(piece.Name, "yoke"):
					edge += float64(piece.Count) * e.Length()
				case strings.Contains(piece.Name, "tier 1"):
					flat += float64(piece.Count) * e.Length()
				}
			}
		}
		on := p.openingInTier()
		if edge < hip-1 && math.Abs(p.YokeDepth+on-depth) > 1e-6 {
			t.Errorf("a yoke %.1f mm round, closed above a hip of %.1f mm", edge, hip)
		}
		if flat < hip-1 {
			t.Errorf("a first tier %.1f mm round, a hip of %.1f mm", flat, hip)
		}
	})
}
