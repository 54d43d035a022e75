package draft

import (
	"errors"
	"fmt"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/outline"
	"yardlay/shapes/say"
)

// Outline takes pieces over as drawn elsewhere (see package outline).
type Outline struct {
	Shapes []outline.Shape
	// Count is how many copies of each are cut; 0: as many as the shape says, or one.
	Count int
	Pair  bool // half of an even count is mirrored
	// Single cuts all copies alike, though a shape says that half of them are mirrored.
	Single bool
	// Allowance is cut outside the edges of shapes whose outline is the line that is sewn
	// and that have no line besides that is cut.
	Allowance shapes.Allowance
	// Edge says what becomes of an edge, and what is cut outside it; nil: it is a seam.
	Edge func(e outline.Edge) (kind shapes.EdgeKind, allowance float64)
	// Grain is the direction of the grain in the drawing, degrees counter-clockwise from x;
	// nil: that of the grain line or the fold of each shape, and x where neither is drawn.
	Grain *float64
}

// Draft returns one piece a shape, its grain along x. A grain line, or a fold, lies along x
// turned by at most a quarter: what points up in the drawing points along the cloth. Of a
// pair the left copies are as drawn, the right ones mirrored.
//
// A shape with both lines has the allowance that is drawn. Darts are those of our own pieces
// where their legs can be sewn together, and else lines inside with a notch at each foot.
func (o Outline) Draft() (Result, error) {
	if len(o.Shapes) == 0 {
		return Result{}, errors.New("no outline is given")
	}
	if err := o.Allowance.Check(); err != nil {
		return Result{}, say.Errorf("outline: %w", err)
	}
	if err := checkCount(o.Count); err != nil {
		return Result{}, say.Errorf("outline: %w", err)
	}
	var d Result
	for i, drawn := range o.Shapes {
		if drawn.Name == "" {
			return Result{}, fmt.Errorf("outline %d has no name", i+1)
		}
		p, notes, err := o.piece(drawn)
		if err != nil {
			return Result{}, err
		}
		d.Pieces, d.Notes = append(d.Pieces, p), append(d.Notes, notes...)
	}
	return d, nil
}

// copies are how many of a shape are cut, and whether half of them are mirrored.
func (o Outline) copies(drawn outline.Shape) (count int, pair bool, err error) {
	count, pair = o.Count, o.Pair
	if count == 0 {
		count = max(drawn.Quantity, 1)
		if err := checkCount(count); err != nil {
			return 0, false, say.Errorf("%s: %w", drawn.Name, err)
		}
		pair = pair || drawn.Paired && drawn.Quantity > 0 && !o.Single
	}
	if pair && count%2 != 0 {
		return 0, false, say.Errorf("outline: count is %d, left and right pieces come in even numbers", count).
			Hint("give the count of %s", drawn.Name)
	}
	return count, pair, nil
}

// piece makes one of a shape.
func (o Outline) piece(drawn outline.Shape) (shapes.Piece, []say.Text, error) {
	count, pair, err := o.copies(drawn)
	if err != nil {
		return shapes.Piece{}, nil, err
	}
	if drawn, err = laidAlong(drawn, o.Grain); err == nil && drawn.Cut != nil {
		drawn, err = cornered(drawn)
	}
	if err != nil {
		return shapes.Piece{}, nil, say.Errorf("%s: %w", drawn.Name, err)
	}
	edges := o.edges(drawn)
	p, err := shapes.NewPiece(drawn.Name, edges)
	if err != nil {
		return shapes.Piece{}, nil, err
	}
	if drawn.Cut != nil {
		cutAsDrawn(&p, edges, drawn)
	}
	p.Count, p.Pair = count, pair
	if pair {
		p.Labels = sideLabels(count)
	}
	notes, err := marked(&p, edges, drawn)
	return p, notes, err
}

// edges are those of a shape, with their allowances.
func (o Outline) edges(drawn outline.Shape) []shapes.Edge {
	edges := make([]shapes.Edge, len(drawn.Edges))
	for i, e := range drawn.Edges {
		edges[i] = shapes.Edge{Name: e.Name, Kind: shapes.Seam, Line: e.Line}
		allowance := 0.
		if o.Edge != nil {
			edges[i].Kind, allowance = o.Edge(e)
		}
		switch {
		case i == drawn.Fold:
			edges[i].Kind = shapes.Fold
		case drawn.Outline == outline.CutLine || drawn.Cut != nil:
		case o.Edge != nil:
			edges[i].Allowance = allowance
		default:
			edges[i].Allowance = o.Allowance.Seam
		}
	}
	return edges
}

// marked adds what is marked on a shape to its piece.
func marked(p *shapes.Piece, given []shapes.Edge, drawn outline.Shape) (notes []say.Text, err error) {
	notch := func(at outline.NotchAt) error {
		edge := given[at.Edge]
		return p.AddNotch(edge.Name, min(at.At, p.Edges[at.Edge].Length()))
	}
	for _, n := range drawn.Notches {
		if err := notch(n); err != nil {
			return nil, err
		}
	}
	by := p.Shift(given)
	for _, d := range drawn.Darts {
		if err := p.AddDart(given[d.Edge].Name, shapes.Mouth{From: d.From, Width: d.To - d.From},
			orb.Point{d.Apex[0] + by[0], d.Apex[1] + by[1]}); err == nil {
			continue
		}
		notes = append(notes, say.Textf("%s: the legs of a dart differ by %.1f, so it is marked by its lines alone.",
			drawn.Name, say.MM(d.Uneven)))
		feet := [2]outline.NotchAt{{Edge: d.Edge, At: d.From}, {Edge: d.Edge, At: d.To}}
		if err := errors.Join(notch(feet[0]), notch(feet[1])); err != nil {
			return nil, err
		}
		a, _ := given[d.Edge].At(d.From)
		b, _ := given[d.Edge].At(d.To)
		p.Mark(given, orb.LineString{a, d.Apex, b})
	}
	for _, l := range drawn.Inside {
		p.Mark(given, l.Line)
		if name := l.Called(); name != "" {
			p.Names = append(p.Names, shapes.LineName{Line: len(p.Inside) - 1, Name: name})
		}
	}
	return notes, nil
}

// sideLabels tells the copies of pairs apart: left, right, left ...
func sideLabels(count int) []string {
	labels := make([]string, count)
	for i := range labels {
		labels[i] = [...]string{"left", "right"}[i%2]
		if count > 2 {
			labels[i] += fmt.Sprintf(" %d of %d", i/2+1, count/2)
		}
	}
	return labels
}
