package draft

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// lanternFigure is the body of our own demonstration gown.
func lanternFigure() Figure {
	return Figure{OverBust: 860, Bust: 920, UnderBust: 780, Waist: 720, HighHip: 880, OverBustUp: 235, BustUp: 165,
		UnderBustUp: 85, HighHipDown: 110}
}

func lanternCorset() Corset {
	return Corset{Reduction: 60, PanelledBody: PanelledBody{
		Figure: lanternFigure(), Panels: 10, Ease: -10, LacingGap: 50, Facing: 40,
		FrontDip: 25, SideDip: 30, BackDip: 60, SideRise: 30, BackRise: 10, Channel: 9, MidBones: true,
		Allowance: shapes.Allowance{Seam: 12, Waist: 12, Hem: 10},
	}}
}

func drawFigure(t *rapid.T) Figure {
	f := Figure{Waist: rapid.Float64Range(560, 1150).Draw(t, "waist")}
	f.UnderBust = f.Waist + rapid.Float64Range(0, 120).Draw(t, "under-bust over waist")
	f.Bust = f.UnderBust + rapid.Float64Range(30, 260).Draw(t, "bust over under-bust")
	f.OverBust = f.Bust - rapid.Float64Range(0, 120).Draw(t, "over-bust under bust")
	f.HighHip = f.Waist + rapid.Float64Range(0, 220).Draw(t, "high hip over waist")
	f.UnderBustUp = rapid.Float64Range(60, 130).Draw(t, "under-bust's height")
	f.BustUp = f.UnderBustUp + rapid.Float64Range(50, 110).Draw(t, "bust's height")
	f.OverBustUp = f.BustUp + rapid.Float64Range(40, 110).Draw(t, "over-bust's height")
	f.HighHipDown = rapid.Float64Range(80, 140).Draw(t, "high hip's depth")
	return f
}

func drawCorset(t *rapid.T) Corset {
	f := drawFigure(t)
	return Corset{Reduction: f.Waist * rapid.Float64Range(0, 0.15).Draw(t, "reduction"), PanelledBody: PanelledBody{
		Figure: f, Panels: 2 * rapid.IntRange(3, 6).Draw(t, "panels a side"),
		Ease: rapid.Float64Range(-30, 30).Draw(t, "ease"), LacingGap: rapid.Float64Range(0, 80).Draw(t, "gap"),
		Facing:      rapid.Float64Range(0, 40).Draw(t, "facing"),
		FrontOnFold: rapid.Bool().Draw(t, "front on fold"),
		FrontDip:    rapid.Float64Range(0, 40).Draw(t, "front dip"),
		SideDip:     rapid.Float64Range(0, 60).Draw(t, "side dip"),
		BackDip:     rapid.Float64Range(0, 90).Draw(t, "back dip"),
		SideRise:    rapid.Float64Range(0, 40).Draw(t, "side rise"),
		BackRise:    rapid.Float64Range(0, 40).Draw(t, "back rise"),
		Channel:     rapid.Float64Range(0, 12).Draw(t, "channel"), Chord: 0.4, // coarse, for speed
		HemRaise: rapid.Float64Range(0, 20).Draw(t, "hem raise"),
		Allowance: shapes.Allowance{
			Seam: rapid.Float64Range(0, 20).Draw(t, "seam"), Hem: rapid.Float64Range(0, 20).Draw(t, "hem"),
		},
	}}
}

// widthAt is the cloth inside a ring on the line across at x.
func widthAt(r orb.Ring, x float64) float64 {
	var ys []float64
	for i := 1; i < len(r); i++ {
		a, b := r[i-1], r[i]
		if (a[0] <= x) != (b[0] <= x) {
			ys = append(ys, a[1]+(b[1]-a[1])*(x-a[0])/(b[0]-a[0]))
		}
	}
	slices.Sort(ys)
	sum := 0.0
	for i := 0; i+1 < len(ys); i += 2 {
		sum += ys[i+1] - ys[i]
	}
	return sum
}

// checkAreas holds the area of a piece against two others: that of an outside
// library (simplefeatures), and a sum of widths over lines across, the rule of
// Cavalieri. Then the cut area against Steiner's formula for parallel outlines:
// seam area, allowance times edge, and at the corners at most a mitre's worth.
func checkAreas(t failer, p shapes.Piece) {
	t.Helper()
	var flat []float64
	for _, v := range p.Cut {
		flat = append(flat, v[0], v[1])
	}
	poly := geom.NewPolygon([]geom.LineString{geom.NewLineString(geom.NewSequence(flat, geom.DimXY))})
	if a := poly.Area(); math.Abs(a-p.Area()) > 1e-6*a {
		t.Errorf("%s: area %.3f, by the library %.3f", p.Name, p.Area(), a)
	}
	b := plane.Bounds(p.Cut)
	const strips = 400
	h, sum := (b.Max[0]-b.Min[0])/strips, 0.0
	for i := range strips {
		sum += h * widthAt(p.Cut, b.Min[0]+(float64(i)+0.5)*h)
	}
	if math.Abs(sum-p.Area()) > 4e-3*p.Area() {
		t.Errorf("%s: area %.1f, by lines across %.1f", p.Name, p.Area(), sum)
	}
	steiner, corners, widest := plane.Area(p.Seam), 0.0, 0.0
	for _, e := range p.Edges {
		steiner += e.Allowance * e.Length()
		widest = max(widest, e.Allowance)
	}
	// A bend adds or takes at most a^2 tan(half of it); a mitre is squared off
	// beyond the limit. A whole turn shared by corners, and the waists of curves.
	corners = widest * widest * (float64(len(p.Edges))*plane.MitreLimit + math.Pi*2)
	if d := p.Area() - steiner; math.Abs(d) > corners+plane.Lattice*plane.Length(p.Cut) {
		t.Errorf("%s: cut area %.1f is %.1f from seam area and allowances, corners give at most %.1f", p.Name, p.Area(),
			d,
			corners)
	}
}

func TestCorsetProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCorset(t)
		c.Figure.OverBust += rapid.Float64Range(0, 20).Draw(t, "over-bust grown") // past the bust too
		pieces, err := piecesOf(c)
		if err != nil {
			t.Skip(err) // these measures do not go together
		}
		checkJoins(t, c)
		for _, p := range pieces {
			soundGore(t, p)
			checkAreas(t, p)
			if p.OnFold {
				sound(t, p.Unfold())
			}
		}
		checkGirths(t, c)
		checkBetween(t, c)
	})
}

// checkBetween holds the girth between two levels to lie between theirs: a body that
// bulges between its measures stands off, one that draws in binds.
func checkBetween(t failer, c Corset) {
	t.Helper()
	b, err := c.body()
	if err != nil {
		t.Fatalf("%v", err)
	}
	for j := 1; j < len(b.levels); j++ {
		above, below := b.levels[j-1], b.levels[j]
		for s := range 20 {
			x, girth := above.x+(below.x-above.x)*float64(s)/20, 0.0
			for i := range b.shares {
				lower, upper := b.bounds(i, x)
				girth += 2 * (upper - lower)
			}
			least, most := min(above.girth, below.girth), max(above.girth, below.girth)
			if girth < least-1e-6 || girth > most+1e-6 {
				t.Errorf("%s to %s: %.2f round at %.1f, must lie from %.2f to %.2f", above.name, below.name, girth, x,
					least, most)
			}
		}
	}
}

// checkGirths holds the widths of all panels as drawn, at each level that crosses
// all of them, to the girth as made.
func checkGirths(t failer, c Corset) {
	t.Helper()
	b, err := c.body()
	if err != nil {
		t.Fatalf("%v", err)
	}
	for _, l := range c.Figure.levels() {
		want := l.girth + c.Ease - c.LacingGap
		if l.name == "waist" {
			want = l.girth - c.Reduction - c.LacingGap
		}
		sum, whole := 0.0, true
		for i := range b.shares {
			ring := strung(b.edges(i))
			bottom, top := plane.Bounds(b.edges(i)[1].Line), plane.Bounds(b.edges(i)[3].Line)
			whole = whole && l.x > top.Max[0] && l.x < bottom.Min[0]
			sum += 2 * widthAt(ring, l.x)
		}
		if whole {
			near(t, l.name, sum-2*c.Facing, want, 0.5)
		}
	}
}

// Grown by any measure the corset takes more cloth, drawn in or raised less. The
// body stays fullest at the bust: no smooth curve through the levels without
// overshoot grows everywhere with each of them, and an over-bust grown past the bust
// tilts the curve there and draws it in below.
func TestCorsetMonotone(t *testing.T) {
	total := func(c Corset) (float64, error) {
		pieces, err := piecesOf(c)
		sum := 0.0
		for _, p := range pieces {
			whole := p.Unfold()
			sum += whole.Area() * float64(p.Count)
		}
		return sum, err
	}
	const grown = 10.0 // mm
	rapid.Check(t, func(t *rapid.T) {
		c := drawCorset(t)
		// Deep dips cut away the girths that are to grow.
		c.FrontDip, c.SideDip, c.BackDip, c.Chord = c.FrontDip/4, c.SideDip/4, c.BackDip/4, 0.2
		c.Figure.OverBust -= grown
		was, err := total(c)
		if err != nil {
			t.Skip(err)
		}
		for what, change := range someOf(t, map[string]func(*Corset){
			"over-bust":       func(c *Corset) { c.Figure.OverBust += grown },
			"bust":            func(c *Corset) { c.Figure.Bust += grown },
			"under-bust":      func(c *Corset) { c.Figure.UnderBust += grown },
			"waist":           func(c *Corset) { c.Figure.Waist += grown },
			"high hip":        func(c *Corset) { c.Figure.HighHip += grown },
			"height":          func(c *Corset) { c.Figure.OverBustUp += grown },
			"depth":           func(c *Corset) { c.Figure.HighHipDown += grown },
			"ease":            func(c *Corset) { c.Ease += 5 },
			"facing":          func(c *Corset) { c.Facing += 5 },
			"less reduction":  func(c *Corset) { c.Reduction -= 5 },
			"less gap":        func(c *Corset) { c.LacingGap -= 5 },
			"less dip":        func(c *Corset) { c.FrontDip -= 5 },
			"less side dip":   func(c *Corset) { c.SideDip -= 5 },
			"less rise":       func(c *Corset) { c.BackRise -= 5 },
			"less hem raised": func(c *Corset) { c.HemRaise -= 5 },
		}) {
			more := c
			change(&more)
			now, err := total(more)
			if err != nil {
				continue // at the edge of what can be drafted
			}
			if now <= was {
				t.Errorf("%s: area %.1f, was %.1f", what, now, was)
			}
		}
	})
}

func TestCorsetPieces(t *testing.T) {
	c := lanternCorset()
	for panels, names := range map[int][]string{
		6: {"front panel", "side panel", "back panel"},
		8: {"front panel", "side front panel", "side back panel", "back panel"},
		12: {"centre front panel", "front panel", "side front panel", "side back panel", "back panel",
			"centre back panel"},
	} {
		c.Panels, c.Facing = panels, 30
		var got []string
		copies := 0
		for _, p := range mustDraft(t, c) {
			got = append(got, p.Name)
			copies += p.Count
			if len(p.Inside) < 3 {
				t.Errorf("%s: %d lines inside, wants its boning channels", p.Name, len(p.Inside))
			}
			checkInside(t, p)
		}
		if d := cmp.Diff(names, got); d != "" || copies != panels {
			t.Errorf("%d copies: %s", copies, d)
		}
	}
}

// checkInside holds the lines marked inside a piece to lie within its cut line;
// they may end on it where the edge has no allowance.
func checkInside(t failer, p shapes.Piece) {
	t.Helper()
	for _, line := range p.Inside {
		for i := 1; i < len(line); i++ {
			for _, share := range []float64{0.02, 0.5, 0.98} {
				at := orb.Point{line[i-1][0] + share*(line[i][0]-line[i-1][0]),
					line[i-1][1] + share*(line[i][1]-line[i-1][1])}
				if !planar.RingContains(p.Cut, at) {
					t.Fatalf("%s: a line inside leaves the piece at %v", p.Name, at)
				}
			}
		}
	}
}

// Widths by hand. Waist 720 - 60 - 50 = 610, half 305 mm; five panels share it
// 0.19, 0.20, 0.22, 0.20, 0.19: the side panel is 67.1 mm there. At the bust 920 -
// 10 - 50 = 860, half 430, 125 mm more: its seams take 0.20 and 0.16 of that, half
// on its side: 67.1 + 125 (0.36)/2 = 89.6.
func TestCorsetByHand(t *testing.T) {
	b, err := lanternCorset().body()
	if err != nil {
		t.Fatal(err)
	}
	side := strung(b.edges(2))
	near(t, "side panel at the waist", widthAt(side, 235), 67.1, 0.01)
	near(t, "side panel at the bust", widthAt(side, 70), 89.6, 0.01)
}

func TestCorsetLining(t *testing.T) {
	c := lanternCorset()
	lining := c
	lining.HemRaise, lining.Channel, lining.MidBones = 10, 0, false
	out, in := mustDraft(t, c), mustDraft(t, lining)
	for i := range out {
		a, _ := out[i].CutSize()
		b, _ := in[i].CutSize()
		if in[i].Area() >= out[i].Area() || math.Abs(a-b-10) > 1 {
			t.Errorf("%s: %.1f and %.1f long", out[i].Name, a, b)
		}
	}
	checkJoins(t, lining)
}

func TestCorsetRefuses(t *testing.T) {
	var cases []refusal
	for want, spoil := range map[string]func(*Corset){
		"panels: 7, must be 6, 8, 10 or 12":                   func(c *Corset) { c.Panels = 7 },
		"bust is 0 mm":                                        func(c *Corset) { c.Figure.Bust = 0 },
		"bust lies -5.0 mm below the over-bust":               func(c *Corset) { c.Figure.BustUp = 240 },
		"high hip's depth is 0 mm: a corset ends below":       func(c *Corset) { c.Figure.HighHipDown = 0 },
		"reduction of 150.0 mm is more than a fifth":          func(c *Corset) { c.Reduction = 150 },
		"ease of 120.0 mm is more than 12 % of the over-bust": func(c *Corset) { c.Ease = 120 },
		"centre front cannot both lie on a fold and open": func(c *Corset) {
			c.FrontOnFold,
				c.FrontOpening = true, true
		},
		"facing is 0.5 mm, must be at least 1 mm, or 0 for none": func(c *Corset) { c.Facing = 0.5 },
		"a facing of 80.0 mm covers the back panel of 58.0 mm":   func(c *Corset) { c.Facing = 80 },
		"front dip is 160.0 mm: the top edge would lie below":    func(c *Corset) { c.FrontDip = 160 },
		"side rise is 120.0 mm: the lower edge would lie":        func(c *Corset) { c.SideRise = 120 },
		"2 shares for 5 panels a side": func(c *Corset) {
			c.Shares = []float64{0.5,
				0.5}
		},
		"shares sum to 1.1": func(c *Corset) {
			c.Shares = []float64{0.3,
				0.2, 0.2, 0.2, 0.2}
		},
		"shares put the bust at 0.60": func(c *Corset) {
			c.Shares = []float64{0.6,
				0.1, 0.1, 0.1, 0.1}
		},
		"side panel is 6.1 mm wide at the waist": func(c *Corset) {
			c.Shares = []float64{0.3,
				0.2, 0.02, 0.28, 0.2}
		},
		"boning channels of 16.0 mm take 63.0 mm":                        func(c *Corset) { c.Channel = 16 },
		"bust of 500.0 mm, the girth at its fullest":                     func(c *Corset) { c.Figure.Bust = 500 },
		"channel width is 40.0 mm":                                       func(c *Corset) { c.Channel = 40 },
		"ease of -60.0 mm and a lacing gap of 700.0 mm leave nothing of": func(c *Corset) { c.LacingGap = 700 },
		"more than half a right angle":                                   func(c *Corset) { c.Figure.HighHip = 2600 },
		"seam allowance is -1 mm":                                        func(c *Corset) { c.Allowance.Seam = -1 },
	} {
		c := lanternCorset()
		spoil(&c)
		cases = append(cases, refusal{want, c, want})
	}
	refuses(t, cases)
}

func lanternStrapless() StraplessBodice {
	f := lanternFigure()
	f.HighHipDown, f.HighHip = 0, 0
	return StraplessBodice{PanelledBody: PanelledBody{
		Figure: f, Panels: 8, Ease: -15, FrontOnFold: true, FrontDip: 20, SideDip: 40, BackDip: 70, Channel: 9,
		Allowance: shapes.Allowance{Seam: 12, Waist: 10, Hem: 15},
	}}
}

// A bodice that ends at the waist has a waist edge all round, as long as the waist
// with its ease, front half counted twice, and a seam at centre back for the zip.
func TestStraplessBodice(t *testing.T) {
	s := lanternStrapless()
	sum := 0.0
	for _, p := range mustDraft(t, s) {
		e, ok := p.Edge("waist")
		if !ok || e.Kind != shapes.Waist {
			t.Fatalf("%s has no waist", p.Name)
		}
		sum += 2 * e.Length() // the front is one half on a fold
	}
	near(t, "waist", sum, 720-15, 0.05)
	steps := checkJoins(t, s)
	if last := steps[len(steps)-1]; last.Join.Name != "centre back" || len(steps) != 4 {
		t.Errorf("%d seams, the last is %q", len(steps), last.Join.Name)
	}
	s.LacingGap = 40
	refuses(t, []refusal{{"gap", s, "a lacing gap of 40.0 mm is given without lacing"}})
}

func TestStraplessProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCorset(t)
		s := StraplessBodice{PanelledBody: c.PanelledBody, Laced: rapid.Bool().Draw(t, "laced")}
		s.LacingGap, s.SideRise, s.BackRise, s.Chord = 0, 0, 0, 0
		if rapid.Bool().Draw(t, "to the waist") {
			s.Figure.HighHipDown = 0
		}
		pieces, err := piecesOf(s)
		if err != nil {
			t.Skip(err)
		}
		checkJoins(t, s)
		for _, p := range pieces {
			soundGore(t, p)
			checkAreas(t, p)
		}
	})
}

// strung is the ring of edges that follow each other.
func strung(edges []shapes.Edge) orb.Ring {
	var ring orb.Ring
	for _, e := range edges {
		ring = append(ring, e.Line[1:]...)
	}
	return append(ring, ring[0])
}
