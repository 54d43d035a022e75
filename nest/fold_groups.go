package nest

import "github.com/paulmach/orb"

// pairsApart says whether two copies of piece i that would be cut by one outline
// belong to different groups of which one has its phase given.
func (p Problem) pairsApart(i int) bool {
	m := p.Pieces[i].Match
	if m == nil || len(p.Phases) == 0 {
		return false
	}
	for k := 0; k+1 < p.Pieces[i].Count; k += 2 {
		a, b := m.group(k), m.group(k+1)
		_, aGiven := p.Phases[a]
		_, bGiven := p.Phases[b]
		if a != b && (aGiven || bGiven) {
			return true
		}
	}
	return false
}

// tie merges the groups of copies that a folded stretch cuts by one outline: what
// lies in two layers at one place lies alike on the repeat. The same then holds on
// the open stretch behind. Groups of the open problem p that are merged agree
// within themselves as well.
func tie(p Problem, stretches ...*Stretch) {
	into := map[int]int{} // each merged group leads to another, to the one that stands for it in the end
	root := func(g int) int {
		for {
			next, ok := into[g]
			if !ok {
				return g
			}
			g = next
		}
	}
	for _, s := range stretches {
		for k, piece := range s.Problem.Pieces {
			match := p.Pieces[s.from[k]].Match
			for c := range piece.Count {
				if match == nil {
					break
				}
				layers := len(s.copies[k]) / piece.Count
				first := root(match.group(s.copies[k][layers*c]))
				for _, other := range s.copies[k][layers*c : layers*(c+1)] {
					if g := root(match.group(other)); g != first {
						into[max(g, first)] = min(g, first)
						first = min(g, first)
					}
				}
			}
		}
	}
	for _, s := range stretches {
		for k := range s.Problem.Pieces {
			piece := &s.Problem.Pieces[k]
			match := p.Pieces[s.from[k]].Match
			if match == nil {
				continue
			}
			tied := Match{Point: piece.Match.Point, Groups: make([]int, piece.Count)}
			layers := len(s.copies[k]) / piece.Count
			for c := range tied.Groups {
				tied.Groups[c] = root(match.group(s.copies[k][layers*c]))
			}
			piece.Match = &tied
		}
		for g, phase := range p.Phases {
			if s.Problem.Phases == nil {
				s.Problem.Phases = map[int]orb.Point{}
			}
			s.Problem.Phases[root(g)] = phase
		}
	}
}

// Matching returns the stretch as it is to be laid once others of the same lay
// have been: groups of copies that they share have their phases settled.
func (s Stretch) Matching(others []Stretch, layouts []Layout) Stretch {
	settled := phasesOf(others, layouts)
	phases := map[int]orb.Point{}
	for g, phase := range s.Problem.Phases {
		phases[g] = phase
	}
	for _, g := range s.Problem.groups() {
		if phase, ok := settled[g.number]; ok {
			phases[g.number] = phase
		}
	}
	if len(phases) > 0 {
		s.Problem.Phases = phases
	}
	return s
}

// Shares says whether two stretches cut copies of one group, which have to lie
// alike on the repeat.
func (s Stretch) Shares(other Stretch) bool {
	own := map[int]bool{}
	for _, g := range s.Problem.groups() {
		own[g.number] = true
	}
	for _, g := range other.Problem.groups() {
		if own[g.number] && s.Problem.Strip.Repeat != (Repeat{}) {
			return true
		}
	}
	return false
}
