package bound

import (
	"math"
	"slices"

	"yardlay/shapes/plane"
)

// The best prices are a linear program: the prices of all cells sum to 1, every
// item is worth no more than it costs at any place, and the worth of all items is
// to be greatest. Its dual asks for shares of places in which the fullest line is
// least full, which master solves over some places of each item; cheapest then
// finds the places that are missing, and judges the prices at the same time.

// pricing is how hard prices are looked for.
type pricing struct {
	cells  int     // between which prices may differ
	places int     // of each option to begin with
	rounds int     // of adding places
	pivots int     // of the linear program in all
	want   float64 // share of all lines at which to stop
	work   *int    // what is left of the work of judging, as cheapest counts it
	known  *known  // of a trial length before; changed
}

// known is what one search leaves to the next, at another length.
type known struct {
	places [][]spot // of each item, nil at first
	cells  int      // that were enough
}

// priceList is prices per mm of each layer between borders, and the share of all
// lines that the pieces need at the least: above 1 no marker exists.
type priceList struct {
	borders []float64
	prices  [][]float64
	share   float64
}

// cells returns the borders of cells on lines of the given size, alike from both
// ends.
func cells(size float64, n int) []float64 {
	out := make([]float64, n+1)
	for k := range out {
		out[k] = size * float64(k) / float64(n)
	}
	return out
}

// How many cells are begun with: one for so many of those that are asked for; and how many times as many are next.
const (
	coarser       = 4
	refined       = 2
	worthRefining = 1.001 // times what fewer cells have proved: of less, yet more bring nothing
)

// program ties a master to the lines it stands for.
type program struct {
	lines   lines
	borders []float64
	row     []int // row of the master for each layer and cell
	rows    int
	width   []float64 // of all cells of a row together
	places  [][]spot  // of each item, those of the master's columns
	master  *master
	work    *int
}

// spot is a place of an item in one of its options, by the share of its room that lies before it.
type spot struct {
	option int
	share  float64
}

// on returns where that is.
func (s spot) on(o option) float64 { return o.lo + (o.hi-o.lo)*s.share }

// spots returns so many places of each option, for each item.
func (l lines) spots(places int) [][]spot {
	out := make([][]spot, len(l.items))
	for i, it := range l.items {
		for k, o := range it.options {
			for n := range places {
				out[i] = append(out[i], spot{k, float64(n) / float64(places-1)})
				if o.hi <= o.lo {
					break
				}
			}
		}
	}
	return out
}

// newProgram sets up the places to begin with.
func newProgram(l lines, borders []float64, places [][]spot, work *int) *program {
	g := &program{lines: l, borders: borders, places: places, work: work}
	n := len(borders) - 1
	mirrored := l.balanced()
	for range l.layers {
		for k := range n {
			r := g.rows + k
			if mirrored {
				r = g.rows + min(k, n-1-k)
			}
			g.row = append(g.row, r)
		}
		g.rows += n
		if mirrored {
			g.rows -= n / 2
		}
	}
	g.width = make([]float64, g.rows)
	for i, r := range g.row {
		g.width[r] += borders[i%n+1] - borders[i%n]
	}
	var counts []float64
	var pools [][]column
	for i, it := range l.items {
		var pool []column
		for _, s := range places[i] {
			o := it.options[min(s.option, len(it.options)-1)] // of a shorter length there may be fewer
			pool = append(pool, g.load(o, s.on(o)))
		}
		counts, pools = append(counts, it.count), append(pools, pool)
	}
	g.master = newMaster(g.rows, counts, pools)
	return g
}

// load returns how full each row gets of an option at a place.
func (g *program) load(o option, y float64) column {
	c := make(column, g.rows)
	n := len(g.borders) - 1
	for i := range o.shares {
		p := &o.shares[i]
		before := 0.0
		for k := 0; k <= n; k++ {
			t := g.borders[k] - y
			upTo := p.upTo(t, p.slab(t))
			if k > 0 {
				c[g.row[i*n+k-1]] += upTo - before
			}
			before = upTo
		}
	}
	for r := range c {
		c[r] /= g.width[r]
	}
	return c
}

// perMM turns prices of rows into prices per mm of layers and cells.
func (g *program) perMM(rows []float64) [][]float64 {
	n := len(g.borders) - 1
	out := make([][]float64, len(g.lines.layers))
	for i, r := range g.row {
		out[i/n] = append(out[i/n], rows[r]/g.width[r])
	}
	return out
}

// search looks for prices under which the pieces need as much of all lines
// as they can, and returns the best found: in few cells at first, whose places are
// those to begin with in more. It stops when enough is found, when no prices can
// prove anything, or at the end of its budget.
func (l lines) search(b pricing) priceList {
	best := priceList{}
	if b.known.places == nil {
		*b.known = known{l.spots(b.places), max(b.cells/coarser, 1)}
	}
	for n := b.known.cells; n <= b.cells && best.share <= b.want && *b.work > 0; n *= refined {
		g, before := newProgram(l, cells(l.size, n), b.known.places, b.work), best.share
		g.improve(b, &best)
		*b.known = known{g.places, n}
		if best.share < before*worthRefining {
			break
		}
	}
	return best
}

// improve looks for better prices in the cells of a program.
func (g *program) improve(b pricing, best *priceList) {
	var kept []float64 // row prices of the best
	for range b.rounds {
		g.master.optimise(b.pivots)
		full := g.master.fullest()
		if full <= best.share || full <= b.want && !math.IsInf(b.want, 1) {
			break
		}
		rows, worth := g.master.dual()
		share, added := g.judge(rows, worth, best, &kept)
		if kept != nil && share < best.share {
			middle := make([]float64, len(rows))
			for r := range rows {
				middle[r] = (rows[r] + kept[r]) / 2
			}
			_, more := g.judge(middle, worth, best, &kept)
			added = added || more
		}
		if best.share > b.want || best.share > full*(1-1e-4) || !added || g.master.pivots >= b.pivots || *b.work <= 0 {
			break
		}
	}
}

// judge finds what the items need under row prices, keeps prices that are the
// best so far, and adds the cheapest places to the master.
func (g *program) judge(rows, worth []float64, best *priceList, kept *[]float64) (share float64, added bool) {
	prices := g.perMM(rows)
	for i, it := range g.lines.items {
		least := math.Inf(1)
		for k, o := range it.options {
			y, cost, work := cheapest(o.terms(g.borders, prices), o.lo, o.hi)
			*g.work -= work
			least = min(least, cost)
			if cost < worth[i]-1e-7 {
				g.places[i] = append(g.places[i], spot{k, (y - o.lo) / max(o.hi-o.lo, plane.Lattice)})
				g.master.pools[i] = append(g.master.pools[i], g.load(o, y))
				added = true
			}
		}
		share += it.count * max(least, 0)
	}
	offer := 0.0
	for _, p := range rows {
		offer += p
	}
	if offer > 0 {
		share /= offer
	}
	if share > best.share {
		*best = priceList{g.borders, prices, share}
		*kept = slices.Clone(rows)
	}
	return share, added
}
