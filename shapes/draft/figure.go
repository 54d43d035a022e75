package draft

import "yardlay/shapes/say"

// Figure is a body from over the bust to the high hip: girths, and their heights
// above and below the waist, all in mm.
//
//	over-bust   -----        |         |
//	bust       (     )       |    |    | OverBustUp
//	under-bust  \   /   |    | BustUp  |
//	waist        ) (    UnderBustUp
//	high hip    /   \   | HighHipDown
type Figure struct {
	OverBust  float64 // under the arms, above the bust
	Bust      float64 // at its fullest
	UnderBust float64
	Waist     float64
	HighHip   float64 // over the hip bones

	OverBustUp, BustUp, UnderBustUp float64 // above the waist
	HighHipDown                     float64 // below the waist
}

// figureLevel is a girth of a figure at its place, mm.
type figureLevel struct {
	name  string
	x     float64 // below the over-bust
	girth float64
}

// Indices of the levels of a figure; the high hip may come after them.
const (
	atOverBust = iota
	atBust
	atUnderBust
	atWaist
)

// levels lists the girths from the over-bust down; the high hip only where it
// lies below the waist.
func (f Figure) levels() []figureLevel {
	list := []figureLevel{
		{"over-bust", 0, f.OverBust},
		{"bust", f.OverBustUp - f.BustUp, f.Bust},
		{"under-bust", f.OverBustUp - f.UnderBustUp, f.UnderBust},
		{"waist", f.OverBustUp, f.Waist},
	}
	if f.HighHipDown > 0 {
		list = append(list, figureLevel{"high hip", f.OverBustUp + f.HighHipDown, f.HighHip})
	}
	return list
}

// leastLevel is the least distance of two levels, mm: on less no curve leads from
// one girth to the next.
const leastLevel = 10

// flattest is the least share of the under-bust that a bust is, with what measuring
// twice may differ by (common practice).
const flattest = 0.97

// check refuses girths that are no lengths, heights out of order, and a bust that
// is none.
func (f Figure) check() error {
	err := positive(measured{"over-bust", f.OverBust}, measured{"bust", f.Bust}, measured{"under-bust", f.UnderBust},
		measured{"waist", f.Waist})
	if err == nil {
		err = notNegative(measured{"high hip's depth", f.HighHipDown}, measured{"over-bust's height", f.OverBustUp})
	}
	if err == nil && f.HighHipDown > 0 {
		err = positive(measured{"high hip", f.HighHip})
	}
	if err != nil {
		return err
	}
	if f.Bust < flattest*f.UnderBust {
		return say.Errorf("bust of %.1f, the girth at its fullest, is smaller than the under-bust of %.1f",
			say.MM(f.Bust), say.MM(f.UnderBust)).
			Hint("measure both again")
	}
	list := f.levels()
	for i := 1; i < len(list); i++ {
		if a, b := list[i-1], list[i]; !(b.x-a.x >= leastLevel) {
			return say.Errorf("%s lies %.1f below the %s, must be %v or more", b.name, say.MM(b.x-a.x), a.name,
				say.MM(leastLevel)).
				Hint("heights are measured from the waist: over-bust, bust, under-bust upwards, high hip downwards")
		}
	}
	return nil
}
