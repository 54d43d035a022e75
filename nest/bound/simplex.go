package bound

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// master is a linear program of covering: of each item's columns, a convex
// combination is chosen so that the fullest line is least full.
//
//	minimise z with sum over columns of share*load <= z on every line,
//	shares of each item summing to its count, shares >= 0
//
// Its dual variables are the prices of the lines, which sum to 1, and the worth
// of each item. Solved by the revised simplex method with an explicit inverse;
// whatever it returns is judged elsewhere, so that it need not be trusted.
type master struct {
	lines  int
	counts []float64
	pools  [][]column // of each item
	basis  []entry
	inv    [][]float64 // inverse of the basis
	rhs    []float64   // values of the basic variables
	full   int         // row at which z is basic, from the start to the end
	pivots int
	next   int // item to look at first
}

// column is the load of one place of an item on the lines.
type column []float64

// entry names a basic variable: a column of an item, the slack of a line, z, or
// the artificial variable an item begins with.
type entry struct {
	kind  entryKind
	item  int
	index int
}

type entryKind uint8

const (
	slackEntry entryKind = iota
	fullEntry            // z
	columnEntry
	artificialEntry
)

// newMaster begins with the first column of every pool.
func newMaster(lines int, counts []float64, pools [][]column) *master {
	m := &master{lines: lines, counts: counts, pools: pools}
	size := lines + len(counts)
	m.inv = make([][]float64, size)
	m.rhs = make([]float64, size)
	m.basis = make([]entry, size)
	for r := range m.inv {
		m.inv[r] = make([]float64, size)
		m.inv[r][r] = 1
		m.basis[r] = entry{kind: slackEntry, index: r}
		if i := r - lines; i >= 0 {
			m.rhs[r] = counts[i]
			m.basis[r] = entry{kind: artificialEntry, item: i}
		}
	}
	for i := range counts {
		m.pivot(lines+i, m.image(pools[i][0], i), entry{kind: columnEntry, item: i})
	}
	for r := range lines {
		if m.rhs[r] < m.rhs[m.full] {
			m.full = r
		}
	}
	m.pivot(m.full, m.fullImage(), entry{kind: fullEntry})
	return m
}

// image returns the inverse times a column of an item.
func (m *master) image(c column, item int) []float64 {
	out := make([]float64, len(m.inv))
	for r, row := range m.inv {
		out[r] = row[m.lines+item] + floats.Dot(row[:m.lines], c)
	}
	return out
}

// fullImage returns the inverse times the column of z.
func (m *master) fullImage() []float64 {
	out := make([]float64, len(m.inv))
	for r, row := range m.inv {
		out[r] = -floats.Sum(row[:m.lines])
	}
	return out
}

// pivot brings a variable with the given image into the basis at row r.
func (m *master) pivot(r int, image []float64, in entry) {
	m.pivots++
	scale := 1 / image[r]
	row := m.inv[r]
	floats.Scale(scale, row)
	m.rhs[r] *= scale
	for q, other := range m.inv {
		f := image[q]
		if q == r || f == 0 {
			continue
		}
		floats.AddScaled(other, -f, row)
		m.rhs[q] -= f * m.rhs[r]
	}
	m.basis[r] = in
}

// dual returns the prices of the lines and the worth of each item: the row of
// the inverse at z, whose cost alone is not nought.
func (m *master) dual() (prices, worth []float64) {
	row := m.inv[m.full]
	prices = make([]float64, m.lines)
	for k := range prices {
		prices[k] = max(-row[k], 0)
	}
	return prices, row[m.lines:]
}

// fullest returns z.
func (m *master) fullest() float64 { return m.rhs[m.full] }

// leastGain is how much worth a column must gain to be taken.
const leastGain = 1e-9

// optimise pivots until no column gains, or the number of pivots is used up.
func (m *master) optimise(limit int) {
	for m.pivots < limit {
		in, gains := m.candidate()
		if !gains || !m.enter(in) {
			return
		}
	}
}

// candidate returns a variable that gains: a slack, or else the best column of
// the first item that has one, after the item of the time before.
func (m *master) candidate() (in entry, gains bool) {
	gain := leastGain
	for k, v := range m.inv[m.full][:m.lines] { // a slack gains what its line's price is below 0
		if v > gain {
			in, gain, gains = entry{kind: slackEntry, index: k}, v, true
		}
	}
	if gains {
		return in, true
	}
	prices, worth := m.dual()
	for n := range m.counts {
		i := (m.next + n) % len(m.counts)
		for c, col := range m.pools[i] {
			if g := worth[i] - floats.Dot(prices, col); g > gain {
				in, gain, gains = entry{kind: columnEntry, item: i, index: c}, g, true
			}
		}
		if gains {
			m.next = i + 1
			return in, true
		}
	}
	return in, false
}

// enter pivots a variable in at the row that limits it first.
func (m *master) enter(in entry) bool {
	var image []float64
	if in.kind == slackEntry {
		image = make([]float64, len(m.inv))
		for r, row := range m.inv {
			image[r] = row[in.index]
		}
	} else {
		image = m.image(m.pools[in.item][in.index], in.item)
	}
	leave, ratio := -1, math.Inf(1)
	for r, v := range image {
		if v <= 1e-9 {
			continue
		}
		q := max(m.rhs[r], 0) / v
		if q < ratio || q == ratio && v > image[leave] {
			leave, ratio = r, q
		}
	}
	if leave < 0 || leave == m.full { // z cannot fall to nought: the optimum is there
		return false
	}
	m.pivot(leave, image, in)
	return true
}
