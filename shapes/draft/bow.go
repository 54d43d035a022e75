package draft

import (
	"fmt"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// Bow is a flat bow of a loop, two tails and a knot, each a strip folded
// lengthwise, sewn and turned:
//
//	 ____        ____
//	|    '.    .'    |   Height
//	|  loop >[]<     |         the knot goes round the middle
//	|____.' /  \ '.__|
//	       /    \
//	      /_ tail\_            TailLength, slanted ends
//	|<---- Width --->|
//
// The loop is a ring twice as long as the bow is wide. How long the knot must be
// depends on the cloth: measure round the bow pinched together.
type Bow struct {
	Width      float64 // finished, mm
	Height     float64 // finished, mm
	TailLength float64 // of each tail, along its longer side, mm; 0 for none
	TailWidth  float64 // finished, mm
	TailSlant  float64 // how much shorter the tail's other side is, mm
	KnotLength float64 // round the pinched bow, mm
	KnotWidth  float64 // finished, mm
	Count      int     // bows; 0 means one

	Allowance shapes.Allowance
}

// Draft returns loop, tails and knot. All edges take the seam allowance.
func (b Bow) Draft() (Result, error) { return named("bow")(b.draft()) }

func (b Bow) draft() (Result, error) {
	if err := b.check(); err != nil {
		return Result{}, err
	}
	seam, n := b.Allowance.Seam, max(b.Count, 1)
	list := []tube{{name: "bow loop", length: 2 * b.Width, width: b.Height, ring: true, allowance: seam}}
	counts := []int{n}
	if b.TailLength > 0 {
		list = append(list, tube{name: "bow tail", length: b.TailLength, width: b.TailWidth, slant: b.TailSlant,
			allowance: seam})
		counts = append(counts, 2*n)
	}
	list = append(list, tube{name: "bow knot", length: b.KnotLength, width: b.KnotWidth, ring: true, allowance: seam})
	return tubes(list, append(counts, n))
}

func (b Bow) check() error {
	err := positive(measured{"width", b.Width}, measured{"height", b.Height}, measured{"knot length", b.KnotLength},
		measured{"knot width", b.KnotWidth})
	if err != nil {
		return err
	}
	if err := notNegative(measured{"tail length", b.TailLength}, measured{"tail slant", b.TailSlant}); err != nil {
		return err
	}
	if b.TailLength > 0 {
		if err := positive(measured{"tail width", b.TailWidth}); err != nil {
			return err
		}
		if err := checkSlant(b.TailSlant, b.TailLength); err != nil {
			return say.Errorf("tail: %w", err)
		}
	}
	if b.KnotWidth >= b.Width {
		return say.Errorf("knot width of %.6g hides a bow %.6g wide", say.MM(b.KnotWidth), say.MM(b.Width))
	}
	if err := checkCount(b.Count); err != nil {
		return err
	}
	if b.Count > MaxCount/2 {
		return fmt.Errorf("count is %d, the most is %d with two tails each", b.Count, MaxCount/2)
	}
	return b.Allowance.Check()
}
