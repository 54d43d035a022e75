package draft

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes/plane"
)

// roundCorner rounds the corner between an edge and the straight one that follows it
// counter-clockwise by an arc of a radius, mm, which becomes part of the first edge: its
// centre is as far from both. ok is false where there is no room for it.
//
//	first
//	-----.
//	      '.   arc
//	        |
//	        |  next
func roundCorner(first, next orb.LineString, radius, chord float64) (edge, straight orb.LineString, ok bool) {
	corner, end := next[0], next[len(next)-1]
	run := planar.Distance(corner, end)
	dir := orb.Point{(end[0] - corner[0]) / run, (end[1] - corner[1]) / run}
	in := orb.Point{-dir[1], dir[0]}
	centre := func(along float64) orb.Point {
		return orb.Point{corner[0] + along*dir[0] + radius*in[0], corner[1] + along*dir[1] + radius*in[1]}
	}
	// The further down the straight edge, the further from the first one.
	excess := func(along float64) float64 { _, _, d := nearestOn(first, centre(along)); return d - radius }
	if excess(run) < 0 {
		return first, next, false
	}
	at := bisect(excess, 0, run, 60)
	c := centre(at)
	i, touch, _ := nearestOn(first, c)
	if i == 0 && planar.Distance(touch, first[0]) < radius/100 {
		return first, next, false
	}
	foot := orb.Point{corner[0] + at*dir[0], corner[1] + at*dir[1]}
	from := math.Atan2(touch[1]-c[1], touch[0]-c[0])
	to := math.Atan2(foot[1]-c[1], foot[0]-c[0])
	if to < from {
		to += 2 * math.Pi
	}
	arc := plane.Arc(c, radius, from, to, chord)
	arc[0], arc[len(arc)-1] = touch, foot
	edge = append(first[:i+1:i+1], arc...)
	return edge, orb.LineString{foot, end}, true
}

// nearestOn returns the point of a line that is nearest to another, on which of its chords it
// lies, and how far off it is, mm.
func nearestOn(line orb.LineString, p orb.Point) (chord int, at orb.Point, off float64) {
	off = math.Inf(1)
	for i := 1; i < len(line); i++ {
		a, d := line[i-1], sub2(line[i], line[i-1])
		t := 0.0
		if l := dot(d, d); l > 0 {
			t = min(max(dot(sub2(p, a), d)/l, 0), 1)
		}
		q := orb.Point{a[0] + t*d[0], a[1] + t*d[1]}
		if far := planar.Distance(p, q); far < off {
			chord, at, off = i-1, q, far
		}
	}
	return chord, at, off
}
