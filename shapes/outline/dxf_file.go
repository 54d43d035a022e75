package outline

import (
	"fmt"
	"strings"
)

// dxfFile is what a file holds, as it holds it: blocks are not opened out, and lengths are
// in its unit.
type dxfFile struct {
	version, codepage     string
	insunits, measurement int // -1: absent
	words                 dxfUnitWords
	strange               bool // letters of a codepage that is not known

	layers map[string]*dxfLayer // by name in capitals, as DXF tells none apart by case
	dashed map[string]bool      // line types, likewise
	blocks map[string]*dxfBlock // likewise
	order  []*dxfBlock          // blocks as they stand
	model  dxfBlock             // what is drawn
	inner  map[string]bool      // blocks that are inserted somewhere, likewise

	known    map[string]string // names as they were written
	entities int
	vertices int
	notes    dxfNotes
}

func newDXFFile() *dxfFile {
	return &dxfFile{insunits: -1, measurement: -1, layers: map[string]*dxfLayer{}, dashed: map[string]bool{},
		blocks: map[string]*dxfBlock{}, inner: map[string]bool{}, known: map[string]string{}}
}

// dxfBlock is a drawing within the drawing.
type dxfBlock struct {
	name     string
	base     [2]float64 // the point of it that comes to where it is inserted
	foreign  bool       // in another file
	line     int
	entities []dxfEntity
	draws    bool // it has lines or points of its own

	open bool // being opened out
	used bool // has been
}

// read takes the sections in any order. Those that draw nothing are passed over.
func (f *dxfFile) read(s *dxfScanner) error {
	defer func() { f.keepWords(s.unit) }()
	for first := true; ; first = false {
		t, err := s.next()
		if err != nil {
			return err
		}
		switch {
		case t.is(0, "EOF"):
			return nil
		case t.is(0, "SECTION"):
			err = f.section(s)
		case first:
			return dxfErrorf(t.line, "%s where a DXF begins with its first SECTION", quoted(t.value)).
				Hint("this may not be a DXF: save the drawing as ASCII DXF, R12 or later")
		default:
			return dxfErrorf(t.line, "%s (group code %d) stands between two sections", quoted(t.value), t.code).
				Hint("the file may be damaged: save it again where it was drawn")
		}
		if err != nil {
			return err
		}
	}
}

// keepWords keeps what is said of the unit, unless that is known.
func (f *dxfFile) keepWords(u dxfUnitWords) {
	if f.words.millimetres == 0 {
		f.words = u
	}
}

func (f *dxfFile) section(s *dxfScanner) error {
	t, err := s.next()
	if err != nil {
		return err
	}
	if t.code != 2 {
		return dxfErrorf(t.line, "a SECTION without a name").
			Hint("the file may be damaged: save it again where it was drawn")
	}
	switch t.word() {
	case "HEADER":
		return f.header(s)
	case "TABLES":
		return f.tables(s)
	case "BLOCKS":
		return f.readBlocks(s)
	case "ENTITIES":
		return f.readEntities(s, &f.model, "ENDSEC")
	}
	for !t.is(0, "ENDSEC") {
		if t, err = s.next(); err != nil {
			return err
		}
		if t.is(0, "EOF") {
			return dxfErrorf(t.line, "the file ends within a section").
				Hint("it may have been cut short on its way: fetch or save it again")
		}
	}
	return nil
}

// header reads the variables that say what numbers and letters mean.
func (f *dxfFile) header(s *dxfScanner) error {
	variable := ""
	for {
		t, err := s.next()
		if err != nil {
			return err
		}
		switch {
		case t.code == 0:
			if t.word() == "ENDSEC" {
				return nil
			}
			return dxfErrorf(t.line, "%s within the HEADER", quoted(t.value)).
				Hint("the file may be damaged: save it again where it was drawn")
		case t.code == 9:
			variable = t.word()
		case variable == "$ACADVER":
			f.version = strings.Clone(t.word())
		case variable == "$DWGCODEPAGE":
			f.codepage = strings.ToUpper(strings.Clone(t.word()))
		case variable == "$INSUNITS":
			if f.insunits, err = t.whole(); err != nil {
				return err
			}
		case variable == "$MEASUREMENT":
			if f.measurement, err = t.whole(); err != nil {
				return err
			}
		}
	}
}

// dxfNotes count what is left out, by what it is.
type dxfNotes struct {
	list  []dxfNote
	place map[string]int
}

type dxfNote struct {
	what  string
	count int
	line  int // of the first; 0: nowhere
}

// most notes: more kinds of what is left out are counted together.
const maxDXFNotes = 40

// leave counts one more of what is left out.
func (n *dxfNotes) leave(what string, line int) {
	if n.place == nil {
		n.place = map[string]int{}
	}
	at, ok := n.place[what]
	if !ok && len(n.list) >= maxDXFNotes {
		what = "something else"
		at, ok = n.place[what]
	}
	if !ok {
		at = len(n.list)
		what = strings.Clone(what)
		n.place[what] = at
		n.list = append(n.list, dxfNote{what: what, line: line})
	}
	n.list[at].count++
}

// words writes the notes.
func (n *dxfNotes) words() (all []string) {
	for _, note := range n.list {
		switch {
		case note.line == 0:
			all = append(all, note.what)
		case note.count == 1:
			all = append(all, fmt.Sprintf("%s at line %d", note.what, note.line))
		default:
			all = append(all, fmt.Sprintf("%s at line %d, and %d more", note.what, note.line, note.count-1))
		}
	}
	return all
}

// note says what has no line.
func (f *dxfFile) note(format string, args ...any) { f.notes.leave(fmt.Sprintf(format, args...), 0) }
