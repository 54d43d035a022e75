package ways

import (
	"fmt"
	"strings"

	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// lengthFlag reads a length that a flag gives, in the job's unit where it has none.
func lengthFlag(name, text string, unit measure.Unit, check func(mm float64) error) (float64, error) {
	mm, err := measure.ParsePositive(text, unit)
	if err == nil {
		err = check(mm)
	}
	return mm, refusedFlag(name, text, unit, err)
}

// sizeFlag reads a size that a flag gives: "48x27in", "1200 x 675 mm". A side without a
// unit has that of the other, or the job's.
func sizeFlag(name, text string, unit measure.Unit, check func(width, height float64) error) (width, height float64,
	err error) {
	first, second, two := strings.Cut(strings.ReplaceAll(strings.ToLower(text), "×", "x"), "x")
	if !two {
		return 0, 0, &Refused{name, fmt.Sprintf("cannot be %q: it has one side", text),
			"width x height, such as 48x27in"}
	}
	if height, err = measure.ParsePositive(second, unit); err == nil {
		if last := strings.TrimLeft(second, "0123456789./ "); strings.TrimLeft(first, "0123456789./ ") == "" {
			first += " " + last
		}
		if width, err = measure.ParsePositive(first, unit); err == nil {
			err = check(width, height)
		}
	}
	return width, height, refusedFlag(name, text, unit, err)
}

// refusedFlag is the error of a flag whose value cannot be taken, nil for none, with its
// lengths in a unit.
func refusedFlag(name, text string, unit measure.Unit, err error) error {
	if err == nil {
		return nil
	}
	what, hint := say.Parts(err, unit.Size)
	if hint == "" {
		hint = "a number and a unit, such as 36in, 610mm or \"35 1/2 in\"; without a unit it is in that of the job"
	}
	return &Refused{name, fmt.Sprintf("cannot be %q: %s", text, what), hint}
}
