package draft

import (
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

func workedCape(fraction float64) Cape {
	return Cape{Neck: 420, Length: 900, Fraction: fraction, Allowance: shapes.Allowance{Seam: 10, Hem: 20}}
}

// Radius = neck / (2 pi f), plain geometry: 420 mm on half a circle gives
// 420/pi = 133.690 mm.
func TestCapeRadii(t *testing.T) {
	neck, hem := workedCape(0.5).Radii()
	near(t, "neck radius", neck, 133.690, 0.0005)
	near(t, "hem radius", hem, 1033.690, 0.0005)
}

// Sections by fraction of a circle and what is asked of the centre back.
func TestCapeSections(t *testing.T) {
	for _, c := range []struct {
		cape Cape
		want []string
	}{
		{workedCape(0.5), []string{"1 cape"}},
		{workedCape(0.75), []string{"2 cape half"}},
		{workedCape(1), []string{"2 cape half"}},
		{func() Cape { c := workedCape(0.5); c.BackSeam = true; return c }(), []string{"2 cape half"}},
		{func() Cape { c := workedCape(1.25); return c }(), []string{"2 cape front", "1 cape back"}},
		{func() Cape { c := workedCape(1.25); c.BackSeam = true; return c }(), []string{"2 cape front", "2 cape back"}},
		{func() Cape { c := workedCape(1); c.Sections = 5; return c }(),
			[]string{"2 cape front", "2 cape side", "1 cape back"}},
		{func() Cape { c := workedCape(1); c.Sections = 8; return c }(),
			[]string{"2 cape front", "2 cape side 1", "2 cape side 2", "2 cape back"}},
		{func() Cape { c := workedCape(0.75); c.BackOnFold = true; return c }(), []string{"1 cape"}},
	} {
		var got []string
		for _, p := range mustDraft(t, c.cape) {
			got = append(got, fmt.Sprintf("%d %s", p.Count, p.Name))
			if p.Pair != (p.Count == 2) {
				t.Errorf("%s: %d copies, pair %v", p.Name, p.Count, p.Pair)
			}
		}
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%+v: %s", c.cape, d)
		}
	}
}

func edgeNames(p shapes.Piece) []string {
	var names []string
	for _, e := range p.Edges {
		names = append(names, e.Name+", "+e.Kind.String())
	}
	return names
}

func TestCapeEdges(t *testing.T) {
	for _, c := range []struct {
		cape Cape
		want []string
	}{
		{workedCape(0.5), []string{"left centre front, opening", "hem, hem", "right centre front, opening",
			"neck, top"}},
		{workedCape(1), []string{"centre front, opening", "hem, hem", "centre back, seam", "neck, top"}},
	} {
		if d := cmp.Diff(c.want, edgeNames(mustDraft(t, c.cape)[0])); d != "" {
			t.Error(d)
		}
	}
	pieces := mustDraft(t, workedCape(1.25))
	if d := cmp.Diff([]string{"left seam, seam", "hem, hem", "right seam, seam", "neck, top"},
		edgeNames(pieces[1])); d != "" {
		t.Errorf("across the back: %s", d)
	}
	c := workedCape(0.75)
	c.BackOnFold = true
	half := draftOne(t, c)
	if d := cmp.Diff([]string{"centre back, fold", "hem, hem", "centre front, opening", "neck, top"},
		edgeNames(half)); d != "" {
		t.Errorf("on the fold: %s", d)
	}
}

// A cape on the fold opens to the same sector as one cut in one, and to the
// area of a ring sector.
func TestCapeOnTheFoldUnfolds(t *testing.T) {
	c := workedCape(0.5)
	whole := draftOne(t, c)
	c.BackOnFold = true
	half := draftOne(t, c)
	if !half.OnFold {
		t.Fatal("not on the fold")
	}
	open := half.Unfold()
	sound(t, open)
	near(t, "area opened", open.Area(), whole.Area(), DefaultChord*2*math.Pi*1100)
	c.Fraction = 0.75 // 270 degrees, no seam: wider cloth, but it can be cut
	sound(t, draftOne(t, c).Unfold())
}

func TestCapeRefuses(t *testing.T) {
	with := func(change func(*Cape)) Cape { c := workedCape(1); change(&c); return c }
	refuses(t, []refusal{
		{"no neck", with(func(c *Cape) { c.Neck = 0 }), "cape: neck is 0 mm"},
		{"no length", with(func(c *Cape) { c.Length = 0 }), "length is 0 mm"},
		{"no fraction", with(func(c *Cape) { c.Fraction = 0 }), "fraction of a circle is 0"},
		{"eleven circles", with(func(c *Cape) { c.Fraction = 11 }), "at most 10"},
		{"fraction not a number", with(func(c *Cape) { c.Fraction = math.NaN() }), "is NaN"},
		{"seam and fold", with(func(c *Cape) { c.BackSeam, c.BackOnFold = true, true }),
			"both be a seam and lie on a fold"},
		{"full circle on the fold", with(func(c *Cape) { c.BackOnFold = true }),
			"no room for the allowances at centre front"},
		{"two circles on the fold", with(func(c *Cape) { c.BackOnFold, c.Fraction = true, 2 }),
			"on a fold it is at most 1"},
		{"sections on the fold", with(func(c *Cape) { c.BackOnFold, c.Sections = true, 4 }),
			"4 sections with centre back on a fold"},
		{"odd sections, back seam", with(func(c *Cape) { c.BackSeam, c.Sections = true, 3 }),
			"3 sections have no seam at centre back"},
		{"one section", with(func(c *Cape) { c.Sections = 1 }), "at least 2 sections"},
		{"tight neck", with(func(c *Cape) { c.Neck = 50 }), "the neck is cut on a radius of 8.0 mm"},
		{"hem raised away", with(func(c *Cape) { c.HemRaise = 900 }), "hem raise is 900 mm"},
	})
}

// All sections together have the neck, the hem and the area asked for; every
// copy counted. A longer cape takes more cloth, a raised hem less.
func TestCapeIsWhatWasAskedFor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		c := Cape{Neck: mm("neck", 300, 600), Length: mm("length", 200, 1500), Fraction: mm("fraction", 0.1, 2.5),
			BackSeam: rapid.Bool().Draw(t, "back seam"), Allowance: shapes.Allowance{Seam: mm("seam", 0, 15),
				Hem: mm("hem", 0, 40)}}
		pieces := mustDraft(t, c)
		var neck, hem, area float64
		for _, p := range pieces {
			n, _ := p.Edge("neck")
			h, _ := p.Edge("hem")
			neck += float64(p.Count) * n.Length()
			hem += float64(p.Count) * h.Length()
			area += float64(p.Count) * plane.Area(p.Seam)
		}
		hemGirth := c.Neck + 2*math.Pi*c.Fraction*c.Length
		near(t, "neck", neck, c.Neck, 40*DefaultChord*c.Fraction+1)
		near(t, "hem", hem, hemGirth, 40*DefaultChord*c.Fraction+1)
		near(t, "area", area, c.Length*(c.Neck+hemGirth)/2, DefaultChord*(c.Neck+hemGirth))
		total := func(c Cape) (sum float64) {
			for _, p := range mustDraft(t, c) {
				sum += float64(p.Count) * p.Area()
			}
			return sum
		}
		longer, raised := c, c
		longer.Length++
		raised.HemRaise = 100
		if was := total(c); total(longer) <= was || total(raised) >= was {
			t.Errorf("cut area %.0f; 1 mm longer %.0f, raised %.0f", was, total(longer), total(raised))
		}
	})
}

// fittedCape has a neck cut 2 x 25 mm longer and taken in by a dart at each
// shoulder, and lower in front.
func fittedCape() Cape {
	c := workedCape(0.5)
	c.BackSeam, c.NeckDrop, c.Dart, c.DartLength = true, 60, 25, 110
	return c
}

// With its darts sewn the neck is as long as asked for, and the centre front
// shorter than the centre back by the drop.
func TestCapeFitsTheNeck(t *testing.T) {
	for _, change := range []func(*Cape){
		func(*Cape) {},
		func(c *Cape) { c.BackSeam = false },
		func(c *Cape) { c.BackSeam, c.BackOnFold = false, true },
		func(c *Cape) { c.BackSeam, c.Sections = false, 3 },
		func(c *Cape) { c.Sections, c.Shoulder = 4, 130 },
	} {
		c := fittedCape()
		change(&c)
		neck, darts := 0.0, 0
		for _, p := range mustDraft(t, c) {
			soundGore(t, p)
			copies := p.Count
			if p.OnFold {
				copies = 2
			}
			e, _ := p.Edge("neck")
			neck += float64(copies) * (e.Length() - mouths(t, p, "neck"))
			darts += copies * len(p.Inside)
			if front, ok := p.Edge("centre front"); ok {
				near(t, "centre front", front.Length(), c.Length-c.NeckDrop, 1e-6)
			}
		}
		near(t, "neck, darts sewn", neck, c.Neck, 0.5)
		if darts != 2 {
			t.Errorf("%+v: %d darts", c, darts)
		}
		checkJoins(t, c)
	}
}

// Both darts lie as far from the centre back, whichever way the cape is cut.
func TestCapeShoulders(t *testing.T) {
	for _, n := range []int{1, 2, 3} {
		c := fittedCape()
		c.BackSeam, c.Sections, c.Chord = false, n, 0.01
		pieces := mustDraft(t, c)
		p := pieces[len(pieces)-1]
		e, _ := p.Edge("neck")
		for _, dart := range p.Inside {
			at := fromStart(e, dart[0])
			if !p.Pair {
				at -= e.Length() / 2
			}
			if at < 0 {
				at = -at - mouths(t, p, "neck")/float64(len(p.Inside))
			}
			near(t, "dart from the centre back", at, c.Neck/4, 0.02)
			near(t, "leg", math.Hypot(dart[1][0]-dart[0][0], dart[1][1]-dart[0][1]), math.Hypot(c.DartLength, c.Dart/2),
				0.02)
		}
	}
}

func TestFittedCapeRefuses(t *testing.T) {
	with := func(change func(*Cape)) Cape { c := fittedCape(); change(&c); return c }
	refuses(t, []refusal{
		{"negative drop", with(func(c *Cape) { c.NeckDrop = -1 }), "neck drop is -1 mm"},
		{"drop to the hem", with(func(c *Cape) { c.NeckDrop = 900 }), "neck drop of 900 mm leaves nothing"},
		{"drop beyond the neck", with(func(c *Cape) { c.NeckDrop = 500 }),
			"neck drop of 500 mm is too much for a neck of 470 mm"},
		{"no dart length", with(func(c *Cape) { c.DartLength = 0 }), "dart length is 0 mm"},
		{"dart to the hem", with(func(c *Cape) { c.DartLength = 850 }), "dart length of 850 mm reaches the hem"},
		{"dart in a seam", with(func(c *Cape) { c.Sections, c.Shoulder = 4, 95 }), "falls on the seam at"},
		{"shoulder in front", with(func(c *Cape) { c.Shoulder = 210 }), "shoulder at 210 mm from the centre back"},
	})
}

// Wherever the neck lies it has its length, and a lower front or a longer dart
// takes what it must: less cloth and more.
func TestFittedCapeProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		c := Cape{
			Neck: mm("neck", 350, 550), Length: mm("length", 400, 1400), Fraction: mm("fraction", 0.3, 1),
			BackSeam: true,
			NeckDrop: mm("drop", 0, 40), Dart: mm("dart", 5, 40), DartLength: mm("dart length", 50, 150),
			HemRaise: mm("raise", 0, 40), Allowance: shapes.Allowance{Seam: mm("seam", 0, 12), Hem: mm("hem", 0, 40)},
		}
		p, err := piecesOf(c)
		if err != nil {
			t.Skip(err)
		}
		checkJoins(t, c)
		soundGore(t, p[0])
		neck, _ := p[0].Edge("neck")
		near(t, "half the neck", neck.Length()-mouths(t, p[0], "neck"), c.Neck/2, 0.5)
		lower := c
		lower.NeckDrop += 5
		if less, err := piecesOf(lower); err == nil && plane.Area(less[0].Seam) >= plane.Area(p[0].Seam) {
			t.Errorf("a lower neck takes more cloth: %.0f, was %.0f", plane.Area(less[0].Seam), plane.Area(p[0].Seam))
		}
		wider := c
		wider.Dart += 5
		if more, err := piecesOf(wider); err == nil && plane.Area(more[0].Seam) <= plane.Area(p[0].Seam) {
			t.Errorf("a wider dart takes less cloth")
		}
	})
}
