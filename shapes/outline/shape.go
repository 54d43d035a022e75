package outline

import (
	"github.com/paulmach/orb"
)

// Shape is one closed outline of a drawing, with what belongs to it. Coordinates are mm,
// as in the drawing: not moved, and on the lattice where they are those of edges.
type Shape struct {
	Number   int    // from 1, in the order of the drawing
	Name     string // what the file calls it, or "outline 3"
	Size     string // of a graded piece; "" where there is one size
	Quantity int    // copies, as the file says; 0 where it does not
	Paired   bool   // half of them are mirrored, as the file says
	Material string // as the file says; "" where it does not

	// Edges are the outline: the stretches that came from different lines, each from its
	// start to its end counter-clockwise. Together they are one simple ring.
	Edges []Edge
	// Outline is whether they are the line that is cut or the one that is sewn.
	Outline Role // CutLine or SeamLine
	// Cut is the line that is cut, closed and counter-clockwise, where the drawing has both;
	// the edges are then the one that is sewn, and lie within it. None otherwise.
	Cut orb.Ring

	Grain   orb.LineString // two points; none where nothing is drawn
	Fold    int            // the edge that lies on a fold; -1: none does
	Notches []NotchAt
	Darts   []DartAt
	Inside  []Inner
	Holes   int // outlines within this one that are cut out, and not kept

	Because []string // why lines are read so: one sentence for each guess
	Said    []string // what its texts were taken to say, likewise
	Place   string   // of the first line of its outline
	Marks            // of the first line of its outline
}

// Edge is one stretch of an outline.
type Edge struct {
	Name  string         // unique within the shape
	Line  orb.LineString // mm, on the lattice
	Place string
	Marks
}

// NotchAt is a mark at an outline.
type NotchAt struct {
	Edge int     // among the edges
	At   float64 // along it from its start, mm
}

// DartAt is a dart that opens on an outline: two legs that meet at its apex.
type DartAt struct {
	Edge     int     // among the edges
	From, To float64 // feet of the legs along the edge, mm; From is the less
	Apex     orb.Point
	Uneven   float64 // how much longer one leg is than the other, mm
	Place    string
}

// Inner is a line within an outline that is marked on the cloth.
type Inner struct {
	Line  orb.LineString
	Place string
	Marks
}

// Ring strings the edges together: closed and counter-clockwise.
func (s Shape) Ring() orb.Ring {
	var ring orb.Ring
	for _, e := range s.Edges {
		for _, p := range e.Line {
			if len(ring) == 0 || ring[len(ring)-1] != p {
				ring = append(ring, p)
			}
		}
	}
	return ring
}
