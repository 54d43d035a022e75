package job

import (
	"errors"
	"slices"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes/draft"
	"yardlay/shapes/say"
)

// Neighbour is the part of the same body that another is sewn to at the waist, or at
// the neck; layers of net along lines of a skirt, a sleeve at its armholes.
type Neighbour struct {
	Part   int // among the parts of the job
	called string
	at     strict.Position
}

// neighbours finds the parts that others are sewn to, and refuses those that have
// no edge for it.
func (r *reader) neighbours(parts []Part) {
	for i := range parts {
		p, n := parts[i], parts[i].SewnTo
		if n == nil || len(p.Layers) == 0 {
			continue
		}
		n.Part = slices.IndexFunc(parts, func(q Part) bool { return q.Called == n.called && q.Body == p.Body })
		switch {
		case n.Part == i:
			r.Fail(n.at, "", "part `%s` cannot be sewn to itself", p.Name)
		case n.Part < 0:
			r.Fail(n.at, strict.OneOf(n.called, others(parts, p)), "part `%s`: there is no part %q to sew it to",
				p.Name, n.called)
		default:
			p.toNeck(parts[n.Part])
			r.meet(n.at, p, parts[n.Part])
		}
	}
}

// toNeck drafts what asks for the neckline of the part it is sewn to, in all cloths to that
// of the outer one.
func (p Part) toNeck(to Part) {
	if len(to.Layers) == 0 {
		return
	}
	for k, l := range p.Layers {
		if collar, ok := l.Draft.(draft.TakesNeck); ok && collar.AsksNeck() {
			p.Layers[k] = l.DrawnAs(collar.ToNeck(kept{to.Layers[0], to.Called}))
		}
	}
}

// meet refuses parts that have no edge to sew to each other. What else is wrong with
// a draft is told when it is drawn.
func (r *reader) meet(at strict.Position, p, to Part) {
	if len(r.Errors) > 0 || len(p.Layers) == 0 || len(to.Layers) == 0 {
		return
	}
	if _, onto := p.Layers[0].Draft.(draft.OntoSkirt); onto {
		return // onSkirts
	}
	var drafted [2]draft.Result
	for i, q := range []Part{p, to} {
		var err error
		if drafted[i], err = q.Layers[0].Drafted(); err != nil {
			return
		}
	}
	if _, err := draft.MeetingOf(drafted[0], drafted[1]); !errors.Is(err, draft.ErrNoMeeting) {
		return
	}
	for i, q := range []Part{p, to} {
		_, waist := draft.WaistOf(drafted[i])
		_, neck := draft.NeckOf(drafted[i])
		if errors.Is(waist, draft.ErrNoWaist) && errors.Is(neck, draft.ErrNoNeck) {
			r.Fail(at, "leave out `sewn_to`", "part `%s`, a %s, has no edge at the waist to sew, nor one at the neck",
				q.Name, q.Draft)
			return
		}
	}
	r.Fail(at, "leave out `sewn_to`",
		"part `%s`, a %s, and `%s`, a %s, are not sewn to each other: one ends at the waist, one at the neck", p.Name,
		p.Draft, to.Name, to.Draft)
}

// onSkirts gives layers of net the skirt that they are sewn to, once it is known how
// far its opening is closed.
func (r *reader) onSkirts(j *Job) {
	lines := map[int]int{} // of net on each part so far
	for _, p := range j.Parts {
		if p.SewnTo == nil || len(r.Errors) > 0 {
			continue
		}
		to, below, layers := j.Parts[p.SewnTo.Part], lines[p.SewnTo.Part], 0
		for k, layer := range p.Layers {
			net, ok := layer.Draft.(draft.OntoSkirt)
			if !ok || len(to.Layers) == 0 {
				continue
			}
			on, err := net.OnSkirt(to.Layers[0].Draft, j.Stop(to), below)
			var bad *draft.BadSkirt
			switch {
			case errors.As(err, &bad):
				text, hint := say.Parts(err, j.Show())
				r.Fail(to.At, hint, "part `%s` in `%s`: %s", to.Name, to.Layers[0].Cloth, text)
				return
			case errors.Is(err, draft.ErrNotOnSkirt):
				r.Fail(p.SewnTo.at, "name a part drawn by `circle-skirt` or `gored-skirt`, or leave out `sewn_to`",
					"part `%s`: %v, and `%s` is a %s", p.Name, err, to.Name, to.Draft)
				return
			case err != nil:
				text, hint := say.Parts(err, j.Show())
				r.Fail(p.SewnTo.at, hint, "part `%s`: %s", p.Name, text)
				return
			}
			p.Layers[k], layers = layer.DrawnAs(on), on.Lines()
		}
		lines[p.SewnTo.Part] += layers
	}
}

// others names the other parts of a body.
func others(parts []Part, but Part) []string {
	var names []string
	for _, p := range parts {
		if p.Body == but.Body && p.Called != but.Called {
			names = append(names, p.Called)
		}
	}
	return names
}
