package draft

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

func workedCollar(style CollarStyle) Collar {
	return Collar{
		Style: style, Neck: 14 * inch, Height: 2 * inch, Shorter: inch, Circle: 0.7, Drop: inch, Pleats: 56,
		Depth: 0.75 * inch, Band: 0.5 * inch, EndHem: 6, ClothWidth: 36 * inch, Join: 6,
		Allowance: shapes.Allowance{Seam: 6, Hem: 6},
	}
}

// Plain geometry: a stand whose upper edge of 13 in lies 2 in above a neck edge of 14 has the
// angle 1/2, the radii 28 and 26 in and an area of 2 (14 + 13)/2 = 27 sq in. A ruff of 56
// pleats of 3/4 in on 14 in takes 14 + 2 x 0.75 x 56 = 98 in: with joins of 6 mm 36 in of cloth
// have room for 20 repeats of 1.75 in, 35 in, so 56 lie on 3 strips of 20, 20 and 16.
func TestCollars(t *testing.T) {
	stand := workedCollar(StandCollar)
	p := draftOne(t, stand)
	neck, _ := p.Edge(neckName)
	upper, _ := p.Edge("outer edge")
	inches(t, "half the neck", neck.Length(), 7)
	near(t, "half the upper edge", upper.Length(), 6.5*inch, 0.01)
	near(t, "area of the half", plane.Area(p.Seam)/(inch*inch), 13.5, 0.01)
	stand.Shorter = 0
	inches(t, "straight", plane.Area(draftOne(t, stand).Seam)/inch, 14)

	ruff := workedCollar(RuffCollar)
	pieces := mustDraft(t, ruff)
	for i, want := range []float64{35, 35, 28} {
		_, across := pieces[i].Finished()
		near(t, "strip", across, want*inch, 0.01)
	}
	if len(pieces) != 4 {
		t.Fatalf("%d pieces", len(pieces))
	}
	near(t, "band", pieces[3].Edges[0].Length(), 14*inch, 0.01)
	steps := checkJoins(t, ruff)
	last := steps[len(steps)-1]
	inches(t, "ruff, flat", last.CutA, 98)
	inches(t, "ruff, pleated", last.FinishedA, 14)
}

// A rounded corner touches both edges: its arc is of the radius and takes (1 - pi/4) r^2 of a
// square one, of a stand whose edges are straight.
func TestCollarCorners(t *testing.T) {
	c := workedCollar(StandCollar)
	c.Shorter = 0
	square := plane.Area(draftOne(t, c).Seam)
	c.Round = inch
	near(t, "area", square-plane.Area(draftOne(t, c).Seam), (1-math.Pi/4)*inch*inch, DefaultChord*math.Pi/2*inch)
	for _, style := range []CollarStyle{StandCollar, FlatCollar} {
		c = workedCollar(style)
		neck := draftOne(t, c)
		c.Round = 0.75 * inch
		round := draftOne(t, c)
		a, _ := neck.Edge(neckName)
		b, _ := round.Edge(neckName)
		near(t, "neck", b.Length(), a.Length(), 1e-6)
		free, _ := round.Edge("outer edge")
		end, _ := round.Edge("end")
		at, tip := free.Line[0], end.Line[len(end.Line)-1]
		if style == FlatCollar {
			at, tip = free.Line[len(free.Line)-1], end.Line[0]
		}
		if planar.Distance(at, tip) > 1e-6 {
			t.Errorf("%s: the arc ends at %v, the end begins at %v", style, at, tip)
		}
		// No kink: chords of the edge and of the end turn by less than a chord of the arc does.
		most := 2 * math.Acos(1-DefaultChord/c.Round)
		for _, k := range []int{1, len(free.Line) - 2} {
			u, v := sub2(free.Line[k], free.Line[k-1]), sub2(free.Line[k+1], free.Line[k])
			if turn := math.Abs(math.Atan2(u[0]*v[1]-u[1]*v[0], dot(u, v))); turn > most+0.01 {
				t.Errorf("%s: a kink of %.3f rad", style, turn)
			}
		}
	}
}

// A collar takes the neckline of the block that it is drafted to, as the seam has it.
func TestCollarTakesTheNeck(t *testing.T) {
	block := lanternBlock()
	made, err := block.Draft()
	if err != nil {
		t.Fatal(err)
	}
	side, err := NeckOf(made)
	if err != nil {
		t.Fatal(err)
	}
	_, neck, err := side.Measure(made.Pieces)
	if err != nil {
		t.Fatal(err)
	}
	for _, style := range collarStyles {
		c := workedCollar(style)
		c.Neck, c.OpenBack = 0, true
		d, err := c.ToNeck(block).Draft()
		if err != nil {
			t.Fatal(err)
		}
		_, got, err := d.Neck.Measure(d.Pieces)
		if err != nil {
			t.Fatal(err)
		}
		near(t, string(style), got, neck, 0.2)
	}
	refuses(t, []refusal{{"no neck", workedCollar(FlatCollar).ToNeck(workedPetticoat()), "no edge is sewn at the neck"}})
}

func TestCollarRefuses(t *testing.T) {
	with := func(style CollarStyle, change func(*Collar)) Collar { c := workedCollar(style); change(&c); return c }
	refuses(t, []refusal{
		{"no style", with("sailor", func(*Collar) {}), `collar: there is no "sailor" collar`},
		{"no neck", with(StandCollar, func(c *Collar) { c.Neck = 0 }), "neck is 0 mm"},
		{"no height", with(FlatCollar, func(c *Collar) { c.Height = 0 }), "height is 0 mm"},
		{"hardly shorter", with(StandCollar, func(c *Collar) { c.Shorter = 0.5 }), "shorter by 0.5 mm, at least"},
		{"short", with(StandCollar, func(c *Collar) { c.Shorter = 200 }), "less than half of a neck of 355.6 mm"},
		{"low", with(StandCollar, func(c *Collar) { c.Shorter, c.Height = 100, 20 }), "turns by 286 degrees"},
		{"a whole circle and more", with(FlatCollar, func(c *Collar) { c.Circle = 1.2 }), "1.2 of a circle"},
		{"standing", with(FlatCollar, func(c *Collar) { c.Circle = 0.1 }), "0.1 of a circle"},
		{"drop", with(FlatCollar, func(c *Collar) { c.Drop = 160 }), "a drop of 160 mm is too much"},
		{"corners", with(FlatCollar, func(c *Collar) { c.Round = 80 }), "corners of a radius of 80.0 mm have no room"},
		{"ruff's corners", with(RuffCollar, func(c *Collar) { c.Round = 8 }), "ends of a ruff are square"},
		{"no band", with(RuffCollar, func(c *Collar) { c.Band = 0 }), "band is 0 mm"},
		{"no pleats", with(RuffCollar, func(c *Collar) { c.Pleats = 0 }), "pleats: 0"},
		{"thick", with(RuffCollar, func(c *Collar) { c.Depth = 90 }), "29.3 layers lie on each other"},
	})
}

func TestCollarProperties(t *testing.T) {
	drafted := 0
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		c := Collar{
			Style: rapid.SampledFrom(collarStyles).Draw(t, "style"), Neck: mm("neck", 250, 520), Height: mm("height", 20, 120),
			OpenBack: rapid.Bool().Draw(t, "back"), Circle: mm("circle", 0.4, 0.95), Drop: mm("drop", 0, 25),
			Pleats: rapid.IntRange(10, 90).Draw(t, "pleats"), Depth: mm("depth", 6, 30), Band: mm("band", 6, 25),
			EndHem: mm("end", 0, 10), ClothWidth: mm("cloth", 880, 1500), Join: mm("join", 0, 12),
			Allowance: shapes.Allowance{Seam: mm("seam", 0, 12), Hem: mm("hem", 0, 10)},
		}
		if rapid.Bool().Draw(t, "leans") {
			c.Shorter = mm("shorter", 5, 50)
		}
		if c.Style != RuffCollar && rapid.Bool().Draw(t, "round") {
			c.Round = c.Height * mm("round", 0.1, 0.7)
		}
		made, err := c.Draft()
		if err != nil {
			return // held by what is refused
		}
		drafted++
		checkJoins(t, c)
		_, neck, err := made.Neck.Measure(made.Pieces)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "neck", neck, c.Neck, 0.3)
		for _, p := range made.Pieces {
			sound(t, p)
			if p.OnFold {
				soundGore(t, p)
				sound(t, p.Unfold())
			}
		}
		if c.Style == StandCollar && c.Round == 0 {
			near(t, "area", plane.Area(made.Pieces[0].Seam), c.Height*(2*c.Neck-c.Shorter)/4, 0.2*c.Neck)
		}
		// Everywhere as wide: the band between two curves that lie Height apart along radii.
		if c.Style == FlatCollar && c.Round == 0 && c.Drop == 0 {
			near(t, "area", plane.Area(made.Pieces[0].Seam), c.Height*(c.Neck/2+math.Pi*c.Circle*c.Height/2),
				0.2*(c.Neck+2*math.Pi*c.Height))
		}
	})
	if drafted < often.Enough(60) {
		t.Errorf("%d drafted", drafted)
	}
}

// A flat collar that goes nearly all round has no room for the allowances of its ends: it is
// refused, and drafted with less of either.
func TestCollarsWhoseEndsComeTogether(t *testing.T) {
	drawn := func(circle, allowance float64) error {
		_, err := Collar{Style: FlatCollar, Neck: 380, Height: 60, Circle: circle,
			Allowance: shapes.Allowance{Seam: allowance}}.Draft()
		return err
	}
	if err := drawn(0.95, 12.7); err == nil || !strings.Contains(err.Error(),
		"an allowance of 12.7 mm lies over the fold") {
		t.Errorf("refused with %v", err)
	}
	for _, c := range [][2]float64{{0.95, 5}, {0.8, 12.7}, {0.5, 76.2}, {0.3, 76.2}} {
		if err := drawn(c[0], c[1]); err != nil {
			t.Errorf("%.2f of a circle, allowance %g: %v", c[0], c[1], err)
		}
	}
}
