package job

import (
	"errors"
	"slices"

	"yardlay/shapes"
)

// Neighbour is the part of the same body that another is sewn to at the waist.
type Neighbour struct {
	Part   int // among the parts of the job
	called string
	at     Position
}

// neighbours finds the parts that others are sewn to, and refuses seams that one
// of the two has no waist for.
func (r *reader) neighbours(parts []Part) {
	for i := range parts {
		p, n := parts[i], parts[i].SewnTo
		if n == nil || len(p.Layers) == 0 {
			continue
		}
		n.Part = slices.IndexFunc(parts, func(q Part) bool { return q.Called == n.called && q.Body == p.Body })
		switch {
		case n.Part == i:
			r.fail(n.at, "", "part `%s` cannot be sewn to itself", p.Name)
		case n.Part < 0:
			r.fail(n.at, oneOf(n.called, others(parts, p)), "part `%s`: there is no part %q to sew it to", p.Name, n.called)
		default:
			r.waists(n.at, p, parts[n.Part])
		}
	}
}

// waists refuses parts without a waist. What else is wrong with a draft is told
// when it is drawn.
func (r *reader) waists(at Position, parts ...Part) {
	if len(r.errors) > 0 {
		return
	}
	for _, p := range parts {
		if len(p.Layers) == 0 {
			continue
		}
		if _, err := shapes.WaistOf(p.Layers[0].Draft); errors.Is(err, shapes.ErrNoWaist) {
			r.fail(at, "leave out `sewn_to`", "part `%s`, a %s, has no edge at the waist to sew", p.Name, p.Draft)
		}
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
