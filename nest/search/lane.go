package search

import (
	"math"
	"math/rand/v2"
	"slices"
)

// lane is one line of search with a state and a stream of random numbers of
// its own. Lanes run side by side and meet at numbered points (see pool); what
// a lane does depends on its number and the seed, never on the clock.
type lane struct {
	*instance
	number   int
	rng      *rand.Rand
	at       *placement
	boxes    []box // bounding boxes of the placed items, gap included on one side
	packed   []packed
	columns  columns
	length   float64
	shapeNow []int32   // shape of each item as it lies
	weights  []float64 // of pairs, [i*n+j], symmetric
	raised   []bool    // for each item: some pair of it with a later one may weigh more than 1
	depths   []float64 // overlap of pairs, mm, symmetric
	clashes  []int32   // how many each item overlaps
	contacts []contact
	nearby   []int32
	evals    int64
	rebuilt  int64 // of these, to build layouts anew
	shifted  int64 // to move groups
	leant    int64 // and to lean pairs
	until    int64 // evals at which the present attempt is given up; 0: at its end
	pool     *lanePool
	nextMeet int64 // evals at which the lane meets the others again

	best   *placement // the shortest layout without overlap that this lane knows
	failed failures   // states that kept some overlap
	rate   float64    // share by which the next attempt is to be shorter
	leaps  leaper

	search int        // of the pool's, which this lane takes part in
	aside  *placement // the best of the earlier ones; nil at first
}

// box is the bounding box of an item, enlarged so that boxes which do not
// overlap belong to items which do not.
type box struct{ x0, x1, y0, y1 float64 }

// contact is one overlap of an item under trial: its weighted loss, how deep,
// and the way out for the item.
type contact struct{ loss, depth, nx, ny float64 }

func newLane(in *instance, seed uint64, number int) *lane {
	n := len(in.items)
	return &lane{
		instance: in,
		number:   number,
		rng:      rand.New(rand.NewPCG(seed, uint64(number)+1)),
		at:       in.emptyPlacement(),
		boxes:    make([]box, n),
		packed:   make([]packed, n),
		nearby:   make([]int32, 2*n), // those kept, and one column more
		shapeNow: make([]int32, n),
		weights:  make([]float64, n*n),
		raised:   make([]bool, n),
		depths:   make([]float64, n*n),
		clashes:  make([]int32, n),
	}
}

// shapeBox is the box of a shape at a place.
func (in *instance) shapeBox(s int32, x, y float64) box {
	sh := &in.shapes[s]
	return box{x + sh.loX, x + sh.hiX, y + sh.loY, y + sh.hiY}
}

// along and across return where item i may be in a way.
func (l *lane) along(i int, w *way) track  { return l.alongAt(l.at, i, w, l.length) }
func (l *lane) across(i int, w *way) track { return l.acrossAt(l.at, i, w) }

// load takes a placement over, to be laid on a strip of the given length. It
// returns false, and the state is of no use, when a group has no phase at which
// all of it lies on so short a strip.
func (l *lane) load(p *placement, length float64) bool {
	l.at.copyFrom(p)
	l.length, l.at.length = length, length
	for g := range l.groups {
		if !l.refit(g) {
			return false
		}
	}
	for i, j := range l.partner {
		if i < j {
			l.evenOut(i, j)
		}
	}
	l.columns.reset(length, l.meanItem, len(l.items))
	for i := range l.items {
		s := l.shapeAt(l.at, i)
		if i < l.movable {
			way := l.turnToFit(i)
			s = way.shape
			l.at.x[i] = l.along(i, way).nearest(l.at.x[i])
			l.at.y[i] = l.across(i, way).nearest(l.at.y[i])
		}
		l.shapeNow[i] = s
		l.boxes[i] = l.shapeBox(s, l.at.x[i], l.at.y[i])
		l.packed[i] = pack(&l.boxes[i])
		l.columns.add(int32(i), &l.boxes[i])
	}
	clear(l.depths)
	clear(l.clashes)
	for i := range l.movable {
		l.refreshDepths(i)
	}
	return true
}

// turnToFit lays item i in a way in which there is room for it: the one in which
// it lies, or the one that ends soonest along the strip.
func (l *lane) turnToFit(i int) *way {
	best := &l.items[i].ways[l.at.way[i]]
	if l.hasRoom(l.at, i, best, l.length) {
		return best
	}
	soonest := math.Inf(1)
	lean := best.lean
	for k := range l.items[i].ways {
		w := &l.items[i].ways[k]
		if l.items[i].paired && w.lean != lean {
			continue
		}
		if end := l.along(i, w).next(0) + l.shapes[w.shape].w; !l.across(i, w).empty() && end < soonest {
			best, l.at.way[i], soonest = w, int32(k), end
		}
	}
	return best
}

// place moves item i and brings its overlaps up to date.
func (l *lane) place(i int, way int32, x, y float64) {
	l.at.way[i], l.at.x[i], l.at.y[i] = way, x, y
	l.shapeNow[i] = l.items[i].ways[way].shape
	l.columns.remove(int32(i))
	l.boxes[i] = l.shapeBox(l.shapeNow[i], x, y)
	l.packed[i] = pack(&l.boxes[i])
	l.columns.add(int32(i), &l.boxes[i])
	l.refreshDepths(i)
}

// near lists the items other than i whose boxes overlap or touch b. The list is
// good until the next call.
func (l *lane) near(i int, b *box) []int32 {
	count := 0
	first, last := l.columns.span(b)
	wanted := pack(b)
	for k := first; k <= last; k++ {
		count += len(l.nearIn(k, first, i, b, &wanted, l.nearby[count:]))
	}
	return l.nearby[:count]
}

// nearIn lists in room what near lists from column k, of those from the first one on that b
// touches. All comparisons are done on bits and the list is filled without a branch: which
// boxes overlap cannot be predicted, and a processor that guesses wrong at each took a third
// of the search's time. Packed boxes leave few for the true ones to decide.
func (l *lane) nearIn(k, first int32, i int, b *box, wanted *packed, room []int32) []int32 {
	count := 0
	for _, j := range l.columns.items[k] {
		room[count] = j
		count += l.packed[j].meets(wanted)
	}
	kept := 0
	for _, j := range room[:count] {
		c := &l.boxes[j]
		apart := math.Float64bits(c.x1-b.x0) | math.Float64bits(b.x1-c.x0) |
			math.Float64bits(c.y1-b.y0) | math.Float64bits(b.y1-c.y0)
		other := uint64(uint32(j) ^ uint32(i))
		earlier := uint64(uint32(max(first, l.columns.first[j]) ^ k))
		room[kept] = j
		kept += int((earlier - 1) &^ (other - 1) &^ apart >> 63) // earlier is 0, other is not, nor are they apart
	}
	return room[:kept]
}

// refreshDepths measures the overlaps of movable item i anew.
func (l *lane) refreshDepths(i int) {
	n := len(l.items)
	row := l.depths[i*n : i*n+n]
	for j := 0; l.clashes[i] > 0; j++ {
		if row[j] > 0 {
			row[j], l.depths[j*n+i] = 0, 0
			l.clashes[i]--
			l.clashes[j]--
		}
	}
	s, x, y := l.shapeNow[i], l.at.x[i], l.at.y[i]
	for _, j := range l.near(i, &l.boxes[i]) {
		l.evals++
		if d, _, _ := l.depth(l.shapeNow[j], s, x-l.at.x[j], y-l.at.y[j]); d > l.tolerance {
			row[j], l.depths[int(j)*n+i] = d, d
			l.clashes[i]++
			l.clashes[j]++
		}
	}
}

// weightedDepth returns what an overlap of the given depth counts for: its power 3/4. A
// deep overlap then outweighs few shallow ones for fewer sweeps, and an item that
// is in the way of several finds another place sooner. By experiment at equal
// work (ten to twelve seeds): the depth itself gave layouts 0.2 to 1.0 % longer on
// five of seven cloths and even ones on two; its power 1/2 was longer on three of
// five, its power 3/2 by 0.6 to 1.6 % on all. Two of the seven had no part in the
// choice (benchmarks/README.md).
func weightedDepth(depth float64) float64 { return math.Sqrt(depth * math.Sqrt(depth)) }

// loss returns the weighted overlap of item i if it lay in shape s at (x, y):
// the sum over others of weight x weighted depth x fourth root of their area. It
// gives up with a value above limit once that is passed.
func (l *lane) loss(i int, s int32, x, y, limit float64) float64 {
	b := l.shapeBox(s, x, y)
	weights := l.weights[i*len(l.items):]
	sum := 0.0
	l.evals++
	first, last := l.columns.span(&b)
	wanted := pack(&b)
	for k := first; k <= last; k++ { // column by column: mostly the limit is passed before the last
		for _, j := range l.nearIn(k, first, i, &b, &wanted, l.nearby) {
			l.evals++
			region := l.regions.of(l.shapeNow[j], s)
			at, least := region.Find(x-l.at.x[j], y-l.at.y[j])
			if at.Outside() {
				continue
			}
			weight := weights[j] * l.roots[j]
			if least > 0 {
				if room := (limit - sum) / weight; least*least*least > room*room*room*room {
					return math.Inf(1)
				}
			}
			if d, _, _ := region.DepthAt(at); d > l.tolerance {
				sum += weights[j] * weightedDepth(d) * l.roots[j]
				if sum > limit {
					return sum
				}
			}
		}
	}
	return sum
}

// lossContacts is loss without a limit that also lists the overlaps in l.contacts.
func (l *lane) lossContacts(i int, s int32, x, y float64) float64 {
	b := l.shapeBox(s, x, y)
	weights := l.weights[i*len(l.items):]
	sum := 0.0
	l.contacts = l.contacts[:0]
	l.evals++
	for _, j := range l.near(i, &b) {
		l.evals++
		d, nx, ny := l.depth(l.shapeNow[j], s, x-l.at.x[j], y-l.at.y[j])
		if d > l.tolerance {
			part := weights[j] * weightedDepth(d) * l.roots[j]
			sum += part
			l.contacts = append(l.contacts, contact{part, d, nx, ny})
		}
	}
	return sum
}

// total returns the unweighted overlap of the whole state, mm^1.5 or so.
func (l *lane) total() float64 {
	n, sum := len(l.items), 0.0
	for i := range l.movable {
		if l.clashes[i] == 0 {
			continue
		}
		for j := i + 1; j < n; j++ {
			if d := l.depths[i*n+j]; d > 0 {
				sum += d * l.roots[i] * l.roots[j]
			}
		}
	}
	return sum
}

func (l *lane) overlaps(i int) bool { return l.clashes[i] > 0 }

func (l *lane) resetWeights() {
	for k := range l.weights {
		l.weights[k] = 1
	}
	clear(l.raised)
}

// raiseWeights is the guided part of the local search: pairs that overlap
// weigh more next time, the deepest the most, the others slowly forget.
// Umetani et al., ITOR 16 (2009); factors 1.2 to 2 and 0.95 by experiment:
// without weights densities drop by 5 to 8 % on shirts, albano and swim.
func (l *lane) raiseWeights() {
	n, deepest := len(l.items), 0.0
	for i := range l.movable {
		if l.clashes[i] > 0 {
			deepest = max(deepest, slices.Max(l.depths[i*n:i*n+n]))
		}
	}
	if deepest == 0 {
		return
	}
	for i := range l.movable {
		if l.clashes[i] == 0 && !l.raised[i] {
			continue
		}
		l.raised[i] = false
		weights, depths := l.weights[i*n:i*n+n], l.depths[i*n:i*n+n]
		for j := i + 1; j < n; j++ {
			w, d := weights[j], depths[j]
			if d > 0 {
				w *= 1.2 + 0.8*d/deepest
			} else if w > 1 {
				w = max(1, w*0.95)
			} else {
				continue
			}
			weights[j], l.weights[j*n+i] = w, w
			l.raised[i] = l.raised[i] || w > 1
		}
	}
}
