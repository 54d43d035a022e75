package plan

import (
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/say"
)

// markWhole draws on the outer pieces of skirts where net is sewn onto them and where godets are set into them. It is
// reckoned on whole pieces: how these are pieced is a matter of the cloth they are cut from.
func markWhole(j *job.Job, drawn [][][]shapes.Piece) error {
	on := make([][]marking, len(j.Parts))
	for _, part := range j.Parts {
		if part.SewnTo == nil || len(part.Layers) == 0 {
			continue
		}
		if net, ok := part.Layers[0].Draft.(draft.OntoSkirt); ok { // further layers lie along the same lines
			on[part.SewnTo.Part] = append(on[part.SewnTo.Part], marking{part, net.MarkSkirt})
		}
	}
	for _, part := range j.Parts {
		if part.SlitInto == nil || len(part.Layers) == 0 {
			continue
		}
		godet, ok := part.Layers[0].Draft.(draft.Godet)
		if !ok {
			continue
		}
		to, slits := part.SlitInto.Part, part.SlitInto.Slits(j.Parts)
		on[to] = append(on[to], marking{part, func(whole []shapes.Piece) error {
			made, err := j.Parts[to].Layers[0].Drafted()
			if err == nil {
				err = godet.Clear(slits, made)
			}
			if err != nil {
				return err
			}
			return godet.MarkInto(slits, whole)
		}})
	}
	for i, all := range on {
		if len(all) == 0 {
			continue
		}
		var err error
		if drawn[i][0], err = j.Parts[i].Layers[0].Marked(func(whole []shapes.Piece) error {
			return marked(j, all, whole)
		}); err != nil {
			return err
		}
	}
	return nil
}

// marking is how a part is marked on whole pieces of another.
type marking struct {
	part job.Part
	mark func(whole []shapes.Piece) error
}

// marked marks pieces by all of some parts.
func marked(j *job.Job, all []marking, whole []shapes.Piece) error {
	for _, m := range all {
		if err := m.mark(whole); err != nil {
			return j.ErrorAt(m.part.At, say.Errorf("part `%s`: %w", m.part.Name, err))
		}
	}
	return nil
}
