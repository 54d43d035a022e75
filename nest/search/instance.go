// Package search looks for short layouts of outlines on a strip: construct,
// separate, shrink, disturb, compress, polish, settle. It works in floating
// point on slightly enlarged outlines; what leaves it lies on the lattice and
// is judged elsewhere.
package search

import (
	"cmp"
	"encoding/binary"
	"math"
	"slices"
	"sync"
	"sync/atomic"

	"github.com/paulmach/orb"

	"yardlay/nest/nofit"
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

// simplifyTolerance is how far the outlines searched on may stray outward from
// the true ones, mm: a tenth of a millimetre is under a third of the width of
// a chalk line, and turns the hundreds of points of a drafted arc into tens.
const simplifyTolerance = 0.1

// Long hollow curves fall into as many convex parts as chords, and a no-fit
// region costs the fourth power of those. An outline of more than mostParts is
// simplified further, up to a millimetre or so, a pencil line.
const (
	mostParts         = 16
	coarsestTolerance = 0.8
)

// shape is one distinct ring, its bounding box moved to the origin.
type shape struct {
	w, h               float64 // of the true ring: what must stay on the strip
	area               float64
	ring               orb.Ring // enlarged, simplified
	nofit              *nofit.Shape
	loX, loY, hiX, hiY float64 // bounds of the enlarged ring, gap included
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
// but for the no-fit regions, which are computed when first asked for.
type instance struct {
	width, gap, bound, maxLength float64
	tolerance                    float64 // depths below count as none
	shapes                       []shape
	items                        []item
	gridded                      bool // some item may only lie at the places of a grid
	movable                      int  // items after these are forbidden zones, fixed
	fixed                        []orb.Point
	area, meanItem               float64                        // of the movable items: sum of areas, mean extent along the strip
	regions                      []atomic.Pointer[nofit.Region] // [a*len(shapes)+b], a <= b
}

// relativeTolerance, times the width, is the depth below which two items do
// not count as overlapping; a quarter of the lattice at most, so that rounding
// makes up for it.
const relativeTolerance = 1e-7

func newInstance(p Problem) *instance {
	in := &instance{width: p.Width, bound: p.Bound, maxLength: p.MaxLength}
	in.gap = math.Ceil(p.Gap/plane.Lattice) * plane.Lattice
	in.tolerance = math.Min(p.Width*relativeTolerance, plane.Lattice/4)
	byRing := map[string]int32{}
	byWays := map[string]int{}
	for _, it := range p.Items {
		in.items = append(in.items, in.newItem(it, byRing, byWays))
	}
	in.movable = len(in.items)
	for _, zone := range p.Forbidden {
		z := in.newItem(Item{Choices: []Choice{{Ring: plane.Tidy(zone)}}}, byRing, byWays)
		in.items = append(in.items, z)
		in.fixed = append(in.fixed, z.ways[0].origin)
	}
	for _, it := range in.items[:in.movable] {
		in.area += it.area
		in.meanItem += in.shapes[it.ways[0].shape].w / float64(in.movable)
	}
	in.bound = max(in.bound, in.leastLength())
	in.regions = make([]atomic.Pointer[nofit.Region], len(in.shapes)*len(in.shapes))
	return in
}

func (in *instance) newItem(it Item, byRing map[string]int32, byWays map[string]int) item {
	var out item
	var key []byte
	for c, choice := range it.Choices {
		lo := plane.Bounds(choice.Ring).Min
		new := in.newWay(choice, c, in.shapeOf(choice.Ring, lo, byRing), lo)
		w := slices.IndexFunc(out.ways, func(w way) bool {
			return w.shape == new.shape && w.along == new.along && w.across == new.across
		})
		if w >= 0 { // symmetric: it looks like an earlier one
			out.lies = append(out.lies, lie{int32(w), lo})
			continue
		}
		out.lies = append(out.lies, lie{int32(len(out.ways)), lo})
		out.ways = append(out.ways, new)
		in.gridded = in.gridded || new.along.step > 0 || new.across.step > 0
		key = binary.LittleEndian.AppendUint32(key, uint32(new.shape))
		for _, t := range []track{new.along, new.across} {
			for _, v := range []float64{t.lo, t.hi, t.step, t.phase} {
				key = binary.LittleEndian.AppendUint64(key, math.Float64bits(v))
			}
		}
	}
	out.area = in.shapes[out.ways[0].shape].area
	out.root = math.Sqrt(math.Sqrt(out.area))
	kind, ok := byWays[string(key)]
	if !ok {
		kind = len(byWays)
		byWays[string(key)] = kind
	}
	out.kind = kind
	return out
}

// newWay makes choice number c ready; its ring is shape s moved by lo.
func (in *instance) newWay(choice Choice, c int, s int32, lo orb.Point) way {
	seat := choice.Seat
	if seat.High == 0 {
		seat.High = in.width
	}
	return way{
		shape: s, choice: c, origin: lo,
		along:  track{step: seat.X.Step, phase: seat.X.phase(lo[0])},
		across: track{lo: seat.Low, hi: seat.High - in.shapes[s].h, step: seat.Y.Step, phase: seat.Y.phase(lo[1])},
	}
}

// shapeOf returns the index of the shape equal to the ring moved by -lo.
func (in *instance) shapeOf(ring orb.Ring, lo orb.Point, byRing map[string]int32) int32 {
	open := make([]orb.Point, 0, len(ring))
	for _, p := range plane.Tidy(ring)[1:] {
		open = append(open, orb.Point{p[0] - lo[0], p[1] - lo[1]})
	}
	first := slices.Index(open, slices.MinFunc(open, func(a, b orb.Point) int {
		return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1]))
	}))
	open = append(open[first:], open[:first]...)
	var key []byte
	for _, p := range open {
		key = binary.LittleEndian.AppendUint64(key, math.Float64bits(p[0]))
		key = binary.LittleEndian.AppendUint64(key, math.Float64bits(p[1]))
	}
	if s, ok := byRing[string(key)]; ok {
		return s
	}
	in.shapes = append(in.shapes, newShape(append(orb.Ring(open), open[0]), in.gap))
	byRing[string(key)] = int32(len(in.shapes) - 1)
	return int32(len(in.shapes) - 1)
}

func newShape(ring orb.Ring, gap float64) shape {
	box := plane.Bounds(ring)
	s := shape{w: box.Max[0], h: box.Max[1], area: plane.Area(ring)}
	for tolerance := simplifyTolerance; ; tolerance *= 2 {
		s.ring = nofit.Outward(ring, tolerance)
		s.nofit = nofit.NewShape(s.ring)
		if s.nofit.Parts() <= mostParts || tolerance >= coarsestTolerance {
			break
		}
	}
	lo, hi := s.nofit.Bounds()
	keep := gap + 4*plane.Lattice // what regions are loosened by at their corners, and to spare
	s.loX, s.loY, s.hiX, s.hiY = lo[0]-keep, lo[1]-keep, hi[0]+keep, hi[1]+keep
	return s
}

// region returns the no-fit region of shapes a <= b, computing it on first use.
// Two lanes may compute the same one at once; both get the same values.
func (in *instance) region(a, b int32) *nofit.Region {
	slot := &in.regions[int(a)*len(in.shapes)+int(b)]
	if r := slot.Load(); r != nil {
		return r
	}
	r := nofit.New(in.shapes[a].nofit, in.shapes[b].nofit, nofit.Clearance{Gap: in.gap, Step: plane.Lattice, Tolerance: in.tolerance})
	slot.Store(r)
	return r
}

// prepare computes the no-fit regions of all pairs of shapes, some at a time:
// curved pieces with darts take up to a tenth of a second a pair. stop lets it be
// cancelled.
func (in *instance) prepare(workers int, stop func() bool) {
	n := int64(len(in.shapes))
	var next atomic.Int64
	var all sync.WaitGroup
	for range max(1, workers) {
		all.Go(func() {
			for k := next.Add(1) - 1; k < n*n && !stop(); k = next.Add(1) - 1 {
				if a, b := int32(k/n), int32(k%n); a <= b {
					in.region(a, b)
				}
			}
		})
	}
	all.Wait()
}

// depth returns the overlap of shape b at offset (x, y) from shape a, and the
// unit direction in which b leaves a soonest.
func (in *instance) depth(a, b int32, x, y float64) (d, nx, ny float64) {
	if a <= b {
		return in.region(a, b).Depth(x, y)
	}
	d, nx, ny = in.region(b, a).Depth(-x, -y)
	return d, -nx, -ny
}
