package plane

import (
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// MitreLimit is how many times the wider allowance a cut corner may stand away
// from the sewn corner before it is squared off there: at equal allowances,
// corners sharper than 2 asin(1/2.5) = 47 degrees.
const MitreLimit = 2.5

// Side is one stretch of a finished outline with the allowance cut outside it.
type Side struct {
	Line      orb.LineString // seam line, mm
	Allowance float64        // mm, not negative
}

// Swallowed is the error of an inside bend too tight for its allowance: nothing
// of the side's cut line is left.
type Swallowed struct {
	Side int // index of the side
}

func (e *Swallowed) Error() string {
	return fmt.Sprintf("side %d bends inwards more tightly than the allowances: nothing is left of its cut line",
		e.Side)
}

// Offset returns the cut line around consecutive sides, each starting where the
// last ended and running counter-clockwise: every side moved outward by its own
// allowance.
//
//	        ____________ cut line
//	       |   allowance
//	mitre  |  __________ seam line
//	       | |
//
// Corners are mitred: both cut lines run on until they cross. A mitre longer
// than limit times the wider allowance is squared off at that distance, across
// the line from the sewn to the cut corner; next to a side without allowance (a
// fold) it is squared to that side. At a blunt outer corner, where the crossing
// would eat into the wider allowance, that one ends square and the cut line steps
// to the narrower one. In an inside bend tighter than
// the allowance the stretches that would run backwards are dropped and their
// neighbours joined; a side of which nothing is left gives *Swallowed. The
// distant parts of a bad outline can still cross: CheckSimple tells.
//
// A sampled arc keeps its sampling: chords move parallel to themselves, so the
// cut line strays inward from the true arc by the seam line's sagitta s and
// outward by at most s a/r.
func Offset(sides []Side, limit float64) (orb.Ring, error) {
	return newOffsetter(sides, nil, limit).offset()
}

// OffsetTurnedUp is Offset for sides of which some are turned up once they are cut:
// where such a side meets one that is sewn across it, the cut line follows the
// mirror image of the latter, so that the allowance lies on the piece edge on edge. The cut
// line of what meets a fold bluntly, as a deep V neck does, runs on up to it, however far.
func OffsetTurnedUp(sides []Side, roles []Role, limit float64) (orb.Ring, error) {
	return newOffsetter(sides, roles, limit).offset()
}

func (o *offsetter) offset() (orb.Ring, error) {
	if len(o.runs) < 2 {
		return nil, errors.New("an outline needs at least two different points")
	}
	o.dropBackward()
	if o.left < 3 {
		return nil, errors.New("the outline is too small for its allowances")
	}
	var ring orb.Ring
	kept := make([]bool, o.sides)
	for _, run := range o.runs {
		if !run.dropped {
			kept[run.side] = kept[run.side] || !run.mirror && norm(sub(run.to, run.from)) > Lattice
			ring = append(ring, run.from, run.to)
		}
	}
	for side, ok := range kept {
		if !ok {
			return nil, &Swallowed{Side: side}
		}
	}
	return append(ring, ring[0]), nil
}

// run is one straight stretch of a seam line and of the cut line beside it.
type run struct {
	a, b       orb.Point // seam line
	dir, out   orb.Point // unit vectors: along it and outward (to its right)
	allowance  float64
	fold       bool
	side       int
	prev, next int
	from, to   orb.Point // cut line
	doomed     bool      // to be dropped, for it meets no neighbour
	dropped    bool
	mirror     bool // of no length: the mirror image of its side in a hem
}

type offsetter struct {
	runs  []run
	sides int
	left  int
	limit float64
}

func newOffsetter(sides []Side, roles []Role, limit float64) *offsetter {
	o := &offsetter{sides: len(sides), limit: limit}
	points := 0
	for _, side := range sides {
		points += len(side.Line)
	}
	o.runs = make([]run, 0, points)
	for s, side := range sides {
		for i := 1; i < len(side.Line); i++ {
			a, b := side.Line[i-1], side.Line[i]
			if a == b {
				continue
			}
			d := sub(b, a)
			l := norm(d)
			d = orb.Point{d[0] / l, d[1] / l}
			o.runs = append(o.runs, run{a: a, b: b, dir: d, out: orb.Point{d[1], -d[0]},
				allowance: side.Allowance, side: s,
				fold: roles != nil && roles[s] == OnFold})
		}
	}
	if roles != nil {
		o.runs = mirrorSeams(o.runs, roles)
	}
	o.left = len(o.runs)
	for i := range o.runs {
		o.runs[i].prev = (i + o.left - 1) % o.left
		o.runs[i].next = (i + 1) % o.left
	}
	for i := range o.runs {
		o.join(i)
	}
	return o
}

// join sets the end of run i and the start of the next.
func (o *offsetter) join(i int) {
	a := &o.runs[i]
	b := &o.runs[a.next]
	a.to = along(a.b, a.out, a.allowance)
	b.from = along(b.a, b.out, b.allowance)
	turn, ahead := cross(a.dir, b.dir), dot(a.dir, b.dir)
	x, ok := crossing(a.to, a.dir, b.from, b.dir)
	if a.next != (i+1)%len(o.runs) {
		o.bridge(a, b, x, ok)
		return
	}
	reach := o.limit * max(a.allowance, b.allowance)
	far := !ok || norm(sub(x, a.b)) > reach*(1+1e-9)
	switch {
	case (a.mirror || b.mirror) && !far:
		a.to, b.from = x, x
	case a.mirror || b.mirror:
		o.square(a, b, a.b, x, ok, reach)
	case math.Abs(turn) < 1e-9 && ahead > 0: // straight on: one point, or a step
	case turn > 0 && b.allowance > 0 && b.allowance < a.allowance*ahead:
		b.from = along(a.b, a.out, b.allowance/ahead)
	case turn > 0 && a.allowance > 0 && a.allowance < b.allowance*ahead:
		a.to = along(a.b, b.out, a.allowance/ahead)
	case !far || (ok && turn < 0 && ahead < 0) || (ok && turn > 0 && ahead > 0 && (a.fold || b.fold)):
		a.to, b.from = x, x
	case ahead < 0 && turn > -1e-9:
		o.square(a, b, a.b, x, ok, reach)
	}
}

// bridge joins two runs between which others were dropped. Of parallel cut lines
// that do not meet the inner one is dropped too, or both where they run against
// each other: the walls of a slot narrower than its allowances.
func (o *offsetter) bridge(a, b *run, x orb.Point, crosses bool) {
	if crosses {
		a.to, b.from = x, x
		return
	}
	outer := dot(sub(b.from, a.to), a.out) // how much further out b lies
	switch {
	case dot(a.dir, b.dir) < 0:
		a.doomed, b.doomed = true, true
	case math.Abs(outer) < 1e-6:
		middle := along(a.to, a.dir, dot(sub(b.from, a.to), a.dir)/2)
		a.to, b.from = middle, middle
	case outer > 0:
		a.doomed = true
	default:
		b.doomed = true
	}
}

// square cuts a sharp outer corner off at reach from the sewn corner.
func (o *offsetter) square(a, b *run, corner, mitre orb.Point, crosses bool, reach float64) {
	axis := a.dir // of a spike, and of a side without allowance
	switch {
	case a.allowance == 0:
	case b.allowance == 0:
		axis = orb.Point{-b.dir[0], -b.dir[1]}
	case crosses:
		d := sub(mitre, corner)
		axis = orb.Point{d[0] / norm(d), d[1] / norm(d)}
	}
	cut := along(corner, axis, reach)
	across := orb.Point{-axis[1], axis[0]}
	a.to, _ = crossing(a.to, a.dir, cut, across)
	b.from, _ = crossing(b.from, b.dir, cut, across)
}

// dropBackward drops the runs whose cut line runs against their seam line, the
// one that a growing allowance would swallow first before the others.
func (o *offsetter) dropBackward() {
	for o.left > 2 {
		first, when := -1, math.Inf(1)
		for i := range o.runs {
			r := &o.runs[i]
			if r.dropped {
				continue
			}
			length := norm(sub(r.b, r.a))
			cut := dot(sub(r.to, r.from), r.dir)
			if cut >= -1e-9 && !r.doomed {
				continue
			}
			if at := length / (length - cut); r.doomed || at < when {
				first, when = i, at
			}
		}
		if first < 0 {
			return
		}
		r := &o.runs[first]
		r.dropped = true
		o.left--
		o.runs[r.prev].next, o.runs[r.next].prev = r.next, r.prev
		o.join(r.prev)
	}
}
