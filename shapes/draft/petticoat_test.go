package draft

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

func workedPetticoat() Petticoat {
	return Petticoat{
		Waist: 28 * inch, Hip: 42 * inch, HipDepth: 8 * inch, Length: 40 * inch, YokeDepth: 10 * inch, Casing: 25,
		Tiers: 3, Fullness: 2, ClothWidth: 45 * inch, Join: 10,
		Allowance: shapes.Allowance{Seam: 10, Waist: 8, Hem: 20},
	}
}

// Tiers multiply (plain algebra): a yoke of 42 in at 2 to 1 three times is 84, 168
// and 336 in, each a third of the 30 in that a yoke of 10 leaves of 40.
func TestPetticoatTiers(t *testing.T) {
	p := workedPetticoat()
	table, err := tiersOf(p)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{84, 168, 336} {
		inches(t, "flat length", table[i].Flat, want)
		inches(t, "depth", table[i].Depth, 10)
	}
	pieces := mustDraft(t, p)
	along, across := pieces[0].CutSize()
	near(t, "yoke, cut, along", along, 10*inch+25+8+10, 0.01)
	near(t, "yoke, cut, across", across, 42*inch+20, 0.01)
	if len(pieces[0].Inside) != 1 {
		t.Fatalf("%d lines on the yoke", len(pieces[0].Inside))
	}
	near(t, "casing's line", pieces[0].Inside[0][0][0], 25+8+25, 0.01)
	steps := checkJoins(t, p)
	want := []string{"yoke to tier 1", "tier 1 to tier 2", "tier 2 to tier 3"}
	if d := cmp.Diff(want, betweenRings(steps)); d != "" {
		t.Error(d)
	}
	sewn, strips := 0, 0 // end to end: a ring of n strips has n joins
	for _, s := range steps {
		if strings.Contains(s.Join.Name, "strip to ") {
			sewn += s.Join.Times
		}
	}
	for _, piece := range pieces {
		strips += piece.Count
	}
	if sewn != strips {
		t.Errorf("%d joins of %d strips in rings", sewn, strips)
	}
}

// betweenRings names the seams but those of strips end to end.
func betweenRings(steps []shapes.SewingStep) []string {
	var names []string
	for _, s := range steps {
		if !strings.Contains(s.Join.Name, "strip to ") {
			names = append(names, s.Join.Name)
		}
	}
	return names
}

// A fitted yoke is the partial circle that clears the hip: (42 - 28)/(2 pi 8) of
// one; 10 in down it goes 28 + 14 x 10/8 = 45.5 in round (plain geometry).
func TestPetticoatFittedYoke(t *testing.T) {
	p := workedPetticoat()
	p.Casing = 0
	inches(t, "yoke's edge", p.YokeEdge(), 45.5)
	pieces := mustDraft(t, p)
	if pieces[0].Name != "petticoat yoke" || pieces[0].Edges[0].Kind != shapes.Opening {
		t.Errorf("%s: %v", pieces[0].Name, edgeNames(pieces[0]))
	}
	waist, _ := pieces[0].Edge("waist")
	near(t, "waist", waist.Length(), 28*inch, 0.5)
	p.Hip, p.HipDepth = 70*inch, 5*inch // over half a circle: 1.337
	want := []string{
		"petticoat yoke back to petticoat yoke front, right", "petticoat yoke back to petticoat yoke front, left",
		"yoke to tier 1", "tier 1 to tier 2", "tier 2 to tier 3",
	}
	if d := cmp.Diff(want, betweenRings(checkJoins(t, p))); d != "" {
		t.Error(d)
	}
}

func TestPetticoatRefuses(t *testing.T) {
	with := func(change func(*Petticoat)) Petticoat { p := workedPetticoat(); change(&p); return p }
	refuses(t, []refusal{
		{"no waist", with(func(p *Petticoat) { p.Waist = 0 }), "petticoat: waist is 0 mm"},
		{"negative length", with(func(p *Petticoat) { p.Length = -1 }), "length is -1 mm"},
		{"all yoke", with(func(p *Petticoat) { p.YokeDepth = 1100 }), "yoke depth of 1100 mm leaves nothing for tiers"},
		{"all casing", with(func(p *Petticoat) { p.Casing = 300 }), "casing of 300 mm takes the whole yoke of 254 mm"},
		{"waist over hip", with(func(p *Petticoat) { p.Waist = 1100 }),
			"waist of 1100.0 mm is larger than the hip of 1066.8 mm"},
		{"fitted, waist over hip", with(func(p *Petticoat) { p.Waist, p.Casing = 1100, 0 }),
			"hip of 1066.8 mm is not wider than the waist of 1100.0 mm"},
		{"fitted, hardly wider", with(func(p *Petticoat) { p.Waist, p.Casing = 1064, 0 }),
			"so little flare gives the yoke a radius of"},
		{"fitted, no hip depth", with(func(p *Petticoat) { p.HipDepth, p.Casing = 0, 0 }), "hip depth is 0 mm"},
		{"depths that do not add up", with(func(p *Petticoat) { p.Depths = []float64{200, 200, 200} }),
			"yoke and tiers are 854.0 mm deep, the petticoat 1016.0 mm long"},
		{"bad depth", with(func(p *Petticoat) { p.Depths = []float64{200, -200, 200} }), "depth of tier 2 is -200 mm"},
		{"a depth missing", with(func(p *Petticoat) { p.Depths = []float64{400, 362} }), "2 depths for 3 tiers"},
		{"no fullness", with(func(p *Petticoat) { p.Fullness = 0 }), "no fullness is given"},
		{"no cloth", with(func(p *Petticoat) { p.ClothWidth = 0 }), "cloth width is 0 mm"},
		{"last tier raised away", with(func(p *Petticoat) { p.HemRaise = 260 }), "hem raise is 260 mm"},
		{"tiers", with(func(p *Petticoat) { p.Tiers = -1 }), "tiers: -1"},
	})
}

func TestPetticoatProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		p := Petticoat{
			Waist: mm("waist", 550, 900), HipDepth: mm("hip depth", 150, 250), YokeDepth: mm("yoke", 100, 300),
			Tiers: rapid.IntRange(1, 4).Draw(t, "tiers"), Fullness: mm("fullness", 1, 2.5),
			ClothWidth: mm("cloth", 900, 1600),
			Join:       mm("join", 0, 15),
			HemRaise:   mm("raise", 0, 30), Allowance: shapes.Allowance{Seam: mm("seam", 0, 15),
				Waist: mm("waist allowance", 0, 12), Hem: mm("hem", 0, 25)},
		}
		p.Hip = p.Waist + mm("spring", 60, 350)
		p.Length = p.YokeDepth + mm("below the yoke", 300, 900)
		p.Casing = rapid.SampledFrom([]float64{0, 20}).Draw(t, "casing")
		if _, err := piecesOf(p); err != nil {
			if p.fitted() && strings.Contains(err.Error(), "does not pass the hip") {
				return // cannot be stepped into; held elsewhere
			}
			t.Fatal(err)
		}
		checkJoins(t, p)
		area := func(p Petticoat) (sum float64) {
			pieces, err := piecesOf(p)
			if err != nil { // a wider hip may ask for more fullness
				return math.Inf(1)
			}
			for _, piece := range pieces {
				soundGore(t, piece)
				sum += float64(piece.Count) * plane.Area(piece.Seam)
			}
			return sum
		}
		was := area(p)
		// A straight yoke is a rectangle, a fitted one lies between two arcs; tiers
		// are rectangles of their flat length.
		want := p.YokeDepth * p.Hip
		if p.Casing == 0 {
			want = p.YokeDepth * (p.Waist + p.YokeEdge()) / 2
		}
		table, err := tiersOf(p)
		if err != nil {
			t.Fatal(err)
		}
		for _, tier := range table {
			want += tier.Flat * tier.Depth
		}
		near(t, "area", was, want, 2*DefaultChord*p.YokeEdge()+0.01*p.Length*float64(len(table)))
		for what, change := range map[string]func(*Petticoat){
			"longer":      func(p *Petticoat) { p.Length += 5 },
			"fuller":      func(p *Petticoat) { p.Fullness += 0.05 },
			"wider hip":   func(p *Petticoat) { p.Hip += 5 },
			"less raised": func(p *Petticoat) { p.HemRaise *= 0.9; p.Length++ },
		} {
			more := p
			change(&more)
			// A fuller tier, and so one on a wider hip, may be of the same whole widths.
			eased := what == "fuller" || what == "wider hip"
			if bigger := area(more); bigger < was-1e-6*was || !eased && bigger <= was {
				t.Errorf("%s: area %.0f, was %.0f", what, bigger, was)
			}
		}
	})
}
