package report

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
	"yardlay/shapes/say"
)

// mind says what a maker should know of a job's drafts before anything is cut, a
// sentence or two each: seams whose sides do not agree, hems that cannot be turned up.
// Lengths are in the unit of sizes.
func mind(j *job.Job, unit measure.Unit) ([]remark, error) {
	m := minder{job: j, unit: measure.SizeUnit(unit)}
	for _, part := range j.Parts {
		for _, each := range []func(job.Part) error{m.meeting, m.hems} {
			if err := each(part); err != nil {
				return nil, j.ErrorAt(part.At, say.Errorf("part `%s`: %w", part.Name, err))
			}
		}
	}
	return m.said, nil
}

type minder struct {
	job  *job.Job
	unit measure.Unit
	said []remark
}

// say tells of some parts, in one cloth or, with "", in all they are cut in.
func (m *minder) say(parts []job.Part, cloth, format string, args ...any) {
	r := remark{text: fmt.Sprintf(format, args...), cloth: cloth}
	for _, p := range parts {
		r.parts = append(r.parts, p.Name)
	}
	if !slices.Contains(texts(m.said), r.text) {
		m.said = append(m.said, r)
	}
}

func (m *minder) show(mm float64) string { return measure.Format(mm, m.unit) }

// unequal is by how much the sides of a seam may differ, mm: an eighth of an inch, which
// is lost in the sewing (common practice).
const unequal = measure.Inches / 8

// meeting compares a part with the one that it is sewn to at waist or neck, in their
// outer cloths.
func (m *minder) meeting(part job.Part) error {
	if part.SewnTo == nil || len(part.Layers) == 0 {
		return nil
	}
	to := m.job.Parts[part.SewnTo.Part]
	if len(to.Layers) == 0 {
		return nil
	}
	var drafts [2]draft.Result
	for i, p := range []job.Part{part, to} {
		var err error
		if drafts[i], err = p.Layers[0].Drafted(); err != nil {
			return err
		}
	}
	seam, err := draft.MeetingOf(drafts[0], drafts[1])
	if errors.Is(err, draft.ErrNoMeeting) {
		return nil
	}
	if err != nil {
		return err
	}
	var finished [2]float64
	var opens [2][]string
	for i, d := range drafts {
		opens[i] = d.OpensAt()
		if _, finished[i], err = seam.Sides[i].Measure(d.Pieces); err != nil {
			return err
		}
	}
	m.entry(part, to, seam.Name, opens, min(finished[0], finished[1]))
	over := finished[0] - finished[1]
	if math.Abs(over) <= unequal+measure.Guard {
		return nil
	}
	longer := part.Name
	if over < 0 {
		longer = to.Name
	}
	m.say([]job.Part{part, to}, "",
		"%s is sewn to %s and does not fit it: %s to %s, so %s is left over on %s. Change one of them, or ease it in.",
		part.Name, to.Name, m.show(finished[0]), m.show(finished[1]), m.show(math.Abs(over)), longer)
	return nil
}

// entry tells of two parts that open at different centres: sewn together at a waist or
// a neck they close in a ring, and what has to come through it may be wider.
func (m *minder) entry(part, to job.Part, at string, opens [2][]string, girth float64) {
	if len(opens[0]) == 0 || len(opens[1]) == 0 ||
		slices.ContainsFunc(opens[0], func(c string) bool { return slices.Contains(opens[1], c) }) {
		return
	}
	// A waist may come over the head or be stepped into.
	ways, through := []draft.Passage{draft.OverBust, draft.OverHips}, "the body"
	if at == "neck" {
		ways, through = []draft.Passage{draft.OverHead}, "the head"
	}
	for _, w := range ways {
		needs := part.Girths[w]
		if needs > 0 && girth >= needs {
			return
		}
		if needs > 0 {
			if through = fmt.Sprintf("the %s", w); !m.job.FromRoom(part) {
				through += " of " + m.show(needs)
			}
		}
	}
	m.say([]job.Part{part, to}, "",
		"%s opens at the %s and %s at the %s: sewn together they close in a ring at the %s, "+
			"%s round. Check that %s passes, or open both at one centre.",
		part.Name, opens[0][0], to.Name, opens[1][0], at, m.show(girth), through)
}

// leastHem is the narrowest hem that is turned up by hand, mm: a rolled one of 1/8 in
// (common practice).
const leastHem = measure.Inches / 8

// hems tells of hems that are too wide for their curve, the tightest of each cloth.
func (m *minder) hems(part job.Part) error {
	for _, layer := range part.Layers {
		if layer.Mounted == job.Underlining {
			continue // turned up as one with the outer cloth
		}
		made, err := layer.Drafted()
		if err != nil {
			return err
		}
		var worst shapes.TightHem
		for _, p := range made.Pieces {
			for _, h := range p.TightHems() {
				if math.Abs(h.Excess) > math.Abs(worst.Excess) {
					worst = h
				}
			}
		}
		if worst.Edge == "" {
			continue
		}
		over := fmt.Sprintf("is %.0f %% too long", 100*worst.Excess)
		switch {
		case math.IsInf(worst.Excess, 1):
			over = "has no room"
		case worst.Excess < 0:
			over = fmt.Sprintf("is %.0f %% too short", -100*worst.Excess)
		}
		help := fmt.Sprintf("Turn up %s at most, or face it.", measure.FormatDown(worst.Widest, m.unit))
		if worst.Widest < leastHem {
			help = "Face it or bind it."
		}
		if made.Apart {
			help = "Overcast it in place of turning it in."
		}
		m.say([]job.Part{part}, layer.Cloth,
			"%s in %s, %s: %s turned up %s at the raw edge, where the curve has a radius of %s. %s",
			part.Name, layer.Cloth, worst.Edge, m.show(worst.Allowance), over, m.show(worst.Radius), help)
	}
	return nil
}
