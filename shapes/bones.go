package shapes

import (
	"fmt"
	"slices"

	"yardlay/shapes/plane"
)

// Boned is a draft with boning channels.
type Boned interface {
	Draft
	// Bones returns the length of every channel of both halves, mm, none where no
	// channels are drawn. Errors are those of Draft.
	Bones() ([]float64, error)
}

// Bones returns the lengths of the boning channels, from the centre front to the
// centre back, each twice: on the left and on the right.
func (c Corset) Bones() ([]float64, error) {
	b, err := c.body()
	if err != nil {
		return nil, fmt.Errorf("corset: %w", err)
	}
	return b.bones(), nil
}

// Bones returns the lengths of the boning channels, from the centre front to the
// centre back, each twice: on the left and on the right.
func (s StraplessBodice) Bones() ([]float64, error) {
	b, err := s.body()
	if err != nil {
		return nil, fmt.Errorf("strapless bodice: %w", err)
	}
	return b.bones(), nil
}

// bones measures the channels that marks draws. One beside a seam or the centre
// back has a single wall marked, others two; a bone is as long as the longer one.
func (b *panelled) bones() []float64 {
	if b.shape.channel == 0 {
		return nil
	}
	var all []float64
	for i := range b.shares {
		lines, walls := b.marks(i), []int{1}
		if i == len(b.springs) {
			if b.shape.facing > 0 {
				lines = lines[1:] // the fold of the facing
			}
			if b.shape.laced {
				walls = append(walls, 2)
			}
		}
		if b.shape.midBones {
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
