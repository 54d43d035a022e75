package plane

import (
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

func orientExact(a, b, c orb.Point) int {
	rat := func(v float64) *big.Rat { return new(big.Rat).SetFloat64(v) }
	sub := func(x, y float64) *big.Rat { return new(big.Rat).Sub(rat(x), rat(y)) }
	l := new(big.Rat).Mul(sub(a[0], c[0]), sub(b[1], c[1]))
	r := new(big.Rat).Mul(sub(a[1], c[1]), sub(b[0], c[0]))
	return l.Cmp(r)
}
