package draft

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

func workedHoops() HoopPetticoat {
	return HoopPetticoat{
		Waist: 28 * inch, Hip: 40 * inch, HipDepth: 8 * inch, Length: 40 * inch, Hoops: 4, FirstHoop: 16 * inch,
		AboveHem: inch, Sweep: 120 * inch, Overlap: 2 * inch, Channel: 0.75 * inch, Gores: 6, ClothWidth: 45 * inch,
		Join: 10, Allowance: shapes.Allowance{Seam: 12, Waist: 12, Hem: 20},
	}
}

// Plain geometry: from a waist of 28 in to 120 in, 39 in below it, 16 in down it is
// 28 + 92 x 16/39 = 65.744 in round; hoops lie 23/3 in apart, the second 28 + 92 x 23.667/39 =
// 83.829, and each is 2 in longer. The radii are 4.456 and 19.099 in: 14.642 in out on 39 down
// is a slant of 41.658, and 14.642/41.658 = 0.3515 of a circle.
func TestHoopLengths(t *testing.T) {
	h := workedHoops()
	made, err := h.Draft()
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{67.744, 85.829, 103.915, 122} {
		inches(t, "hoop", made.Hoops[i], want)
		_, girth := h.Level(i)
		near(t, "2 pi r and the overlap", made.Hoops[i], girth+h.Overlap, 1e-9)
		near(t, "tape", made.Tapes[i].Cut(), girth+25.4, 1e-9)
	}
	inches(t, "slant", 39*inch*h.slant(), 41.658)
	inches(t, "of a circle", h.cone().Fraction*inch, 0.3515)
	checkJoins(t, h)
	near(t, "waist", sewnAtWaistOf(t, h), 28*inch, DefaultChord)
	if len(made.Notes) != 2 || !strings.Contains(made.Notes[0].String(), "Hoops from the top") {
		t.Errorf("notes %v", made.Notes)
	}
}

// Each channel is drawn on every gore, as long in all as its hoop is round.
func TestHoopChannels(t *testing.T) {
	h := workedHoops()
	h.FlounceFullness, h.FlounceOver = 2, inch
	made, err := h.Draft()
	if err != nil {
		t.Fatal(err)
	}
	for i := range h.Hoops {
		round := 0.0
		for _, p := range made.Pieces[:3] {
			k := 2 * i
			round += float64(p.Count) * (plane.Length(p.Inside[k]) + plane.Length(p.Inside[k+1])) / 2
		}
		_, girth := h.Level(i)
		near(t, "channel", round, girth, 0.5)
	}
	// The flounces end where the cloth does, and are gathered onto the cone above their hoops.
	last := made.Tables.Tiers[3]
	near(t, "last flounce", last.Depth, (1*h.slant()+1.5*0.75)*inch, 0.01)
	near(t, "gathered onto", last.Edge, h.girth(39*inch-1.5*0.75*inch/h.slant()), 0.01)
	near(t, "full", last.Flat, 2*last.Edge, 0.02*2*last.Edge+0.01)
	checkJoins(t, h)
}

func TestHoopPetticoatRefuses(t *testing.T) {
	with := func(change func(*HoopPetticoat)) HoopPetticoat { h := workedHoops(); change(&h); return h }
	refuses(t, []refusal{
		{"no waist", with(func(h *HoopPetticoat) { h.Waist = 0 }), "hoop petticoat: waist is 0 mm"},
		{"no hoops", with(func(h *HoopPetticoat) { h.Hoops = 0 }), "hoops: 0"},
		{"no channel", with(func(h *HoopPetticoat) { h.Channel = 0 }), "channel is 0 mm"},
		{"narrow", with(func(h *HoopPetticoat) { h.Sweep = 700 }), "sweep of 700.0 mm is not wider than the top"},
		{"hip", with(func(h *HoopPetticoat) { h.Sweep = 2000 }), "does not clear the hip of 1016.0 mm"},
		{"high hip", with(func(h *HoopPetticoat) { h.HighHip = HighHip{Girth: 1000, Depth: 80} }),
			"does not clear the high hip of 1000.0 mm"},
		{"crowded", with(func(h *HoopPetticoat) { h.Hoops = 20 }), "hoops lie 32.8 mm apart along the cloth"},
		{"at the top", with(func(h *HoopPetticoat) { h.FirstHoop = 10 }), "leaves no room above it"},
		{"over the hem", with(func(h *HoopPetticoat) { h.AboveHem = 5 }), "reaches over the hem"},
		{"above the waist", with(func(h *HoopPetticoat) { h.AboveHem = 1100 }), "does not lie below the waist"},
		{"a casing of no hip", with(func(h *HoopPetticoat) { h.Casing, h.Hip = 20, 0 }), "a casing is as wide as the hip"},
		{"a waist over the hip", with(func(h *HoopPetticoat) { h.Casing, h.Waist = 20, 1100 }), "cannot be pulled on"},
		{"the first hoop", with(func(h *HoopPetticoat) { h.FirstHoop = 60 }), "first hoop of"},
	})
}

func TestHoopPetticoatProperties(t *testing.T) {
	drafted := 0
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		h := HoopPetticoat{
			Length: mm("length", 450, 1150), Hoops: rapid.IntRange(1, 6).Draw(t, "hoops"), AboveHem: mm("above", 15, 60),
			Overlap: mm("overlap", 0, 80), Channel: mm("channel", 12, 25), Gores: rapid.IntRange(2, 12).Draw(t, "gores"),
			ClothWidth: mm("cloth", 880, 3000), Join: mm("join", 0, 12),
			Allowance: shapes.Allowance{Seam: mm("seam", 0, 15), Waist: mm("waist allowance", 0, 12), Hem: mm("hem", 0, 15)},
		}
		h.Waist, h.Hip, h.HipDepth, h.HighHip = someBody(t)
		h.FirstHoop, h.Sweep = h.Length*mm("first", 0.4, 0.5), h.Hip*mm("sweep", 2, 3.2)
		if rapid.Bool().Draw(t, "casing") && h.Waist < h.Hip {
			h.Casing = 20
		}
		if rapid.Bool().Draw(t, "flounces") {
			h.FlounceFullness, h.FlounceOver = mm("fullness", 1.2, 3), 25
		}
		made, err := h.Draft()
		if err != nil {
			return // held by what is refused
		}
		drafted++
		checkJoins(t, h)
		area := 0.0
		for _, p := range made.Pieces[:(h.Gores+1)/2] {
			soundGore(t, p)
			area += float64(p.Count) * plane.Area(p.Seam)
		}
		// Two ways: the outlines, and the mantle of a cone, pi (r + R) slant.
		r, end := h.top()/(2*math.Pi), h.girth(h.Length)/(2*math.Pi)
		near(t, "mantle", area, math.Pi*(r+end)*h.Length*h.slant(), 2*DefaultChord*2*math.Pi*end)
		for i, hoop := range made.Hoops {
			down, girth := h.Level(i)
			near(t, "hoop", hoop, 2*math.Pi*(r+h.lean()*down)+h.Overlap, 1e-6)
			if i > 0 && hoop <= made.Hoops[i-1] {
				t.Errorf("hoop %d of %.1f is no longer than the one above", i, girth)
			}
		}
	})
	if drafted < often.Enough(40) {
		t.Errorf("%d drafted", drafted)
	}
}
