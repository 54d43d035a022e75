package draft

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

func workedPetals() Petals {
	return Petals{Waist: 28 * inch, Length: 22 * inch, Side: 6 * inch, Count: 5, Overlap: 2 * inch, Fraction: 0.5,
		Allowance: shapes.Allowance{Waist: 10, Hem: 8}}
}

// Five petals share a waist of 28 in and overlap by 2: 28/5 + 2 = 7.6 in each,
// which leaves 28 in once the five overlaps are laid (plain geometry).
func TestPetalWaists(t *testing.T) {
	p := workedPetals()
	p.Chord = 0.001
	piece := draftOne(t, p)
	waist, _ := piece.Edge("waist")
	inches(t, "waist", waist.Length(), 7.6)
	inches(t, "waists, overlaps laid", float64(piece.Count)*(waist.Length()-p.Overlap), 28)
	along, _ := piece.Finished()
	// From the corners of the waist, which lie r (1 - cos) back, to the tip.
	inches(t, "along", along, 22+p.Radius()/inch*(1-math.Cos(p.share()/p.Radius()/2)))
	// The middle, both overlaps, and of the quarters, 1 1/4, 2 1/2 and 3 3/4 petals from
	// the centre back, those that are not the middle.
	if len(piece.Notches) != 3+2 {
		t.Errorf("%d notches", len(piece.Notches))
	}
}

// The edge has no corner between its ends.
func TestPetalEdgeIsSmooth(t *testing.T) {
	for _, side := range []float64{0, 6 * inch} {
		p := workedPetals()
		p.Side, p.Chord = side, 0.001
		e, _ := draftOne(t, p).Edge("hem")
		for i := 2; i < len(e.Line); i++ {
			if turn := turnAt(e.Line[i-2], e.Line[i-1], e.Line[i]); math.Abs(turn) > 0.05 {
				t.Errorf("side %.0f: turns by %.3f at %v", side, turn, e.Line[i-1])
			}
		}
	}
}

func TestPetalsRefuse(t *testing.T) {
	with := func(change func(*Petals)) Petals { p := workedPetals(); change(&p); return p }
	refuses(t, []refusal{
		{"no waist", with(func(p *Petals) { p.Waist = 0 }), "petals: waist is 0 mm"},
		{"negative length", with(func(p *Petals) { p.Length = -1 }), "length is -1 mm"},
		{"all side", with(func(p *Petals) { p.Side = 600 }), "side of 600 mm leaves nothing to round"},
		{"negative overlap", with(func(p *Petals) { p.Overlap = -1 }), "overlap is -1 mm"},
		{"none", with(func(p *Petals) { p.Count = 0 }), "petals: 0, must be from 1"},
		{"three layers", with(func(p *Petals) { p.Overlap = 150 }),
			"overlap of 150 mm is more than a petal's share of the waist, 142.24 mm"},
		{"no fraction", with(func(p *Petals) { p.Fraction = 0 }), "fraction of a circle is 0"},
		{"too wide", with(func(p *Petals) { p.Count, p.Fraction = 2, 1 }), "a petal opens to 205.7 degrees"},
		{"tight", with(func(p *Petals) { p.Waist, p.Overlap, p.Fraction, p.Count = 60, 0, 1, 5 }),
			"the waist is cut on a radius of 9.5 mm"},
		{"raised away", with(func(p *Petals) { p.HemRaise = 600 }), "hem raise is 600 mm"},
	})
}

// Area by plane geometry: with u = r + side, h the round part's height and A the
// half angle, the integral of (u + h cos t)^2/2 A cos t over half a turn is
// A (u^2 + pi u h/2 + 2 h^2/3), less the waist's sector A r^2.
func TestPetalProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		p := Petals{
			Waist: mm("waist", 550, 1000), Length: mm("length", 250, 1000),
			Count:    rapid.IntRange(4, 12).Draw(t, "count"),
			Fraction: mm("fraction", 0.1, 0.9), HemRaise: mm("raise", 0, 40),
			Allowance: shapes.Allowance{Waist: mm("waist allowance", 0, 12), Hem: mm("hem", 0, 20)},
		}
		p.Side = p.Length * mm("side", 0, 0.8)
		p.Overlap = p.Waist / float64(p.Count) * mm("overlap", 0, 0.9)
		area := func(p Petals) float64 {
			piece := draftOne(t, p)
			soundGore(t, piece)
			return plane.Area(piece.Seam)
		}
		was, r := area(p), p.Radius()
		u, half := r+max(p.Side-p.HemRaise, 0), p.share()/p.Radius()/2
		h := r + p.Length - p.HemRaise - u
		near(t, "area", was, half*(u*u+math.Pi*u*h/2+2*h*h/3-r*r), 3*DefaultChord*(p.Length+u*half))
		for what, change := range map[string]func(*Petals){
			"longer":       func(p *Petals) { p.Length += 5 },
			"longer side":  func(p *Petals) { p.Side += 5; p.Length += 5 },
			"more overlap": func(p *Petals) { p.Overlap += p.Waist / float64(p.Count) * 0.05 },
			"less raised":  func(p *Petals) { p.HemRaise *= 0.9; p.Length++ },
		} {
			more := p
			change(&more)
			if bigger := area(more); bigger <= was {
				t.Errorf("%s: area %.0f, was %.0f", what, bigger, was)
			}
		}
	})
}
