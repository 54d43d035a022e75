package plan

import (
	"context"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
)

// cut is a place of the cuts of a part: nothing of it is wider or longer, mm; 0: than the cloths ask for.
type cut struct{ within, length float64 }

// choice is a part with the places that are weighed for its cuts.
type choice struct {
	called string
	job    *job.Job // with all other parts where they are pieced so far
	cuts   []cut    // beside what its cloths ask for
	whole  error    // why nothing of it is cut across
}

// choice lists the places of a part: steps along the grain, steps across it, and each of these with each of those.
func (s *placing) choice(called string) choice {
	one := choice{called: called, job: s.pieced(called)}
	i := slices.IndexFunc(one.job.Parts, func(p job.Part) bool { return p.Called == called })
	now := one.job.Parts[i]
	parts, c := OuterParts(one.job, now.Layers[0].Cloth)
	var narrower, shorter []float64
	if now.Place.Along {
		narrower = further(PieceSteps(called, parts, c, one.job.Unit), now.Layers[0].Corners.Within)
	}
	if now.Place.Across {
		shorter, one.whole = LengthSteps(called, parts, c, one.job.Unit)
		shorter = further(shorter, now.Layers[0].Corners.Length)
	}
	for _, within := range narrower {
		one.cuts = append(one.cuts, cut{within, 0})
	}
	for _, length := range shorter {
		one.cuts = append(one.cuts, cut{0, length})
	}
	for _, within := range narrower {
		for _, length := range shorter {
			one.cuts = append(one.cuts, cut{within, length})
		}
	}
	return one
}

// at is the job with the part cut at a place.
func (c choice) at(at cut) *job.Job {
	return c.job.PiecedAt(c.called, job.Place{Within: at.within, Length: at.length})
}

// standIn has parts that cannot be cut as their cloths ask for cut at the first place where they can be, until their
// turn comes: of two of them neither could be weighed beside the other. It is done although the time is up, for nothing
// could be laid without it.
func (s *placing) standIn(ctx context.Context) {
	for _, called := range s.open {
		if _, err := s.tasks(ctx, s.pieced("")); err == nil {
			return
		}
		one := s.choice(called)
		refused := s.refuses(ctx, one, cut{})
		if refused == nil {
			continue
		}
		if i := slices.IndexFunc(one.cuts, func(at cut) bool { return s.refuses(ctx, one, at) == nil }); i >= 0 {
			at := s.at[called]
			at.Within, at.Length, at.Refused = one.cuts[i].within, one.cuts[i].length, refused
			s.at[called] = at
		}
	}
}

// refuses says why a part cannot be cut at a place, whatever becomes of the other parts whose places are open: they are
// whole, and nothing is cut of them.
func (s *placing) refuses(ctx context.Context, one choice, at cut) error {
	j := one.at(at).OthersWhole(one.called)
	_, err := Unless(ctx, func() (none struct{}, err error) {
		spreads, err := Draw(j)
		for i := 0; i < len(spreads) && err == nil; i++ {
			spread := spreads[i]
			spread.Cuts = slices.DeleteFunc(spread.Cuts, func(c Cut) bool {
				return c.Part.Called != one.called && slices.Contains(s.open, c.Part.Called)
			})
			if len(spread.Cuts) == 0 {
				continue
			}
			if _, bad := spread.task(j, 1); bad != nil {
				err = bad
			}
		}
		return none, err
	})
	return err
}

// tasks are those of a job for one gown.
func (s *placing) tasks(ctx context.Context, j *job.Job) ([]Task, error) {
	return Unless(ctx, func() ([]Task, error) { return Tasks(j, 1) })
}
