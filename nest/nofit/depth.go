package nofit

import (
	"math"

	"github.com/paulmach/orb"
)

// grid divides the region's bounding box into cells. A cell either lies outside
// the region, or lists the boundary segments that can be nearest to a point of
// it and, where the boundary passes, what decides between inside and outside.
//
// What Find needs comes first, and lies in two or three cache lines.
type grid struct {
	lo         orb.Point
	invX, invY float64
	nx, ny     int32
	least      []float32 // by cell, no point of it lies less deep, mm; below 0: the cell lies outside
	cells      []cell
	hi         orb.Point
	near       []int32     // segment indices, by cell
	groups     []int32     // sizes of half-plane groups, by cell
	planes     []halfPlane // the half-planes of those groups that cut the cell
}

type cell struct {
	near, nearEnd   int32 // into near
	group, groupEnd int32 // into groups; empty: the cell lies inside
	plane           int32 // first half-plane of the first group
}

const outside = -1 // of least

// cellsAcross sets the number of cells for each axis: chosen by benchmark over
// 8 to 32 on pieces of 5 to 40 vertices; finer grids shorten lists no further
// and cost time to fill.
const cellsAcross = 1 << (levels - 1)

// levels is the number of sizes of blocks, from the whole grid down to a cell.
const levels = 5

func (r *union) fillGrid() {
	g := &r.grid
	g.lo = orb.Point{math.Inf(1), math.Inf(1)}
	g.hi = orb.Point{math.Inf(-1), math.Inf(-1)}
	all := candidates{}
	for i := range r.sums {
		s := &r.sums[i]
		g.lo = orb.Point{min(g.lo[0], s.lo[0]), min(g.lo[1], s.lo[1])}
		g.hi = orb.Point{max(g.hi[0], s.hi[0]), max(g.hi[1], s.hi[1])}
		all.sums = append(all.sums, int32(i))
	}
	for i := range r.segments {
		all.segments = append(all.segments, int32(i))
	}
	g.nx, g.ny = cellsAcross, cellsAcross
	g.invX, g.invY = float64(g.nx)/(g.hi[0]-g.lo[0]), float64(g.ny)/(g.hi[1]-g.lo[1])
	g.cells, g.least = make([]cell, g.nx*g.ny), make([]float32, g.nx*g.ny)
	r.fill(0, 0, 0, all)
}

// candidates are what may matter to a block of cells.
type candidates struct {
	segments, sums []int32
	inside         bool // one sum covers the whole block: no other matters
}

// fill describes the block whose first cell is (ix, iy), which is the whole grid at level 0
// and half as wide at each next, quarter by quarter: what cannot matter to a block is not
// looked at again.
func (r *union) fill(ix, iy, level int, from candidates) {
	if r.stop() {
		return
	}
	g, size := &r.grid, cellsAcross>>level
	half := float64(size) / 2
	x, y := g.lo[0]+(float64(ix)+half)/g.invX, g.lo[1]+(float64(iy)+half)/g.invY
	radius := math.Hypot(half/g.invX, half/g.invY)*(1+0x1p-30) + r.minSegment
	near, nearest := r.narrow(&r.work.blocks[level], x, y, radius, from)
	if size == 1 {
		k := iy*int(g.nx) + ix
		g.cells[k], g.least[k] = r.newCell(x, y, radius, nearest, near)
		return
	}
	for k := range 4 {
		r.fill(ix+k%2*size/2, iy+k/2*size/2, level+1, near)
	}
}

// narrow keeps what matters to the disc of the given radius about (x, y): the
// segments that can be nearest to a point of it, and the sums that meet it.
// nearest is the distance from (x, y) to the boundary. What is kept stands in block.
func (r *union) narrow(block *candidates, x, y, radius float64, from candidates) (near candidates, nearest float64) {
	nearest = math.Inf(1)
	distances := r.work.distances[:0]
	for _, i := range from.segments {
		d, _, _ := r.segments[i].wayOut(x, y)
		distances = append(distances, d)
		nearest = min(nearest, d)
	}
	r.work.distances = distances
	near.segments, near.sums = block.segments[:0], block.sums[:0]
	for k, i := range from.segments {
		if distances[k] <= nearest+2*radius {
			near.segments = append(near.segments, i)
		}
	}
	near.inside = from.inside
	for _, i := range from.sums {
		if near.inside {
			break
		}
		depth := r.sums[i].depthOf(x, y)
		if depth > -radius {
			near.sums = append(near.sums, i)
		}
		near.inside = depth >= radius
	}
	*block = near
	return near, nearest
}

// newCell describes the disc of the given radius about (x, y), which covers the
// cell, and says how deep any point of it lies at the least.
func (r *union) newCell(x, y, radius, nearest float64, near candidates) (c cell, least float32) {
	g := &r.grid
	c = cell{near: int32(len(g.near)), nearEnd: int32(len(g.near))}
	c.group, c.groupEnd = int32(len(g.groups)), int32(len(g.groups))
	c.plane = int32(len(g.planes))
	if !near.inside && nearest > radius {
		if !r.contains(orb.Point{x, y}) {
			return c, outside
		}
	} else if !near.inside {
		if !r.listPlanes(x, y, near.sums) {
			return c, outside
		}
		c.groupEnd = int32(len(g.groups))
	}
	if c.group == c.groupEnd {
		least = float32(max(nearest-radius, 0) * (1 - 0x1p-20))
	}
	if len(near.segments) == 0 {
		return c, outside
	}
	g.near = append(g.near, near.segments...)
	c.nearEnd = int32(len(g.near))
	return c, least
}

// Spot is an offset that has been looked up in a region.
type Spot struct {
	cell int32 // below 0 outside
	x, y float64
}

// Outside says whether the offset is known to lie outside the region.
func (s *Spot) Outside() bool { return s.cell < 0 }

// Find looks an offset up, and says how deep it lies at the least, mm: often all
// that one has to know, and far less work than Depth.
func (r *Region) Find(x, y float64) (s Spot, least float64) {
	v, g := &r.view, &r.grid
	x, y = v.xx*x+v.xy*y+v.x, v.yx*x+v.yy*y+v.y
	fx, fy := (x-g.lo[0])*g.invX, (y-g.lo[1])*g.invY
	if !(fx >= 0 && fy >= 0) {
		return Spot{cell: -1}, 0
	}
	ix, iy := int(fx), int(fy)
	if ix >= int(g.nx) || iy >= int(g.ny) {
		return Spot{cell: -1}, 0
	}
	k := iy*int(g.nx) + ix
	found := g.least[k]
	if found < 0 {
		return Spot{cell: -1}, 0
	}
	return Spot{int32(k), x, y}, float64(found)
}

// Depth is DepthAt of an offset.
func (r *Region) Depth(x, y float64) (depth, nx, ny float64) {
	s, _ := r.Find(x, y)
	return r.DepthAt(s)
}

// DepthAt returns how far the region's boundary is from an offset when that lies
// inside, with the unit direction (nx, ny) of the nearest way out; 0 when it lies
// outside. This is the least translation that parts the two outlines:
// the measure of J. Egeblad, B. K. Nielsen & A. Odgaard in EJOR 183 (2007) is
// along one axis, that of T. Imamichi, M. Yagiura & H. Nagamochi, Discrete
// Optimization 6 (2009), the one taken here.
func (r *Region) DepthAt(at Spot) (depth, nx, ny float64) {
	x, y, v, g := at.x, at.y, &r.view, &r.grid
	if at.cell < 0 {
		return 0, 0, 0
	}
	c := &g.cells[at.cell]
	if c.group != c.groupEnd && !g.inside(c, x, y) {
		return 0, 0, 0
	}
	// Which side is nearest cannot be predicted, so all are measured alike: the
	// place along the side is held to its ends without a branch, and so is the
	// least square picked. Numbers from 0 up are in the order of their bits, and those
	// the compiler picks by a conditional move.
	side, best := int32(0), uint64(math.MaxUint64)
	for _, k := range g.near[c.near:c.nearEnd] {
		s := &r.segments[k]
		px, py := x-s.ax, y-s.ay
		along := min(max(px*s.ux+py*s.uy, 0), s.length)
		px -= along * s.ux
		py -= along * s.uy
		if d := math.Float64bits(px*px + py*py); d < best {
			best, side = d, k
		}
	}
	depth, nx, ny = r.segments[side].wayOut(x, y)
	return depth, v.xx*nx + v.yx*ny, v.xy*nx + v.yy*ny
}

// wayOut returns the distance from (x, y) to the segment and the unit
// direction to its nearest point.
func (s *segment) wayOut(x, y float64) (d, nx, ny float64) {
	px, py := x-s.ax, y-s.ay
	along := px*s.ux + py*s.uy
	if along > 0 && along < s.length {
		off := s.uy*px - s.ux*py
		if off > 0 { // t lies on the outer side: a slit's edge, crossed from within another sum
			return off, -s.uy, s.ux
		}
		return -off, s.uy, -s.ux
	}
	if along > 0 {
		px, py = px-s.length*s.ux, py-s.length*s.uy
	}
	d = math.Sqrt(px*px + py*py)
	if d == 0 {
		return 0, 0, 0
	}
	return d, -px / d, -py / d
}

// inside says whether a point of a cell on the boundary is in the region: in
// all half-planes of some group.
func (g *grid) inside(c *cell, x, y float64) bool {
	at := int(c.plane)
	for _, count := range g.groups[c.group:c.groupEnd] {
		planes := g.planes[at : at+int(count)]
		at += int(count)
		in := true
		for i := range planes {
			if planes[i].nx*x+planes[i].ny*y >= planes[i].c {
				in = false
				break
			}
		}
		if in {
			return true
		}
	}
	return false
}
