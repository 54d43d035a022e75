package search

import (
	"math"
	"time"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// secure keeps a layout on the lattice that the judge has passed, for the case that
// the run is ended before a better one can be brought there.
func (f *First) secure(p *placement) {
	began := time.Now()
	if q := f.settle(p, plane.Lattice, settleNudges, f.judge); q != nil && (f.shortestPassed == nil ||
		q.length < f.shortestPassed.Length) {
		l := f.layout(q)
		f.shortestPassed = &l
	}
	f.secured = time.Now()
	f.took = f.secured.Sub(began)
	f.clock.keepBack(f.took)
}

// secureShare is the share of the time that may go into securing layouts.
const secureShare = 0.02

// secureAgain secures the best layout now and then. Where that is long to come it
// costs little; a run that nobody ends is not changed by it.
func (f *First) secureAgain(best *placement) {
	every, share := time.Second, secureShare
	if f.options.Better != nil {
		every, share = showEvery, showShare
	}
	if since := time.Since(f.secured); since > every && since.Seconds() > f.took.Seconds()/share &&
		(f.shortestPassed == nil || best.length < f.shortestPassed.Length) {
		f.secure(best)
		f.show()
	}
}

// best brings the best layout before the judge. Once it is too late for that the
// one secured last counts, and rows where there is none.
func (f *First) best() (Layout, error) {
	f.clock.ending.Store(true)
	out, err := Layout{}, ErrUnsettled
	if f.bests != nil && !(f.clock.over() && f.shortestPassed != nil &&
		f.shortestPassed.Length <= f.bests[len(f.bests)-1].length) {
		out, err = f.finish(f.bests, f.judge)
	}
	if f.firstPassed != nil && (err != nil || f.firstPassed.Length < out.Length) {
		out, err = *f.firstPassed, nil // nothing better could be brought onto the lattice
	}
	// A run that ends by itself takes no notice of what was secured by the clock.
	if f.shortestPassed != nil && (err != nil || f.clock.over() && f.shortestPassed.Length < out.Length) {
		out, err = *f.shortestPassed, nil
	}
	tooLong := func() bool { return f.maxLength > 0 && out.Length > f.maxLength }
	if err != nil || tooLong() {
		l := f.layout(f.inRows())
		switch ok := f.options.Judge(l, never).OK; {
		case ok && (err != nil || l.Length < out.Length):
			out, err = l, nil
		case err != nil:
			out = l // to say how long it would be
		}
	}
	if err == nil && tooLong() {
		err = ErrTooLong
	}
	return out, err
}

func never() bool { return false }

// finish brings the best layout, which stands last, onto the lattice and before the
// judge. Where rounding does not do and following the judge's word does not
// either, the shortest of these counts: the latest earlier layout that rounding does
// for, and the items of the best lined up anew at their places, spread by some share
// of the length, or one after the other.
func (in *instance) finish(bests []*placement, judge func(Layout) Verdict) (Layout, error) {
	earlier, best := bests[:len(bests)-1], bests[len(bests)-1]
	if q := in.rounded(best, judge); q != nil {
		return in.layout(q), nil
	}
	var out Layout
	err := ErrUnsettled
	for k := len(earlier) - 1; k >= 0 && err != nil && !in.stop(); k-- {
		if q := in.rounded(earlier[k], judge); q != nil {
			out, err = in.layout(q), nil
		}
	}
	for _, spread := range []float64{0, 1e-7, 1e-6, 1e-5, 1e-4, 1} {
		if in.stop() {
			break
		}
		q := best.clone()
		for i := range in.movable {
			q.x[i] *= 1 + spread
		}
		if l := in.layout(in.lineUp(q, spread == 1)); (err != nil || l.Length < out.Length) && judge(l).OK {
			out, err = l, nil
		}
	}
	return out, err
}

// rounded returns the layout on the lattice, or nil when the judge is not content
// with any. Coarse steps come first: outlines with round coordinates fit exactly at
// round places only.
func (in *instance) rounded(p *placement, judge func(Layout) Verdict) *placement {
	for quantum := in.quantum(); quantum > plane.Lattice && !in.stop(); quantum /= 2 {
		if q := in.settle(p, quantum, 0, judge); q != nil && q.length <= p.length {
			return q
		}
	}
	return in.settle(p, plane.Lattice, settleNudges, judge)
}

// reached reports whether a layout is as short as the bound, if need be once it
// lies on the lattice: the loosened regions keep slanted edges a little apart,
// and only rounding to coarse steps closes an exact fit.
func (in *instance) reached(p *placement, judge func(Layout) Verdict) bool {
	if p.length <= in.enough() || p.length > in.bound*(1+1e-4) {
		return p.length <= in.enough()
	}
	l, err := in.finish([]*placement{p}, judge)
	return err == nil && l.Length <= in.enough()
}

// settleNudges bounds how often the judge is asked again; a handful is usual.
const settleNudges = 100

// quantum returns the largest power of two, from the lattice up to 1024 times
// it, that divides every bounding box.
func (in *instance) quantum() float64 {
	q := 1024 * plane.Lattice
	divides := func(v float64) bool { return math.Mod(v, q) == 0 }
	for _, it := range in.items {
		for _, w := range it.ways {
			for !divides(in.shapes[w.shape].w) || !divides(in.shapes[w.shape].h) {
				q /= 2
				if q <= plane.Lattice {
					return plane.Lattice
				}
			}
		}
	}
	return q
}

func (in *instance) layout(p *placement) Layout {
	out := Layout{Length: p.length}
	for i := range in.movable {
		w := in.items[i].ways[p.way[i]]
		out.Choice = append(out.Choice, w.choice)
		out.At = append(out.At, orb.Point{p.x[i] - w.origin[0], p.y[i] - w.origin[1]})
	}
	return out
}
