package measure

import (
	"fmt"
	"math"
	"strconv"
)

// Guard is the excess, in millimetres, that rounding up to a whole step leaves
// out. It is ten times the coarsest thing it must forgive, the snapping of
// coordinates to 2^-10 mm added over a few edges and the float noise of
// arithmetic, and a fiftieth of what a tape can show: an exact 180 in stays 5 yd.
const Guard = 0.01

// Format prints a length to the nearest division of its unit: inches in eighths
// (sixteenths below one inch), feet with inches, yards in eighths, millimetres
// and centimetres to 0.1, metres to 0.01.
func Format(mm float64, u Unit) string { return format(mm, u, nearest) }

// FormatUp prints like Format but rounds up, for lengths to buy or to provide
// for: what is shown falls short by no more than Guard.
func FormatUp(mm float64, u Unit) string { return format(mm, u, up) }

// FormatDown prints like Format but rounds down, for lengths that nothing can be
// shorter than: what is shown exceeds such a length by no more than Guard.
func FormatDown(mm float64, u Unit) string { return format(mm, u, down) }

// FormatTape prints a length to the nearest mark of a tape measure (TapeMark), without
// its unit: inches in sixteenths, centimetres to 0.1, millimetres whole. Other units
// are shown as SizeUnit says.
func FormatTape(mm float64, u Unit) string {
	n := nearest(mm, TapeMark(u))
	switch u = SizeUnit(u); {
	case u == Inch:
		return fraction(n, 16)
	case u == Millimetre:
		return decimal(n, 0)
	}
	return decimal(n, 1)
}

// TapeMark is the distance between the finest marks of a tape measure, mm: a sixteenth
// of an inch, or a millimetre.
func TapeMark(u Unit) float64 {
	if u.Metric() {
		return 1
	}
	return Inches / 16
}

// Both prints a length in u and, in brackets, in the other system:
// "35 1/2 in (90.2 cm)", "2 3/8 yd (2.17 m)".
func Both(mm float64, u Unit) string {
	return fmt.Sprintf("%s (%s)", Format(mm, u), Format(mm, u.Other()))
}

// BothUp is Both with each system rounded up as FormatUp does.
func BothUp(mm float64, u Unit) string {
	return fmt.Sprintf("%s (%s)", FormatUp(mm, u), FormatUp(mm, u.Other()))
}

// Other gives the unit of the other system that serves the same purpose.
func (u Unit) Other() Unit {
	switch u {
	case Foot, Yard:
		return Metre
	case Inch:
		return Centimetre
	case Metre:
		return Yard
	}
	return Inch
}

// nearest, up and down turn a length into a whole number of steps, both in mm.
// A length that is half a step but for noise goes away from zero.
func nearest(mm, step float64) float64 {
	return math.Copysign(math.Floor(math.Abs(mm)/step+0.5+1e-9), mm)
}

func up(mm, step float64) float64   { return math.Ceil((mm - Guard) / step) }
func down(mm, step float64) float64 { return math.Floor((mm + Guard) / step) }

func format(mm float64, u Unit, round func(mm, step float64) float64) string {
	if math.IsNaN(mm) || math.Abs(mm) > 1000*Longest {
		return fmt.Sprintf("%v %v", mm/u.Millimetres(), u)
	}
	switch u {
	case Inch:
		return inches(mm, round)
	case Foot:
		return feet(mm, round)
	case Yard:
		return fraction(round(mm, Yards/8), 8) + " yd"
	case Metre:
		return decimal(round(mm, Metres/100), 2) + " m"
	}
	return decimal(round(mm, u.Millimetres()/10), 1) + " " + u.String()
}

// inches prints eighths, or sixteenths where the length stays below one inch.
func inches(mm float64, round func(mm, step float64) float64) string {
	parts := 8.0
	if math.Abs(mm) < Inches {
		parts = 16
	}
	return fraction(round(mm, Inches/parts), int(parts)) + " in"
}

// feet prints feet and inches in eighths, or inches alone below one foot.
func feet(mm float64, round func(mm, step float64) float64) string {
	if math.Abs(mm) < Inches {
		return inches(mm, round)
	}
	eighths := int(round(mm, Inches/8))
	whole, rest := eighths/96, eighths%96
	switch {
	case whole == 0:
		return fraction(float64(rest), 8) + " in"
	case rest == 0:
		return fmt.Sprintf("%d ft", whole)
	}
	return fmt.Sprintf("%d ft %s in", whole, fraction(math.Abs(float64(rest)), 8))
}

// fraction prints n/parts as a whole number and a fraction in lowest terms.
// parts is a power of two.
func fraction(n float64, parts int) string {
	count, sign := int(math.Abs(n)), ""
	if n < 0 {
		sign = "-"
	}
	whole, rest := count/parts, count%parts
	for rest != 0 && rest%2 == 0 {
		rest, parts = rest/2, parts/2
	}
	switch {
	case rest == 0:
		return sign + strconv.Itoa(whole)
	case whole == 0:
		return fmt.Sprintf("%s%d/%d", sign, rest, parts)
	}
	return fmt.Sprintf("%s%d %d/%d", sign, whole, rest, parts)
}

// decimal prints n units of 10^-places.
func decimal(n float64, places int) string {
	if n == 0 {
		n = 0 // drops the sign of a negative zero
	}
	return strconv.FormatFloat(n/math.Pow10(places), 'f', places, 64)
}
