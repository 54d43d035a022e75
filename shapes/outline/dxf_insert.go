package outline

import (
	"strings"

	"github.com/paulmach/orb"
)

// dxfPoint is a POINT.
type dxfPoint struct{ at orb.Point }

func (p *dxfPoint) take(f *dxfFile, t dxfTag) error {
	if t.code == 10 || t.code == 20 {
		return axis(&p.at, t)
	}
	return nil
}

func (p *dxfPoint) whole() bool { return given(p.at) }

// dxfText is a TEXT, an MTEXT, an attribute or the definition of one.
type dxfText struct {
	kind     string
	at       orb.Point
	text     string // as read; once whole, as it is seen
	tag      string // of an attribute
	constant bool   // a definition that is drawn
	parts    strings.Builder
}

// mostText is how many bytes of a text are kept: what is longer is no name.
const mostText = 10_000

func (x *dxfText) take(f *dxfFile, t dxfTag) (err error) {
	switch t.code {
	case 10, 20:
		return axis(&x.at, t)
	case 1, 3:
		if t.code == 3 && x.kind != "MTEXT" {
			return nil // a prompt
		}
		if x.parts.Len()+len(t.value) <= mostText {
			x.parts.WriteString(t.value)
		}
		if t.code == 1 {
			text := f.decode(x.parts.String())
			if x.parts.Reset(); x.kind == "MTEXT" {
				x.text = plainMText(text)
			} else {
				x.text = strings.Clone(plainText(text))
			}
		}
	case 2:
		if x.kind != "TEXT" && x.kind != "MTEXT" {
			x.tag, err = f.name(t, "attribute")
		}
	case 70:
		if x.kind == "ATTDEF" {
			x.constant, err = flag(t, 2)
		}
	}
	return err
}

func (x *dxfText) whole() bool { return given(x.at) }

// dxfInsert is an insertion of a block, in rows and columns.
type dxfInsert struct {
	block         string // in capitals
	name          string
	at            orb.Point
	scale         orb.Point
	turn          float64 // degrees
	columns, rows int
	apart         orb.Point // between columns, and between rows
}

func newDXFInsert() *dxfInsert {
	return &dxfInsert{at: unset, scale: orb.Point{1, 1}, columns: 1, rows: 1}
}

func (i *dxfInsert) take(f *dxfFile, t dxfTag) (err error) {
	switch t.code {
	case 2:
		i.name, err = f.name(t, "block")
		i.block = strings.ToUpper(i.name)
	case 10, 20:
		return axis(&i.at, t)
	case 41, 42:
		i.scale[t.code-41], err = t.number()
	case 44, 45:
		i.apart[t.code-44], err = t.number()
	case 50:
		i.turn, err = t.number()
	case 70:
		i.columns, err = t.whole()
	case 71:
		i.rows, err = t.whole()
	}
	return err
}

func (i *dxfInsert) whole() bool { return given(i.at) && i.block != "" }

// place is the map from the block to where it is inserted: its base point comes to the point
// of insertion, scaled, then turned. Rows and columns are turned too, not scaled.
func (i *dxfInsert) place(base orb.Point, column, row int) affine {
	moved := translation(float64(column)*i.apart[0], float64(row)*i.apart[1])
	return translation(i.at[0], i.at[1]).times(quarters(i.turn)).times(moved).times(scaling(i.scale[0], i.scale[1])).
		times(translation(-base[0], -base[1]))
}
