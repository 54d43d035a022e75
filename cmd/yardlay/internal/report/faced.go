package report

import (
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes"
	"yardlay/shapes/draft"
)

// apart says whether a layer is none of the body of its part: a facing, interfacing, what
// lies behind an opening.
func (m made) apart() bool { return m.made.Fused || m.made.Apart }

// outer is the outer layer of the part that a facing belongs to.
func (m made) outer(parts []made) made {
	for _, other := range parts {
		if other.part.Name == m.part.Name {
			return other
		}
	}
	return m
}

// faced adds the seams between parts and their facings: those of hems, which come last,
// or all others.
func faced(j *job.Job, list []Seam, parts []made, hems bool) ([]Seam, error) {
	for _, m := range parts {
		f, ok := m.drawn.(draft.Facing)
		if !ok || f.Fused || hems != (f.At == draft.AtHem) {
			continue
		}
		var err error
		if list, err = m.with(m.outer(parts)).sew(list, []shapes.Join{m.made.Faced}); err != nil {
			return nil, m.failed(j, err)
		}
	}
	return list, nil
}

// bagged adds the seams of hems that are sewn to those of the innermost lining.
func bagged(j *job.Job, list []Seam, parts []made) ([]Seam, error) {
	for i, m := range parts {
		if len(m.made.Bag.Edges) == 0 || i > 0 && parts[i-1].part.Name == m.part.Name {
			continue
		}
		lining := m
		for _, other := range parts[i:] {
			if other.part.Name == m.part.Name && len(other.made.Bag.Edges) > 0 {
				lining = other
			}
		}
		seam, err := m.across(lining, "hem", [2]shapes.JoinSide{m.made.Bag, lining.made.Bag})
		if err != nil {
			return nil, m.failed(j, err)
		}
		list = append(list, seam)
	}
	return list, nil
}
