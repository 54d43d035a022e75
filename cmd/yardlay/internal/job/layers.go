package job

import (
	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// layer is a part in one cloth, and in what it differs from the outer one.
type layer struct {
	cloth Cloth
	raise float64 // how much shorter at the hem, mm
	said  bool    // the table of the layer says so
	pleat float64 // depth of its ease pleat, mm
	fold  bool    // its centre is cut in one, on a fold
	inner bool    // it is not the outer one
	grain Grain   // as written
	allow shapes.Allowance

	mounted Mounting
	finish  draft.Finish
}

// Mounting is how a layer lies on the outer one, with which it is sewn as one.
type Mounting string

// The ways to lie on it; "" is a layer that is sewn by itself.
const (
	Overlay     Mounting = "overlay"     // over it, as lace does; its hem hangs free
	Underlining Mounting = "underlining" // under it, turned up with it
)

// unlike says in what the further layers of a draft may differ from the outer one
// besides their allowances.
type unlike struct {
	hem     bool
	shorter float64 // linings by this, unless the file says otherwise, mm
	pleat   bool    // an ease pleat at centre back
	foldKey string  // the key that cuts its centre on a fold; "" where there is none
	fold    bool    // what the part says there
}

// folding returns it for a draft with a centre that a layer may fold otherwise.
func (d unlike) folding(key string, fold bool) unlike {
	d.foldKey, d.fold = key, fold
	return d
}

// hangingHem is the usual of what hangs free: linings end an inch above the hem
// (common practice).
var hangingHem = unlike{hem: true, shorter: measure.Inches}

// sewnIn is the usual of what is sewn in at its lower edge: linings are as long.
var sewnIn = unlike{hem: true}

// sewnInPleated is that of bodies, whose linings may have an ease pleat.
var sewnInPleated = unlike{hem: true, pleat: true}

// layers draws the part in each of its cloths: the outer one, those that follow
// it in `cloth` as linings, and what the tables `overlay`, `underlining`, `interlining`
// and `lining` name. What is mounted on the outer one comes right after it, the innermost
// lining last.
func (p *partTable) layers(d unlike, drawn func(layer) draft.Draft) []Layer {
	shorter := d.shorter
	if d.hem {
		shorter = p.LengthOr("lining_shorter", d.shorter)
	}
	var cut []layer
	for i, c := range p.cloths {
		l := layer{cloth: c, allow: p.allow, fold: d.fold, grain: p.grain}
		if i > 0 {
			l.raise = shorter
		}
		cut = append(cut, l)
		if i > 0 {
			continue
		}
		for _, m := range []Mounting{Overlay, Underlining} {
			if l, ok := p.innerLayer(string(m), 0, d); ok {
				l.mounted = m
				cut = append(cut, l)
			}
		}
	}
	for _, inner := range []struct {
		key     string
		shorter float64
	}{{"interlining", 0}, {"lining", shorter}} {
		if l, ok := p.innerLayer(inner.key, inner.shorter, d); ok {
			cut = append(cut, l)
		}
	}
	p.settle(cut, d)
	var all []Layer
	for i, l := range cut {
		l.inner = i > 0
		all = append(all, p.layer(l, drawn))
	}
	return all
}

// layer draws the part in one cloth.
func (p *partTable) layer(l layer, drawn func(layer) draft.Draft) Layer {
	return Layer{Cloth: l.cloth.ID, Grain: p.grainOn(l.cloth, l.grain), Mounted: l.mounted, Finish: l.finish}.
		DrawnAs(drawn(l))
}

// alike draws the part in each of its cloths, all of one length.
func (p *partTable) alike(drawn func(layer) draft.Draft) []Layer {
	return p.layers(unlike{}, drawn)
}

// innerLayer reads the table of a layer that has allowances of its own.
func (p *partTable) innerLayer(key string, shorter float64, d unlike) (layer, bool) {
	const example = `{ cloth = "acetate", allowance = { seam = "5/8" } }`
	t := p.sub(key, "`"+key+"` of "+p.Name, example)
	if t == nil {
		return layer{}, false
	}
	l := layer{allow: t.allowance(p.allow, false), fold: d.fold, grain: t.grain(p.grain)}
	ok := t.Has("cloth")
	if ok {
		l.cloth, ok = t.clothNamed("cloth", t.Field("cloth").Value, p.allCloths)
	} else {
		t.Need("cloth", key+" = "+example)
	}
	if d.hem {
		l.raise, l.said = t.LengthOr("shorter", shorter), t.Has("shorter")
	}
	if d.pleat {
		l.pleat = t.LengthOr("ease_pleat", 0)
	}
	if d.foldKey != "" {
		l.fold = t.Truth(d.foldKey, d.fold)
	}
	t.Finish()
	return l, ok
}
