package job

import (
	"slices"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// usualFacing is how wide a facing is that is not told otherwise: 2 in (common practice).
const usualFacing = 2 * measure.Inches

// maxFacings is one for each place that may be faced, and some to spare.
const maxFacings = 8

// facingKeys are those of one of the facings of a part.
var facingKeys = []Key{
	{"at", oneOf("neck", "armhole", "neck-and-armhole", "waist", "top", "hem"), "",
		"which edge is faced; `neck-and-armhole` in one piece over the shoulder, as without sleeves. A hem takes the seam " +
			"allowance then, and darts are folded"},
	{"width", length, "2 in", "finished, along the seams at its ends"},
	{"cloth", nameOf("cloth"), "the outer cloth", "what it is cut in"},
	{"edge", lengthOr0, "0", "cut outside its free edge, to turn in; 0 where that is overcast"},
	{"interfacing", nameOf("cloth"), "none", "cuts its interfacing from that cloth"},
	{"interfacing_allowance", lengthOr0, "0", "cut outside the sewn lines of the interfacing"},
}

const facingExample = `{ at = "neck", width = "2" }`

// Facing is one of a part, as asked for.
type Facing struct {
	Draft       draft.Facing // Of is nil
	Cloth       Cloth
	Interfacing Cloth // that it is stiffened with, no id: none
	At          strict.Position
}

// finishing is how the hems of a part, and what is faced, are finished, as asked for.
type finishing struct {
	straight bool
	bag      *strict.Field // nil: hems are not bagged
	roll     float64       // by how much a lining is shorter then, mm
	jump     *strict.Field // nil: the lining hangs free
	facings  []Facing
}

// finishing reads it; the part's cloths, allowances and grain are known by now.
func (p *partTable) finishing() {
	p.finish.straight = p.Choice("hem_corners") == "straight"
	if p.Has("bag_hem") {
		p.finish.bag, p.finish.roll = p.Field("bag_hem"), p.LengthOr("bag_hem", 0)
	}
	if p.Truth("jump_hem", false) {
		p.finish.jump = p.Field("jump_hem")
	}
	if p.finish.jump != nil && p.finish.bag != nil {
		p.Fail(p.finish.jump.At, "give one of them", "%s has both `bag_hem` and `jump_hem`", p.Name)
	}
	var places []string
	for i, n := range p.InlineTables("facings", facingExample, maxFacings) {
		t := p.within("facings", n, label("facing", "", i)+" of "+p.Name)
		f, ok := p.facing(t, n)
		t.Finish()
		if !ok {
			continue
		}
		if slices.Contains(places, string(f.Draft.At)) {
			p.Fail(n.At, "one facing for each edge", "%s: `facings` has two at the %s", p.Name, f.Draft.At)
			continue
		}
		if both := string(draft.AtNeckAndArmhole); slices.ContainsFunc(append(places, string(f.Draft.At)),
			func(at string) bool { return at == both }) && slices.ContainsFunc(append(places, string(f.Draft.At)),
			func(at string) bool { return at == "neck" || at == "armhole" }) {
			p.Fail(n.At, "one of them", "%s: `facings` has one of neck and armhole in one, and one of either", p.Name)
		}
		for _, field := range []*strict.Field{p.finish.bag, p.finish.jump} {
			if f.Draft.At == draft.AtHem && field != nil {
				p.Fail(field.At, "give one of them", "%s has both `%s` and a facing at the hem", p.Name,
					map[bool]string{true: "bag_hem", false: "jump_hem"}[field == p.finish.bag])
			}
		}
		places = append(places, string(f.Draft.At))
		p.finish.facings = append(p.finish.facings, f)
	}
}

// facing reads one of the facings.
func (p *partTable) facing(t *table, n *strict.Value) (Facing, bool) {
	ok := t.Has("at") && len(p.cloths) > 0
	if !t.Has("at") {
		t.Need("at", "which edge it faces: "+facingExample)
	}
	f := Facing{At: n.At, Draft: draft.Facing{
		At: draft.Place(t.Choice("at")), Width: t.LengthOr("width", usualFacing), Free: t.LengthOr("edge", 0),
		Seam: p.allow.Seam, Bare: t.LengthOr("interfacing_allowance", 0),
	}}
	if t.Has("cloth") {
		c, found := t.clothNamed("cloth", t.Field("cloth").Value, p.allCloths)
		f.Cloth, ok = c, ok && found
	} else if ok {
		f.Cloth = p.cloths[0]
	}
	if t.Has("interfacing") {
		if c, found := t.clothNamed("interfacing", t.Field("interfacing").Value, p.allCloths); found {
			f.Interfacing = c
		}
	}
	return f, ok
}

// settle finishes drafts as asked for, the outer one of a part and its linings each in
// its way.
func (p *partTable) settle(layers []layer, d unlike) {
	f := p.finish
	for i := range layers {
		layers[i].finish = draft.Finish{StraightHem: f.straight, Seam: layers[i].allow.Seam}
	}
	if len(layers) == 0 {
		return
	}
	layers[0].finish.Edgings = p.edged
	for i := range layers {
		for _, c := range p.closed {
			closing := c.Draft
			closing.Inner = i > 0
			if closing.Stand.Over > 0 && layers[i].mounted != "" {
				closing.Inner, closing.Mounted = false, true
			}
			layers[i].finish.Closings = append(layers[i].finish.Closings, closing)
		}
	}
	for _, facing := range f.facings {
		for i := range layers {
			if i == 0 || layers[i].mounted != "" {
				layers[i].finish.Faced = append(layers[i].finish.Faced, facing.Draft.At)
			}
		}
	}
	last := len(layers) - 1
	switch {
	case f.bag != nil && p.lined("bag_hem", f.bag.At, layers, d):
		for i := range layers {
			layers[i].bag()
		}
		layers[last].raise = f.roll
	case f.jump != nil && p.lined("jump_hem", f.jump.At, layers, d):
		if layers[0].allow.Hem == 0 {
			p.Fail(f.jump.At, "give it an allowance, or leave this out", "%s: `jump_hem` sews the lining to the raw edge "+
				"of a hem that is turned up, and it has no allowance", p.Name)
		}
		layers[last].bag()
		layers[last].raise = 0
	}
}

// bag sews the hem of a layer to that of another.
func (l *layer) bag() { l.finish.BaggedHem, l.allow.Hem = true, l.allow.Seam }

// lined refuses a hem that is to be sewn to that of a lining where there is none, or one
// that is told otherwise how long it is.
func (p *partTable) lined(key string, at strict.Position, layers []layer, d unlike) bool {
	switch {
	case !d.hem:
		hint := "leave it out"
		if slices.ContainsFunc(p.drawn.keys, func(k Key) bool { return k.Name == "lower_edge" }) {
			hint = `lower_edge = "hem"`
		}
		p.Fail(at, hint, "%s: a %s has no hem for `%s`", p.Name, p.drawn.name, key)
	case len(layers) < 2 || layers[len(layers)-1].mounted != "":
		p.Fail(at, `name the lining too: cloth = ["satin", "acetate"]`, "%s: `%s` sews a hem to that of a "+
			"lining, and there is none", p.Name, key)
	case p.Has("lining_shorter") || slices.ContainsFunc(layers, func(l layer) bool { return l.said }):
		p.Fail(at, "give one of them",
			"%s says by `%s` how long its lining is, and by `lining_shorter` or `shorter` too", p.Name, key)
	default:
		return true
	}
	return false
}

// face adds the facings of parts as layers of their own, once it is known what is drafted
// to what.
func (r *reader) face(parts []Part) {
	for i := range parts {
		p := &parts[i]
		if len(p.Layers) == 0 || len(p.Facings) == 0 {
			continue
		}
		outer := p.Layers[0]
		var drafts []draft.Facing
		for _, f := range p.Facings {
			d := f.Draft
			d.Of = outer.Draft
			for _, c := range p.Closings {
				if c.Draft.Stand.Over > 0 {
					d.Stands = append(d.Stands, c.Draft)
				}
			}
			drafts = append(drafts, d)
			p.Layers = append(p.Layers, Layer{Cloth: f.Cloth.ID, Grain: p.grainOn(f.Cloth)}.DrawnAs(d))
			if c := f.Interfacing; c.ID != "" {
				d.Fused = true
				p.Layers = append(p.Layers, Layer{Cloth: c.ID, Grain: p.grainOn(c)}.DrawnAs(d))
			}
		}
		if len(drafts) < 2 || len(r.Errors) > 0 {
			continue
		}
		made, err := outer.Draft.Draft()
		if err != nil {
			continue // told when it is drawn
		}
		if err := draft.CheckFacings(made, drafts); err != nil {
			text, hint := say.Parts(err, strict.Show(r.Unit))
			r.Fail(p.Facings[len(p.Facings)-1].At, hint, "part `%s`: %s", p.Name, text)
		}
	}
}
