package shapes

import (
	"yardlay/shapes/say"
)

// MaxExtent keeps coordinates where cross products of lattice points are exact, mm.
const MaxExtent = 60_000

// Positive refuses a measure, mm, that is not a length above 0, by name and number.
func Positive(name string, mm float64) error {
	if !(mm > 0) {
		return say.Errorf("%s is %.6g, must be more than 0", name, say.MM(mm))
	}
	return notTooLong(name, mm)
}

// NotNegative refuses a measure, mm, that is not a length of 0 or more, by name and number.
func NotNegative(name string, mm float64) error {
	if !(mm >= 0) {
		return say.Errorf("%s is %.6g, must be 0 or more", name, say.MM(mm))
	}
	return notTooLong(name, mm)
}

func notTooLong(name string, mm float64) error {
	if mm > MaxExtent {
		return say.Errorf("%s is %.6g, must be at most %v", name, say.MM(mm), say.MM(MaxExtent))
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
		return say.Errorf("no fullness is given").
			Hint("flat length over gathered length: 2 to 3 for a ruffle, 3 to 6 for net")
	case !(f >= 1 && f <= maxFullness):
		return say.Errorf("fullness is %.4g, must be from 1 to %g", f, maxFullness).
			Hint("flat length over gathered length: 2 to 3 for a ruffle, 3 to 6 for net")
	}
	return nil
}
