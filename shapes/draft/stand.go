package draft

import (
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Stand is what goes on beyond a centre that is closed by buttons and buttonholes, so that
// both halves lap over each other. Its facing is grown on, the mirror image of the half in
// the fold line, or cut apart and sewn on there:
//
//	          neck                 centre   fold
//	 .-----.____            .         |      |         .
//	/           '--.___.---'----------|------|--------'-.____
//	                                  |      |               |
//	                         Facing - Over   | Over   ...    |
//	                                  |      |               |
//	 ---------------------------------|------|---------------'
//	          waist                   |      |<---Facing---->|
//	                                  |<Over>|
//
// The edges beside it keep their lengths: what is added is an edge of its own. In front of
// the facing what lines or faces those edges is cut back by as much as it reaches beyond
// the centre.
type Stand struct {
	Over   float64 // how far both halves go on beyond the centre, mm; 0: there is none
	Facing float64 // width of the facing from the fold, mm
	SewnOn bool    // the facing is cut apart
	Hole   float64 // length of the buttonholes, mm
}

// Names of the edges that a stand adds; those beside the neck and the waist are called after them.
const (
	standEdge   = "stand edge"  // where a facing is sewn on
	standFacing = "facing edge" // of one that is grown on
	standEnd    = "stand, "
	centreLine  = "centre line"
	foldLine    = "fold line"
)

// Limits of a stand: a buttonhole begins so far beyond the centre, where the shank of the
// button pulls to, and ends so far from the edge at the least (common practice, from memory).
const (
	beyondCentre = 3
	leastStand   = 8
	leastOnward  = 10 // how far a facing reaches beyond the centre at the least, mm (our own figure)
)

// onward is how far the facing reaches beyond the centre into the half.
func (s Stand) onward() float64 { return s.Facing - s.Over }

func (c Closing) checkStand(closed Closed) error {
	s := c.Stand
	if err := notNegative(measured{"stand", s.Over}, measured{"stand facing", s.Facing},
		measured{"buttonhole", s.Hole}); err != nil {
		return err
	}
	switch {
	case c.By != Buttons:
		return say.Errorf("%s need no stand", string(c.By)).Hint("buttons, or leave out the stand")
	case c.At == OnLeft || c.At == OnRight:
		return say.Errorf("a stand is cut on at a centre, and not at the %s", c.At).
			Hint("a `panel` behind, sewn on")
	case s.Over < leastStand:
		return say.Errorf("a stand of %.1f holds no button, needs %v", say.MM(s.Over), say.MM(leastStand)).
			Hint("as wide as the button is")
	case s.onward() < leastOnward:
		return say.Errorf("a facing %.1f wide on a stand of %.1f reaches %.1f beyond the centre, needs %v",
			say.MM(s.Facing), say.MM(s.Over), say.MM(s.onward()), say.MM(leastOnward)).
			Hint("three times the stand")
	case s.Hole > s.onward():
		return say.Errorf("buttonholes %.1f long run beyond a facing that ends %.1f from the centre", say.MM(s.Hole),
			say.MM(s.onward())).Hint("a wider facing, or smaller buttons")
	case closed.Opening-closed.Length > lipsDiffer:
		return say.Errorf("a stand goes along the whole opening of %.1f, and it is closed for %.1f",
			say.MM(closed.Opening), say.MM(closed.Length)).
			Hint("leave out the closing's `length`, or give it a `panel` in place of a stand")
	}
	return nil
}

// beside is an opening edge of a piece with what lies beside it within a facing.
type beside struct {
	k            int // among the edges
	edge         shapes.Edge
	before, next shapes.Edge
	near, far    orb.LineString // of those, from the opening inward
	out          orb.Point      // square to the opening, out of the piece
}

// straightest is how far an edge that is folded may bend, mm.
const straightest = 0.05

// besideOpening finds what of the edges beside an opening lies within so much of it, mm.
func besideOpening(p shapes.Piece, k int, within float64) (beside, error) {
	n := len(p.Edges)
	b := beside{k: k, edge: p.Edges[k], before: p.Edges[(k+n-1)%n], next: p.Edges[(k+1)%n]}
	start, end := b.edge.Line[0], b.edge.Line[len(b.edge.Line)-1]
	length := math.Hypot(end[0]-start[0], end[1]-start[1])
	b.out = orb.Point{(end[1] - start[1]) / length, (start[0] - end[0]) / length}
	for _, v := range b.edge.Line {
		if off := math.Abs(dot(sub2(v, start), b.out)); off > straightest {
			return b, say.Errorf("%s: its %s bends by %.1f, and a stand is folded along a straight line", p.Name,
				b.edge.Name, say.MM(off)).Hint("a `panel` behind, sewn on")
		}
	}
	for _, side := range []struct {
		edge shapes.Edge
		line orb.LineString
		to   *orb.LineString
		dart func(shapes.Mouth) float64 // from the opening
	}{
		{b.before, reversed(b.before.Line), &b.near,
			func(m shapes.Mouth) float64 { return b.before.Length() - m.From - m.Width }},
		{b.next, b.next.Line, &b.far, func(m shapes.Mouth) float64 { return m.From }},
	} {
		line, reach := upToDepth(side.line, b.out, within)
		if line == nil {
			return b, say.Errorf("%s: its %s reaches %.1f from the %s, and a facing %.1f", p.Name, side.edge.Name,
				say.MM(reach), b.edge.Name, say.MM(within)).Hint("a narrower facing")
		}
		for _, d := range p.Darts {
			if from := side.dart(d.Mouth); d.Edge == side.edge.Name && from < plane.Length(line) {
				return b, say.Errorf("%s: a dart opens on its %s %.1f from the %s, within a facing", p.Name, d.Edge,
					say.MM(from), b.edge.Name).Hint("a narrower facing")
			}
		}
		*side.to = line
	}
	return b, nil
}

// upToDepth is the first part of a line that lies within so much of its start, measured against
// a direction; nil where all of it does, with how far it reaches.
func upToDepth(line orb.LineString, out orb.Point, depth float64) (first orb.LineString, reach float64) {
	first = orb.LineString{line[0]}
	was := 0.0
	for _, v := range line[1:] {
		d := -dot(sub2(v, line[0]), out)
		reach = max(reach, d)
		if d >= depth {
			a, t := first[len(first)-1], (depth-was)/(d-was)
			return append(first, orb.Point{a[0] + t*(v[0]-a[0]), a[1] + t*(v[1]-a[1])}), reach
		}
		first, was = append(first, v), d
	}
	return nil, reach
}

// shifted moves points.
func shifted(line orb.LineString, by orb.Point, times float64) orb.LineString {
	line = line.Clone()
	plane.MoveLine(line, orb.Point{times * by[0], times * by[1]})
	return line
}

// mirroredIn is a line that starts on the opening seen in the fold of a stand.
func (b beside) mirroredIn(line orb.LineString, over float64) orb.LineString {
	out := make(orb.LineString, len(line))
	for i, v := range line {
		t := 2 * (over - dot(sub2(v, b.edge.Line[0]), b.out))
		out[i] = orb.Point{v[0] + t*b.out[0], v[1] + t*b.out[1]}
	}
	return out
}

// grow returns the edges of a piece with a stand, and its facing where that is grown on.
func (s Stand) grow(p shapes.Piece, b beside) []shapes.Edge {
	ends := func(line orb.LineString) orb.LineString { // from the centre out
		out := append(line[:1:1], shifted(line[:1], b.out, s.Over)...)
		if !s.SewnOn {
			out = append(out, b.mirroredIn(line, s.Over)...)
		}
		return out
	}
	first, last := ends(b.near), ends(b.far)
	end := func(of shapes.Edge, line orb.LineString) shapes.Edge {
		e := shapes.Edge{Name: standEnd + of.Name, Line: line, Allowance: of.Allowance, Straight: of.Straight}
		if of.Kind == shapes.Hem {
			e.Kind = shapes.Hem
		}
		return e
	}
	outer := shapes.Edge{Name: standFacing, Allowance: b.edge.Allowance,
		Line: orb.LineString{first[len(first)-1], last[len(last)-1]}}
	if s.SewnOn {
		outer.Name = standEdge
	}
	return slices.Replace(slices.Clone(p.Edges), b.k, b.k+1, end(b.before, first), outer, end(b.next, reversed(last)))
}

// standOn puts a stand on the opening of a piece, with its centre and its fold marked.
func (s Stand) standOn(p shapes.Piece, k int) (shapes.Piece, error) {
	b, err := besideOpening(p, k, s.onward())
	if err != nil {
		return shapes.Piece{}, err
	}
	centre := b.edge.Line
	edges := s.grow(p, b)
	out, err := p.Recut(edges)
	if err != nil {
		return shapes.Piece{}, say.Errorf("%s, with its stand: %w", p.Name, err)
	}
	out.Names, out.Inside = slices.Clip(out.Names), slices.Clip(out.Inside)
	mark := func(name string, line orb.LineString) {
		out.Names = append(out.Names, shapes.LineName{Line: len(out.Inside), Name: name})
		out.Mark(edges, line)
	}
	mark(centreLine, centre)
	if !s.SewnOn {
		mark(foldLine, shifted(centre, b.out, s.Over))
	}
	for _, e := range []shapes.Edge{b.before, b.next} {
		name := standEnd + e.Name
		end, _ := out.Edge(name)
		at := []float64{0, s.Over}
		if e.Name == b.next.Name {
			at = []float64{end.Length(), end.Length() - s.Over}
		}
		if s.SewnOn {
			at = at[:1]
		}
		for _, d := range at {
			if err := out.AddNotch(name, d); err != nil {
				return shapes.Piece{}, err
			}
		}
	}
	return out, nil
}

// cutBack cuts the opening of a piece back by as much as a facing reaches beyond it.
func (s Stand) cutBack(p shapes.Piece, k int) (shapes.Piece, error) {
	b, err := besideOpening(p, k, s.onward())
	if err != nil {
		return shapes.Piece{}, err
	}
	edges := slices.Clone(p.Edges)
	n := len(edges)
	before, next := (k+n-1)%n, (k+1)%n
	from, to := b.near[len(b.near)-1], b.far[len(b.far)-1]
	_, edges[before].Line = splitAt(reversed(b.before.Line), plane.Length(b.near))
	edges[before].Line = reversed(edges[before].Line)
	_, edges[next].Line = splitAt(b.next.Line, plane.Length(b.far))
	edges[before].Line[len(edges[before].Line)-1], edges[next].Line[0] = from, to
	edges[k].Line = orb.LineString{from, to}
	out, err := p.Recut(edges)
	if err != nil {
		return shapes.Piece{}, say.Errorf("%s, beside a stand: %w", p.Name, err)
	}
	out.Darts = slices.Clone(p.Darts)
	for i, d := range out.Darts {
		if d.Edge == b.next.Name {
			out.Darts[i].Mouth.From -= plane.Length(b.far)
		}
	}
	return out, nil
}

// besideSewn refuses a stand beside an edge that is sewn to another piece, as that of a yoke is, where it
// would have to go on.
func besideSewn(d Result, p shapes.Piece, k int) error {
	n := len(p.Edges)
	for _, e := range []shapes.Edge{p.Edges[(k+n-1)%n], p.Edges[(k+1)%n]} {
		for _, j := range d.Joins {
			if slices.ContainsFunc(slices.Concat(j.A.Edges, j.B.Edges), func(s shapes.SewnEdge) bool {
				return s.Piece == p.Name && s.Edge == e.Name
			}) {
				return say.Errorf("%s: its %s is sewn to another piece (%s), where a stand would have to go on", p.Name, e.Name,
					j.Name).Hint("a `panel` behind, sewn on")
			}
		}
	}
	return nil
}

// onStands changes each piece of a draft that opens at the closing, by a function of the piece and
// its opening edge.
func (c Closing) onStands(d *Result, change func(shapes.Piece, int) (shapes.Piece, error)) error {
	for i, p := range d.Pieces {
		k := slices.IndexFunc(p.Edges, c.closes)
		if k < 0 {
			continue
		}
		if p.Edges[k].Name == grownOn {
			return say.Errorf("%s: a facing is grown on at its opening already", p.Name).
				Hint("leave out its `facing`, or the stand")
		}
		if err := besideSewn(*d, p, k); err != nil {
			return err
		}
		var err error
		if d.Pieces[i], err = change(p, k); err != nil {
			return err
		}
	}
	for _, s := range []*shapes.JoinSide{&d.Waist, &d.Neck} {
		if len(s.Treatment.Darts) > 0 {
			if err := s.FoldDarts(d.Pieces); err != nil {
				return err
			}
		}
	}
	return nil
}

// stand puts its stands on what is closed, or cuts a lining back to their facings.
func (c Closing) stand(d *Result) error {
	if c.Inner {
		return c.onStands(d, c.Stand.cutBack)
	}
	if err := c.onStands(d, c.Stand.standOn); err != nil {
		return err
	}
	s := c.Stand
	over := "on the half that laps over"
	if strings.HasSuffix(c.At, "front") {
		over = "on the right half"
	}
	facing := "Sew its facing to the edge of the stand"
	if !s.SewnOn {
		facing = "Fold its facing back at the fold line"
	}
	d.Notes = append(d.Notes, say.Textf("At the %s both halves go on %.1f beyond the centre line, where buttons are sewn "+
		"and buttonholes begin, %s. %s: it reaches %.1f beyond the centre, where linings and other facings end.", c.At,
		say.MM(s.Over), over, facing, say.MM(s.onward())))
	return nil
}

// hole marks a buttonhole across the centre line, which a stroke shows.
func (c Closing) hole(l lip, at float64) orb.LineString {
	const tick = 2 // mm
	return orb.LineString{l.point(at, -beyondCentre, 0), l.point(at, 0, 0), l.point(at, 0, -tick), l.point(at, 0, tick),
		l.point(at, 0, 0), l.point(at, c.Stand.Hole-beyondCentre, 0)}
}
