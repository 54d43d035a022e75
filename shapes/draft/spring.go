package draft

import (
	"github.com/paulmach/orb"
	"gonum.org/v1/gonum/interp"
)

// spring is what the panels at a seam of a panelled body are wider than at the
// waist: the seam's share of what the half body is.
type spring struct {
	half   *interp.FritschButland // of the half body, mm, over mm below the over-bust
	weight smooth                 // of the seam, over mm below the over-bust
}

// Predict returns the spring at a place below the over-bust, mm.
func (s spring) Predict(x float64) float64 { return s.weight.at(x) * s.half.Predict(x) }

// contour is a smooth line over the position on the half body, 0 at centre front
// and 1 at centre back: x in mm.
type contour struct{ smooth }

// at returns the line's x. Beyond the centre back it comes back as its mirror image.
func (c contour) at(position float64) float64 {
	if position > 1 {
		position = 2 - position
	}
	return c.smooth.at(position)
}

// smooth is a line through anchors, level at each.
type smooth []orb.Point

// at returns the line's height: between anchors it goes over as 3t^2 - 2t^3.
func (s smooth) at(x float64) float64 {
	for i := 1; i < len(s); i++ {
		a, b := s[i-1], s[i]
		if x <= b[0] || i == len(s)-1 {
			t := min(max((x-a[0])/(b[0]-a[0]), 0), 1)
			return a[1] + (b[1]-a[1])*t*t*(3-2*t)
		}
	}
	return s[0][1]
}
