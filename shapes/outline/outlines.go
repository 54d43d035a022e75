package outline

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// shaped is what a shape was made of.
type shaped struct {
	cut, seam *loop // either may be missing
}

// outer is the line that encloses all that belongs to the shape.
func (s shaped) outer() *loop {
	if s.cut != nil {
		return s.cut
	}
	return s.seam
}

// edges is the line that the shape has as its edges.
func (s shaped) edges() *loop {
	if s.seam != nil {
		return s.seam
	}
	return s.cut
}

// outlines makes shapes of the loops that lie in no other, but for frames.
func (a *assembler) outlines() error {
	var top []*loop
	for _, l := range a.loops {
		if l.within == nil && !l.bad {
			top = append(top, l)
		}
	}
	for k := 0; k < len(top); k++ { // a frame is followed by what it holds
		if why := top[k].frame(); why != "" {
			a.give(top[k], Ignored, why, 0)
			a.fault(Fault{Kind: Doubtful, What: say.Textf("this line is left out: %s", why),
				Hint: "give it the role cut if it is a piece", At: top[k].ring[0], Place: a.place(top[k])})
			for _, l := range top[k].inner {
				l.within = nil
				top = append(top, l)
			}
			top[k].bad = true
		}
	}
	top = slices.DeleteFunc(top, func(l *loop) bool { return l.bad })
	slices.SortStableFunc(top, func(p, q *loop) int { return cmp.Compare(p.parts[0].line, q.parts[0].line) })
	large := slices.ContainsFunc(top, func(l *loop) bool { return l.size() >= 5*smallest })
	for _, l := range top {
		if large && l.size() < smallest && l.role == Unnamed {
			a.give(l, Ignored, "it is small and lies in no outline", 0)
			a.fault(Fault{Kind: Stray, What: say.Textf("a closed line %.1f large is left out: it lies in no outline",
				say.MM(l.size())), At: l.ring[0], Place: a.place(l)})
			continue
		}
		if len(a.Shapes) == MaxOutlines {
			return say.Errorf("the drawing has over %d outlines, the most that are read", MaxOutlines).
				Hint("share the pieces out over several files")
		}
		a.shape(l)
	}
	return nil
}

// give gives all lines of a loop a role, unless a rule has given them one.
func (a *assembler) give(l *loop, role Role, because string, shape int) {
	for _, i := range l.faults {
		a.Faults[i].Shape = shape
	}
	for _, p := range l.parts {
		r := &a.Roles[p.line]
		if r.Shape = shape; r.Role == Unnamed {
			r.Role, r.Because = role, because
		}
	}
}

// frame says why a loop is a frame around pieces; "" where it is none.
func (l *loop) frame() string {
	if l.role != Unnamed {
		return ""
	}
	large, cut, deep := 0, false, false
	for _, in := range l.inner {
		if in.size() < 5*smallest/2 {
			continue
		}
		large++
		cut = cut || in.role == CutLine
		deep = deep || slices.ContainsFunc(in.inner, func(l *loop) bool { return l.size() >= smallest })
	}
	spans := (l.bound.Max[0] - l.bound.Min[0]) * (l.bound.Max[1] - l.bound.Min[1])
	switch {
	case cut:
		return "cut lines lie within it"
	case l.area < .999*spans:
		return ""
	case large >= 2:
		return "it is a rectangle around several outlines, as a frame is"
	case large == 1 && deep:
		return "it is a rectangle around an outline that holds others, as a frame is"
	}
	return ""
}

// shape makes a shape of a loop, with the seam line that lies in it.
func (a *assembler) shape(l *loop) {
	n := len(a.Shapes) + 1
	s := shaped{cut: l}
	because := "it is closed and lies in no other"
	var guesses []string
	switch {
	case l.role == SeamLine || l.role == Unnamed && a.Outline == SeamLine:
		s = shaped{seam: l}
		a.give(l, SeamLine, because, n)
	default:
		a.give(l, CutLine, because, n)
		if seam, why := l.seamWithin(); seam != nil {
			s.seam = seam
			if why != "" {
				guesses = append(guesses, "A line within the cut line is taken for its seam line: "+why+".")
			}
			a.give(seam, SeamLine, why, n)
			seam.shape = n - 1
		}
	}
	l.shape = n - 1
	first := a.Lines[s.outer().parts[0].line]
	shape := Shape{Number: n, Name: placeName(n), Size: first.Size, Outline: CutLine, Fold: -1, Place: first.Place,
		Marks: first.Marks, Because: guesses}
	if s.seam != nil {
		if shape.Outline = SeamLine; s.cut != nil {
			shape.Cut = ccw(tidied(s.cut.ring))
		}
	}
	a.Shapes, a.shaped = append(a.Shapes, shape), append(a.shaped, s)
	for _, in := range l.inner {
		if in != s.seam {
			a.within(in, n)
		}
	}
	if s.seam != nil && s.seam != l {
		for _, in := range s.seam.inner {
			a.within(in, n)
		}
	}
}

func ccw(ring orb.Ring) orb.Ring {
	if plane.Area(ring) < 0 {
		ring = slices.Clone(ring)
		ring.Reverse()
	}
	return ring
}

// within takes a closed line that lies in a shape, and all within that, for lines inside.
func (a *assembler) within(l *loop, shape int) {
	s := &a.Shapes[shape-1]
	l.shape = shape - 1
	why := "it lies in an outline"
	if l.size() < smallest && l.role == Unnamed {
		why = "it is small and lies in an outline, as a hole to drill does"
	} else if l.role == Unnamed || l.role == CutLine {
		s.Holes++
		w, h := l.bound.Max[0]-l.bound.Min[0], l.bound.Max[1]-l.bound.Min[1]
		a.fault(Fault{Kind: Hole, What: say.Textf("a closed line of %.0f by %.0f lies within the outline of a piece: "+
			"it is marked on the cloth, not cut by the layout", say.MM(w), say.MM(h)), At: l.ring[0], Place: a.place(l),
			Shape: shape})
	}
	a.give(l, Internal, why, shape)
	first := a.Lines[l.parts[0].line]
	s.Inside = append(s.Inside, Inner{Line: orb.LineString(l.ring), Place: first.Place, Marks: first.Marks})
	for _, in := range l.inner {
		a.within(in, shape)
	}
}

// Seam lines keep near the cut line: hems are 60 mm deep at the most as a rule (common
// practice), corners a little more.
const (
	mostAllowance = 80.0
	nearCorner    = 1.6
	leastShare    = 0.25 // of the area within the cut line
)

// seamWithin finds the seam line within a cut line, and why it is one; "" where it is named.
func (l *loop) seamWithin() (seam *loop, why string) {
	for _, in := range l.inner {
		if in.role == SeamLine && !in.bad && (seam == nil || in.area > seam.area) {
			seam = in
		}
	}
	if seam != nil {
		return seam, ""
	}
	far := 0.
	for _, in := range l.inner {
		if in.role != Unnamed || in.bad || in.area < leastShare*l.area || seam != nil && in.area <= seam.area ||
			in.size() < 2*smallest {
			continue
		}
		if d := farthest(in.ring, l.ring); d <= mostAllowance && farthest(l.ring, in.ring) <= nearCorner*mostAllowance {
			seam, far = in, d
		}
	}
	if seam == nil {
		return nil, ""
	}
	return seam, say.Textf("it keeps within %.1f of it all the way round", say.MM(math.Ceil(far*10)/10)).String()
}

// asked is how many points of a ring are asked how far they lie from another.
const asked = 48

// farthest is about how far one ring goes from another.
func farthest(from, to orb.Ring) float64 {
	far := 0.
	for _, p := range spread(orb.LineString(from), asked) {
		least := math.Inf(1)
		for i := 1; i < len(to); i++ {
			least = min(least, planar.DistanceFromSegment(to[i-1], to[i], p))
		}
		far = max(far, least)
	}
	return far
}
