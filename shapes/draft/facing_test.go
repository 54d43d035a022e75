package draft

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// The facing of a full circle's hem, w wide, is the ring between R and R - w: pi (R^2 -
// (R - w)^2) in all its gores, its free edge 2 pi (R - w) round (plain geometry).
func TestHemFacingsOfCirclesAreRings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := CircleSkirt{Fraction: rapid.Float64Range(0.2, 1.5).Draw(t, "fraction"), Waist: 700, Length: 900,
			Gores: rapid.IntRange(4, 12).Draw(t, "gores"), Opening: true,
			Allowance: shapes.Allowance{Seam: 15, Waist: 15, Hem: 25}}
		if c.Gores%2 == 0 {
			c.FrontOnFold = rapid.Bool().Draw(t, "front on fold")
		}
		w := rapid.Float64Range(20, 120).Draw(t, "width")
		of, err := c.Draft()
		if err != nil {
			t.Skip(err)
		}
		d, err := Facing{Of: c, At: AtHem, Width: w, Seam: 15}.Draft()
		if err != nil {
			t.Fatal(err)
		}
		_, r := c.Radii()
		area, free, copies := 0.0, 0.0, 0
		for _, p := range d.Pieces {
			whole := p.Unfold()
			n := float64(p.Count)
			area += n * plane.Area(whole.Seam)
			e, ok := whole.Edge(freeEdge)
			if !ok {
				t.Fatalf("%s has no free edge", p.Name)
			}
			free += n * e.Length()
			copies += p.Count
		}
		whole := 0
		for _, p := range of.Pieces {
			whole += p.Count
		}
		if copies != whole {
			t.Fatalf("%d pieces are faced by %d", whole, copies)
		}
		within(t, "area", area, math.Pi*c.Fraction*(r*r-(r-w)*(r-w)), 2e-3)
		within(t, "free edge", free, 2*math.Pi*c.Fraction*(r-w), 1e-3)
		facingMeets(t, of, d)
		if len(d.Joins) != len(of.Joins) {
			t.Fatalf("%d seams of the skirt, %d of its facing", len(of.Joins), len(d.Joins))
		}
		if d, err = (Facing{Of: c, At: AtWaist, Width: min(w, 40), Seam: 15}).Draft(); err != nil {
			t.Fatal(err)
		}
		facingMeets(t, of, d)
		if len(d.Joins) != len(of.Joins)-1 {
			t.Fatalf("%d seams of the skirt, one of them open there, %d of its waist facing", len(of.Joins), len(d.Joins))
		}
	})
}

func within(t interface {
	Helper()
	Fatalf(string, ...any)
}, what string, got, want, share float64) {
	t.Helper()
	if math.Abs(got-want) > share*want {
		t.Fatalf("%s is %g, want %g", what, got, want)
	}
}

// facingMeets holds a facing to what it is sewn to, and its seams to each other.
func facingMeets(t interface {
	Helper()
	Fatalf(string, ...any)
}, of, d Result) {
	t.Helper()
	_, a, err := d.Faced.A.Measure(of.Pieces)
	if err != nil {
		t.Fatalf("%v", err)
	}
	_, b, err := d.Faced.B.Measure(d.Pieces)
	if err != nil || math.Abs(a-b) > 0.01 {
		t.Fatalf("%s: %g to %g, %v", d.Faced.Name, a, b, err)
	}
	steps, err := shapes.SewingOrder(d.Pieces, d.Joins)
	if err != nil {
		t.Fatalf("%v", err)
	}
	for _, s := range steps {
		if math.Abs(s.Difference) > 0.01 {
			t.Fatalf("%s: %g to %g", s.Join.Name, s.FinishedA, s.FinishedB)
		}
	}
}

// Neck, armholes and waist of blocks for many bodies: facings meet what they are sewn to
// with its darts folded, they meet each other at every seam, and hold no more than their
// width times their longer side.
func TestFacingsOfBlocks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBlock(t)
		of, err := b.Draft()
		if err != nil {
			t.Skip(err)
		}
		for _, at := range []Place{AtNeck, AtArmhole, AtWaist} {
			w := rapid.Float64Range(15, 60).Draw(t, string(at))
			d, err := Facing{Of: b, At: at, Width: w, Seam: 15}.Draft()
			if err != nil {
				if _, hint := say.Parts(err, nil); hint != "a narrower facing" {
					t.Fatal(err)
				}
				continue
			}
			facingMeets(t, of, d)
			for _, p := range d.Pieces {
				whole := p.Unfold()
				free, _ := whole.Edge(freeEdge)
				faced := 0.0
				for _, e := range whole.Edges {
					if strings.HasPrefix(e.Name, string(at)) {
						faced += e.Length()
					}
				}
				if area := plane.Area(whole.Seam); area > w*max(free.Length(), faced) || area < w*min(free.Length(), faced)/2 {
					t.Fatalf("%s: area %g of edges %g and %g, %g wide", p.Name, area, faced, free.Length(), w)
				}
				if len(p.Darts) != 0 {
					t.Fatalf("%s has a dart", p.Name)
				}
			}
		}
	})
}
