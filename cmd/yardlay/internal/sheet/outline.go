package sheet

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes/plane"
)

// Outline is one flat piece as drawn, in the caller's millimetres with y up.
type Outline struct {
	Cut     orb.Ring
	Seam    orb.Ring         // may be empty
	Grain   orb.LineString   // two points, or none
	Inside  []orb.LineString // lines marked inside
	Names   []LineName       // of those lines, on a sheet of pieces
	Darts   []int            // those of them that are a dart, leg, apex, leg; at full size its fold is drawn
	Notches []Notch

	clear []orb.LineString // on the page: what a label keeps clear of besides
}

// Notch is a mark from the seam line towards the cut line.
type Notch struct {
	At, Outward orb.Point // a point on the seam line; a unit vector
	Note        string    // at full size: which copies bear it
}

// onto moves the outline to the drawing, whose y points down: origin is where
// the caller's (0, 0) comes to lie.
func (o Outline) onto(origin orb.Point) Outline {
	move := func(ps []orb.Point) []orb.Point {
		out := make([]orb.Point, len(ps))
		for i, p := range ps {
			out[i] = orb.Point{origin[0] + p[0], origin[1] - p[1]}
		}
		return out
	}
	moved := Outline{Cut: move(o.Cut), Seam: move(o.Seam), Grain: move(o.Grain), Names: o.Names, Darts: o.Darts}
	for _, l := range o.Inside {
		moved.Inside = append(moved.Inside, move(l))
	}
	for _, n := range o.Notches {
		n.At, n.Outward[1] = move([]orb.Point{n.At})[0], -n.Outward[1]
		moved.Notches = append(moved.Notches, n)
	}
	return moved
}

// items draws everything but texts and the grain arrow.
func (o Outline) items(tint int, scale float64) []Item {
	items := []Item{Shape{Role: RolePiece, Ring: o.Cut, Tint: tint}}
	if len(o.Seam) > 0 {
		items = append(items, Line{RoleSeam, orb.LineString(o.Seam)})
	}
	for _, l := range o.Inside {
		items = append(items, Line{RoleInside, l})
	}
	for _, n := range o.Notches {
		reach := o.Reach(n)
		if reach == 0 {
			reach = scale // no allowance there: a mark of 1 mm of paper, outward
		}
		items = append(items, Line{RoleNotch, orb.LineString{n.At,
			{n.At[0] + reach*n.Outward[0], n.At[1] + reach*n.Outward[1]}}})
	}
	return items
}

// dartFolds are the lines on which darts are folded: from the apex to the middle of the mouth.
func (o Outline) dartFolds() []orb.LineString {
	var folds []orb.LineString
	for _, i := range o.Darts {
		if l := o.Inside[i]; len(l) == 3 {
			folds = append(folds, orb.LineString{l[1], {(l[0][0] + l[2][0]) / 2, (l[0][1] + l[2][1]) / 2}})
		}
	}
	return folds
}

// grainItems draws a grain arrow, headed at both ends or at its second alone.
func grainItems(grain orb.LineString, scale float64, both bool) []Item {
	if len(grain) != 2 {
		return nil
	}
	return arrow(RoleGrain, grain[0], grain[1], 2.2*scale, both)
}

// onCut is how far, mm, the cut line may lie off a seam line without an allowance: it is on
// the lattice, and the seam line need not be.
const onCut = 2 * plane.Lattice

// Reach returns how far it is from a notch on the seam line to the cut line, mm; 0 where no
// allowance lies between them. What lies beyond a bare edge is not its cut line.
func (o Outline) Reach(n Notch) float64 {
	if len(o.Cut) == 0 || planar.DistanceFrom(orb.LineString(o.Cut), n.At) <= onCut {
		return 0
	}
	return rayLength(o.Cut, n)
}

// rayLength is how far a notch reaches from the seam line to the cut line; 0
// where its ray meets none.
func rayLength(ring orb.Ring, n Notch) float64 {
	least := math.Inf(1)
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		ex, ey := b[0]-a[0], b[1]-a[1]
		det := n.Outward[0]*ey - n.Outward[1]*ex
		if det == 0 {
			continue
		}
		ax, ay := a[0]-n.At[0], a[1]-n.At[1]
		t := (ax*ey - ay*ex) / det
		s := (ax*n.Outward[1] - ay*n.Outward[0]) / det
		if t >= 0 && s >= 0 && s <= 1 {
			least = math.Min(least, t)
		}
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}

// finished is the seam line, or the cut line where there is none.
func (o Outline) finished() orb.Ring {
	if len(o.Seam) > 0 {
		return o.Seam
	}
	return o.Cut
}
