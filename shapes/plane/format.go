package plane

import (
	"math"
	"strconv"

	"github.com/paulmach/orb"
)

// FormatMM writes a length, mm, to the nearest 0.001 mm, about one lattice step.
func FormatMM(v float64) string {
	return strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64)
}

// FormatPoint writes a point as (x, y), mm.
func FormatPoint(p orb.Point) string { return "(" + FormatMM(p[0]) + ", " + FormatMM(p[1]) + ")" }
