package plan

import (
	"errors"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/say"
)

// matchNotches gives parts that are sewn to each other the notches of each other, in
// all their cloths. The pieces drawn are of each part in each of its cloths.
func matchNotches(j *job.Job, drawn [][][]shapes.Piece) error {
	for i, part := range j.Parts {
		if part.SewnTo == nil {
			continue
		}
		to := part.SewnTo.Part
		for k, layer := range part.Layers {
			if net, ok := layer.Draft.(draft.OntoSkirt); ok {
				if k > 0 {
					continue // in another cloth along the same lines
				}
				if j.Parts[to].Layers[0].Corners != nil {
					return j.ErrorAt(part.At, say.Errorf("part `%s`: the lines it is sewn along are not drawn on pieced "+
						"gores", part.Name).Hint("leave `pieced` of `%s` out, or sew the net to its waist",
						j.Parts[to].Name))
				}
				if err := net.MarkSkirt(drawn[to][0]); err != nil {
					return j.ErrorAt(part.At, say.Errorf("part `%s`: %w", part.Name, err))
				}
				continue
			}
			for l, other := range j.Parts[to].Layers {
				if err := match(drawn[i][k], layer, drawn[to][l], other); err != nil {
					return j.ErrorAt(part.At, say.Errorf("part `%s`: notches: %w", part.Name, err))
				}
			}
		}
	}
	return nil
}

// markSlits draws where godets are set into the gores of skirts, in their outer cloth.
func markSlits(j *job.Job, drawn [][][]shapes.Piece) error {
	for _, part := range j.Parts {
		if part.SlitInto == nil {
			continue
		}
		godet, ok := part.Layers[0].Draft.(draft.Godet)
		to := j.Parts[part.SlitInto.Part]
		switch {
		case !ok:
			continue
		case to.Layers[0].Corners != nil:
			return j.ErrorAt(part.At, say.Errorf("part `%s`: the slits it is set into are not drawn on pieced gores",
				part.Name).Hint("leave `pieced` of `%s` out, or `into`", to.Name))
		}
		if err := godet.MarkInto(part.SlitInto.Slits(j.Parts), drawn[part.SlitInto.Part][0]); err != nil {
			return j.ErrorAt(part.At, say.Errorf("part `%s`: %w", part.Name, err))
		}
	}
	return nil
}

// match gives two drafts sewn together at the waist or the neck the notches of each other; drafts
// without one, as interfacing, are left as they are.
func match(a []shapes.Piece, layerA job.Layer, b []shapes.Piece, layerB job.Layer) error {
	madeA, errA := layerA.Drafted()
	madeB, errB := layerB.Drafted()
	if err := errors.Join(errA, errB); err != nil {
		return err
	}
	if madeA.Fused || madeB.Fused {
		return nil
	}
	m, err := draft.MeetingOf(madeA, madeB)
	if errors.Is(err, draft.ErrNoMeeting) {
		return nil
	}
	if err != nil {
		return err
	}
	return shapes.MatchSides(a, m.Sides[0], b, m.Sides[1])
}

// markStops notches openings where they are closed no further.
func markStops(j *job.Job, drawn [][][]shapes.Piece) error {
	for i, part := range j.Parts {
		stop := j.Stop(part)
		if stop == 0 || len(part.Closings) > 0 {
			continue // closings notch their own
		}
		for _, pieces := range drawn[i] {
			for k := range pieces {
				if err := pieces[k].MarkStop(stop); err != nil {
					return j.ErrorAt(part.At, say.Errorf("part `%s`: %w", part.Name, err))
				}
			}
		}
	}
	return nil
}
