package shelf

import (
	"fmt"

	"github.com/paulmach/orb"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// groupOf returns the group on the repeat of a copy of piece i; 0 where there is
// nothing to match.
func groupOf(p nest.Problem, i, copy int) int {
	if m := p.Pieces[i].Match; m != nil && len(m.Groups) > 0 && p.Strip.Repeat != (nest.Repeat{}) {
		return m.Groups[copy]
	}
	return 0
}

// settlePhases gives the groups that are cut from this share in part a phase which
// every other share of them keeps to as well: on each strip the repeat begins at
// the cut end and the lower edge.
func (s *Share) settlePhases(whole nest.Problem) {
	if whole.Strip.Repeat == (nest.Repeat{}) {
		return
	}
	here, all := copiesByGroup(s.Problem), copiesByGroup(whole)
	s.settle(whole, func(g int) bool { return here[g] < all[g] })
}

// settle gives groups the phase that every share of them keeps to.
func (s *Share) settle(whole nest.Problem, which func(group int) bool) {
	for g := range copiesByGroup(s.Problem) {
		phase, given := whole.Phases[g]
		if !given && !which(g) {
			continue
		}
		if !given {
			phase = cornerPhase(whole, g)
		}
		if s.Problem.Phases == nil {
			s.Problem.Phases = map[int]orb.Point{}
		}
		s.Problem.Phases[g] = phase
	}
}

// splits says whether places hold a part of a group that has no settled phase.
func (f *Filler) splits(places []lying, settled map[int]orb.Point) bool {
	if f.whole.Strip.Repeat == (nest.Repeat{}) {
		return false
	}
	all, here := copiesByGroup(f.whole), map[int]int{}
	for _, l := range places {
		if kind := f.kinds[l.kind]; f.whole.Pieces[kind.piece].Match != nil {
			here[kind.group]++
		}
	}
	for g, n := range here {
		if _, ok := settled[g]; !ok && n < all[g] {
			return true
		}
	}
	return false
}

// copiesByGroup counts the copies of each group on the repeat.
func copiesByGroup(p nest.Problem) map[int]int {
	all := map[int]int{}
	for i, piece := range p.Pieces {
		for c := range piece.Count {
			if piece.Match != nil {
				all[groupOf(p, i, c)]++
			}
		}
	}
	return all
}

// cornerPhase returns the phase at which the biggest piece of a group lies in the
// corner of the cut end and the lower edge, as drawn in its first turn.
func cornerPhase(p nest.Problem, group int) orb.Point {
	biggest, area := -1, 0.0
	for i, piece := range p.Pieces {
		for c := range piece.Count {
			if a := plane.Area(piece.Outline); piece.Match != nil && groupOf(p, i, c) == group && a > area {
				biggest, area = i, a
			}
		}
	}
	piece := p.Pieces[biggest]
	pl := nest.Placed{Piece: biggest}
	if len(piece.Turns) > 0 {
		pl.Turn = piece.Turns[0]
	}
	corner := plane.Bounds(p.Outline(pl)).Min
	matched := plane.Pose{Turn: pl.Turn}.ApplyPoint(piece.Match.Point)
	return orb.Point{matched[0] - corner[0], matched[1] - corner[1]}
}

// checkPhases judges that a group which several shares cut has one phase on all of
// them, which nest.Verify then holds each to.
func checkPhases(whole nest.Problem, shares []Share) error {
	if whole.Strip.Repeat == (nest.Repeat{}) {
		return nil
	}
	all, phases := copiesByGroup(whole), map[int]orb.Point{}
	for _, s := range shares {
		for g, n := range copiesByGroup(s.Problem) {
			if n == all[g] {
				continue
			}
			phase, given := s.Problem.Phases[g]
			if first, seen := phases[g]; !given || seen && first != phase {
				return fmt.Errorf("group %d on the repeat is cut from several lengths that do not agree", g)
			}
			phases[g] = phase
		}
	}
	return nil
}
