package outline

import "strings"

// dxfEntity is one thing that is drawn.
type dxfEntity struct {
	line     int // where it begins
	layer    *dxfLayer
	handle   string
	linetype string // in capitals; "": that of the layer
	colour   int
	flipped  bool // drawn on a plane that is seen from behind
	shape    dxfShape
}

// dxfShape is what is drawn of an entity: a curve, a point, a text, an insertion.
type dxfShape interface {
	take(f *dxfFile, t dxfTag) error // one group
	whole() bool                     // nothing that it needs is missing
}

// dxfOther is what is no line, by what a note says of it.
type dxfOther string

func (dxfOther) take(*dxfFile, dxfTag) error { return nil }

func (dxfOther) whole() bool { return true }

// newDXFShape makes the shape of a kind of entity.
func newDXFShape(kind string) dxfShape {
	switch kind {
	case "LINE":
		return newDXFSegment()
	case "LWPOLYLINE", "POLYLINE":
		return &dxfPolyline{old: kind == "POLYLINE"}
	case "ARC", "CIRCLE":
		return newDXFArc(kind == "CIRCLE")
	case "ELLIPSE":
		return newDXFEllipse()
	case "SPLINE":
		return newDXFSpline()
	case "POINT":
		return &dxfPoint{at: unset}
	case "TEXT", "MTEXT", "ATTRIB", "ATTDEF":
		return &dxfText{kind: kind, at: unset}
	case "INSERT":
		return newDXFInsert()
	}
	return dxfOther(quotedKind(kind))
}

// readBlocks reads the blocks. Of two that have one name the first counts.
func (f *dxfFile) readBlocks(s *dxfScanner) error {
	for {
		t, err := s.next()
		if err != nil {
			return err
		}
		switch {
		case t.is(0, "ENDSEC"):
			return nil
		case t.is(0, "BLOCK"):
			err = f.readBlock(s, t.line)
		case t.code == 0 && t.word() != "ENDBLK":
			return dxfErrorf(t.line, "%s stands between two blocks", quoted(t.value)).
				Hint("the file may be damaged: save it again where it was drawn")
		}
		if err != nil {
			return err
		}
	}
}

func (f *dxfFile) readBlock(s *dxfScanner, line int) error {
	b := &dxfBlock{line: line}
	err := fields(s, func(t dxfTag) (err error) {
		switch t.code {
		case 2:
			b.name, err = f.name(t, "block")
		case 10, 20:
			b.base[t.code/10-1], err = t.number()
		case 70:
			var flags int
			flags, err = t.whole()
			b.foreign = flags&(4|8|16|32) != 0
		}
		return err
	})
	if err != nil {
		return err
	}
	if len(f.order) >= maxDXFBlocks {
		return dxfErrorf(line, "over %d blocks, the most that are read", maxDXFBlocks).Hint("save the pieces alone")
	}
	key := strings.ToUpper(b.name)
	if _, twice := f.blocks[key]; twice {
		f.notes.leave("block "+b.name+" a second time", line)
	} else {
		f.blocks[key], f.order = b, append(f.order, b)
	}
	return f.readEntities(s, b, "ENDBLK")
}

// readEntities reads entities up to a word.
func (f *dxfFile) readEntities(s *dxfScanner, into *dxfBlock, end string) error {
	for {
		t, err := s.next()
		if err != nil {
			return err
		}
		switch word := t.word(); {
		case t.code != 0:
			// of what ended before
		case word == end:
			return nil
		case word == "ENDSEC" || word == "EOF" || word == "SECTION" || word == "BLOCK" || word == "ENDBLK":
			return dxfErrorf(t.line, "%s stands where %s belongs", word, end).
				Hint("the file may be damaged or cut short: save it again where it was drawn")
		default:
			if err := f.readEntity(s, t, into); err != nil {
				return err
			}
		}
	}
}

// readEntity reads one entity with what belongs to it, and adds it to a block if it is drawn.
func (f *dxfFile) readEntity(s *dxfScanner, kind dxfTag, into *dxfBlock) error {
	if f.entities++; f.entities > maxDXFEntities {
		return dxfErrorf(kind.line, "over %d things are drawn, the most that are read", maxDXFEntities).
			Hint("save the pieces alone, or join their lines to polylines")
	}
	word := kind.word()
	e := dxfEntity{line: kind.line, colour: dxfByLayer, shape: newDXFShape(word)}
	c := dxfCommon{file: f, entity: &e, extrusion: [3]float64{0, 0, 1}}
	if err := fields(s, c.take); err != nil {
		return err
	}
	if p, ok := e.shape.(*dxfPolyline); ok && p.old {
		if err := f.readVertices(s, p, kind.line); err != nil {
			return err
		}
	}
	switch {
	case word == "SEQEND" || word == "VIEWPORT": // no things
		return nil
	case c.hidden || c.paper:
		f.notes.leave(map[bool]string{true: "something in paper space", false: "something invisible"}[c.paper], kind.line)
		return nil
	case !e.shape.whole():
		return dxfErrorf(kind.line, "the %s that begins here lacks a coordinate or a radius", word).
			Hint("the file may be damaged: save it again where it was drawn")
	}
	if p, ok := e.shape.(*dxfPolyline); ok && p.mesh() {
		e.shape = dxfOther("POLYLINE that is a mesh")
	}
	if _, other := e.shape.(dxfOther); !other && !c.flat(&e) {
		e.shape = dxfOther(word + " on a plane that is not the drawing's,")
	}
	if e.layer == nil {
		layer, err := f.layer(dxfTag{8, "0", kind.line})
		if err != nil {
			return err
		}
		e.layer = layer
	}
	f.add(into, e)
	return nil
}

// add adds an entity to a block, but for definitions of attributes that only say where
// insertions have theirs.
func (f *dxfFile) add(into *dxfBlock, e dxfEntity) {
	switch shape := e.shape.(type) {
	case *dxfText:
		if shape.kind == "ATTDEF" && !shape.constant {
			return
		}
		f.words.read(shape.text, e.line)
	case *dxfInsert:
		f.inner[shape.block] = true
	case dxfOther:
	default:
		into.draws = true
	}
	into.entities = append(into.entities, e)
}

// quotedKind is the kind of an entity as a note may say it.
func quotedKind(word string) string {
	for _, r := range word {
		if (r < 'A' || r > 'Z') && (r < '0' || r > '9') && r != '_' || len(word) > 40 {
			return "something unknown"
		}
	}
	return strings.Clone(word)
}

// dxfCommon reads the groups that all entities have in common.
type dxfCommon struct {
	file          *dxfFile
	entity        *dxfEntity
	extrusion     [3]float64
	hidden, paper bool
	embedded      bool // what follows is of another object
}

func (c *dxfCommon) take(t dxfTag) (err error) {
	e := c.entity
	_, other := e.shape.(dxfOther)
	if c.embedded || t.code >= 1000 || t.code < 0 || other && t.code != 8 && t.code != 60 && t.code != 67 {
		return nil
	}
	switch t.code {
	case 5:
		if h := t.word(); len(h) <= 16 && strings.Trim(h, "0123456789ABCDEFabcdef") == "" {
			e.handle = strings.Clone(h)
		}
	case 6:
		e.linetype, err = c.file.linetype(t)
		if e.linetype == "BYLAYER" {
			e.linetype = ""
		}
	case 8:
		e.layer, err = c.file.layer(t)
	case 60:
		c.hidden, err = flag(t, 1)
	case 62:
		e.colour, err = t.whole()
	case 67:
		c.paper, err = flag(t, 1)
	case 101:
		c.embedded = true
	case 210, 220, 230:
		c.extrusion[t.code/10-21], err = t.number()
	case 420:
		var rgb int
		rgb, err = t.whole()
		e.colour = dxfTrueColor | rgb&(dxfTrueColor-1)
	default:
		return e.shape.take(c.file, t)
	}
	return err
}

// flag tells whether a bit of a value is set.
func flag(t dxfTag, bit int) (bool, error) {
	v, err := t.whole()
	return v&bit != 0, err
}

// flat tells whether an entity lies in the plane of the drawing, seen from above or, flipped,
// from behind. The axes of a plane follow from its normal N (DXF Reference, arbitrary axis
// algorithm): for N = (0, 0, -1) its x runs along Wy x N = (-1, 0, 0), its y upwards as before.
func (c *dxfCommon) flat(e *dxfEntity) bool {
	const level = 1e-9
	x, y, z := c.extrusion[0], c.extrusion[1], c.extrusion[2]
	if z < 0 {
		e.flipped, z = true, -z
	}
	return x <= level*z && x >= -level*z && y <= level*z && y >= -level*z && z > 0
}
