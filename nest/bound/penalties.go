package bound

import (
	"math"
	"slices"
)

// Of a row of many kinds of pieces it takes too long to tell apart how many copies of each
// are laid. Then every piece has a penalty instead, which comes off the row each time that it
// is laid, and only how many pieces there are is counted: of all rows of that many pieces,
// some of which lay one kind too often and another not at all, one is least long less its
// penalties. A row of the right pieces is no shorter than that with the penalties of all its
// pieces put on again, whatever the penalties are. They are raised for what is laid too
// seldom, and lowered for what is laid too often. Source: M. Held & R. M. Karp, The
// traveling-salesman problem and minimum spanning trees, Operations Research 18 (1970).

// penaltyRounds is how often penalties are changed; penaltiesWork is the number of steps looked
// at in all rows with penalties, of which one takes about two nanoseconds.
const (
	penaltyRounds = 24
	penaltiesWork = 1 << 28
)

// penalised is a row whose pieces have penalties.
type penalised struct {
	row
	places []placeRange
	steps  [][]float64 // from range to range
	into   [][]float64 // the same, of each range those to it
	total  int         // pieces
	each   []float64   // penalties of items, mm
}

// pairs is how far along the cloth the last two pieces of a row lie at the least, less the
// penalties of all, each by itself, by the ranges of both: the last but one changes first.
type pairs struct{ before, last []float64 }

// penaltiesPay says whether a row that is not set up yet is of few enough ways for the work
// that is left.
func (f *finder) penaltiesPay(r row, s *setting) bool {
	ways, total := 0, 0
	for _, i := range r.items {
		ways += len(s.items[i].ways)
		total += s.items[i].count
	}
	return total > 2 && penaltySteps(total, fewestRanges*ways) <= f.penaltyWork
}

// penaltySteps is the number of steps that a whole search looks at.
func penaltySteps(pieces, places int) int {
	return penaltyRounds * min(pieces, mostStages) * places * places * places
}

// byPenalties returns a length that the row is not shorter than, each piece clear of the next
// and the next but one. Penalties are looked for with few ranges of places, and then with as
// many as work is left for.
func (f *finder) byPenalties(r row) float64 {
	q := penalised{row: r, each: make([]float64, len(r.items))}
	for _, n := range r.counts {
		q.total += n
	}
	ranges := fewestRanges
	length := f.search(&q, ranges, penaltyRounds)
	for ranges < mostRanges && penaltySteps(q.total, (ranges+1)*len(r.ways))/2 <= f.penaltyWork {
		ranges++
	}
	if ranges > fewestRanges {
		length = max(length, f.search(&q, ranges, penaltyRounds/2))
	}
	return length
}

// search changes penalties for some rounds, keeps the best and returns the length they prove.
func (f *finder) search(q *penalised, ranges, rounds int) float64 {
	q.places = q.placeRanges(ranges)
	q.steps = q.table(q.places)
	q.into = transposed(q.steps)
	best, size := 0.0, 0.0
	kept := q.each
	for k := 0; k < rounds && !f.stopped(); k++ {
		f.penaltyWork -= penaltySteps(q.total, len(q.places)) / penaltyRounds
		length, laid := q.least()
		if length > best {
			best, kept = length, slices.Clone(q.each)
		}
		if k == 0 {
			size = length / float64(q.total) / 4 * float64(rounds) / penaltyRounds
		}
		q.change(laid, size*math.Pow(0.85, float64(k)))
	}
	q.each = kept
	return best
}

func transposed(a [][]float64) [][]float64 {
	out := make([][]float64, len(a))
	for i := range a {
		for _, row := range a {
			out[i] = append(out[i], row[i])
		}
	}
	return out
}

// change moves the penalties of what is laid too seldom up, and of the rest down.
func (q *penalised) change(laid []int, size float64) {
	all, most := 0, 0.0
	for _, n := range laid {
		all += n
	}
	off := make([]float64, len(laid))
	for i, n := range laid {
		off[i] = float64(q.counts[i]) - float64(n)*float64(q.total)/float64(all)
		most = max(most, math.Abs(off[i]))
	}
	for i, v := range off {
		q.each[i] += size * v / max(most, 1)
	}
}

// mostStages is how many pieces a row is followed for. What one more piece adds does not
// depend on where the others lie, but on how they lie to each other alone, and is no less
// where they lie no farther back; so if no pair lies farther back by more than d than it did
// two pieces before, two more pieces take none back by more than d either, and so on.
const mostStages = 14

// least returns the length of the shortest row of so many pieces, less its penalties, with
// those of all pieces put on again, or one below it; and how often a row like it lays each item.
func (q *penalised) least() (length float64, laid []int) {
	stages := []pairs{q.first()} // of two pieces, and more
	for range min(q.total, mostStages) - 2 {
		stages = append(stages, q.follow(stages[len(stages)-1]))
	}
	end, off := len(stages)-1, 0.0
	if more := q.total - len(stages) - 1; more > 0 {
		back := stages[end].behind(stages[end-2])
		if end -= more % 2; more%2 == 1 {
			more++
		}
		off = float64(more/2) * back
	}
	length, at := q.shortest(stages[end])
	for i, v := range q.each {
		length += v * float64(q.counts[i])
	}
	return length - off, q.trace(stages[:end+1], at)
}

// behind is how much farther back one of the places lies than one before it, at the most.
func (p pairs) behind(old pairs) float64 {
	most := math.Inf(-1)
	for k, v := range old.last {
		if !math.IsInf(p.last[k], 1) {
			most = max(most, v-p.last[k], old.before[k]-p.before[k])
		}
	}
	return most
}

// shortest is the least length of a row that ends with one of these pairs, and with which.
func (q *penalised) shortest(end pairs) (length float64, at int) {
	n := len(q.places)
	length = math.Inf(1)
	for l, t := range q.places {
		for j, s := range q.places {
			k := l*n + j
			if v := max(end.before[k]+s.extent, end.last[k]+t.extent); v < length {
				length, at = v, k
			}
		}
	}
	return length, at
}

// first is the pairs that a row may begin with.
func (q *penalised) first() pairs {
	n := len(q.places)
	out := pairs{infinities(n * n), infinities(n * n)}
	for l, t := range q.places {
		for j, s := range q.places {
			if q.may(j, l) {
				off := q.each[s.item] + q.each[t.item]
				out.before[l*n+j] = -off
				out.last[l*n+j] = max(0, q.steps[j][l]) - off
			}
		}
	}
	return out
}

// may says whether two neighbours may be of these ranges.
func (q *penalised) may(j, l int) bool {
	i := q.places[j].item
	return i != q.places[l].item || q.counts[i] > 1
}

// follow lays one piece more behind every pair.
func (q *penalised) follow(from pairs) pairs {
	n := len(q.places)
	out := pairs{infinities(n * n), infinities(n * n)}
	for j := range n {
		before, last := from.before[j*n:j*n+n], from.last[j*n:j*n+n]
		nearest := math.Inf(1)
		for _, v := range last {
			nearest = min(nearest, v)
		}
		for l, t := range q.places {
			if !q.may(j, l) {
				continue
			}
			step, into := q.steps[j][l], q.into[l][:n]
			least := math.Inf(1)
			for i, v := range before {
				least = min(least, max(v+into[i], last[i]+step))
			}
			out.before[l*n+j], out.last[l*n+j] = nearest-q.each[t.item], least-q.each[t.item]
		}
	}
	return out
}

// trace goes back through the stages from a pair at the end, and counts what is laid.
func (q *penalised) trace(stages []pairs, at int) []int {
	n, laid := len(q.places), make([]int, len(q.items))
	for k := len(stages) - 1; ; k-- {
		l, j := at/n, at%n
		laid[q.places[l].item]++
		if k == 0 {
			laid[q.places[j].item]++
			return laid
		}
		from := stages[k-1]
		least := math.Inf(1)
		for i := range n {
			v := max(from.before[j*n+i]+q.steps[i][l], from.last[j*n+i]+q.steps[j][l])
			if v < least {
				least, at = v, j*n+i
			}
		}
	}
}
