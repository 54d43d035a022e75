// Package chalk puts outlines into figures: how to draw a piece straight on the cloth
// with tape measure, string and chalk. It reads an outline as straight lines, arcs and
// other curves, rounds what it says of them to the marks of a tape, and keeps what is
// drawn from those figures alone near the outline: that is tried before they are shown.
//
// # Decided, and why
//
//   - Points lie from the cut end and the edge of the cloth, each measured by itself, so
//     that no error adds up along an outline. What lies between two points is measured
//     from these: a string about a pivot, or steps along the line between them.
//   - Shapes holds arcs as chords that keep within a tenth of a millimetre: they are
//     found again from those. Pivot and radius are then chosen together among the marks
//     of the tape, since rounding each by itself would be up to 1.2 marks off.
//   - Curves that are no arc are measured off the straight line between their ends, at
//     the widest of a few round steps that holds.
package chalk

import (
	"math"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/shapes/measure"
)

// Marks counts the marks of a tape.
type Marks int

// Tape is what distances are measured with.
type Tape struct{ Unit measure.Unit }

// mark is the distance between two marks, mm.
func (t Tape) mark() float64 { return measure.TapeMark(t.Unit) }

// Tolerance is how far what is drawn may lie from the cut line, mm: 1, or a sixteenth
// of an inch. Rounding both distances of a point to the nearest mark moves it by 0.71
// marks at the most.
func (t Tape) Tolerance() float64 { return t.mark() }

// Step is the distance, mm, that places of pieces are whole multiples of: 5 mm, or a
// quarter of an inch.
func (t Tape) Step() float64 {
	if t.Unit.Metric() {
		return 5
	}
	return measure.Inches / 4
}

// Gap is what pieces have to lie apart at the least, mm, so that no line drawn within
// the tolerance comes into a neighbour.
func (t Tape) Gap() float64 { return 2 * t.Tolerance() }

// Round returns the mark nearest to a length in mm.
func (t Tape) Round(mm float64) Marks { return Marks(math.Round(mm / t.mark())) }

// MM is a number of marks in mm.
func (t Tape) MM(n Marks) float64 { return float64(n) * t.mark() }

// Show writes a number of marks as it is read off the tape, without the unit. A whole
// number and its fraction are not parted where lines break.
func (t Tape) Show(n Marks) string {
	return strings.ReplaceAll(measure.FormatTape(t.MM(n), t.Unit), " ", noBreak)
}

// noBreak is a space at which lines do not break.
const noBreak = "\u00a0"

// Place is a point on the cloth: marks from the cut end and from the edge.
type Place [2]Marks

// round returns the place nearest to a point.
func (t Tape) round(p orb.Point) Place { return Place{t.Round(p[0]), t.Round(p[1])} }

// point is a place in mm.
func (t Tape) point(p Place) orb.Point { return orb.Point{t.MM(p[0]), t.MM(p[1])} }

// steps are the distances along a straight line at which a curve is measured off it,
// marks, the widest first: 20 cm to 5 mm, 8 in to 1/4 in.
func (t Tape) steps() []Marks {
	if t.Unit.Metric() {
		return []Marks{200, 100, 50, 20, 10, 5}
	}
	return []Marks{128, 64, 32, 16, 8, 4}
}
