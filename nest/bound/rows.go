package bound

import (
	"cmp"
	"context"
	"iter"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Pieces so wide that each must cross a common line along the cloth lie in a row:
// convex and apart, they follow each other in one order on every line that two of
// them share. The least distance D from one to another that follows it, along the
// cloth, depends on how far that lies higher, and is a concave function of it: it
// is the right border of the convex outline A - B.
//
// The length of a row, counting the steps from each piece to the next and its last
// piece, is then concave in the places across the cloth, so that it is least with
// every piece at one of its two outermost places: the shortest row is found among
// finitely many. When steps to the next but one count too, places are split into
// ranges; over two ranges D is least where they are nearest or farthest.

// placeRange is a range of places of a piece in one of its ways.
type placeRange struct {
	item     int // number in the row
	way      int // number in the row of all ways of its items
	from, to float64
	extent   float64 // of the piece along the cloth, mm
}

// row is a set of items of a problem that must all cross line `at`.
type row struct {
	at     float64 // mm across the cloth
	items  []int
	counts []int
	ways   []rowWay
	steps  [][]stepper // from a way to another
	convex bool        // whether all its bodies are
	repeat float64     // along the row, mm; 0 where it is left out
	many   bool        // its kinds are too many to tell apart how many copies of each are laid
}

// rowWay is a way of an item in a row.
type rowWay struct {
	item         int
	body         orb.Ring // inside the piece
	convex       bool
	grown        orb.Ring // a convex body grown by half the gap
	right, left  profile  // of its borders: see borders
	room, extent float64  // places across the cloth, and length along it, mm
	group        int      // of its item
	point        float64  // that lies on the repeat, along the row, mm
	start        float64  // least place along the row, mm
}

// stepper tells the least step over differences in height from a to b.
type stepper interface {
	least(a, b float64) float64
}

// crossing is the open interval of lines that an item crosses wherever it lies.
type crossing struct {
	from, to float64
	bodies   []orb.Ring // of each way
}

// crossings returns what every item must cross on a cloth of the given width. The
// bodies are convex parts, or as much of the outlines as can be put in a row.
// Cancelled, it leaves the rest as crossing nothing.
func (s *setting) crossings(ctx context.Context, width float64, whole bool) []crossing {
	out := make([]crossing, len(s.items))
	for i, it := range s.items {
		if ctx.Err() != nil {
			break
		}
		c := crossing{from: 0, to: width}
		if len(it.ways) == 0 {
			c.to = 0
		}
		for _, w := range it.ways {
			body := convexPart(w.ring)
			if m := monotonePart(w.ring); whole && m != nil {
				body = m
			}
			if body == nil {
				c.to = 0
				break
			}
			box := plane.Bounds(body)
			c.from = max(c.from, width-w.across+box.Min[1])
			c.to = min(c.to, box.Max[1])
			c.bodies = append(c.bodies, body)
		}
		out[i] = c
	}
	return out
}

// rows goes through the sets of items worth looking at, as far as the context lets it. Those
// of many kinds come whole too where they are asked for.
func (f *finder) rows(s *setting, whole, many bool) iter.Seq[row] {
	return func(yield func(row) bool) {
		all := s.crossings(f.ctx, s.width, whole)
		for _, r := range s.together(f.ctx, all) {
			if full := r.unlimited(s); many && full.many && f.penaltiesPay(full, s) {
				if !full.fill(f.ctx, s, all) || !yield(full) {
					return
				}
			}
			if r.limit(s); !r.worthwhile(s) {
				continue
			}
			if !r.fill(f.ctx, s, all) || !yield(r) {
				return
			}
		}
	}
}

// together returns the sets of items that must all cross the middle of one item's
// interval, those that cover most first; none once the context is cancelled.
func (s *setting) together(ctx context.Context, all []crossing) []row {
	var out []row
	for _, c := range all {
		if ctx.Err() != nil {
			return nil
		}
		if c.from >= c.to {
			continue
		}
		r := row{at: (c.from + c.to) / 2}
		for i, o := range all {
			if o.from < r.at && r.at < o.to {
				r.items = append(r.items, i)
			}
		}
		if slices.ContainsFunc(out, func(o row) bool { return slices.Equal(o.items, r.items) }) {
			continue
		}
		out = append(out, r)
	}
	slices.SortStableFunc(out, func(a, b row) int { return cmp.Compare(s.covers(b.items...), s.covers(a.items...)) })
	return out
}

// The most numbers of copies laid that are told apart: of several items, for which
// they multiply, and of one, more than the copies that a problem may have.
const (
	maxRowStates  = 1 << 10
	maxItemStates = 1 << 14
)

// limit leaves out items, those that cover least first, until the row is small
// enough to be searched through. The first stays, with as many copies as can be told
// apart: a row of fewer copies is no longer than one of all.
func (r *row) limit(s *setting) {
	slices.SortStableFunc(r.items, func(a, b int) int { return cmp.Compare(s.covers(b), s.covers(a)) })
	states := 1
	for n, i := range r.items {
		copies := s.items[i].count
		if n == 0 {
			copies = min(copies, maxItemStates-1)
		} else if states*(copies+1) > maxRowStates {
			r.items = r.items[:n]
			return
		}
		r.counts = append(r.counts, copies)
		states *= copies + 1
	}
}

// unlimited returns the row of all items, of many kinds where limit would leave some out.
func (r row) unlimited(s *setting) row {
	states := 1
	for n, i := range r.items {
		r.counts = append(r.counts, s.items[i].count)
		states = min(states*(s.items[i].count+1), maxRowStates+1)
		r.many = n > 0 && states > maxRowStates && !s.tied
	}
	return r
}

// covers is what all copies of items cover, mm2.
func (s *setting) covers(items ...int) float64 {
	sum := 0.0
	for _, i := range items {
		sum += s.items[i].area() * float64(s.items[i].count)
	}
	return sum
}

// fill sets up ways and steps; false when the context is cancelled before that is done.
func (r *row) fill(ctx context.Context, s *setting, all []crossing) bool {
	r.convex, r.repeat = true, s.repeat[0]
	for n, i := range r.items {
		for k, w := range s.items[i].ways {
			rw := rowWay{item: n, body: all[i].bodies[k], room: s.width - w.across, extent: w.along}
			rw.group, rw.point, rw.start = s.items[i].group, w.point[0], s.start(s.items[i].group)
			if rw.convex = convex(rw.body); rw.convex {
				rw.body = thinned(rw.body, s.width*fineTolerance)
				rw.grown = rw.body
				if s.gap > 0 {
					rw.grown = growConvex(rw.body, s.gap/2)
				}
			}
			rw.right, rw.left = borders(rw.body, s.width*borderTolerance)
			r.convex = r.convex && rw.convex
			r.ways = append(r.ways, rw)
		}
	}
	for _, a := range r.ways {
		if ctx.Err() != nil {
			return false
		}
		var to []stepper
		for _, b := range r.ways {
			if a.convex && b.convex {
				to = append(to, rightBorder(a.grown, b.grown))
			} else {
				to = append(to, newStepTable(a, b, -a.room, b.room, s.gap))
			}
		}
		r.steps = append(r.steps, to)
	}
	return ctx.Err() == nil
}

// placeRanges splits the places of every way into n ranges, or with n = 0 gives the
// two outermost.
func (r row) placeRanges(n int) []placeRange {
	var out []placeRange
	for k, w := range r.ways {
		s := placeRange{item: w.item, way: k, extent: w.extent}
		switch {
		case w.room == 0:
			out = append(out, s)
		case n == 0:
			low, high := s, s
			high.from, high.to = w.room, w.room
			out = append(out, low, high)
		}
		for i := 0; i < n && w.room > 0; i++ {
			s.from, s.to = w.room*float64(i)/float64(n), w.room*float64(i+1)/float64(n)
			out = append(out, s)
		}
	}
	return out
}

// table returns the least steps from range to range of places.
func (r row) table(places []placeRange) [][]float64 {
	out := make([][]float64, len(places))
	for i, a := range places {
		for _, b := range places {
			d := r.steps[a.way][b.way]
			out[i] = append(out[i], r.tied(a.way, b.way, d.least(b.from-a.to, b.to-a.from)))
		}
	}
	return out
}

// border is the right border of a convex outline, as a function of height.
type border struct{ y, x []float64 }

// rightBorder returns the right border of A - B, both convex: the rising edges of
// A and the falling edges of B, turned about, in the order of their slopes.
func rightBorder(a, b orb.Ring) border {
	var rising []orb.Point
	low, high := a[0], b[0]
	for i := 1; i < len(a); i++ {
		if a[i][1] < low[1] || a[i][1] == low[1] && a[i][0] > low[0] {
			low = a[i]
		}
		if d := (orb.Point{a[i][0] - a[i-1][0], a[i][1] - a[i-1][1]}); d[1] > 0 {
			rising = append(rising, d)
		}
	}
	for i := 1; i < len(b); i++ {
		if b[i][1] > high[1] || b[i][1] == high[1] && b[i][0] < high[0] {
			high = b[i]
		}
		if d := (orb.Point{b[i-1][0] - b[i][0], b[i-1][1] - b[i][1]}); d[1] > 0 {
			rising = append(rising, d)
		}
	}
	slices.SortStableFunc(rising, func(p, q orb.Point) int { return cmp.Compare(q[0]*p[1], p[0]*q[1]) })
	x, y := low[0]-high[0], low[1]-high[1]
	out := border{y: []float64{y}, x: []float64{x}}
	for _, d := range rising {
		x, y = x+d[0], y+d[1]
		out.y, out.x = append(out.y, y), append(out.x, x)
	}
	return out
}

// least: a concave function is least at an end.
func (b border) least(from, to float64) float64 { return min(b.at(from), b.at(to)) }

// at returns the border at a height within the outline.
func (b border) at(y float64) float64 {
	k, _ := slices.BinarySearch(b.y, y)
	k = min(max(k, 1), len(b.y)-1)
	return between(orb.Point{b.x[k-1], b.y[k-1]}, orb.Point{b.x[k], b.y[k]}, 1, 0, y)
}

// thinned drops vertices of a convex ring that lie within tol of the line through
// those kept; what is left lies inside.
func thinned(ring orb.Ring, tol float64) orb.Ring {
	out := orb.Ring{ring[0]}
	for i, last := 1, 0; i < len(ring); i++ {
		near := i+1 < len(ring)
		for k := last + 1; k <= i && near; k++ {
			a, b, v := ring[last], ring[i+1], ring[k]
			dx, dy := b[0]-a[0], b[1]-a[1]
			near = math.Abs(dx*(v[1]-a[1])-dy*(v[0]-a[0])) <= tol*math.Hypot(dx, dy)
		}
		if !near {
			out = append(out, ring[i])
			last = i
		}
	}
	if len(out) < 4 {
		return ring
	}
	return out
}
