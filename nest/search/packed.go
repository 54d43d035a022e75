package search

// packed is a box in whole steps, both axes in one word: along the strip in the upper half,
// across it in the lower one. The steps are monotone, so that boxes which overlap or touch do
// so packed; some that are less than a step apart do, too. Two subtractions tell it of all four
// sides.
type packed struct {
	low  uint64 // lower left corner
	high uint64 // upper right corner, with both guards set
}

const (
	packedSteps = 1 << 10       // in a mm
	packedFrom  = -1 << 20      // mm; what lies farther out counts as lying there
	packedMost  = 1<<31 - 1     // steps
	guards      = 1<<63 | 1<<31 // taken by a subtraction that goes below 0 in its half
)

func pack(b *box) packed {
	return packed{
		low:  packedAt(b.x0)<<32 | packedAt(b.y0),
		high: packedAt(b.x1)<<32 | packedAt(b.y1) | guards,
	}
}

func packedAt(v float64) uint64 {
	return uint64(min(max(int64((v-packedFrom)*packedSteps), 0), packedMost))
}

// meets returns 1 when two boxes overlap or touch, by the step, 0 when not.
func (p *packed) meets(q *packed) int {
	both := (p.high - q.low) & (q.high - p.low)
	return int((both >> 63) & (both >> 31) & 1)
}
