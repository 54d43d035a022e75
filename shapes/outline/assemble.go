package outline

import (
	"fmt"

	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// DefaultTolerance is how far apart ends may lie that are joined, mm, unless somebody says
// otherwise: about the width of a pencil line.
const DefaultTolerance = 0.5

// Options are what is known of a drawing besides what it holds.
type Options struct {
	Rules       []Rule  // roles of lines; those that no rule names are guessed
	Millimetres float64 // of one unit of the file, in place of what it says; 0: as it says
	Tolerance   float64 // ends so far apart are joined, mm; 0: DefaultTolerance
}

// Assembly is a drawing whose lines have roles, as shapes.
type Assembly struct {
	Shapes []Shape
	Faults []Fault
	Lines  []Line     // of the drawing, mm
	Roles  []LineRole // of each of them
	Unit   Unit       // that was counted in
}

// LineRole is what one line is for, and why.
type LineRole struct {
	Role    Role
	Given   bool   // by a rule that was handed over
	Because string // a clause: "layer 8 is for lines inside"; "" where a rule says so
	Shape   int    // number of the shape that it belongs to; 0: none
}

// ErrNoUnit is the error of a drawing that does not say how long its unit is.
type ErrNoUnit struct{}

func (ErrNoUnit) Error() string { return "the file does not say how long its unit is" }

// Assemble groups the lines of a drawing into shapes. Lines that no outline holds, and all
// that is mended or wrong, are among the faults; errors are for a drawing without a unit
// (ErrNoUnit), and one beyond the limits.
func Assemble(d Drawing, o Options) (Assembly, error) {
	unit, scale, err := unitOf(d, o)
	if err != nil {
		return Assembly{}, err
	}
	if o.Tolerance == 0 {
		o.Tolerance = DefaultTolerance
	}
	d = scaled(d, scale)
	a := Assembly{Lines: d.Lines, Unit: unit, Roles: make([]LineRole, len(d.Lines))}
	for i, l := range d.Lines {
		if !l.Closed {
			continue
		}
		ring, err := order(orb.Ring(l.Points))
		if err != nil {
			a.Faults = append(a.Faults, Fault{Kind: SelfCrossed, What: say.Textf("%v", err), At: l.Points[0],
				Place: l.Place})
			continue
		}
		n := len(a.Shapes) + 1
		a.Roles[i] = LineRole{Role: CutLine, Because: "it is closed", Shape: n}
		name := l.Label
		if name == "" {
			name = placeName(n)
		}
		a.Shapes = append(a.Shapes, Shape{Number: n, Name: name, Outline: CutLine, Fold: -1, Place: l.Place, Marks: l.Marks,
			Edges: []Edge{{Name: "outline", Line: orb.LineString(ring), Place: l.Place, Marks: l.Marks}}})
	}
	return a, nil
}

// unitOf is the unit to count in, and what coordinates are multiplied by.
func unitOf(d Drawing, o Options) (Unit, float64, error) {
	switch said := d.Unit.Millimetres; {
	case o.Millimetres == 0 && said == 0:
		return Unit{}, 0, ErrNoUnit{}
	case o.Millimetres == 0:
		return d.Unit, 1, nil
	case said == 0:
		return Unit{o.Millimetres, "the job says so"}, o.Millimetres, nil
	default:
		return Unit{o.Millimetres, "the job says so"}, o.Millimetres / said, nil
	}
}

// scaled returns a drawing with its coordinates multiplied.
func scaled(d Drawing, by float64) Drawing {
	if by == 1 {
		return d
	}
	lines := make([]Line, len(d.Lines))
	for i, l := range d.Lines {
		points := make(orb.LineString, len(l.Points))
		for k, p := range l.Points {
			points[k] = orb.Point{p[0] * by, p[1] * by}
		}
		l.Points, lines[i] = points, l
	}
	d.Lines = lines
	points := make([]Point, len(d.Points))
	for i, p := range d.Points {
		p.At, points[i] = orb.Point{p.At[0] * by, p.At[1] * by}, p
	}
	d.Points = points
	texts := make([]Text, len(d.Texts))
	for i, t := range d.Texts {
		t.At, texts[i] = orb.Point{t.At[0] * by, t.At[1] * by}, t
	}
	d.Texts = texts
	return d
}

// GuessUnit returns the unit that a drawing without one is most likely in, and why.
func GuessUnit(d Drawing) Unit {
	large := 0.
	for _, l := range d.Lines {
		b := l.Points.Bound()
		large = max(large, b.Max[0]-b.Min[0], b.Max[1]-b.Min[1])
	}
	for _, u := range []struct {
		name        string
		millimetres float64
		most        float64
	}{
		// The largest piece of a gown is between 15 cm and 3 m long: common practice.
		{"in", 25.4, 24}, {"cm", 10, 150}, {"mm", 1, 6000}, {"px, 96 to the inch", 25.4 / 96, 24_000},
	} {
		if large <= u.most {
			return Unit{u.millimetres, fmt.Sprintf("the largest line spans %.4g units: in %s that is a piece of a gown",
				large, u.name)}
		}
	}
	return Unit{1, fmt.Sprintf("the largest line spans %.4g units, too many for any", large)}
}
