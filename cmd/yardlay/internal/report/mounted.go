package report

import "yardlay/shapes"

// mounted lists what is basted to the outer layer of each part before anything is sewn: all
// round its pieces but along folds and hems, which hang free or are turned up as one.
func mounted(parts []made) []Seam {
	list := []Seam{}
	for _, m := range parts {
		if m.on == "" {
			continue
		}
		round := m.rims()
		list = append(list, Seam{
			Part: m.part.Name, Cloth: m.cloth, Body: m.part.Body, Name: string(m.on) + ", basted", Times: 1,
			A: SeamSide{Edges: []SeamEdge{}, Onto: "all its pieces but for hems", Cut: round, Finished: round},
			B: SeamSide{Edges: []SeamEdge{}, Onto: "those of " + m.outer(parts).cloth + ", to sew both as one",
				Cut: round, Finished: round},
		})
	}
	return list
}

// rims is how long all edges are together, but folds and hems, of one such part, mm.
func (m made) rims() (mm float64) {
	for _, p := range m.pieces {
		for _, e := range p.Unfold().Edges {
			if e.Kind != shapes.Fold && e.Kind != shapes.Hem {
				mm += e.Length() * float64(p.Count)
			}
		}
	}
	return mm
}
