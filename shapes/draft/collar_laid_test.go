package draft

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

func laidCollar(height, overlap float64) Collar {
	return Collar{Style: FlatCollar, Height: height, OnShoulders: true, Overlap: overlap,
		Allowance: shapes.Allowance{Seam: 6}}
}

// Plain geometry: along a curve that bends one way, square to both centres, a band so high has
// the area height x neck + height^2/2 x turn and an outer edge height x turn longer. Of a
// half, front and back laid together turn by half a circle less both slopes of the shoulder,
// 18 and 22 degrees, and less what the overlap takes: asin(overlap / shoulder).
func TestCollarOnShoulders(t *testing.T) {
	for _, line := range []Neckline{"", RoundNeck} {
		for _, openBack := range []bool{false, true} {
			block := lanternBlock()
			block.Neckline, block.NecklineBack = line, line
			for _, overlap := range []float64{10, 50} {
				const height = 60
				c := laidCollar(height, overlap)
				c.OpenBack = openBack
				p := draftOne(t, c.ToNeck(block))
				neck, _ := p.Edge(neckName)
				outer, _ := p.Edge("outer edge")
				shoulder := 125.0
				turn := math.Pi - 40*math.Pi/180 - math.Asin(overlap/shoulder)
				half := blockNeck(t, block) / 2
				for i := 2; i < len(neck.Line); i++ { // smooth, over the shoulder too: the beak there turns by 45 degrees
					if u, v := runAlong(neck.Line, i-2), runAlong(neck.Line, i-1); dot(u, v) < math.Cos(math.Pi/12) {
						t.Errorf("a kink at %v", neck.Line[i-1])
					}
				}
				near(t, "half the neck", neck.Length(), half, 0.01)
				near(t, "outer edge", outer.Length(), half+height*turn, 0.3)
				near(t, "area", plane.Area(p.Seam), height*half+height*height/2*turn, 0.2*half)
				end, _ := p.Edge("end")
				near(t, "end", end.Length(), height, 0.05)
			}
		}
	}
}

// blockNeck is the finished length of a block's neck, as its seam has it, mm.
func blockNeck(t failer, block BodiceBlock) float64 {
	t.Helper()
	made, err := block.Draft()
	if err != nil {
		t.Fatalf("%v", err)
	}
	_, neck, err := made.Neck.Measure(made.Pieces)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return neck
}

// Away from the shoulder the collar's neck is that of the back and of the front, moved as a
// whole; and with shoulders that meet without a beak it is nothing else.
func TestCollarFollowsTheNecks(t *testing.T) {
	b := lanternBlock()
	b.Neckline, b.NecklineBack = VNeck, ""
	made, err := b.Draft()
	if err != nil {
		t.Fatal(err)
	}
	laid, err := layNecks(made.Necks[1], made.Necks[0], 10, DefaultChord)
	if err != nil {
		t.Fatal(err)
	}
	back, front := made.Necks[1].Line, made.Necks[0].Line
	for i := range len(back) / 2 {
		near(t, "back", planar.Distance(laid.line[i], sub2(back[i], back[0])), 0, 1e-9)
	}
	near(t, "neck", plane.Length(laid.line), plane.Length(back)+plane.Length(front), neckExact)
	// The V is straight, and as steep to its centre as on the block.
	last := len(laid.line) - 1
	v, w := sub2(laid.line[last], laid.line[last-1]), sub2(front[0], front[1])
	l, m := math.Hypot(v[0], v[1]), math.Hypot(w[0], w[1])
	near(t, "slant of the V", dot(v, laid.end)/l, w[0]/m, 1e-6)
}

// Round the corner of a square neck the collar has one too: its outer edge is a mitre.
func TestCollarOnASquareNeck(t *testing.T) {
	laid := laidNeck{line: orb.LineString{{0, 0}, {0, 80}, {-100, 80}, {-100, 0}}, end: orb.Point{-1, 0}}
	out, err := laid.outer(50)
	if err != nil {
		t.Fatal(err)
	}
	want := orb.LineString{{50, 0}, {50, 130}, {-150, 130}, {-150, 0}}
	for i := range want {
		near(t, "corner", planar.Distance(out[i], want[i]), 0, 1e-9)
	}
}

func TestCollarOnShouldersRefuses(t *testing.T) {
	cape := workedCape(0.5)
	refuses(t, []refusal{
		{"no shoulder left", laidCollar(60, 70).ToNeck(lanternBlock()), "70.0 mm is more than half of a shoulder of 125.0"},
		{"no shoulders", laidCollar(60, 10).ToNeck(cape), "has no shoulders that overlap"},
	})
	plain := laidCollar(60, 0)
	plain.Circle = 0.7
	if _, err := plain.ToNeck(cape).Draft(); err != nil {
		t.Errorf("to a neck without shoulders: %v", err)
	}
}

func TestCollarOnShouldersProperties(t *testing.T) {
	drafted := 0
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		block := drawBlock(t)
		lines := []Neckline{"", RoundNeck, SquareNeck, VNeck, BoatNeck}
		block.Neckline = rapid.SampledFrom(lines).Draw(t, "front")
		block.NecklineBack = rapid.SampledFrom(lines).Draw(t, "back")
		block.NeckWidth, block.NeckDepth, block.NeckBackDepth = mm("wide", 0, 25), mm("deep", 0, 60), mm("deep back", 20, 60)
		if _, err := block.Draft(); err != nil {
			return // held by what is refused
		}
		c := laidCollar(mm("height", 20, 150), mm("overlap", 1, 40))
		c.OpenBack = rapid.Bool().Draw(t, "opens behind")
		made, err := c.ToNeck(block).Draft()
		if err != nil {
			return
		}
		drafted++
		p := made.Pieces[0]
		sound(t, p)
		soundGore(t, p)
		sound(t, p.Unfold())
		checkJoins(t, c.ToNeck(block))
		_, neck, err := made.Neck.Measure(made.Pieces)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "neck", neck, blockNeck(t, block), 0.02)
		// Everywhere the outer edge lies as far from the neck as the collar is high, or further at corners.
		inner, _ := p.Edge(neckName)
		outer, _ := p.Edge("outer edge")
		for _, v := range outer.Line {
			if _, _, off := nearestOn(inner.Line, v); off < onCurve*c.Height-0.01 {
				t.Fatalf("%v lies %.3f from the neck, high %.3f", v, off, c.Height)
			}
		}
	})
	if drafted < often.Enough(40) {
		t.Errorf("%d drafted", drafted)
	}
}
