package draft

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

func workedHandkerchief(panels int) Handkerchief {
	return Handkerchief{Waist: 28 * inch, Length: 24 * inch, Panels: panels, Opening: true,
		Allowance: shapes.Allowance{Seam: 15, Waist: 10, Hem: 10}}
}

// Waist 28 in lies on 28/(2 pi) = 4.456 in; a square of 2 x 28.456 in; points
// 28.456 sqrt 2 - 4.456 = 35.787 in (plain geometry).
func TestHandkerchief(t *testing.T) {
	for panels, want := range map[int]int{1: 0, 2: 2, 4: 4} {
		h := workedHandkerchief(panels)
		inches(t, "radius", h.Radius(), 4.456)
		inches(t, "point", h.Point(), 35.787)
		p := draftOne(t, h)
		if p.Count != panels {
			t.Errorf("%d copies of %s", p.Count, p.Name)
		}
		along, across := p.Finished()
		size := map[int][2]float64{1: {56.913, 56.913}, 2: {28.456, 56.913}, 4: {28.456, 28.456}}[panels]
		inches(t, "along", along, size[0])
		inches(t, "across", across, size[1])
		seams := 0
		for _, s := range checkJoins(t, h) {
			seams += s.Join.Times
			inches(t, "seam", s.FinishedA, 24)
		}
		if seams != want {
			t.Errorf("%d panels: %d seams", panels, seams)
		}
	}
	p := draftOne(t, workedHandkerchief(1))
	if len(p.Inside) != 2+4 { // hole, slit and the quarters of the waist
		t.Fatalf("%d lines inside", len(p.Inside))
	}
	near(t, "hole, cut", plane.Length(p.Inside[0]), 2*math.Pi*(28*inch/2/math.Pi-10), 0.5)
}

func TestHandkerchiefRefuses(t *testing.T) {
	with := func(change func(*Handkerchief)) Handkerchief { h := workedHandkerchief(2); change(&h); return h }
	refuses(t, []refusal{
		{"no waist", with(func(h *Handkerchief) { h.Waist = 0 }), "handkerchief: waist is 0 mm"},
		{"negative length", with(func(h *Handkerchief) { h.Length = -1 }), "length is -1 mm"},
		{"three panels", with(func(h *Handkerchief) { h.Panels = 3 }), "panels: 3, must be 1, 2 or 4"},
		{"pull-on", with(func(h *Handkerchief) { h.Hip, h.HipDepth, h.Opening = 1000, 200, false }),
			"waist of 711.2 mm does not pass the hip of 1000.0 mm"},
		{"no hip depth", with(func(h *Handkerchief) { h.Hip = 1000 }), "hip depth is 0 mm"},
		{"tight", with(func(h *Handkerchief) { h.Waist = 60 }), "the waist is cut on a radius of 9.5 mm"},
		{"raised away", with(func(h *Handkerchief) { h.HemRaise = 610 }), "hem raise is 610 mm"},
	})
}

// The panels make up the square less the waist's circle, whatever they are.
func TestHandkerchiefProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		h := Handkerchief{
			Waist: mm("waist", 550, 1100), Length: mm("length", 200, 1000),
			Panels:   rapid.SampledFrom([]int{1, 2, 4}).Draw(t, "panels"),
			HemRaise: mm("raise", 0, 40), Allowance: shapes.Allowance{Seam: mm("seam", 0, 20),
				Waist: mm("waist allowance", 0, 12), Hem: mm("hem", 0, 20)},
		}
		area := func(h Handkerchief) float64 {
			p := draftOne(t, h)
			soundGore(t, p)
			sum := float64(p.Count) * plane.Area(p.Seam)
			if h.Panels == 1 {
				sum -= math.Pi * h.Radius() * h.Radius()
			}
			return sum
		}
		checkJoins(t, h)
		was := area(h)
		square := 2 * (h.Radius() + h.Length - h.HemRaise)
		near(t, "area", was, square*square-math.Pi*h.Radius()*h.Radius(), DefaultChord*h.Waist)
		for what, change := range map[string]func(*Handkerchief){
			"longer":      func(h *Handkerchief) { h.Length += 5 },
			"wider waist": func(h *Handkerchief) { h.Waist += 5 },
			"less raised": func(h *Handkerchief) { h.HemRaise *= 0.9; h.Length++ },
		} {
			more := h
			change(&more)
			if bigger := area(more); bigger <= was {
				t.Errorf("%s: area %.0f, was %.0f", what, bigger, was)
			}
		}
	})
}
