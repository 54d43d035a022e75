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

// bodies runs from a child of four to a bust of 1500 mm: bust, waist, back length,
// shoulder, neck, armhole depth, back and chest width, bust depth and span, mm (measures
// of size charts, from memory).
var bodies = [][10]float64{
	{560, 530, 240, 85, 270, 135, 230, 215, 150, 120},
	{700, 600, 320, 105, 310, 170, 280, 260, 200, 150},
	{880, 680, 405, 122, 360, 208, 344, 324, 258, 180},
	{1100, 920, 420, 128, 400, 228, 400, 385, 300, 215},
	{1300, 1130, 430, 132, 440, 248, 450, 440, 335, 245},
	{1500, 1350, 440, 136, 480, 268, 500, 500, 365, 275},
}

// drawBody is the block of a body between two of them, each measure off by up to 2 %.
func drawBody(t *rapid.T) BodiceBlock {
	at := rapid.Float64Range(0, float64(len(bodies)-1)).Draw(t, "body")
	i := min(int(at), len(bodies)-2)
	var m [10]float64
	for k := range m {
		m[k] = bodies[i][k] + (at-float64(i))*(bodies[i+1][k]-bodies[i][k])
		if k > 0 {
			m[k] *= rapid.Float64Range(0.98, 1.02).Draw(t, "measure")
		}
	}
	return BodiceBlock{
		Bust: m[0], Waist: m[1], BackLength: m[2], Shoulder: m[3], Neck: m[4], ArmholeDepth: m[5], BackWidth: m[6],
		ChestWidth: m[7], BustDepth: m[8], BustSpan: m[9], Ease: 80, WaistEase: 40,
		FrontOnFold: rapid.Bool().Draw(t, "front on fold"), Chord: 0.05,
		Allowance: shapes.Allowance{Seam: 12, Waist: 10},
	}
}

// drawLines gives a block a neckline, an armhole and a waist seam that most bodies have
// room for.
func drawLines(t *rapid.T, b *BodiceBlock) {
	lines := []Neckline{"", RoundNeck, SquareNeck, VNeck, BoatNeck}
	b.Neckline = rapid.SampledFrom(lines).Draw(t, "neckline")
	b.NecklineBack = rapid.SampledFrom(lines).Draw(t, "neckline behind")
	share := func(most float64, of string) float64 { return most * rapid.Float64Range(0, 1).Draw(t, of) }
	b.NeckWidth = share(0.4*b.Shoulder, "neck width")
	b.NeckDepth = share(0.1*b.BackLength, "neck depth")
	b.NeckBackDepth = 0.05*b.BackLength + share(0.2*b.BackLength, "neck depth behind")
	b.ShoulderIn = share(0.3*b.Shoulder, "shoulder in")
	b.ArmholeDrop = rapid.Float64Range(-10, 15).Draw(t, "armhole drop")
	if rapid.Bool().Draw(t, "waist seam moved") {
		b.WaistDrop = rapid.Float64Range(-0.1, 0.3).Draw(t, "waist drop") * b.BackLength
		if b.WaistDrop > 0 {
			b.WaistDropGirth = b.Waist + b.WaistDrop
		}
	}
}

// checkBlock holds a styled block to what it promises: outlines, areas by two sums, seams,
// shoulder and waist as measured, and a cap drafted to the armhole that it has.
func checkBlock(t *rapid.T, b BodiceBlock) Result {
	t.Helper()
	d, err := b.Draft()
	if err != nil {
		t.Skip(err)
	}
	checkJoins(t, b)
	shoulder := 0.0
	for _, p := range d.Pieces {
		soundGore(t, p)
		checkAreas(t, p)
		checkInside(t, p)
		if _, ok := p.Edge("shoulder"); ok {
			s := sideOf(along(p.Name, "shoulder"))
			if err := s.FoldDarts(d.Pieces); err != nil {
				t.Fatal(err)
			}
			_, finished, err := s.Measure(d.Pieces)
			if err != nil {
				t.Fatal(err)
			}
			shoulder += finished
		}
	}
	rest := b.Shoulder - b.NeckWidth - b.ShoulderIn
	near(t, "shoulders", shoulder, 2*rest+shoulderEase*rest/b.Shoulder, 0.1)
	_, waist, err := d.Waist.Measure(d.Pieces)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "waist", waist, b.measuresFromBust().atSeam().Waist+b.WaistEase, 0.5)
	front, back, err := d.armhole()
	if err != nil {
		t.Fatal(err)
	}
	s := Sleeve{CapEase: 15, Bicep: 0.75 * (front + back), Length: 1.2 * (front + back), Hem: 0.5 * (front + back),
		Allowance: b.Allowance}
	made, err := SetIn{Sleeve: s, Bodice: b}.Draft()
	if err != nil {
		t.Skip(err) // front and back armhole differ too much for one cap
	}
	j, err := ArmholeJoin(d, made)
	if err != nil {
		t.Fatal(err)
	}
	steps, err := shapes.SewingOrder(append(d.ToMark(), made.Pieces...), append(d.Joins, j))
	if err != nil {
		t.Fatal(err)
	}
	last := steps[len(steps)-1]
	if last.Join.Name != "armhole" {
		t.Errorf("the last seam is %q", last.Join.Name)
	}
	near(t, "cap in the armhole", last.Difference, 0, 0.5)
	return d
}

func TestLinesOfBodices(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		b := drawBody(t)
		drawLines(t, &b)
		checkBlock(t, b)
		drawn++
	})
	if least := often.Enough(80); drawn < least {
		t.Errorf("only %d of the styles could be drafted, want %d", drawn, least)
	}
}

// What a neckline takes away, by hand. The front of a block has its neck point N, and its
// centre neck C; a V takes away the triangle between its line, the shoulder and what lay
// above, so that of two V necks of other depths d and e the pieces differ by the triangle of
// base N_y and height e - d. A square neck lies below a V of its depth by the same triangle.
func TestNecklinesByHand(t *testing.T) {
	area := func(line Neckline, depth float64) (float64, blockHalf) {
		b := lanternBlock()
		b.Neckline, b.NeckDepth, b.NeckWidth = line, depth, 20
		d, err := b.Draft()
		if err != nil {
			t.Fatal(err)
		}
		front, _, err := b.measuresFromBust().shaped()
		if err != nil {
			t.Fatal(err)
		}
		return plane.Area(d.Pieces[0].Seam), front
	}
	v, half := area(VNeck, 40)
	deeper, low := area(VNeck, 90)
	square, _ := area(SquareNeck, 90)
	// neck/6 + 8 out, and 20 mm on along a shoulder that slopes by 22 degrees
	wide := 370./6 + 8 + 20*math.Cos(22*math.Pi/180)
	near(t, "half the width of the neck", half.neckPoint[1], wide, 1e-9)
	near(t, "a V deeper by 50 mm", v-deeper, wide*50/2, 0.1)
	near(t, "square for V", deeper-square, wide*(low.centreNeck[0]-low.neckPoint[0])/2, 0.1)
}

// The armhole lowered by 20 mm takes both side seams down by 20 mm; the sleeve's cap follows.
func TestArmholeLowered(t *testing.T) {
	b := lanternBlock()
	was := sideSeams(t, b)
	front, back, err := b.Armhole()
	if err != nil {
		t.Fatal(err)
	}
	b.ArmholeDrop, b.ShoulderIn = 20, 25
	now := sideSeams(t, b)
	near(t, "side seam of the back", was-now, 20, 1e-3)
	f, k, err := b.Armhole()
	if err != nil {
		t.Fatal(err)
	}
	if f <= front || k <= back {
		t.Errorf("armholes of %.1f and %.1f, were %.1f and %.1f", f, k, front, back)
	}
}

func sideSeams(t *testing.T, b BodiceBlock) float64 {
	t.Helper()
	for _, p := range mustDraft(t, b) {
		if p.Name == blockBack {
			e, _ := p.Edge("side seam")
			return e.Length()
		}
	}
	return 0
}

// A waist seam half way up to the bust line lies half way between their girths: waist 720 + 40
// and bust 920 + 80 give 880.
func TestWaistSeamRaised(t *testing.T) {
	b := lanternBlock()
	b.WaistDrop = -(b.BackLength - b.ArmholeDepth) / 2.5
	d, err := b.Draft()
	if err != nil {
		t.Fatal(err)
	}
	_, waist, err := d.Waist.Measure(d.Pieces)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "waist seam", waist, 760+240/2.5, 0.1)
	if len(d.Notes) != 1 || !strings.Contains(d.Notes[0].String(), "above the waist and is 856.0 mm round") {
		t.Errorf("notes %v", d.Notes)
	}
}

// A V down to 260 mm below the base of the neck: at its point the cut line crosses the centre
// 12 mm of allowance over the sine of its angle to the fold above the sewn one.
func TestDeepV(t *testing.T) {
	b := lanternBlock()
	b.Neckline, b.NeckDepth = VNeck, 260
	p := mustDraft(t, b)[0]
	front, _, err := b.measuresFromBust().shaped()
	if err != nil {
		t.Fatal(err)
	}
	n, c := front.neckPoint, front.centreNeck
	want := 12 * math.Hypot(c[0]-n[0], n[1]) / n[1]
	top := math.Inf(1)
	for _, v := range p.Cut {
		if v[1] == 0 {
			top = min(top, v[0])
		}
	}
	e, _ := p.Edge("neck")
	near(t, "over the point", e.Line[len(e.Line)-1][0]-top, want, 0.01)
}

// The facing of a square neck has a mitred corner: of two strips w wide along legs of a and
// b, its area is w (a + b) + w^2 where its ends are square to them.
func TestFacingOfASquareNeck(t *testing.T) {
	b := lanternBlock()
	b.Neckline, b.NeckWidth, b.NeckDepth = SquareNeck, 20, 30
	d, err := Facing{Of: b, At: AtNeck, Width: 40, Seam: 10}.Draft()
	if err != nil {
		t.Fatal(err)
	}
	front, _, err := b.measuresFromBust().shaped()
	if err != nil {
		t.Fatal(err)
	}
	legs := plane.Length(front.neckLine(0.1))
	// The end at the shoulder leans by its slope of 22 degrees, from there on by less and less,
	// which shears the strip; its depth there is 40 cos 22 to 40 mm.
	least, most := 40*math.Cos(frontSlope)*legs, 40*legs+40*40.
	if a := plane.Area(d.Pieces[0].Seam); a < least || a > most {
		t.Errorf("area %.0f, want between %.0f and %.0f", a, least, most)
	}
	if n := len(d.Pieces[0].Edges[2].Line); n < 3 {
		t.Errorf("its free edge has %d points and no corner: %v", n, d.Pieces[0].Edges[2])
	}
}

func TestBodiceStyleRefuses(t *testing.T) {
	var cases []refusal
	for want, spoil := range map[string]func(*BodiceBlock){
		"leave 5.0 mm of a shoulder of 125.0 mm, needs 15 mm": func(b *BodiceBlock) { b.NeckWidth, b.ShoulderIn = 80, 40 },
		"armhole raised by 40.0 mm would bind":                func(b *BodiceBlock) { b.ArmholeDrop = -40 },
		"an armhole lowered by 120.0 mm leaves":               func(b *BodiceBlock) { b.ArmholeDrop = 120 },
		"needs the girth of the body there":                   func(b *BodiceBlock) { b.WaistDrop = 50 },
		"neckline \"keyhole\" is no line":                     func(b *BodiceBlock) { b.Neckline = "keyhole" },
		"of its centre above the waist seam, needs 40 mm": func(b *BodiceBlock) {
			b.Neckline, b.NeckDepth = VNeck, 360
		},
		"neck depth is -1 mm": func(b *BodiceBlock) { b.NeckDepth = -1 },
		"comes within 10 mm of the point of the dart that opens": func(b *BodiceBlock) {
			b.Neckline, b.NeckDepth, b.NeckWidth = SquareNeck, 200, 48
		},
	} {
		b := lanternBlock()
		spoil(&b)
		cases = append(cases, refusal{want, b, want})
	}
	refuses(t, cases)
}
