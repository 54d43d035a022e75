package search

import (
	"encoding/binary"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Problem is a strip and the items to lay on it.
type Problem struct {
	Width     float64    // mm
	MaxLength float64    // mm; 0: no limit
	Gap       float64    // clear distance between items, mm
	Items     []Item     // one for each copy
	Groups    []Group    // of items that lie on one phase of the repeat
	Repeat    [2]float64 // along and across the strip, mm; 0: none
	Forbidden []orb.Ring // zones that no item may cover
	Pinned    []orb.Ring // outlines that lie there already: items are laid around them, a gap off
	Bound     float64    // a length that no layout can be shorter than; the search stops there
}

// Item is one outline to place, in each way it may lie.
type Item struct {
	Choices []Choice
	Group   int // 1 for the first of Problem.Groups; 0: of none, it lies anywhere
	Pair    int // the two items of one number lean alike; 0: it leans by itself
}

// Choice is one way an item may lie. The ring is closed, counter-clockwise and
// simple, on the lattice.
type Choice struct {
	Ring orb.Ring
	Seat Seat
	// Choices of one family differ by a few degrees of lean off a straight one.
	Family int
	Lean   float64 // degrees; 0: straight
}

// Layout gives for each item the choice taken and how far its ring is moved.
type Layout struct {
	Choice []int
	At     []orb.Point
	Length float64
}

// way is one distinct way an item may lie.
type way struct {
	shape  int32
	choice int       // index into Item.Choices
	origin orb.Point // lower left corner of that ring's bounding box
	lo, hi float64   // where that corner may be across the strip
	point  orb.Point // from it to the point that lies on the repeat
	family int       // of the choice, and its lean
	lean   float64
}

// chosenWay says which way a choice is, and where its ring's bounding box began.
type chosenWay struct {
	way    int32
	origin orb.Point
}

// item is a copy to place; items of one kind have the same ways.
type item struct {
	kind     int
	group    int32 // -1: of none
	ways     []way
	byChoice []chosenWay // for each choice given
	area     float64

	paired    bool      // it leans as another does
	straight  []int32   // ways tried everywhere
	nextLeans [][]int32 // for each way, those tried near where it lies: see sortWays
}

// instance is a problem made ready. It is shared by all lanes and read only,
// but for the no-fit regions, which are made when first asked for.
type instance struct {
	width, gap, bound, maxLength float64
	tolerance                    float64 // depths below count as none
	*gallery                             // all shapes
	stop                         func() bool
	items                        []item
	roots                        []float64 // of each item, the fourth root of its area, for the loss: see there
	leansDeferred                bool      // ways that lean wait until layouts are compressed
	groups                       []group
	repeat                       [2]float64
	partner                      []int // of each movable item that is paired, the other one; -1: none
	movable                      int   // items after these are fixed: forbidden zones
	pinned                       int   // and, from this one on, what is pinned
	fixed                        []orb.Point
	farthest                     float64 // end of what is pinned, mm
	area, meanItem               float64 // of the movable items: sum of areas, mean extent along the strip
	regions                      *regions
}

// relativeTolerance, times the width, is the depth below which two items do
// not count as overlapping; a quarter of the lattice at most, so that rounding
// makes up for it.
const relativeTolerance = 1e-7

// newInstance takes a problem over: enough of it to lay items by their bounding
// boxes. stop says when regions need not be made any more.
func newInstance(p Problem, stop func() bool) *instance {
	in := &instance{
		width: p.Width, bound: p.Bound, maxLength: p.MaxLength, repeat: p.Repeat, gallery: newGallery(), stop: stop,
	}
	in.gap = plane.Ceil(p.Gap)
	in.tolerance = math.Min(p.Width*relativeTolerance, plane.Lattice/4)
	m := maker{instance: in, byWays: map[string]int{}, byChoices: map[choiceKey]item{}}
	for _, it := range p.Items {
		in.items = append(in.items, m.item(it))
	}
	in.movable = len(in.items)
	in.partner = partners(p.Items)
	for _, zone := range p.Forbidden {
		m.fix(zone)
	}
	in.pinned = len(in.items)
	for _, pin := range p.Pinned {
		in.farthest = max(in.farthest, plane.Bounds(pin).Max[0])
		m.fix(pin)
	}
	for _, it := range in.items {
		in.roots = append(in.roots, math.Sqrt(math.Sqrt(it.area)))
	}
	in.deferLeans()
	for _, it := range in.items[:in.movable] {
		in.area += it.area
		in.meanItem += in.shapes[it.ways[0].shape].w / float64(in.movable)
	}
	in.gather(p.Groups)
	in.bound = max(in.bound, in.leastLength(), in.farthest)
	return in
}

// ready makes everything ready for no-fit regions; false when it was stopped.
func (in *instance) ready(memory int64, workers int, report func(share float64)) bool {
	in.regions = newRegions(in.gallery, in.clearance(), memory, in.stop)
	return in.simplify(in.gap, workers, in.stop, report)
}

// maker makes the items of an instance.
type maker struct {
	*instance
	byWays    map[string]int
	byChoices map[choiceKey]item // copies of one piece share their choices
}

// fix adds an item that lies where its ring does and never moves.
func (m maker) fix(ring orb.Ring) {
	z := m.item(Item{Choices: []Choice{{Ring: plane.Tidy(ring)}}})
	m.items = append(m.items, z)
	m.fixed = append(m.fixed, z.ways[0].origin)
}

// choiceKey is the same for copies that may lie in the same ways, on the repeat as well.
type choiceKey struct {
	choices *Choice
	group   int
	paired  bool
}

func (m maker) item(it Item) item {
	of := choiceKey{&it.Choices[0], it.Group, it.Pair > 0}
	if out, ok := m.byChoices[of]; ok {
		return out
	}
	out := m.newItem(it)
	m.byChoices[of] = out
	return out
}

func (m maker) newItem(it Item) item {
	out := item{group: int32(it.Group) - 1, paired: it.Pair > 0}
	key := binary.LittleEndian.AppendUint32(nil, uint32(it.Group))
	for c, choice := range it.Choices {
		lo := plane.Bounds(choice.Ring).Min
		fresh := m.newWay(choice, c, m.shapeOf(choice.Ring), lo)
		if it.Group == 0 {
			fresh.point = orb.Point{}
		}
		w := slices.IndexFunc(out.ways, func(w way) bool {
			return w.shape == fresh.shape && w.lo == fresh.lo && w.hi == fresh.hi && w.point == fresh.point
		})
		if w >= 0 { // symmetric: it looks like an earlier one
			out.byChoice = append(out.byChoice, chosenWay{int32(w), lo})
			continue
		}
		out.byChoice = append(out.byChoice, chosenWay{int32(len(out.ways)), lo})
		out.ways = append(out.ways, fresh)
		key = binary.LittleEndian.AppendUint32(key, uint32(fresh.shape))
		for _, v := range []float64{fresh.lo, fresh.hi, fresh.point[0], fresh.point[1]} {
			key = binary.LittleEndian.AppendUint64(key, math.Float64bits(v))
		}
	}
	out.sortWays(it.Choices)
	out.area = m.shapes[out.ways[0].shape].area
	kind, ok := m.byWays[string(key)]
	if !ok {
		kind = len(m.byWays)
		m.byWays[string(key)] = kind
	}
	out.kind = kind
	return out
}

// newWay makes choice number c ready; its ring is shape s moved by lo.
func (m maker) newWay(choice Choice, c int, s int32, lo orb.Point) way {
	seat := choice.Seat
	if seat.High == 0 {
		seat.High = m.width
	}
	return way{
		shape: s, choice: c, origin: lo,
		lo: seat.Low, hi: seat.High - m.shapes[s].h,
		point: orb.Point{seat.Point[0] - lo[0], seat.Point[1] - lo[1]}, family: choice.Family, lean: choice.Lean,
	}
}

// depth returns the overlap of shape b at offset (x, y) from shape a, and the
// unit direction in which b leaves a soonest.
func (in *instance) depth(a, b int32, x, y float64) (d, nx, ny float64) {
	return in.regions.of(a, b).Depth(x, y)
}
