package outline

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Distances by which open lines are told apart, mm. They are guesses, and told as such.
const (
	longestNotch = 25.0 // a mark across or at the outline
	atOutline    = 1.5  // what is nearer touches it
	nearOutline  = 30.0 // what is nearer belongs to it, though it lies outside
)

// maxMarks is how many lines and points may lie at the pieces of one drawing.
const maxMarks = 100_000

func errMarks() error {
	return say.Errorf("over %d lines and points lie in the outlines, the most that are marked", maxMarks).
		Hint("leave out what is not marked on the cloth, such as hatches")
}

// item is one open line, or a point, with the shape that it belongs to.
type item struct {
	line  int // among those of the drawing; -1: a point
	point int
	path  orb.LineString
	Marks
	place string
}

// placed gives what is not an outline to the shapes, each for what it is.
func (a *assembler) placed() error {
	a.edged()
	a.borders = make([]border, len(a.Shapes))
	a.cuts = make([]border, len(a.Shapes))
	for i, s := range a.Shapes {
		a.borders[i] = newBorder(s.Edges)
		if s.Cut != nil {
			a.cuts[i] = newBorder([]Edge{{Line: orb.LineString(s.Cut)}})
		}
	}
	items := make([][]item, len(a.Shapes))
	for i, l := range a.Lines {
		r := a.Roles[i]
		if r.Shape != 0 || r.Role == Ignored || a.spoilt[i] {
			continue
		}
		it := item{i, -1, l.Points, l.Marks, l.Place}
		if s := a.shapeOf(it); s >= 0 {
			a.Roles[i].Shape = s + 1
			items[s] = append(items[s], it)
			if a.marks++; a.marks > maxMarks {
				return errMarks()
			}
		} else {
			a.stray(i)
		}
		if a.holders.held > mostHeld {
			return errTangled()
		}
	}
	for i := range a.Shapes {
		a.folded(i, items[i])
		if a.sorted(i, items[i]); a.holders.held > mostHeld {
			return errTangled()
		}
	}
	return a.dotted()
}

// shapeOf finds the shape that a line belongs to: which it lies in, crosses or comes near to; -1
// for none.
func (a *assembler) shapeOf(it item) int {
	of := keyOf(it.Marks)
	in, crossing := a.holders.around(of, it.path, nil)
	for _, l := range []*loop{in, crossing} {
		for ; l != nil; l = l.within {
			if l.shape >= 0 {
				return l.shape
			}
		}
	}
	best, far := -1, nearOutline
	for i, s := range a.shaped {
		l := s.outer()
		b := l.bound.Pad(far)
		if l.of != of || !b.Contains(it.path[0]) && !b.Contains(it.path[len(it.path)-1]) {
			continue
		}
		for _, p := range it.path[:min(len(it.path), 4)] {
			a.holders.held += len(a.borders[i].segments)
			if _, d := a.borders[i].nearest(p); d < far {
				best, far = i, d
			}
		}
	}
	if best >= 0 && plane.Length(it.path) > 2*longestNotch && !a.foldAlong(it, best) {
		return -1
	}
	return best
}

// foldAlong says whether a line that may be a fold runs along the outline of a shape, on
// whichever side of it.
func (a *assembler) foldAlong(it item, shape int) bool {
	if it.line < 0 || a.Roles[it.line].Role != Fold && !(a.Roles[it.line].Role == Unnamed && it.Dashed) {
		return false
	}
	_, first := a.borders[shape].nearest(it.path[0])
	_, last := a.borders[shape].nearest(it.path[len(it.path)-1])
	return max(first, last) <= onFold
}

// stray tells a line that belongs to no shape: an outline that does not close, or a line that
// is left out.
func (a *assembler) stray(i int) {
	l := a.Lines[i]
	if r := a.Roles[i].Role; l.Closed || r != Unnamed && r != CutLine && r != SeamLine {
		a.Roles[i] = LineRole{Role: Ignored, Given: a.Roles[i].Given, Because: "it lies at no outline"}
		a.fault(Fault{Kind: Stray, What: say.Textf("a line is left out: it lies at no outline"), At: l.Points[0],
			Place: l.Place})
		return
	}
	a.loose = append(a.loose, i)
}

// sorted says of each line of a shape what it is for.
func (a *assembler) sorted(shape int, items []item) {
	s := &a.Shapes[shape]
	var rest []item
	for _, it := range items {
		if a.holders.held > mostHeld {
			return
		}
		switch r := &a.Roles[it.line]; r.Role {
		case Fold, Ignored: // done
		case Notch:
			a.notch(shape, it)
		case Unnamed, CutLine, SeamLine:
			if r.Role == Unnamed && plane.Length(it.path) <= longestNotch &&
				(a.touches(shape, it.path) || a.crosses(shape, it.path)) {
				r.Role, r.Because = Notch, "it is short and lies at the outline"
				a.notch(shape, it)
				continue
			}
			rest = append(rest, it)
		default:
			rest = append(rest, it)
		}
	}
	rest = a.grain(shape, rest)
	rest = a.darts(shape, rest)
	for _, it := range rest {
		if r := &a.Roles[it.line]; r.Role == Unnamed || r.Role == CutLine || r.Role == SeamLine {
			if r.Role != Unnamed {
				a.fault(Fault{Kind: Doubtful, What: say.Textf("a line of role %v is open and lies in an outline: it is "+
					"marked, not cut", r.Role), At: it.path[0], Place: it.place, Shape: shape + 1})
			}
			r.Role, r.Because = Internal, "it lies in the outline"
		}
		s.Inside = append(s.Inside, Inner{Line: it.path, Place: it.place, Marks: it.Marks})
	}
}

// touches says whether an end of a line comes to the outline of a shape: to the line that is cut,
// or the one that is sewn.
func (a *assembler) touches(shape int, path orb.LineString) bool {
	for _, b := range []border{a.borders[shape], a.cuts[shape]} {
		a.holders.held += 2 * len(b.segments)
		_, first := b.nearest(path[0])
		_, last := b.nearest(path[len(path)-1])
		if min(first, last) <= atOutline {
			return true
		}
	}
	return false
}

// crosses says likewise whether its ends lie on two sides.
func (a *assembler) crosses(shape int, path orb.LineString) bool {
	for _, b := range []border{a.borders[shape], a.cuts[shape]} {
		a.holders.held += len(b.segments)
		if _, ok := b.crossedBy(path[0], path[len(path)-1]); ok {
			return true
		}
	}
	return false
}

// notch finds the place of a notch on the outline: where it, or what it runs on into, meets
// that.
func (a *assembler) notch(shape int, it item) {
	s, b := &a.Shapes[shape], a.borders[shape]
	a.holders.held += 3 * len(b.segments)
	p, q := it.path[0], it.path[len(it.path)-1]
	at, far := b.nearest(p)
	if other, d := b.nearest(q); d < far {
		at, far, p, q = other, d, q, p
	}
	if len(it.path) > 1 && p != q && straight(it.path, ChordError) {
		long := math.Hypot(p[0]-q[0], p[1]-q[1])
		if on, ok := b.crossedBy(q, between(q, p, 1+reachOf(s)/long)); ok {
			at = on
		} else if on, ok := b.crossedBy(p, between(p, q, 1+reachOf(s)/long)); ok {
			at = on
		}
	} else if len(it.path) > 2 {
		at, far = b.nearest(between(it.path[0], it.path[len(it.path)-1], .5))
	}
	if far > nearOutline+mostAllowance {
		a.fault(Fault{Kind: Stray, What: say.Textf("a notch lies %.0f from the outline and is left out", say.MM(far)),
			At: p, Place: it.place, Shape: shape + 1})
		return
	}
	s.Notches = append(s.Notches, at)
}

// reachOf is how far a notch may lie from the line that is sewn, mm.
func reachOf(s *Shape) float64 {
	if s.Cut != nil {
		return nearCorner * mostAllowance
	}
	return atOutline
}

// dotted takes points: notches, and marks inside.
func (a *assembler) dotted() error {
	for k, p := range a.drawing.Points {
		role := a.pointRole(p.Marks)
		if role != Notch && role != Internal && role != Unnamed {
			continue
		}
		it := item{-1, k, orb.LineString{p.At, p.At}, p.Marks, p.Place}
		i := a.shapeOf(it)
		if a.holders.held > mostHeld {
			return errTangled()
		}
		if i < 0 {
			a.fault(Fault{Kind: Stray, What: say.Textf("a point is left out: it lies at no outline"), At: p.At, Place: p.Place})
			continue
		}
		a.holders.held += len(a.borders[i].segments)
		_, d := a.borders[i].nearest(p.At)
		switch {
		case role == Notch:
			a.notch(i, it)
		case role == Unnamed && d <= atOutline:
		case a.marks >= maxMarks:
			return errMarks()
		default:
			a.marks++
			a.Shapes[i].Inside = append(a.Shapes[i].Inside, cross(p)...)
		}
	}
	return nil
}

// pointRole is the role of a point, as of a line with its marks.
func (a *assembler) pointRole(m Marks) Role {
	if r := a.ruleFor(m); r != Unnamed {
		return r
	}
	return a.roleNamed(m).Role
}

// crossArm is half of the size of the mark for a point inside, mm.
const crossArm = 3.0

// cross marks a point by two lines.
func cross(p Point) []Inner {
	x, y := p.At[0], p.At[1]
	return []Inner{
		{Line: orb.LineString{{x - crossArm, y}, {x + crossArm, y}}, Place: p.Place, Marks: p.Marks},
		{Line: orb.LineString{{x, y - crossArm}, {x, y + crossArm}}, Place: p.Place, Marks: p.Marks},
	}
}
