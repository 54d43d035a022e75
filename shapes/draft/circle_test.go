package draft

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// circleSkirt is a full circle of eight gores without allowances, in inches.
func circleSkirt(fraction, waist, length float64, gores int) CircleSkirt {
	return CircleSkirt{Fraction: fraction, Gores: gores, Waist: waist * inch, Length: length * inch}
}

// Partial circle, plane geometry: r = W/(2 pi f), R = r + L, hem = W + 2 pi f L,
// area pi f (R^2 - r^2). W = 28 in, L = 40 in: 2 pi f r = 28 gives the radii
// below; the hem is 28 + 2 pi f 40.
func TestCircleRadii(t *testing.T) {
	for _, c := range []struct{ fraction, radius, hem float64 }{
		{1, 4.456, 279.327}, {0.75, 5.942, 216.496}, {0.5, 8.913, 153.664}, {0.25, 17.825, 90.832},
	} {
		s := circleSkirt(c.fraction, 28, 40, 4)
		waist, hem := s.Radii()
		near(t, "radius", waist/inch, c.radius, 5e-4)
		near(t, "hem radius", hem/inch, c.radius+40, 5e-4)
		near(t, "hem", s.HemGirth()/inch, c.hem, 5e-4)
	}
	// W = 68 cm: 68 / (2 pi f).
	for fraction, radius := range map[float64]float64{1: 10.823, 0.75: 14.430, 0.5: 21.645, 0.25: 43.290} {
		waist, _ := CircleSkirt{Fraction: fraction, Waist: 680, Length: 1000}.Radii()
		near(t, "radius in cm", waist/10, radius, 5e-4)
	}
	// Area of the full circle: pi (44.456^2 - 4.456^2) = 6146.55 sq in, here summed over the gores.
	s := circleSkirt(1, 28, 40, 8)
	s.Chord = 0.001
	area := 0.0
	for _, p := range mustDraft(t, s) {
		area += p.Area() * float64(p.Count)
	}
	near(t, "area, sq in", area/inch/inch, 6146.55, 0.05)
}

// One gore of a full circle in 8, W = 28, L = 40, plane geometry: 45 degrees;
// waist arc 28/8, hem arc 279.327/8, hem chord 2 R sin 22.5, bounding length
// R - r cos 22.5, area 6146.55/8.
func TestCircleGoreOfEight(t *testing.T) {
	s := circleSkirt(1, 28, 40, 8)
	s.Chord = 0.001
	p := mustDraft(t, s)[0]
	lengths := map[string]float64{}
	for _, e := range p.Edges {
		lengths[e.Name] = e.Length() / inch
	}
	near(t, "waist arc", lengths["waist"], 3.500, 5e-4)
	near(t, "hem arc", lengths["hem"], 34.916, 5e-4)
	along, across := p.CutSize()
	near(t, "hem chord", across/inch, 34.025, 5e-4)
	near(t, "bounding length", along/inch, 40.339, 5e-4)
	near(t, "area", p.Area()/inch/inch, 768.319, 0.005)
}

// A waist allowance s cuts at r - s, a hem allowance h at R + h, plane geometry.
// In the seam allowance both run on straight, along their tangents at the seam,
// which are square to it.
func TestCircleAllowances(t *testing.T) {
	s := circleSkirt(1, 28, 40, 8)
	s.Allowance, s.Chord = shapes.Allowance{Seam: 15, Waist: 10, Hem: 25}, 0.001
	p := mustDraft(t, s)[0]
	waist, hem := s.Radii()
	sin, cos := math.Sincos(math.Pi / 8)
	along, across := p.CutSize()
	near(t, "cut length", along, hem+25-((waist-10)*cos-15*sin), 0.1)
	near(t, "cut width", across, 2*((hem+25)*sin+15*cos), 0.1)
	// A sector of the ring from r - s to R + h, with a strip along each side.
	length := hem - waist + 10 + 25
	near(t, "cut area", p.Area(), math.Pi/8*(math.Pow(hem+25, 2)-math.Pow(waist-10, 2))+2*15*length, 10)
}

// Hem fullness to ease, plane geometry: the hem allowance h turned up has to
// shrink from 2 pi f (R + h) to 2 pi f (R - h), by 4 pi f h: 12.566 in for 1 in.
func TestHemFullness(t *testing.T) {
	s := circleSkirt(1, 28, 40, 8)
	up, down := s, s
	up.Length, down.Length = 41*inch, 39*inch
	near(t, "fullness", (up.HemGirth()-down.HemGirth())/inch, 12.566, 5e-4)
}

// Full circle cut in one, W = 28, L = 24 on exactly 60 in, plane geometry:
// diameter 2 (28/(2 pi) + 24) = 56.913; the ring of cloth without its hole fills
// pi (R^2 - r^2) / (60 x 56.913) = 72.67 %; 56.913/36 = 1.581 yd.
func TestFullCircleInOne(t *testing.T) {
	s := circleSkirt(1, 28, 24, 1)
	s.Chord, s.Opening = 0.001, true
	pieces := mustDraft(t, s)
	if len(pieces) != 1 {
		t.Fatalf("%d pieces", len(pieces))
	}
	p := pieces[0]
	along, across := p.CutSize()
	near(t, "diameter along", along/inch, 56.913, 5e-4)
	near(t, "diameter across", across/inch, 56.913, 1e-3)
	near(t, "yards", along/inch/36, 1.581, 5e-4)
	if len(p.Inside) != 2 {
		t.Fatalf("%d lines inside, want the waist hole and the slit", len(p.Inside))
	}
	hole := plane.Area(orb.Ring(p.Inside[0]))
	near(t, "utilisation, %", (p.Area()-hole)/(60*inch*along)*100, 72.67, 5e-3)
	for _, line := range append([]orb.LineString{p.Grain}, p.Inside...) {
		b := plane.Bounds(line)
		if b.Min[0] < 0 || b.Min[1] < 0 || b.Max[0] > along || b.Max[1] > across {
			t.Errorf("line %v leaves the disc", b)
		}
	}
	near(t, "hole", plane.Length(p.Inside[0])/inch, 28, 1e-3)
}

func TestCirclePieces(t *testing.T) {
	type row struct {
		Name  string
		Count int
		Pair  bool
		Fold  bool
	}
	list := func(c CircleSkirt) []row {
		var rows []row
		for _, p := range mustDraft(t, c) {
			rows = append(rows, row{p.Name, p.Count, p.Pair, p.OnFold})
		}
		return rows
	}
	ten := circleSkirt(1, 27.5, 41, 10)
	want := []row{
		{"centre back gore", 2, true, false}, {"side back gore", 2, true, false}, {"side gore", 2, true, false},
		{"side front gore", 2, true, false}, {"centre front gore", 2, true, false},
	}
	if d := cmp.Diff(want, list(ten)); d != "" {
		t.Error(d)
	}
	ten.FrontOnFold = true
	want[4] = row{"centre front gore", 1, false, true}
	if d := cmp.Diff(want, list(ten)); d != "" {
		t.Error(d)
	}
	five := circleSkirt(0.5, 27.5, 41, 5)
	want = []row{{"back gore", 2, true, false}, {"side gore", 2, true, false}, {"centre front gore", 1, false, false}}
	if d := cmp.Diff(want, list(five)); d != "" {
		t.Error(d)
	}
	half := circleSkirt(0.5, 27.5, 41, 2)
	half.FrontOnFold = true
	if d := cmp.Diff([]row{{"skirt", 1, false, true}}, list(half)); d != "" {
		t.Error(d)
	}
}

// A double-width centre front is the gore of half as many, unfolded or not.
func TestFrontOnFold(t *testing.T) {
	c := circleSkirt(1, 28, 40, 8)
	c.Allowance, c.FrontOnFold = shapes.Allowance{Seam: 15, Waist: 10, Hem: 25}, true
	front := mustDraft(t, c)[3]
	whole := front.Unfold()
	if whole.OnFold || plane.CheckSimple(whole.Cut) != nil {
		t.Errorf("unfolded: on fold %v, %v", whole.OnFold, plane.CheckSimple(whole.Cut))
	}
	near(t, "area", whole.Area(), 2*front.Area(), 1e-6)
	four := circleSkirt(1, 28, 40, 4)
	four.Allowance = c.Allowance
	want := mustDraft(t, four)[0]
	along, across := whole.CutSize()
	a, b := want.CutSize()
	near(t, "along", along, a, 0.1)
	near(t, "across", across, b, 0.1)
	near(t, "area of a quarter", whole.Area(), want.Area(), 0.1*4000)
	var edges []string
	for _, e := range whole.Edges {
		edges = append(edges, e.Name)
	}
	if d := cmp.Diff([]string{"hem", "side seam", "waist", "side seam mirrored"}, edges); d != "" {
		t.Error(d)
	}
	soundGore(t, whole)
	if len(whole.Notches) != 2*len(front.Notches) || len(front.Notches) == 0 {
		t.Errorf("%d notches from %d", len(whole.Notches), len(front.Notches))
	}
}

func TestCircleRefusals(t *testing.T) {
	good := circleSkirt(1, 28, 40, 8)
	for want, spoil := range map[string]func(*CircleSkirt){
		"fraction of a circle is 0":             func(c *CircleSkirt) { c.Fraction = 0 },
		"fraction of a circle is NaN":           func(c *CircleSkirt) { c.Fraction = math.NaN() },
		"waist is -1 mm":                        func(c *CircleSkirt) { c.Waist = -1 },
		"length is 0 mm":                        func(c *CircleSkirt) { c.Length = 0 },
		"gores: 0, must be from 1 to 100":       func(c *CircleSkirt) { c.Gores = 0 },
		"seam":                                  func(c *CircleSkirt) { c.Allowance.Seam = -2 },
		"hem raise is 2000 mm":                  func(c *CircleSkirt) { c.HemRaise = 2000 },
		"unequal sides with 7":                  func(c *CircleSkirt) { c.Gores, c.FrontOnFold = 7, true },
		"cut on a radius of 113.2 mm":           func(c *CircleSkirt) { c.Allowance.Waist = 120 },
		"480.0 degrees wraps round upon itself": func(c *CircleSkirt) { c.Fraction, c.Gores = 4./3, 1 },
		"hint: at least 3 gores":                func(c *CircleSkirt) { c.Fraction, c.Gores = 2, 2 },
		"a piece of 360.0 degrees":              func(c *CircleSkirt) { c.Gores, c.FrontOnFold = 2, true },
		"has a hem radius of":                   func(c *CircleSkirt) { c.Fraction = 1e-3 },
		"a piece of 354.4 degrees wraps round": func(c *CircleSkirt) {
			*c = CircleSkirt{Fraction: 1.96875, Gores: 4, Waist: 400, Length: 200, FrontOnFold: true,
				Allowance: shapes.Allowance{Seam: 0.5, Waist: 15, Hem: 1}}
		},
		"piece of 356.4 degrees": func(c *CircleSkirt) { c.Fraction, c.Gores, c.Allowance.Seam = 0.99, 1, 15 },
	} {
		c := good
		spoil(&c)
		if _, err := piecesOf(c); err == nil || !strings.Contains(err.Error(), want) ||
			!strings.HasPrefix(err.Error(), "circle skirt: ") {
			t.Errorf("got %v, want %q", err, want)
		}
	}
}

// Every accepted circle skirt: sound pieces, girths that sum up, seams that match.
func TestCircleProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := CircleSkirt{
			Fraction:    rapid.Float64Range(0.1, 2.5).Draw(t, "fraction"),
			Gores:       rapid.IntRange(1, 24).Draw(t, "gores"),
			Waist:       rapid.Float64Range(400, 1500).Draw(t, "waist"),
			Length:      rapid.Float64Range(200, 1300).Draw(t, "length"),
			FrontOnFold: rapid.Bool().Draw(t, "fold"),
			Opening:     rapid.Bool().Draw(t, "opening"),
			HemRaise:    rapid.Float64Range(0, 60).Draw(t, "raise"),
			Allowance: shapes.Allowance{
				Seam:  rapid.Float64Range(0, 25).Draw(t, "seam"),
				Waist: rapid.Float64Range(0, 15).Draw(t, "waist allowance"),
				Hem:   rapid.Float64Range(0, 50).Draw(t, "hem"),
			},
		}
		pieces, err := piecesOf(c)
		if err != nil {
			if c.check() == nil {
				t.Fatalf("measures accepted, draft refused: %v", err)
			}
			t.Skip(err)
		}
		waist := c.Waist
		if c.inOne() {
			waist = 0
		}
		checkSkirt(t, pieces, waist, c.HemGirth(), c.Gores, c.FrontOnFold)
		for what, change := range map[string]func(*CircleSkirt){
			"longer":          func(c *CircleSkirt) { c.Length += 10 },
			"wider waist":     func(c *CircleSkirt) { c.Waist += 10 },
			"wider allowance": func(c *CircleSkirt) { c.Allowance.Hem += 5 },
		} {
			more := c
			change(&more)
			bigger, err := piecesOf(more)
			if err != nil {
				t.Fatalf("%s: %v", what, err)
			}
			if bigger[0].Area() <= pieces[0].Area() {
				t.Errorf("%s: area %.1f, was %.1f", what, bigger[0].Area(), pieces[0].Area())
			}
		}
	})
}

// checkSkirt holds pieces to what every skirt of gores promises; a waist
// or hem of 0 is not checked.
func checkSkirt(t failer, pieces []shapes.Piece, waist, hem float64, gores int, doubleFront bool) {
	t.Helper()
	sums := map[shapes.EdgeKind]float64{}
	for _, p := range pieces {
		soundGore(t, p)
		copies := float64(p.Count)
		if p.OnFold {
			copies *= 2
			soundGore(t, p.Unfold())
		}
		for _, e := range p.Edges {
			sums[e.Kind] += copies * e.Length()
		}
	}
	// A chord that spans the angle t is shorter than its arc by t^2/24 of it, and
	// t^2 = 8 s/r for the sagitta s: on the tightest radius drawn, 25 mm, 0.13 %.
	loss := func(girth float64) float64 { return 0.002 * girth }
	if d := waist - sums[shapes.Waist]; waist > 0 && (d < -1e-6 || d > loss(waist)) {
		t.Fatalf("waists sum to %.3f, want %.3f", sums[shapes.Waist], waist)
	}
	if d := hem - sums[shapes.Hem]; hem > 0 && (d < -1e-6 || d > loss(hem)) {
		t.Fatalf("hems sum to %.3f, want %.3f", sums[shapes.Hem], hem)
	}
	if waist == 0 {
		return // cut in one, without seams
	}
	matchSeams(t, pieces, gores, doubleFront)
}
