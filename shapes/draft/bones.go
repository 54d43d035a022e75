package draft

import (
	"slices"

	"yardlay/shapes/plane"
)

// bones returns the lengths of the boning channels, from the centre front to the
// centre back, each twice: on the left and on the right; none where no channels are drawn.
//
// It measures the channels that marks draws. One beside a seam or the centre
// back has a single wall marked, others two; a bone is as long as the longer one.
func (b *panelled) bones() []float64 {
	if b.Channel == 0 {
		return nil
	}
	var all []float64
	for i := range b.shares {
		lines, walls := b.marks(i), []int{1}
		if i == len(b.springs) {
			if b.Facing > 0 {
				lines = lines[1:] // the fold of the facing
			}
			if b.laced {
				walls = append(walls, 2)
			}
		}
		if b.MidBones {
			walls = append(walls, 2)
		}
		for _, n := range walls {
			longest := 0.0
			for _, l := range lines[:n] {
				longest = max(longest, plane.Length(l))
			}
			lines = lines[n:]
			all = append(all, slices.Repeat([]float64{longest}, 2)...)
		}
	}
	return all
}
