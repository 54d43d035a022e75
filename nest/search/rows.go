package search

import (
	"cmp"
	"math"
	"slices"

	"yardlay/shapes/plane"
)

// rows lays items by their bounding boxes alone, in rows across the strip from
// the given length on, deepest first, each in the first row that has room for it:
// the simplest layout there is, for when time is up before there is another. It
// needs no outline and no no-fit region. Nothing forbids it but a limit of length.
// Of three ways to choose how the items lie the shortest counts.
func (in *instance) rows(p *placement, items []int, from float64) *placement {
	var best *placement
	for _, prefer := range []func(s *shape) float64{
		func(s *shape) float64 { return s.w },  // short along the strip
		func(s *shape) float64 { return s.h },  // narrow across it
		func(s *shape) float64 { return -s.h }, // wide across it
	} {
		q := p.clone()
		r := rowBuilder{instance: in, at: q, next: from, full: map[int]int{}}
		for _, i := range r.order(items, prefer) {
			r.lay(i)
		}
		if q.length = in.extent(q); best == nil || q.length < best.length {
			best = q
		}
	}
	return best
}

// rowBuilder lays items in rows.
type rowBuilder struct {
	*instance
	at     *placement
	rows   []row
	next   float64 // where the next row may begin
	choice [][]int32
	full   map[int]int // by kind: rows before this have no room for it
}

// row is an interval of the strip with items one above the other.
type row struct {
	from, to float64
	taken    []span  // across the strip, ascending
	room     float64 // the widest place left between them, a gap from each
}

type span struct{ from, to float64 }

// order sorts the items, deepest first in the way that is preferred, and notes
// for each its ways in order of preference.
func (r *rowBuilder) order(items []int, prefer func(s *shape) float64) []int {
	byKind := map[int][]int32{}
	r.choice = make([][]int32, len(r.items))
	for _, i := range items {
		it := &r.items[i]
		if byKind[it.kind] == nil {
			tried := it.every()
			if it.paired {
				tried = it.straight
			}
			ways := slices.DeleteFunc(slices.Clone(tried), func(w int32) bool {
				_, across := r.tracksOf(r.at, i, &it.ways[w])
				return across.empty()
			})
			slices.SortStableFunc(ways, func(a, b int32) int {
				p, q := &r.shapes[it.ways[a].shape], &r.shapes[it.ways[b].shape]
				return cmp.Or(cmp.Compare(prefer(p), prefer(q)), cmp.Compare(p.w, q.w))
			})
			byKind[it.kind] = ways
		}
		r.choice[i] = byKind[it.kind]
	}
	depth := func(i int) float64 { return r.shapes[r.items[i].ways[r.choice[i][0]].shape].w }
	order := slices.Clone(items)
	slices.SortStableFunc(order, func(i, j int) int {
		return cmp.Or(cmp.Compare(depth(j), depth(i)), cmp.Compare(r.items[i].kind, r.items[j].kind))
	})
	return order
}

// lay puts an item in the first row with room for it, or in a new one.
func (r *rowBuilder) lay(i int) {
	kind := r.items[i].kind
	for k := r.full[kind]; k < len(r.rows); k++ {
		if r.fits(i, &r.rows[k], k == len(r.rows)-1) {
			r.full[kind] = k
			return
		}
	}
	r.full[kind] = max(0, len(r.rows)-1) // but for the last, which may grow
	// A new row may begin where a zone ends, and at the latest after the last one.
	begin := []float64{r.next}
	for z := r.movable; z < len(r.items); z++ {
		begin = append(begin, r.at.x[z]+r.shapes[r.shapeAt(r.at, z)].w+r.keptFrom(z))
	}
	slices.Sort(begin)
	for _, x := range begin {
		x = plane.Ceil(x)
		fresh := row{from: x, to: x, room: math.Inf(1)}
		if x >= r.next && r.fits(i, &fresh, true) {
			r.rows = append(r.rows, fresh)
			return
		}
	}
}

// fits puts an item in a row if there is room; only the last may grow.
func (r *rowBuilder) fits(i int, in *row, last bool) bool {
	for _, w := range r.choice[i] {
		way := &r.items[i].ways[w]
		s := &r.shapes[way.shape]
		if s.h > in.room || !last && s.w > in.to-in.from {
			continue
		}
		along, across := r.tracksOf(r.at, i, way)
		x := along.next(in.from)
		if !last && x+s.w > in.to {
			continue
		}
		y, ok := r.level(s, across, in, x)
		if !ok {
			continue
		}
		r.at.way[i], r.at.x[i], r.at.y[i] = w, x, y
		k, _ := slices.BinarySearchFunc(in.taken, y, func(s span, y float64) int { return cmp.Compare(s.from, y) })
		in.taken = slices.Insert(in.taken, k, span{y, y + s.h})
		in.room = in.widest(r.width, r.gap)
		in.to = max(in.to, x+s.w)
		r.next = max(r.next, plane.Ceil(in.to+r.gap))
		return true
	}
	return false
}

// widest returns the widest place left in a row, mm.
func (in *row) widest(width, gap float64) float64 {
	widest, from := 0.0, 0.0
	for _, s := range in.taken {
		widest, from = max(widest, s.from-gap-from), s.to+gap
	}
	return max(widest, width-from)
}

// level returns the lowest free place across the strip for a shape at x in a row.
func (r *rowBuilder) level(s *shape, across track, in *row, x float64) (y float64, ok bool) {
	y = across.next(across.lo)
	for k := 0; y <= across.hi; {
		for k < len(in.taken) && in.taken[k].to+r.gap <= y {
			k++
		}
		if k < len(in.taken) && in.taken[k].from < y+s.h+r.gap {
			y = across.next(in.taken[k].to + r.gap)
			continue
		}
		blocked := y
		for z := r.movable; z < len(r.items); z++ {
			zone, keep := &r.shapes[r.shapeAt(r.at, z)], r.keptFrom(z)
			if zx, zy := r.at.x[z], r.at.y[z]; zx-keep < x+s.w && x < zx+zone.w+keep && zy-keep < y+s.h &&
				y < zy+zone.h+keep {
				blocked = max(blocked, plane.Ceil(zy+zone.h+keep))
			}
		}
		if blocked == y {
			return y, true
		}
		y = across.next(blocked)
	}
	return 0, false
}

// searched says whether there are few enough items, pinned ones counted, for a search.
func (in *instance) searched() bool { return in.movable+len(in.items)-in.pinned <= mostSearched }

// keptFrom is the distance that items keep from a fixed one: none from a zone.
func (in *instance) keptFrom(z int) float64 {
	if z < in.pinned {
		return 0
	}
	return in.gap
}

// inRows lays every item in rows, once: what lays out a lot that is not searched is
// also what is left when there is no time to judge it.
func (f *First) inRows() *placement {
	if f.simple == nil {
		f.simple = f.rows(f.emptyPlacement(), f.bigFirst(), 0)
	}
	return f.simple
}
