package bound

import (
	"slices"

	"github.com/paulmach/orb"
)

// row adds the bounds of pieces that must lie in a row.
func (f *finder) row(s *setting) {
	for _, r := range s.rows() {
		if f.done() {
			return
		}
		length := r.byNeighbours()
		if length < f.enough {
			length = max(length, r.byTwo(mostRanges, &f.rowWork))
		}
		b := newBound(Row, length)
		b.Certificate.Gap, b.Certificate.At = s.gap, r.at
		b.Pieces = s.names(r.items)
		f.add(b)
	}
}

// columns looks for the greatest length on which pieces that must all cross a line
// across the cloth lie side by side and need more than its width: rows of the same
// cloth, laid crosswise.
func (f *finder) columns(s *setting) {
	cross := s.crosswise()
	for _, try := range []struct {
		tolerance float64
		length    func(row) float64
	}{
		{1e-9, row.byNeighbours},
		{1e-3, func(r row) float64 { return r.byTwo(trialRanges, &f.rowWork) }},
	} {
		_, l, ok := f.climb(try.tolerance, func(length float64) (tariff, lines) {
			share, _ := cross.fullestRow(length, s.width, try.length)
			return tariff{share: share}, lines{length: length}
		})
		if ok {
			b := newBound(Column, l.length)
			_, r := cross.fullestRow(l.length, s.width, row.byNeighbours)
			b.Certificate.Axis, b.Certificate.Gap, b.Certificate.At = LinesAcross, s.gap, r.at
			b.Pieces = cross.names(r.items)
			f.add(b)
		}
	}
}

// crosswise returns the setting with along and across exchanged; its width is set
// to each trial length.
func (s *setting) crosswise() *setting {
	out := &setting{gap: s.gap}
	for _, it := range s.items {
		c := item{name: it.name, count: it.count}
		for _, w := range it.ways {
			ring := make(orb.Ring, len(w.ring))
			for i, v := range w.ring {
				ring[len(ring)-1-i] = orb.Point{v[1], v[0]}
			}
			c.ways = append(c.ways, way{ring: ring, along: w.across, across: w.along})
		}
		out.items = append(out.items, c)
	}
	return out
}

// fullestRow returns the row of a cloth of the given width that takes up most of a
// length, and its share of it.
func (s *setting) fullestRow(width, length float64, measure func(row) float64) (share float64, fullest row) {
	fit := &setting{width: width, gap: s.gap}
	for _, it := range s.items {
		it.ways = slices.DeleteFunc(slices.Clone(it.ways), func(w way) bool { return w.across > width })
		fit.items = append(fit.items, it)
	}
	for _, r := range fit.rows() {
		if v := measure(r) / length; v > share {
			share, fullest = v, r
		}
	}
	return share, fullest
}

// names lists items by name.
func (s *setting) names(items []int) []string {
	var out []string
	for _, i := range items {
		out = append(out, s.items[i].name)
	}
	return out
}
