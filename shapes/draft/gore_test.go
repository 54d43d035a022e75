package draft

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes"
)

// fiveGores is the worked example of the trade below, laid 40 in long.
func fiveGores() GoredSkirt {
	return GoredSkirt{
		Waist: 25 * inch, Hip: 40 * inch, HipDepth: 7 * inch, HemSweep: 81 * inch, FrontHem: 10 * inch,
		Length: 40 * inch, Gores: 5, Opening: true, Chord: 0.001,
		Allowance: shapes.Allowance{Seam: 15, Waist: 10, Hem: 40},
	}
}

// Five-gore skirt, "The Perfect Dressmaking System" (1914), en.m.wikisource.org:
// waist 25, hip 40 and hem 81 in give 5.000 and 8.000 in a gore; a front hem of
// 10.000 leaves (81 - 10)/4 = 17.750 to each other (the book prints 17 1/2).
func TestFiveGoreSkirt(t *testing.T) {
	pieces := mustDraft(t, fiveGores())
	want := []struct {
		name  string
		count int
		hem   float64
	}{{"back gore", 2, 17.75}, {"side gore", 2, 17.75}, {"centre front gore", 1, 10}}
	if len(pieces) != len(want) {
		t.Fatalf("%d pieces", len(pieces))
	}
	for i, p := range pieces {
		if p.Name != want[i].name || p.Count != want[i].count {
			t.Errorf("piece %d is %q, %d", i, p.Name, p.Count)
		}
		waist, _ := p.Edge("waist")
		hem, _ := p.Edge("hem")
		inches(t, p.Name+" waist", waist.Length(), 5)
		inches(t, p.Name+" hem", hem.Length(), want[i].hem)
		inches(t, p.Name+" hip", hipArc(t, p), 8)
	}
}

// hipArc returns the arc between the notches at the hip that is square to both
// seams: of half-angle a it is as long as its chord times a/sin a.
func hipArc(t *testing.T, p shapes.Piece) float64 {
	t.Helper()
	var at []orb.Point
	var lean float64
	for _, n := range p.Notches {
		if depth := notchDepth(p, n); math.Abs(depth-7*inch) < 0.01 {
			at = append(at, n.At)
			lean = math.Abs(math.Atan2(n.Outward[0], n.Outward[1]))
		}
	}
	if len(at) != 2 {
		t.Fatalf("%s: %d notches at the hip", p.Name, len(at))
	}
	if lean > math.Pi/2 {
		lean = math.Pi - lean
	}
	return math.Abs(at[0][1]-at[1][1]) / sinc(lean)
}

// notchDepth returns a notch's distance from the waist along its edge.
func notchDepth(p shapes.Piece, n shapes.Notch) float64 {
	e, _ := p.Edge(n.Edge)
	d := fromStart(e, n.At)
	if e.Line[0][0] > e.Line[len(e.Line)-1][0] {
		return e.Length() - d
	}
	return d
}

// A gored skirt with a circle's girths is that circle: hip W + 2 pi f d (W = 28,
// f = 1/4, d = 8 in: 40.566, plane geometry) and hem W + 2 pi f L.
func TestGoredSkirtOfCircleGirths(t *testing.T) {
	c := circleSkirt(0.25, 28, 40, 6)
	c.Allowance, c.Opening = shapes.Allowance{Seam: 15, Waist: 10, Hem: 25}, true
	hip := c.Waist + 2*math.Pi*c.Fraction*8*inch
	inches(t, "hip clearance at 8", hip, 40.566)
	inches(t, "hip clearance at 7", c.Waist+2*math.Pi*c.Fraction*7*inch, 38.996)
	g := GoredSkirt{
		Waist: c.Waist, Hip: hip, HipDepth: 8 * inch, HemSweep: c.HemGirth(), Length: c.Length,
		Gores: 6, Opening: true, Allowance: c.Allowance,
	}
	circle, gored := mustDraft(t, c), mustDraft(t, g)
	for i := range circle {
		near(t, "area", gored[i].Area(), circle[i].Area(), 1)
		a, b := circle[i].CutSize()
		along, across := gored[i].CutSize()
		near(t, "along", along, a, 0.01)
		near(t, "across", across, b, 0.01)
	}
}

// The flank turns smoothly: no two chords of it differ by more than the turn of
// one step, also where the arc ends at the hip; and it meets waist and hem squarely.
func TestGoredSkirtIsSmooth(t *testing.T) {
	for _, from := range []float64{0, 7 * inch, 22 * inch} {
		g := fiveGores()
		g.FlareFrom = from
		for _, p := range mustDraft(t, g) {
			for _, e := range p.Edges {
				if e.Kind == shapes.Waist || e.Kind == shapes.Hem {
					continue
				}
				for i := 2; i < len(e.Line); i++ {
					if turn := turnAt(e.Line[i-2], e.Line[i-1], e.Line[i]); math.Abs(turn) > 0.02 {
						t.Errorf("%s: %s turns by %.3f at %v", p.Name, e.Name, turn, e.Line[i-1])
					}
				}
			}
			for i, e := range p.Edges {
				next := p.Edges[(i+1)%len(p.Edges)].Line
				n := len(e.Line)
				if turn := turnAt(e.Line[n-2], e.Line[n-1], next[1]); math.Abs(turn-math.Pi/2) > 0.02 {
					t.Errorf("%s: corner after %s is off square by %.3f", p.Name, e.Name, turn-math.Pi/2)
				}
			}
		}
	}
}

// turnAt returns the turn from ab to bc, positive to the left.
func turnAt(a, b, c orb.Point) float64 {
	u, v := orb.Point{b[0] - a[0], b[1] - a[1]}, orb.Point{c[0] - b[0], c[1] - b[1]}
	return math.Atan2(u[0]*v[1]-u[1]*v[0], u[0]*v[0]+u[1]*v[1])
}

// A trumpet keeps the hip's width from the hip to where it flares.
func TestTrumpet(t *testing.T) {
	g := fiveGores()
	g.FlareFrom, g.FrontHem = 22*inch, 0
	for _, p := range mustDraft(t, g) {
		hem, _ := p.Edge("hem")
		inches(t, "hem", hem.Length(), 81./5)
		depths := map[float64]float64{} // half widths by the notches' depths in whole mm: 7 in is 178, 22 in 559
		for _, n := range p.Notches {
			depths[math.Round(notchDepth(p, n))] = math.Abs(n.At[1] - (p.Seam[0][1] + waistWidth(p)/2))
		}
		near(t, "half width at the hip", depths[178], 4*inch, 0.01)
		near(t, "half width where the flare starts", depths[559], 4*inch, 0.01)
	}
}

// waistWidth is the distance straight across between the ends of the waist.
func waistWidth(p shapes.Piece) float64 {
	e, _ := p.Edge("waist")
	return math.Abs(e.Line[0][1] - e.Line[len(e.Line)-1][1])
}

// A lining from the same draft is shorter on the same seams: its pieces lie
// within the outer ones, and its notches where theirs are.
func TestGoredLining(t *testing.T) {
	outer := fiveGores()
	lining := outer
	lining.HemRaise = inch
	out, in := mustDraft(t, outer), mustDraft(t, lining)
	for i := range out {
		if in[i].Area() >= out[i].Area() || len(in[i].Notches) != len(out[i].Notches) {
			t.Errorf("%s: areas %.0f and %.0f", out[i].Name, in[i].Area(), out[i].Area())
		}
		a, _ := out[i].Edge("front seam")
		b, _ := in[i].Edge("front seam")
		if a.Name != "" {
			inches(t, "seams differ by", a.Length()-b.Length(), 1)
		}
	}
}

func TestGoredSkirtRefuses(t *testing.T) {
	var cases []refusal
	for want, spoil := range map[string]func(*GoredSkirt){
		"waist is 0 mm": func(g *GoredSkirt) { g.Waist = 0 },
		"hip is NaN mm": func(g *GoredSkirt) { g.Hip = math.NaN() },
		"hem sweep of 1000.0 mm is less than the hip": func(g *GoredSkirt) { g.HemSweep = 1000 },
		"waist of 635.0 mm does not pass the hip":     func(g *GoredSkirt) { g.Opening = false },
		"hip depth of 1100.0 mm does not lie above":   func(g *GoredSkirt) { g.HipDepth = 1100 },
		"flare from 100.0 mm starts above the hip":    func(g *GoredSkirt) { g.FlareFrom = 100 },
		"flare from 1016.0 mm does not start above":   func(g *GoredSkirt) { g.FlareFrom = 40 * inch },
		"front hem of 200.0 mm is less than":          func(g *GoredSkirt) { g.FrontHem = 200 },
		"leaves 14.4 mm to each other gore":           func(g *GoredSkirt) { g.FrontHem = 2000 },
		"with 2 gores there is no hem but":            func(g *GoredSkirt) { g.Gores = 2 },
		"gores: 101":                                  func(g *GoredSkirt) { g.Gores = 101 },
		"gore is too steep for a hip depth of 30.0":   func(g *GoredSkirt) { g.HipDepth = 30 },
		"is too wide to reach from a hip of 203.2":    func(g *GoredSkirt) { g.HemSweep = 20000 },
		"hem raise": func(g *GoredSkirt) { g.HemRaise = -1 },
	} {
		g := fiveGores()
		spoil(&g)
		cases = append(cases, refusal{want, g, want})
	}
	refuses(t, cases)
}

func drawGored(t *rapid.T) GoredSkirt {
	waist := rapid.Float64Range(500, 1100).Draw(t, "waist")
	hip := waist + rapid.Float64Range(0, 350).Draw(t, "spring")
	depth := rapid.Float64Range(150, 260).Draw(t, "hip depth")
	length := depth + rapid.Float64Range(250, 900).Draw(t, "below the hip")
	g := GoredSkirt{
		Waist: waist, Hip: hip, HipDepth: depth, Length: length,
		HemSweep: hip + rapid.Float64Range(0, 2500).Draw(t, "flare"),
		Gores:    rapid.IntRange(3, 16).Draw(t, "gores"),
		HemRaise: rapid.Float64Range(0, 50).Draw(t, "raise"),
		Opening:  true,
		Allowance: shapes.Allowance{
			Seam:  rapid.Float64Range(0, 25).Draw(t, "seam"),
			Waist: rapid.Float64Range(0, 15).Draw(t, "waist allowance"),
			Hem:   rapid.Float64Range(0, 50).Draw(t, "hem"),
		},
	}
	if rapid.Bool().Draw(t, "trumpet") {
		g.FlareFrom = depth + (length-depth)*rapid.Float64Range(0, 0.7).Draw(t, "flare from")
	}
	return g
}

func TestGoredSkirtProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGored(t)
		pieces, err := piecesOf(g)
		if err != nil {
			t.Skip(err) // rapid draws another: these measures do not go together
		}
		hem := g.HemSweep
		if g.HemRaise > 0 {
			hem = 0 // the lining's own sweep is less, checked elsewhere
		}
		checkSkirt(t, pieces, g.Waist, hem, g.Gores, false)
		for what, change := range map[string]func(*GoredSkirt){
			"longer":      func(g *GoredSkirt) { g.Length += 20 },
			"wider hem":   func(g *GoredSkirt) { g.HemSweep += 100 },
			"wider waist": func(g *GoredSkirt) { g.Waist += 2; g.Hip += 2; g.HemSweep += 2 },
		} {
			more := g
			change(&more)
			bigger, err := piecesOf(more)
			if err != nil {
				continue // at the edge of what can be drafted
			}
			if bigger[0].Area() <= pieces[0].Area() {
				t.Errorf("%s: area %.1f, was %.1f", what, bigger[0].Area(), pieces[0].Area())
			}
		}
	})
}
