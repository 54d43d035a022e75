package shapes

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// The hem of a full circle, waist 28 in and length 40 in, has a radius of 28/(2 pi) + 40 in:
// turned up by 1 in its raw edge is 2 pi (r + 1) long and the line it is sewn to 2 pi
// (r - 1), so that 4 pi = 12.566 in are eased in, in however many gores it is cut (plain
// geometry).
func TestHemsOfCirclesAreEasedByFourPiTimesTheAllowance(t *testing.T) {
	const inch = 25.4
	r := (28/(2*math.Pi) + 40) * inch
	for _, gores := range []int{2, 3, 8, 24} {
		half := math.Pi / float64(gores)
		e := Edge{Name: "hem", Kind: Hem, Line: plane.Arc(orb.Point{}, r, -half, half, 0.1), Allowance: inch}
		near(t, "eased", float64(gores)*e.HemEase()/inch, 12.566, 0.001)
		e.Allowance = 0
		near(t, "raw", e.HemEase(), 0, 0)
	}
}

// Of any smooth curve that turns up what is eased in is its raw edge less the line it is
// sewn to, both drawn chord by chord; the other way round it is stretched by as much.
func TestHemEaseIsTheDifferenceOfTheParallels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// r = a + b cos 2t: smooth, its tightest radius well above the allowance.
		a := rapid.Float64Range(400, 1500).Draw(t, "mean radius")
		b := rapid.Float64Range(-0.1, 0.1).Draw(t, "swing") * a
		from := rapid.Float64Range(-3, 0).Draw(t, "from")
		to := from + rapid.Float64Range(0.3, 3).Draw(t, "angle")
		h := rapid.Float64Range(1, 80).Draw(t, "hem")
		n := rapid.IntRange(200, 400).Draw(t, "samples")
		side := func(by float64) orb.LineString {
			var line orb.LineString
			for i := range n + 1 {
				at := from + (to-from)*float64(i)/float64(n)
				r, dr := a+b*math.Cos(2*at), -2*b*math.Sin(2*at)
				sin, cos := math.Sincos(at)
				// The tangent is (dr cos - r sin, dr sin + r cos); outward is to its right.
				tx, ty := dr*cos-r*sin, dr*sin+r*cos
				l := math.Hypot(tx, ty)
				line = append(line, orb.Point{r*cos + by*ty/l, r*sin - by*tx/l})
			}
			return line
		}
		e := Edge{Name: "hem", Kind: Hem, Line: side(0), Allowance: h}
		want := plane.Length(side(h)) - plane.Length(side(-h))
		near(t, "eased", e.HemEase(), want, 0.003*h)
		e.Line.Reverse()
		near(t, "stretched", e.HemEase(), -want, 0.003*h)
	})
}

// Corners of a hem are mitred: nothing of them is eased in.
func TestCornersOfHemsTakeNoEase(t *testing.T) {
	e := Edge{Name: "hem", Kind: Hem, Line: orb.LineString{{0, 0}, {100, 0}, {100, 80}, {300, 80}}, Allowance: 20}
	near(t, "eased", e.HemEase(), 0, 0)
}
