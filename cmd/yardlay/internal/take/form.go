package take

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/outline"
	"yardlay/shapes/plane"
)

// form is an outline without its place: points spread evenly along it, about its middle.
type form struct {
	area, round float64
	long        float64 // direction of the axis about which its points are spread least, radians
	points      []orb.Point
	marks       []orb.Point // notches and apexes of darts
}

// spread is how many points of an outline are compared, and alike how far apart those of two
// may lie that are one by the other: mm, and in parts of the length around (common practice:
// what is traced by hand).
const (
	spread    = 256
	alike     = 1.0
	alikeOnce = 0.0005
)

// formOf measures an outline, and what is marked at it.
func formOf(s outline.Shape) form {
	ring := s.Ring()
	f := form{area: plane.Area(ring), round: plane.Length(ring)}
	var x, y float64
	step, ahead := f.round/spread, 0.
	for i := 1; i < len(ring) && step > 0; i++ {
		a, b := ring[i-1], ring[i]
		length := math.Hypot(b[0]-a[0], b[1]-a[1])
		for ; ahead < length && len(f.points) < spread; ahead += step {
			s := ahead / length
			p := orb.Point{a[0] + s*(b[0]-a[0]), a[1] + s*(b[1]-a[1])}
			f.points = append(f.points, p)
			x, y = x+p[0], y+p[1]
		}
		ahead -= length
	}
	n := float64(len(f.points))
	var xx, yy, xy float64
	for i := range f.points {
		p := &f.points[i]
		p[0], p[1] = p[0]-x/n, p[1]-y/n
		xx, yy, xy = xx+p[0]*p[0], yy+p[1]*p[1], xy+p[0]*p[1]
	}
	f.long = math.Atan2(2*xy, xx-yy) / 2
	for _, d := range s.Darts {
		f.marks = append(f.marks, orb.Point{d.Apex[0] - x/n, d.Apex[1] - y/n})
	}
	for _, m := range s.Notches {
		p := along(s.Edges[m.Edge].Line, m.At)
		f.marks = append(f.marks, orb.Point{p[0] - x/n, p[1] - y/n})
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
	for i, a := range f.points {
		b := f.points[(i+1)%len(f.points)]
		dx, dy := b[0]-a[0], b[1]-a[1]
		s := 0.
		if d := dx*dx + dy*dy; d > 0 {
			s = min(max(((p[0]-a[0])*dx+(p[1]-a[1])*dy)/d, 0), 1)
		}
		least = min(least, math.Hypot(p[0]-a[0]-s*dx, p[1]-a[1]-s*dy))
	}
	return least
}
