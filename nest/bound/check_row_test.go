package bound_test

import (
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/nest/bound"
	"yardlay/shapes/plane"
)

// verdict is what a search for a row that a certificate excludes came to.
type verdict uint8

const (
	confirmed verdict = iota // there is no such row
	refuted                  // there is one, or the certificate does not hold together
	undecided                // too much to look through
)

// rowSlack is the relative part of lengths by which certificates of rows are not
// confirmed: a length found as the least of many may be met exactly.
const rowSlack = 1e-5

// checkRow confirms a certificate of a row or a column. Of the certificate it takes
// the line, the length, the gap and the names, nothing of the search behind them.
// Work is the number of steps after which it gives up.
func checkRow(t rapid.TB, p bound.Problem, b bound.Bound, work int) verdict {
	t.Helper()
	c := b.Certificate
	if b.Length < c.Length || b.Length > c.Length+2*plane.Lattice {
		t.Errorf("%s: bound %v mm and excluded %v", b.Kind, b.Length, c.Length)
	}
	r := rowSearch{across: p.Width, limit: c.Length * (1 - rowSlack), gap: c.Gap, aslant: c.Gap <= p.Gap, left: work}
	axis := 0
	if b.Kind == bound.Column {
		axis, r.across, r.limit = 1, c.Length*(1-rowSlack), p.Width*(1-1e-9)
	}
	checkGap(t, p, c)
	if c.Repeat != 0 {
		if c.Repeat != p.Repeat[axis] {
			t.Errorf("repeat %v counted, %v is there", c.Repeat, p.Repeat[axis])
		}
		r.repeat = c.Repeat
		r.limit -= rounding
	}
	for _, piece := range distinct(p.Pieces, c.Repeat != 0) {
		if !named(b.Pieces, piece.names) {
			continue
		}
		item := r.item(piece, axis, p.MaxLength)
		if len(item) == 0 {
			return confirmed // it does not fit at all
		}
		if mustCross(item, r.across, c.At) {
			r.items = append(r.items, item)
			r.counts = append(r.counts, piece.count)
			r.groups = append(r.groups, piece.group)
			r.limit -= 2 * rounding * float64(piece.count)
		}
	}
	if len(r.items) < len(b.Pieces) {
		t.Errorf("%s: not all of %v cross the line %v mm", b.Kind, b.Pieces, c.At)
		return refuted
	}
	return r.run()
}

// checkGap allows the gap asked for or less of it.
func checkGap(t rapid.TB, p bound.Problem, c bound.Certificate) {
	t.Helper()
	if c.Gap > p.Gap {
		t.Errorf("gap %v counted, %v asked for", c.Gap, p.Gap)
	}
}

// alike are pieces that may lie in the same ways.
type alike struct {
	names  []string
	count  int
	ways   []orb.Ring
	points []orb.Point // on the repeat, of each way
	group  int         // 0: none
}

func distinct(pieces []bound.Piece, matched bool) (out []alike) {
next:
	for _, p := range pieces {
		ways, points, group := make([]orb.Ring, len(p.Ways)), make([]orb.Point, len(p.Ways)), 0
		for k, w := range p.Ways {
			box := plane.Bounds(w)
			ways[k] = moved(w, -box.Min[0], -box.Min[1])
			if matched && p.Match != nil {
				group = p.Match.Group
				points[k] = orb.Point{p.Match.Points[k][0] - box.Min[0], p.Match.Points[k][1] - box.Min[1]}
			}
		}
		for i, o := range out {
			if o.group == group && slices.Equal(o.points, points) &&
				slices.EqualFunc(o.ways, ways, func(a, b orb.Ring) bool { return slices.Equal(a, b) }) {
				out[i].count += p.Count
				out[i].names = append(out[i].names, p.Name)
				continue next
			}
		}
		out = append(out, alike{[]string{p.Name}, p.Count, ways, points, group})
	}
	return out
}

// named says whether a certificate's pieces are among those of these names.
func named(pieces, names []string) bool {
	return slices.ContainsFunc(pieces, func(s string) bool {
		return slices.Contains(names, strings.TrimPrefix(s, "every piece like "))
	})
}

// item returns the trunks of a piece in the ways that fit.
func (r *rowSearch) item(p alike, axis int, maxLength float64) (out []trunk) {
	for i, w := range p.ways {
		k := trunkOf(w, axis)
		k.point = p.points[i][axis]
		along := plane.Bounds(w).Max[0]
		if k.wide > r.across || maxLength > 0 && along > maxLength {
			continue
		}
		out = append(out, k)
	}
	return out
}

// mustCross says whether a piece crosses a line wherever it lies.
func mustCross(ways []trunk, across, at float64) bool {
	for _, w := range ways {
		if w.slabs[len(w.slabs)-1].top <= at || w.slabs[0].bottom+across-w.wide >= at {
			return false
		}
	}
	return true
}

// place is a range of places of one way of an item across the row.
type place struct {
	item, way int
	from, to  float64
}

// rowSearch looks for a row of all items no longer than limit. It lays piece
// behind piece, in every order and way and over ranges of places, each clear of
// the two before; what it finds it looks at again with the ranges halved, until
// nothing is found or ranges are points.
type rowSearch struct {
	items         [][]trunk
	counts        []int
	groups        []int // of items, 0: none
	repeat        float64
	across, limit float64
	gap           float64
	aslant        bool // the gap is kept in every direction, not along lines alone
	left          int  // steps of the search
	places        []place
	steps         [][]float64
	rest          [][]float64 // by state and place: the least that follows, neighbours alone
	failed        map[[3]int][][2]float64
}

// finest is the width of a range that counts as a point, mm.
const finest = 1e-7

func (r *rowSearch) run() verdict {
	for i, ways := range r.items {
		for k, w := range ways {
			r.add(place{i, k, 0, r.across - w.wide})
		}
	}
	for r.left > 0 {
		r.neighbours()
		r.failed = make(map[[3]int][][2]float64)
		var path []int
		if !r.lay(0, -1, -1, 0, 0, &path) {
			if r.left <= 0 {
				break
			}
			return confirmed
		}
		split := false
		slices.Sort(path)
		for _, k := range slices.Compact(path) {
			if p := r.places[k]; p.to-p.from > finest {
				split = true
				low, high := p, p
				low.to = (p.from + p.to) / 2
				high.from = low.to
				r.set(k, low)
				r.add(high)
			}
		}
		if !split {
			return refuted
		}
	}
	return undecided
}

func (r *rowSearch) add(p place) {
	r.places = append(r.places, p)
	r.steps = append(r.steps, nil)
	for i := range r.steps {
		for len(r.steps[i]) < len(r.places) {
			r.steps[i] = append(r.steps[i], 0)
		}
	}
	r.set(len(r.places)-1, p)
}

func (r *rowSearch) set(k int, p place) {
	r.left -= 20 * len(r.places)
	r.places[k] = p
	for i := range r.places {
		r.steps[i][k], r.steps[k][i] = r.step(r.places[i], p), r.step(p, r.places[i])
	}
}

// rounding is what two places may be off the repeat, mm: a step of the lattice, and a
// little for sums of floats.
const rounding = 1.05 * plane.Lattice

// whole lengthens a way along from place p to place q until the points that match lie
// whole repeats apart.
func (r *rowSearch) whole(p, q place, way float64) float64 {
	if r.repeat == 0 || r.groups[p.item] == 0 || r.groups[p.item] != r.groups[q.item] {
		return way
	}
	points := r.items[q.item][q.way].point - r.items[p.item][p.way].point
	over := math.Mod(way-rounding+points, r.repeat) // beyond a whole repeat
	if over <= 0 {
		over += r.repeat
	}
	return way - rounding + r.repeat - over
}

// step is the least way along from one piece to the next over ranges of places. A
// gap g aslant keeps the next piece, moved up by any e, clear by sqrt(g2 - e2).
func (r *rowSearch) step(p, q place) float64 {
	a, b := r.items[p.item][p.way], r.items[q.item][q.way]
	low, high := q.from-p.to, q.to-p.from
	most := clear(a, b, low, high) + r.gap
	if r.gap > 0 && r.aslant {
		const directions = 16
		for k := 1 - directions; k < directions; k++ {
			sin, cos := math.Sincos(math.Pi / 2 * float64(k) / directions)
			most = max(most, clear(a, b, low+r.gap*sin, high+r.gap*sin)+r.gap*cos)
		}
	}
	return r.whole(p, q, most)
}

// extent of a piece along the row.
func (r *rowSearch) extent(k int) float64 { return r.items[r.places[k].item][r.places[k].way].long }

// full says whether all copies of an item are laid, and next numbers the state
// with one more.
func (r *rowSearch) next(state, item int) (to int, full bool) {
	weight := 1
	for _, n := range r.counts[:item] {
		weight *= n + 1
	}
	return state + weight, state/weight%(r.counts[item]+1) == r.counts[item]
}

// neighbours fills in what must follow at each place, from the end.
func (r *rowSearch) neighbours() {
	states := 1
	for _, n := range r.counts {
		states *= n + 1
	}
	r.rest = make([][]float64, states)
	for s := states - 1; s >= 0; s-- {
		r.rest[s] = make([]float64, len(r.places))
		for k := range r.places {
			least := math.Inf(1)
			if s == states-1 {
				least = r.extent(k)
			}
			for q, p := range r.places {
				if to, full := r.next(s, p.item); !full {
					least = min(least, r.steps[k][q]+r.rest[to][q])
				}
			}
			r.rest[s][k] = least
		}
	}
}

// lay lays what is left in a state behind the two last pieces, at x and y; the
// first piece and every other begin at 0 or behind it.
func (r *rowSearch) lay(state, before, last int, x, y float64, path *[]int) bool {
	if state == len(r.rest)-1 {
		return true
	}
	key := [3]int{state, before, last}
	for _, f := range r.failed[key] {
		r.left--
		if f[0] <= x && f[1] <= y {
			return false
		}
	}
	for k, p := range r.places {
		to, full := r.next(state, p.item)
		if full {
			continue
		}
		r.left--
		z := 0.0
		if before >= 0 {
			way := max(r.steps[before][k], r.steps[before][last]+r.steps[last][k])
			z = max(z, x+r.whole(r.places[before], p, way))
		}
		if last >= 0 {
			z = max(z, y+r.steps[last][k])
		}
		if z+max(r.extent(k), r.rest[to][k]) > r.limit || r.left <= 0 {
			continue
		}
		*path = append(*path, k)
		if r.lay(to, last, k, y, z, path) {
			return true
		}
		*path = (*path)[:len(*path)-1]
	}
	r.failed[key] = append(r.failed[key], [2]float64{x, y})
	return false
}
