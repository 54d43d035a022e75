package hand

import (
	"runtime"
	"sync"

	"github.com/paulmach/orb"

	"yardlay/nest"
	"yardlay/nest/nofit"
)

// obstacle is what a moving piece may not lie over: where its origin is, less at, lies in
// the region.
type obstacle struct {
	index  int // of the others; of a flaw -1 less its number
	key    regionKey
	at     orb.Point
	region *nofit.Region
}

// strays is more than two coarsened outlines stray beyond their boxes, mm.
const strays = 4

// obstaclesTo lists what is in the way of a piece whose origin stays within a bound.
func (t *Table) obstaclesTo(held nest.Placed, others []nest.Placed, within orb.Bound) []obstacle {
	var list []obstacle
	var missing []pair
	moving := t.shapeOf(keyOf(held))
	add := func(index int, fixed shape, origin orb.Point, keep nofit.Clearance) {
		a, b := fixed.box, moving.box
		pad := keep.Gap + strays
		for axis := range 2 { // by their boxes, so that no region is made for what is far off
			if within.Min[axis] > origin[axis]+a.Max[axis]-b.Min[axis]+pad ||
				within.Max[axis] < origin[axis]+a.Min[axis]-b.Max[axis]-pad {
				return
			}
		}
		o := obstacle{index: index, key: regionKey{fixed.mark, moving.mark, keep.Gap}, at: orb.Point{
			origin[0] + a.Min[0] - b.Min[0], origin[1] + a.Min[1] - b.Min[1],
		}}
		if t.regions[o.key] == nil {
			t.regions[o.key] = &kept{} // to be made once
			missing = append(missing, pair{o.key, fixed.outline, moving.outline, keep, nil})
		}
		list = append(list, o)
	}
	for i, pl := range others {
		if t.knows(pl) && (pl.Piece != held.Piece || pl.Copy != held.Copy) {
			add(i, t.shapeOf(keyOf(pl)), pl.At, t.gap)
		}
	}
	for i := range t.problem.Strip.Forbidden {
		add(-1-i, t.shapeOf(shapeKey{piece: -1 - i}), orb.Point{}, t.bare)
	}
	t.make(missing)
	t.asked++
	for i := range list {
		k := t.regions[list[i].key]
		k.asked, list[i].region = t.asked, k.region
	}
	t.drop()
	return list
}

// pair is a region to be made.
type pair struct {
	key           regionKey
	fixed, moving *outline
	keep          nofit.Clearance
	region        *nofit.Region
}

// make makes regions, as many at a time as there are processors, and keeps them.
func (t *Table) make(pairs []pair) {
	var coarse []*outline
	for _, p := range pairs {
		for _, o := range [2]*outline{p.fixed, p.moving} {
			if o.of == nil {
				o.of = &nofit.Shape{} // to be made once
				coarse = append(coarse, o)
			}
		}
	}
	abreast(len(coarse), func(i int) { _, coarse[i].of = nofit.Coarsened(coarse[i].ring) })
	abreast(len(pairs), func(i int) {
		p := &pairs[i]
		p.region = nofit.New(func() bool { return false }, p.fixed.of, p.moving.of, p.keep)
	})
	for _, p := range pairs {
		t.regions[p.key].region = p.region
		t.bytes += p.region.Bytes()
	}
}

// abreast does n things, as many at a time as there are processors.
func abreast(n int, do func(i int)) {
	free := make(chan struct{}, runtime.GOMAXPROCS(0))
	var all sync.WaitGroup
	for i := range n {
		free <- struct{}{}
		all.Go(func() { do(i); <-free })
	}
	all.Wait()
}

// drop forgets regions, those first that have not been asked for the longest, until what is
// left takes no more than it may; but none that was asked for just now.
func (t *Table) drop() {
	for t.bytes > mostBytes {
		oldest, found := regionKey{}, false
		for key, k := range t.regions {
			if k.asked < t.asked && (!found || k.asked < t.regions[oldest].asked) {
				oldest, found = key, true
			}
		}
		if !found {
			return
		}
		t.bytes -= t.regions[oldest].region.Bytes()
		delete(t.regions, oldest)
	}
}
