package report

import (
	"fmt"
	"math"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes/measure"
)

// Bare shows a length without its unit.
func Bare(mm float64, unit measure.Unit) string {
	return strings.TrimSuffix(measure.Format(mm, unit), " "+unit.String())
}

// BareUp is Bare rounded up, for lengths of cloth.
func BareUp(mm float64, unit measure.Unit) string {
	return strings.TrimSuffix(measure.FormatUp(mm, unit), " "+unit.String())
}

// Sized shows a size without its unit.
func Sized(s plan.Size, unit measure.Unit) string {
	return Bare(s.Along, unit) + " x " + Bare(s.Across, unit)
}

// UnitWords names the unit that lists are in: "inches".
func UnitWords(unit measure.Unit) string { return unitWords[unit] }

var unitWords = map[measure.Unit]string{
	measure.Inch: "inches", measure.Millimetre: "millimetres", measure.Centimetre: "centimetres",
	measure.Yard: "yards", measure.Metre: "metres",
}

// CutOn is what stands behind the name of a piece that does not follow the warp:
// ", bias".
func CutOn(grain job.Grain) string { return cutOn[grain] }

var cutOn = map[job.Grain]string{job.BiasGrain: ", bias", job.CrossGrain: ", cross grain",
	job.EitherGrain: ", either grain"}

// Copies says how many to cut and which way: "2 pairs", "1 on fold".
func Copies(count int, pair, onFold bool) string {
	switch {
	case pair && count == 2:
		return "1 pair"
	case pair:
		return fmt.Sprintf("%d pairs", count/2)
	case onFold:
		return fmt.Sprintf("%d on fold", count)
	}
	return fmt.Sprint(count)
}

// WithoutPart leaves the name of the part, which stands before it, out of that of a piece.
func WithoutPart(piece, part string) string {
	if name, of := strings.CutPrefix(piece, part+" "); of && name != "" {
		return name
	}
	return piece
}

// Percent shows a share, rounded down so that a full cloth alone says 100 %.
func Percent(share float64) string {
	return fmt.Sprintf("%.1f %%", math.Floor(share*1000+1e-9)/10)
}

// GapWords shows by how much a layout is longer than its bound, rounded up.
func GapWords(share float64) string {
	return fmt.Sprintf("%.1f %%", math.Max(0, math.Ceil(share*1000-1e-6))/10)
}
