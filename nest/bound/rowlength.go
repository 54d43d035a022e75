package bound

import "math"

// counter numbers the states of a row half laid: how many copies of each item are.
type counter struct {
	counts []int
	weight []int // of one copy of an item in the number of a state
	states int
}

func newCounter(counts []int) counter {
	c := counter{counts: counts, states: 1}
	for _, n := range counts {
		c.weight = append(c.weight, c.states)
		c.states *= n + 1
	}
	return c
}

// full says whether all copies of an item are laid in a state.
func (c counter) full(state, item int) bool {
	return state/c.weight[item]%(c.counts[item]+1) == c.counts[item]
}

// byNeighbours returns the length of the shortest row, each piece clear of the
// next, or one below it where the places of a way are split into ranges.
func (r row) byNeighbours(ranges int) float64 {
	places := r.placeRanges(ranges)
	steps, c := r.table(places), newCounter(r.counts)
	// place[k][a] is the least place along the cloth of the last piece, in range a.
	place := make([][]float64, c.states)
	for k := range place {
		place[k] = infinities(len(places))
	}
	for a, s := range places {
		place[c.weight[s.item]][a] = r.ways[s.way].start
	}
	for k := range c.states - 1 {
		for a, x := range place[k] {
			if math.IsInf(x, 1) {
				continue
			}
			for b, s := range places {
				if !c.full(k, s.item) {
					to := place[k+c.weight[s.item]]
					to[b] = min(to[b], x+steps[a][b])
				}
			}
		}
	}
	least := math.Inf(1)
	for a, x := range place[c.states-1] {
		least = min(least, x+places[a].extent)
	}
	return least
}

// rowWork is the number of steps looked at in one row with the next but one, and
// rowsWork in all rows of a problem; a step takes a few nanoseconds.
const (
	rowWork  = 1 << 23
	rowsWork = 1 << 24
)

// The fewest ranges of places with which the next but one adds anything; the most
// that still add something to speak of; and as many as one trial of many is worth.
const (
	fewestRanges = 6
	mostRanges   = 48
	trialRanges  = 16
)

// byTwo returns a length below that of the shortest row, each piece clear of the
// next and the next but one, or 0 when that takes too much work; places of a way
// are split into at most the given number of ranges. Of the last two pieces the
// least places are kept each by itself. The steps looked at come off work.
func (r row) byTwo(most int, work *int) float64 {
	c := newCounter(r.counts)
	ranges := min(int(math.Cbrt(float64(max(0, min(rowWork, *work)/c.states))))/len(r.ways), most)
	total := 0
	for _, k := range r.counts {
		total += k
	}
	if ranges < fewestRanges || total < 3 {
		return 0
	}
	places := r.placeRanges(ranges)
	n := len(places)
	*work -= c.states * n * n * n
	steps := r.table(places)
	before, last := make([][]float64, c.states), make([][]float64, c.states)
	grid := func(k int) {
		if before[k] == nil {
			before[k], last[k] = infinities(n*n), infinities(n*n)
		}
	}
	for a, s := range places {
		for b, t := range places {
			k := c.weight[s.item] + c.weight[t.item]
			if s.item == t.item && c.counts[s.item] < 2 {
				continue
			}
			grid(k)
			first, least := r.ways[s.way].start, r.ways[t.way].start
			before[k][a*n+b] = min(before[k][a*n+b], first)
			last[k][a*n+b] = min(last[k][a*n+b], max(least, first+steps[a][b]))
		}
	}
	for k := range c.states - 1 {
		if before[k] == nil {
			continue
		}
		for l, s := range places {
			if c.full(k, s.item) {
				continue
			}
			to := k + c.weight[s.item]
			grid(to)
			r.follow(places, l, steps, before[k], last[k], before[to], last[to])
		}
	}
	least := math.Inf(1)
	for a, s := range places {
		for b, t := range places {
			i := a*n + b
			least = min(least, max(before[c.states-1][i]+s.extent, last[c.states-1][i]+t.extent))
		}
	}
	return least
}

// follow lays a piece in range l of places behind every two last pieces.
func (r row) follow(places []placeRange, l int, steps [][]float64, before, last, toBefore, toLast []float64) {
	n, start := len(places), r.ways[places[l].way].start
	for i := range n {
		matched, step := r.match(places[i].way, places[l].way), steps[i]
		for j, x := range last[i*n : i*n+n] {
			if x > math.MaxFloat64 {
				continue
			}
			at, third := j*n+l, step[l]
			if over := step[j] + steps[j][l]; matched && over > third {
				third = r.onRepeat(places[i].way, places[l].way, over-tiny)
			}
			toBefore[at] = min(toBefore[at], x)
			toLast[at] = min(toLast[at], max(start, before[i*n+j]+third, x+steps[j][l]))
		}
	}
}

func infinities(n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = math.Inf(1)
	}
	return out
}
