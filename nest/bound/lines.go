package bound

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// lines are all lines of one axis on a cloth of a trial length: what pieces take
// of them, in shares of a line, seen through functions. Lines lie at 0 to size;
// every layer, one for each function, offers 1 on every line.
type lines struct {
	axis   Axis
	length float64 // trial length, mm
	size   float64 // mm, one gap more than the cloth
	line   float64 // length of a line, mm, one gap more than the cloth's
	layers []function
	items  []lineItem
}

// lineItem is an item with its options, or a forbidden zone with one.
type lineItem struct {
	name    string
	count   float64
	options []option
}

// option is a way an item may lie: its profiles, one for each layer, may move by
// lo to hi.
type option struct {
	lo, hi float64
	shares []profile
}

// newLines draws the lines for a trial length; tol is how far profiles may be
// below the truth, mm. It returns false when some piece fits in no way: then the
// length is impossible.
func (s *setting) newLines(axis Axis, length float64, layers []function, tol float64) (lines, bool) {
	l := lines{axis: axis, length: length, size: s.width + s.gap, line: length + s.gap, layers: layers}
	if axis == LinesAcross {
		l.size, l.line = l.line, l.size
	}
	for i, it := range s.items {
		li := lineItem{name: it.name, count: float64(it.count)}
		for k, w := range it.ways {
			extent := w.across
			if axis == LinesAcross {
				extent = w.along
			}
			if w.along > length {
				continue
			}
			o := option{lo: s.gap / 2, hi: l.size - s.gap/2 - extent}
			o.hi = max(o.hi, o.lo)
			o.shares = l.shares(s.profile(i, k, axis, tol))
			if !slices.ContainsFunc(li.options, o.same) {
				li.options = append(li.options, o)
			}
		}
		if len(li.options) == 0 {
			return l, false
		}
		l.items = append(l.items, li)
	}
	for _, zone := range s.zones {
		if o, ok := l.zone(zone, s.width); ok {
			l.items = append(l.items, lineItem{name: "a flaw", count: 1, options: []option{o}})
		}
	}
	return l, true
}

// shares returns what a profile takes of each line through each function.
func (l lines) shares(p profile) []profile {
	out := make([]profile, len(l.layers))
	for i, f := range l.layers {
		out[i] = f.on(p, l.line)
	}
	return out
}

// zone returns a forbidden zone as an item that cannot move, cut to the cloth.
// It is counted only where no gap is kept: the setting has none then.
func (l lines) zone(ring orb.Ring, width float64) (option, bool) {
	cut := clip(ring, l.length, width)
	if len(cut) < 4 || plane.Area(cut) <= 0 {
		return option{}, false
	}
	return option{shares: l.shares(chords(cut, l.axis))}, true
}

// same says whether two options cannot be told apart.
func (o option) same(other option) bool {
	return o.lo == other.lo && o.hi == other.hi && slices.EqualFunc(o.shares, other.shares, func(a, b profile) bool {
		return slices.Equal(a.at, b.at) && slices.Equal(a.left, b.left) && slices.Equal(a.right, b.right)
	})
}

// balanced says whether turning the cloth around leaves every item as it is,
// as nearly as matters for a guess: then prices alike on both halves do.
func (l lines) balanced() bool {
	for _, it := range l.items {
		for _, o := range it.options {
			if !slices.ContainsFunc(it.options, func(q option) bool { return o.turned(q, l.size) }) {
				return false
			}
		}
	}
	return true
}

func (o option) turned(q option, size float64) bool {
	near := func(a, b float64) bool { return math.Abs(a-b) < 1e-3*(1+math.Abs(a)) }
	a, b := o.shares[0], q.shares[0]
	span := a.at[0] + a.at[len(a.at)-1]
	if !near(o.lo+o.hi+span, size) {
		return false
	}
	for k := range 17 {
		t := a.at[0] + (a.at[len(a.at)-1]-a.at[0])*float64(k)/16
		if !near(a.upTo(t, a.slab(t)), b.total()-b.upTo(span-t, b.slab(span-t))) {
			return false
		}
	}
	return true
}

// need returns what all items take at the least when the layers have prices per
// mm between the borders, and what the lines offer; work as cheapest counts it. Of
// items in very many ways that takes too long, nothing is known then.
func (l lines) need(borders []float64, prices [][]float64) (need, offer float64, work int) {
	for _, it := range l.items {
		least := math.Inf(1)
		for _, o := range it.options {
			_, cost, w := cheapest(o.terms(borders, prices), o.lo, o.hi)
			least = min(least, cost)
			if work += w; work > priceWork {
				return 0, 1, work
			}
		}
		need += it.count * max(least, 0)
	}
	for _, layer := range prices {
		for k, price := range layer {
			offer += price * (borders[k+1] - borders[k])
		}
	}
	return need, offer, work
}

func (o option) terms(borders []float64, prices [][]float64) []term {
	var out []term
	for i := range o.shares {
		out = terms(out, &o.shares[i], borders, prices[i])
	}
	return out
}
