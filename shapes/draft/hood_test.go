package draft

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

func workedHood() Hood {
	return Hood{
		Neck: 480, Height: 350, Depth: 260, Round: 130, Drop: 45, Dart: 20, DartLength: 70,
		Allowance: shapes.Allowance{Seam: 10, Hem: 25},
	}
}

// The neck, with darts sewn and the strip's end, is as long as the neckline, and
// the front edge as high as asked for.
func TestHoodFitsTheNeck(t *testing.T) {
	for strip, want := range map[float64][]string{0: {"crown"}, 110: {"left side to strip", "right side to strip"}} {
		h := workedHood()
		h.Strip, h.Chord = strip, 0.01
		neck := 0.0
		for _, p := range mustDraft(t, h) {
			soundGore(t, p)
			e, _ := p.Edge("neck")
			neck += float64(p.Count) * (e.Length() - mouths(t, p, "neck"))
		}
		near(t, "neck", neck, 480, 0.1)
		side := mustDraft(t, h)[0]
		front, _ := side.Edge("front edge")
		near(t, "front edge", front.Length(), 350, 1e-9)
		if len(side.Inside) != 1 || side.Labels[0] != "left" {
			t.Errorf("%d darts, %v", len(side.Inside), side.Labels)
		}
		var names []string
		for _, s := range checkJoins(t, h) {
			names = append(names, s.Join.Name)
		}
		if d := cmp.Diff(want, names); d != "" {
			t.Error(d)
		}
	}
}

// The neck meets front edge and crown squarely; the crown has no corner.
func TestHoodIsSmooth(t *testing.T) {
	h := workedHood()
	h.Chord = 0.001
	h.Round = h.nape()
	mustDraft(t, h)
	h.Round = 100
	p := mustDraft(t, h)[0]
	front, neck, crown := p.Edges[0].Line, p.Edges[1].Line, p.Edges[2].Line
	near(t, "angle at the front", insideAngle(front[0], neck[0], neck[1]), math.Pi/2, 0.01)
	near(t, "angle at the back", insideAngle(neck[len(neck)-2], crown[0], crown[1]), math.Pi/2, 0.03)
	near(t, "angle at the top", insideAngle(crown[len(crown)-2], front[0], front[1]), math.Pi/2, 1e-9)
	for i := 2; i < len(crown); i++ {
		if turn := turnAt(crown[i-2], crown[i-1], crown[i]); math.Abs(turn) > 0.05 {
			t.Errorf("the crown turns by %.3f at %v", turn, crown[i-1])
		}
	}
}

func TestHoodRefuses(t *testing.T) {
	with := func(change func(*Hood)) Hood { h := workedHood(); change(&h); return h }
	refuses(t, []refusal{
		{"no neck", with(func(h *Hood) { h.Neck = 0 }), "hood: neck is 0 mm"},
		{"negative drop", with(func(h *Hood) { h.Drop = -5 }), "drop is -5 mm"},
		{"negative height", with(func(h *Hood) { h.Height = -1 }), "height is -1 mm"},
		{"wide strip", with(func(h *Hood) { h.Strip = 480 }), "strip of 480 mm leaves nothing of a neck of 480 mm"},
		{"round", with(func(h *Hood) { h.Round = 260 }), "round of 260 mm does not fit a side 260 mm deep"},
		{"high round", with(func(h *Hood) { h.Height = 170 }), "and the upper half, 62.5 mm, of its back"},
		{"steep neck", with(func(h *Hood) { h.Drop, h.Round = 200, 60 }),
			"a neck of 260.0 mm a side cannot rise by a drop of 200.0 mm"},
		{"no dart length", with(func(h *Hood) { h.DartLength = 0 }), "dart length is 0 mm"},
		{"wide dart", with(func(h *Hood) { h.Dart = 260 }),
			"dart of 260 mm takes more than half of a side's neck of 500.0 mm"},
		{"long dart", with(func(h *Hood) { h.DartLength = 200 }),
			"dart length of 200 mm reaches above half the height"},
		{"set back", with(func(h *Hood) { h.HemRaise = 140 }), "hem raise is 140 mm"},
	})
}

// A neck that hardly rises is an arc of metres of radius: rounding there must not keep
// a dart from being folded.
func TestHoodDartInANearlyStraightNeck(t *testing.T) {
	for i := range 400 {
		h := Hood{
			Neck: 383.8560732026782 + 0.4*float64(i), Height: 401.1194752040471, Depth: 306.4551016191889,
			Round: 44.53304230045359,
			Drop:  10.356864106501101 * (1 - float64(i)/500), Dart: 15, DartLength: 60, HemRaise: 15.394798055629607,
		}
		if _, err := piecesOf(h); err != nil {
			t.Errorf("neck %g, drop %g: %v", h.Neck, h.Drop, err)
		}
	}
}

// Seams match, the area agrees with a count of level slices, and each measure
// moves it the right way.
func TestHoodProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		h := Hood{
			Neck: mm("neck", 380, 560), Height: mm("height", 300, 420), Depth: mm("depth", 220, 320),
			Round: mm("round", 40, 115), Drop: rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(10, 55)).Draw(t, "drop"),
			Strip: rapid.SampledFrom([]float64{0, 80, 120}).Draw(t, "strip"),
			Dart:  rapid.SampledFrom([]float64{0, 15}).Draw(t, "dart"), DartLength: 60,
			HemRaise: mm("raise", 0, 30), Allowance: shapes.Allowance{Seam: mm("seam", 0, 12), Hem: mm("hem", 0, 30)},
		}
		pieces := mustDraft(t, h)
		for _, p := range pieces {
			soundGore(t, p)
		}
		checkJoins(t, h)
		neck, _ := pieces[0].Edge("neck")
		// Set back, the front edge takes a little less than the way straight across.
		near(t, "side's neck", neck.Length()+h.HemRaise-mouths(t, pieces[0], "neck"), (h.Neck-h.Strip)/2, 0.5)
		area := func(h Hood) float64 { return plane.Area(mustDraft(t, h)[0].Seam) }
		was := area(h)
		near(t, "area", was, areaBySlices(pieces[0]), 1e-3*was)
		for what, change := range map[string]func(*Hood){
			"higher":        func(h *Hood) { h.Height += 5 },
			"deeper":        func(h *Hood) { h.Depth += 5 },
			"less round":    func(h *Hood) { h.Round -= 5 },
			"wider neck":    func(h *Hood) { h.Neck += 10 },
			"less set back": func(h *Hood) { h.Height++; h.HemRaise *= 0.9 },
		} {
			more := h
			change(&more)
			if bigger := area(more); bigger <= was {
				t.Errorf("%s: area %.0f, was %.0f", what, bigger, was)
			}
		}
	})
}

// areaBySlices sums the widths of a thousand level slices of the seam line.
func areaBySlices(p shapes.Piece) float64 {
	b := plane.Bounds(p.Seam)
	const n = 1000
	step, sum := (b.Max[1]-b.Min[1])/n, 0.0
	for k := range n {
		y := b.Min[1] + (float64(k)+0.5)*step
		inside := 0.0
		for i := 1; i < len(p.Seam); i++ {
			a, c := p.Seam[i-1], p.Seam[i]
			if (a[1] <= y) == (c[1] <= y) {
				continue
			}
			x := a[0] + (c[0]-a[0])*(y-a[1])/(c[1]-a[1])
			if c[1] > a[1] { // counter-clockwise: cloth lies to the left of an upward edge
				inside += x
			} else {
				inside -= x
			}
		}
		sum += inside * step
	}
	return sum
}
