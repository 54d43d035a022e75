package outline

import (
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// dxfCurve is a shape that draws a line. One whose plane counts has its coordinates in that
// plane, which may be seen from behind.
type dxfCurve interface {
	trace(t *dxfTrace) error
	onPlane() bool
}

// dxfWithin is where an entity is drawn: in the drawing itself, or in an insertion.
type dxfWithin struct {
	m      affine
	depth  int
	layer  *dxfLayer // of the insertion, for what is drawn on layer 0
	colour string    // likewise, for what has that of its block
	dashed bool
	block  string // outermost block that draws lines of its own
	group  string // insertions, outermost first
	last   Marks  // of the insertion before, whose attributes follow it
}

// dxfDrawer opens blocks out.
type dxfDrawer struct {
	f       *dxfFile
	d       Drawing
	e       float64
	left    int // vertices
	visits  int // entities
	copies  int // of blocks
	numbers map[string]int
	notes   dxfNotes
	rough   bool           // only the largest line is kept
	spare   orb.LineString // room for lines that are not kept
}

// drawing opens the file out. Where it names no unit, and nobody else a chord error above 0, it
// is drawn twice: once to see how large it is.
func (f *dxfFile) drawing(e float64) (Drawing, error) {
	unit := f.unit()
	scale := unit.Millimetres
	switch {
	case scale > 0 && e == 0:
		e = ChordError
	case scale == 0 && e == 0:
		rough, err := f.draw(&dxfDrawer{e: MaxCoordinate / 100, rough: true}, 1)
		if err != nil {
			return Drawing{}, err
		}
		e = ChordError / max(1, GuessUnit(rough.d).Millimetres)
	}
	if scale == 0 {
		scale = 1
	}
	x, err := f.draw(&dxfDrawer{e: e}, scale)
	if err != nil {
		return Drawing{}, err
	}
	if f.strange {
		f.note("letters of codepage %s, which is not known, are not those that were written", quotedKind(f.codepage))
	}
	x.d.Unit = unit
	x.d.Notes = append(f.notes.words(), x.notes.words()...)
	return x.d, nil
}

// draw opens the file out on a scale: what is in the drawing, or all blocks where nothing is. Of
// pattern data the blocks that are inserted nowhere are pieces too.
func (f *dxfFile) draw(x *dxfDrawer, scale float64) (*dxfDrawer, error) {
	x.f, x.left, x.numbers = f, MaxDrawingVertices, map[string]int{}
	for _, b := range f.order {
		b.used = false
	}
	in := dxfWithin{m: scaling(scale, scale), colour: colourName(7)}
	if err := x.entities(&f.model, in); err != nil {
		return nil, err
	}
	all := len(x.d.Lines) == 0
	for _, b := range f.order {
		inner := b.used || f.inner[strings.ToUpper(b.name)]
		if inner || b.foreign || strings.HasPrefix(b.name, "*") || !all && !b.isPiece() {
			continue
		}
		in.m = scaling(scale, scale).times(translation(-b.base[0], -b.base[1]))
		if _, err := x.block(b, in, b.line); err != nil {
			return nil, err
		}
	}
	return x, nil
}

// entities draws what is in a block.
func (x *dxfDrawer) entities(b *dxfBlock, in dxfWithin) error {
	for i := range b.entities {
		e := &b.entities[i]
		if x.visits++; x.visits > maxDXFEntities {
			return dxfErrorf(e.line, "over %d things are drawn with all insertions, the most that are read",
				maxDXFEntities).Hint("save each piece once, without copies")
		}
		if err := x.entity(e, &in); err != nil {
			return err
		}
	}
	return nil
}

func (x *dxfDrawer) entity(e *dxfEntity, in *dxfWithin) error {
	layer := e.layer
	if in.layer != nil && layer.name == "0" {
		layer = in.layer
	}
	insert, isInsert := e.shape.(*dxfInsert)
	if layer.frozen || layer.off && !isInsert {
		state := map[bool]string{true: "frozen", false: "off"}[layer.frozen]
		x.notes.leave(fmt.Sprintf("something on layer %s, which is %s,", layer.name, state), e.line)
		return nil
	}
	m := in.m
	if c, ok := e.shape.(dxfCurve); e.flipped && (!ok || c.onPlane()) {
		m = m.times(scaling(-1, 1))
	}
	marks := x.marks(e, layer, in)
	switch shape := e.shape.(type) {
	case dxfCurve:
		return x.line(e, shape, m, marks)
	case *dxfPoint, *dxfText, dxfOther:
		return x.beside(e, m, marks, in)
	case *dxfInsert:
		inner := *in
		inner.layer, inner.colour, inner.dashed, inner.depth = layer, marks.Colour, marks.Dashed, in.depth+1
		last, err := x.insert(e, insert, m, inner)
		in.last = last
		return err
	}
	return nil
}

// beside draws what is no line. A POINT and an MTEXT have no plane of their own.
func (x *dxfDrawer) beside(e *dxfEntity, m affine, marks Marks, in *dxfWithin) error {
	switch shape := e.shape.(type) {
	case *dxfPoint:
		at := in.m.apply(shape.at)
		if err := within(at, MaxCoordinate); err != nil {
			return atLine(e.line, err)
		}
		x.d.Points = append(x.d.Points, Point{at, marks, place(e)})
	case *dxfText:
		if shape.kind == "MTEXT" {
			m = in.m
		}
		x.text(e, shape, m.apply(shape.at), marks, in)
	case dxfOther:
		x.notes.leave(string(shape), e.line)
	}
	return nil
}

func place(e *dxfEntity) string { return fmt.Sprintf("line %d", e.line) }

// marks are what an entity says of itself, or leaves to its layer and its insertion.
func (x *dxfDrawer) marks(e *dxfEntity, layer *dxfLayer, in *dxfWithin) Marks {
	m := Marks{ID: e.handle, Layer: layer.name, Block: in.block, Group: in.group}
	switch e.colour {
	case dxfByLayer:
		m.Colour = layer.colour
	case dxfByBlock:
		m.Colour = in.colour
	default:
		m.Colour = colourName(e.colour)
	}
	switch e.linetype {
	case "":
		m.Dashed = x.f.isDashed(layer.linetype)
	case "BYBLOCK":
		m.Dashed = in.dashed
	default:
		m.Dashed = x.f.isDashed(e.linetype)
	}
	return m
}

// line draws a curve.
func (x *dxfDrawer) line(e *dxfEntity, c dxfCurve, m affine, marks Marks) error {
	if ellipse, ok := c.(*dxfEllipse); ok {
		ellipse.flipped = e.flipped
	}
	t := dxfTrace{m: m, e: x.e, left: x.left, line: x.spare}
	if err := c.trace(&t); err != nil {
		return atLine(e.line, err)
	}
	if x.left = t.left - len(t.line); x.left < 0 {
		return atLine(e.line, errManyVertices)
	}
	for _, p := range t.line {
		if err := within(p, MaxCoordinate); err != nil {
			return atLine(e.line, err)
		}
	}
	if x.rough {
		x.keepLargest(t.line)
		return nil
	}
	points, corners, closed := t.whole()
	if len(points) < 2 {
		x.notes.leave("a line of no length", e.line)
		return nil
	}
	if h, ok := c.(interface{ slopes() bool }); ok && h.slopes() {
		x.notes.leave("a line with heights, drawn as it is seen from above,", e.line)
	}
	if s, ok := c.(*dxfSpline); ok && len(s.controls) == 0 {
		x.notes.leave("a spline given by the points it goes through: check its curve,", e.line)
	}
	x.d.Lines = append(x.d.Lines, Line{Points: points, Corners: corners, Closed: closed, Marks: marks, Place: place(e)})
	return nil
}

// keepLargest keeps a line if it is larger than the one kept.
func (x *dxfDrawer) keepLargest(line orb.LineString) {
	size := func(l orb.LineString) float64 {
		b := plane.Bounds(l)
		return max(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1])
	}
	x.spare = line[:0]
	switch {
	case len(line) < 2:
	case len(x.d.Lines) == 0:
		x.d.Lines, x.spare = []Line{{Points: line}}, nil
	case size(line) > size(x.d.Lines[0].Points):
		x.spare, x.d.Lines[0].Points = x.d.Lines[0].Points[:0], line
	}
}

// text adds a text, as an attribute of the insertion before where it is one.
func (x *dxfDrawer) text(e *dxfEntity, s *dxfText, at orb.Point, marks Marks, in *dxfWithin) {
	if within(at, MaxCoordinate) != nil {
		x.notes.leave("a text far from all else", e.line)
		return
	}
	if s.text == "" {
		return
	}
	marks.Label = s.tag
	if s.kind == "ATTRIB" && in.last.Group != "" {
		marks.Group, marks.Block = in.last.Group, in.last.Block
	}
	x.d.Texts = append(x.d.Texts, Text{at, s.text, marks})
}

// insert opens an insertion out, and returns the marks of the last copy.
func (x *dxfDrawer) insert(e *dxfEntity, i *dxfInsert, m affine, in dxfWithin) (last Marks, err error) {
	b := x.f.blocks[i.block]
	if b == nil || b.foreign {
		why := "which the file does not hold"
		if b != nil {
			why = "which is in another file"
		}
		x.notes.leave("block "+i.name+", "+why+",", e.line)
		return Marks{}, nil
	}
	columns, rows := max(i.columns, 1), max(i.rows, 1)
	if columns > maxDXFInserts || rows > maxDXFInserts || x.copies+columns*rows > maxDXFInserts {
		return Marks{}, dxfErrorf(e.line, "over %d blocks are inserted, the most that are", maxDXFInserts).
			Hint("save each piece once, without copies")
	}
	for row := range rows {
		for column := range columns {
			in.m = m.times(i.place(b.base, column, row))
			if !in.m.finite() {
				return Marks{}, dxfErrorf(e.line, "block %s is inserted on a scale beyond all measure", i.name).
					Hint("draw it in its own size, and insert it with scale 1")
			}
			if last, err = x.block(b, in, e.line); err != nil {
				return Marks{}, err
			}
		}
	}
	return last, nil
}

// mostGroup is about how long the names of a group may grow: deeper insertions are in the
// group that they are in.
const mostGroup = 300

// block draws a copy of a block, inserted at a line of the file, and returns its marks.
func (x *dxfDrawer) block(b *dxfBlock, in dxfWithin, line int) (Marks, error) {
	x.copies++
	switch {
	case b.open:
		return Marks{}, dxfErrorf(line, "block %s is inserted within itself", b.name).
			Hint("take the insertion out of the block where it was drawn")
	case in.depth > maxDXFDepth:
		return Marks{}, dxfErrorf(line, "blocks within blocks, over %d deep, the most that are read", maxDXFDepth).
			Hint("take the blocks apart where they were drawn")
	}
	b.open, b.used = true, true
	defer func() { b.open = false }()
	if in.block == "" && b.draws {
		in.block = b.name
	}
	if len(in.group) < mostGroup {
		in.group = x.numbered(in.group, b.name)
	}
	in.last = Marks{}
	return Marks{Block: in.block, Group: in.group}, x.entities(b, in)
}

// numbered is the group of one more insertion of a block in a group; from the second on it
// has its number.
func (x *dxfDrawer) numbered(group, name string) string {
	if group != "" {
		name = group + "/" + name
	}
	x.numbers[name]++
	if n := x.numbers[name]; n > 1 {
		name = fmt.Sprintf("%s %d", name, n)
	}
	return name
}

// within refuses a point beyond a limit, or one that is none.
func within(p orb.Point, limit float64) error {
	if math.Abs(p[0]) <= limit && math.Abs(p[1]) <= limit {
		return nil
	}
	return say.Errorf("a point at %.4g, %.4g lies beyond %.0f m", p[0], p[1], limit/1000).
		Hint("move the drawing to its origin, and look at its unit ($INSUNITS)")
}

// atLine says where in the file an error is.
func atLine(line int, err error) error { return say.Errorf("DXF, line %d: %w", line, err) }
