package draft

import (
	"cmp"
	"errors"
	"slices"

	"github.com/paulmach/orb"

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
	b = b.measuresFromBust()
	frontHalf, backHalf, err := b.drawn()
	if err != nil {
		return Result{}, err
	}
	front, err := b.front(frontHalf)
	if err != nil {
		return Result{}, err
	}
	back, err := b.back(backHalf)
	if err != nil {
		return Result{}, err
	}
	if err := notchArmholes(&front, &back); err != nil {
		return Result{}, err
	}
	d := Result{Pieces: []shapes.Piece{front, back}, Joins: b.joins(frontHalf, backHalf), Neck: b.neckAround(),
		Rings: b.rings()}
	d.Armhole = sideOf(along(blockFront, "armhole"), along(blockBack, "armhole"))
	if d.Waist, err = b.waistAround(d.Pieces); err != nil {
		return Result{}, err
	}
	return d, d.notch(b.pinned(d.Neck), b.pinned(d.Waist))
}

// notchArmholes marks the armholes where a sleeve has its notches, the back twice.
func notchArmholes(front, back *shapes.Piece) error {
	f, _ := front.Edge("armhole")
	b, _ := back.Edge("armhole") // runs down to the underarm
	up := b.Length() - armholeNotch*b.Length()
	return errors.Join(front.AddNotch("armhole", armholeNotch*f.Length()), back.AddNotch("armhole", up),
		back.AddNotch("armhole", up-notchPair))
}

// joins returns the seams: down the centres and the sides, in along the shoulders.
func (b BodiceBlock) joins(front, back blockHalf) []shapes.Join {
	var out []shapes.Join
	centre := func(name, piece string, reversed bool, seam int, length float64) {
		e := shapes.SewnEdge{Piece: piece, Edge: name, Reversed: reversed}
		out = append(out, seamOf(name, 1, e, e, seamNotches(seam, 1, length/2)...))
	}
	if !b.FrontOnFold {
		centre("centre front", blockFront, false, 1, front.centreWaist[0]-front.centreNeck[0])
	}
	if !b.BackOnFold {
		centre("centre back", blockBack, true, 0, back.centreWaist[0])
	}
	sides := seamOf("side seam", 2, along(blockFront, "side seam"), against(blockBack, "side seam"),
		plane.Length([]orb.Point{back.underarm, back.side})/3) // from the waist, clear of the bust dart
	if front.sideDart.width > 0 {
		sides.A.Treatment.Darts = []shapes.Mouth{{From: front.sideDart.from, Width: front.seam.mouth()}}
	}
	shoulders := seamOf("shoulder seam", 2, along(blockFront, "shoulder"), against(blockBack, "shoulder"),
		b.Shoulder/2)
	shoulders.B.Treatment.Ease = shoulderEase
	return append(out, sides, shoulders)
}

// front drafts the front, the left half as drawn.
func (b BodiceBlock) front(h blockHalf) (shapes.Piece, error) {
	a := b.Allowance
	lower, upper := h.armhole()
	centre := shapes.Edge{Name: "centre front", Kind: shapes.Opening, Line: orb.LineString{h.centreNeck, h.centreWaist}}
	if b.FrontOnFold {
		centre.Kind = shapes.Fold
	}
	centre.Allowance = a.For(centre.Kind)
	edges := []shapes.Edge{
		centre,
		{Name: "waist", Kind: shapes.Waist, Line: h.waistLine(b.Chord), Allowance: a.For(shapes.Waist)},
		{Name: "side seam", Line: h.sideLine(b.Chord), Allowance: a.For(shapes.Seam)},
		{Name: "armhole", Line: chain(b.Chord, lower, upper), Allowance: a.For(shapes.Seam)},
		{Name: "shoulder", Line: orb.LineString{h.tip, h.neckPoint}, Allowance: a.For(shapes.Seam)},
		{Name: "neck", Kind: shapes.Top, Line: chain(b.Chord, h.neck()), Allowance: a.For(shapes.Seam)},
	}
	p, err := b.piece(blockFront, edges, b.FrontOnFold)
	if err != nil {
		return shapes.Piece{}, err
	}
	by := p.Shift(edges)
	if h.waistDart.width > 0 {
		err = h.waist.markOn(&p, "waist", by)
	}
	if h.sideDart.width > 0 {
		err = errors.Join(err, h.seam.markOn(&p, "side seam", by))
	}
	return p, err
}

// back drafts the back, its centre on the upper side as that of the left half.
func (b BodiceBlock) back(h blockHalf) (shapes.Piece, error) {
	a := b.Allowance
	waist := reversed(h.waistLine(b.Chord))
	lower, upper := h.armhole()
	armhole, neck := chain(b.Chord, lower, upper), chain(b.Chord, h.neck())
	armhole.Reverse()
	neck.Reverse()
	if b.EasePleat > 0 {
		waist = append(waist, orb.Point{h.centreWaist[0], -b.EasePleat})
		neck = slices.Insert(neck, 0, orb.Point{0, -b.EasePleat})
	}
	centre := shapes.Edge{Name: "centre back", Kind: shapes.Opening, Line: orb.LineString{waist[len(waist)-1], neck[0]}}
	if b.BackOnFold {
		centre.Kind = shapes.Fold
	}
	centre.Allowance = a.For(centre.Kind)
	edges := []shapes.Edge{
		centre,
		{Name: "neck", Kind: shapes.Top, Line: neck, Allowance: a.For(shapes.Seam)},
		{Name: "shoulder", Line: orb.LineString{h.neckPoint, h.tip}, Allowance: a.For(shapes.Seam)},
		{Name: "armhole", Line: armhole, Allowance: a.For(shapes.Seam)},
		{Name: "side seam", Line: orb.LineString{h.underarm, h.side}, Allowance: a.For(shapes.Seam)},
		{Name: "waist", Kind: shapes.Waist, Line: waist, Allowance: a.For(shapes.Waist)},
	}
	// Drafted from the centre outward; as drawn the centre is the upper side.
	for i := range edges {
		edges[i].Line = plane.MirrorLine(edges[i].Line, 0)
		edges[i].Line.Reverse()
	}
	p, err := b.piece(blockBack, edges, b.BackOnFold)
	if err != nil {
		return shapes.Piece{}, err
	}
	if b.EasePleat > 0 {
		p.Mark(edges, orb.LineString{{0, 0}, {h.centreWaist[0], 0}})
	}
	if h.waistDart.width == 0 {
		return p, nil
	}
	waistLine := h.waist.moved(func(v orb.Point) orb.Point { return orb.Point{v[0], -v[1]} })
	return p, waistLine.markOn(&p, "waist", p.Shift(edges))
}

func (b BodiceBlock) piece(name string, edges []shapes.Edge, onFold bool) (shapes.Piece, error) {
	p, err := shapes.NewPiece(name, edges)
	if err == nil && !onFold {
		p.Count, p.Pair, p.Labels = 2, true, []string{"left", "right"}
	}
	return p, err
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
	if b.ArmholeDepth > b.BackLength-leastSide {
		return say.Errorf("armhole depth of %.1f leaves %.1f of side seam above the waist at %.1f, needs %v",
			say.MM(b.ArmholeDepth), say.MM(b.BackLength-b.ArmholeDepth), say.MM(b.BackLength), say.MM(leastSide))
	}
	if err := checkRings(b.rings()...); err != nil {
		return err
	}
	if b.EasePleat > mostDart {
		return say.Errorf("ease pleat is %.1f deep, must be at most %v", say.MM(b.EasePleat), say.MM(mostDart))
	}
	return b.Allowance.Check()
}

// leastSide is the shortest side seam, mm: a bust dart needs so much.
const leastSide = 100

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
				h.name, say.MM(h.width), say.MM(h.underarm[1]))
		}
		if h.width < h.neckPoint[1]+leastDart {
			return say.Errorf("half the width across the %s, %.1f, is less than half the neck of %.1f", h.name,
				say.MM(h.width), say.MM(h.neckPoint[1]))
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
				say.MM(d.width), say.MM(h.side[1]))
		}
	}
	d := front.sideDart
	if d.width == 0 {
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
func (b BodiceBlock) rings() []Ring {
	if !b.FrontOnFold || !b.BackOnFold {
		return nil
	}
	open := say.Textf("front or back not on a fold")
	return []Ring{
		{Name: "waist with ease", Girth: b.Waist + b.WaistEase, Over: OverBust, Needs: b.Bust, Hint: open},
		{Name: "neck", Girth: b.Neck, Over: OverHead, Hint: open},
	}
}
