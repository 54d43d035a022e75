package plane

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// MM is a length to be said, to the nearest 0.001 mm, about one lattice step.
func MM(v float64) say.MM { return say.MM(math.Round(v*1000) / 1000) }

// Point says a point as (x, y).
func Point(p orb.Point) say.Text { return say.Textf("(%v, %v)", MM(p[0]), MM(p[1])) }
