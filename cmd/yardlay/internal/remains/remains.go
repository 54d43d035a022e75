// Package remains tells what is left of the lengths that a layout is cut from: outlines to be put
// on the shelf, in whole millimetres, inside what is really there.
//
// # Decided, and why
//
//   - What is left is cloth less pieces less flaws, by the overlays of simplefeatures. Floating
//     point may be off there by a hair, so every outline that is kept is judged afterwards by
//     nest.Verify, beside the pieces as they are cut: exactly, and by other code.
//   - What a square of Narrowest cannot reach is cut off first (an opening by that square): the
//     corridors between pieces would tie all holes to one outline that nobody can use. A square,
//     since upright edges and corners stay what they are.
//   - Pieces are grown outward within coarse before the subtraction, so that outlines have few
//     corners; corners then go to whole millimetres, which are judged like the rest.
//   - A hole within is opened by cuts across the cloth: an outline on the shelf is a simple one.
//     The end of the cloth stays whole.
package remains

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/nest"
	"yardlay/nest/nofit"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Cloth is a length of cloth from which pieces were cut, single, as it lay when it was cut. All
// lengths are mm.
type Cloth struct {
	Strip   nest.Strip // MaxLength is how long it is; Forbidden, its flaws and what is no cloth
	Pieces  []orb.Ring // as cut, on the lattice, apart from each other
	Covered float64    // mm2, of all that was bought or lay there, edges and ends too
}

// coarse is how far outlines are simplified, mm: less than a pair of shears cuts by.
const coarse = 1.5

// MostCorners is the most corners of an outline that is kept.
const MostCorners = 100

// Of returns the outlines that are worth keeping of a cloth once its pieces are cut, the one that
// begins first along the cloth first. Corners are whole mm from where the strip begins or, on a
// cloth with a repeat, from the last corner of the repeat before the outline: Left.From. Outlines
// are simple, counter-clockwise, and lie apart from each other, from the pieces and from flaws.
func Of(c Cloth) (all []Left, err error) {
	for _, in := range insets {
		if all, err = c.keptBy(in); err == nil {
			break
		}
	}
	if err != nil {
		return nil, say.Errorf("what remains of the cloth cannot be told: %w", err)
	}
	slices.SortFunc(all, func(a, b Left) int {
		return cmp.Or(cmp.Compare(a.onCloth(0), b.onCloth(0)), cmp.Compare(a.onCloth(1), b.onCloth(1)),
			cmp.Compare(plane.Area(a.Outline), plane.Area(b.Outline)))
	})
	return all, c.judge(all)
}

// keptBy finds the outlines by figures that are smaller by an inset.
func (c Cloth) keptBy(in inset) (all []Left, err error) {
	rest, err := c.rest()
	if err != nil {
		return nil, err
	}
	parts, err := in.simple(rest, 0)
	if err != nil {
		return nil, err
	}
	for _, p := range parts {
		kept, err := c.keep(p, in)
		if err != nil && in == insets[len(insets)-1] {
			continue // it is left out rather than all the others with it
		}
		if err != nil {
			return nil, err
		}
		all = append(all, kept...)
	}
	return all, nil
}

// rest is the cloth less pieces and flaws, both simpler and no smaller.
func (c Cloth) rest() (area, error) {
	ground := boxOf(orb.Bound{Max: orb.Point{c.Strip.MaxLength, c.Strip.Width}})
	var taken []orb.Ring
	for _, r := range slices.Concat(c.Pieces, c.Strip.Forbidden) {
		taken = append(taken, nofit.Outward(r, coarse))
	}
	if len(taken) == 0 {
		return ground, nil
	}
	all, err := joined(taken)
	if err != nil {
		return area{}, err
	}
	return ground.minus(all)
}

// deepest is how often a part is cut up, at the most: each time at a hole or a corridor less.
const deepest = 64

// simple cuts an area into useful parts without holes, corridors cut off.
func (in inset) simple(a area, depth int) (parts []area, err error) {
	opened, err := a.openedBy(in.rectangle(Narrowest, Narrowest))
	if err != nil || depth == deepest {
		return nil, err
	}
	for _, p := range opened.patches() {
		if len(p.holes) == 0 {
			good, err := in.useful(p.area())
			if err != nil {
				return nil, err
			}
			if good {
				parts = append(parts, p.area())
			}
			continue
		}
		halves, err := p.cutAcross()
		if err != nil {
			return nil, err
		}
		for _, half := range halves {
			more, err := in.simple(half, depth+1)
			if err != nil {
				return nil, err
			}
			parts = append(parts, more...)
		}
	}
	return parts, nil
}

// cutAcross cuts a patch across the cloth behind its last hole, and what lies before that through the
// middle one of its holes.
func (p patch) cutAcross() (parts []area, err error) {
	var middles []float64
	last := 0.0
	for _, h := range p.holes {
		b := plane.Bounds(h)
		middles, last = append(middles, (b.Min[0]+b.Max[0])/2), max(last, b.Max[0])
	}
	slices.Sort(middles)
	whole, all := p.area(), plane.Bounds(p.outer)
	from := all.Min[0] - 1
	for _, to := range []float64{middles[len(middles)/2], last, all.Max[0] + 1} {
		part, err := whole.within(boxOf(orb.Bound{Min: orb.Point{from, all.Min[1] - 1}, Max: orb.Point{to, all.Max[1] + 1}}))
		if err != nil {
			return nil, err
		}
		parts, from = append(parts, part), to
	}
	return parts, nil
}
