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

// contour is a line over the position on the half body, 0 at centre front and 1 at centre
// back: x in mm. It is level at its anchors but where courses say otherwise.
type contour struct {
	smooth
	courses []course // from each anchor to the next; none: level at both
}

// course is how a contour goes over from an anchor to the next.
type course int

const (
	levelAtBoth course = iota // 3t^2 - 2t^3
	straightOn                // t
	levelAtEnd                // 2t - t^2: a corner at the first where the line is mirrored there
)

// at returns the line's x. Beyond the centre back it comes back as its mirror image.
func (c contour) at(position float64) float64 {
	if position > 1 {
		position = 2 - position
	}
	return c.along(position, c.courses)
}

// smooth is a line through anchors, level at each.
type smooth []orb.Point

// at returns the line's height: between anchors it goes over as 3t^2 - 2t^3.
func (s smooth) at(x float64) float64 { return s.along(x, nil) }

// along returns the height of a line whose courses between its anchors are given.
func (s smooth) along(x float64, courses []course) float64 {
	for i := 1; i < len(s); i++ {
		a, b := s[i-1], s[i]
		if x <= b[0] || i == len(s)-1 {
			t := min(max((x-a[0])/(b[0]-a[0]), 0), 1)
			how := levelAtBoth
			if len(courses) > 0 {
				how = courses[i-1]
			}
			return a[1] + (b[1]-a[1])*how.share(t)
		}
	}
	return s[0][1]
}

// share is how much of the way from an anchor to the next the line has risen at a share t
// of it.
func (c course) share(t float64) float64 {
	switch c {
	case straightOn:
		return t
	case levelAtEnd:
		return t * (2 - t)
	}
	return t * t * (3 - 2*t)
}
