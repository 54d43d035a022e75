package strict

import (
	"fmt"
	"math"
	"strconv"

	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Show is how errors say lengths to who measures in a unit: in mm to who does, with other
// metric ones in centimetres, and those of cloth in metres; with feet, yards and inches in
// inches, and those of cloth in yards and inches.
func Show(unit measure.Unit) say.Show {
	switch {
	case unit == measure.Millimetre:
		return nil
	case unit.Metric():
		return centimetres
	}
	return yards
}

// byTheMetre is where lengths are counted in metres, mm.
const byTheMetre = 10 * measure.Metres

// centimetres shows whole millimetres to a decimal, and to another one what is not so many: a
// limit that is missed by less is not told as met. Less than a millimetre has no name but that.
func centimetres(mm float64) string {
	if mm != 0 && math.Abs(mm) < 1 {
		return strconv.FormatFloat(mm, 'g', -1, 64) + " mm"
	}
	unit, name := 10.0, " cm"
	if math.Abs(mm) >= byTheMetre {
		unit, name = measure.Metres, " m"
	}
	decimals := 2
	if tenths := mm * 10 / unit; math.Abs(tenths-math.Round(tenths)) < 1e-6 {
		decimals = 1
	}
	return strconv.FormatFloat(mm/unit, 'f', decimals, 64) + name
}

// byTheYard is where lengths are counted in yards, mm: nothing on a body is so long.
const byTheYard = 10 * measure.Yards

// yards shows a length in inches, from byTheYard on with whole yards before them.
func yards(mm float64) string {
	whole := math.Trunc((mm + math.Copysign(measure.Guard, mm)) / measure.Yards)
	if !(math.Abs(mm) >= byTheYard) || math.Abs(mm) > measure.Longest {
		return inches(mm)
	}
	if rest := math.Abs(mm - whole*measure.Yards); rest >= measure.Guard {
		return fmt.Sprintf("%.0f yd %s", whole, inches(rest))
	}
	return fmt.Sprintf("%.0f yd", whole)
}

// inches shows a length in eighths where it is so many, else in hundredths of an inch, or
// finer where that would be nothing: a limit is told as it is.
func inches(mm float64) string {
	if n := math.Round(mm / eighth); math.Abs(mm-n*eighth) < measure.Guard && (n != 0 || mm == 0) {
		return measure.Format(mm, measure.Inch)
	}
	inches := mm / measure.Inches
	if math.Abs(inches) < 0.1 {
		return fmt.Sprintf("%.1g in", inches)
	}
	return strconv.FormatFloat(math.Round(inches*100)/100, 'f', -1, 64) + " in"
}

// eighth is what inches are shown in, mm.
const eighth = measure.Inches / 8
