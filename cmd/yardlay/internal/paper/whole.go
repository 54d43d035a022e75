package paper

import (
	"math"
	"slices"
)

// keeping cuts a stretch into as few spans as can be, as spans does, where they keep the
// most of some intervals whole, each within one span; where that takes more, neighbours
// share more than the overlap. Of two ways that keep as many, the later places win.
func keeping(a, b, most, before, overlap float64, whole []span) []span {
	plain := spans(a, b, most, before, overlap)
	n := len(plain)
	if n == 1 || len(whole) == 0 {
		return plain
	}
	room := func(i int) float64 { // of span i
		if i == 0 {
			return most - before
		}
		return most
	}
	starts := startsFor(plain, whole)
	// From the last span to the first: how many intervals are kept whole from span i on when
	// it begins at a place, and where the next one begins.
	type way struct{ held, next int }
	ways := make([][]way, n)
	for i := n - 1; i >= 0; i-- {
		ways[i] = make([]way, len(starts))
		for k, at := range starts {
			best := way{-1, -1}
			if i == n-1 && at+room(i) >= b-1e-9 {
				best.held = heldBy(span{at, b}, span{math.Inf(1), 0}, whole)
			}
			for j := len(starts) - 1; i < n-1 && j > k; j-- {
				then := ways[i+1][j].held
				if then < 0 || starts[j] > at+room(i)-overlap+1e-9 {
					continue
				}
				next := span{starts[j], starts[j] + room(i+1)}
				if held := then + heldBy(span{at, at + room(i)}, next, whole); held > best.held {
					best = way{held, j}
				}
			}
			ways[i][k] = best
		}
	}
	list, k := make([]span, n), 0
	for i := range list {
		list[i] = span{starts[k], math.Min(starts[k]+room(i), b)}
		k = ways[i][k].next
	}
	return trimmed(list, overlap, whole)
}

// holds says whether an interval lies whole within the span.
func (s span) holds(w span) bool { return s.from <= w.from && w.to <= s.to }

// heldBy counts the intervals that a span holds and the next one does not.
func heldBy(s, next span, whole []span) (sum int) {
	for _, w := range whole {
		if s.holds(w) && !next.holds(w) {
			sum++
		}
	}
	return sum
}

// trimmed ends each span where its neighbour shares the overlap, or where the last
// interval ends that it alone holds.
func trimmed(list []span, overlap float64, whole []span) []span {
	for i := range list[1:] {
		s, next := list[i], list[i+1]
		to := next.from + overlap
		for _, w := range whole {
			if s.holds(w) && !next.holds(w) {
				to = math.Max(to, w.to+1)
			}
		}
		list[i].to = math.Min(s.to, to)
	}
	return list
}

// Places where spans may begin: some evenly apart, and at intervals, in all no more than
// are weighed in an instant.
const evenStarts, mostStarts = 40, 160

// startsFor lists where a span may begin: as without intervals, evenly, and before intervals.
func startsFor(plain []span, whole []span) []float64 {
	first, last := plain[0].from, plain[len(plain)-1].from
	var list []float64
	for i, s := range plain {
		list = append(list, s.from)
		for k := range evenStarts / len(plain) {
			if i > 0 {
				list = append(list, plain[i-1].from+(s.from-plain[i-1].from)*float64(k)/float64(evenStarts/len(plain)))
			}
		}
	}
	for i := 0; i < len(whole); i += 1 + len(whole)/(mostStarts-evenStarts) {
		if at := whole[i].from - 1; at > first && at < last {
			list = append(list, at)
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}
