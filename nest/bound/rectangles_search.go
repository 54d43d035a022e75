package bound

import (
	"context"
	"encoding/binary"
	"math"
	"slices"
)

// rectangleSearch goes through the places along the cloth of rectangles in which none could begin earlier by itself:
// each begins at the cut end or where another ends, with its gap or without, and did not fit just before that. Line by
// line it chooses what begins, and gives up where the worth of what is still to come, or idle so far, shows that the
// limit is passed.
type rectangleSearch struct {
	rectangles
	ctx    context.Context
	worths []worth
	floor  int64 // lengths up to here are no news: one found ends the search
	limit  int64 // lengths from here on are not looked at
	least  int64 // the least of the lengths given up or found: none is shorter
	found  bool  // one below the first limit was found
	ended  bool  // all was looked at, or one no longer than the floor was found
	work   int
	sizes  []sized
	left   []int // copies of each kind still to be laid
	lying  []lying
	seen   map[string]int64
	key    []byte
}

// sized is one of the sizes in which a kind may lie; of each kind they follow each other from the first to the last.
type sized struct {
	size
	kind  int
	first bool
	last  int // number of the kind's last size
}

// sized lists the sizes of all kinds.
func (r rectangles) sized() (out []sized) {
	for k, it := range r.kinds {
		if it.sizes[0] == it.sizes[1] {
			out = append(out, sized{it.sizes[0], k, true, len(out)})
			continue
		}
		last := len(out) + 1
		out = append(out, sized{it.sizes[0], k, true, last}, sized{it.sizes[1], k, false, last})
	}
	return out
}

// lying is a rectangle that a line still meets: its size, where it ends, and where its gap does.
type lying struct {
	size      int // its number
	end, free int64
}

// room is what is free on a line: with a gap beside each piece, and without gaps for pieces longer by the gap.
type room struct{ spaced, plain int64 }

// mostSeen bounds the states that are kept.
const mostSeen = 1 << 17

func newRectangleSearch(ctx context.Context, r rectangles, floor, limit int64) *rectangleSearch {
	s := &rectangleSearch{
		rectangles: r, ctx: ctx, worths: r.worths(), floor: floor, limit: limit, least: math.MaxInt64,
		sizes: r.sized(), seen: map[string]int64{},
	}
	for _, k := range r.kinds {
		s.left = append(s.left, k.count)
	}
	return s
}

// run searches until all is looked at or the work is done.
func (s *rectangleSearch) run() {
	need := make([]int64, len(s.worths))
	for i, w := range s.worths {
		need[i] = w.need
	}
	s.line(0, need, room{-1, -1})
	s.ended = s.work > 0 && s.ctx.Err() == nil
}

// over says whether to stop.
func (s *rectangleSearch) over() bool { return s.work <= 0 || s.found && s.limit <= s.floor }

// line looks at all that may follow at a line, where need is what all pieces need by each worth with what was idle up
// to here, and before what was free just before it.
func (s *rectangleSearch) line(at int64, need []int64, before room) {
	if s.work -= len(s.worths) + 4; s.over() {
		return
	}
	if s.work>>8&63 == 0 && s.ctx.Err() != nil {
		s.work = 0
		return
	}
	long := at
	for _, l := range s.lying {
		long = max(long, l.free)
	}
	for _, n := range need {
		long = max(long, (n+one-1)/one)
	}
	if long >= s.limit {
		s.least = min(s.least, long)
		return
	}
	if s.laid() {
		s.limit, s.least, s.found = long, min(s.least, long), true
		return
	}
	now := room{s.width + s.gap, s.width}
	for _, l := range s.lying {
		if now.plain -= s.sizes[l.size].across; l.end > at {
			now.spaced -= s.sizes[l.size].across + s.gap
		}
	}
	may := s.may(now, before)
	if may != 0 && s.known(at, may) {
		return
	}
	s.begin(at, need, now, may, 0)
}

// laid says whether all copies are.
func (s *rectangleSearch) laid() bool {
	return !slices.ContainsFunc(s.left, func(n int) bool { return n > 0 })
}

// may returns the sizes, as bits, that fit now and did not before.
func (s *rectangleSearch) may(now, before room) (bits uint64) {
	for i, v := range s.sizes {
		if s.left[v.kind] > 0 && s.fits(v, now) && !s.fits(v, before) {
			bits |= 1 << i
		}
	}
	return bits
}

func (s *rectangleSearch) fits(v sized, r room) bool {
	return v.across+s.gap <= r.spaced && v.across <= r.plain
}

// begin lays one more piece at a line, of a size from the given one on, or goes on to the next line.
func (s *rectangleSearch) begin(at int64, need []int64, now room, may uint64, from int) {
	for i := from; i < len(s.sizes); i++ {
		v := s.sizes[i]
		if may>>i&1 == 0 || s.left[v.kind] == 0 || !s.fits(v, now) {
			continue
		}
		free := at + v.along + s.gap
		if free >= s.limit {
			s.least = min(s.least, free)
			continue
		}
		s.left[v.kind]--
		s.lying = append(s.lying, lying{i, free - s.gap, free})
		s.begin(at, s.chosen(need, i), room{now.spaced - v.across - s.gap, now.plain - v.across}, may, i)
		s.lying = s.lying[:len(s.lying)-1]
		s.left[v.kind]++
		if s.over() {
			return
		}
	}
	if len(s.lying) > 0 {
		s.next(at, need, now)
	}
}

// chosen adds what a piece needs more in a size than in the best of its sizes.
func (s *rectangleSearch) chosen(need []int64, i int) []int64 {
	v := s.sizes[i]
	if v.first && v.last == i {
		return need
	}
	other := v.last
	if !v.first {
		other--
	}
	s.work -= len(need)
	out := make([]int64, len(need))
	for k, w := range s.worths {
		out[k] = need[k] + max(0, w.takes[i]-w.takes[other])
	}
	return out
}

// next goes on to the line where the next piece ends.
func (s *rectangleSearch) next(at int64, need []int64, now room) {
	to := int64(math.MaxInt64)
	for _, l := range s.lying {
		if l.end > at {
			to = min(to, l.end)
		}
		to = min(to, l.free)
	}
	idle := make([]int64, len(need))
	s.work -= len(need) * len(s.lying)
	for i, w := range s.worths {
		used := int64(0)
		for _, l := range s.lying {
			if !w.spaced || l.end > at {
				used += w.of[l.size]
			}
		}
		idle[i] = need[i] + (to-at)*(one-used)
	}
	kept := s.lying
	s.lying = nil
	for _, l := range kept {
		if l.free > to {
			s.lying = append(s.lying, l)
		}
	}
	s.line(to, idle, now)
	s.lying = kept
}

// known says whether the same was looked at from the same line or one before it, and keeps it: what is still to be
// laid, what lies on the line and how far, and what may begin.
func (s *rectangleSearch) known(at int64, may uint64) bool {
	slices.SortFunc(s.lying, func(a, b lying) int {
		if a.free != b.free {
			return int(a.free - b.free)
		}
		return a.size - b.size
	})
	s.key = s.key[:0]
	for _, n := range s.left {
		s.key = binary.AppendUvarint(s.key, uint64(n))
	}
	s.key = binary.AppendUvarint(s.key, may)
	for _, l := range s.lying {
		s.key = binary.AppendUvarint(append(s.key, byte(l.size)), uint64(l.free-at))
	}
	s.work -= 64
	if earlier, ok := s.seen[string(s.key)]; ok && earlier <= at {
		return true
	} else if ok || len(s.seen) < mostSeen {
		s.seen[string(s.key)] = at
	}
	return false
}
