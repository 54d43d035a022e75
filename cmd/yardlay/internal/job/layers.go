package job

import (
	"yardlay/shapes"
	"yardlay/shapes/measure"
)

// layer is a part in one cloth, and in what it differs from the outer one.
type layer struct {
	cloth Cloth
	raise float64 // how much shorter at the hem, mm
	pleat float64 // depth of its ease pleat, mm
	allow shapes.Allowance
}

// unlike says in what the further layers of a draft may differ from the outer one
// besides their allowances.
type unlike struct {
	hem     bool
	shorter float64 // linings by this, unless the file says otherwise, mm
	pleat   bool    // an ease pleat at centre back
}

// hangingHem is the usual of what hangs free: linings end an inch above the hem
// (common practice).
var hangingHem = unlike{hem: true, shorter: measure.Inches}

// sewnIn is the usual of what is sewn in at its lower edge: linings are as long.
var sewnIn = unlike{hem: true}

// layers draws the part in each of its cloths: the outer one, those that follow
// it in `cloth` as linings, and what the tables `interlining` and `lining` name.
func (p *partTable) layers(d unlike, drawn func(layer) shapes.Draft) []Layer {
	shorter := d.shorter
	if d.hem {
		shorter = p.lengthOr("lining_shorter", d.shorter, measure.ParseNonNegative)
	}
	var all []Layer
	for i, c := range p.cloths {
		l := layer{cloth: c, allow: p.allow}
		if i > 0 {
			l.raise = shorter
		}
		all = append(all, Layer{Cloth: c.ID, Draft: drawn(l)})
	}
	for _, inner := range []struct {
		key     string
		shorter float64
	}{{"interlining", 0}, {"lining", shorter}} {
		if l, ok := p.innerLayer(inner.key, inner.shorter, d); ok {
			all = append(all, Layer{Cloth: l.cloth.ID, Draft: drawn(l)})
		}
	}
	return all
}

// alike draws the part in each of its cloths, all of one length.
func (p *partTable) alike(drawn func(layer) shapes.Draft) []Layer {
	return p.layers(unlike{}, drawn)
}

// innerLayer reads the table of a layer that has allowances of its own.
func (p *partTable) innerLayer(key string, shorter float64, d unlike) (layer, bool) {
	const example = `{ cloth = "acetate", allowance = { seam = "5/8" } }`
	t := p.sub(key, "`"+key+"` of "+p.name, example)
	if t == nil {
		return layer{}, false
	}
	l := layer{allow: t.allowance(p.allow, false)}
	ok := t.has("cloth")
	if ok {
		l.cloth, ok = t.clothNamed("cloth", t.field("cloth").value, p.allCloths)
	} else {
		t.need("cloth", key+" = "+example)
	}
	if d.hem {
		l.raise = t.lengthOr("shorter", shorter, measure.ParseNonNegative)
	}
	if d.pleat {
		l.pleat = t.lengthOr("ease_pleat", 0, measure.ParseNonNegative)
	}
	t.finish()
	return l, ok
}
