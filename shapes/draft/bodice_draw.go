package draft

import (
	"slices"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Names of the block's pieces.
const (
	blockFront = "bodice front"
	blockBack  = "bodice back"
)

func (b BodiceBlock) draft() (Result, error) {
	if err := b.check(); err != nil {
		return Result{}, err
	}
	b = b.measuresFromBust().atSeam().raised()
	if b.BustDartAt == DartAtCentre {
		b.FrontOnFold, b.frontSeam = false, true
	}
	frontHalf, backHalf, err := b.shaped()
	if err != nil {
		return Result{}, err
	}
	rings := b.rings(frontHalf, backHalf)
	if err := checkRings(rings...); err != nil {
		return Result{}, err
	}
	cut, err := b.cut(frontHalf, backHalf)
	if err != nil {
		return Result{}, err
	}
	d := Result{Pieces: cut.pieces, Armhole: sideOf(cut.armhole...), Rings: rings, Notes: b.styleNotes(),
		OffShoulder: b.OffShoulder, EasePleat: b.EasePleat}
	if d.Joins, err = b.joins(cut); err != nil {
		return Result{}, err
	}
	if err := d.Armhole.FoldDarts(d.Pieces); err != nil {
		return Result{}, err
	}
	front, back, err := d.armhole()
	if err != nil {
		return Result{}, err
	}
	if err := d.Armhole.Notch(d.Pieces, armholeMarks(front, back)); err != nil {
		return Result{}, err
	}
	var round []shapes.JoinSide
	if !b.Hemmed {
		if d.Waist, err = b.waistAround(cut); err != nil {
			return Result{}, err
		}
		round = append(round, b.pinned(d.Waist))
	}
	if !b.off() { // else it runs over the sleeves between front and back
		d.Necks = &[2]NeckHalf{frontHalf.neckHalf(b.Chord), backHalf.neckHalf(b.Chord)}
		if d.Neck, err = b.neckAround(d.Pieces); err != nil {
			return Result{}, err
		}
		round = append(round, b.pinned(d.Neck))
	}
	return d, d.notch(round...)
}

// cutBlock is a block cut out: its pieces, and where its seams run on them.
type cutBlock struct {
	pieces   []shapes.Piece
	panels   []shapes.Join // those of panels
	armhole  []shapes.SewnEdge
	waist    []shapes.SewnEdge // of one half, from the centre back to the centre front
	shoulder [2][]shapes.SewnEdge
}

// cut cuts front and back out, whole or in panels.
func (b BodiceBlock) cut(front, back blockHalf) (cutBlock, error) {
	if b.PanelsFrom != "" {
		return b.panels(front, back)
	}
	if err := back.trueBack(); err != nil {
		return cutBlock{}, err
	}
	seam := planar.Distance(back.side, back.underarm)
	var whole outlinedPiece
	var err error
	if b.pivots() {
		whole, err = b.pivoted(front, seam)
	} else if err = b.trueFront(&front, seam); err == nil {
		whole = front.outline(b.Chord)
	}
	if err != nil {
		return cutBlock{}, err
	}
	f, err := b.piece(blockFront, whole)
	if err != nil {
		return cutBlock{}, err
	}
	k, err := b.piece(blockBack, back.outline(b.Chord))
	if err != nil {
		return cutBlock{}, err
	}
	return cutBlock{
		pieces:   []shapes.Piece{f, k},
		armhole:  []shapes.SewnEdge{along(blockFront, "armhole"), along(blockBack, "armhole")},
		waist:    []shapes.SewnEdge{against(blockBack, "waist"), against(blockFront, "waist")},
		shoulder: b.shoulders(),
	}, nil
}

// joins returns the seams: down the centres and the sides, in along the shoulders.
func (b BodiceBlock) joins(c cutBlock) ([]shapes.Join, error) {
	length := func(piece, edge string) float64 {
		i := slices.IndexFunc(c.pieces, func(p shapes.Piece) bool { return p.Name == piece })
		e, _ := c.pieces[i].Edge(edge)
		return e.Length()
	}
	var out []shapes.Join
	centre := func(name, piece string, reversed bool, seam int) {
		e := shapes.SewnEdge{Piece: piece, Edge: name, Reversed: reversed}
		out = append(out, seamOf(name, 1, e, e, seamNotches(seam, 1, length(piece, name)/2)...))
	}
	if !b.FrontOnFold {
		centre("centre front", blockFront, false, 1)
	}
	if !b.BackOnFold {
		centre("centre back", blockBack, true, 0)
	}
	out = append(out, c.panels...)
	front, back := c.armhole[0].Piece, c.armhole[len(c.armhole)-1].Piece
	sides := seamOf("side seam", 2, along(front, "side seam"), against(back, "side seam"),
		length(back, "side seam")/3) // from the waist, clear of the bust dart
	out = append(out, sides)
	if !b.off() {
		shoulders := shapes.Join{Name: "shoulder seam", Times: 2, A: sideOf(c.shoulder[0]...), B: sideOf(c.shoulder[1]...)}
		rest := b.Shoulder - b.NeckWidth - b.ShoulderIn
		if len(c.shoulder[0]) == 1 {
			shoulders.Notches = []float64{rest / 2}
		}
		shoulders.B.Treatment.Ease = shoulderEase * rest / b.Shoulder
		out = append(out, shoulders)
	}
	for i := range out {
		for _, side := range []*shapes.JoinSide{&out[i].A, &out[i].B} {
			if err := side.FoldDarts(c.pieces); err != nil {
				return nil, err
			}
		}
	}
	return out, nil
}

// outlinedPiece is a piece of the block before it is cut: its lines as of a front, from the
// centre down and round to the neck, x down and y outward, and the darts that open on them.
type outlinedPiece struct {
	lines []namedLine
	darts []openDart
	mark  []orb.LineString
}

type namedLine struct {
	name string
	line orb.LineString
}

// outline is a whole half.
func (h blockHalf) outline(chord float64) outlinedPiece {
	out := outlinedPiece{lines: []namedLine{
		{"centre", orb.LineString{h.centreNeck, h.centreWaist}},
		{"waist", h.waistLine(chord)},
		{"side seam", h.sideLine(chord)},
		{"armhole", h.armholeLine(chord)},
	}}
	if h.off == 0 {
		out.lines = append(out.lines, namedLine{"shoulder", orb.LineString{h.tip, h.neckPoint}})
	}
	out.lines = append(out.lines, namedLine{"neck", h.neckLine(chord)})
	if h.waistDart.width > 0 {
		out.darts = append(out.darts, h.waist.opened("waist"))
	}
	if h.sideDart.width > 0 {
		out.darts = append(out.darts, h.seam.opened("side seam"))
	}
	return out
}

// pleated widens a back at its centre by an ease pleat.
func (o outlinedPiece) pleated(by float64) outlinedPiece {
	if by == 0 || o.lines[0].name != "centre" {
		return o
	}
	centre := o.lines[0].line
	top, bottom := centre[0], centre[len(centre)-1]
	o.mark = append(o.mark, orb.LineString{top, bottom})
	for i, l := range o.lines {
		switch l.name {
		case "centre":
			o.lines[i].line = orb.LineString{{top[0], -by}, {bottom[0], -by}}
		case "waist":
			o.lines[i].line = slices.Insert(l.line.Clone(), 0, orb.Point{bottom[0], -by})
		case "neck":
			o.lines[i].line = append(l.line.Clone(), orb.Point{top[0], -by})
		}
	}
	return o
}

// mirrored turns lines as of a front into those of a back, its centre on the upper side.
func (o outlinedPiece) mirrored() outlinedPiece {
	out := outlinedPiece{}
	for _, l := range o.lines {
		out.lines = append(out.lines, namedLine{l.name, plane.MirrorLine(l.line, 0)})
	}
	slices.Reverse(out.lines)
	if n := len(out.lines) - 1; out.lines[n].name == "centre" { // it comes first
		out.lines = slices.Insert(out.lines[:n], 0, out.lines[n])
	}
	flip := func(v orb.Point) orb.Point { return orb.Point{v[0], -v[1]} }
	for _, d := range o.darts {
		out.darts = append(out.darts, openDart{d.edge, flip(d.b), flip(d.a), flip(d.apex)})
	}
	for _, l := range o.mark {
		out.mark = append(out.mark, plane.MirrorLine(l, 0))
	}
	return out
}

// piece cuts a piece of the front or of the back out, on the fold where its centre is.
func (b BodiceBlock) piece(name string, o outlinedPiece) (shapes.Piece, error) {
	onFold, centre := b.FrontOnFold, "centre front"
	if !inFront(name) {
		o = o.pleated(b.EasePleat).mirrored()
		onFold, centre = b.BackOnFold, "centre back"
	}
	var edges []shapes.Edge
	for _, l := range o.lines {
		e := shapes.Edge{Name: l.name, Line: l.line, Allowance: b.Allowance.Seam}
		switch l.name {
		case "centre":
			e.Name, e.Kind = centre, shapes.Opening
			switch {
			case onFold:
				e.Kind = shapes.Fold
			case b.frontSeam && inFront(name):
				e.Kind = shapes.Seam
			}
			e.Allowance = b.Allowance.For(e.Kind)
		case "waist":
			e.Name, e.Kind = b.lowerEdge()
			e.Allowance = b.Allowance.For(e.Kind)
		case "neck":
			e.Kind = shapes.Top
		}
		edges = append(edges, e)
	}
	p, err := shapes.NewPiece(name, edges)
	if err != nil {
		return shapes.Piece{}, err
	}
	if !p.OnFold {
		p.Count, p.Pair, p.Labels = 2, true, []string{"left", "right"}
	}
	p.Mark(edges, o.mark...)
	by := p.Shift(edges)
	for _, d := range o.darts {
		switch d.edge {
		case "centre":
			d.edge = centre
		case "waist":
			d.edge, _ = b.lowerEdge()
		}
		if err := d.markOn(&p, by); err != nil {
			return shapes.Piece{}, err
		}
	}
	return p, b.dartsInside(p)
}

// inFront says whether a piece of the block lies in front.
func inFront(piece string) bool { return strings.Contains(piece, "front") }

// dartsInside refuses lines that are cut into what a dart takes up.
func (b BodiceBlock) dartsInside(p shapes.Piece) error {
	for _, d := range p.Darts {
		e, _ := p.Edge(d.Edge)
		from, _ := e.At(d.Mouth.From)
		for _, l := range p.Inside {
			if len(l) != 3 || planar.Distance(l[0], from) > 1e-6 {
				continue
			}
			for _, other := range p.Edges {
				if other.Name != d.Edge && clearance(orb.LineString{l[1], l[1]}, other.Line) < leastDart ||
					!planar.RingContains(p.Seam, l[1]) {
					return say.Errorf("%s: its %s comes within %v of the point of the dart that opens on its %s", p.Name,
						other.Name, say.MM(leastDart), d.Edge).
						Hint("a smaller `neck_depth`, `neck_width` or `armhole_drop`")
				}
			}
		}
	}
	return nil
}

// rings returns waist and neck where neither centre opens.
func (b BodiceBlock) rings(front, back blockHalf) []Ring {
	if !b.FrontOnFold || !b.BackOnFold {
		return nil
	}
	open := say.Textf("front or back not on a fold")
	neck := b.Neck
	if front.line != "" || back.line != "" || b.NeckWidth+b.NeckDepth+b.NeckBackDepth > 0 {
		neck = 2 * (plane.Length(front.neckLine(b.Chord)) + plane.Length(back.neckLine(b.Chord)))
	}
	return []Ring{
		{Name: "waist with ease", Girth: b.Waist + b.WaistEase, Over: OverBust, Needs: b.Bust, Hint: open},
		{Name: "neck", Girth: neck, Over: OverHead, Hint: open},
	}
}
