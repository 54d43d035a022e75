package job

import (
	"slices"

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
	usualBusk    = 0.5 * measure.Inches   // its width on either side
	usualEnds    = 0.375 * measure.Inches // how far it ends from both edges
)

// maxClosings is one for each centre and each side.
const maxClosings = 4

const closingExample = `{ by = "lacing", spacing = "1" }`

// closingKeys are those of what closes one of the openings of a part.
var closingKeys = []Key{
	{"by", oneOf("zip", "placket", "lacing", "buttons", "hooks", "busk"), "",
		"what closes it; buttons have loops, hooks have eyes, a placket binds both edges in one strip, and a busk is two " +
			"steels with loops and pins"},
	{"at", oneOf("back", "front", "left", "right"), "`back`", "which centre opens, or a seam on which side"},
	{"seam", text, "`side seam`", "at a side: the seam that opens there, by its name in `draft --seams`"},
	{"length", length, "the whole opening",
		"from its top, or up from the waist; a skirt has to say. It is notched where it stops"},
	{"spacing", length, "1 in; of buttons 1 1/2 in", "at most from one eyelet, button or hook to the next"},
	{"first", lengthOr0, "1/2 in; of a busk 3/8 in",
		"the first from the top, and the last from the end; how far a busk ends from both edges"},
	{"inset", length, "1/2 in, or the middle between the bones beside it",
		"of eyelets, from the finished edge; how wide a busk is on either side"},
	{"panel", length, "none; of a placket 1 in",
		"finished width of what lies behind, folded along its middle: a stand for buttons, an underlap for hooks, " +
			"a modesty panel behind lacing, a shield behind a zip, the strip of a placket, " +
			"what lies behind a busk"},
	{"cloth", nameOf("cloth"), "the outer cloth", "what that is cut in, and a facing that is sewn on"},
	{"stand", length, "none: buttons have loops",
		"of buttons at a centre: how far both halves go on beyond it and lap over each other, about as wide as the button " +
			"is. Buttons have buttonholes then, and the stand a facing"},
	{"stand_facing", oneOf("grown-on", "sewn-on"), "`grown-on`", "whether that is cut in one with the stand, or apart"},
	{"facing_width", length, "3 times the stand", "of that, from the edge of the stand inward"},
	{"buttonhole", length, "as wide as the stand", "length of the buttonholes: as wide as the button, and as thick"},
	{"interfacing", nameOf("cloth"), "none", "cuts interfacing of the stand and its facing from that cloth"},
}

// Closing is what closes one of the openings of a part, as asked for.
type Closing struct {
	Draft draft.Closing
	Panel float64 // finished width of what lies behind, mm; 0: nothing
	Seam  float64 // allowance of that, mm
	Cloth Cloth
	At    strict.Position

	Interfacing Cloth // of a stand, no id: none
}

// closings reads what closes the openings of a part.
func (p *partTable) closings() {
	for i, n := range p.InlineTables("closings", closingExample, maxClosings) {
		t := p.within("closings", n, label("closing", "", i)+" of "+p.Name)
		c := p.closing(t, n)
		t.Finish()
		for _, other := range p.closed {
			if other.Draft.At == c.Draft.At {
				p.Fail(n.At, "one for each centre and side", "%s: `closings` has two at the %s", p.Name, c.Draft.At)
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
		By: draft.ClosedBy(t.Choice("by")), At: t.Choice("at"), Length: t.LengthOr("length", 0),
	}}
	if c.Draft.At == "back" || c.Draft.At == "front" {
		c.Draft.At = "centre " + c.Draft.At
	}
	c.Draft.Seam, _, _ = t.Text("seam")
	p.places(t, &c.Draft)
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
	p.stand(t, &c)
	return c
}

// usualStandFacing is how many times as wide as its stand a facing is (common practice).
const usualStandFacing = 3

// stand reads what goes on beyond a centre that is buttoned.
func (p *partTable) stand(t *table, c *Closing) {
	s := draft.Stand{Over: t.LengthOr("stand", 0), SewnOn: t.Choice("stand_facing") == "sewn-on"}
	s.Facing = t.LengthOr("facing_width", usualStandFacing*s.Over)
	s.Hole = t.LengthOr("buttonhole", s.Over)
	if t.Has("interfacing") {
		c.Interfacing, _ = t.clothNamed("interfacing", t.Field("interfacing").Value, p.allCloths)
	}
	if !t.Has("stand") {
		for _, key := range []string{"stand_facing", "facing_width", "buttonhole", "interfacing"} {
			if t.Has(key) {
				t.Fail(t.Field(key).At, `for example stand = "3/4"`, "%s has `%s` and no `stand`", t.Name, key)
			}
		}
		return
	}
	if t.Has("panel") {
		t.Fail(t.Field("panel").At, "give one of them", "%s has both `stand` and `panel`", t.Name)
	}
	for _, field := range []*strict.Field{p.finish.bag, p.finish.jump} {
		if field != nil {
			p.Fail(field.At, "leave it out: the hem is turned up, and the lining hangs free", "%s has both `%s` and a "+
				"closing with a `stand`, whose facing the lining ends at", p.Name,
				map[bool]string{true: "bag_hem", false: "jump_hem"}[field == p.finish.bag])
		}
	}
	c.Draft.Stand = s
}

// closingsHave are the keys of places that each way to close an opening has.
var closingsHave = map[draft.ClosedBy][]string{
	draft.Lacing: {"spacing", "first", "inset"}, draft.Buttons: {"spacing", "first"}, draft.Hooks: {"spacing", "first"},
	draft.Busk: {"first", "inset"},
}

// places reads where eyelets, buttons and hooks lie, and a busk.
func (p *partTable) places(t *table, c *draft.Closing) {
	has := closingsHave[c.By]
	for _, key := range []string{"spacing", "first", "inset"} {
		if t.Has(key) && !slices.Contains(has, key) {
			words := "%s: a %s has no `%s`"
			if c.By == draft.Buttons || c.By == draft.Hooks {
				words = "%s: %s have no `%s`"
			}
			t.Fail(t.Field(key).At, "leave it out", words, t.Name, string(c.By), key)
		}
	}
	spacing, first, inset := usualEyelets, usualFirst, 0.0
	switch c.By {
	case draft.Buttons:
		spacing = usualButtons
	case draft.Busk:
		first, inset = usualEnds, usualBusk
		if t.Has("length") {
			t.Fail(t.Field("length").At, "leave it out", "%s: a busk is as long as goes in", t.Name)
		}
	}
	if slices.Contains(has, "spacing") {
		c.Spacing = t.LengthOr("spacing", spacing)
	}
	if slices.Contains(has, "first") {
		c.First = t.LengthOr("first", first)
	}
	if slices.Contains(has, "inset") {
		c.Inset = t.LengthOr("inset", inset)
	}
}

// behind adds what lies behind the openings of parts as layers of their own.
func (r *reader) behind(parts []Part) {
	for i := range parts {
		p := &parts[i]
		for _, c := range p.Closings {
			if len(p.Layers) == 0 {
				continue
			}
			if c.Draft.Stand.Over > 0 {
				p.faceStand(c)
			}
			if c.Panel == 0 {
				continue
			}
			p.Layers = append(p.Layers, Layer{Cloth: c.Cloth.ID, Grain: p.grainOn(c.Cloth)}.DrawnAs(
				draft.ClosingPanel{Of: p.Layers[0].Draft, Closing: c.Draft, Width: c.Panel, Allowance: c.Seam}))
		}
	}
}

// faceStand adds the facing of a stand where it is cut apart, and its interfacing.
func (p *Part) faceStand(c Closing) {
	d := draft.StandFacing{Of: p.Layers[0].Draft, Closing: c.Draft}
	if c.Draft.Stand.SewnOn {
		p.Layers = append(p.Layers, Layer{Cloth: c.Cloth.ID, Grain: p.grainOn(c.Cloth)}.DrawnAs(d))
	}
	if c.Interfacing.ID != "" {
		d.Fused = true
		p.Layers = append(p.Layers, Layer{Cloth: c.Interfacing.ID, Grain: p.grainOn(c.Interfacing)}.DrawnAs(d))
	}
}
