package shelf

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"slices"

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

// phases are those of groups on the repeat, which on each strip begins at the cut end
// and the lower edge, mm.
type phases map[int]orb.Point

// and returns the phases with others besides.
func (p phases) and(others phases) phases {
	if len(others) == 0 {
		return p
	}
	all := phases{}
	maps.Copy(all, p)
	maps.Copy(all, others)
	return all
}

// of returns the phases of some groups; nil where there are none of these.
func (p phases) of(groups []int) phases {
	var some phases
	for _, g := range groups {
		if phase, ok := p[g]; ok {
			some = some.and(phases{g: phase})
		}
	}
	return some
}

// starts lists what to settle before copies are shared out: the phases of all groups that
// can be split, each with one of its biggest pieces in the corner, and none, so that the
// first length that holds a part of a group chooses. Where no group can be split it is none.
func (f *Filler) starts() []phases {
	if f.whole.Strip.Repeat == (nest.Repeat{}) {
		return []phases{nil}
	}
	holding := map[int]int{} // bundles, by group
	for _, b := range f.bundles {
		groups := map[int]bool{}
		for _, k := range f.held(b) {
			if kind := f.kinds[k]; f.whole.Pieces[kind.piece].Match != nil {
				groups[kind.group] = true
			}
		}
		for g := range groups {
			holding[g] += len(b.each)
		}
	}
	var all []phases
	for n := range mostCorners {
		corners := phases{}
		for g, bundles := range holding {
			if _, given := f.whole.Phases[g]; !given && bundles > 1 {
				corners[g] = cornerPhase(f.whole, g, n)
			}
		}
		if !slices.ContainsFunc(all, func(p phases) bool { return maps.Equal(p, corners) }) && len(corners) > 0 {
			all = append(all, corners)
		}
	}
	return append(all, nil)
}

// mostCorners is how many pieces of a group are tried in the corner.
const mostCorners = 3

// largestFirst lays the shares of a plan anew, the one that covers most first: where it
// holds parts of groups it chooses their phases, and the others keep to those. It returns
// false where no group is split, or where a strip does not hold its share any more.
func (f *Filler) largestFirst(ctx context.Context, p Plan) (Plan, bool) {
	q := Plan{on: make([]packing, len(p.on)), rest: p.rest}
	area := func(i int) float64 {
		if i == len(p.on) {
			return p.rest.area(f.bundles)
		}
		return p.on[i].counts.area(f.bundles)
	}
	order := numbered(len(p.on) + 1)
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(area(b), area(a)) })
	for _, i := range order {
		switch {
		case i == len(p.on):
			q = f.layRest(ctx, q)
		case p.Uses(i):
			on := f.pack(ctx, i, p.on[i].counts, q.phases, nest.Trial, true)
			if on.counts.total() < p.on[i].counts.total() {
				return q, false
			}
			q = q.with(i, on)
		}
	}
	return q, len(q.phases) > 0
}

// keepTo gives the groups of which the share holds a part their settled phases, and every
// group the one that the whole problem gives it.
func (s *Share) keepTo(whole nest.Problem, settled phases) {
	if whole.Strip.Repeat == (nest.Repeat{}) {
		return
	}
	s.settle(slices.Collect(maps.Keys(copiesByGroup(s.Problem))), whole.Phases)
	s.settle(s.split(whole), settled)
}

// settle gives groups their settled phases, and says whether any had none before.
func (s *Share) settle(groups []int, settled phases) (any bool) {
	for _, g := range groups {
		phase, ok := settled[g]
		if _, given := s.Problem.Phases[g]; given || !ok {
			continue
		}
		if s.Problem.Phases == nil {
			s.Problem.Phases = map[int]orb.Point{}
		}
		s.Problem.Phases[g], any = phase, true
	}
	return any
}

// split lists the groups of which the share holds a part.
func (s Share) split(whole nest.Problem) []int { return inPart(whole, copiesByGroup(s.Problem)) }

// splitBy lists the groups of which places hold a part.
func (f *Filler) splitBy(places []placedKind) []int {
	here := map[int]int{}
	for _, l := range places {
		if kind := f.kinds[l.kind]; f.whole.Pieces[kind.piece].Match != nil {
			here[kind.group]++
		}
	}
	return inPart(f.whole, here)
}

// inPart lists the groups of which fewer copies are here than there are in all.
func inPart(whole nest.Problem, here map[int]int) (groups []int) {
	if whole.Strip.Repeat == (nest.Repeat{}) {
		return nil
	}
	all := copiesByGroup(whole)
	for g, n := range here {
		if n < all[g] {
			groups = append(groups, g)
		}
	}
	return groups
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

// cornerPhase returns the phase at which a piece of a group lies in the corner of the cut
// end and the lower edge, as drawn in its first turn: the nth by area from the biggest,
// or the last.
func cornerPhase(p nest.Problem, group, nth int) orb.Point {
	var pieces []int
	for i, piece := range p.Pieces {
		for c := range piece.Count {
			if piece.Match != nil && groupOf(p, i, c) == group {
				pieces = append(pieces, i)
				break
			}
		}
	}
	slices.SortStableFunc(pieces, func(a, b int) int {
		return cmp.Compare(plane.Area(p.Pieces[b].Outline), plane.Area(p.Pieces[a].Outline))
	})
	i := pieces[min(nth, len(pieces)-1)]
	piece, pl := p.Pieces[i], nest.Placed{Piece: i}
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
