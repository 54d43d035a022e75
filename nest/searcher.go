package nest

import (
	"slices"

	"github.com/paulmach/orb"

	"yardlay/nest/search"
	"yardlay/shapes/plane"
)

// searcher translates between a Problem and the search's items: the copies that are not
// pinned, in their order.
type searcher struct {
	of      Problem
	problem search.Problem
	copies  []Placed // piece and copy of each item
	ways    [][]way  // of each choice, by item
	walls   float64  // what walls take up before those, mm
	order   []Placed // every copy: that of an item without a place, a pinned one and a wall where it lies
	items   []int    // of each of these, its number in the search, or wallItem
}

// way is how a copy may lie, at the origin, and where it may be moved.
type way struct {
	Placed
	seat search.Seat
}

// newSearcher makes the items of a problem, pairs on the grains that are settled.
func newSearcher(p Problem, settled grains) *searcher {
	s := newItems(p, settled, p.beside())
	if most := p.Strip.MaxLength; most > 0 && s.walls >= most {
		s = newItems(p, settled, 0)
	}
	if s.walls > 0 && s.problem.MaxLength > 0 {
		s.problem.MaxLength -= s.walls
	}
	s.problem.Bound = max(0, s.problem.Bound-s.walls)
	return s
}

// newItems makes them, walls set apart that leave less than so much of the width beside them.
func newItems(p Problem, settled grains, beside float64) *searcher {
	s := &searcher{of: p, problem: search.Problem{
		Width: p.Strip.Width, MaxLength: p.Strip.MaxLength, Gap: p.Gap,
		Forbidden: p.Strip.Forbidden, Bound: simpleBound(p),
		Repeat: [2]float64{p.Strip.Repeat.Along, p.Strip.Repeat.Across},
	}}
	numbers, pins := s.shared(p), p.pinned()
	for i, piece := range p.Pieces {
		// Copies that may lie in the same ways share them: of a pair every other one,
		// those on the same grain, and those that lean as a pinned one does.
		type sort struct {
			mirrored bool
			grain    float64
			beside   bool
			lean     leaning
		}
		items, ways, walls := map[sort]search.Item{}, map[sort][]way{}, map[sort]wall{}
		for k := range piece.Count {
			if pin, ok := pins.of(i, k); ok {
				s.pin(pin)
				continue
			}
			of := sort{mirrored: piece.Mirror == Paired && k%2 == 1}
			of.lean, of.beside = p.leanBeside(i, k, pins)
			if turns, ok := settled[i]; ok {
				of.grain = turns[k/2]
			}
			if ways[of] == nil {
				items[of], ways[of] = p.choices(i, k, settled)
				walls[of] = p.wall(items[of].Choices, ways[of], beside)
			}
			if w := walls[of]; w.length > 0 {
				w.Copy = k
				s.add(w)
				continue
			}
			item := items[of]
			if piece.Alike && k/2*2+1 < piece.Count && !of.beside {
				item.Pair = len(s.copies) - k%2 + 1 // the number of the left one
			}
			if piece.Match != nil {
				item.Group = numbers[piece.Match.group(k)]
			}
			s.items = append(s.items, len(s.copies))
			s.order = append(s.order, Placed{Piece: i, Copy: k})
			s.problem.Items = append(s.problem.Items, item)
			s.copies = append(s.copies, Placed{Piece: i, Copy: k})
			s.ways = append(s.ways, ways[of])
		}
	}
	for n, pl := range s.order { // the search counts what is pinned after items and zones
		if s.items[n] == pinnedItem {
			s.items[n] = len(s.copies) + len(s.problem.Forbidden) + len(s.problem.Pinned)
			s.problem.Pinned = append(s.problem.Pinned, p.Outline(pl))
		}
	}
	return s
}

// What stands for the number of a copy that the search does not place.
const (
	pinnedItem = -1 // until those are counted
	wallItem   = -2
)

// pin notes a pinned copy.
func (s *searcher) pin(pin Placed) {
	s.order, s.items = append(s.order, pin), append(s.items, pinnedItem)
}

// leaning is how far a copy leans off a straight turn, and that turn, degrees, as drawn.
type leaning struct{ off, from float64 }

// leanBeside returns how the pinned one of a pair leans that copy k of piece i, which is not
// pinned, has to lie alike with; false where it need not.
func (p Problem) leanBeside(i, k int, pins pinned) (as leaning, beside bool) {
	if !p.Pieces[i].Alike {
		return leaning{}, false
	}
	pin, ok := pins.of(i, k^1)
	if ok {
		as.off, as.from = lean(pin, p.Pieces[i].straightOf())
	}
	return as, ok
}

// choices lists how copy k of piece i may lie.
func (p Problem) choices(i, k int, settled grains) (item search.Item, ways []way) {
	straight := p.Pieces[i].straightOf()
	as, beside := p.leanBeside(i, k, p.pinned())
	type family struct {
		mirrored bool
		straight float64
		seat     int
	}
	families := map[family]int{}
	for _, pl := range p.Ways(i, k) {
		off, from := lean(pl, straight)
		if !settled.allows(pl, from) || beside && (off != as.off || !sameGrain(from, as.from)) {
			continue
		}
		ring := p.Outline(pl)
		for n, seat := range p.seats(pl, ring) {
			of := family{pl.Mirrored, from, n}
			if _, ok := families[of]; !ok {
				families[of] = len(families)
			}
			item.Choices = append(item.Choices, search.Choice{Ring: ring, Seat: seat, Family: families[of], Lean: off})
			ways = append(ways, way{pl, seat})
		}
	}
	return item, ways
}

// shared gives the search the groups that matter, and returns their numbers there:
// a copy that shares a free phase with no other may lie anywhere.
func (s *searcher) shared(p Problem) map[int]int {
	numbers := map[int]int{}
	if p.Strip.Repeat == (Repeat{}) {
		return numbers
	}
	copies := map[int]int{}
	for _, piece := range p.Pieces {
		for k := range piece.Count {
			if piece.Match != nil {
				copies[piece.Match.group(k)]++
			}
		}
	}
	phases := p.settledPhases()
	for _, g := range p.groups() {
		phase, given := phases[g.number]
		if copies[g.number] > 1 || given {
			s.problem.Groups = append(s.problem.Groups, search.Group{Given: given, Phase: phase})
			numbers[g.number] = len(s.problem.Groups)
		}
	}
	return numbers
}

// seats lists where a piece that lies as pl says may be moved: within which
// levels across the strip, its folds regarded, and which point of it lies on the
// repeat.
func (p Problem) seats(pl Placed, ring orb.Ring) []search.Seat {
	piece, strip := p.Pieces[pl.Piece], p.Strip
	box := plane.Bounds(ring)
	tall := box.Max[1] - box.Min[1]
	whole := search.Seat{Low: 0, High: strip.Width}
	if m := piece.Match; m != nil {
		whole.Point = plane.Pose{Mirrored: pl.Mirrored, Turn: pl.Turn}.ApplyPoint(m.Point)
	}
	if strip.Folds == NoFold {
		return []search.Seat{whole}
	}
	var seats []search.Seat
	for _, r := range p.levelsOf(pl, tall) {
		if r.high-r.low >= tall {
			seat := whole
			seat.Low, seat.High = r.low, r.high
			seats = append(seats, seat)
		}
	}
	return seats
}

// layout translates a layout of the items.
func (s *searcher) layout(l search.Layout) Layout {
	out := Layout{Length: s.whole(l.Length), Placed: slices.Clone(s.order)}
	for n, i := range s.items {
		if i >= 0 && i < len(s.copies) {
			pl := s.ways[i][l.Choice[i]].Placed
			pl.Copy, pl.At = s.copies[i].Copy, orb.Point{l.At[i][0] + s.walls, l.At[i][1]}
			out.Placed[n] = pl
		}
	}
	return out
}

// start translates a layout that has passed Verify.
func (s *searcher) start(l Layout) *search.Layout {
	l = s.withoutWalls(l)
	out := &search.Layout{Length: l.Length, Choice: make([]int, len(s.copies)), At: make([]orb.Point, len(s.copies))}
	for _, pl := range l.Placed {
		i := slices.IndexFunc(s.copies, func(c Placed) bool { return c.Piece == pl.Piece && c.Copy == pl.Copy })
		if i < 0 {
			continue // pinned
		}
		out.At[i] = pl.At
		c := 0
		out.Choice[i] = slices.IndexFunc(s.ways[i], func(w way) bool {
			box := plane.Bounds(s.problem.Items[i].Choices[c].Ring)
			c++
			return sameTurn(w.Turn, pl.Turn) && w.Mirrored == pl.Mirrored &&
				box.Min[1]+pl.At[1] >= w.seat.Low && box.Max[1]+pl.At[1] <= w.seat.High
		})
	}
	return out
}
