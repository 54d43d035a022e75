// Package sheet draws markers and pieces. A Drawing is made of a few kinds of
// item, each with a role (cut line, seam line, grain ...) that says what it is
// and not how it looks, so that every file format can be written from it. The writers
// are our own: the libraries tried gave other bytes from run to run.
package sheet

import (
	"math"

	"github.com/paulmach/orb"
)

// Drawing is one sheet. Coordinates are millimetres of cloth, x to the right
// and y down from the top left corner.
type Drawing struct {
	Title         string
	Description   string
	Width, Height float64 // mm
	// Scale is the millimetres of cloth drawn as one millimetre of paper: 12 is
	// a drawing 1 : 12. Line widths and text keep their size on paper.
	Scale  float64
	Theme  Theme
	Groups []Group
}

// Group holds the items of one thing, such as one piece; its title is shown
// when the thing is pointed at, and read aloud by screen readers.
type Group struct {
	Title string
	ID    string // what a page ties the thing to; may be empty
	// Origin is where (0, 0) of a stretch lies, of the group that is its cloth: x and y of
	// the stretch are x - Origin[0] and Origin[1] - y of the drawing. Nil of other groups.
	Origin *orb.Point
	Items  []Item
}

// Item is a Shape, a Line or a Text.
type Item interface{ item() }

// Shape is a closed outline. Tint chooses the fill of a RolePiece.
type Shape struct {
	Role Role
	Ring orb.Ring
	Tint int
}

// Line is an open line.
type Line struct {
	Role Role
	Path orb.LineString
}

// Text is one line of text about its anchor point, which lies in the middle of
// the line's height.
type Text struct {
	Role   Role
	At     orb.Point
	Anchor Anchor
	Size   float64 // mm of cloth
	Turn   float64 // degrees counter-clockwise as seen
	Body   string
}

func (Shape) item() {}
func (Line) item()  {}
func (Text) item()  {}

// Anchor says which part of a text lies at its point.
type Anchor uint8

// A text starts at its point, is centred on it, or ends there.
const (
	Start Anchor = iota
	Middle
	End
)

// Role says what an item is.
type Role uint8

// The roles of items.
const (
	RoleCloth    Role = iota // cloth the marker takes up
	RoleSpare                // cloth bought beyond the used length
	RoleSelvedge             // strip along the edge that is not used
	RoleEdge                 // edge of the cloth
	RolePiece                // inside of a piece, up to its cut line
	RoleSeam                 // seam line
	RoleInside               // line marked inside a piece, such as the crease of a band
	RoleGrain                // grain arrow, line and heads
	RoleNotch                // notch across the cut line
	RoleFold                 // sign of an edge that lies on a fold
	RoleMark                 // line at the used or the bought length
	RoleDim                  // dimension line with its heads, scale bar
	RolePlate                // ground under a text in a piece that lies across a line
	RoleGround               // ground under a text beside the pieces
	RoleHeading              // text of the title
	RoleNote                 // text
	RoleCaution              // text of a caution
	RoleFoldEdge             // edge of the cloth that is a fold
	RoleHatch                // hatching of the end allowance, of the middle of a double fold
	RoleFlaw                 // place that is not cut, its hatching
	RoleRepeat               // line of the cloth's repeat
	RoleMatch                // mark of a match point
	RoleJoin                 // crosses and lines where sheets of paper or light are joined
	RoleLit                  // line that is shown among others
	RoleDart                 // line of a dart in a drawing made elsewhere
	RoleLeftOut              // line of such a drawing that is not used
	RoleFault                // ring around what is wrong with it
	roleCount
)

// arrow draws a line with a solid head at one end or both, heads in mm.
func arrow(role Role, from, to orb.Point, head float64, both bool) []Item {
	length := math.Hypot(to[0]-from[0], to[1]-from[1])
	if length == 0 {
		return nil
	}
	head = math.Min(head, length/3)
	ux, uy := (to[0]-from[0])/length, (to[1]-from[1])/length
	tip := func(p orb.Point, s float64) Item {
		bx, by := p[0]-s*ux*head, p[1]-s*uy*head
		wx, wy := -uy*head*0.3, ux*head*0.3
		return Shape{Role: role, Ring: orb.Ring{p, {bx + wx, by + wy}, {bx - wx, by - wy}, p}}
	}
	items := []Item{Line{role, orb.LineString{from, to}}, tip(to, 1)}
	if both {
		items = append(items, tip(from, -1))
	}
	return items
}

// Box is the ring of a rectangle.
func Box(x0, y0, x1, y1 float64) orb.Ring {
	return orb.Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}}
}
