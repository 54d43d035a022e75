package job

import (
	"fmt"
	"slices"

	"yardlay/cmd/yardlay/internal/strict"
)

// Have is a length of a cloth on the shelf. Lengths are in mm.
type Have struct {
	Name   string // unique within the cloth
	Length float64
	Width  float64 // from edge to edge, the cloth's selvedges included; 0: the cloth's own
	Flaws  []Flaw
	At     strict.Position
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
	if h.Width > 0 && c.Width > 0 && h.usable(c) <= 0 {
		l.Fail(l.Field("width").Value.At, "", "two selvedges of %s leave nothing of a leftover %s wide",
			l.Show(c.Selvedge), l.Show(h.Width))
	}
	within := extent{h.Length, h.Width, "the leftover"}
	if h.Width == 0 {
		within.width = c.broadest()
	}
	h.Flaws = l.flaws(within)
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
