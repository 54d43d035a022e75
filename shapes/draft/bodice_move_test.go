package draft

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes/plane"
)

// drawMoved moves the darts of a block that has a bust dart.
func drawMoved(t *rapid.T, b *BodiceBlock) {
	places := []DartPlace{DartAtSide, DartAtShoulder, DartAtNeck, DartAtArmhole, DartAtWaist}
	if b.FrontOnFold {
		places = append(places, DartAtCentre)
	}
	b.BustDartAt = rapid.SampledFrom(places).Draw(t, "dart at")
	b.OneDart = rapid.Bool().Draw(t, "one dart")
	if b.measuresFromBust().NoBustDart {
		b.BustDartAt, b.OneDart = "", false
	}
}

func TestMovedDarts(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		b := drawBody(t)
		drawMoved(t, &b)
		if rapid.Bool().Draw(t, "other lines") {
			drawLines(t, &b)
		}
		checkBlock(t, b)
		drawn++
	})
	if least := often.Enough(85); drawn < least {
		t.Errorf("only %d of the styles could be drafted, want %d", drawn, least)
	}
}

// Wherever the darts are, the cloth inside the seam lines without what they take up is the
// same, and so is every edge with its darts folded. What a dart takes up is a triangle with
// its feet, its peak and the point that it was turned about. Edges bent at its mouth move less
// than 1 mm over 60 mm.
func TestTurningADartConservesTheCloth(t *testing.T) {
	body := lanternBlock().measuresFromBust()
	at := body.bustPoint()
	cloth := map[DartPlace]float64{}
	for _, place := range []DartPlace{DartAtShoulder, DartAtNeck, DartAtArmhole, DartAtWaist, DartAtCentre} {
		for _, one := range []bool{false, true} {
			b := body
			b.BustDartAt, b.OneDart, b.Chord = place, one, 0.005
			front, back, err := b.shaped()
			if err != nil {
				t.Fatal(err)
			}
			if err := back.trueBack(); err != nil {
				t.Fatal(err)
			}
			seam := planar.Distance(back.side, back.underarm)
			o, err := b.pivoted(front, seam)
			if err != nil {
				t.Fatalf("%s: %v", place, err)
			}
			if want := map[bool]int{true: 1, false: 2}[one || place == DartAtWaist]; len(o.darts) != want {
				t.Fatalf("%s: %d darts, want %d", place, len(o.darts), want)
			}
			ring := joinLines(o.lines[0].line, o.lines[1].line, o.lines[2].line, o.lines[3].line, o.lines[4].line,
				o.lines[5].line)
			area, turn := plane.Area(orb.Ring(append(ring, ring[0]))), 0.0
			for _, d := range o.darts {
				r, w := planar.Distance(at, d.a), planar.Distance(d.a, d.b)
				near(t, "legs", r, planar.Distance(at, d.b), 1e-6)
				near(t, "sewn legs", planar.Distance(d.apex, d.a), planar.Distance(d.apex, d.b), 1e-6)
				area -= plane.Area(orb.Ring{at, d.a, peakOf(t, o, d), d.b, at})
				turn += 2 * math.Asin(w/2/r)
			}
			c, err := front.cone(at, b.BustDart, seam, 0, b.Chord)
			if err != nil {
				t.Fatal(err)
			}
			near(t, string(place)+": taken up", turn, c.whole(), 1e-9)
			cloth[place] = area
			if was := cloth[DartAtShoulder]; math.Abs(area-was) > 60 {
				t.Errorf("%s: %.0f mm2 of cloth, in the shoulder %.0f", place, area, was)
			}
		}
	}
}

// peakOf is what follows the first foot of a dart on its edge.
func peakOf(t *testing.T, o outlinedPiece, d openDart) orb.Point {
	t.Helper()
	for _, l := range o.lines {
		for i, v := range l.line {
			if l.name == d.edge && planar.Distance(v, d.a) < 1e-6 {
				return l.line[i+1]
			}
		}
	}
	t.Fatalf("no foot on %s", d.edge)
	return orb.Point{}
}

// The lantern block by hand: 33 mm at the side and 40.8 mm at the waist. The bust point lies
// 185 - 10 + 92 = 257 mm below the nape and 92 mm beside the centre; the waist of the front
// 213 + sqrt((sqrt(197^2 + 20.4^2) + 33)^2 - 20.4^2) = 443.2 below it, so that the waist dart
// turns 2 atan(20.4/186.2).
func TestAnglesOfDartsByHand(t *testing.T) {
	b := lanternBlock().measuresFromBust()
	front, back, err := b.shaped()
	if err != nil {
		t.Fatal(err)
	}
	c, err := front.cone(b.bustPoint(), b.BustDart, planar.Distance(back.side, back.underarm), 0, 0.1)
	if err != nil {
		t.Fatal(err)
	}
	level := 213 + math.Sqrt(math.Pow(math.Hypot(197, 20.4)+33, 2)-20.4*20.4)
	near(t, "waist dart", c.waist, 2*math.Atan(20.4/(level-257)), 1e-6)
	// The side seam leans by 20.4 over 230 mm: square to it the bust point lies so far in.
	lean := math.Atan2(20.4, level-213)
	in := (255-92)*math.Cos(lean) - (257-213)*math.Sin(lean)
	near(t, "bust dart", c.bust, 2*math.Atan(16.5/in), 1e-6)
}

func TestMovedDartsRefuse(t *testing.T) {
	var cases []refusal
	for want, spoil := range map[string]func(*BodiceBlock){
		"no bust dart to move":            func(b *BodiceBlock) { b.NoBustDart, b.BustDartAt = true, DartAtNeck },
		"on a centre front that opens":    func(b *BodiceBlock) { b.FrontOnFold, b.BustDartAt = false, DartAtCentre },
		"panels have no darts to move":    func(b *BodiceBlock) { b.PanelsFrom, b.OneDart = DartAtShoulder, true },
		"is no place of a seam of panels": func(b *BodiceBlock) { b.PanelsFrom = DartAtNeck },
		"\"hem\" is no place of a dart":   func(b *BodiceBlock) { b.BustDartAt = "hem" },
		"a dart in the centre would be":   func(b *BodiceBlock) { b.BustSpan, b.BustDartAt = 120, DartAtCentre },
	} {
		b := lanternBlock()
		spoil(&b)
		cases = append(cases, refusal{want, b, want})
	}
	refuses(t, cases)
}
