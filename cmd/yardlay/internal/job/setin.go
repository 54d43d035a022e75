package job

import (
	"slices"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/draft"
	"yardlay/shapes/say"
)

// kept is a layer of another part as a draft: what it comes to already.
type kept struct {
	layer  Layer
	called string
}

// Draft returns what the layer came to; errors name the part.
func (k kept) Draft() (draft.Result, error) {
	made, err := k.layer.Drafted()
	if err != nil {
		return draft.Result{}, say.Errorf("part `%s`: %w", k.called, err)
	}
	return made, nil
}

// bodice reads what the sleeve is sewn into: nil where it gives both armholes.
func (p *partTable) bodice() *Neighbour {
	name, at, ok := p.Text("bodice")
	front, back := p.Has("front_armhole"), p.Has("back_armhole")
	switch {
	case p.Has("bodice") && (front || back):
		p.Fail(p.Field("bodice").At, "give one of them", "%s has both `bodice` and an armhole", p.Name)
	case !p.Has("bodice") && !front:
		p.Need("front_armhole", "or bodice = \"...\", the name of the part with the armholes")
	case !p.Has("bodice") && !back:
		p.Need("back_armhole", "or bodice = \"...\", the name of the part with the armholes")
	}
	if !ok {
		return nil
	}
	return &Neighbour{called: name, at: at}
}

// refer finds the parts that sleeves are set into, of the same body, and drafts the
// sleeves to their armholes, in all cloths to those of the outer one.
func (r *reader) refer(parts []Part) {
	for _, p := range parts {
		b := p.SetInto
		if b == nil || len(p.Layers) == 0 {
			continue
		}
		b.Part = slices.IndexFunc(parts, func(q Part) bool { return q.Called == b.called && q.Body == p.Body })
		switch {
		case b.Part < 0:
			r.Fail(b.at, armholesOf(b.called, parts, p.Body), "part `%s`: there is no part %q to sew it into", p.Name,
				b.called)
		case !parts[b.Part].family().armhole:
			r.Fail(b.at, armholesOf("", parts, p.Body), "part `%s`: `%s` is no bodice-block and has no armholes",
				p.Name, b.called)
		case len(parts[b.Part].Layers) > 0:
			bodice := kept{parts[b.Part].Layers[0], b.called}
			for k, l := range p.Layers {
				if sleeve, ok := l.Draft.(draft.SetsIn); ok {
					p.Layers[k] = l.DrawnAs(sleeve.SetInto(bodice))
				}
			}
		}
	}
}

// armholesOf says whose armholes a sleeve could be drafted to.
func armholesOf(called string, parts []Part, body string) string {
	if names := blocks(parts, body); names != nil {
		return strict.OneOf(called, names)
	}
	return "give `front_armhole` and `back_armhole`, or add a part drawn by `bodice-block`"
}

// blocks names the parts of a body that have armholes.
func blocks(parts []Part, body string) []string {
	var names []string
	for _, p := range parts {
		if p.family().armhole && p.Body == body {
			names = append(names, p.Called)
		}
	}
	return names
}
