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
			if _, ok := layer.Draft.(draft.OntoSkirt); ok {
				continue // along lines of its own
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
