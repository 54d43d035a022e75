// Package search looks for short layouts of outlines on a strip: construct,
// separate, shrink, disturb, compress, polish, settle. It works in floating
// point on slightly enlarged outlines; what leaves it lies on the lattice and
// is judged elsewhere.
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
	Forbidden []orb.Ring // zones that no item may cover
	Bound     float64    // a length that no layout can be shorter than; the search stops there
}

// Item is one outline to place, in each way it may lie.
type Item struct{ Choices []Choice }

// Choice is one way an item may lie. The ring is closed, counter-clockwise and
// simple, on the lattice.
type Choice struct {
	Ring orb.Ring
	Seat Seat
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
	along  track     // where that corner may be along the strip; hi follows the strip's length
	across track     // and across it
}

// lie says which way a choice is, and where its ring's bounding box began.
type lie struct {
	way    int32
	origin orb.Point
}

// item is a copy to place; items of one kind have the same ways.
type item struct {
	kind int
	ways []way
	lies []lie // for each choice given
	area float64
	root float64 // fourth root of the area, for the loss
}

// instance is a problem made ready. It is shared by all lanes and read only,
// but for the no-fit regions, which are made when first asked for.
type instance struct {
	width, gap, bound, maxLength float64
	tolerance                    float64 // depths below count as none
	shapes                       []shape
	items                        []item
	gridded                      bool // some item may only lie at the places of a grid
	movable                      int  // items after these are forbidden zones, fixed
	fixed                        []orb.Point
	area, meanItem               float64 // of the movable items: sum of areas, mean extent along the strip
	regions                      *regions
}

// relativeTolerance, times the width, is the depth below which two items do
// not count as overlapping; a quarter of the lattice at most, so that rounding
// makes up for it.
const relativeTolerance = 1e-7

// setting says how an instance is made ready.
type setting struct {
	memory  int64 // bytes for no-fit regions
	workers int
	stop    func() bool
	tell    func(share float64) // hears how much is done
}

// newInstance makes a problem ready; nil when it was stopped.
func newInstance(p Problem, how setting) *instance {
	in := &instance{width: p.Width, bound: p.Bound, maxLength: p.MaxLength}
	in.gap = math.Ceil(p.Gap/plane.Lattice) * plane.Lattice
	in.tolerance = math.Min(p.Width*relativeTolerance, plane.Lattice/4)
	m := maker{instance: in, gallery: newGallery(), byWays: map[string]int{}, byChoices: map[*Choice]item{}}
	for _, it := range p.Items {
		if how.stop() {
			return nil
		}
		in.items = append(in.items, m.item(it))
	}
	in.movable = len(in.items)
	for _, zone := range p.Forbidden {
		z := m.item(Item{Choices: []Choice{{Ring: plane.Tidy(zone)}}})
		in.items = append(in.items, z)
		in.fixed = append(in.fixed, z.ways[0].origin)
	}
	if !m.gallery.ready(in.gap, how.workers, how.stop, how.tell) {
		return nil
	}
	in.shapes = m.gallery.shapes
	for _, it := range in.items[:in.movable] {
		in.area += it.area
		in.meanItem += in.shapes[it.ways[0].shape].w / float64(in.movable)
	}
	in.bound = max(in.bound, in.leastLength())
	in.regions = newRegions(in.shapes, m.gallery.outlines, in.clearance(), how.memory, how.stop)
	return in
}

// maker makes the items of an instance.
type maker struct {
	*instance
	gallery   *gallery
	byWays    map[string]int
	byChoices map[*Choice]item // copies of one piece share their choices
}

func (m maker) item(it Item) item {
	if out, ok := m.byChoices[&it.Choices[0]]; ok {
		return out
	}
	out := m.newItem(it)
	m.byChoices[&it.Choices[0]] = out
	return out
}

func (m maker) newItem(it Item) item {
	var out item
	var key []byte
	for c, choice := range it.Choices {
		lo := plane.Bounds(choice.Ring).Min
		new := m.newWay(choice, c, m.gallery.shapeOf(choice.Ring, lo), lo)
		w := slices.IndexFunc(out.ways, func(w way) bool {
			return w.shape == new.shape && w.along == new.along && w.across == new.across
		})
		if w >= 0 { // symmetric: it looks like an earlier one
			out.lies = append(out.lies, lie{int32(w), lo})
			continue
		}
		out.lies = append(out.lies, lie{int32(len(out.ways)), lo})
		out.ways = append(out.ways, new)
		m.gridded = m.gridded || new.along.step > 0 || new.across.step > 0
		key = binary.LittleEndian.AppendUint32(key, uint32(new.shape))
		for _, t := range []track{new.along, new.across} {
			for _, v := range []float64{t.lo, t.hi, t.step, t.phase} {
				key = binary.LittleEndian.AppendUint64(key, math.Float64bits(v))
			}
		}
	}
	out.area = m.gallery.shapes[out.ways[0].shape].area
	out.root = math.Sqrt(math.Sqrt(out.area))
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
		along:  track{step: seat.X.Step, phase: seat.X.phase(lo[0])},
		across: track{lo: seat.Low, hi: seat.High - m.gallery.shapes[s].h, step: seat.Y.Step, phase: seat.Y.phase(lo[1])},
	}
}

// depth returns the overlap of shape b at offset (x, y) from shape a, and the
// unit direction in which b leaves a soonest.
func (in *instance) depth(a, b int32, x, y float64) (d, nx, ny float64) {
	return in.regions.of(a, b).Depth(x, y)
}
