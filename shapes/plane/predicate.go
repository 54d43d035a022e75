package plane

import (
	"cmp"
	"math"
	"math/big"

	"github.com/paulmach/orb"
)

// orientError bounds the relative rounding error of the float64 determinant:
// (3 + 16 u) u with u = 2^-53, the static filter of J. R. Shewchuk, "Adaptive
// precision floating-point arithmetic and fast robust geometric predicates",
// Discrete & Computational Geometry 18 (1997), section 4.3.
const orientError = (3 + 16*0x1p-53) * 0x1p-53

// Orient returns the exact side of c seen along a -> b: +1 left, -1 right,
// 0 on the line. Coordinates must be finite.
func Orient(a, b, c orb.Point) int {
	left := (a[0] - c[0]) * (b[1] - c[1])
	right := (a[1] - c[1]) * (b[0] - c[0])
	det := left - right
	if bound := orientError * (math.Abs(left) + math.Abs(right)); det > bound {
		return 1
	} else if -det > bound {
		return -1
	}
	return orientExact(a, b, c)
}

// orientExact decides what floating point cannot. Differences of points on the
// lattice are exact, and so are products as a sum of two numbers, the second by a
// fused multiplication (T. J. Dekker, Numerische Mathematik 18, 1971): only what is
// not takes rational numbers.
func orientExact(a, b, c orb.Point) int {
	ax, ay, bx, by := a[0]-c[0], a[1]-c[1], b[0]-c[0], b[1]-c[1]
	if !exactly(ax, a[0], c[0]) || !exactly(ay, a[1], c[1]) || !exactly(bx, b[0], c[0]) || !exactly(by, b[1], c[1]) ||
		!ordinary(ax, ay, bx, by) {
		return orientRational(a, b, c)
	}
	left, right := ax*by, ay*bx
	leftRest, rightRest := math.FMA(ax, by, -left), math.FMA(ay, bx, -right)
	// left - right is exact: the two are within a factor of two, or nothing.
	ahead, behind := left-right, rightRest-leftRest
	if ahead != behind {
		return cmp.Compare(ahead, behind)
	}
	// What rounding took off behind: the error of a sum, by D. E. Knuth.
	part := behind - rightRest
	rest := (rightRest - (behind - part)) + (-leftRest - part)
	return cmp.Compare(0, rest)
}

// exactly says whether d is a - b without rounding.
func exactly(d, a, b float64) bool {
	part := d - a
	return (a-(d-part))+(-b-part) == 0
}

// ordinary says whether products of any two neither overflow nor come near to what
// is too small for a whole number of digits.
func ordinary(all ...float64) bool {
	for _, v := range all {
		if v = math.Abs(v); v != 0 && !(v > 0x1p-400 && v < 0x1p400) {
			return false
		}
	}
	return true
}

func orientRational(a, b, c orb.Point) int {
	rat := func(v float64) *big.Rat { return new(big.Rat).SetFloat64(v) }
	sub := func(x, y float64) *big.Rat { return new(big.Rat).Sub(rat(x), rat(y)) }
	l := new(big.Rat).Mul(sub(a[0], c[0]), sub(b[1], c[1]))
	r := new(big.Rat).Mul(sub(a[1], c[1]), sub(b[0], c[0]))
	return l.Cmp(r)
}
