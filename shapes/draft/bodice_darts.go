package draft

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// shaped returns front and back with their lines where the style has them, as straight at
// waist and side as drafted.
func (b BodiceBlock) shaped() (front, back blockHalf, err error) {
	if front, back, err = b.halves(); err != nil {
		return front, back, err
	}
	if err = b.checkHalves(front, back); err != nil {
		return front, back, err
	}
	return front, back, b.shapeHalves(&front, &back)
}

// trueBack draws the back with its dart trued. The smooth line of its waist is a little
// longer than a straight one, so that the side moves in by what keeps the finished length.
func (h *blockHalf) trueBack() error {
	if err := h.trueWaist(); err != nil {
		return say.Errorf("waist of the back: %w", err)
	}
	return nil
}

// trueFront draws the front so, and its side seam as long as that of the back.
func (b BodiceBlock) trueFront(h *blockHalf, seam float64) error {
	if err := h.trueWaist(); err != nil {
		return say.Errorf("waist of the front: %w", err)
	}
	if err := h.trueSide(seam, b.bustPoint()); err != nil {
		return say.Errorf("bust dart: %w", err)
	}
	return nil
}

// trueWaist draws the waist from the centre to the side, trued to its dart, which
// keeps its point; the side moves.
func (h *blockHalf) trueWaist() error {
	d := h.waistDart
	if d.width == 0 {
		return nil
	}
	finished, level := h.side[1]-d.width, h.side[0]
	before := d.apex[1] - d.width/2
	base := func(size float64) rule {
		return func(t float64) (at, out orb.Point) { return orb.Point{level, t * size}, orb.Point{1, 0} }
	}
	length := level - d.apex[0]
	for range 6 { // the feet move down as the edge dips, by less each time
		e, err := trueDart(base, h.side[1], darting{before, d.width, finished - before, length})
		if err != nil {
			return err
		}
		h.waist = e
		off := e.apex[0] - d.apex[0]
		if length += off; math.Abs(off) < 0.01 {
			break
		}
	}
	end, _ := h.waist.base(1)
	h.side[1] = end[1]
	return nil
}

// trueSide draws the front's side seam from the waist to the underarm, trued to the
// bust dart: finished as long as the back's. The waist moves to where it ends.
func (h *blockHalf) trueSide(seam float64, bustPoint orb.Point) error {
	in := h.underarm[1] - h.side[1]
	width := h.sideDart.width
	if width == 0 {
		h.lower(h.underarm[0] + math.Sqrt(seam*seam-in*in) - h.side[0])
		return nil
	}
	size := seam + width
	straight := func(size float64) rule {
		return func(t float64) (at, out orb.Point) { return orb.Point{t * size, 0}, orb.Point{0, -1} }
	}
	level := func(size float64) float64 { return h.underarm[0] + math.Sqrt(size*size-in*in) }
	was := h.side[0]
	for range 4 { // size hardly depends on where the dart lies
		h.side[0] = level(size)
		h.sideDart.from = h.side[0] - bustPoint[0] - width/2
		h.sideDart.apex = h.sideApex(bustPoint, size)
		foot := (&shapes.Edge{Line: orb.LineString{h.side, h.underarm}})
		middle, _ := foot.At(h.sideDart.from + width/2)
		length := math.Hypot(middle[0]-h.sideDart.apex[0], middle[1]-h.sideDart.apex[1])
		e, err := trueDart(straight, size, darting{h.sideDart.from, width, seam - h.sideDart.from, length})
		if err != nil {
			return err
		}
		end, _ := e.base(1)
		size = end[0]
		h.seam = e
	}
	h.side[0] = level(size)
	along := math.Atan2(h.underarm[1]-h.side[1], h.underarm[0]-h.side[0])
	h.seam = h.seam.moved(func(p orb.Point) orb.Point { return turned(p, along, h.side) })
	down := h.side[0] - was
	h.side[0] = was
	h.lower(down)
	return nil
}

// lower moves the waist down.
func (h *blockHalf) lower(by float64) {
	h.side[0] += by
	h.centreWaist[0] += by
	if h.waistDart.width > 0 {
		h.waist = h.waist.moved(func(p orb.Point) orb.Point { return orb.Point{p[0] + by, p[1]} })
	}
}

// waistLine samples the waist from the centre to the side, and sideLine the front's
// side seam up from there.
func (h blockHalf) waistLine(chord float64) orb.LineString {
	if h.waistDart.width == 0 {
		return orb.LineString{h.centreWaist, h.side}
	}
	return h.waist.line(0, 1, chord)
}

func (h blockHalf) sideLine(chord float64) orb.LineString {
	if h.sideDart.width == 0 {
		return orb.LineString{h.side, h.underarm}
	}
	return h.seam.line(0, 1, chord)
}

// reversed returns a line the other way round.
func reversed(line orb.LineString) orb.LineString {
	line = slices.Clone(line)
	slices.Reverse(line)
	return line
}

// waistAround is the waist round the body from the centre back with its darts, and the
// ease pleat where there is one, at centre back.
func (b BodiceBlock) waistAround(c cutBlock) (shapes.JoinSide, error) {
	s := shapes.JoinSide{Edges: thereAndBack(c.waist)}
	if b.EasePleat > 0 {
		s.Treatment.Pleats, s.Treatment.PleatDepth = 1, b.EasePleat
	}
	return s, s.FoldDarts(c.pieces)
}

// neckAround is the neck round the body from the centre back, with the ease pleat
// where there is one.
func (b BodiceBlock) neckAround(pieces []shapes.Piece) (shapes.JoinSide, error) {
	s := shapes.JoinSide{Edges: thereAndBack([]shapes.SewnEdge{along(blockBack, neckName),
		along(blockFront, neckName)})}
	if b.EasePleat > 0 {
		s.Treatment.Pleats, s.Treatment.PleatDepth = 1, b.EasePleat
	}
	return s, s.FoldDarts(pieces)
}

// pinned tells marks along a side of a block that its ease pleat lies at centre back.
func (b BodiceBlock) pinned(s shapes.JoinSide) shapes.JoinSide { return pinnedPleat(s, b.EasePleat) }

// pinnedPleat is a side whose ease pleat lies at centre back, where it starts and ends.
func pinnedPleat(s shapes.JoinSide, depth float64) shapes.JoinSide {
	if depth > 0 {
		s.Treatment.Pleats, s.Treatment.PleatDepth = 0, 0
		s.Treatment.Lap, s.Treatment.Laps = depth, []shapes.Mouth{{Width: depth}}
	}
	return s
}
