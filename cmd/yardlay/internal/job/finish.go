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
	{"at", oneOf("neck", "armhole", "waist", "top", "hem"), "",
		"which edge is faced. A hem takes the seam allowance then, and darts are folded"},
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
	facings  []Facing
}

// finishing reads it; the part's cloths, allowances and grain are known by now.
func (p *partTable) finishing() {
	p.finish.straight = p.Choice("hem_corners") == "straight"
	if p.Has("bag_hem") {
		p.finish.bag, p.finish.roll = p.Field("bag_hem"), p.LengthOr("bag_hem", 0)
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
		if f.Draft.At == draft.AtHem && p.finish.bag != nil {
			p.Fail(p.finish.bag.At, "give one of them", "%s has both `bag_hem` and a facing at the hem", p.Name)
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
	for _, c := range p.closed {
		layers[0].finish.Closings = append(layers[0].finish.Closings, c.Draft)
	}
	for _, facing := range f.facings {
		layers[0].finish.Faced = append(layers[0].finish.Faced, facing.Draft.At)
	}
	if f.bag != nil {
		p.bag(layers, d)
	}
}

// bag sews the hems of all layers together.
func (p *partTable) bag(layers []layer, d unlike) {
	at := p.finish.bag.At
	switch {
	case !d.hem:
		p.Fail(at, "leave it out", "%s: a %s has no hem to bag", p.Name, p.drawn.name)
		return
	case len(layers) < 2:
		p.Fail(at, `name the lining too: cloth = ["satin", "acetate"]`, "%s: `bag_hem` sews a hem to that of a "+
			"lining, and there is none", p.Name)
		return
	case p.Has("lining_shorter") || slices.ContainsFunc(layers, func(l layer) bool { return l.said }):
		p.Fail(at, "give one of them: `bag_hem` is how much shorter the lining is",
			"%s says by `bag_hem` how much shorter its lining is, and by `lining_shorter` or `shorter` too", p.Name)
		return
	}
	for i := range layers {
		layers[i].finish.BaggedHem, layers[i].allow.Hem = true, layers[i].allow.Seam
	}
	layers[len(layers)-1].raise = p.finish.roll
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
