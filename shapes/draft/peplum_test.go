package draft

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

func workedPeplum() Peplum {
	return Peplum{Waist: 28 * inch, Length: 7 * inch, Hip: (28 + 4*math.Pi) * inch, HipDepth: 8 * inch,
		Allowance: shapes.Allowance{Seam: 10, Waist: 10, Hem: 15}}
}

// Hip clearance of a partial circle, plane geometry: a quarter circle on a waist
// of 28 in measures 40.566 in 8 in down. So a peplum that lies smoothly over that
// hip is a quarter circle; radius 28/(2 pi/4) = 17.825 in.
func TestPeplumLiesOverTheHip(t *testing.T) {
	p := workedPeplum()
	inches(t, "hip", p.Hip, 40.566)
	near(t, "fraction", p.fraction(), 0.25, 1e-12)
	waist, hem := p.Radii()
	inches(t, "radius", waist, 17.825)
	inches(t, "hem radius", hem, 24.825)
	piece := draftOne(t, p)
	if len(piece.Notches) != 3 || math.Abs(piece.Notches[1].At[1]-piece.Grain[0][1]) > 1e-6 {
		t.Errorf("notches %v, want one at the centre front and at each side", piece.Notches)
	}
	if d := cmp.Diff([]string{"right centre back, opening", "hem, hem", "left centre back, opening", "waist, waist"},
		edgeNames(piece)); d != "" {
		t.Error(d)
	}
	p.FrontOpen = true
	if d := cmp.Diff([]string{"left centre front, opening", "hem, hem", "right centre front, opening", "waist, waist"},
		edgeNames(draftOne(t, p))); d != "" {
		t.Error(d)
	}
}

// Sections from the opening round, and what a piece as drawn is for: the one next
// to a centre back opening lies on the wearer's right, for its front is at its
// upper side.
func TestPeplumSections(t *testing.T) {
	p := workedPeplum()
	p.Fraction, p.Sections = 1.25, 5
	pieces := mustDraft(t, p)
	names := []string{pieces[0].Name, pieces[1].Name, pieces[2].Name}
	if d := cmp.Diff([]string{"peplum back", "peplum side", "peplum front"}, names); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([]string{"right", "left"}, pieces[0].Labels); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([]string{"centre back, opening", "hem, hem", "front seam, seam", "waist, waist"},
		edgeNames(pieces[0])); d != "" {
		t.Error(d)
	}
	p.Sections, p.Fraction, p.OnFold = 0, 0.5, true
	half := draftOne(t, p)
	soundGore(t, half.Unfold())
	if d := cmp.Diff([]string{"centre front, fold", "hem, hem", "centre back, opening", "waist, waist"},
		edgeNames(half)); d != "" {
		t.Error(d)
	}
}

func TestPeplumRefuses(t *testing.T) {
	with := func(change func(*Peplum)) Peplum { p := workedPeplum(); change(&p); return p }
	refuses(t, []refusal{
		{"no waist", with(func(p *Peplum) { p.Waist = 0 }), "peplum: waist is 0 mm"},
		{"negative length", with(func(p *Peplum) { p.Length = -100 }), "length is -100 mm"},
		{"neither fraction nor hip", with(func(p *Peplum) { p.Hip = 0 }), "neither a fraction of a circle nor a hip"},
		{"no hip depth", with(func(p *Peplum) { p.HipDepth = 0 }), "hip depth is 0 mm"},
		{"hip like the waist", with(func(p *Peplum) { p.Hip = p.Waist }), "is not wider than the waist of 711.2 mm"},
		{"hip hardly wider", with(func(p *Peplum) { p.Hip = p.Waist + 2 }), "has a hem radius of"},
		{"does not clear", with(func(p *Peplum) { p.Fraction, p.HipDepth = 0.25, 7*inch }),
			"does not clear the hip of 1030.4 mm"},
		{"tight waist", with(func(p *Peplum) { p.Waist, p.Fraction = 30, 3 }), "the waist is cut on a radius of"},
		{"sections on the fold", with(func(p *Peplum) { p.OnFold, p.Sections = true, 3 }),
			"3 sections with centre front on a fold"},
		{"hem raised away", with(func(p *Peplum) { p.HemRaise = 400 }), "hem raise is 400 mm"},
	})
}

// All sections together have the waist and the area asked for, seams match, and
// longer, wider and shorter by the hem raise move the area as they must.
func TestPeplumProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		p := Peplum{
			Waist: mm("waist", 550, 1000), Length: mm("length", 80, 350), HipDepth: mm("hip depth", 150, 250),
			FrontOpen: rapid.Bool().Draw(t, "front open"), Sections: rapid.IntRange(1, 7).Draw(t, "sections"),
			HemRaise: mm("raise", 0, 40), Allowance: shapes.Allowance{Seam: mm("seam", 0, 15),
				Waist: mm("waist allowance", 0, 12), Hem: mm("hem", 0, 25)},
		}
		p.Hip = p.Waist + mm("spring", 60, 350)
		checkJoins(t, p)
		total := func(p Peplum) (waist, area float64) {
			for _, piece := range mustDraft(t, p) {
				soundGore(t, piece)
				e, _ := piece.Edge("waist")
				waist += float64(piece.Count) * e.Length()
				area += float64(piece.Count) * plane.Area(piece.Seam)
			}
			return waist, area
		}
		waist, area := total(p)
		length := p.Length - p.HemRaise
		hem := p.Waist + 2*math.Pi*p.fraction()*length
		near(t, "waist", waist, p.Waist, 1)
		near(t, "area", area, length*(p.Waist+hem)/2, DefaultChord*(p.Waist+hem))
		for what, change := range map[string]func(*Peplum){
			"longer":      func(p *Peplum) { p.Length += 5 },
			"wider hip":   func(p *Peplum) { p.Hip += 20 },
			"wider waist": func(p *Peplum) { p.Waist += 20; p.Hip += 20 },
			"less raised": func(p *Peplum) { p.Length += 5; p.HemRaise += 2 },
		} {
			more := p
			change(&more)
			if _, bigger := total(more); bigger <= area {
				t.Errorf("%s: area %.0f, was %.0f", what, bigger, area)
			}
		}
	})
}
