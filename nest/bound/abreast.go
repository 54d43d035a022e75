package bound

import (
	"slices"

	"gonum.org/v1/gonum/floats"
)

// A line across the cloth meets pieces one beside another, and from each to the next it is
// at least the step that their outlines need, however little of them lies on that line: what
// the shaft of a trumpet leaves free may be of no use to any hem. So every way of a piece is
// cut into slices by lines across, and each slice has a worth for every mm of it. Where no
// chain of slices that fit side by side on one line is worth more than 1, a marker is at
// least as long as what all pieces are worth, each in its cheapest way. Chords alone say
// less: they let neighbours be as near as they are on that one line.
//
// The best worths are a linear program with a row a slice and a column a chain. Chains that
// are worth too much are found as longest paths over steps, and added. Source of such columns:
// P. C. Gilmore & R. E. Gomory, A linear programming approach to the cutting-stock problem,
// Operations Research 9 (1961).

// The budget of looking for worths: rounds, and those in which nothing may be gained as long as
// nothing is found that is not known yet; pivots of each linear program; and steps looked at in
// chains, of which one takes about a nanosecond: so many until then, and as many again afterwards.
const (
	abreastRounds = 150
	abreastTrials = 25
	abreastPivots = 2000
	abreastWork   = 1 << 26
)

// abreastFrom is the share of the length that is known at which the first program of many ways of pieces
// is: for lengths that are far off, their worths are not found.
const abreastFrom = 0.6

// abreastRise is the least part by which a length must be raised to begin a new program,
// which is for one length.
const abreastRise = 2e-3

// abreast adds the bound of steps from piece to piece on lines across.
func (f *finder) abreast(s *setting) {
	t := s.sliced(f.ctx)
	if t == nil {
		return
	}
	length, worth := f.worths(t)
	if worth == nil || length*(1-safety) <= f.best {
		return
	}
	b := newBound(Abreast, length)
	b.Certificate.Axis, b.Certificate.Gap = LinesAcross, s.gap
	for k, v := range worth {
		if v > 0 {
			l := t.slices[k]
			b.Certificate.Slices = append(b.Certificate.Slices,
				Slice{Outline: s.items[l.item].ways[l.way].ring, From: l.from, To: l.to, Worth: v})
		}
	}
	b.Pieces = s.names(t.scarce(worth))
	f.add(b)
}

// worths looks for the worths, per mm of each slice, by which all pieces are worth most. No
// chain is worth more than 1.
func (f *finder) worths(t *sliced) (length float64, worth []float64) {
	pools, chains := t.pools()
	work := abreastWork
	at := f.best // the length that the program is for
	if t.many {
		at *= abreastFrom
	}
	m := newMaster(len(t.slices), append(slices.Clone(t.counts), at), append(pools, chains))
	gained := 0 // the round in which something was
	for round := range abreastRounds {
		m.optimise(abreastPivots)
		if f.stopped() || m.fullest() < 1e-9 || m.pivots >= abreastPivots ||
			round-gained > abreastTrials && length < f.best {
			break
		}
		rows, values := m.dual()
		added := false
		tries := [][]float64{rows}
		if worth != nil {
			tries = append(tries, halfway(rows, worth))
		}
		for _, try := range tries {
			most, dearest := t.dearest(try, &work)
			if most <= 0 {
				continue
			}
			if l := t.need(try) / most; l > length {
				length, worth, gained = l, scaled(try, 1/most), round
			}
			for _, c := range dearest {
				if floats.Dot(rows, c) < values[len(pools)]-1e-9 {
					chains, added = append(chains, c), true
				}
			}
		}
		if work <= 0 && length < f.best || work <= -abreastWork {
			break
		}
		if length > at*(1+abreastRise) {
			at = length
			m = newMaster(len(t.slices), append(slices.Clone(t.counts), at), append(pools, chains))
			continue
		}
		if !added {
			break
		}
		m.pools[len(pools)] = chains
	}
	return length, worth
}

// halfway is the middle of prices and worths, both scaled to sum to 1.
func halfway(a, b []float64) []float64 {
	sumA, sumB := 0.0, 0.0
	for i := range a {
		sumA, sumB = sumA+a[i], sumB+b[i]
	}
	out := make([]float64, len(a))
	for i := range a {
		out[i] = a[i]/sumA/2 + b[i]/sumB/2
	}
	return out
}

func scaled(a []float64, by float64) []float64 {
	out := make([]float64, len(a))
	for i, v := range a {
		out[i] = v * by
	}
	return out
}

// pools returns what the program begins with: of each item a column a way, what it needs of
// every slice, mm; and chains of one slice alone as often as it fits, which offer that.
func (t *sliced) pools() (pools [][]column, chains []column) {
	for i, ways := range t.ways {
		var pool []column
		for k := range ways {
			c := make(column, len(t.slices))
			for n, l := range t.slices {
				if l.item == i && l.way == k {
					c[n] = l.to - l.from
				}
			}
			pool = append(pool, c)
		}
		pools = append(pools, pool)
	}
	for n, l := range t.slices {
		c := make(column, len(t.slices))
		for at := l.first; at <= l.last; at += t.steps[n][n] {
			c[n]--
		}
		chains = append(chains, c)
	}
	return pools, chains
}

// need is what all pieces are worth at the least, mm.
func (t *sliced) need(worth []float64) float64 {
	sum := 0.0
	for i, each := range t.each(worth) {
		sum += t.counts[i] * slices.Min(each)
	}
	return sum
}

// each is what every way of each item is worth.
func (t *sliced) each(worth []float64) [][]float64 {
	out := make([][]float64, len(t.ways))
	for i := range out {
		out[i] = make([]float64, len(t.ways[i]))
	}
	for n, l := range t.slices {
		out[l.item][l.way] += worth[n] * (l.to - l.from)
	}
	return out
}

// scarce returns the items that a tenth of all need is of, or more.
func (t *sliced) scarce(worth []float64) []int {
	all := t.need(worth)
	var out []int
	for i, each := range t.each(worth) {
		if t.counts[i]*slices.Min(each) > all/10 {
			out = append(out, t.items[i])
		}
	}
	return out
}
