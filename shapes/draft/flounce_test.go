package draft

import (
	"maps"
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// Depth 12, top 72, bottom 112 gives r = 72 x 12 / 40 = 21.600 (L. Baldt,
// "Clothing for Women", 1916, chestofbooks.com), R = 33.600, and an angle of
// 40/12 rad = 190.986 degrees.
func workedFlounce() Flounce {
	return Flounce{Top: 72 * inch, Bottom: 112 * inch, Depth: 12 * inch}
}

func TestFlounceWorkedExample(t *testing.T) {
	top, bottom, angle := workedFlounce().Radii()
	inches(t, "radius", top, 21.600)
	inches(t, "outer radius", bottom, 33.600)
	near(t, "angle", angle, 190.986, 0.0005)
}

// 190.986 degrees are over 180: two sections of 36 by 56 in. More may be asked
// for, one may not.
func TestFlounceOverHalfATurnComesInSections(t *testing.T) {
	f := workedFlounce()
	f.Closed = true
	p := draftOne(t, f)
	if p.Name != "flounce section" || p.Count != 2 {
		t.Errorf("%d of %q, want 2 sections", p.Count, p.Name)
	}
	top, _ := p.Edge("top")
	hem, _ := p.Edge("hem")
	near(t, "top edge", top.Length(), 36*inch, 0.2)
	near(t, "hem", hem.Length(), 56*inch, 0.2)
	f.Sections = 5
	if p = draftOne(t, f); p.Count != 5 {
		t.Errorf("%d sections, asked for 5", p.Count)
	}
}

// A flounce that does not go round has two free ends, hemmed; every other end is in a
// seam, and takes the seam allowance.
func TestFreeEndsOfAFlounceAreHemmed(t *testing.T) {
	for sections, want := range map[int]map[string]int{
		2: {"flounce first section": 1, "flounce last section": 1},
		5: {"flounce first section": 1, "flounce section": 3, "flounce last section": 1},
	} {
		f := workedFlounce()
		f.Sections, f.EndHem, f.Allowance = sections, 8, shapes.Allowance{Seam: 15, Hem: 25}
		free, joined, got := 0, 0, map[string]int{}
		for _, p := range mustDraft(t, f) {
			got[p.Name] += p.Count
			for _, e := range []string{"lower end", "upper end"} {
				switch edge, _ := p.Edge(e); {
				case edge.Kind == shapes.Hem && edge.Allowance == 8:
					free += p.Count
				case edge.Kind == shapes.Seam && edge.Allowance == 15:
					joined += p.Count
				default:
					t.Errorf("%s: %s is a %v of %g mm", p.Name, e, edge.Kind, edge.Allowance)
				}
			}
		}
		if free != 2 || joined != 2*(sections-1) || !maps.Equal(got, want) {
			t.Errorf("%d sections: %d free ends, %d joined, %v", sections, free, joined, got)
		}
	}
	f := Flounce{Top: 600, Bottom: 800, Depth: 300, EndHem: 8, Allowance: shapes.Allowance{Seam: 15, Hem: 25}}
	lower, _ := draftOne(t, f).Edge("lower end")
	upper, _ := draftOne(t, f).Edge("upper end")
	if lower.Allowance != 8 || upper.Finish() != shapes.Turned {
		t.Errorf("one piece: %g mm, %v", lower.Allowance, upper.Finish())
	}
}

// An exact half turn is one piece: bottom = top + pi depth.
func TestFlounceOfHalfATurnIsOnePiece(t *testing.T) {
	p := draftOne(t, Flounce{Top: 600, Bottom: 600 + 100*math.Pi, Depth: 100,
		Allowance: shapes.Allowance{Seam: 10, Hem: 5}})
	if p.Name != "flounce" || p.Count != 1 {
		t.Errorf("%d of %q", p.Count, p.Name)
	}
}

func TestFlounceRefuses(t *testing.T) {
	with := func(change func(*Flounce)) Flounce { f := workedFlounce(); change(&f); return f }
	refuses(t, []refusal{
		{"no flare", with(func(f *Flounce) { f.Bottom = f.Top }), "draft a strip instead"},
		{"shrinking", with(func(f *Flounce) { f.Bottom = f.Top / 2 }), "not longer than top"},
		{"no top", with(func(f *Flounce) { f.Top = 0 }), "flounce: top is 0 mm"},
		{"no depth", with(func(f *Flounce) { f.Depth = -5 }), "depth is -5 mm"},
		{"one section", with(func(f *Flounce) { f.Sections = 1 }), "at least 2 sections"},
		{"negative sections", with(func(f *Flounce) { f.Sections = -1 }), "at least 2 sections"},
		{"confetti", with(func(f *Flounce) { f.Sections = 1001 }), "at most 1000"},
		{"corkscrew", with(func(f *Flounce) { f.Bottom = 1000 * inch }), "times round"},
		{"no room for the allowance", with(func(f *Flounce) { f.Top, f.Allowance.Seam = 20, 15 }),
			"a smaller allowance"},
		{"hem raised away", with(func(f *Flounce) { f.HemRaise = f.Depth }), "hem raise is 304.8 mm"},
		{"negative chord", with(func(f *Flounce) { f.Chord = -0.1 }), "chord error is -0.1 mm"},
	})
}

func drawFlounce(t *rapid.T) Flounce {
	mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	f := Flounce{Top: mm("top", 300, 4000), Depth: mm("depth", 50, 900), Closed: rapid.Bool().Draw(t, "closed"),
		EndHem:    mm("end hem", 0, 15),
		Allowance: shapes.Allowance{Seam: mm("seam", 0, 16), Hem: mm("hem", 0, 30)}}
	// At least 20 mm of radius beyond the allowance, at most two turns.
	most := min(f.Top*f.Depth/40, 4*math.Pi*f.Depth)
	f.Bottom = f.Top + mm("flare", 2, most)
	return f
}

// All sections together: top, bottom and area are those asked for, up to what
// the chords cut off; the sides are straight and as long as the depth.
func TestFlounceIsWhatWasAskedFor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFlounce(t)
		var n, top, hem, area float64
		for _, p := range mustDraft(t, f) {
			upper, _ := p.Edge("top")
			lower, _ := p.Edge("hem")
			side, _ := p.Edge("lower end")
			other, _ := p.Edge("upper end")
			near(t, "side", side.Length(), f.Depth, 1e-6)
			near(t, "other side", other.Length(), f.Depth, 1e-6)
			count := float64(p.Count)
			n, top, hem, area = n+count, top+count*upper.Length(), hem+count*lower.Length(),
				area+count*plane.Area(p.Seam)
		}
		// A chord of sagitta s loses 8 s^2 / 3c of its arc: less than s for any
		// arc finer than a third of a turn.
		slack := n * 40 * DefaultChord
		near(t, "top", top, f.Top, slack)
		near(t, "bottom", hem, f.Bottom, slack)
		// Area of a ring sector: depth times the mean of its arcs.
		near(t, "finished area", area, f.Depth*(f.Top+f.Bottom)/2, DefaultChord*(f.Top+f.Bottom))
		if f.angle()/n > math.Pi+1e-9 {
			t.Errorf("a section of %.3f rad", f.angle()/n)
		}
	})
}

// More bottom, more hem or seam takes more cloth; a raised hem less.
func TestFlounceGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFlounce(t)
		f.Sections = 5
		cloth := func(f Flounce) (sum float64) {
			for _, p := range mustDraft(t, f) {
				sum += float64(p.Count) * p.Area()
			}
			return sum
		}
		area := cloth(f)
		for i, grow := range []func(*Flounce){
			func(f *Flounce) { f.Bottom += 20 }, func(f *Flounce) { f.Top += 20; f.Bottom += 20 },
			func(f *Flounce) { f.Allowance.Seam++ }, func(f *Flounce) { f.Allowance.Hem++ },
		} {
			more := f
			grow(&more)
			if got := cloth(more); got <= area {
				t.Errorf("measure %d grown: area %.3f from %.3f", i, got, area)
			}
		}
		less := f
		less.HemRaise = f.Depth / 4
		if got := cloth(less); got >= area {
			t.Errorf("a raised hem: area %.3f from %.3f", got, area)
		}
		wider := f
		if wider.EndHem++; (cloth(wider) > area) == f.Closed {
			t.Errorf("closed %t, ends hemmed by 1 mm more: area %.3f from %.3f", f.Closed, cloth(wider), area)
		}
	})
}
