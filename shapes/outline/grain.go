package outline

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// A line without a name is the grain where it is straight, so long against the piece at the
// least, and either square to the page or has heads as an arrow has.
const (
	leastGrain   = 40.0 // mm
	grainShare   = 0.25 // of the size of the piece
	mostHead     = 20.0 // mm
	squareToPage = 1.0 / 180 * math.Pi
)

// grain finds the grain line among the lines of a shape, and returns the others.
func (a *assembler) grain(shape int, items []item) (rest []item) {
	s := &a.Shapes[shape]
	best, long := -1, 0.
	for k, it := range items {
		if a.Roles[it.line].Role == Grain {
			if line := longestStraight(it.path); plane.Length(line) > long {
				best, long, s.Grain = k, plane.Length(line), line
			}
		}
	}
	if best < 0 {
		if best = a.guessGrain(shape, items); best >= 0 {
			it := items[best]
			s.Grain = orb.LineString{it.path[0], it.path[len(it.path)-1]}
			a.Roles[it.line].Role = Grain
			a.Roles[it.line].Because = "it is straight and lies free in the outline, as no other does"
			s.Because = append(s.Because,
				"A line is taken for the grain: it is straight and lies free in the outline, as no other does.")
		}
	}
	for k, it := range items {
		r := &a.Roles[it.line]
		switch {
		case k == best || r.Role == Grain:
		case best >= 0 && r.Role == Unnamed && isHead(it.path, s.Grain):
			r.Role, r.Because = Grain, "it is the head of the grain line"
		default:
			rest = append(rest, it)
		}
	}
	return rest
}

// guessGrain finds the one line that may be the grain; -1 where there is none, or several.
func (a *assembler) guessGrain(shape int, items []item) int {
	free, headed := []int{}, []int{}
	size := a.shaped[shape].outer().size()
	for k, it := range items {
		p, q := it.path[0], it.path[len(it.path)-1]
		long := math.Hypot(q[0]-p[0], q[1]-p[1])
		if a.Roles[it.line].Role != Unnamed || it.Dashed || long < max(leastGrain, grainShare*size) ||
			!straight(it.path, ChordError) || a.touches(shape, it.path) {
			continue
		}
		line := orb.LineString{p, q}
		heads := 0
		for j, other := range items {
			if j != k && isHead(other.path, line) {
				heads++
			}
		}
		if angle := math.Abs(math.Remainder(math.Atan2(q[1]-p[1], q[0]-p[0]), math.Pi/2)); heads == 0 &&
			angle > squareToPage {
			continue
		}
		if free = append(free, k); heads > 0 {
			headed = append(headed, k)
		}
		if len(free) > mostFree {
			return -1
		}
	}
	switch {
	case len(headed) == 1:
		return headed[0]
	case len(free) == 1:
		return free[0]
	}
	return -1
}

// mostFree is how many lines are tried for the grain of one piece.
const mostFree = 16

// isHead says whether a short line ends where the grain line does.
func isHead(path, grain orb.LineString) bool {
	if plane.Length(path) > 2*mostHead {
		return false
	}
	for _, p := range path {
		if near(p, grain[0], atOutline) || near(p, grain[1], atOutline) {
			return true
		}
	}
	return false
}

// longestStraight is the longest straight stretch of a line.
func longestStraight(path orb.LineString) orb.LineString {
	if straight(path, ChordError) {
		return orb.LineString{path[0], path[len(path)-1]}
	}
	var best orb.LineString
	long := -1.
	for i := 1; i < len(path); i++ {
		if d := math.Hypot(path[i][0]-path[i-1][0], path[i][1]-path[i-1][1]); d > long {
			best, long = orb.LineString{path[i-1], path[i]}, d
		}
	}
	return best
}
