package remains

import (
	"slices"
	"strconv"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/nest"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Length is one length of a cloth that a layout is cut from, as it is once it is cut: washed, where
// the cloth is washed first, and opened out.
type Length struct {
	Name   string  // of the leftover; of several lengths bought, which one it is; else ""
	Shelf  bool    // it lay on the shelf
	Bought float64 // mm, over the counter; 0 from the shelf
	Cloth
}

// Lengths lists what a cloth as laid is cut from: what is bought, then leftovers. counter is what is
// bought by length, mm, where that is not what the plan says; 0: it is. The error is that of a length
// too short for what is laid on it.
func Lengths(l plan.Laid, counter float64) ([]Length, error) {
	var all []Length
	for i, bolt := range boltLengths(l) {
		cut := l.BoltCuts()[i]
		one := Length{Name: "bolt " + strconv.Itoa(i+1), Bought: bolt, Cloth: opened(l, bolt)}
		one.Pieces = outlines(cut.Problem, cut.Layout)
		all = append(all, one)
	}
	if planned := l.CounterLength(); counter == 0 {
		counter = planned
	}
	if len(l.Results) > 0 {
		one := Length{Bought: counter, Cloth: opened(l, counter)}
		if len(all) > 0 {
			one.Name = "cut"
		}
		if err := one.spread(l, counter); err != nil {
			return nil, err
		}
		all = append(all, one)
	}
	if l.Shelf == nil {
		return all, nil
	}
	for _, cut := range l.Shelf.Cuts {
		all = append(all, Length{Name: cut.Name, Shelf: true, Cloth: fromShelf(l, cut)})
	}
	return all, nil
}

// boltLengths lists the whole bolts bought, mm, in the order of their cuts.
func boltLengths(l plan.Laid) []float64 {
	var all []float64
	if l.Several() {
		for _, p := range l.Buy.Parts {
			for range p.Count {
				if p.Bolt {
					all = append(all, p.Length)
				}
			}
		}
	}
	return all
}

// opened is a length of the cloth as bought, mm, without pieces: what can be laid on begins behind the
// cut end squared and its allowance, and ends before that of the other end.
func opened(l plan.Laid, bought float64) Cloth {
	s, c := l.Task.Spread, l.Task.Spread.Cloth
	strip := l.Task.Problem.Strip
	strip.MaxLength = plane.Ceil(s.WashedAlong(bought) - c.Skew - 2*c.Ends)
	return Cloth{Strip: strip, Covered: s.WashedAlong(bought) * s.WashedAcross(c.Width)}
}

// fromShelf is a leftover with what is cut from it.
func fromShelf(l plan.Laid, cut shelf.Cut) Cloth {
	c := l.Task.Spread.Cloth
	have := c.Have[slices.IndexFunc(c.Have, func(h job.Have) bool { return h.Name == cut.Name })]
	return Cloth{Strip: cut.Strip, Pieces: outlines(cut.Problem, cut.Layout), Covered: l.Task.Spread.LeftoverArea(have)}
}

func outlines(p nest.Problem, l nest.Layout) []orb.Ring {
	var all []orb.Ring
	for _, pl := range l.Placed {
		all = append(all, p.Outline(pl))
	}
	return all
}

// spread lays what the stretches cut where it lies on the cloth, bought mm of it: one stretch behind the
// other, each with its ends. A crosswise fold lies in the middle of its stretch, which is all that is
// bought besides where it is the last one.
func (one *Length) spread(l plan.Laid, bought float64) error {
	ends := l.Task.Spread.Cloth.Ends
	used, _ := plan.LengthsOf(l.Results)
	from, end := l.Task.Along(used)
	if end-2*ends > one.Strip.MaxLength+plane.Lattice {
		return say.Errorf("%v are too short: the layout takes %v", say.MM(bought),
			say.MM(plan.LossOf(l.Task.Spread.Cloth).Needed(end)/(1+l.Task.Spread.Cloth.Spare)))
	}
	for i, s := range l.Task.Stretches {
		long := s.Cloth(used[i]) + float64(s.Layers())*2*ends
		if i == len(from)-1 {
			long = one.Strip.MaxLength + 2*ends - from[i]
		}
		layout := l.Results[i].Layout
		alone := nest.Unfold(l.Rest, []nest.Stretch{s}, []nest.Layout{layout})
		beyond := beyondOf(s, used[i], long, ends)
		for _, r := range outlines(l.Rest, alone) {
			by := from[i]
			if s.Layers() == 2 && plane.Bounds(r).Min[0] >= used[i] {
				by += beyond
			}
			one.Pieces = append(one.Pieces, plane.Pose{At: orb.Point{plane.Snap(by), 0}}.Apply(r))
		}
	}
	return nil
}

// beyondOf is how much farther the upper layer of a crosswise fold lies than Unfold says, where the stretch
// is longer than its marker: it is counted from the other cut end or, turned, from the fold.
func beyondOf(s nest.Stretch, marker, long, ends float64) float64 {
	if s.Lay == nest.CrosswiseTurned {
		return long/2 - (s.Cloth(marker) - marker)
	}
	return long - 2*ends - s.Cloth(marker)
}
