package take

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/paulmach/orb/simplify"

	"yardlay/shapes/outline"
	"yardlay/shapes/plane"
)

// form is an outline about its middle, without its place.
type form struct {
	area, round float64
	long        float64     // direction of the axis about which it is spread least, radians
	ring        orb.Ring    // with no more corners than it needs
	points      []orb.Point // spread along it, besides its corners
	marks       []orb.Point // notches and apexes of darts
}

// How far apart outlines may lie that are alike: mm, and in parts of the length around (common
// practice: what is traced by hand). Corners are left out as long as it is not by a tenth of that.
const (
	alike     = 1.0
	alikeOnce = 0.0005
	spread    = 128 // points of an outline that are compared
)

// formOf measures an outline, and what is marked at it.
func formOf(s outline.Shape) form {
	ring := simplify.DouglasPeucker(alike / 10).Ring(slices.Clone(s.Ring()))
	f := form{area: plane.Area(ring), round: plane.Length(ring)}
	var x, y float64 // of the middle of the line around
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		share := math.Hypot(b[0]-a[0], b[1]-a[1]) / f.round / 2
		x, y = x+share*(a[0]+b[0]), y+share*(a[1]+b[1])
	}
	moved := func(p orb.Point) orb.Point { return orb.Point{p[0] - x, p[1] - y} }
	for _, p := range ring {
		f.ring = append(f.ring, moved(p))
	}
	var xx, yy, xy float64 // second moments of the line around
	for i := 1; i < len(f.ring); i++ {
		a, b := f.ring[i-1], f.ring[i]
		long := math.Hypot(b[0]-a[0], b[1]-a[1])
		xx += long * (a[0]*a[0] + a[0]*b[0] + b[0]*b[0])
		yy += long * (a[1]*a[1] + a[1]*b[1] + b[1]*b[1])
		xy += long * (a[0]*a[1] + b[0]*b[1] + (a[0]*b[1]+b[0]*a[1])/2)
	}
	f.long = math.Atan2(2*xy, xx-yy) / 2
	f.points = slices.Clone(f.ring)
	for i := range spread {
		f.points = append(f.points, along(orb.LineString(f.ring), f.round*float64(i)/spread))
	}
	for _, d := range s.Darts {
		f.marks = append(f.marks, moved(d.Apex))
	}
	for _, m := range s.Notches {
		f.marks = append(f.marks, moved(along(s.Edges[m.Edge].Line, m.At)))
	}
	return f
}

// along is the point so far along a line.
func along(line orb.LineString, far float64) orb.Point {
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		length := math.Hypot(b[0]-a[0], b[1]-a[1])
		if far < length {
			return orb.Point{a[0] + far/length*(b[0]-a[0]), a[1] + far/length*(b[1]-a[1])}
		}
		far -= length
	}
	return line[len(line)-1]
}

// mirrors says whether a form, mirrored, lies on another one: about their axes, either way
// round. Of a form itself that is whether left and right are the same.
func (f form) mirrors(g form) bool {
	if math.Abs(f.area-g.area) > 0.01*g.area || math.Abs(f.round-g.round) > 0.01*g.round ||
		len(f.marks) != len(g.marks) {
		return false
	}
	most := alike + alikeOnce*g.round
	for _, turn := range []float64{0, math.Pi} {
		sin, cos := math.Sincos(g.long + f.long + turn)
		mirrored := func(p orb.Point) orb.Point { // about x, turned
			return orb.Point{cos*p[0] + sin*p[1], sin*p[0] - cos*p[1]}
		}
		off := func(p orb.Point) bool { return g.nearest(mirrored(p)) > most }
		unmarked := func(p orb.Point) bool { return g.nearestMark(mirrored(p)) > 3*most }
		if !slices.ContainsFunc(f.points, off) && !slices.ContainsFunc(f.marks, unmarked) {
			return true
		}
	}
	return false
}

// nearestMark is how far a point lies from a mark of a form.
func (f form) nearestMark(p orb.Point) float64 {
	least := math.Inf(1)
	for _, m := range f.marks {
		least = min(least, math.Hypot(p[0]-m[0], p[1]-m[1]))
	}
	return least
}

// nearest is how far a point lies from the outline of a form.
func (f form) nearest(p orb.Point) float64 {
	least := math.Inf(1)
	for i := 1; i < len(f.ring); i++ {
		least = min(least, planar.DistanceFromSegment(f.ring[i-1], f.ring[i], p))
	}
	return least
}
