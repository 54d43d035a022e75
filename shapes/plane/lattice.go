// Package plane is the planar kernel: rings on a lattice, rigid placements,
// exact orientation, hulls, arcs and offsets. Rings are orb rings in
// millimetres, closed (last vertex equals the first) and counter-clockwise
// unless a function says otherwise.
package plane

import (
	"math"

	"github.com/paulmach/orb"
)

// Lattice is the spacing in millimetres of the grid on which final coordinates
// lie. Being a power of two it makes every lattice coordinate a float64 without
// rounding, and differences up to 65 m have exact cross products:
// 65 m / 2^-10 mm < 2^26, so each product stays below 2^53.
const Lattice = 1.0 / 1024

// Snap returns the lattice value nearest to v (ties to even).
func Snap(v float64) float64 { return math.RoundToEven(v/Lattice) * Lattice }

// Floor returns the greatest lattice value that is not above v.
func Floor(v float64) float64 { return math.Floor(v/Lattice) * Lattice }

// Ceil returns the least lattice value that is not below v.
func Ceil(v float64) float64 { return math.Ceil(v/Lattice) * Lattice }

// SnapDown is Floor for sums, such as a size with its allowances, that must not grow: a
// value less than a thousandth of a step below the lattice is on it but for rounding.
func SnapDown(v float64) float64 { return math.Floor(v/Lattice+1e-3) * Lattice }

// SnapPoint snaps both coordinates.
func SnapPoint(p orb.Point) orb.Point { return orb.Point{Snap(p[0]), Snap(p[1])} }

// SnapRing returns a copy of r with every vertex snapped to the lattice.
// Vertices that fall together stay in place; see Tidy.
func SnapRing(r orb.Ring) orb.Ring {
	out := make(orb.Ring, len(r))
	for i, p := range r {
		out[i] = SnapPoint(p)
	}
	return out
}
