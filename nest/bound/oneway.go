package bound

import (
	"context"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Pieces that all point one way leave cloth idle between them, more than their outlines show: gores beside
// each other, hem beside hem. They are exchanged for others of more area that lie apart wherever they do.
//
// Let h(u) be how far a convex set P reaches in direction u, and c any function of directions with
// c(-u) = -c(u), the same for all sets. P becomes P', all points v with u.v <= h(u) - c(u) for every u. For two
// of them at their places, P' reaches at most h(u) - c(u) and Q' at most k(-u) - c(-u) the other way, together no
// farther than P and Q do: where a line of normal u parts P and Q, a line parts P' and Q'. Of polygons the
// normals of all their sides, and those against them, are enough: P - Q has no others, so P' - Q' lies in it, and
// what keeps a gap keeps it still. An outline becomes what its convex parts do, together.
//
// With c(u) = (h(u) - h(-u))/2 copies of P become those of (P - P)/2, which is symmetric and, of a triangle, half as
// much again as P (H. Minkowski, Dichteste gitterfoermige Lagerung kongruenter Koerper, Nachrichten der K.
// Gesellschaft der Wissenschaften zu Goettingen, 1904). Of several pieces c is a mean of these: the area of all
// is a quadratic form of their supports, greatest there as long as h - c are supports of sets.

// oneWay returns problems whose pieces are exchanged, none where that does not bring more area, or the context ends.
func (s *setting) oneWay(ctx context.Context) []*setting {
	t := s.taken()
	if !slices.ContainsFunc(t.items, item.pointsOneWay) {
		return nil
	}
	rough := t.bodies(roughPart, roughNormals)
	if before, after := rough.area(rough.parts), rough.area(rough.shifted(rough.mean(1))); after < before*worthShifting {
		return nil
	}
	b := t.bodies(func(ring orb.Ring) []orb.Ring {
		if ctx.Err() != nil {
			return nil
		}
		return convexParts(ring)
	}, fineNormals)
	if ctx.Err() != nil {
		return nil
	}
	var out []*setting
	for _, share := range shiftShares {
		shifted := b.shifted(b.mean(share))
		if b.area(shifted) > s.area()*worthPricing {
			out = append(out, b.exchanged(shifted))
		}
	}
	return out
}

// taken returns a setting of the items that are exchanged: all, or those that point one way where the others may lie in
// too many; none of which there are too many. What is left out counts for nothing.
func (s *setting) taken() *setting {
	few := func(items []item) bool {
		ways := 0
		for _, it := range items {
			ways += len(it.ways)
		}
		return ways <= mostTaken
	}
	t := &setting{width: s.width, gap: s.gap, items: s.items}
	if !few(t.items) {
		t.items = slices.DeleteFunc(slices.Clone(t.items), func(it item) bool { return !it.pointsOneWay() })
	}
	if !few(t.items) {
		t.items = nil
	}
	return t
}

// pointsOneWay says whether an item may lie in one way alone.
func (it item) pointsOneWay() bool { return len(it.ways) == 1 }

// shiftShares are the shares of the mean that are tried: the whole gives the most area, but prices may prove more by
// less.
var shiftShares = []float64{1, 0.8}

// roughPart is one convex part of an outline, if it has one that is worth while.
func roughPart(ring orb.Ring) []orb.Ring {
	if part := convexPart(ring); part != nil {
		return []orb.Ring{part}
	}
	return nil
}

const (
	mostTaken     = 120  // ways of pieces that are taken apart
	roughNormals  = 150  // as many sides of all parts together
	fineNormals   = 350  // the same, where it counts
	fewestCorners = 8    // that a part keeps whatever their number
	worthShifting = 1.01 // times the area of single parts that the exchange must bring
	worthPricing  = 1.002
	inset         = 1e-5 // mm by which parts are smaller than they could be, for rounding
	leastBody     = 1    // mm2
)

// bodies is the pieces of a setting as convex parts.
type bodies struct {
	*setting
	parts   [][][]orb.Ring // of each way of each item
	normals []orb.Point    // outward, of all their sides; after each the one against it
}

// bodies takes the pieces apart; sides is how many all parts may have together, or thereabouts.
func (s *setting) bodies(apart func(orb.Ring) []orb.Ring, sides int) *bodies {
	b := &bodies{setting: s}
	count := 0
	for _, it := range s.items {
		ways := make([][]orb.Ring, len(it.ways))
		for k, w := range it.ways {
			ways[k] = apart(w.ring)
			count += len(ways[k])
		}
		b.parts = append(b.parts, ways)
	}
	corners := max(sides/max(count, 1), fewestCorners)
	known := map[orb.Point]bool{}
	for _, part := range b.each() {
		*part = thinnedInside(*part, corners)
		for _, u := range normals(*part) {
			if against := (orb.Point{-u[0], -u[1]}); !known[u] {
				known[u], known[against] = true, true
				b.normals = append(b.normals, u, against)
			}
		}
	}
	return b
}

// each returns all parts.
func (b *bodies) each() []*orb.Ring {
	var out []*orb.Ring
	for _, ways := range b.parts {
		for _, parts := range ways {
			for k := range parts {
				out = append(out, &parts[k])
			}
		}
	}
	return out
}

// normals returns the outward normals of a counter-clockwise ring's sides, of length 1.
func normals(ring orb.Ring) []orb.Point {
	var out []orb.Point
	for i := 1; i < len(ring); i++ {
		dx, dy := ring[i][0]-ring[i-1][0], ring[i][1]-ring[i-1][1]
		if length := math.Hypot(dx, dy); length > 0 {
			out = append(out, orb.Point{dy / length, -dx / length})
		}
	}
	return out
}

// mean returns a share of the mean, over all copies that point one way, of what they reach more in a direction
// than against it, by halves: for each normal, mm. Copies count by the square of their area, or a few large
// pieces, whose idle cloth is most of all, would be shifted by what many small ones need.
func (b *bodies) mean(share float64) []float64 {
	out := make([]float64, len(b.normals))
	sum := 0.0
	for i, it := range b.items {
		if !it.pointsOneWay() || len(b.parts[i][0]) == 0 {
			continue
		}
		weight := float64(it.count) * it.area() * it.area()
		sum += weight
		corners := slices.Concat(b.parts[i][0]...)
		for k := 0; k < len(out); k += 2 {
			u := b.normals[k]
			up, down := reach(corners, u), reach(corners, b.normals[k+1])
			out[k] += weight * ((up-down)/2 - (u[0]*it.ways[0].along+u[1]*it.ways[0].across)/2)
		}
	}
	for k := 0; k < len(out) && sum > 0; k += 2 {
		out[k] *= share / sum
		out[k+1] = -out[k]
	}
	return out
}

// reach returns how far points reach in a direction of length 1, mm from the origin.
func reach(points []orb.Point, u orb.Point) float64 {
	far := math.Inf(-1)
	for _, v := range points {
		far = max(far, v[0]*u[0]+v[1]*u[1])
	}
	return far
}

// shifted returns what becomes of the parts when they reach less by c in each normal, in place of each what is
// left of it; nil where nothing is.
func (b *bodies) shifted(c []float64) [][][]orb.Ring {
	out := make([][][]orb.Ring, len(b.parts))
	for i, ways := range b.parts {
		for k, parts := range ways {
			moved := make([]orb.Ring, len(parts))
			for n, part := range parts {
				moved[n] = b.shift(part, c, b.items[i].ways[k])
			}
			out[i] = append(out[i], moved)
		}
	}
	return out
}

// shift does so with one part. It does not leave the box of its way, so that it lies on the cloth where that does.
func (b *bodies) shift(part orb.Ring, c []float64, w way) orb.Ring {
	out := orb.Ring{{0, 0}, {w.along, 0}, {w.along, w.across}, {0, w.across}, {0, 0}}
	for k, u := range b.normals {
		limit := reach(part, u) - c[k] - inset
		if reach(out, u) <= limit {
			continue
		}
		out = cutLeft(out, func(v orb.Point) float64 { return limit - v[0]*u[0] - v[1]*u[1] })
		if len(out) < 4 {
			return nil
		}
	}
	if out = plane.Hull(out); len(out) < 4 || plane.Area(out) < leastBody {
		return nil
	}
	return thinned(out, b.width*borderTolerance)
}

// area is what the pieces cover by such parts, each in the way in which that is least, mm2.
func (b *bodies) area(parts [][][]orb.Ring) float64 {
	sum := 0.0
	for i, it := range b.items {
		least := math.Inf(1)
		for _, of := range parts[i] {
			covers := 0.0
			if of = nonEmpty(of); len(of) > 0 {
				covers = unionChords(of, LinesAlong).total()
			}
			least = min(least, covers)
		}
		if len(parts[i]) > 0 {
			sum += least * float64(it.count)
		}
	}
	return sum
}

// nonEmpty returns the parts of which the exchange has left something.
func nonEmpty(parts []orb.Ring) []orb.Ring {
	return slices.DeleteFunc(slices.Clone(parts), func(p orb.Ring) bool { return p == nil })
}

// exchanged returns the problem of such parts. Pieces of which nothing is left in some way are left out.
func (b *bodies) exchanged(shifted [][][]orb.Ring) *setting {
	out := &setting{width: b.width, gap: b.gap, profiles: make(map[profileKey]profile)}
	for i, it := range b.items {
		ways := slices.Clone(it.ways)
		for k := range ways {
			ways[k].parts, ways[k].shifted = b.parts[i][k], shifted[i][k]
		}
		if !slices.ContainsFunc(ways, func(w way) bool { return len(nonEmpty(w.shifted)) == 0 }) {
			it.ways = ways
			out.items = append(out.items, it)
		}
	}
	return out
}

// idle names the items that point one way and of which a tenth of all is, by the area of their outlines.
func (s *setting) idle() []string {
	var out []string
	for _, it := range s.items {
		if it.pointsOneWay() && it.area()*float64(it.count) >= s.area()/10 && !slices.Contains(out, it.name) {
			out = append(out, it.name)
		}
	}
	return out
}

// exchanges lists what is laid for what; nothing where the pieces are laid themselves.
func (s *setting) exchanges() []Exchange {
	var out []Exchange
	for _, it := range s.items {
		for _, w := range it.ways {
			if w.shifted == nil {
				return nil
			}
			out = append(out, Exchange{Outline: w.ring, Parts: w.parts, Counted: w.shifted})
		}
	}
	return out
}
