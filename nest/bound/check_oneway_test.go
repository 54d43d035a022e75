package bound_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
	"yardlay/nest/bound"
	"yardlay/shapes/plane"
)

// exchanged confirms what a certificate counts in place of outlines, and returns what it counts in place of a way,
// grown by half the gap, in the box of that: of one that does not stand there, nothing.
func exchanged(t rapid.TB, c bound.Certificate) func(orb.Ring) (orb.Bound, []orb.Ring) {
	t.Helper()
	var parts, counted []orb.Ring
	for _, e := range c.Exchanged {
		if len(e.Parts) != len(e.Counted) {
			t.Fatalf("%d parts and %d counted", len(e.Parts), len(e.Counted))
		}
		box := plane.Bounds(e.Outline)
		for k, r := range e.Counted {
			if r == nil {
				continue
			}
			parts, counted = append(parts, e.Parts[k]), append(counted, r)
			if b := plane.Bounds(r); b.Min[0] < box.Min[0] || b.Min[1] < box.Min[1] ||
				b.Max[0] > box.Max[0] || b.Max[1] > box.Max[1] {
				t.Errorf("what is counted, %v, is larger than the outline, %v", b, box)
			}
			leavesNot(t, e.Outline, e.Parts[k])
		}
	}
	apartWhereTheyAre(t, parts, counted)
	return func(way orb.Ring) (orb.Bound, []orb.Ring) {
		k := slices.IndexFunc(c.Exchanged, func(e bound.Exchange) bool { return movedTo(way, e.Outline) })
		if k < 0 {
			return plane.Bounds(way), nil
		}
		var grown []orb.Ring
		for _, r := range c.Exchanged[k].Counted {
			if r != nil {
				grown = append(grown, byDisc(r, c.Gap/2))
			}
		}
		return plane.Bounds(c.Exchanged[k].Outline), grown
	}
}

// byDisc grows a convex ring by a disc, as a polygon of many corners inside it.
func byDisc(r orb.Ring, radius float64) orb.Ring {
	if radius == 0 {
		return r
	}
	var points []orb.Point
	for _, v := range r {
		for k := range 256 {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / 256)
			points = append(points, orb.Point{v[0] + radius*cos, v[1] + radius*sin})
		}
	}
	return plane.Hull(points)
}

// movedTo says whether two rings have the same corners but for a move and for where they begin.
func movedTo(a, b orb.Ring) bool {
	corners := func(r orb.Ring) map[[2]int]bool {
		box, out := plane.Bounds(r), map[[2]int]bool{}
		for _, v := range r {
			out[[2]int{int(math.Round((v[0] - box.Min[0]) / plane.Lattice)),
				int(math.Round((v[1] - box.Min[1]) / plane.Lattice))}] = true
		}
		return out
	}
	one, two := corners(a), corners(b)
	for v := range one {
		if !two[v] {
			return false
		}
	}
	return len(one) == len(two) && math.Abs(plane.Area(a)-plane.Area(b)) < 1e-6
}

// leavesNot looks along the sides of a part whether it leaves the outline, and whether it is convex: a straight line
// through many of its points, by even and odd, for the outline knows no other inside.
func leavesNot(t rapid.TB, outline, part orb.Ring) {
	t.Helper()
	n := len(part) - 1
	for i := range n {
		a, b, c := part[i], part[i+1], part[(i+2)%n]
		if (b[0]-a[0])*(c[1]-b[1])-(b[1]-a[1])*(c[0]-b[0]) < -1e-6 {
			t.Errorf("a part is not convex at %v", b)
		}
		for k := range 16 {
			u := float64(k) / 16
			v := orb.Point{a[0] + u*(b[0]-a[0]), a[1] + u*(b[1]-a[1])}
			if !insideOrNear(outline, v, 1e-5) {
				t.Errorf("a part leaves its outline at %v", v)
				return
			}
		}
	}
}

// insideOrNear says whether a point is in a ring, or so near to it.
func insideOrNear(r orb.Ring, v orb.Point, near float64) bool {
	in := len(cutsOf(nil, r, 1, v[1])) > 0
	if cuts := cutsOf(nil, r, 1, v[1]); in {
		in = false
		for i := 1; i < len(cuts); i += 2 {
			in = in || v[0] >= cuts[i-1]-near && v[0] <= cuts[i]+near
		}
	}
	for i := 1; i < len(r) && !in; i++ {
		a, b := r[i-1], r[i]
		d := orb.Point{b[0] - a[0], b[1] - a[1]}
		u := ((v[0]-a[0])*d[0] + (v[1]-a[1])*d[1]) / (d[0]*d[0] + d[1]*d[1])
		u = min(max(u, 0), 1)
		in = math.Hypot(v[0]-a[0]-u*d[0], v[1]-a[1]-u*d[1]) <= near
	}
	return in
}

// apartWhereTheyAre confirms that of any two of the sets, each against a copy of its own too, those counted
// reach no farther towards each other than the parts do: in the directions across all sides of parts, which are all
// that the sum of two polygons has sides across, and in many others.
func apartWhereTheyAre(t rapid.TB, parts, counted []orb.Ring) {
	t.Helper()
	var angles []float64
	for k := range 360 {
		angles = append(angles, 2*math.Pi*float64(k)/360)
	}
	for _, r := range parts {
		for i := 1; i < len(r); i++ {
			angles = append(angles, math.Atan2(r[i][0]-r[i-1][0], r[i-1][1]-r[i][1]))
		}
	}
	most := func(angle float64) float64 { // by which any set that is counted reaches farther than its part
		sin, cos := math.Sincos(angle)
		far := func(r orb.Ring) float64 {
			out := math.Inf(-1)
			for _, v := range r {
				out = max(out, v[0]*cos+v[1]*sin)
			}
			return out
		}
		out := math.Inf(-1)
		for k := range parts {
			out = max(out, far(counted[k])-far(parts[k]))
		}
		return out
	}
	for _, a := range angles {
		if beyond := most(a) + most(a+math.Pi); beyond > 1e-6 {
			t.Errorf("across %.4f, two of what is counted reach %v mm farther towards each other than the parts", a, beyond)
			return
		}
	}
}

// Gores, dented figures and long ones that all point one way, alone, together, and beside some that do not: every
// certificate is confirmed, what it exchanges too.
func TestOneWayChecked(t *testing.T) {
	problems := rapid.Custom(func(t *rapid.T) bound.Problem {
		p := bound.Problem{Width: 170, Gap: rapid.SampledFrom([]float64{0, 0, 3}).Draw(t, "gap")}
		for i := range rapid.IntRange(1, 3).Draw(t, "kinds") {
			turns := rapid.SampledFrom([][]float64{{0}, {0}, {0}, {0, 180}}).Draw(t, "turns")
			p.Pieces = append(p.Pieces, turned(fmt.Sprint("piece ", i), rapid.IntRange(2, 6).Draw(t, "count"),
				rapid.Custom(figure).Draw(t, "figure"), turns...))
		}
		return p
	})
	found := 0
	for _, seed := range often.Seeds([]int{0, 9}, often.Jobs(6, 40)) {
		p := problems.Example(seed)
		for _, b := range append(bound.Lower(t.Context(), p), bound.OneWays(t.Context(), p)...) {
			if check(t, p, b); b.Kind == bound.OneWay {
				found++
			}
			if t.Failed() {
				t.Fatalf("problem %d", seed)
			}
		}
	}
	if found == 0 {
		t.Errorf("%d bounds of pieces that point one way", found)
	}
}

// Copies of one triangle become those of its difference body, half as much again: so much is proved of many on wide
// cloth, by area alone. Source: Minkowski 1904, as in the code.
func TestOneWayTriangles(t *testing.T) {
	const side, width = 60., 6000.
	p := bound.Problem{Width: width, Pieces: []bound.Piece{turned("triangle", 3000,
		ring(0, 0, side, -side/2, side, side/2), 0)}}
	area := 3000 * side * side / 2 / width
	for _, b := range bound.Lower(t.Context(), p) {
		if b.Kind == bound.OneWay {
			if ratio := b.Length / area; ratio < 1.499 {
				t.Errorf("%v times the area", ratio)
			}
			return
		}
	}
	t.Error("no such bound")
}

// Gores of two sizes that point one way, laid as they mesh best, hem beside hem: the bound lies between what the
// symmetric bodies of either size alone would say of all.
func TestOneWayOfTwoSizes(t *testing.T) {
	gore := func(k float64) orb.Ring { return ring(0, -4*k, 100*k, -20*k, 100*k, 20*k, 0, 4*k) }
	p := bound.Problem{Width: 4000, Pieces: []bound.Piece{
		turned("large", 500, gore(1), 0), turned("small", 500, gore(0.9), 0)}}
	covered := func(count, k float64) float64 { // by the body of trapezia
		return count * 100 * (8 + 3*40) / 4 * k * k / 4000
	}
	var got float64
	for _, b := range bound.Lower(t.Context(), p) {
		if b.Kind == bound.OneWay {
			got = max(got, b.Length)
		}
	}
	if got < covered(1000, 0.9) || got > covered(1000, 1)*1.05 {
		t.Errorf("%v mm, where copies of one size take %v and %v", got, covered(1000, 0.9), covered(1000, 1))
	}
}

// Convex parts of dented outlines are convex and stay inside, and of one with few dents cover nearly all of it.
func TestConvexParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		outline := figure(t)
		parts := bound.ConvexParts(outline)
		for _, part := range parts {
			leavesNot(t, outline, part)
		}
		if covered := bound.Union(parts); covered < 0.95*plane.Area(outline) {
			t.Errorf("%v of %v mm2 covered", covered, plane.Area(outline))
		}
	})
}
