package judge

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// ulpsOfRepeat is what sums of float64 may leave a place midway between two steps
// of the lattice off it, in steps: coordinates below 2^27 steps are exact to
// 2^-26, and a few of them are summed. Then either step is the nearest.
const ulpsOfRepeat = 1.0 / (1 << 16)

// judgeRepeats judges whether the match points of each group lie whole repeats
// apart: each allows the phases up to half a step of the lattice from where it
// lies, and one phase must do for all.
func judgeRepeats(p Problem, l Layout, cut []cutPiece) error {
	_, err := p.standings(l, func(i, other, axis int, off float64, point orb.Point) error {
		than := "the phase that is given"
		if other >= 0 {
			than = copyName(cut[other].name, cut[other].copy)
		}
		return cut[i].broken(OffRepeat, point, "its match point is %v off %s %s the cloth, "+
			"where the repeat is %v",
			plane.MM(off), than, [...]string{"along", "across"}[axis], plane.MM(p.Repeat[axis]))
	})
	return err
}

// PhasesOf returns a phase of each group of copies in a layout that passes Verify:
// their match points less the phase are whole repeats, each to the nearest step of
// the lattice, mm.
func PhasesOf(p Problem, l Layout) map[int]orb.Point {
	phases := map[int]orb.Point{}
	groups, _ := p.standings(l, func(int, int, int, float64, orb.Point) error { return nil })
	for g, s := range groups {
		phases[g] = s.phase()
	}
	return phases
}

// standings collects how the match points of each group lie, and calls off for
// each that does not agree on an axis with an earlier one, or with the phase that
// is given (other is -1 then), and by how much, mm.
func (p Problem) standings(
	l Layout, off func(i, other, axis int, by float64, point orb.Point) error,
) (map[int]*standing, error) {
	groups := map[int]*standing{}
	for i, pl := range l.Placed {
		m := p.Pieces[pl.Piece].Match
		if m == nil {
			continue
		}
		g, point := m.group(pl.Copy), pl.pose().ApplyPoint(m.Point)
		s, ok := groups[g]
		if !ok {
			s = &standing{from: point}
			if phase, given := p.Phases[g]; given {
				s.from, s.given = phase, true
			}
			s.least.piece, s.most.piece = [2]int{i, i}, [2]int{i, i}
			groups[g] = s
		}
		for axis, repeat := range p.Repeat {
			if repeat == 0 {
				continue
			}
			if other, by := s.add(axis, repeat, point[axis], i); by > 0 {
				if err := off(i, other, axis, by/steps, point); err != nil {
					return nil, err
				}
			}
		}
	}
	return groups, nil
}

// standing is how the match points of a group lie modulo the repeat.
type standing struct {
	from        orb.Point // the first point, or the phase that is given
	given       bool
	least, most extreme
}

// extreme is the point farthest off on one side, on each axis.
type extreme struct {
	off   [2]float64 // from standing.from, steps of the lattice
	piece [2]int     // index of Layout.Placed
}

// add takes in the place of placed piece i. When it does not agree it returns by
// how many steps of the lattice, and with which placed piece; -1: with what is given.
func (s *standing) add(axis int, repeat, place float64, i int) (other int, by float64) {
	d := place - s.from[axis]
	d = (d - math.Round(d/repeat)*repeat) * steps
	if s.given {
		if math.Abs(d) > 0.5+ulpsOfRepeat {
			return -1, math.Abs(d)
		}
		return 0, 0
	}
	least, most := s.least.off[axis], s.most.off[axis]
	if most-d > 1+2*ulpsOfRepeat {
		return s.most.piece[axis], most - d
	}
	if d-least > 1+2*ulpsOfRepeat {
		return s.least.piece[axis], d - least
	}
	if d < least {
		s.least.off[axis], s.least.piece[axis] = d, i
	}
	if d > most {
		s.most.off[axis], s.most.piece[axis] = d, i
	}
	return 0, 0
}

// phase returns one that does for all points.
func (s *standing) phase() orb.Point {
	at := s.from
	for axis := range at {
		at[axis] += (s.least.off[axis] + s.most.off[axis]) / 2 / steps
	}
	return at
}
