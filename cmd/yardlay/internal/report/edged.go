package report

import "yardlay/shapes"

// edged adds the lace that is laid along edges of the part, once these are hemmed.
func (m made) edged(list []Seam) ([]Seam, error) {
	for _, e := range m.made.Edged {
		side, err := m.made.SewnTo(e.Side)
		if err != nil {
			return nil, err
		}
		lace := shapes.JoinSide{Onto: "lace", Length: e.Along}
		seam, err := m.across(m, "lace along the "+string(e.At), [2]shapes.JoinSide{side, lace})
		if err != nil {
			return nil, err
		}
		list = append(list, seam)
	}
	return list, nil
}
