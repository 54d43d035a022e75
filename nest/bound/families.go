package bound

import (
	"math"
	"slices"
)

// proposal is prices for a trial length; share is beyond 1 when they prove the
// length impossible.
type proposal func(length float64) (priceList, lines)

// beyond is the share of all lines above which more is needed than there is: sums
// of a few thousand shares are exact to far better than the 1e-10 given away.
const beyond = 1 + 1e-10

// climb looks for the greatest length that a proposal proves impossible, from the
// best so far upward, within a relative tolerance.
func (f *finder) climb(tolerance float64, propose proposal) (best priceList, on lines, ok bool) {
	low, high := f.best*(1+max(tolerance/2, 1e-9)), math.Inf(1)
	trial := low
	for range 60 {
		if f.stopped() || f.work < -priceWork {
			break
		}
		t, l := propose(trial)
		if t.share > beyond {
			best, on, ok = t, l, true
			low = trial
		} else {
			high = trial
			if !ok {
				break
			}
		}
		if high <= low*(1+tolerance) {
			break
		}
		step := low * max(best.share-1, tolerance)
		trial = min(low+1.2*step, (low+high)/2)
		if math.IsInf(high, 1) {
			trial = low + 1.2*step
		}
	}
	return best, on, ok
}

// sweep tries functions with all lines at one price.
func (f *finder) sweep(s *setting) {
	for _, axis := range []Axis{LinesAlong, LinesAcross} {
		tried := make(map[Function]bool)
		for range maxSweeps {
			if f.stopped() {
				return
			}
			fn, share := s.bestUniform(axis, f.best*(1+1e-7), tried)
			if share <= beyond {
				break
			}
			tried[fn.Function] = true
			t, l, ok := f.climb(1e-12, func(length float64) (priceList, lines) { return s.uniform(axis, length, fn) })
			if ok {
				f.addPriced(Chords, s, l, t)
			}
		}
	}
}

// maxSweeps is how many functions are climbed with on each axis; each begins where
// the one before ended.
const maxSweeps = 6

// uniform proposes one price for all lines.
func (s *setting) uniform(axis Axis, length float64, fn function) (priceList, lines) {
	l, ok := s.newLines(axis, length, []function{fn}, s.width*fineTolerance)
	if !ok {
		return priceList{}, l
	}
	t := priceList{borders: []float64{0, l.size}, prices: [][]float64{{1 / l.size}}}
	for _, it := range l.items {
		least := math.Inf(1)
		for _, o := range it.options {
			least = min(least, o.shares[0].total())
		}
		t.share += it.count * least / l.size
	}
	return t, l
}

// bestUniform returns the function with the greatest share at a length.
func (s *setting) bestUniform(axis Axis, length float64, tried map[Function]bool) (best function, share float64) {
	l, ok := s.newLines(axis, length, []function{identity}, s.width*coarseTolerance)
	if !ok {
		return identity, 0
	}
	for _, fn := range append(l.candidates(), identity) {
		if tried[fn.Function] {
			continue
		}
		need := 0.0
		for _, it := range l.items {
			least := math.Inf(1)
			for _, o := range it.options {
				least = min(least, fn.on(o.shares[0], 1).total())
			}
			need += it.count * least / l.size
		}
		if need > share {
			best, share = fn, need
		}
	}
	return best, share
}

// maxCritical is the largest number of shares of a line at which a sweep takes
// its parameters.
const maxCritical = 48

// candidates returns functions with the parameters at which they change for
// these lines: shares of a line at the borders of profiles.
func (l lines) candidates() []function {
	var shares []float64
	for _, it := range l.items {
		for _, o := range it.options {
			shares = append(append(shares, o.shares[0].left...), o.shares[0].right...)
		}
	}
	slices.Sort(shares)
	shares = slices.CompactFunc(shares, func(a, b float64) bool { return math.Abs(b-a) < 1e-6 })
	out := []function{}
	for k := 1; k <= 12; k++ {
		out = append(out, rounding(k))
	}
	for k := range min(len(shares), maxCritical) {
		x := shares[k*len(shares)/min(len(shares), maxCritical)]
		for _, p := range []float64{x * (1 - 1e-9), 1 - x*(1-1e-9)} {
			if p > 1e-3 && p < 0.5 {
				out = append(out, threshold(p), counting(p))
			}
		}
	}
	return out
}

// Tolerances of profiles in parts of the cloth's width: while prices are looked
// for, and when they are judged.
const (
	coarseTolerance = 2e-4
	fineTolerance   = 2e-5
)

// price looks for prices along and across, each in an equal share of the work that is left.
func (f *finder) price(s *setting) {
	plain, mixed := []function{identity}, []function{identity, rounding(1), rounding(2)}
	ways := []func(){
		// Prices of lines along do not depend on the length: the best are found at once.
		func() { f.priceWith(s, LinesAlong, plain, 256, math.Inf(1)) },
		func() { f.priceWith(s, LinesAlong, mixed, 32, beyond) },
		func() { f.priceWith(s, LinesAcross, plain, 128, beyond) },
		func() { f.priceWith(s, LinesAcross, mixed, 32, beyond) },
	}
	for k, look := range ways {
		f.within(len(ways)-k, look)
	}
}

// priceWith looks for prices in the given number of cells and layers, which at
// each trial length need only be good enough to pass want.
func (f *finder) priceWith(s *setting, axis Axis, layers []function, cells int, want float64) {
	if f.stopped() || f.work <= 0 {
		return
	}
	b := pricing{cells: cells, places: 33, rounds: 30, pivots: 3000, want: want, work: &f.work, known: new(known)}
	t, l, ok := f.climb(3e-4, func(length float64) (priceList, lines) {
		l, fits := s.newLines(axis, length, layers, s.width*coarseTolerance)
		if !fits {
			return priceList{}, l
		}
		return l.search(b), l
	})
	if ok {
		f.refine(s, l, t)
	}
}

// refine raises the length as far as prices found for a shorter one prove it, on
// finer profiles, and adds the bound.
func (f *finder) refine(s *setting, l lines, t priceList) {
	size := l.size
	best, on, ok := f.climb(1e-8, func(length float64) (priceList, lines) {
		l, _ := s.newLines(l.axis, length, l.layers, s.width*fineTolerance)
		u := priceList{prices: t.prices}
		for _, b := range t.borders {
			u.borders = append(u.borders, b*(l.size/size))
		}
		need, offer, work := l.need(u.borders, u.prices)
		f.work -= work
		u.share = need / offer
		return u, l
	})
	if ok {
		f.addPriced(Prices, s, on, best)
	}
}

// addPriced adds the bound that prices prove.
func (f *finder) addPriced(kind Kind, s *setting, l lines, t priceList) {
	b := newBound(kind, l.length)
	b.Certificate.Axis, b.Certificate.Gap = l.axis, s.gap
	b.Certificate.Borders, b.Certificate.Prices, b.Certificate.Need = t.borders, t.prices, t.share
	for _, fn := range l.layers {
		b.Certificate.Functions = append(b.Certificate.Functions, fn.Function)
	}
	if exchanged := s.exchanges(); len(exchanged) > 0 {
		b.Kind, b.Pieces, b.Certificate.Exchanged = OneWay, s.idle(), exchanged
	} else if kind == Prices {
		b.Pieces = l.mustCross(b.Certificate.band())
	}
	f.add(b)
}
