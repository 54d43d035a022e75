package report

import (
	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes"
	"yardlay/shapes/draft"
)

// apart says whether a layer has no seams of its own to other parts: a facing, interfacing,
// what lies behind an opening, and what is sewn as one with the outer layer.
func (m made) apart() bool { return m.made.Fused || m.made.Apart || m.on != "" }

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
		outer, seam := m.outer(parts), m.made.Faced
		var err error
		if seam.A, err = outer.made.SewnTo(seam.A); err == nil {
			list, err = m.with(outer).sew(list, []shapes.Join{seam})
		}
		if err != nil {
			return nil, m.failed(j, err)
		}
	}
	return list, nil
}

// bagged adds the seams between hems and linings: a hem that is sewn to that of the
// innermost lining, or that of a lining to the raw edge of a hem that is turned up.
func bagged(j *job.Job, list []Seam, parts []made) ([]Seam, error) {
	for i, m := range parts {
		if i > 0 && parts[i-1].part.Name == m.part.Name {
			continue // a part once, by its outer layer
		}
		lining := m
		for _, other := range parts[i:] {
			if other.part.Name == m.part.Name && len(other.made.Bag.Edges) > 0 {
				lining = other
			}
		}
		if len(lining.made.Bag.Edges) == 0 {
			continue
		}
		name, outer := "hem", m.made.Bag
		if len(outer.Edges) == 0 {
			name, outer = "jump hem", rawEdge(m)
		}
		seam, err := m.across(lining, name, [2]shapes.JoinSide{outer, lining.made.Bag})
		if err != nil {
			return nil, m.failed(j, err)
		}
		list = append(list, seam)
	}
	return list, nil
}

// rawEdge is that of the hems of a part, as long as it is before it is eased.
func rawEdge(m made) shapes.JoinSide {
	s := shapes.JoinSide{Onto: "raw edge of the hem"}
	for _, h := range hemsOf(m.part.Name, m.cloth, m.made) {
		s.Length += h.Raw
	}
	return s
}
