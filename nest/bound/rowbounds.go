package bound

import (
	"slices"

	"github.com/paulmach/orb"
)

// row adds the bounds of pieces that must lie in a row.
func (f *finder) row(s *setting) {
	for _, whole := range []bool{false, true} {
		if f.stopped() {
			return
		}
		for r := range f.rows(s, whole, whole) {
			if whole && r.convex && !r.many {
				continue // looked at before
			}
			b := newBound(Row, f.measure(r, mostRanges))
			b.Certificate.Gap, b.Certificate.At, b.Certificate.Repeat = s.gap, r.at, s.repeat[0]
			b.Pieces = s.names(r.items)
			if f.add(b); f.stopped() {
				return
			}
		}
	}
}

// measure returns a length that no row of these pieces is shorter than, by the
// next but one too when ranges are given.
func (f *finder) measure(r row, ranges int) float64 {
	length := 0.0
	switch {
	case r.many:
		return f.byPenalties(r)
	case r.repeat > 0: // what is rounded up to whole repeats is not concave any more
		length = r.byNeighbours(r.rangesFor(max(ranges, trialRanges), &f.rowWork))
	case r.convex:
		length = r.byNeighbours(0)
	}
	if ranges > 0 {
		length = max(length, r.byTwo(ranges, &f.rowWork))
	}
	if length == 0 && f.rowWork > 0 { // the next but one takes too much work
		length = r.byNeighbours(r.rangesFor(fewestRanges, &f.rowWork))
	}
	return length
}

// columns looks for the greatest length on which pieces that must all cross a line
// across the cloth lie side by side and need more than its width: rows of the same
// cloth, laid crosswise.
func (f *finder) columns(s *setting) {
	cross := s.crosswise()
	for _, try := range []struct {
		whole     bool
		ranges    int
		tolerance float64
	}{{false, 0, 1e-9}, {true, trialRanges, 1e-3}} {
		var fullest row // of the last length that is proved impossible
		_, l, ok := f.climb(try.tolerance, func(length float64) (priceList, lines) {
			share, r := f.fullestRow(cross.fitting(length), s.width, try.whole, try.ranges)
			if share > beyond {
				fullest = r
			}
			return priceList{share: share}, lines{length: length}
		})
		if ok {
			b := newBound(Column, l.length)
			b.Certificate.Axis, b.Certificate.Gap, b.Certificate.At = LinesAcross, s.gap, fullest.at
			b.Certificate.Repeat = s.repeat[1]
			b.Pieces = s.names(fullest.items)
			f.add(b)
		}
	}
}

// crosswise returns the setting with along and across exchanged; its width is set
// to each trial length.
func (s *setting) crosswise() *setting {
	out := &setting{gap: s.gap, repeat: [2]float64{s.repeat[1], s.repeat[0]}, tied: s.tied}
	for _, it := range s.items {
		c := item{name: it.name, count: it.count, group: it.group}
		for _, w := range it.ways {
			ring := make(orb.Ring, len(w.ring))
			for i, v := range w.ring {
				ring[len(ring)-1-i] = orb.Point{v[1], v[0]}
			}
			point := orb.Point{w.point[1], w.point[0]}
			c.ways = append(c.ways, way{ring: ring, along: w.across, across: w.along, point: point})
		}
		out.items = append(out.items, c)
	}
	return out
}

// fitting returns the setting with another width, without the ways that do not fit.
func (s *setting) fitting(width float64) *setting {
	out := &setting{width: width, gap: s.gap, repeat: s.repeat, tied: s.tied}
	for _, it := range s.items {
		it.ways = slices.DeleteFunc(slices.Clone(it.ways), func(w way) bool { return w.across > width })
		out.items = append(out.items, it)
	}
	return out
}

// fullestRow returns the row that takes up most of a length, and its share of it.
func (f *finder) fullestRow(s *setting, length float64, whole bool, ranges int) (share float64, fullest row) {
	for r := range f.rows(s, whole, false) {
		if v := f.measure(r, ranges) / length; v > share {
			share, fullest = v, r
		}
	}
	return share, fullest
}

// names lists items by name.
func (s *setting) names(items []int) []string {
	var out []string
	for _, i := range items {
		if !slices.Contains(out, s.items[i].name) { // of several groups
			out = append(out, s.items[i].name)
		}
	}
	return out
}
