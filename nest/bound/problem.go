package bound

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Piece is an outline to be placed Count times.
type Piece struct {
	Name  string
	Count int
	// Ways are the outlines as the piece may lie: mirrored, turned, on the
	// lattice; closed, counter-clockwise, mm, x along the cloth.
	Ways []orb.Ring
	// Match ties its copies to a repeat of the cloth; nil: they lie anywhere.
	Match *Match
}

// Problem is a strip of cloth and the pieces to lay on it.
type Problem struct {
	Width     float64    // usable width, mm
	MaxLength float64    // mm; 0 means as long as it takes
	Gap       float64    // clear distance between two pieces, mm
	Forbidden []orb.Ring // zones whose insides no piece may cover; no gap is kept from them
	Pieces    []Piece
	Repeat    [2]float64 // along the cloth and across it, mm; 0 where there is none
}

// item is a piece with its copies, and with those of every piece that may lie in
// the same ways.
type item struct {
	name  string
	count int
	ways  []way
	group int // of copies that share a phase of the repeat; 0 where they may lie at any
}

// area is what a copy covers in the way in which that is least, mm2; 0 where it
// fits in none.
func (it item) area() float64 {
	least := 0.0
	for i, w := range it.ways {
		if a := plane.Area(w.ring); i == 0 || a < least {
			least = a
		}
	}
	return least
}

// way is an outline with its least corner at the origin.
type way struct {
	ring          orb.Ring
	along, across float64   // extents, mm
	point         orb.Point // that lies on the repeat, from the least corner; nought where nothing is tied to it
	// Convex rings inside the ring, and what is laid in its place of each, nil for nothing: see oneWay.
	parts, shifted []orb.Ring
}

// same says whether two ways differ by a move alone.
func (w way) same(o way) bool { return w.point == o.point && slices.Equal(w.ring, o.ring) }

// merged returns the items of p: ways that differ by a move alone are one, so
// are pieces with the same ways; ways that do not fit on the cloth are left out.
// tied gives the group of each piece that shares a phase of the repeat with others;
// nil leaves the repeat out.
func (p Problem) merged(tied func(Piece) int) []item {
	var items []item
	type likeness struct {
		group, ways   int
		along, across float64 // of the first way
	}
	alike := map[likeness][]int{} // items that may be one
	several := map[int]bool{}     // items that stand for pieces of more than one name
	for _, piece := range p.Pieces {
		it := item{name: piece.Name, count: piece.Count}
		if tied != nil {
			it.group = tied(piece)
		}
		for k, ring := range piece.Ways {
			w := newWay(ring)
			if w.across > p.Width || p.MaxLength > 0 && w.along > p.MaxLength {
				continue
			}
			if it.group != 0 {
				w.point = p.onRepeat(piece.Match.Points[k], ring)
			}
			if !slices.ContainsFunc(it.ways, w.same) {
				it.ways = append(it.ways, w)
			}
		}
		slices.SortFunc(it.ways, compareWays)
		like := likeness{group: it.group, ways: len(it.ways)}
		if len(it.ways) > 0 {
			like.along, like.across = it.ways[0].along, it.ways[0].across
		}
		k := slices.IndexFunc(alike[like], func(o int) bool {
			return slices.EqualFunc(items[o].ways, it.ways, way.same)
		})
		if k >= 0 {
			same := alike[like][k]
			items[same].count += it.count
			several[same] = several[same] || it.name != items[same].name
			continue
		}
		alike[like] = append(alike[like], len(items))
		items = append(items, it)
	}
	for i := range several {
		if several[i] {
			items[i].name = "every piece like " + items[i].name
		}
	}
	return items
}

// newWay moves a ring's least corner to the origin, drops repeated vertices and
// begins the ring at its least vertex, so that equal outlines are equal slices.
func newWay(ring orb.Ring) way {
	box := plane.Bounds(ring)
	var open orb.Ring
	for _, v := range ring[:len(ring)-1] {
		v = orb.Point{v[0] - box.Min[0], v[1] - box.Min[1]}
		if n := len(open); n == 0 || open[n-1] != v {
			open = append(open, v)
		}
	}
	least := 0
	for i, v := range open {
		if slices.Compare(v[:], open[least][:]) < 0 {
			least = i
		}
	}
	out := append(append(orb.Ring{}, open[least:]...), open[:least]...)
	return way{ring: append(out, out[0]), along: box.Max[0] - box.Min[0], across: box.Max[1] - box.Min[1]}
}

func compareWays(a, b way) int {
	points := func(p, q orb.Point) int { return cmp.Or(cmp.Compare(p[0], q[0]), cmp.Compare(p[1], q[1])) }
	return cmp.Or(slices.CompareFunc(a.ring, b.ring, points), points(a.point, b.point))
}
