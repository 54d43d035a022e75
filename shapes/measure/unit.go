// Package measure is where lengths meet words: it reads what a maker writes
// ("35 1/2 in", "90 cm", "2 3/8 yd") into millimetres and prints millimetres
// the way a tape or a shop counter divides them. Reading is exact (rational
// arithmetic, one rounding to float64 at the end).
package measure

import (
	"fmt"
	"math/big"
	"strings"
)

// Unit is a unit of length. The zero value is Inch.
type Unit int

// The units read and printed. An inch is 25.4 mm exactly, a foot 12 in, a yard
// 36 in (international yard and pound agreement of 1959: 1 yd = 0.9144 m).
const (
	Inch Unit = iota
	Foot
	Yard
	Millimetre
	Centimetre
	Metre
)

// Lengths of the units in millimetres.
const (
	Inches      = 25.4
	Feet        = 304.8
	Yards       = 914.4
	Centimetres = 10.0
	Metres      = 1000.0
)

// units holds, by Unit: the short name, the length in tenths of a millimetre
// (a whole number for all of them, so exact) and the spellings accepted.
var units = [...]struct {
	short  string
	tenths int64
	names  []string
}{
	Inch:       {"in", 254, []string{"in", "ins", "inch", "inches", `"`, "″", "”", "''"}},
	Foot:       {"ft", 3048, []string{"ft", "foot", "feet", "'", "′", "’"}},
	Yard:       {"yd", 9144, []string{"yd", "yds", "yard", "yards"}},
	Millimetre: {"mm", 10, []string{"mm", "millimetre", "millimetres", "millimeter", "millimeters"}},
	Centimetre: {"cm", 100, []string{"cm", "centimetre", "centimetres", "centimeter", "centimeters"}},
	Metre:      {"m", 10000, []string{"m", "metre", "metres", "meter", "meters"}},
}

// unitList is the hint printed where a unit could not be read.
const unitList = "in, ft, yd, mm, cm, m"

// String gives the short name: "in", "ft", "yd", "mm", "cm" or "m".
func (u Unit) String() string {
	if !u.Valid() {
		return fmt.Sprintf("Unit(%d)", int(u))
	}
	return units[u].short
}

// Valid tells whether u is one of the units above.
func (u Unit) Valid() bool { return u >= 0 && int(u) < len(units) }

// Metric tells whether u belongs to the metric system.
func (u Unit) Metric() bool { return u >= Millimetre }

// Exact gives the length of one u in millimetres as an exact fraction.
// It panics on a Unit that is not Valid.
func (u Unit) Exact() *big.Rat { return big.NewRat(units[u].tenths, 10) }

// Millimetres gives the length of one u in millimetres.
// It panics on a Unit that is not Valid.
func (u Unit) Millimetres() float64 { return float64(units[u].tenths) / 10 }

// ParseUnit reads the name of a unit: short, long, singular or plural, British
// or American, in any case, and the marks " and ' for inches and feet.
func ParseUnit(s string) (Unit, error) {
	name := strings.ToLower(strings.TrimSpace(s))
	for u := range units {
		for _, n := range units[u].names {
			if n == name {
				return Unit(u), nil
			}
		}
	}
	return 0, fmt.Errorf("%q is no unit of length (use one of %s)", clip(s), unitList)
}

// SizeUnit is the unit to show sizes of pieces in when lengths are asked for in
// unit: feet and yards are divided too coarsely for them, and so are metres.
func SizeUnit(unit Unit) Unit {
	switch unit {
	case Foot, Yard:
		return Inch
	case Metre:
		return Centimetre
	}
	return unit
}

// Size prints the size of a piece where lengths are asked for in u.
func (u Unit) Size(mm float64) string { return Format(mm, SizeUnit(u)) }

// CounterUnit is the unit that cloth is sold by where lengths are asked for in unit.
func CounterUnit(unit Unit) Unit {
	if unit.Metric() {
		return Metre
	}
	return Yard
}
