package draft

import (
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Corners says how pieces that are wide at the hem are pieced: their corners are cut off along
// the grain and sewn on again, so that what is left is narrow enough for the cloth.
//
//	      ____----|  corner
//	.----' - - - -|- - -
//	|             |  within
//	'----. - - - -|- - -
//	      ''''----|  corner
type Corners struct {
	Within    float64 // no part is cut wider across the grain, mm
	Most      int     // corners of a piece at the most: 1 or 2
	FromWaist float64 // no nearer to a waist or an upper edge does a piecing seam come, mm
	Centre    bool    // the centre front, or a fold, may lie on a corner too
	Allowance float64 // on either side of a piecing seam, mm
}

// Of returns what a draft comes to with the corners of its pieces pieced: all that is cut wider
// than allowed, with the new seams before all others. Errors name the piece and the rule that
// keeps it whole.
func (c Corners) Of(d Result) (Result, error) {
	out := d
	out.Pieces, out.Joins = nil, slices.Clone(d.Joins)
	var seams []shapes.Join
	for _, p := range d.Pieces {
		parts, err := c.pieces(p)
		if err != nil {
			return Result{}, err
		}
		main := p
		var corners []shapes.Piece
		for _, part := range parts {
			main = part.Main
			corners = append(corners, part.Corner)
			seams = append(seams, part.Join)
			if err := out.sewnBy(part); err != nil {
				return Result{}, err
			}
		}
		out.Pieces = append(append(out.Pieces, main), corners...)
	}
	out.Joins = append(seams, out.Joins...)
	return out, nil
}

// sewnBy has the sides of all seams along the parts of a piece that was cut in two.
func (d *Result) sewnBy(part shapes.Pieced) error {
	d.Faced.A.Edges, d.Faced.B.Edges = slices.Clone(d.Faced.A.Edges), slices.Clone(d.Faced.B.Edges)
	sides := []*shapes.JoinSide{&d.Waist, &d.Neck, &d.Armhole, &d.Cap, &d.Bag, &d.Faced.A, &d.Faced.B}
	for i := range d.Joins {
		sides = append(sides, &d.Joins[i].A, &d.Joins[i].B)
	}
	for _, s := range sides {
		var err error
		if *s, err = part.Sewn(*s); err != nil {
			return err
		}
	}
	return nil
}

// pieces cuts the corners off a piece, alike on both sides where that is allowed; none where it is
// narrow enough.
func (c Corners) pieces(p shapes.Piece) (parts []shapes.Pieced, err error) {
	if _, across := p.Unfold().CutSize(); across <= c.Within {
		return nil, nil
	}
	plans := [][]bool{{true}, {false}} // which corners, the upper one among them
	switch {
	case p.OnFold:
		box := plane.Bounds(p.Seam)
		plans = [][]bool{{foldOf(p)[1] < (box.Min[1]+box.Max[1])/2}}
	case c.Most > 1:
		plans = slices.Insert(plans, 0, []bool{true, false})
	}
	for _, plan := range plans {
		one, bad := c.cut(p, plan)
		if bad == nil {
			return one, nil
		}
		if err == nil {
			err = bad
		}
	}
	return nil, err
}

// cut cuts corners off a piece, one after the other.
func (c Corners) cut(p shapes.Piece, corners []bool) (parts []shapes.Pieced, err error) {
	for i, upper := range corners {
		name := p.Name + " corner"
		if len(corners) > 1 {
			name = p.Name + map[bool]string{true: " upper corner", false: " lower corner"}[upper]
		}
		part, err := c.corner(p, name, upper, len(corners)-i)
		if err != nil {
			return nil, err
		}
		parts, p = append(parts, part), part.Main
	}
	return parts, nil
}

// leastCorner is the least that a corner measures across, finished, mm: a narrower one is hard to
// sew on (our own figure).
const leastCorner = 25.0

// corner cuts off the upper or the lower corner of a piece, which takes its share of what is
// too wide: all of it, or half where another corner is still to be cut off.
func (c Corners) corner(p shapes.Piece, name string, upper bool, left int) (shapes.Pieced, error) {
	_, across := p.CutSize()
	within := c.Within
	if p.OnFold {
		within /= 2
	}
	aim := across - (across-within)/float64(left) // what is left of the piece is cut so wide
	box, sewn := plane.Bounds(p.Cut), plane.Bounds(p.Seam)
	at, inward := min(box.Min[1]+aim-c.Allowance, sewn.Max[1]-leastCorner), -1.0
	if !upper {
		at, inward = max(box.Max[1]-aim+c.Allowance, sewn.Min[1]+leastCorner), 1
	}
	var out shapes.Pieced
	for range 8 { // a hem that leans may be cut wider at the new seam than its allowance
		if at <= sewn.Min[1] || at >= sewn.Max[1] {
			break
		}
		var err error
		if out, err = p.Piece(shapes.Piecing{At: plane.Snap(at), Allowance: c.Allowance}, name); err != nil {
			return out, err
		}
		_, now := out.Main.CutSize()
		if now <= aim {
			return out, c.check(p, out)
		}
		at += inward * (now - aim + plane.Lattice)
	}
	return out, say.Errorf("%s: no line along the grain makes it %.1f wide", p.Name, say.MM(c.Within)).
		Hint("leave `pieced` out, or take more and narrower pieces")
}

// check holds a piecing to where it may lie.
func (c Corners) check(p shapes.Piece, out shapes.Pieced) error {
	if _, across := out.Corner.CutSize(); across > c.Within {
		return say.Errorf("%s: a corner of it would be %.1f wide, and %.1f is allowed", p.Name, say.MM(across),
			say.MM(c.Within)).Hint("piece it on both sides (most = 2), or take more and narrower pieces")
	}
	for _, e := range out.Corner.Edges {
		if !c.Centre && (e.Kind == shapes.Fold || strings.Contains(e.Name, "centre front")) {
			return say.Errorf("%s: the piecing would lie at its %s", p.Name, e.Name).
				Hint("centre_front = true in `pieced` allows that")
		}
	}
	near := math.Inf(1)
	for _, e := range p.Edges {
		if e.Kind == shapes.Waist || e.Kind == shapes.Top {
			near = min(near, clearance(out.Line, e.Line))
		}
	}
	if near < c.FromWaist {
		return say.Errorf("%s: the piecing seam would come within %.1f of its waist, and %.1f is to be left", p.Name,
			say.MM(near), say.MM(c.FromWaist)).
			Hint("a shorter `from_waist` in `pieced`, a wider cloth, or more and narrower pieces")
	}
	return nil
}

// clearance is how far two lines are from each other that do not cross, mm.
func clearance(a, b orb.LineString) float64 {
	least := math.Inf(1)
	for _, pair := range [][2]orb.LineString{{a, b}, {b, a}} {
		for _, v := range pair[0] {
			for i := 1; i < len(pair[1]); i++ {
				least = min(least, planar.DistanceFromSegment(pair[1][i-1], pair[1][i], v))
			}
		}
	}
	return least
}

// foldOf returns a point of the fold of a piece.
func foldOf(p shapes.Piece) orb.Point {
	for _, e := range p.Edges {
		if e.Kind == shapes.Fold {
			return e.Line[0]
		}
	}
	return orb.Point{}
}
