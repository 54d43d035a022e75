package draft

import (
	"cmp"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// Ties are narrow bands sewn shut, turned, and sewn in by one end: neck ties,
// apron strings, lacing ribbons. Each is cut twice as wide as it is finished:
//
//	.--------------------.
//	|                      '.
//	|- - - - - fold - - - - - >
//	|                      .'
//	'--------------------'
type Ties struct {
	Name   string  // what one is called; "tie" when empty
	Length float64 // finished, along its longer side, mm
	Width  float64 // finished, mm
	Slant  float64 // how much shorter its other side is, mm; 0 for a square end
	Count  int     // 0 means one

	Allowance shapes.Allowance
}

// Draft returns the one piece with its count. All edges take the seam allowance.
func (t Ties) Draft() (Result, error) {
	if t.Name == "" {
		t.Name = "tie"
	}
	if err := cmp.Or(
		positive(measured{"length", t.Length}, measured{"width", t.Width}),
		notNegative(measured{"slant", t.Slant}),
		checkSlant(t.Slant, t.Length),
		checkCount(t.Count),
		t.Allowance.Check(),
	); err != nil {
		return Result{}, say.Errorf("%s: %w", t.Name, err)
	}
	s := tube{name: t.Name, length: t.Length, width: t.Width, slant: t.Slant, allowance: t.Allowance.Seam}
	return tubes([]tube{s}, []int{max(t.Count, 1)})
}

// checkSlant refuses an end that takes the whole length.
func checkSlant(slant, length float64) error {
	if slant >= length {
		return say.Errorf("slant of %.6g takes the whole length of %.6g", say.MM(slant), say.MM(length))
	}
	return nil
}
