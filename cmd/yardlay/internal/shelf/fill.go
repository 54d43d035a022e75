package shelf

import (
	"context"
	"fmt"
	"maps"
	"math"
	"slices"
	"sync"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// Filler shares copies out to the strips of a shelf.
type Filler struct {
	whole   nest.Problem
	kinds   []kind
	bundles []bundle
	all     counts // every bundle
	strips  []Length
	keys    []string // of the strips, alike where these are
	fits    [][]bool // by strip and bundle: each copy of one alone fits
	o       Options
	foreign bool // Fresh is the caller's
	*Memory
}

// Memory holds what has been laid; fillers of the same copies may share it.
type Memory struct {
	mu     sync.Mutex
	packed map[string]packing
	rests  map[string]rest
}

// NewMemory returns an empty one.
func NewMemory() *Memory { return &Memory{packed: map[string]packing{}, rests: map[string]rest{}} }

// remembered returns what is known by a key, or makes it known.
func remembered[T any](m *Memory, known map[string]T, key string, lay func() T) T {
	m.mu.Lock()
	v, ok := known[key]
	m.mu.Unlock()
	if ok {
		return v
	}
	v = lay()
	m.mu.Lock()
	defer m.mu.Unlock()
	known[key] = v
	return v
}

// packing is what has been laid on a strip within its length.
type packing struct {
	counts counts // nil for nothing
	places []placedKind
	length float64 // mm, that everything asked for would take
	phases phases  // of the groups that it holds a part of
}

// rest is what has been laid on bought cloth by a trial.
type rest struct {
	used   float64 // mm; infinite where it could not be laid
	phases phases  // of the groups that it holds a part of
}

// room is the area of cloth of a strip, mm2.
func (f *Filler) room(strip int) float64 {
	l := f.strips[strip]
	return l.Strip.Width*l.Strip.MaxLength - l.NoCloth
}

// eachFits says whether every copy in c fits on a strip by itself.
func (f *Filler) eachFits(strip int, c counts) bool {
	for b, n := range c {
		if n > 0 && !f.fits[strip][b] {
			return false
		}
	}
	return true
}

// pack lays bundles on a strip: all of them within its length (hard), or as if it
// were endless, and keeps those of which all copies end within its length. Groups that
// other lengths share keep to the settled phases, and settle the others.
func (f *Filler) pack(
	ctx context.Context, strip int, c counts, settled phases, effort nest.Effort, hard bool,
) packing {
	limit := f.strips[strip].Strip.MaxLength
	on := f.strips[strip].Strip
	if !hard {
		on.MaxLength = 0
	}
	share := newDealer(f.whole, f.kinds, f.bundles).share(on, c, settled)
	here := settled.of(slices.Collect(maps.Keys(copiesByGroup(share.Problem))))
	return remembered(f.Memory, f.packed, fmt.Sprint(f.keys[strip], c, here, effort, hard), func() packing {
		o := f.options(effort)
		o.Bought = func(used float64) float64 { return max(used, limit) } // what fits is short enough
		lay := func() (p packing) {
			r, err := f.o.solve(ctx, share.Problem, o)
			if err == nil {
				p.length = r.Layout.Length
				kept := slices.DeleteFunc(slices.Clone(r.Layout.Placed), func(pl nest.Placed) bool {
					return plane.Bounds(share.Problem.Outline(pl)).Max[0] > limit
				})
				p.counts, p.places = f.complete(share.places(f.kinds, kept), c)
				p.phases = share.Problem.PhasesOf(r.Layout)
			}
			return p
		}
		// What does not end here must find its like elsewhere.
		p := lay()
		if share.settle(f.splitBy(p.places), settled) {
			p = lay()
		}
		p.phases = p.phases.of(f.splitBy(p.places))
		return p
	})
}

// rest lays copies on bought cloth by a trial.
func (f *Filler) rest(ctx context.Context, c counts, settled phases) rest {
	if c.total() == 0 {
		return rest{}
	}
	share := newDealer(f.whole, f.kinds, f.bundles).share(f.whole.Strip, c, settled)
	return remembered(f.Memory, f.rests, fmt.Sprint(c, share.Problem.Phases), func() rest {
		used, found, err := f.o.Fresh(ctx, share, f.options(nest.Trial))
		if err != nil {
			used = math.Inf(1)
		}
		return rest{used, phases(found).of(share.split(f.whole))}
	})
}

// bought for so many copies, by a trial.
func (f *Filler) bought(used float64) float64 {
	switch {
	case used == 0:
		return 0
	case math.IsInf(used, 1):
		return used
	}
	return f.o.Bought(used)
}

// TakesAny says whether a single bundle fits on a strip.
func (f *Filler) TakesAny(strip int) bool { return slices.Contains(f.fits[strip], true) }

// Most is the area that a strip may take at the most, mm2: each copy on it fits alone,
// and together they cover no more than the strip.
func (f *Filler) Most(strip int) float64 {
	sum := 0.0
	for b, bundle := range f.bundles {
		if f.fits[strip][b] && bundle.area <= f.room(strip) {
			sum += bundle.area * float64(len(bundle.each))
		}
	}
	return min(f.room(strip), sum)
}

// Unheld lists the bundles that none of the strips was found to hold alone: one copy of
// each of their kinds.
func (f *Filler) Unheld(ctx context.Context) [][]nest.Placed {
	var all [][]nest.Placed
	for b, bundle := range f.bundles {
		if f.fitsSomewhere(ctx, b) {
			continue
		}
		var copies []nest.Placed
		for _, k := range f.held(bundle) {
			copies = append(copies, nest.Placed{Piece: f.kinds[k].piece, Copy: f.kinds[k].copies[0]})
		}
		all = append(all, copies)
	}
	return all
}

// fitsSomewhere says whether a bundle alone was laid on any of the strips.
func (f *Filler) fitsSomewhere(ctx context.Context, bundle int) bool {
	one := make(counts, len(f.bundles))
	one[bundle] = 1
	_, single := f.bundles[bundle].single()
	for _, i := range f.byRoom(f.room) {
		if f.fits[i][bundle] && (single || f.pack(ctx, i, one, nil, nest.Trial, true).counts.total() > 0) {
			return true
		}
	}
	return false
}
