package job

import (
	"fmt"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/strict"
)

// Have is a length of a cloth on the shelf. Lengths are in mm.
type Have struct {
	Name   string // unique within the cloth
	Length float64
	Width  float64 // from edge to edge, the cloth's selvedges included; 0: the cloth's own
	Flaws  []Flaw
	// Outline is what is left where that is no rectangle, within Length and Width: closed,
	// counter-clockwise and simple, mm, x along the grain in the direction of the nap, y from
	// the lower selvedge side. nil: a rectangle.
	Outline orb.Ring
	Washed  bool // it has been washed already: its measures are those of washed cloth
	At      strict.Position
}

// extent is what flaws of a leftover have to lie in.
func (h Have) extent(c Cloth) extent {
	within := extent{h.Length, h.Width, "the leftover"}
	if h.Width == 0 {
		within.width = c.broadest()
	}
	return within
}

// narrow refuses a leftover that selvedges leave nothing of.
func (h Have) narrow(t *table, c Cloth) {
	if h.Width > 0 && c.Width > 0 && h.usable(c) <= 0 {
		t.Fail(t.Field("width").Value.At, "", "two selvedges of %s leave nothing of a leftover %s wide",
			t.Show(c.Selvedge), t.Show(h.Width))
	}
}

// usable returns the width of a leftover of the cloth that pieces are laid on.
func (h Have) usable(c Cloth) float64 {
	if h.Width > 0 {
		c.Width = h.Width
	}
	return c.Usable()
}

// mostHave is the most leftovers of one cloth.
const mostHave = 32

const haveExample = `{ name = "remnant", length = "40", width = "30" }`

// shelf reads the leftovers of a cloth, whose width and selvedge are known.
func (t *table) shelf(c Cloth) []Have {
	var all []Have
	for i, n := range t.InlineTables("have", haveExample, mostHave) {
		all = append(all, t.leftover(n, i, c))
	}
	strict.Distinct(t.Reader, all, "leftover", "a name", func(h Have) (string, strict.Position) { return h.Name, h.At })
	return all
}

// leftover reads one of them.
func (t *table) leftover(n *strict.Value, index int, c Cloth) Have {
	l := t.within("have", n, label("leftover", "", index)+" of "+t.Name)
	h := Have{Name: fmt.Sprintf("leftover %d", index+1), At: n.At}
	if name, _, ok := l.Text("name"); ok {
		h.Name, l.Name = name, label("leftover", name, index)+" of "+t.Name
	}
	h.Length = l.MustLength("length", "40")
	h.Width = l.LengthOr("width", 0)
	h.narrow(l, c)
	h.Flaws = l.flaws(h.extent(c))
	l.Finish()
	return h
}

// broadest returns the greatest width measured along the bolt, mm; 0 when the
// width is missing.
func (c Cloth) broadest() float64 {
	if len(c.Widths) == 0 {
		return 0
	}
	return slices.Max(c.Widths)
}
