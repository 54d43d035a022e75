package outline

import (
	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// FaultKind is what kind of thing a fault of a drawing is.
type FaultKind int

// Kinds of faults. Those that stop leave no shape to cut.
const (
	Joined      FaultKind = iota // ends within the tolerance, made one
	Duplicate                    // drawn twice over; the second is left out
	Hair                         // a line, or a spike of one, too short or thin to be meant
	Hole                         // an outline within a piece: a cut-out, not kept
	Stray                        // a line that belongs to no outline
	Doubtful                     // read one way, and another is possible
	WrongUnit                    // too large or too small for clothes
	Open                         // an outline that does not close; stops
	SelfCrossed                  // an outline that crosses itself; stops
	TooFine                      // an outline of too many corners; stops
)

// String is the word for a kind, as tables have it.
func (k FaultKind) String() string {
	return [...]string{"joined", "twice", "hair", "cut-out", "stray", "doubtful", "unit", "open", "crossing", "corners"}[k]
}

// Stops says whether there is no shape to cut.
func (k FaultKind) Stops() bool { return k >= Open }

// Fault is what is wrong with a drawing, or was mended, and where.
type Fault struct {
	Kind  FaultKind
	What  say.Text  // a clause without its place
	Hint  string    // what would mend it; "" where nothing has to be
	At    orb.Point // mm, as in the drawing
	Place string    // in the file
	Shape int       // number of the shape that it concerns; 0: none
}

// Error is the fault as an error, with its place.
func (f Fault) Error() *say.Error {
	e := say.Errorf("%v at %v (%s)", f.What, plane.Place(f.At), f.Place)
	if f.Hint != "" {
		e.Hint("%s", f.Hint)
	}
	return e
}
