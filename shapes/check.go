package shapes

import (
	"errors"
	"fmt"
)

// MaxExtent keeps coordinates where cross products of lattice points are exact, mm.
const MaxExtent = 60_000

// Positive refuses a measure, mm, that is not a length above 0, by name and number.
func Positive(name string, mm float64) error {
	if !(mm > 0) {
		return fmt.Errorf("%s is %.6g mm, must be more than 0", name, mm)
	}
	return notTooLong(name, mm)
}

// NotNegative refuses a measure, mm, that is not a length of 0 or more, by name and number.
func NotNegative(name string, mm float64) error {
	if !(mm >= 0) {
		return fmt.Errorf("%s is %.6g mm, must be 0 or more", name, mm)
	}
	return notTooLong(name, mm)
}

func notTooLong(name string, mm float64) error {
	if mm > MaxExtent {
		return fmt.Errorf("%s is %.6g mm, must be at most %d mm", name, mm, MaxExtent)
	}
	return nil
}

// maxFullness is beyond anything that can be gathered by hand or machine; net
// takes 3 to 6 (common practice).
const maxFullness = 100.0

// CheckFullness refuses a ratio of flat to gathered length that cannot be sewn.
func CheckFullness(f float64) error {
	switch {
	case f == 0:
		return errors.New("no fullness is given\n  hint: flat length over gathered length: 2 to 3 for a ruffle, 3 to 6 for net")
	case !(f >= 1 && f <= maxFullness):
		return fmt.Errorf("fullness is %g, must be from 1 to %g\n"+
			"  hint: flat length over gathered length: 2 to 3 for a ruffle, 3 to 6 for net", f, maxFullness)
	}
	return nil
}
