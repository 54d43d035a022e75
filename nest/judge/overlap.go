package judge

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"
)

// pairing compares pairs of cut lines; it keeps its scratch space between pairs.
type pairing struct {
	near [2][]nearEdge
	cuts [2][]cut
	met  []edgePair
}

// nearEdge is an edge of a cut line with its box.
type nearEdge struct {
	index     int
	from, to  step
	low, high step
}

type edgePair struct{ a, b *nearEdge }

// cut is a vertex of either outline that lies on an edge of the other, as a
// place on edge `edge` of one of them; never the edge's end, which is the next
// edge's start.
type cut struct {
	edge  int
	at    step
	along int64 // steps from the edge's start, in the sum of both axes
}

// overlap says whether the insides of two cut lines share an area, exactly, and
// a place where they do. Touching, at points or along edges, is no overlap.
//
// Where edges of a and b cross properly there is an overlap. Otherwise the lines
// meet in vertices only, and these part each line into runs that keep their side
// to the other line. If the insides share an area, its border holds a run of a
// that has the inside of b on its own inner side, or the same the other way
// round; so one probe a run decides, and its midpoint lies on the half lattice.
//
// Of an outline that rounding made cross itself the inside is where its winding
// number is not zero, both sides of each run are looked at, and a line that runs
// through the other's inside counts as an overlap, area or not: the blade would
// cut there. Areas shared by two such outlines are found too: a corner of the
// shared area is a vertex or a proper crossing.
func (j *pairing) overlap(a, b *cutLine) (orb.Point, bool) {
	low := step{max(a.low.x, b.low.x), max(a.low.y, b.low.y)}
	high := step{min(a.high.x, b.high.x), min(a.high.y, b.high.y)}
	if low.x >= high.x || low.y >= high.y {
		return orb.Point{}, false
	}
	j.meet(a, b, low, high, 0)
	j.cuts[0], j.cuts[1] = j.cuts[0][:0], j.cuts[1][:0]
	for _, pair := range j.met {
		if j.contact(pair.a, pair.b) {
			return crossingNear(pair.a, pair.b), true
		}
	}
	if where, yes := probeRuns(a, b, j.cuts[0]); yes {
		return where, true
	}
	return probeRuns(b, a, j.cuts[1])
}

// meet fills j.met with the pairs of edges of a and b whose boxes come within
// reach of each other, and of the window low..high.
func (j *pairing) meet(a, b *cutLine, low, high step, reach int64) {
	j.near[0] = a.edgesWithin(low, high, j.near[0][:0])
	j.near[1] = b.edgesWithin(low, high, j.near[1][:0])
	j.met = j.met[:0]
	na, nb := j.near[0], j.near[1]
	// Both lists come by least x: whichever edge starts first is paired with
	// those of the other list that start before it ends.
	for i, k := 0, 0; i < len(na) && k < len(nb); {
		if na[i].low.x <= nb[k].low.x {
			e := &na[i]
			for m := k; m < len(nb) && nb[m].low.x <= e.high.x+reach; m++ {
				j.pairUp(e, &nb[m], reach)
			}
			i++
		} else {
			e := &nb[k]
			for m := i; m < len(na) && na[m].low.x <= e.high.x+reach; m++ {
				j.pairUp(&na[m], e, reach)
			}
			k++
		}
	}
}

func (j *pairing) pairUp(a, b *nearEdge, reach int64) {
	if a.low.y <= b.high.y+reach && b.low.y <= a.high.y+reach {
		j.met = append(j.met, edgePair{a, b})
	}
}

// edgesWithin appends the edges whose boxes meet the window, by least x.
func (c *cutLine) edgesWithin(low, high step, out []nearEdge) []nearEdge {
	for _, i := range c.byX {
		p, q := c.edge(i)
		e := nearEdge{i, p, q, step{min(p.x, q.x), min(p.y, q.y)}, step{max(p.x, q.x), max(p.y, q.y)}}
		if e.low.x > high.x {
			break
		}
		if e.high.x >= low.x && e.low.y <= high.y && e.high.y >= low.y {
			out = append(out, e)
		}
	}
	return out
}

// contact notes the vertices in which two edges meet; true when they cross
// properly, inside both. Starts are enough: an edge's end is the next one's start.
func (j *pairing) contact(a, b *nearEdge) bool {
	b0, b1 := cross(a.from, a.to, b.from), cross(a.from, a.to, b.to)
	if (b0 > 0 && b1 > 0) || (b0 < 0 && b1 < 0) {
		return false
	}
	a0, a1 := cross(b.from, b.to, a.from), cross(b.from, b.to, a.to)
	if (a0 > 0 && a1 > 0) || (a0 < 0 && a1 < 0) {
		return false
	}
	if b0 != 0 && b1 != 0 && a0 != 0 && a1 != 0 {
		return true
	}
	if b0 == 0 && a.covers(b.from) {
		j.note(a, b, b.from)
	}
	if a0 == 0 && b.covers(a.from) {
		j.note(a, b, a.from)
	}
	return false
}

// covers says whether p, on the line of e, lies on e.
func (e *nearEdge) covers(p step) bool {
	return e.low.x <= p.x && p.x <= e.high.x && e.low.y <= p.y && p.y <= e.high.y
}

// note keeps p, which lies on both edges, as a cut of each.
func (j *pairing) note(a, b *nearEdge, p step) {
	for side, e := range [2]*nearEdge{a, b} {
		if p != e.to {
			d := p.sub(e.from)
			j.cuts[side] = append(j.cuts[side], cut{e.index, p, max(d.x, -d.x) + max(d.y, -d.y)})
		}
	}
}

// probeRuns says whether one of the runs into which cuts part the line of a lies
// so that a's inside beside it is inside b, and where.
func probeRuns(a, b *cutLine, cuts []cut) (orb.Point, bool) {
	if len(cuts) == 0 {
		from, to := a.edge(0)
		return probe(a, b, from, to)
	}
	slices.SortFunc(cuts, func(s, t cut) int {
		return cmp.Or(cmp.Compare(s.edge, t.edge), cmp.Compare(s.along, t.along))
	})
	cuts = slices.Compact(cuts)
	for i, c := range cuts {
		_, to := a.edge(c.edge)
		if i+1 < len(cuts) && cuts[i+1].edge == c.edge {
			to = cuts[i+1].at
		}
		if where, yes := probe(a, b, c.at, to); yes {
			return where, true
		}
	}
	return orb.Point{}, false
}

// probe looks beside the middle of a stretch of a's line that b's line does not
// enter or leave.
func probe(a, b *cutLine, from, to step) (orb.Point, bool) {
	middle, along := from.add(to), to.sub(from)
	bLeft, bRight := b.insideBeside(middle, along)
	yes := bLeft
	if !a.simple && (bLeft || bRight) {
		aLeft, aRight := a.insideBeside(middle, along)
		yes = (bLeft && bRight) || (aLeft && bLeft) || (aRight && bRight)
	}
	return orb.Point{float64(middle.x) / (2 * steps), float64(middle.y) / (2 * steps)}, yes
}

// insideBeside says whether the points infinitely near to m, left and right of
// the direction along, are inside c, its winding number around them being other
// than zero. m is in half steps. m may lie on the line of c.
func (c *cutLine) insideBeside(m, along step) (left, right bool) {
	upright := along.y == 0 // a level direction: look up instead of along x
	if upright {
		m = step{m.y, m.x}
	}
	// The two points are m-(e,0) and m+(e,0); both rays run along x, a trifle
	// above m, and each edge counts for a point on the left of which it passes.
	before, after := 0, 0
	for i := range c.points {
		p, q := c.edge(i)
		if upright {
			p, q = step{p.y, p.x}, step{q.y, q.x}
		}
		turn := 1
		if q.y < p.y {
			p, q, turn = q, p, -1
		}
		if 2*p.y > m.y || 2*q.y <= m.y {
			continue
		}
		// p -> q now rises past m; m left of it means that the ray meets it.
		side := (q.x-p.x)*(m.y-2*p.y) - (q.y-p.y)*(m.x-2*p.x)
		if side >= 0 {
			before += turn
		}
		if side > 0 {
			after += turn
		}
	}
	// Left of an upward direction lies the lesser x; seen with the axes swapped,
	// left of a direction along +x lies the greater.
	if along.y > 0 || (upright && along.x < 0) {
		return before != 0, after != 0
	}
	return after != 0, before != 0
}

// crossingNear returns the crossing of two edges that cross properly, mm, to
// float64 accuracy: it is only shown.
func crossingNear(a, b *nearEdge) orb.Point {
	d0, d1 := float64(cross(b.from, b.to, a.from)), float64(cross(b.from, b.to, a.to))
	t, p, q := d0/(d0-d1), a.from.point(), a.to.point()
	return orb.Point{p[0] + t*(q[0]-p[0]), p[1] + t*(q[1]-p[1])}
}
