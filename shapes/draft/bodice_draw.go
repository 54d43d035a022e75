package draft

import (
	"cmp"
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
	b = b.measuresFromBust().atSeam()
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
		Necks: &[2]NeckHalf{frontHalf.neckHalf(b.Chord), backHalf.neckHalf(b.Chord)}}
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
	if d.Neck, err = b.neckAround(d.Pieces); err != nil {
		return Result{}, err
	}
	if d.Waist, err = b.waistAround(cut); err != nil {
		return Result{}, err
	}
	return d, d.notch(b.pinned(d.Neck), b.pinned(d.Waist))
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
		shoulder: [2][]shapes.SewnEdge{{along(blockFront, "shoulder")}, {against(blockBack, "shoulder")}},
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
	shoulders := shapes.Join{Name: "shoulder seam", Times: 2, A: sideOf(c.shoulder[0]...), B: sideOf(c.shoulder[1]...)}
	rest := b.Shoulder - b.NeckWidth - b.ShoulderIn
	if len(c.shoulder[0]) == 1 {
		shoulders.Notches = []float64{rest / 2}
	}
	shoulders.B.Treatment.Ease = shoulderEase * rest / b.Shoulder
	out = append(out, sides, shoulders)
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
		{"shoulder", orb.LineString{h.tip, h.neckPoint}},
		{"neck", h.neckLine(chord)},
	}}
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
			e.Kind, e.Allowance = shapes.Waist, b.Allowance.For(shapes.Waist)
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
		if d.edge == "centre" {
			d.edge = centre
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

func (b BodiceBlock) check() error {
	if err := cmp.Or(
		positive(measured{"bust", b.Bust}, measured{"waist", b.Waist}, measured{"back length", b.BackLength},
			measured{"shoulder", b.Shoulder}, measured{"neck", b.Neck}, measured{"armhole depth", b.ArmholeDepth},
			measured{"bust with ease", b.Bust + b.Ease}, measured{"waist with ease", b.Waist + b.WaistEase}),
		notNegative(measured{"back width", b.BackWidth}, measured{"chest width", b.ChestWidth},
			measured{"bust depth", b.BustDepth},
			measured{"bust span", b.BustSpan}, measured{"bust dart", b.BustDart}, measured{"ease pleat", b.EasePleat},
			measured{"chord error", b.Chord}),
	); err != nil {
		return err
	}
	if b.Chord > 0 && b.Chord < leastChord {
		return say.Errorf("chord error is %g, must be at least %g", say.MM(b.Chord), say.MM(leastChord))
	}
	if waist := b.BackLength + b.WaistDrop; b.ArmholeDepth > waist-b.leastSide() {
		err := say.Errorf("armhole depth of %.1f leaves %.1f of side seam above the waist at %.1f, needs %v",
			say.MM(b.ArmholeDepth), say.MM(waist-b.ArmholeDepth), say.MM(waist), say.MM(b.leastSide()))
		if b.WaistDrop < 0 {
			return err.Hint("a waist seam that is raised by less")
		}
		return err
	}
	if err := b.checkStyle(); err != nil {
		return err
	}
	if b.EasePleat > mostDart {
		return say.Errorf("ease pleat is %.1f deep, must be at most %v", say.MM(b.EasePleat), say.MM(mostDart))
	}
	return b.Allowance.Check()
}

// leastSide is the shortest side seam, mm: a bust dart needs so much, and less where none is.
func (b BodiceBlock) leastSide() float64 {
	const darted, plain = 100, 60
	if b.pivots() || b.PanelsFrom != "" || b.measuresFromBust().NoBustDart {
		return plain
	}
	return darted
}

// checkHalves refuses measures that do not go together.
func (b BodiceBlock) checkHalves(front, back blockHalf) error {
	for _, h := range []struct {
		name string
		blockHalf
	}{{"front", front}, {"back", back}} {
		if h.waistDart.width > mostDart {
			return say.Errorf("the waist dart of the %s would take up %.1f, the most for one dart is %v", h.name,
				say.MM(h.waistDart.width), say.MM(mostDart)).
				Hint("a bodice of panels, or more waist ease")
		}
		if h.width+leastDart > h.underarm[1] {
			return say.Errorf("half the width across the %s, %.1f, leaves no armhole before the side seam at %.1f",
				h.name, say.MM(h.width), say.MM(h.underarm[1])).
				Hint("measure the width across the %s and the bust again; more ease widens the side", h.name)
		}
		if h.width < h.neckPoint[1]+leastDart {
			return say.Errorf("half the width across the %s, %.1f, is less than half the neck of %.1f", h.name,
				say.MM(h.width), say.MM(h.neckPoint[1])).
				Hint("measure the width across the %s and the neck again", h.name)
		}
		if h.tip[0] > 0.6*h.underarm[0] || h.tip[1] < h.width-3*leastDart || h.tip[1] > h.underarm[1] {
			return say.Errorf("a shoulder of %.1f puts its tip %.1f from the centre of the %s, which is %.1f wide "+
				"to the armhole and %.1f deep", say.MM(b.Shoulder), say.MM(h.tip[1]), h.name, say.MM(h.width),
				say.MM(h.underarm[0])).
				Hint("measure across the %s as well; where it is not given its width follows from the bust", h.name)
		}
		if d := h.waistDart; d.width > 0 && (d.from < leastDart || d.from+d.width > h.side[1]-leastDart ||
			d.apex[0] > h.side[0]-2*dartClear) {
			return say.Errorf("the waist dart of the %s, %.1f wide, does not fit into a waist of %.1f", h.name,
				say.MM(d.width), say.MM(h.side[1])).
				Hint("more waist ease; or measure back length and bust depth again")
		}
	}
	d := front.sideDart
	if d.width == 0 || b.pivots() || b.PanelsFrom != "" {
		return nil
	}
	if seam := plane.Length([]orb.Point{front.side, front.underarm}); d.from < leastDart ||
		d.from+d.width > seam-leastDart {
		return say.Errorf("the bust dart, %.1f wide, lies %.1f above the waist on a side seam of %.1f: the bust "+
			"point is not between underarm and waist", say.MM(d.width), say.MM(d.from), say.MM(seam)).
			Hint("check bust depth (%.1f) and armhole depth", say.MM(b.BustDepth))
	}
	if front.underarm[1]-d.apex[1] < 2*dartClear {
		return say.Errorf("bust span of %.1f leaves %.1f for the bust dart, needs %v", say.MM(b.BustSpan),
			say.MM(front.underarm[1]-d.apex[1]), say.MM(2*dartClear))
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
