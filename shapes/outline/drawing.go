package outline

import "github.com/paulmach/orb"

// Drawing is what a file holds before anybody says what its lines are for: a reader of
// a format returns one, and what is made of it is the same for all formats.
type Drawing struct {
	Unit   Unit
	Lines  []Line // in the order of the file
	Points []Point
	Texts  []Text
	Notes  []string // what was left out and where, in words: "picture at line 12"
	// Apart is whether every closed line is a shape of its own wherever it lies: the format
	// has them one by one, and not as a picture in which one lies within another.
	Apart bool
}

// Unit is how long one unit of the file is, and how the file says so.
type Unit struct {
	// Millimetres are those of one unit. 0: the file does not say; coordinates are
	// then those of the file, and whoever uses them has to give a scale.
	Millimetres float64
	Because     string // "width 210 mm for 793.7 units"; "$INSUNITS 4"
}

// Line is one line as drawn. x runs to the right and y up, whatever the format does;
// coordinates are mm, or units of the file where Unit is not known. They are not on the
// lattice yet.
type Line struct {
	Points orb.LineString // two or more; curves within ChordError
	// Corners are the places in Points where the file has an end of a segment: between
	// two of them lies one straight or curved segment. The first and the last are among
	// them; of a closed line the last is the first point again.
	Corners []int
	Closed  bool

	Marks
	Place string // where in the file: "line 12", "block FRONT, entity 4"
}

// Point is a place that is marked without a line: a notch, a drill hole, a corner of an
// outline in pattern data.
type Point struct {
	At orb.Point // as in Line

	Marks
	Place string
}

// Text is one text in a drawing and the place of its first letter, as in Line.
type Text struct {
	At   orb.Point
	Text string // printable; "\n" between lines

	Marks
}

// Marks are what a file says of a line or a text, by which roles and shapes are told.
// "" where it says nothing, or the format has no such thing.
type Marks struct {
	ID     string // id of an element, handle of an entity, id of a feature
	Label  string // what a person called it: title, name
	Group  string // labels or ids of what it stands in, outermost first, joined by "/"
	Layer  string // layer, or the group that serves as one
	Block  string // name of the block, one a piece in pattern data
	Size   string // size of a graded piece
	Colour string // of the stroke, or of the filling where there is none: "#rrggbb"
	Dashed bool
}

// ChordError is the farthest that a curve lies from the chords it is read as, mm.
const ChordError = 0.05

// Limits on a drawing of any format. They keep the worst file within a second and 500 MB,
// and are far above what a gown needs.
const (
	// MaxDrawingBytes is the largest file.
	MaxDrawingBytes = 32 << 20
	// MaxDrawingVertices is the most points of its lines, in the file, and again as
	// they are drawn, where something is drawn several times.
	MaxDrawingVertices = 1_000_000
)
