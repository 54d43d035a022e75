package draft

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// A sector, plane geometry: 8 in added on a slit of 14 in open to 8/14 rad; area
// 14 x 8 / 2 = 56 sq in.
func TestGodet(t *testing.T) {
	p := draftOne(t, Godet{Length: 14 * inch, Hem: 8 * inch, Count: 6, Chord: 0.001})
	hem, _ := p.Edge("hem")
	inches(t, "hem", hem.Length(), 8)
	near(t, "area, sq in", plane.Area(p.Seam)/inch/inch, 56, 0.001)
	_, across := p.Finished()
	inches(t, "width", across, 2*14*math.Sin(4./14))
	if p.Count != 6 {
		t.Errorf("%d copies", p.Count)
	}
}

func TestGodetRefuses(t *testing.T) {
	refuses(t, []refusal{
		{"no length", Godet{Hem: 200}, "godet: length is 0 mm"},
		{"negative hem", Godet{Length: 300, Hem: -200}, "hem is -200 mm"},
		{"too wide", Godet{Length: 300, Hem: 1000}, "opens to 191.0 degrees, the most is 180"},
		{"count", Godet{Length: 300, Hem: 200, Count: -1}, "count is -1"},
		{"raised away", Godet{Length: 300, Hem: 200, HemRaise: 300}, "hem raise is 300 mm"},
	})
}

func TestGodetProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		g := Godet{Length: mm("length", 100, 900), HemRaise: mm("raise", 0, 50),
			Allowance: shapes.Allowance{Seam: mm("seam", 0, 15), Hem: mm("hem allowance", 0, 40)}}
		g.Hem = g.Length * mm("hem over length", 0.1, 3)
		p := draftOne(t, g)
		soundGore(t, p)
		lower, _ := p.Edge("lower side")
		upper, _ := p.Edge("upper side")
		near(t, "sides", lower.Length(), upper.Length(), 1e-6)
		near(t, "side", lower.Length(), g.Length-g.HemRaise, 1e-6)
		if len(p.Notches) != 2 || math.Abs(fromStart(lower, p.Notches[0].At)+fromStart(upper,
			p.Notches[1].At)-lower.Length()) > 1e-6 {
			t.Errorf("notches %v do not meet", p.Notches)
		}
		near(t, "area", plane.Area(p.Seam), g.Hem/g.Length*lower.Length()*lower.Length()/2, DefaultChord*g.Hem)
		for what, change := range map[string]func(*Godet){
			"longer":      func(g *Godet) { g.Length += 5; g.Hem *= 1.001 },
			"wider":       func(g *Godet) { g.Hem *= 1.02 },
			"less raised": func(g *Godet) { g.Length, g.Hem = g.Length*1.02, g.Hem*1.02; g.HemRaise *= 0.9 },
		} {
			more := g
			change(&more)
			if bigger := draftOne(t, more); plane.Area(bigger.Seam) <= plane.Area(p.Seam) {
				t.Errorf("%s: area %.0f, was %.0f", what, plane.Area(bigger.Seam), plane.Area(p.Seam))
			}
		}
	})
}
