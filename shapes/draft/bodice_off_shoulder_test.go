package draft

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// offShoulder is a block of our own gown with a neckline off the shoulder.
func offShoulder(below float64) BodiceBlock {
	b := lanternBlock()
	b.Neckline, b.NecklineBack, b.OffShoulder, b.NeckDepth = OffShoulderNeck, OffShoulderNeck, below, 20
	return b
}

// Whatever the body, darts and panels: both armholes are shorter by what is bare, the cap goes
// into them, and the neckline runs squarely into the seam on both sides of it.
func TestOffShoulder(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		b := drawBody(t)
		plain := b
		b.Neckline, b.NecklineBack = OffShoulderNeck, OffShoulderNeck
		b.OffShoulder = b.ArmholeDepth * rapid.Float64Range(0.25, 0.4).Draw(t, "below the tip")
		b.NeckDepth = rapid.Float64Range(0, 15).Draw(t, "neck depth")
		switch rapid.IntRange(0, 3).Draw(t, "style") {
		case 1:
			b.PanelsFrom = DartAtArmhole
		case 2:
			b.OneDart = !b.measuresFromBust().NoBustDart
		case 3:
			if !b.measuresFromBust().NoBustDart {
				b.BustDartAt = rapid.SampledFrom([]DartPlace{DartAtNeck, DartAtArmhole, DartAtWaist}).Draw(t, "dart")
			}
		}
		d, err := b.Draft()
		if err != nil {
			t.Skip(err)
		}
		drawn++
		checkJoins(t, b)
		for _, p := range d.Pieces {
			soundGore(t, p)
			checkAreas(t, p)
			checkInside(t, p)
		}
		front, back, err := d.armhole()
		if err != nil {
			t.Fatal(err)
		}
		f, k, err := plain.Armhole()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "front armhole", front, f-b.OffShoulder, 0.5)
		near(t, "back armhole", back, k-b.OffShoulder, 0.5)
		if b.BustDartAt != DartAtArmhole && b.PanelsFrom == "" {
			for _, p := range d.Pieces {
				near(t, p.Name+" corner at the armhole", corner(t, p, "armhole", "neck"), 0, 0.06)
			}
		}
		s := Sleeve{CapEase: 15, Bicep: 0.75 * (f + k), Length: 1.2 * (f + k), Hem: 0.5 * (f + k), Chord: 0.02}
		made, err := SetIn{Sleeve: s, Bodice: b}.Draft()
		if err != nil {
			t.Skip(err)
		}
		j, err := ArmholeJoin(d, made)
		if err != nil {
			t.Fatal(err)
		}
		steps, err := shapes.SewingOrder(append(d.ToMark(), made.Pieces...), []shapes.Join{j})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "cap in the armhole", steps[0].Difference, 0, 0.5)
		near(t, "corner at the front", corner(t, made.Pieces[0], "front cap", upperEdge), 0, 0.06)
		near(t, "corner at the back", corner(t, made.Pieces[0], "back cap", upperEdge), 0, 0.06)
	})
	if least := often.Enough(60); drawn < least {
		t.Errorf("only %d necklines could be drafted, want %d", drawn, least)
	}
}

// corner is how far from a right angle two edges of a piece meet, rad.
func corner(t failer, p shapes.Piece, first, second string) float64 {
	a, okA := p.Edge(first)
	b, okB := p.Edge(second)
	if !okA || !okB {
		t.Fatalf("%s has no %s and %s", p.Name, first, second)
	}
	u, v := a.Line, b.Line
	if u[0] == v[len(v)-1] {
		u, v = v, u
	}
	n := len(u)
	d, e := sub2(u[n-1], u[n-2]), sub2(v[1], v[0])
	return math.Asin(math.Abs(dot(d, e)) / math.Hypot(d[0], d[1]) / math.Hypot(e[0], e[1]))
}

// sweptBy is the area that a cubic sweeps about the origin, half the integral of x dy - y dx:
// exact, and half a cross product for a straight line.
func sweptBy(c cubic) float64 {
	cross := func(i, k int) float64 { return c[i][0]*c[k][1] - c[i][1]*c[k][0] }
	return (6*cross(0, 1) + 3*cross(0, 2) + cross(0, 3) + 3*cross(1, 2) + 3*cross(1, 3) + 6*cross(2, 3)) / 20
}

// upTo is the part of a cubic up to t, by de Casteljau.
func upTo(c cubic, t float64) cubic {
	mix := func(a, b orb.Point) orb.Point { return orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])} }
	a, b, d := mix(c[0], c[1]), mix(c[1], c[2]), mix(c[2], c[3])
	e, f := mix(a, b), mix(b, d)
	return cubic{c[0], a, e, mix(e, f)}
}

// What is cut off a sleeve by closed formulas: the ends of both halves of its cap, and what its
// upper edge, a cubic, dips into it.
func TestCapCutOffByFormulas(t *testing.T) {
	s := lanternSleeve(t, StraightSleeve)
	s.Chord = 0.005
	area := func(s Sleeve) float64 { return plane.Area(mustDraft(t, s)[0].Seam) }
	whole := area(s)
	c, err := s.cap()
	if err != nil {
		t.Fatal(err)
	}
	s.OffShoulder = 70
	end := func(width, armhole float64) (part cubic, in orb.Point) {
		half := capHalf(c.height, width)
		want := plane.Length(chain(0.001, half)) * 70 / armhole
		at := bisect(func(t float64) float64 { return plane.Length(chain(0.001, upTo(half, t))) - want }, 0, 1, 40)
		part = upTo(half, at)
		way := sub2(part[3], part[2])
		l := math.Hypot(way[0], way[1])
		return part, orb.Point{way[1] / l, -way[0] / l}
	}
	front, inFront := end(c.front, s.FrontArmhole)
	back, inBack := end(c.back, s.BackArmhole)
	f, b := orb.Point{front[3][0], -front[3][1]}, back[3]
	k := math.Hypot(f[0]-b[0], f[1]-b[1]) / 3
	edge := cubic{b, {b[0] + k*inBack[0], b[1] + k*inBack[1]}, {f[0] + k*inFront[0], f[1] - k*inFront[1]}, f}
	off := math.Abs(sweptBy(front) + sweptBy(edge) + sweptBy(back)) // round from the crown and back to it
	near(t, "cut off", whole-area(s), off, 5)
	lower, _ := mustDraft(t, s)[0].Edge("front cap")
	near(t, "front cap", lower.Length(), (s.FrontArmhole-70)*(1+30/(s.FrontArmhole+s.BackArmhole)), 0.1)
}

// By hand: the armholes of our block are 70 mm shorter, the neckline lies 20 mm lower at the
// centre than at the armhole, and no shoulder is left.
func TestOffShoulderByHand(t *testing.T) {
	b := offShoulder(70)
	d, err := b.Draft()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range d.Pieces {
		if _, ok := p.Edge("shoulder"); ok {
			t.Errorf("%s has a shoulder", p.Name)
		}
	}
	neck, _ := d.Pieces[0].Edge("neck")
	near(t, "centre below the armhole", neck.Line[len(neck.Line)-1][0]-neck.Line[0][0], 20, 1e-3)
	if d.Necks != nil || len(d.Neck.Edges) > 0 {
		t.Error("a neck for collars, which would lie over the sleeves")
	}
	if len(d.Notes) != 1 || !strings.Contains(d.Notes[0].String(), "70.0 mm below the tips of the shoulders") {
		t.Errorf("notes %v", d.Notes)
	}
	facing, err := Facing{Of: b, At: AtNeck, Width: 30}.Draft()
	if err != nil {
		t.Fatal(err)
	}
	if len(facing.Pieces) != 2 {
		t.Errorf("%d pieces of facing", len(facing.Pieces))
	}
}

func TestOffShoulderRefuses(t *testing.T) {
	var cases []refusal
	for want, spoil := range map[string]func(*BodiceBlock){
		"only that of the front is":                   func(b *BodiceBlock) { b.NecklineBack = RoundNeck },
		"and is not one off the shoulder":             func(b *BodiceBlock) { b.Neckline, b.NecklineBack = "", "" },
		"leaves no shoulder to be made narrower":      func(b *BodiceBlock) { b.ShoulderIn = 10 },
		"no shoulder for the seam of the panels":      func(b *BodiceBlock) { b.PanelsFrom = DartAtShoulder },
		"no shoulder for the bust dart":               func(b *BodiceBlock) { b.BustDartAt = DartAtShoulder },
		"10.0 mm below the tip of the shoulder slips": func(b *BodiceBlock) { b.OffShoulder = 10 },
		"of the armhole of the front, needs 60 mm":    func(b *BodiceBlock) { b.OffShoulder = 170 },
		"above the bust points, needs 30 mm":          func(b *BodiceBlock) { b.NeckDepth = 130 },
	} {
		b := offShoulder(70)
		spoil(&b)
		cases = append(cases, refusal{want, b, want})
	}
	pleated := lanternSleeve(t, LegOfMuttonSleeve)
	pleated.OffShoulder = 70
	two := lanternSleeve(t, TwoPieceSleeve)
	two.OffShoulder = 70
	deep := lanternSleeve(t, StraightSleeve)
	deep.OffShoulder = 170
	refuses(t, append(cases, refusal{"pleats", pleated, "has no pleats"}, refusal{"two", two, "has no cap to cut off"},
		refusal{"deep", deep, "of an armhole, needs 60 mm"}))
}
