package plan

import (
	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/nest"
)

// Steps asks for layouts that are drawn on the cloth itself by tape and chalk: a point
// of each piece lies whole steps from the cut end and from the edge of the cloth. To
// the search that is a repeat on which all pieces have one phase. The zero value asks
// for nothing.
//
// A cloth with a repeat of its own keeps to that alone. Where a fold turns the steps
// over, or no place on them holds a piece, those across are given up, and then those
// along: Spread.Steps is what is left.
type Steps struct {
	Step   float64                  // mm; 0: pieces may lie anywhere
	Gap    float64                  // clear distance kept between two pieces at the least, mm
	Corner func(orb.Ring) orb.Point // which point of an outline lies on the steps
}

// onSteps lets the pieces of all tasks lie on steps.
func onSteps(j *job.Job, tasks []Task, steps Steps) ([]Task, error) {
	if steps.Step == 0 {
		return tasks, nil
	}
	on := make([]Task, len(tasks))
	var bad strict.Errors
	for i, t := range tasks {
		var wrong strict.Errors
		on[i], wrong = t.onSteps(j, steps)
		bad = append(bad, wrong...)
	}
	if len(bad) > 0 {
		bad.Sort()
		return nil, bad
	}
	return on, nil
}

// onSteps lets the pieces of the task lie on steps.
func (t Task) onSteps(j *job.Job, steps Steps) (Task, strict.Errors) {
	s := t.Spread
	s.Cloth.Gap = max(s.Cloth.Gap, steps.Gap)
	var bad strict.Errors
	for _, r := range t.stepsTried(steps.Step) {
		s.Steps, s.corner = r, steps.Corner
		on := t
		on.Spread = s
		on.Problem = s.Problem()
		if bad = s.refuse(j, on.Problem, j.Unit); bad != nil {
			continue
		}
		var err error
		if on.Stretches, err = s.fold(on.Problem); err == nil {
			return on, nil
		}
		bad = strict.Errors{s.unfoldable(j, err)}
	}
	return t, bad
}

// stepsTried lists the steps along and across that a cloth may be laid on, the
// strictest first.
func (t Task) stepsTried(step float64) []nest.Repeat {
	var all []nest.Repeat
	if t.Spread.Cloth.Repeat == (job.Repeat{}) {
		switch t.Lay {
		case nest.Open:
			all = []nest.Repeat{{Along: step, Across: step}, {Along: step}}
		case nest.LengthwiseFold, nest.DoubleFold:
			all = []nest.Repeat{{Along: step}}
		}
	}
	return append(all, nest.Repeat{})
}

// stepped ties each piece of a problem to the steps of the spread, of which the
// cut end and the edge of the cloth are the first.
func (s Spread) stepped(p *nest.Problem) {
	if s.Steps == (nest.Repeat{}) {
		return
	}
	for i := range p.Pieces {
		p.Pieces[i].Match = &nest.Match{Point: s.corner(p.Pieces[i].Outline)}
	}
	p.Phases = map[int]orb.Point{0: {-s.Cloth.Ends, -s.WashedAcross(s.Cloth.Selvedge)}}
}
