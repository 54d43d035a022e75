package strict

import (
	"fmt"
	"math"
	"strconv"

	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// Show is how errors say lengths to who measures in a unit: in mm, or, with feet, yards
// and inches, in inches.
func Show(unit measure.Unit) say.Show {
	if unit.Metric() {
		return nil
	}
	return inches
}

// inches shows a length in sixteenths where it is so many, else in hundredths of
// an inch, or finer where that would be nothing: a limit is told as it is.
func inches(mm float64) string {
	if shown := measure.Format(mm, measure.Inch); math.Abs(mm-math.Round(mm/eighth)*eighth) < measure.Guard {
		return shown
	}
	inches := mm / measure.Inches
	if math.Abs(inches) < 0.1 {
		return fmt.Sprintf("%.1g in", inches)
	}
	return strconv.FormatFloat(math.Round(inches*100)/100, 'f', -1, 64) + " in"
}

// eighth is what inches are shown in, mm.
const eighth = measure.Inches / 8
