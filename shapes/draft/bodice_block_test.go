package draft

import (
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

func lanternBlock() BodiceBlock {
	return BodiceBlock{
		Bust: 920, Waist: 720, BackLength: 410, Shoulder: 125, Neck: 370, ArmholeDepth: 213, Ease: 80, WaistEase: 40,
		FrontOnFold: true, Allowance: shapes.Allowance{Seam: 12, Waist: 10},
	}
}

func drawBlock(t *rapid.T) BodiceBlock {
	b := BodiceBlock{Bust: rapid.Float64Range(760, 1250).Draw(t, "bust")}
	b.Waist = b.Bust - rapid.Float64Range(-20, 260).Draw(t, "bust over waist")
	b.BackLength = rapid.Float64Range(370, 450).Draw(t, "back length")
	b.Neck = 370 + 0.12*(b.Bust-920) + rapid.Float64Range(-20, 20).Draw(t, "neck")
	b.Shoulder = rapid.Float64Range(110, 140).Draw(t, "shoulder")
	b.ArmholeDepth = 213 + 0.07*(b.Bust-920) + rapid.Float64Range(-8, 12).Draw(t, "armhole depth")
	b.Ease = rapid.Float64Range(60, 120).Draw(t, "ease")
	b.WaistEase = rapid.Float64Range(20, 60).Draw(t, "waist ease")
	b.FrontOnFold = rapid.Bool().Draw(t, "front on fold")
	b.EasePleat = rapid.Float64Range(0, 30).Draw(t, "ease pleat")
	b.Chord = 0.2 // coarse, for speed
	b.Allowance = shapes.Allowance{Seam: rapid.Float64Range(0, 15).Draw(t, "seam"),
		Waist: rapid.Float64Range(0, 20).Draw(t, "waist allowance")}
	return b
}

// What the block promises to hold exactly, on both of its pieces.
func TestBodiceBlockProperties(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		b := drawBlock(t)
		b.Chord = 0.01 // the waist is a curve over its darts
		pieces, err := piecesOf(b)
		if err != nil {
			t.Skip(err)
		}
		drawn++
		checkJoins(t, b)
		sums := map[string]float64{}
		for _, p := range pieces {
			soundGore(t, p)
			checkAreas(t, p)
			checkInside(t, p)
			for _, e := range p.Edges {
				sums[e.Name] += 2 * e.Length()
			}
		}
		near(t, "neck", sums["neck"]-2*b.EasePleat, b.Neck, 0.5)
		near(t, "shoulders", sums["shoulder"], 4*b.Shoulder+2*shoulderEase, 1e-6)
		front, back, err := b.measuresFromBust().halves()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "bust line", 2*(front.underarm[1]+back.underarm[1]), b.Bust+b.Ease, 1e-6)
		near(t, "waist, darts sewn", sewnWaist(t, pieces)-2*b.EasePleat, b.Waist+b.WaistEase, 0.01)
	})
	if least := often.Enough(50); drawn < least {
		t.Errorf("only %d of the bodies could be drafted, want %d", drawn, least)
	}
}

// sewnWaist is the waist of both halves without what lies between the notches of
// its darts.
func sewnWaist(t failer, pieces []shapes.Piece) float64 {
	t.Helper()
	sum := 0.0
	for _, p := range pieces {
		e, _ := p.Edge("waist")
		var feet []float64
		for _, n := range p.Notches {
			if n.Edge == "waist" {
				feet = append(feet, fromStart(e, n.At))
			}
		}
		sum += 2 * e.Length()
		if len(feet) >= 2 { // those of the dart are set first
			sum -= 2 * (feet[1] - feet[0])
		}
	}
	return sum
}

// By hand for the block of our own gown: half the bust 500, half the waist 380,
// 120 over; the front dart takes 0.34 of it, 40.8, the back one 38.4, each side
// seam (120 - 79.2)/2 = 20.4. The bust dart is 27 + 0.15 (920 - 880) = 33.
func TestBodiceBlockByHand(t *testing.T) {
	front, back, err := lanternBlock().measuresFromBust().halves()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "front dart", front.waistDart.width, 40.8, 1e-9)
	near(t, "back dart", back.waistDart.width, 38.4, 1e-9)
	near(t, "front waist at the side", front.side[1], 255-20.4, 1e-9)
	near(t, "back waist at the side", back.side[1], 245-20.4, 1e-9)
	near(t, "bust dart", front.sideDart.width, 33, 1e-9)
	// The armholes of a bust of 920: 420 to 460 mm round in size charts (from memory).
	f, b, err := lanternBlock().Armhole()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "armhole", f+b, 440, 25)
}

// Darts fold shut: their legs are equally long.
func TestBlockDartsFoldShut(t *testing.T) {
	for _, p := range mustDraft(t, lanternBlock()) {
		for _, d := range p.Inside {
			a, b := plane.Length([]orb.Point{d[0], d[1]}), plane.Length([]orb.Point{d[2], d[1]})
			near(t, p.Name+": legs", a, b, 0.01)
		}
	}
}

// A larger neck is left out: it moves the shoulder out as it cuts the neck lower,
// and the cloth may gain or lose.
func TestBodiceBlockMonotone(t *testing.T) {
	total := func(b BodiceBlock) (sum float64, darts int, err error) {
		pieces, err := piecesOf(b)
		for _, p := range pieces {
			sum += p.Unfold().Area() * float64(p.Count)
			darts += len(p.Inside)
		}
		return sum, darts, err
	}
	rapid.Check(t, func(t *rapid.T) {
		b := drawBlock(t)
		b = b.measuresFromBust() // so that one measure moves at a time
		b.EasePleat++            // and no pleat comes to be
		was, darts, err := total(b)
		if err != nil {
			t.Skip(err)
		}
		for what, change := range someOf(t, map[string]func(*BodiceBlock){
			"bust":              func(b *BodiceBlock) { b.Bust += 8 },
			"waist":             func(b *BodiceBlock) { b.Waist += 8 },
			"ease":              func(b *BodiceBlock) { b.Ease += 8 },
			"waist ease":        func(b *BodiceBlock) { b.WaistEase += 8 },
			"back length":       func(b *BodiceBlock) { b.BackLength += 8 },
			"shoulder":          func(b *BodiceBlock) { b.Shoulder += 4 },
			"shallower armhole": func(b *BodiceBlock) { b.ArmholeDepth -= 4 },
			"back width":        func(b *BodiceBlock) { b.BackWidth += 4 },
			"bust dart":         func(b *BodiceBlock) { b.BustDart += 4 },
			"ease pleat":        func(b *BodiceBlock) { b.EasePleat += 4 },
		}) {
			more := b
			change(&more)
			now, nowDarts, err := total(more)
			if err != nil || nowDarts != darts {
				continue // at the edge of what can be drafted, or of what is worth a dart
			}
			if now <= was {
				t.Errorf("%s: area %.1f, was %.1f", what, now, was)
			}
		}
	})
}

func TestBodiceBlockRefuses(t *testing.T) {
	var cases []refusal
	for want, spoil := range map[string]func(*BodiceBlock){
		"bust is 0 mm":             func(b *BodiceBlock) { b.Bust = 0 },
		"waist is -5 mm":           func(b *BodiceBlock) { b.Waist = -5 },
		"bust with ease is -80 mm": func(b *BodiceBlock) { b.Ease = -1000 },
		"armhole depth of 330.0 mm leaves 80.0 mm of side": func(b *BodiceBlock) { b.ArmholeDepth = 330 },
		"does not pass the bust of 920.0 mm":               func(b *BodiceBlock) { b.BackOnFold = true },
		"waist dart of the front would take up 81.6 mm":    func(b *BodiceBlock) { b.Waist = 480 },
		"a shoulder of 250.0 mm puts its tip":              func(b *BodiceBlock) { b.Shoulder = 250 },
		"the bust dart, 33.0 mm wide, lies":                func(b *BodiceBlock) { b.BustDepth = 220 },
		"bust span of 400.0 mm leaves":                     func(b *BodiceBlock) { b.BustSpan = 400 },
		"half the width across the back, 245.0 mm, leaves": func(b *BodiceBlock) { b.BackWidth = 490 },
		"ease pleat is 80.0 mm deep":                       func(b *BodiceBlock) { b.EasePleat = 80 },
		"a neck of 1200.0 mm does not":                     func(b *BodiceBlock) { b.Neck = 1200 },
	} {
		b := lanternBlock()
		spoil(&b)
		cases = append(cases, refusal{want, b, want})
	}
	refuses(t, cases)
}

// The bust dart that follows from the bust stays one that can be sewn: 27 + 0.15
// (1600 - 880) would be 135 mm.
func TestBlockDartOfALargeBust(t *testing.T) {
	b := lanternBlock()
	b.Bust, b.BustDart = 1600, 0
	near(t, "bust dart", b.measuresFromBust().BustDart, mostDart, 0)
}
