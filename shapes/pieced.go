package shapes

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Piecing is a straight line that a piece is cut in two by, to be sewn together again
// before anything else is: a corner that is wider than the cloth, or that would cost a
// length of it. Cutters of wide skirts pieced the hem corners of a gore so, the seam on
// the straight grain (common practice in cutting books of the nineteenth century; from
// memory).
//
//	.-----------------------.            .-----------------------.
//	 \                      |             \                      |
//	   \       gore         |      ->       \       gore         |
//	     \                  |                 '------------------|   piecing seam
//	       \                |                   '----------------|
//	         '--------------'                     \    corner    |
//	                                                '------------'
type Piecing struct {
	Across    bool    // the line runs across the grain at x = At, else along it at y = At
	At        float64 // in the coordinates of the piece, mm
	Allowance float64 // cut on either side of the new seam, mm
}

// PiecingSeam is what the edges of a new seam are called; further ones on one piece are
// numbered.
const PiecingSeam = "piecing seam"

// Pieced is a piece cut in two.
type Pieced struct {
	Main   Piece // the larger part, called as the whole was
	Corner Piece // the other one
	Join   Join  // the seam between them
	Low    bool  // the corner lies at lesser x or y than the line

	Line orb.LineString // that seam, in the coordinates of the whole

	edges map[string][]SewnEdge // where the edges of the whole are, from their starts to their ends
}

// Piece cuts a piece in two by a line, and calls the smaller part as said. What is
// marked on the piece is marked on its parts: notches but those that the new seam is at, which
// marks the place itself, darts, and lines inside, cut where the line crosses them. Of a
// piece on the fold a part that does not lie there is cut twice, left and right.
//
// Refused by name are a line that does not cut the outline in two, that crosses a dart, a piece
// whose cut line is not made by its allowances, and parts that NewPiece refuses.
func (p Piece) Piece(c Piecing, corner string) (Pieced, error) {
	out, err := p.pieced(c, corner)
	if err != nil {
		return Pieced{}, say.Errorf("%s, pieced at %.1f: %w", p.Name, say.MM(c.At), err)
	}
	return out, nil
}

func (p Piece) pieced(c Piecing, corner string) (Pieced, error) {
	if err := NotNegative("allowance of the piecing seam", c.Allowance); err != nil {
		return Pieced{}, err
	}
	if same, err := NewPiece(p.Name, p.Edges); err != nil || !same.Cut.Equal(p.Cut) {
		return Pieced{}, say.Errorf("its cut line is not made by its allowances").
			Hint("a piece that is drawn with its cut line is cut as it is drawn")
	}
	if err := p.dartsClear(c); err != nil {
		return Pieced{}, err
	}
	low, high, err := p.parted(c)
	if err != nil {
		return Pieced{}, err
	}
	end := low[len(low)-1].edge.Line
	out := Pieced{Line: orb.LineString{end[len(end)-1], low[0].edge.Line[0]}}
	seam := p.unusedName(PiecingSeam)
	parts := [2]Piece{}
	for i, portions := range [][]portion{low, high} {
		if parts[i], err = p.part(c, portions, seam); err != nil {
			return Pieced{}, err
		}
	}
	if len(parts[0].Darts)+len(parts[1].Darts) < len(p.Darts) {
		return Pieced{}, fmt.Errorf("the line crosses a dart where it opens")
	}
	smaller := 0
	if plane.Area(parts[0].Seam) > plane.Area(parts[1].Seam) {
		smaller = 1
	}
	names := [2]string{p.Name, p.Name}
	names[smaller] = corner
	for i := range parts {
		parts[i].Name = names[i]
	}
	out.Main, out.Corner, out.Low = parts[1-smaller], parts[smaller], smaller == 0
	out.edges = whereabouts(names, low, high)
	for _, part := range []*Piece{&out.Main, &out.Corner} {
		if p.OnFold && !part.OnFold {
			part.Count, part.Pair, part.Labels = 2*p.Count, true, nil
		}
	}
	out.Join = Join{
		Name: names[1-smaller] + " to " + corner, Times: max(out.Main.Count, out.Corner.Count),
		A: JoinSide{Edges: []SewnEdge{{Piece: names[1-smaller], Edge: seam}}},
		B: JoinSide{Edges: []SewnEdge{{Piece: corner, Edge: seam, Reversed: true}}},
	}
	if e, _ := out.Main.Edge(seam); e.Length() > leastNotched {
		out.Join.Notches = []float64{e.Length() / 3} // not in the middle: the corner fits one way only
	}
	both := []Piece{out.Main, out.Corner}
	err = MatchNotches(both, []Join{out.Join})
	out.Main, out.Corner = both[0], both[1]
	return out, err
}

// leastNotched is the length of a piecing seam from which on it has a notch, mm (our own).
const leastNotched = 60.0

// Sewn returns the edges of a side as they are once the piece is cut in two: an edge that
// was cut is found on both parts, copy by copy where several lie end to end. Errors name an
// edge of more copies than can be.
func (c Pieced) Sewn(s JoinSide) (JoinSide, error) {
	var edges []SewnEdge
	for _, e := range s.Edges {
		on := c.edges[e.Edge]
		if e.Piece != c.Main.Name || len(on) == 0 {
			edges = append(edges, e)
			continue
		}
		on = slices.Clone(on)
		if e.Reversed {
			slices.Reverse(on)
		}
		copies, each := 1, e.Copies
		if len(on) > 1 {
			copies, each = max(1, e.Copies), 1
		}
		if copies > mostCopies {
			return s, fmt.Errorf("%s, edge %q: %d copies are sewn end to end, the most is %d", e.Piece, e.Edge, copies,
				mostCopies)
		}
		for range copies {
			for _, part := range on {
				part.Reversed, part.Copies = e.Reversed, each
				edges = append(edges, part)
			}
		}
	}
	s.Edges = edges
	return s, nil
}

// mostCopies is the most copies of a cut edge in one seam: more than are laid on one cloth.
const mostCopies = 500

// portion is a stretch of an edge on one side of the line.
type portion struct {
	edge Edge
	of   string  // the name of the whole edge
	from float64 // along that to where it begins, mm
	ends [2]bool // it begins and ends where the whole edge does
	low  bool
}

func (o portion) to() float64 { return o.from + o.edge.Length() }

// axis is the coordinate that the line is at.
func (c Piecing) axis() int {
	if c.Across {
		return 0
	}
	return 1
}

func (c Piecing) low(v orb.Point) bool { return v[c.axis()] < c.At }

// crossing returns where the line crosses a chord, exactly on the line.
func (c Piecing) crossing(a, b orb.Point) orb.Point {
	k := c.axis()
	t := (c.At - a[k]) / (b[k] - a[k])
	x := orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
	x[k] = c.At
	return x
}

// split cuts a line where the piecing crosses it.
func (c Piecing) split(line orb.LineString) (parts []orb.LineString) {
	part := orb.LineString{line[0]}
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		if c.low(a) != c.low(b) {
			x := c.crossing(a, b)
			parts = append(parts, append(part, x))
			part = orb.LineString{x}
		}
		part = append(part, b)
	}
	return slices.DeleteFunc(append(parts, part), func(l orb.LineString) bool { return plane.Length(l) <= weld })
}

// parted cuts the edges by the line: those below it and those above it, each from where
// the line is left to where it is met again.
func (p Piece) parted(c Piecing) (low, high []portion, err error) {
	var all []portion
	for _, e := range p.Edges {
		at := 0.0
		parts := c.split(e.Line)
		for i, line := range parts {
			o := portion{edge: e, of: e.Name, from: at, ends: [2]bool{i == 0, i == len(parts)-1}, low: c.below(line)}
			o.edge.Line = line
			at += plane.Length(line)
			all = append(all, o)
		}
	}
	changes, first := 0, 0
	for i := range all {
		if before := all[(i+len(all)-1)%len(all)]; before.low != all[i].low {
			if changes++; all[i].low {
				first = i
			}
		}
	}
	if changes != 2 {
		if changes == 0 {
			return nil, nil, fmt.Errorf("the line misses it")
		}
		return nil, nil, say.Errorf("the line cuts it in %d, not in two", changes/2+1).
			Hint("another width or place for the cut")
	}
	all = slices.Concat(all[first:], all[:first])
	n := slices.IndexFunc(all, func(o portion) bool { return !o.low })
	return named(all[:n]), named(all[n:]), nil
}

// below says on which side of the line a part that does not cross it lies.
func (c Piecing) below(line orb.LineString) bool {
	far := line[0]
	for _, v := range line {
		if math.Abs(v[c.axis()]-c.At) > math.Abs(far[c.axis()]-c.At) {
			far = v
		}
	}
	return c.low(far)
}

// named numbers the portions of an edge that comes to lie in two on one part.
func named(portions []portion) []portion {
	times := map[string]int{}
	for i := range portions {
		e := &portions[i].edge
		if times[e.Name]++; times[e.Name] > 1 {
			e.Name = fmt.Sprintf("%s %d", e.Name, times[e.Name])
		}
	}
	return portions
}

// unusedName returns a name that no edge of the piece has.
func (p Piece) unusedName(name string) string {
	free := name
	for n := 2; ; n++ {
		if _, taken := p.Edge(free); !taken {
			return free
		}
		free = fmt.Sprintf("%s %d", name, n)
	}
}

// part makes the piece of some portions and the new seam, with what is marked on it.
func (p Piece) part(c Piecing, portions []portion, seam string) (Piece, error) {
	var edges []Edge
	for _, o := range portions {
		edges = append(edges, o.edge)
	}
	last := edges[len(edges)-1].Line
	edges = append(edges, Edge{
		Name: seam, Kind: Seam, Line: orb.LineString{last[len(last)-1], edges[0].Line[0]}, Allowance: c.Allowance,
	})
	out, err := newPiece(p.Name, edges)
	if err != nil {
		return Piece{}, err
	}
	by := out.Shift(edges)
	out.Count, out.Pair, out.Bias, out.Labels = p.Count, p.Pair, p.Bias, slices.Clone(p.Labels)
	for _, o := range portions {
		out.Notches = append(out.Notches, p.notchesOf(o, by)...)
		out.Darts = append(out.Darts, p.dartsOf(o)...)
	}
	for i, line := range p.Inside {
		for _, l := range c.split(line) {
			if c.below(l) != portions[0].low {
				continue
			}
			for _, n := range p.Names {
				if n.Line == i {
					out.Names = append(out.Names, LineName{Line: len(out.Inside), Name: n.Name})
				}
			}
			out.Inside = append(out.Inside, moved(l, by))
		}
	}
	return out, nil
}

// notchesOf returns the notches of a portion of an edge, moved with it; where the new seam
// meets the edge none is needed.
func (p Piece) notchesOf(o portion, by orb.Point) (list []Notch) {
	whole, _ := p.Edge(o.of)
	for _, n := range p.Notches {
		at, ok := whole.Along(n.At)
		after := at > o.from+atSeam || o.ends[0] && at >= o.from-weld
		before := at < o.to()-atSeam || o.ends[1] && at <= o.to()+weld
		if n.Edge != o.of || !ok || !after || !before {
			continue
		}
		n.At = orb.Point{n.At[0] + by[0], n.At[1] + by[1]}
		n.Edge = o.edge.Name
		list = append(list, n)
	}
	return list
}

// dartsOf returns the darts that open on a portion of an edge.
func (p Piece) dartsOf(o portion) (list []Dart) {
	for _, d := range p.Darts {
		if d.Edge == o.of && d.Mouth.From >= o.from-weld && d.Mouth.From+d.Mouth.Width <= o.to()+weld {
			list = append(list, Dart{o.edge.Name, Mouth{max(0, d.Mouth.From-o.from), d.Mouth.Width}})
		}
	}
	return list
}

// dartsClear refuses a line that crosses a dart, its mouth included.
func (p Piece) dartsClear(c Piecing) error {
	for _, d := range p.Darts {
		e, _ := p.Edge(d.Edge)
		from, _ := e.At(d.Mouth.From)
		to, _ := e.At(d.Mouth.From + d.Mouth.Width)
		crosses := c.low(from) != c.low(to)
		for _, line := range p.Inside {
			if len(line) == 3 && line[0] == from && line[2] == to {
				crosses = crosses || c.low(line[1]) != c.low(from)
			}
		}
		if crosses {
			return say.Errorf("the line crosses a dart on edge %q", d.Edge).
				Hint("a cut elsewhere, or a dart turned to another edge")
		}
	}
	return nil
}

// whereabouts lists where the edges of the whole are on the parts.
func whereabouts(names [2]string, low, high []portion) map[string][]SewnEdge {
	type found struct {
		from float64
		on   SewnEdge
	}
	of := map[string][]found{}
	for i, portions := range [][]portion{low, high} {
		for _, o := range portions {
			of[o.of] = append(of[o.of], found{o.from, SewnEdge{Piece: names[i], Edge: o.edge.Name}})
		}
	}
	edges := map[string][]SewnEdge{}
	for name, list := range of {
		slices.SortFunc(list, func(a, b found) int { return int(math.Copysign(1, a.from-b.from)) })
		for _, f := range list {
			edges[name] = append(edges[name], f.on)
		}
	}
	return edges
}
