package nofit

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// Boundary calls yield with both ends of every stretch of the region's boundary, the
// region on its left as built; of a mirrored view, on its right.
func (r *Region) Boundary(yield func(from, to orb.Point)) {
	for i := range r.segments {
		p, q := r.ends(&r.segments[i])
		yield(p, q)
	}
}

// Rings returns the boundary as closed rings: an offset round which they wind lies in
// the region. Stretches finer than the lattice are not kept (see Region), so that each end
// is joined to the nearest beginning that is left, a few steps off at most: nearer to the
// boundary than that the rings tell nothing. A slit of no width is no ring but two
// stretches of one, there and back.
func (r *Region) Rings() []orb.Ring {
	n := len(r.segments)
	starts := newStarts(r.segments)
	next := make([]int, n)
	for i := range r.segments {
		s := &r.segments[i]
		next[i] = starts.take(orb.Point{s.ax + s.length*s.ux, s.ay + s.length*s.uy})
	}
	var rings []orb.Ring
	done := make([]bool, n)
	for first := range n {
		if done[first] {
			continue
		}
		var ring orb.Ring
		for i := first; !done[i]; i = next[i] {
			done[i] = true
			p, q := r.ends(&r.segments[i])
			for _, v := range [2]orb.Point{p, q} {
				if len(ring) == 0 || ring[len(ring)-1] != v {
					ring = append(ring, v)
				}
			}
		}
		if ring[len(ring)-1] != ring[0] {
			ring = append(ring, ring[0])
		}
		if r.view.mirrors() {
			ring.Reverse()
		}
		if len(ring) > 3 {
			rings = append(rings, ring)
		}
	}
	return rings
}

// mirrors reports whether offsets are seen the other way round than as built.
func (v *view) mirrors() bool { return v.xx*v.yy-v.xy*v.yx < 0 }

// starts are the beginnings of stretches, by x, that no end has been joined to yet.
type starts struct {
	at    []orb.Point
	index []int
	taken []bool
}

func newStarts(segments []segment) *starts {
	s := &starts{taken: make([]bool, len(segments))}
	for i := range segments {
		s.index = append(s.index, i)
	}
	slices.SortStableFunc(s.index, func(i, j int) int { return cmp.Compare(segments[i].ax, segments[j].ax) })
	for _, i := range s.index {
		s.at = append(s.at, orb.Point{segments[i].ax, segments[i].ay})
	}
	return s
}

// take returns the stretch, not taken yet, that begins nearest to a point.
func (s *starts) take(p orb.Point) int {
	from, _ := slices.BinarySearchFunc(s.at, p[0], func(a orb.Point, x float64) int { return cmp.Compare(a[0], x) })
	best, nearest := -1, math.Inf(1)
	look := func(k int) (more bool) {
		if math.Abs(s.at[k][0]-p[0]) > nearest {
			return false
		}
		if d := math.Hypot(s.at[k][0]-p[0], s.at[k][1]-p[1]); d < nearest && !s.taken[k] {
			best, nearest = k, d
		}
		return true
	}
	for k := from; k < len(s.at) && look(k); k++ {
	}
	for k := from - 1; k >= 0 && look(k); k-- {
	}
	s.taken[best] = true
	return s.index[best]
}
