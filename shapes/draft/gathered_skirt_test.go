package draft

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

func workedGathered() GatheredSkirt {
	return GatheredSkirt{
		Waist: 28 * inch, Hip: 40 * inch, HipDepth: 8 * inch, Length: 26 * inch, Fullness: 2.5, Opening: true,
		ClothWidth: 44 * inch, Allowance: shapes.Allowance{Seam: 0.5 * inch, Waist: 0.5 * inch, Hem: inch},
	}
}

// What is round a skirt, cut: the whole widths and the parts, in inches.
func widthsOf(t failer, g GatheredSkirt) (cut []float64) {
	t.Helper()
	for _, p := range mustDraft(t, g) {
		_, across := p.CutSize()
		for range p.Count {
			cut = append(cut, across/inch)
		}
	}
	return cut
}

// Plain algebra: n widths of 44 in with seams of 1/2 in sew up to 43 n in. 28 in at 2.5 to
// 1 are 70 in, one whole width and two parts of (70 - 43)/2 + 1 = 14.5 in. Three widths are
// whole ones, four are three and two halves, and with a seam in front four whole ones.
func TestGatheredSkirtWidths(t *testing.T) {
	g := workedGathered()
	check := func(what string, want ...float64) {
		t.Helper()
		got := widthsOf(t, g)
		if len(got) != len(want) {
			t.Fatalf("%s: widths of %v in, want %v", what, got, want)
		}
		for i := range want {
			near(t, what, got[i], want[i], 0.001)
		}
		checkJoins(t, g)
	}
	check("by fullness", 14.5, 14.5, 44)
	g.Fullness, g.Widths = 0, 3
	check("three widths", 44, 44, 44)
	g.Widths = 4
	check("four widths", 22, 22, 44, 44, 44)
	g.Widths = 3.5
	check("three and a half", 11, 11, 44, 44, 44)
	g.Widths, g.FrontSeam = 4, true
	check("a seam in front", 44, 44, 44, 44)
	g.Widths = 2.5
	check("a seam in front, two and a half", 11, 11, 44, 44)
	g.Widths, g.FrontSeam, g.CutWidth = 2, false, 30*inch
	check("a width given", 15, 15, 30)
	g.Fullness, g.Widths, g.Waist = 1, 0, 30*inch
	g.Hip, g.CutWidth = 0, 0
	check("one width", 31)
	// 3.02 whole widths would leave slivers: three do.
	g.Waist, g.Fullness = 43*inch, 3.02
	check("eased", 44, 44, 44)
	if notes, _ := notesOf(g); len(notes) != 1 {
		t.Errorf("notes: %v", notes)
	}
}

// A casing's line lies its width below the edge, and the edge takes casing and allowance.
func TestGatheredSkirtCasing(t *testing.T) {
	g := workedGathered()
	g.Opening, g.Casing = false, 20
	for _, p := range mustDraft(t, g) {
		along, _ := p.CutSize()
		near(t, "cut along", along, 26*inch+20+0.5*inch+inch, 0.01)
		near(t, "line", p.Inside[0][0][0], 20+0.5*inch+20, 0.01)
	}
	if _, err := waistOf(g); err != ErrNoWaist {
		t.Errorf("waist: %v", err)
	}
}

func TestGatheredSkirtRefuses(t *testing.T) {
	with := func(change func(*GatheredSkirt)) GatheredSkirt { g := workedGathered(); change(&g); return g }
	refuses(t, []refusal{
		{"no waist", with(func(g *GatheredSkirt) { g.Waist = 0 }), "gathered skirt: waist is 0 mm"},
		{"no cloth", with(func(g *GatheredSkirt) { g.ClothWidth = 0 }), "cloth width is 0 mm"},
		{"wider than the cloth", with(func(g *GatheredSkirt) { g.CutWidth = 1200 }),
			"cut width of 1200.0 mm is wider than the cloth, 1117.6 mm"},
		{"all seams", with(func(g *GatheredSkirt) { g.CutWidth = 60 }), "seams of 12.7 mm leave nothing of a width"},
		{"both", with(func(g *GatheredSkirt) { g.Widths = 3 }), "both 3 widths and a fullness of 2.5"},
		{"neither", with(func(g *GatheredSkirt) { g.Fullness = 0 }), "0 widths of cloth"},
		{"too full", with(func(g *GatheredSkirt) { g.Fullness = 200 }), "takes over 100 widths"},
		{"hip", with(func(g *GatheredSkirt) { g.Fullness = 1.2 }),
			"the widths are 853.4 mm flat and do not clear the hip of 1016.0 mm"},
		{"high hip", with(func(g *GatheredSkirt) { g.Fullness, g.HighHip = 1.5, HighHip{Girth: 1100, Depth: 100} }),
			"do not clear the high hip of 1100.0 mm"},
		{"slivers", with(func(g *GatheredSkirt) { g.Fullness, g.Widths = 0, 3.04 }), "leave strips cut 22.4 mm wide"},
		{"less than the waist", with(func(g *GatheredSkirt) { g.Fullness, g.Widths = 0, 0.5 }),
			"less than the waist of 711.2 mm"},
		{"casing and opening", with(func(g *GatheredSkirt) { g.Casing = 20 }), "nothing to open"},
		{"no opening", with(func(g *GatheredSkirt) { g.Opening = false }), "waist of 711.2 mm does not pass the hip"},
		{"all casing", with(func(g *GatheredSkirt) { g.Opening, g.Casing = false, 700 }), "takes the whole length"},
		{"raised away", with(func(g *GatheredSkirt) { g.HemRaise = 700 }), "hem raise is 700 mm"},
	})
}

// someBody draws a waist and what lies below it, from a child of four (waist 530, hip 590) to
// a bust of 150 cm, mm.
func someBody(t *rapid.T) (waist, hip, depth float64, high HighHip) {
	size := rapid.Float64Range(0, 1).Draw(t, "size")
	vary := func(name string, by float64) float64 { return rapid.Float64Range(1-by, 1+by).Draw(t, name) }
	waist = (530 + 900*size) * vary("waist", 0.08)
	hip = max((590+960*size)*vary("hip", 0.08), 0.95*waist)
	depth = (120 + 110*size) * vary("hip depth", 0.1)
	if rapid.Bool().Draw(t, "high hip") {
		high = EstimatedHighHip(waist, hip, depth)
	}
	return waist, hip, depth, high
}

func TestGatheredSkirtProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		g := GatheredSkirt{
			Length: mm("length", 250, 1100), FrontSeam: rapid.Bool().Draw(t, "front seam"), Opening: true,
			ClothWidth: mm("cloth", 880, 3000), HemRaise: mm("raise", 0, 30),
			Allowance: shapes.Allowance{Seam: mm("seam", 0, 16), Waist: mm("waist allowance", 0, 16), Hem: mm("hem", 0, 60)},
		}
		g.Waist, g.Hip, g.HipDepth, g.HighHip = someBody(t)
		if g.Fullness = mm("fullness", 1.35, 4); rapid.Bool().Draw(t, "by widths") {
			g.Widths = math.Ceil(g.Fullness*g.Waist/(g.ClothWidth-2*g.Allowance.Seam)) + 1
			g.Fullness = 0
		}
		if rapid.Bool().Draw(t, "casing") {
			g.Casing, g.Opening = mm("casing", 8, 40), false
		}
		pieces := mustDraft(t, g)
		checkJoins(t, g)
		w, err := g.widths()
		if err != nil {
			t.Fatal(err)
		}
		area, copies := 0.0, 0
		for _, p := range pieces {
			soundGore(t, p)
			_, across := p.CutSize()
			if across > g.ClothWidth {
				t.Errorf("%s is cut %.6f wide from %.6f of cloth", p.Name, across, g.ClothWidth)
			}
			area += float64(p.Count) * plane.Area(p.Seam)
			copies += p.Count
		}
		// Areas two ways: rectangles of the flat length, and the outlines.
		near(t, "area", area, w.flat()*(g.Length-g.HemRaise), 0.01*g.Length*float64(copies))
		if g.Fullness > 0 {
			few := 2 * leastPart / (g.Fullness * g.Waist)
			near(t, "fullness", w.flat()/g.Waist/g.Fullness, 1, mostGiven+few)
		}
		if g.Widths > 0 {
			near(t, "widths as cut", (w.flat()+2*g.Allowance.Seam*float64(copies))/w.whole, g.Widths, 1e-5)
		}
		if w.flat() < g.Hip-1e-6 {
			t.Errorf("%.3f flat round a hip of %.3f", w.flat(), g.Hip)
		}
		if g.Opening {
			near(t, "waist", sewnAtWaistOf(t, g), g.Waist, 0.5)
		}
	})
}

func sewnAtWaistOf(t failer, d Draft) float64 {
	t.Helper()
	made, err := d.Draft()
	if err != nil {
		t.Fatalf("%v", err)
	}
	side, err := WaistOf(made)
	if err != nil {
		t.Fatalf("%v", err)
	}
	_, finished, err := side.Measure(made.Pieces)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return finished
}
