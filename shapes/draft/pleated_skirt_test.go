package draft

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

func workedPleated() PleatedSkirt {
	return PleatedSkirt{
		Waist: 28 * inch, Hip: 40 * inch, HipDepth: 8 * inch, Length: 26 * inch, Style: KnifePleats, Pleats: 20,
		Fullness: 3, Opening: true, ClothWidth: 44 * inch,
		Allowance: shapes.Allowance{Seam: 0.5 * inch, Waist: 0.5 * inch, Hem: inch},
	}
}

// "A Complete Course in Dressmaking", vol. 5, pp. 63-64 (en.m.wikisource.org), in half
// measures: cloth of 44 in; less a waist of 14 leaves 30 to lay in pleats, less a hip of 20
// leaves 24, less a hem of 27 1/2 leaves 16 1/2.
func TestPleatDepthBySubtraction(t *testing.T) {
	p := workedPleated()
	p.Waist, p.Hip, p.HemSweep, p.Fullness = 28*inch, 40*inch, 55*inch, 88./40
	inches(t, "flat", p.Flat(), 88)
	run := p.pleating()
	for i, want := range []float64{30, 24, 16.5} {
		inches(t, "laid in pleats, half", run.depth(run.levels[i])*2*float64(p.Pleats)/2, want)
	}
	checkJoins(t, p)
}

// Flat is finished and two depths for every fold (plain algebra): 20 knife pleats 2 in deep
// on a hip of 40 take 120 in, as do 10 boxes; a waist of 28 makes them 2.3 in deep.
func TestPleatsTakeTwoDepths(t *testing.T) {
	p := workedPleated()
	for _, s := range pleatStyles {
		p.Style, p.Fullness, p.Depth = s, 0, 2*inch
		if p.Pleats = 20; s != KnifePleats {
			p.Pleats = 10
		}
		inches(t, string(s)+", flat", p.Flat(), 120)
		waist, err := waistOf(p)
		if err != nil {
			t.Fatal(err)
		}
		inches(t, string(s)+", depth at the waist", waist.Treatment.PleatDepth, 2.3)
		inches(t, string(s)+", waist", sewnAtWaistOf(t, p), 28)
		checkJoins(t, p)
	}
	p.Style, p.Gap = BoxPleats, inch
	inches(t, "boxes with a gap, waist", sewnAtWaistOf(t, p), 28)
	checkJoins(t, p)
	// 44 in of cloth take 43 in between seams, and so 3 repeats of 12 in: 4 widths, the last of one.
	pieces := mustDraft(t, p)
	if len(pieces) != 3 || pieces[1].Count != 2 {
		t.Fatalf("%d pieces, %d of the second", len(pieces), pieces[1].Count)
	}
	_, across := pieces[0].CutSize()
	inches(t, "first width", across, 37)
	_, across = pieces[2].CutSize()
	inches(t, "last width", across, 13)
}

func TestPleatedSkirtRefuses(t *testing.T) {
	with := func(change func(*PleatedSkirt)) PleatedSkirt { p := workedPleated(); change(&p); return p }
	refuses(t, []refusal{
		{"no hip", with(func(p *PleatedSkirt) { p.Hip = 0 }), "pleated skirt: hip is 0 mm"},
		{"no such pleats", with(func(p *PleatedSkirt) { p.Style = "kick" }), `there are no "kick" pleats`},
		{"none", with(func(p *PleatedSkirt) { p.Pleats = 0 }), "pleats: 0"},
		{"both", with(func(p *PleatedSkirt) { p.Depth = 30 }), "both a depth of 30 mm and a fullness of 3"},
		{"flat", with(func(p *PleatedSkirt) { p.Fullness = 1 }), "fullness is 1"},
		{"too full", with(func(p *PleatedSkirt) { p.Fullness = 5.5 }), "7.9 layers lie on each other where it is 711.2 mm"},
		{"shallow", with(func(p *PleatedSkirt) { p.Fullness = 1.1 }), "pleats are 2.5 mm deep where it is 1016.0 mm"},
		{"gap of knife pleats", with(func(p *PleatedSkirt) { p.Gap = 10 }), "knife pleats have none"},
		{"all gap", with(func(p *PleatedSkirt) { p.Style, p.Gap = BoxPleats, 35 }), "show 0.6 mm of each"},
		{"a repeat wider than the cloth", with(func(p *PleatedSkirt) { p.Pleats = 2 }),
			"one repeat of the pleats is 1524.0 mm wide flat"},
		{"hem in", with(func(p *PleatedSkirt) { p.HemSweep = 1000 }), "hem sweep of 1000.0 mm is less than the hip"},
		{"seams show", with(func(p *PleatedSkirt) { p.Style, p.HemSweep = BoxPleats, 2300 }), "the seams in them would show"},
		{"short", with(func(p *PleatedSkirt) { p.Length = 200 }), "hip depth of 203.2 mm does not lie above the hem"},
		{"no opening", with(func(p *PleatedSkirt) { p.Opening = false }), "does not pass the hip"},
	})
}

// somePleats draws a pleated skirt for some body.
func somePleats(t *rapid.T) PleatedSkirt {
	mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	p := PleatedSkirt{
		Length: mm("length", 320, 1100), Opening: true, ClothWidth: mm("cloth", 880, 3000), HemRaise: mm("raise", 0, 30),
		Style: rapid.SampledFrom(pleatStyles).Draw(t, "style"), Pleats: rapid.IntRange(4, 40).Draw(t, "pleats"),
		Allowance: shapes.Allowance{Seam: mm("seam", 0, 16), Waist: mm("waist allowance", 0, 16), Hem: mm("hem", 0, 60)},
	}
	p.Waist, p.Hip, p.HipDepth, p.HighHip = someBody(t)
	share := p.Hip / float64(p.Pleats)
	if p.Fullness = mm("fullness", 1.8, 4); rapid.Bool().Draw(t, "by depth") {
		p.Depth, p.Fullness = share*mm("depth", 0.4, 0.7), 0
	}
	if p.Style == BoxPleats && rapid.Bool().Draw(t, "gaps") {
		p.Gap = share * mm("gap", 0.1, 0.4)
	}
	if rapid.Bool().Draw(t, "flared") {
		p.HemSweep = p.Hip * mm("flare", 1, 1.1)
	}
	return p
}

func TestPleatedSkirtProperties(t *testing.T) {
	drafted := 0
	rapid.Check(t, func(t *rapid.T) {
		p := somePleats(t)
		made, err := p.Draft()
		if err != nil {
			return // held by what is refused
		}
		drafted++
		checkJoins(t, p)
		run := p.pleating()
		near(t, "waist", sewnAtWaistOf(t, p), p.Waist, 0.5)
		area, flat, copies := 0.0, 0.0, 0
		for _, piece := range made.Pieces {
			sound(t, piece)
			_, across := piece.CutSize()
			if across > p.ClothWidth {
				t.Errorf("%s is cut %.6f wide from %.6f of cloth", piece.Name, across, p.ClothWidth)
			}
			area += float64(piece.Count) * plane.Area(piece.Seam)
			flat += float64(piece.Count) * (across - 2*p.Allowance.Seam)
			copies += piece.Count
			foldsUp(t, run, piece)
		}
		near(t, "area", area, p.Flat()*(p.Length-p.HemRaise), 0.01*p.Length*float64(copies))
		folds := float64(run.count * run.folds())
		for _, l := range run.levels {
			near(t, "flat", flat, l.girth+2*run.depth(l)*folds, 0.01*float64(copies))
		}
		girth := func(down float64) float64 { return girthAt(run.levels, down) }
		if at, short := tightest(girth, p.Waist, p.Hip, p.HipDepth, p.HighHip); short {
			t.Errorf("%.2f round at %.1f: %v", at.girth, at.depth, at.over)
		}
	})
	if drafted < often.Enough(50) {
		t.Errorf("%d drafted", drafted)
	}
}

func girthAt(levels []pleatLevel, down float64) float64 {
	for i := 1; i < len(levels); i++ {
		if a, b := levels[i-1], levels[i]; down <= b.down {
			return a.girth + (b.girth-a.girth)*(down-a.down)/(b.down-a.down)
		}
	}
	return levels[len(levels)-1].girth
}

// foldsUp folds a piece by its marks at each level, a slow twin of what they are drawn by: the
// cloth that shows is the piece's share of the girth, and every outer fold comes to lie on a
// placement line, of the piece or of the next.
func foldsUp(t failer, run pleating, piece shapes.Piece) {
	t.Helper()
	seam, _ := piece.Edge(piece.Edges[0].Name)
	x0, y0 := seam.Line[0][0], seam.Line[0][1]
	width := piece.Edges[1].Length()
	repeats := math.Round(width / run.repeat)
	for _, l := range run.levels {
		if x0+l.down > seam.Line[1][0] {
			continue
		}
		var outer, inner, placed []float64
		for _, n := range piece.Names {
			y, ok := crossing(piece.Inside[n.Line], x0+l.down)
			if !ok {
				continue
			}
			switch n.Name {
			case outerFold:
				outer = append(outer, y-y0)
			case innerFold:
				inner = append(inner, y-y0)
			case placement:
				placed = append(placed, y-y0)
			}
		}
		if want := int(repeats) * run.folds(); len(outer) != want || len(inner) != want-1 {
			t.Fatalf("%d outer and %d inner folds of %g repeats", len(outer), len(inner), repeats)
		}
		// An outer fold mirrored in the inner fold beside it lies on a placement line.
		hit := 0
		for _, o := range outer {
			for _, v := range inner {
				for _, q := range placed {
					if d := 2*v - o; math.Abs(d-q) < 0.01 && math.Abs(v-o) < run.depth(l)+0.01 {
						hit++
					}
				}
			}
		}
		if hit < len(outer)-1 {
			t.Errorf("%s at %.0f: %d of %d outer folds are laid on a placement line", piece.Name, l.down, hit, len(outer))
		}
	}
}

// crossing is where a line from low to high x crosses a level.
func crossing(line orb.LineString, x float64) (float64, bool) {
	for i := 1; i < len(line); i++ {
		if a, b := line[i-1], line[i]; a[0] < b[0] && a[0]-1e-6 <= x && x <= b[0]+1e-6 {
			return a[1] + (b[1]-a[1])*(x-a[0])/(b[0]-a[0]), true
		}
	}
	return 0, false
}
