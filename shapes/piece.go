package shapes

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// weld is how far apart (mm) the end of an edge and the start of the next may
// be and still count as one corner: rounding, far below a lattice step.
const weld = 1e-6

// Piece is one flat shape to cut.
type Piece struct {
	Name    string         // place on the body: "centre back gore"
	Cut     orb.Ring       // cut line, mm, on the lattice: simple, tidy, closed, counter-clockwise
	Seam    orb.Ring       // finished line, mm, closed, counter-clockwise
	Edges   []Edge         // the seam line edge by edge
	Grain   orb.LineString // two points inside the piece: the grain arrow
	Count   int            // copies to cut for one layer of cloth
	Pair    bool           // half of an even count is mirrored: left and right
	Bias    bool           // drawn on the bias: its long sides at 45 degrees to the grain
	OnFold  bool           // Cut and Seam are one half; the edge of kind Fold lies on a fold
	Notches []Notch
	Darts   []Dart           // none on a piece opened out by Unfold
	Labels  []string         // one a copy ("left", "right"), or none
	Inside  []orb.LineString // lines marked on the cloth and not cut by the layout, mm
	Names   []LineName       // of those lines that have one
}

// Notch is a mark on the seam line to be matched with one on a neighbour.
type Notch struct {
	At      orb.Point // mm
	Outward orb.Point // unit vector towards the cut line
	Edge    string    // name of the edge

	// Of every Of copies of the piece, sewn end to end, the one at place Copy, from 1,
	// bears it; 0: all do.
	Copy, Of int
}

// LineName is what one of the lines inside a piece is called.
type LineName struct {
	Line int // among them
	Name string
}

// On says whether a copy of its piece bears the notch, 0 being the first.
func (n Notch) On(copy int) bool { return n.Of == 0 || copy%n.Of == n.Copy-1 }

// NewPiece joins finished edges to a piece cut once. Edges follow each other
// counter-clockwise, each starting where the last ended; each is moved outward
// by its own allowance and the corners are mitred as plane.Offset describes,
// squared off beyond plane.MitreLimit. An edge of kind Fold must be one straight
// line along the grain without allowance.
//
// The piece is moved so that the least x and y of its cut line are 0 (the edges
// with it): add notches afterwards, by AddNotch. Errors name the piece, the edge
// and the place.
func NewPiece(name string, edges []Edge) (Piece, error) {
	p, err := newPiece(name, edges)
	if err != nil {
		return Piece{}, say.Errorf("%s: %w", name, err)
	}
	return p, nil
}

func newPiece(name string, edges []Edge) (Piece, error) {
	if err := checkEdges(edges); err != nil {
		return Piece{}, err
	}
	p := Piece{Name: name, Count: 1, Edges: cloneEdges(edges)}
	for i := range p.Edges {
		last := p.Edges[(i+len(edges)-1)%len(edges)].Line
		p.Edges[i].Line[0] = last[len(last)-1]
	}
	if err := plane.CheckSimple(seamRing(p.Edges)); err != nil {
		return Piece{}, say.Errorf("seam line: %w", err)
	}
	cut, err := cutLine(p.Edges)
	if err != nil {
		return Piece{}, err
	}
	if b := plane.Bounds(cut); b.Max[0]-b.Min[0] > MaxExtent || b.Max[1]-b.Min[1] > MaxExtent {
		return Piece{}, say.Errorf("cut line spans %.0f by %.0f, the most is %v", say.MM(b.Max[0]-b.Min[0]),
			say.MM(b.Max[1]-b.Min[1]), say.MM(MaxExtent))
	}
	corner := plane.SnapPoint(plane.Bounds(cut).Min)
	p.move(orb.Point{-corner[0], -corner[1]})
	plane.MoveLine(orb.LineString(cut), orb.Point{-corner[0], -corner[1]})
	cut = plane.SnapRing(cut)
	p.Cut = plane.Tidy(cut)
	if plane.Bounds(cut) != plane.Bounds(p.Cut) || plane.Length(cut)-plane.Length(p.Cut) > leastTip {
		return Piece{}, say.Errorf("a tip is thinner than %.2g, too thin to cut: make it blunter or add an allowance",
			say.MM(plane.Lattice))
	}
	if err := plane.CheckSimple(p.Cut); err != nil {
		return Piece{}, say.Errorf("cut line, allowances included: %w", err)
	}
	if err := p.lieOnFold(); err != nil {
		return Piece{}, err
	}
	p.Seam = seamRing(p.Edges)
	p.Grain = grainArrow(p.Seam)
	return p, nil
}

// cutLine offsets the edges by their allowances. Hems are cut so that they lie on
// the piece when they are turned up, unless there is no room for that.
func cutLine(edges []Edge) (orb.Ring, error) {
	sides, roles, folds := make([]plane.Side, len(edges)), make([]plane.Role, len(edges)), make([]plane.Role, len(edges))
	for i, e := range edges {
		sides[i] = plane.Side{Line: e.Line, Allowance: e.Allowance}
		switch {
		case e.Kind == Hem && !e.Straight:
			roles[i] = plane.TurnedUp
		case e.Kind == Seam, e.Kind == Opening:
			roles[i] = plane.Sewn
		case e.Kind == Fold:
			roles[i], folds[i] = plane.OnFold, plane.OnFold
		}
	}
	plain, err := plane.OffsetTurnedUp(sides, folds, plane.MitreLimit)
	if turned, err := plane.OffsetTurnedUp(sides, roles, plane.MitreLimit); err == nil && !turned.Equal(plain) {
		tidy := plane.Tidy(plane.SnapRing(turned))
		if plane.CheckSimple(tidy) == nil && plane.Length(turned)-plane.Length(tidy) <= leastTip {
			return turned, nil
		}
	}
	var swallowed *plane.Swallowed
	if errors.As(err, &swallowed) {
		e := edges[swallowed.Side]
		return nil, say.Errorf("edge %q bends inwards too tightly for its allowance of %.1f: nothing is left of "+
			"its cut line", e.Name, say.MM(e.Allowance))
	}
	return plain, err
}

// leastTip is how much of a cut line, mm, may close up on the lattice within its
// bounding box: no more than half a pencil line.
const leastTip = 0.1

func checkEdges(edges []Edge) error {
	if len(edges) == 0 {
		return errors.New("no edges")
	}
	names := map[string]bool{}
	for i, e := range edges {
		if names[e.Name] {
			return fmt.Errorf("two edges are named %q", e.Name)
		}
		names[e.Name] = true
		if len(e.Line) < 2 {
			return fmt.Errorf("edge %q has %d points, needs two", e.Name, len(e.Line))
		}
		for _, v := range e.Line {
			if !(math.Abs(v[0]) < MaxExtent && math.Abs(v[1]) < MaxExtent) {
				return say.Errorf("edge %q: point (%g, %g) is out of range (%v)", e.Name, say.MM(v[0]), say.MM(v[1]),
					say.MM(MaxExtent))
			}
		}
		if !(e.Allowance >= 0 && e.Allowance < MaxExtent) {
			return say.Errorf("edge %q: allowance is %g, must be 0 or more", e.Name, say.MM(e.Allowance))
		}
		if err := e.checkFold(); err != nil {
			return err
		}
		next := edges[(i+1)%len(edges)]
		end, start := e.Line[len(e.Line)-1], next.Line
		if len(start) > 0 && math.Hypot(end[0]-start[0][0], end[1]-start[0][1]) > weld {
			return fmt.Errorf("edge %q ends at %s, but %q starts at %s", e.Name, plane.Place(end), next.Name,
				plane.Place(start[0]))
		}
	}
	return nil
}

func (e Edge) checkFold() error {
	if e.Kind != Fold {
		return nil
	}
	if e.Allowance != 0 {
		return say.Errorf("edge %q lies on a fold and cannot have an allowance (%g)", e.Name, say.MM(e.Allowance))
	}
	if len(e.Line) != 2 || e.Line[0][1] != e.Line[1][1] {
		return fmt.Errorf("edge %q lies on a fold and must be one straight line along the grain", e.Name)
	}
	return nil
}

// lieOnFold notes whether the piece has a fold, and refuses a second one and a
// cut line that reaches over it.
func (p *Piece) lieOnFold() error {
	for _, e := range p.Edges {
		if e.Kind != Fold {
			continue
		}
		if p.OnFold {
			return fmt.Errorf("edge %q is a second fold", e.Name)
		}
		p.OnFold = true
		a, b := e.Line[0], e.Line[1]
		fold, inward := plane.Snap(a[1]), 1.0
		if b[0] < a[0] {
			inward = -1
		}
		for _, v := range p.Cut {
			if (v[1]-fold)*inward < 0 {
				return fmt.Errorf("cut line reaches over the fold at %s", plane.Place(v))
			}
		}
	}
	return nil
}

func cloneEdges(edges []Edge) []Edge {
	out := slices.Clone(edges)
	for i := range out {
		out[i].Line = slices.Clone(out[i].Line)
	}
	return out
}

// CutTo cuts a piece along a ring in place of the cut line that its allowances make. The
// ring is drawn where the edges given to NewPiece were, its least corner at the origin.
func (p *Piece) CutTo(given []Edge, ring orb.Ring) {
	by := p.Shift(given)
	p.move(orb.Point{-by[0], -by[1]})
	p.Cut, p.Seam = ring, seamRing(p.Edges)
	p.Grain = grainArrow(p.Seam)
}

// move shifts the edges.
func (p *Piece) move(by orb.Point) {
	for _, e := range p.Edges {
		plane.MoveLine(e.Line, by)
	}
}

// seamRing strings the edges together.
func seamRing(edges []Edge) orb.Ring {
	var ring orb.Ring
	for _, e := range edges {
		for _, v := range e.Line {
			if len(ring) == 0 || ring[len(ring)-1] != v {
				ring = append(ring, v)
			}
		}
	}
	ring[len(ring)-1] = ring[0] // equal but for the weld
	return ring
}

// AddNotch marks the seam line of an edge at a distance (mm) from the edge's start.
func (p *Piece) AddNotch(edge string, distance float64) error {
	e, ok := p.Edge(edge)
	if !ok {
		return fmt.Errorf("%s: no edge %q to notch", p.Name, edge)
	}
	if l := e.Length(); !(distance >= 0 && distance <= l) {
		return say.Errorf("%s: notch at %.1f of edge %q, which is %.1f long", p.Name, say.MM(distance), edge, say.MM(l))
	}
	at, outward := e.At(distance)
	p.Notches = append(p.Notches, Notch{At: at, Outward: outward, Edge: edge})
	return nil
}

// Edge returns the edge of that name.
func (p Piece) Edge(name string) (Edge, bool) {
	for _, e := range p.Edges {
		if e.Name == name {
			return e, true
		}
	}
	return Edge{}, false
}

// Finished returns the extent of the seam line along and across the grain, mm.
// A piece on the fold is measured as drawn: its half.
func (p Piece) Finished() (along, across float64) { return extent(p.Seam) }

// CutSize returns the extent of the cut line along and across the grain, mm.
func (p Piece) CutSize() (along, across float64) { return extent(p.Cut) }

func extent(r orb.Ring) (along, across float64) {
	b := plane.Bounds(r)
	return b.Max[0] - b.Min[0], b.Max[1] - b.Min[1]
}

// Area returns the area inside the cut line, mm2; of a piece on the fold its half.
func (p Piece) Area() float64 { return plane.Area(p.Cut) }
