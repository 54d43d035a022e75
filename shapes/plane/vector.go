package plane

import (
	"math"

	"github.com/paulmach/orb"
)

func sub(a, b orb.Point) orb.Point { return orb.Point{a[0] - b[0], a[1] - b[1]} }

// along returns a moved by t times d.
func along(a, d orb.Point, t float64) orb.Point { return orb.Point{a[0] + t*d[0], a[1] + t*d[1]} }

func cross(a, b orb.Point) float64 { return a[0]*b[1] - a[1]*b[0] }

func dot(a, b orb.Point) float64 { return a[0]*b[0] + a[1]*b[1] }

func norm(a orb.Point) float64 { return math.Hypot(a[0], a[1]) }

// crossing returns where the lines a + s u and b + t v cross; false when they
// are parallel to within rounding.
func crossing(a, u, b, v orb.Point) (orb.Point, bool) {
	det := cross(u, v)
	if math.Abs(det) <= 1e-12*norm(u)*norm(v) {
		return orb.Point{}, false
	}
	return along(a, u, cross(sub(b, a), v)/det), true
}
