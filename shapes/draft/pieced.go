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
	Length    float64 // nor longer along it: what is longer is cut across the grain, mm; 0: as long as it is
	Most      int     // corners of a piece at the most, and cuts across its grain: 1 or 2
	FromWaist float64 // no nearer to a waist or an upper edge does a piecing seam come, mm
	Centre    bool    // the centre front, or a fold, may lie on a corner too
	Allowance float64 // on either side of a piecing seam, mm
}

// Of returns what a draft comes to with its pieces pieced: all that is cut wider or longer than
// allowed, with the new seams before all others. Errors name the piece and the rule that keeps
// it whole.
func (c Corners) Of(d Result) (Result, error) { return c.OfFinished(d, d) }

// OfFinished is Of for a draft that is finished; before is what it came to unfinished, whose
// waists and upper edges are known as such where they are faced now.
func (c Corners) OfFinished(d, before Result) (Result, error) {
	out := d
	out.Pieces, out.Joins = nil, slices.Clone(d.Joins)
	out.Parted = slices.Clone(d.Parted)
	for _, p := range d.Pieces {
		first := len(out.Parted) - len(d.Parted)
		upper := uppersOf(p.Name, before.Pieces)
		parts, err := c.pieces(p, upper)
		if err == nil {
			parts, err = c.lengths(p, parts, upper)
		}
		if err != nil {
			return Result{}, err
		}
		for _, part := range parts {
			// What is cut last of a piece is sewn first: a seam across what is cut apart later runs over that.
			if err := out.sewnBy(part); err != nil {
				return Result{}, err
			}
			out.Joins = slices.Insert(out.Joins, first, part.Join)
		}
		out.Pieces, out.Parted = append(out.Pieces, left(p, parts)...), append(out.Parted, parts...)
	}
	return out, nil
}

// left lists what a piece comes to by some cuts: itself first.
func left(p shapes.Piece, parts []shapes.Pieced) []shapes.Piece {
	now := []shapes.Piece{p}
	for _, part := range parts {
		i := slices.IndexFunc(now, func(whole shapes.Piece) bool { return whole.Name == part.Main.Name })
		now[i] = part.Main
		now = append(now, part.Corner)
	}
	return now
}

// uppers are the names of the waists and upper edges of a piece.
type uppers []string

// uppersOf lists those of a piece before any is faced.
func uppersOf(piece string, before []shapes.Piece) (names uppers) {
	for _, p := range before {
		for _, e := range p.Edges {
			if p.Name == piece && (e.Kind == shapes.Waist || e.Kind == shapes.Top) {
				names = append(names, e.Name)
			}
		}
	}
	return names
}

// of returns where they lie on a piece or what is cut of it.
func (u uppers) of(p shapes.Piece) (lines []orb.LineString) {
	for _, e := range p.Edges {
		if slices.Contains(u, e.Name) {
			lines = append(lines, e.Line)
		}
	}
	return lines
}

// sewnBy has the sides of all seams along the parts of a piece that was cut in two.
func (d *Result) sewnBy(part shapes.Pieced) error {
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

// SewnTo returns a side of a seam that was reckoned on the pieces of the draft before they were
// pieced, as that of a facing is, along what is cut of them.
func (d Result) SewnTo(s shapes.JoinSide) (shapes.JoinSide, error) {
	for _, part := range d.Parted {
		var err error
		if s, err = part.Sewn(s); err != nil {
			return s, err
		}
	}
	return s, nil
}

// pieces cuts the corners off a piece, alike on both sides where that is allowed; none where it is
// narrow enough.
func (c Corners) pieces(p shapes.Piece, upper uppers) (parts []shapes.Pieced, err error) {
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
		one, bad := c.cut(p, plan, upper)
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
func (c Corners) cut(p shapes.Piece, corners []bool, upper uppers) (parts []shapes.Pieced, err error) {
	for i, above := range corners {
		name := p.Name + " corner"
		if len(corners) > 1 {
			name = p.Name + map[bool]string{true: " upper corner", false: " lower corner"}[above]
		}
		part, err := c.corner(p, name, above, len(corners)-i)
		if err == nil {
			err = c.check(p, part, upper)
		}
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
func (c Corners) corner(p shapes.Piece, name string, above bool, left int) (shapes.Pieced, error) {
	_, across := p.CutSize()
	within := c.Within
	if p.OnFold {
		within /= 2
	}
	aim := across - (across-within)/float64(left) // what is left of the piece is cut so wide
	box, sewn := plane.Bounds(p.Cut), plane.Bounds(p.Seam)
	at, inward := min(box.Min[1]+aim-c.Allowance, sewn.Max[1]-leastCorner), -1.0
	if !above {
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
			return out, nil
		}
		at += inward * (now - aim + plane.Lattice)
	}
	return out, say.Errorf("%s: no line along the grain makes it %.1f wide", p.Name, say.MM(c.Within)).
		Hint("leave `pieced` out, or take more and narrower pieces")
}

// check holds a piecing to where it may lie.
func (c Corners) check(p shapes.Piece, out shapes.Pieced, upper uppers) error {
	if _, across := out.Corner.CutSize(); across > c.Within {
		return say.Errorf("%s: a corner of it would be %.1f wide, and %.1f is allowed", p.Name, say.MM(across),
			say.MM(c.Within)).Hint("piece it on both sides (most = 2), or take more and narrower pieces")
	}
	return c.checkLine(p, out, upper)
}

// checkLine holds the new seam to where it may lie.
func (c Corners) checkLine(p shapes.Piece, out shapes.Pieced, upper uppers) error {
	for _, e := range out.Corner.Edges {
		if !c.Centre && (e.Kind == shapes.Fold || strings.Contains(e.Name, "centre front")) {
			return say.Errorf("%s: the piecing would lie at its %s", p.Name, e.Name).
				Hint("centre_front = true in `pieced` allows that")
		}
	}
	near := math.Inf(1)
	for _, line := range upper.of(p) {
		near = min(near, clearance(out.Line, line))
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

// WidestSeam is the widest seam allowance of some pieces, mm: what a piecing seam takes unless it
// is told otherwise.
func WidestSeam(pieces ...shapes.Piece) (mm float64) {
	for _, p := range pieces {
		for _, e := range p.Edges {
			if e.Kind == shapes.Seam {
				mm = max(mm, e.Allowance)
			}
		}
	}
	return mm
}
