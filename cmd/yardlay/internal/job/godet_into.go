package job

import (
	"cmp"
	"slices"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/draft"
	"yardlay/shapes/say"
)

// SlitInto is the part whose seams godets are set into.
type SlitInto struct {
	Neighbour
	Seams []string
}

// slits reads the skirt that a godet is set into.
func (p *partTable) slits() {
	name, at, ok := p.Text("into")
	var seams []string
	if p.Has("seams") {
		seams = p.words(p.keyOf("seams"))
	}
	switch {
	case ok:
		p.slitInto = &SlitInto{Neighbour{called: name, at: at}, seams}
	case p.Has("seams") && !p.Has("into"):
		p.Fail(p.Field("seams").At, `into = "skirt"`, "%s has `seams` and no `into`", p.Name)
	}
}

// Slits are those of a part of godets among the parts of a job, in seams of whole pieces.
func (s SlitInto) Slits(parts []Part) draft.Slits {
	return draft.Slits{Of: kept{parts[s.Part].Layers[0].Whole(), parts[s.Part].Called}, Seams: s.Seams}
}

// setGodets finds the skirts that godets are set into, and refuses those that do not take them.
func (r *reader) setGodets(parts []Part) {
	for i, p := range parts {
		s := p.SlitInto
		if s == nil || len(p.Layers) == 0 || len(r.Errors) > 0 {
			continue
		}
		s.Part = slices.IndexFunc(parts, func(q Part) bool { return q.Called == s.called && q.Body == p.Body })
		switch {
		case s.Part < 0:
			r.Fail(s.at, cmp.Or(strict.OneOf(s.called, others(parts, p)), "leave out `into`"),
				"part `%s`: there is no part %q to set it into", p.Name,
				s.called)
			continue
		case s.Part == i:
			r.Fail(s.at, "name a skirt", "part `%s` cannot be set into itself", p.Name)
			continue
		case len(parts[s.Part].Layers) == 0:
			continue
		}
		godet, ok := p.Layers[0].Draft.(draft.Godet)
		if _, err := parts[s.Part].Layers[0].Whole().Drafted(); err != nil || !ok {
			continue // told when it is drawn
		}
		if err := godet.Into(s.Slits(parts)); err != nil {
			text, hint := say.Parts(err, strict.Show(r.Unit))
			r.Fail(s.at, hint, "part `%s` into `%s`: %s", p.Name, s.called, text)
		}
	}
}
