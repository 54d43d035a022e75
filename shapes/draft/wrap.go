package draft

import (
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// wrap is a ring sector worn round the body: open on one side, at the centre front
// or back, and shut on the other. It is cut in equal sections by radii, left and
// right ones as a pair, or as one half on a fold. Inner and outer edge have their
// middle line on the shut side.
//
//	        shut                 n = 4, open at the front
//	    .----|----.
//	  .' back|back '.
//	 /\   .--|--.   /\
//	|  \.'   :   './  |
//	|front       front|
//	 \  /         \  /
//	  '/   open    \'
type wrap struct {
	what         string  // what it is called
	openBack     bool    // open at the centre back, shut at the centre front
	inner, outer rim     // edges about the centre
	angle        float64 // of all sections, rad
	sections     int
	onFold       bool    // the shut side lies on a fold
	gap          float64 // left open along the inner edge, mm
	top, hem     side    // the inner and the outer edge
	seam         float64 // allowance of the seams and the opening, mm
	chord        float64 // chord error, mm
}

// rim is a curved edge about a centre, alike on both hands of its middle line.
type rim interface {
	// radius is that at an angle from the middle line, mm.
	radius(angle float64) float64
	// line samples the edge from one angle to another within a chord error; zero is
	// the angle of the middle line.
	line(centre orb.Point, from, to, zero, chord float64) orb.LineString
}

// ends names the open and the shut side.
func (w wrap) ends() (open, shut string) {
	if w.openBack {
		return "centre back", "centre front"
	}
	return "centre front", "centre back"
}

// hands names the wearer's side on which a section as drawn is worn, and the
// other. Seen from outside with the inner edge up the upper side of the piece is
// on the right, which on the left of the body is towards the back.
func (w wrap) hands() (drawn, other string) {
	if w.openBack {
		return "right", "left"
	}
	return "left", "right"
}

// towards names the seams of a section: towards the open and the shut side.
func (w wrap) towards() (open, shut string) {
	if w.openBack {
		return "back seam", "front seam"
	}
	return "front seam", "back seam"
}

// pieces are the sections from the open to the shut side.
func (w wrap) pieces() ([]shapes.Piece, error) {
	if w.onFold {
		open, shut := w.ends()
		p, err := w.piece(w.what, 0, w.angle/2, 0, side{shut, shapes.Fold, 0}, side{open, shapes.Opening, w.seam})
		return []shapes.Piece{p}, err
	}
	var out []shapes.Piece
	for i := range (w.sections + 1) / 2 {
		p, err := w.section(i)
		if err != nil {
			return nil, err
		}
		out = append(out, p)
	}
	return out, nil
}

// section drafts section i from the open side; the last but i is its mirror image.
func (w wrap) section(i int) (shapes.Piece, error) {
	n := w.sections
	half := w.angle / float64(n) / 2
	open, shut := w.ends()
	drawn, other := w.hands()
	first, last := w.towards()
	lower, upper := side{first, shapes.Seam, w.seam}, side{last, shapes.Seam, w.seam}
	switch {
	case n == 1:
		lower, upper = side{drawn + " " + open, shapes.Opening, w.seam}, side{other + " " + open, shapes.Opening,
			w.seam}
	case i == n-1-i: // across the shut side, between two alike
		lower.name, upper.name = drawn+" seam", other+" seam"
	case i == n-2-i:
		upper.name = shut
	}
	if n > 1 && i == 0 {
		lower = side{open, shapes.Opening, w.seam}
	}
	p, err := w.piece(w.sectionName(i), -half, half, half*float64(n-1-2*i), lower, upper)
	if err != nil {
		return shapes.Piece{}, err
	}
	if i < n-1-i {
		p.Count, p.Pair, p.Labels = 2, true, []string{drawn, other}
	}
	return p, nil
}

// sectionName calls sections by their place: the one at the opening and the one
// next to or across the shut side front and back, sides between.
func (w wrap) sectionName(i int) string {
	last := (w.sections+1)/2 - 1
	first, end := " front", " back"
	if w.openBack {
		first, end = end, first
	}
	switch {
	case w.sections == 1:
		return w.what
	case w.sections == 2:
		return w.what + " half"
	case i == 0:
		return w.what + first
	case i == last:
		return w.what + end
	case last == 2:
		return w.what + " side"
	}
	return fmt.Sprintf("%s side %d", w.what, i)
}

// piece drafts the sector between two angles; zero is that of the shut side.
func (w wrap) piece(name string, from, to, zero float64, lower, upper side) (shapes.Piece, error) {
	centre := orb.Point{-w.inner.radius(0), 0}
	outer := w.outer.line(centre, from, to, zero, w.chord)
	inner := w.inner.line(centre, to, from, zero, w.chord)
	edges := between(outer, inner, lower, w.hem, upper, w.top)
	p, err := shapes.NewPiece(name, edges)
	if neck, ok := w.inner.(dartedNeck); ok && err == nil {
		by := p.Shift(edges)
		err = neck.mark(&p, w.top.name, orb.Point{centre[0] + by[0], centre[1] + by[1]}, from, to, zero)
	}
	return p, err
}

// joins returns the seams between the sections, from the open to the shut side,
// with notches halfway down the shortest of them.
func (w wrap) joins() []shapes.Join {
	n := w.sections
	if w.onFold || n == 1 {
		return nil
	}
	shortest := math.Inf(1)
	for _, angle := range []float64{0, w.angle / 2} {
		shortest = min(shortest, w.outer.radius(angle)-w.inner.radius(angle))
	}
	first, last := w.towards()
	drawn, other := w.hands()
	shortest /= 2
	var out []shapes.Join
	// Seams run from the inner edge to the hem: along a lower side, against an upper one.
	for i := 1; i < (n+1)/2; i++ {
		before := against(w.sectionName(i-1), last)
		next := w.sectionName(i)
		name := before.Piece + " to " + next
		if i == n-1-i {
			out = append(out,
				seamOf(name+", "+drawn, 1, before, along(next, drawn+" seam"), w.marks(i, shortest)...),
				seamOf(name+", "+other, 1, before, against(next, other+" seam"), w.marks(i, shortest)...))
			continue
		}
		out = append(out, seamOf(name, 2, before, along(next, first), w.marks(i, shortest)...))
	}
	if n%2 == 0 {
		_, shut := w.ends()
		middle := against(w.sectionName(n/2-1), shut)
		out = append(out, seamOf(shut, 1, middle, middle, w.marks(n/2, shortest)...))
	}
	return out
}

// marks are the notches of the seam that lies so many sections from the open side.
func (w wrap) marks(seam int, at float64) []float64 {
	n := w.sections
	if w.openBack {
		return seamNotches(seam, (n+3)/4, at)
	}
	return seamNotches(n/2-seam, n/2-n/4, at)
}

// around names an edge of the sections as it runs round the body, from the opening
// on the side that the pieces as drawn are for to the opening again. Outer edges
// run from the open to the shut side.
func (w wrap) around(edge string) []shapes.SewnEdge {
	var out []shapes.SewnEdge
	for i := range w.sections {
		mirrored := 2*i >= w.sections && 2*i != w.sections-1
		out = append(out, shapes.SewnEdge{Piece: w.sectionName(min(i, w.sections-1-i)), Edge: edge, Reversed: mirrored})
	}
	return out
}

// draft drafts the sections and sets the notches of their seams. The inner edges, from
// the opening on, darts folded, are its neck or its waist; what is left open there is not
// among them. It refuses a half on a fold that laid open would lie upon itself.
func (w wrap) draft() (Result, error) {
	pieces, err := w.pieces()
	if err == nil && w.onFold {
		err = plane.CheckSimple(pieces[0].Unfold().Cut)
	}
	if err != nil && w.onFold {
		open, shut := w.ends()
		return Result{}, say.Errorf("%.1f degrees opened from the fold leave no room for the "+
			"allowances at %s: %w", w.angle*180/math.Pi, open, err).
			Hint("a smaller fraction of a circle, or a seam at %s", shut)
	}
	if err != nil {
		return Result{}, err
	}
	inner := shapes.JoinSide{Edges: w.innerAround(), Open: w.gap, FromFront: !w.openBack}
	if err := inner.FoldDarts(pieces); err != nil {
		return Result{}, err
	}
	d := Result{Pieces: pieces, Joins: w.joins()}
	if w.top.kind == shapes.Waist {
		d.Waist = inner
	} else {
		d.Neck = inner
	}
	return d, d.notch(inner)
}

// shutting is how a wrap is cut on its shut side.
type shutting struct {
	fraction float64 // of a circle, all sections together
	seam     bool    // a seam on the shut side is asked for
	onFold   bool    // or a fold
	asked    int     // sections asked for, 0 for the fewest
	where    string  // the shut side: "centre back"
}

// sections returns the number of sections, and refuses wishes that do not go
// together.
func (s shutting) sections() (int, error) {
	switch {
	case s.seam && s.onFold:
		return 0, errors.New(s.where + " cannot both be a seam and lie on a fold")
	case s.onFold && s.asked > 1:
		return 0, say.Errorf("%d sections with %s on a fold", s.asked, s.where).Hint("on a fold it is cut in one")
	case s.onFold && s.fraction > 1:
		return 0, say.Errorf("fraction of a circle is %g, on a fold it is at most 1", s.fraction).
			Hint("a seam at %s", s.where)
	case s.seam && s.asked%2 != 0:
		return 0, say.Errorf("%d sections have no seam at %s", s.asked, s.where).Hint("an even number of sections")
	case s.onFold:
		return 1, nil
	}
	n, err := sections(2*math.Pi*s.fraction, s.asked)
	if err == nil && s.seam && s.asked == 0 {
		n += n % 2
	}
	return n, err
}

// innerAround strings the inner edges of the sections as they run round the body,
// from the opening to the opening. Inner edges run against the outer ones.
func (w wrap) innerAround() []shapes.SewnEdge {
	if w.onFold {
		return thereAndBack([]shapes.SewnEdge{along(w.what, w.top.name)})
	}
	all := w.around(w.top.name)
	for i := range all {
		all[i].Reversed = !all[i].Reversed
	}
	return all
}
