package job

import (
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// Usual distances of what closes an opening (common practice).
const (
	usualEyelets = 1 * measure.Inches
	usualButtons = 1.5 * measure.Inches
	usualFirst   = 0.5 * measure.Inches
	usualPlacket = 1 * measure.Inches
)

// maxClosings is one for each centre.
const maxClosings = 2

const closingExample = `{ by = "lacing", spacing = "1" }`

// closingKeys are those of what closes one of the openings of a part.
var closingKeys = []Key{
	{"by", oneOf("zip", "placket", "lacing", "buttons", "hooks"), "",
		"what closes it; buttons have loops, hooks have eyes, and a placket binds both edges in one strip"},
	{"at", oneOf("back", "front"), "`back`", "which centre opens"},
	{"length", length, "the whole opening", "from its top; a skirt has to say"},
	{"spacing", length, "1 in; of buttons 1 1/2 in", "at most from one eyelet, button or hook to the next"},
	{"first", lengthOr0, "1/2 in", "the first from the top, and the last from the end"},
	{"inset", length, "1/2 in, or the middle between the bones beside it", "of eyelets, from the finished edge"},
	{"panel", length, "none; of a placket 1 in",
		"finished width of what lies behind, folded along its middle: a stand for buttons, an underlap for hooks, " +
			"a modesty panel behind lacing, a shield behind a zip, the strip of a placket"},
	{"cloth", nameOf("cloth"), "the outer cloth", "what that is cut in"},
}

// Closing is what closes one of the openings of a part, as asked for.
type Closing struct {
	Draft draft.Closing
	Panel float64 // finished width of what lies behind, mm; 0: nothing
	Seam  float64 // allowance of that, mm
	Cloth Cloth
	At    strict.Position
}

// closings reads what closes the openings of a part.
func (p *partTable) closings() {
	for i, n := range p.InlineTables("closings", closingExample, maxClosings) {
		t := p.within("closings", n, label("closing", "", i)+" of "+p.Name)
		c := p.closing(t, n)
		t.Finish()
		for _, other := range p.closed {
			if other.Draft.At == c.Draft.At {
				p.Fail(n.At, "one for each centre", "%s: `closings` has two at the %s", p.Name, c.Draft.At)
			}
		}
		p.closed = append(p.closed, c)
	}
}

func (p *partTable) closing(t *table, n *strict.Value) Closing {
	if !t.Has("by") {
		t.Need("by", "what closes it: "+closingExample)
	}
	c := Closing{At: n.At, Seam: p.allow.Seam, Draft: draft.Closing{
		By: draft.ClosedBy(t.Choice("by")), At: "centre " + t.Choice("at"), Length: t.LengthOr("length", 0),
		First: t.LengthOr("first", usualFirst), Inset: t.LengthOr("inset", 0),
	}}
	spacing := usualEyelets
	switch c.Draft.By {
	case draft.Buttons:
		spacing = usualButtons
	case draft.Zip, draft.Placket:
		spacing = 0
		for _, key := range []string{"spacing", "first", "inset"} {
			if t.Has(key) {
				t.Fail(t.Field(key).At, "leave it out", "%s: a %s has no `%s`", t.Name, c.Draft.By, key)
			}
		}
	}
	if c.Draft.By != draft.Lacing && t.Has("inset") && spacing > 0 {
		t.Fail(t.Field("inset").At, "leave it out", "%s: `inset` is of lacing", t.Name)
	}
	if c.Draft.Spacing = spacing; spacing > 0 {
		c.Draft.Spacing = t.LengthOr("spacing", spacing)
	}
	otherwise := 0.0
	if c.Draft.By == draft.Placket {
		otherwise = usualPlacket
	}
	c.Panel = t.LengthOr("panel", otherwise)
	if len(p.cloths) > 0 {
		c.Cloth = p.cloths[0]
	}
	if t.Has("cloth") {
		c.Cloth, _ = t.clothNamed("cloth", t.Field("cloth").Value, p.allCloths)
	}
	return c
}

// behind adds what lies behind the openings of parts as layers of their own.
func (r *reader) behind(parts []Part) {
	for i := range parts {
		p := &parts[i]
		for _, c := range p.Closings {
			if c.Panel == 0 || len(p.Layers) == 0 {
				continue
			}
			p.Layers = append(p.Layers, Layer{Cloth: c.Cloth.ID, Grain: p.grainOn(c.Cloth)}.DrawnAs(
				draft.ClosingPanel{Of: p.Layers[0].Draft, Closing: c.Draft, Width: c.Panel, Allowance: c.Seam}))
		}
	}
}
