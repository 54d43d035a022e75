package draft

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

func workedOverskirt() Overskirt {
	return Overskirt{
		Waist: 28 * inch, Gap: 6 * inch, Length: 40 * inch, FrontLength: 24 * inch, Fraction: 0.5,
		BackSeam: true, Allowance: shapes.Allowance{Seam: 15, Waist: 10, Hem: 20},
	}
}

// Partial circle, plane geometry, r = W/(2 pi f): 22 in left of the waist on half
// a circle lie on 22/pi = 7.003 in. Edges are as long as asked for.
func TestOverskirt(t *testing.T) {
	o := workedOverskirt()
	inches(t, "radius", o.radius(), 7.003)
	p := draftOne(t, o)
	if d := cmp.Diff([]string{"centre front, opening", "hem, hem", "centre back, seam", "waist, waist"},
		edgeNames(p)); d != "" {
		t.Error(d)
	}
	front, _ := p.Edge("centre front")
	back, _ := p.Edge("centre back")
	waist, _ := p.Edge("waist")
	inches(t, "front", front.Length(), 24)
	inches(t, "back", back.Length(), 40)
	near(t, "half the waist", waist.Length(), 11*inch, 0.5)
	if p.Count != 2 || !p.Pair {
		t.Errorf("%d, pair %v", p.Count, p.Pair)
	}
}

// The hem meets the centre back and the front edge squarely, and the seams between
// sections without a kink.
func TestOverskirtHemIsSmooth(t *testing.T) {
	o := workedOverskirt()
	o.Chord, o.Sections = 0.001, 6
	before := math.Pi / 2
	for _, p := range mustDraft(t, o) {
		lower, hem, upper := p.Edges[0].Line, p.Edges[1].Line, p.Edges[2].Line
		near(t, p.Name+": angles at the seam", before+insideAngle(lower[0], hem[0], hem[1]), math.Pi, 0.01)
		before = insideAngle(hem[len(hem)-2], upper[0], upper[1])
	}
	near(t, "angle at the centre back", before, math.Pi/2, 0.01)
}

// Area by plane geometry: with b the angle and l = (L + l1)/2, half the difference
// m = (L - l1)/2, the radius is r + l + m cos, so the integral of (r'^2 - r^2)/2 is
// b ((r + l)^2 + m^2/2 - r^2)/2.
func TestOverskirtProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		o := Overskirt{
			Waist: mm("waist", 550, 1000), Gap: mm("gap", 0, 300), Length: mm("length", 300, 1100),
			FrontLength: mm("front length", 150, 1300),
			Fraction:    mm("fraction", 0.2, 1.4), Sections: rapid.IntRange(3, 7).Draw(t, "sections"),
			HemRaise: mm("raise", 0, 40),
			// An allowance of less than a step of the lattice leaves tips that are refused.
			Allowance: shapes.Allowance{Seam: tenths(mm("seam", 0, 15)), Waist: tenths(mm("waist allowance", 0, 12)),
				Hem: tenths(mm("hem", 0, 25))},
		}
		checkJoins(t, o)
		total := func(o Overskirt) (area float64) {
			for _, piece := range mustDraft(t, o) {
				soundGore(t, piece)
				area += float64(piece.Count) * plane.Area(piece.Seam)
			}
			return area
		}
		area, r := total(o), o.radius()
		l, m := (o.Length+o.FrontLength)/2-o.HemRaise, (o.Length-o.FrontLength)/2
		want := math.Pi * o.Fraction * ((r+l)*(r+l) + m*m/2 - r*r)
		near(t, "area", area, want, DefaultChord*2*math.Pi*o.Fraction*(2*r+l+math.Abs(m)))
		for what, change := range map[string]func(*Overskirt){
			"longer":         func(o *Overskirt) { o.Length += 5 },
			"longer front":   func(o *Overskirt) { o.FrontLength += 5 },
			"wider waist":    func(o *Overskirt) { o.Waist += 5 },
			"fuller":         func(o *Overskirt) { o.Fraction += 0.01 },
			"a narrower gap": func(o *Overskirt) { o.Waist += 5; o.Gap += 2 },
		} {
			more := o
			change(&more)
			if bigger := total(more); bigger <= area {
				t.Errorf("%s: area %.0f, was %.0f", what, bigger, area)
			}
		}
	})
}

// tenths rounds to tenths of a mm.
func tenths(mm float64) float64 { return math.Round(mm*10) / 10 }

func TestOverskirtRefuses(t *testing.T) {
	with := func(change func(*Overskirt)) Overskirt { o := workedOverskirt(); change(&o); return o }
	refuses(t, []refusal{
		{"no waist", with(func(o *Overskirt) { o.Waist = 0 }), "overskirt: waist is 0 mm"},
		{"negative front", with(func(o *Overskirt) { o.FrontLength = -1 }), "front length is -1 mm"},
		{"negative gap", with(func(o *Overskirt) { o.Gap = -1 }), "gap is -1 mm"},
		{"all gap", with(func(o *Overskirt) { o.Gap = 800 }), "a gap of 800 mm leaves nothing of a waist of 711.2 mm"},
		{"no fraction", with(func(o *Overskirt) { o.Fraction = 0 }), "fraction of a circle is 0"},
		{"raised over the front", with(func(o *Overskirt) { o.HemRaise = 700 }), "hem raise is 700 mm"},
		{"odd", with(func(o *Overskirt) { o.Sections = 3 }), "3 sections have no seam at centre back"},
		{"thin sliver", with(func(o *Overskirt) { o.Fraction = 0.001 }), "has a hem radius of"},
		{"tight", with(func(o *Overskirt) { o.Fraction = 9 }), "the waist is cut on a radius of"},
	})
}
