package draft

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/shapes/plane"
)

// The corset by hand with wedges that take all. The half body without ease is 402 mm round
// at the bust less the waist's 305: 430 - 305 = 125, under the bust 360 - 305 = 55 (780 less
// 10 and 50, halved, is 360), over it 400 - 305 = 95. Points at the under-bust leave 70 to
// the wedges at the bust and 40 at the over-bust, half to each of two. The high hip of 880
// is 410 a half, 105 more than the waist; with its point at the waist, 110 above it, the
// wedge there opens by 105/110 of a radian: L = 110 - 30 (the side's rise) = 80 mm long, an
// area of 105/110 x 80^2/2 = 3054.5 mm2 (a sector).
func TestGussetsByHand(t *testing.T) {
	c := lanternCorset()
	c.Shares = nil
	c.Chord, c.BustGusset, c.HipGusset, c.MidBones = 0.01, 150, 80, false
	b, err := c.body()
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []struct{ at, want float64 }{{70, 70}, {0, 40}, {150, 0}, {235, 0}, {345, 105}, {290, 52.5}} {
		near(t, "wedges", b.taken(x.at), x.want, 1e-9)
	}
	d, err := c.Draft()
	if err != nil {
		t.Fatal(err)
	}
	hip := pieceNamed(d.Pieces, "side panel hip gusset")
	if hip.Count != 2 || hip.Pair {
		t.Fatalf("%+v", hip)
	}
	// The slit lies in the middle of the panel, a little off the side, where the edge is level.
	near(t, "sector", plane.Area(hip.Seam), 105.0/110*80*80/2, 20)
	for _, name := range []string{"front panel bust gusset", "side front panel bust gusset"} {
		if p := pieceNamed(d.Pieces, name); p.Count != 2 {
			t.Errorf("there is no %s", name)
		}
	}
}

// drawGussets draws wedges that go with the figure.
func drawGussets(t *rapid.T, c *Corset) {
	if c.Facing < leastFacing {
		c.Facing = 0
	}
	f := c.Figure
	if rapid.Bool().Draw(t, "bust gussets") {
		bust, under := f.OverBustUp-f.BustUp+leastLevel, f.OverBustUp-f.UnderBustUp
		c.BustGusset = rapid.Float64Range(bust, under).Draw(t, "bust gusset")
	}
	if rapid.Bool().Draw(t, "hip gussets") || c.BustGusset == 0 {
		c.HipGusset = rapid.Float64Range(leastSlit, f.HighHipDown-c.SideRise).Draw(t, "hip gusset")
	}
	c.GussetShare = rapid.Float64Range(0.2, 1).Draw(t, "share")
}

// With wedges set in the body is as wide at every level as without, and between levels it
// lies between them; each side of a wedge is as long as its slit, all panels are sound.
func TestGussetProperties(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		c := drawCorset(t)
		drawStyles(t, &c.PanelledBody)
		drawGussets(t, &c)
		b, err := c.body()
		if err != nil {
			t.Skip(err)
		}
		d, err := c.Draft()
		if err != nil {
			t.Skip(err)
		}
		drawn++
		checkJoins(t, c)
		for _, p := range d.Pieces {
			sound(t, p)
			checkAreas(t, p)
		}
		for j := 1; j < len(b.levels); j++ {
			above, below := b.levels[j-1], b.levels[j]
			for s := range 11 {
				x := above.x + (below.x-above.x)*float64(s)/10
				girth := 2 * b.taken(x)
				for i := range b.shares {
					lower, upper := b.bounds(i, x)
					girth += 2 * (upper - lower)
				}
				least, most := min(above.girth, below.girth), max(above.girth, below.girth)
				if girth < least-1e-6 || girth > most+1e-6 || s == 0 && math.Abs(girth-above.girth) > 1e-6 {
					t.Fatalf("%s to %s: %.3f round at %.1f, %.3f to %.3f", above.name, below.name, girth, x, above.girth,
						below.girth)
				}
			}
		}
		for _, g := range b.gussets {
			slit := plane.Length(b.slit(g))
			p := pieceNamed(d.Pieces, b.called(g))
			for _, name := range []string{"lower side", "upper side"} {
				side, _ := p.Edge(name)
				near(t, p.Name, side.Length(), slit, 1e-6)
			}
			if top := b.slit(g)[1][0]; g.bust { // widest at the bust, or at its top
				near(t, p.Name, widest(p.Seam), max(g.at(top), g.at(max(top, b.levels[atBust].x))), 0.5)
			}
		}
	})
	if drawn < often.Enough(30) {
		t.Errorf("only %d were drawn", drawn)
	}
}

// widest is how wide a ring is across the grain.
func widest(r orb.Ring) float64 {
	b := plane.Bounds(r)
	return b.Max[1] - b.Min[1]
}

func TestGussetsThatAreRefused(t *testing.T) {
	var cases []refusal
	for want, spoil := range map[string]func(*Corset){
		"bust gusset is 75.0 mm: its point must lie from 80.0 mm to 150.0": func(c *Corset) { c.BustGusset = 75 },
		"bust gusset is 160.0 mm: its point must lie from 80.0 mm to 150.": func(c *Corset) { c.BustGusset = 160 },
		"hip gusset is 85.0 mm: its point would lie above the waist":       func(c *Corset) { c.HipGusset = 85 },
		"hip gusset is 20.0 mm, must be at least 40 mm":                    func(c *Corset) { c.HipGusset = 20 },
		"gussets take 1.5 of the spring":                                   func(c *Corset) { c.GussetShare = 1.5 },
		"gussets take 0.5 of the spring, and there are none":               func(c *Corset) { c.GussetShare = 0.5 },
		"a hip gusset would be 0.0 mm wide at the high hip, must be 8 mm": func(c *Corset) {
			c.HipGusset, c.Figure.HighHip, c.Reduction = 80, 650, 0
		},
	} {
		c := lanternCorset()
		spoil(&c)
		cases = append(cases, refusal{want, c, want})
	}
	s := lanternStrapless()
	s.HipGusset = 60
	cases = append(cases, refusal{"waist", s, "a hip gusset of 60.0 mm on a body that ends at the waist"})
	c := lanternCorset()
	c.MidBones, c.Shares, c.HipGusset = false, nil, 80
	cases = append(cases, refusal{"facing", Facing{Of: c, At: AtTop, Width: 40, Seam: 10},
		"its edges run over gussets, which a facing does not follow"})
	refuses(t, cases)
}
