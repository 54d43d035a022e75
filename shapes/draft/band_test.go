package draft

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	_ "yardlay/benchmarks/often"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// Waist 28 + ease 1 + underlap 1.25 + 2 x 0.625 = 31.500 in long; 1 1/4 in
// finished is 2 x 1.25 + 2 x 0.625 = 3.750 in wide. The 5/8 in seam is the norm
// of commercial patterns (help.moodfabrics.com kb 109404; clothingdigest.com);
// the underlap of 1 1/4 in is common practice, no published source.
func workedBand() Waistband {
	a := 0.625 * inch
	return Waistband{Waist: 28 * inch, Ease: 1 * inch, Underlap: 1.25 * inch, Width: 1.25 * inch,
		Allowance: shapes.Allowance{Seam: a, Waist: a}}
}

func TestWaistbandWorkedExample(t *testing.T) {
	along, across := draftOne(t, workedBand()).CutSize()
	inches(t, "length", along, 31.500)
	inches(t, "width", across, 3.750)
}

func TestWaistbandAcrossTheCloth(t *testing.T) {
	w := workedBand()
	w.Across = true
	along, across := draftOne(t, w).CutSize()
	inches(t, "extent along the grain", along, 3.750)
	inches(t, "extent across it", across, 31.500)
}

// The interfacing is cut at the sewn line, 30.25 x 2.5 in, or with an allowance
// of its own.
func TestWaistbandInterfacing(t *testing.T) {
	w := workedBand()
	p := draftOne(t, Interfacing(w))
	along, across := p.CutSize()
	inches(t, "length", along, 30.250)
	inches(t, "width", across, 2.500)
	w.InterfacingAllowance = 0.25 * inch
	along, _ = draftOne(t, Interfacing(w)).CutSize()
	inches(t, "length with allowance", along, 30.750)
	w.InterfacingAllowance = -1
	if _, err := Interfacing(w).Draft(); err == nil {
		t.Error("a negative interfacing allowance passes")
	}
}

// Both long edges are notched at the same places, so that the folded band meets
// itself: quarters of 400 mm and the underlap, 10 mm allowances.
func TestWaistbandNotches(t *testing.T) {
	w := Waistband{Waist: 380, Ease: 20, Underlap: 30, Width: 25, Allowance: shapes.Allowance{Seam: 10, Waist: 12}}
	places := func(p shapes.Piece, axis int) map[string][]float64 {
		at := map[string][]float64{}
		for _, n := range p.Notches {
			at[n.Edge] = append(at[n.Edge], plane.Snap(n.At[axis]))
		}
		return at
	}
	want := []float64{110, 210, 310, 410}
	both := map[string][]float64{bandOuter: want, bandInner: want}
	p := draftOne(t, w)
	if d := cmp.Diff(both, places(p, 0)); d != "" {
		t.Errorf("along the grain: %s", d)
	}
	if d := cmp.Diff([]orb.LineString{{{10, 37}, {440, 37}}}, p.Inside); d != "" {
		t.Errorf("fold line: %s", d)
	}
	w.Across = true
	p = draftOne(t, w)
	if d := cmp.Diff(both, places(p, 1)); d != "" {
		t.Errorf("across the cloth: %s", d)
	}
	if d := cmp.Diff([]orb.LineString{{{37, 10}, {37, 440}}}, p.Inside); d != "" {
		t.Errorf("fold line across: %s", d)
	}
	w.Underlap = 0
	if n := len(draftOne(t, w).Notches); n != 6 {
		t.Errorf("%d notches without underlap, want 6", n)
	}
}

func TestWaistbandRefuses(t *testing.T) {
	with := func(change func(*Waistband)) Waistband {
		w := workedBand()
		change(&w)
		return w
	}
	refuses(t, []refusal{
		{"no waist", with(func(w *Waistband) { w.Waist = 0 }), "waistband: waist is 0 mm"},
		{"no width", with(func(w *Waistband) { w.Width = 0 }), "width is 0 mm"},
		{"laced away", with(func(w *Waistband) { w.Ease = -28 * inch }), "takes away the whole waist"},
		{"negative underlap", with(func(w *Waistband) { w.Underlap = -1 }), "underlap is -1 mm"},
		{"negative allowance", with(func(w *Waistband) { w.Allowance.Seam = -2 }), "seam allowance is -2 mm"},
		{"beyond all cloth", with(func(w *Waistband) { w.Waist = 1e9 }), "at most 60000 mm"},
	})
}

// The cut area is (length + 2 seam)(2 width + 2 waist allowance) whichever way
// the band lies, and grows with every measure. Laced-in bands are shorter.
func TestWaistbandArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		w := Waistband{Waist: mm("waist", 400, 1500), Ease: mm("ease", -100, 60), Underlap: mm("underlap", 0, 80),
			Width: mm("width", 10, 120), Across: rapid.Bool().Draw(t, "across"),
			Allowance: shapes.Allowance{Seam: mm("seam", 0, 30), Waist: mm("waist allowance", 0, 30)}}
		area := draftOne(t, w).Area()
		want := (w.Length() + 2*w.Allowance.Seam) * 2 * (w.Width + w.Allowance.Waist)
		near(t, "area", area, want, plane.Lattice*(w.Length()+2*w.Width+200))
		for i, grow := range []func(*Waistband){
			func(w *Waistband) { w.Waist++ }, func(w *Waistband) { w.Ease++ }, func(w *Waistband) { w.Underlap++ },
			func(w *Waistband) { w.Width++ }, func(w *Waistband) { w.Allowance.Seam++ },
			func(w *Waistband) { w.Allowance.Waist++ },
		} {
			more := w
			grow(&more)
			if got := draftOne(t, more).Area(); got <= area {
				t.Errorf("measure %d grown: area %.3f from %.3f", i, got, area)
			}
		}
	})
}

// An arrow along the grain on the fold line could not be told from it.
func TestWaistbandGrainIsOffTheFold(t *testing.T) {
	for _, across := range []bool{false, true} {
		w := workedBand()
		w.Across = across
		p := draftOne(t, w)
		soundGrain(t, p)
		if fold := p.Inside[0]; p.Grain[0][1] == fold[0][1] && p.Grain[1][1] == fold[1][1] {
			t.Errorf("across %v: the arrow %v lies on the fold %v", across, p.Grain, fold)
		}
	}
}
