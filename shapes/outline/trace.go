package outline

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// vertex is one point of a loop.
type vertex struct {
	at     orb.Point
	part   int  // that goes on from here
	corner bool // a segment ends here in the file
}

// trace makes the way round of the parts.
func (l *loop) trace() {
	l.way = l.way[:0]
	for k, p := range l.parts {
		next := 0
		for i, v := range p.points[:len(p.points)-1] {
			corner := next < len(p.corners) && p.corners[next] == i
			if corner {
				next++
			}
			if n := len(l.way); n > 0 && l.way[n-1].at == v {
				l.way[n-1].part, l.way[n-1].corner = k, l.way[n-1].corner || corner
				continue
			}
			l.way = append(l.way, vertex{v, k, corner || i == 0})
		}
	}
	for n := len(l.way); n > 1 && l.way[0].at == l.way[n-1].at; n = len(l.way) {
		l.way = l.way[:n-1]
	}
	l.string()
}

// string makes the ring of the way round.
func (l *loop) string() {
	l.ring = make(orb.Ring, 0, len(l.way)+1)
	for _, v := range l.way {
		l.ring = append(l.ring, v.at)
	}
	l.ring = append(l.ring, l.way[0].at)
	l.area, l.bound = plane.Area(l.ring), plane.Bounds(l.ring)
}

// hairWidth is the widest of a spike that is none, mm, and turnsBack how long it is at the
// least to be told.
const hairWidth = 0.02

// unspike takes out places where the way turns back upon itself, which no blade could follow, and tells them where
// there is somebody to tell.
func (l *loop) unspike(a *assembler) {
	was := len(l.way)
	var kept []vertex
	for _, v := range l.way {
		kept = append(kept, v)
		for n := len(kept); n >= 3 && isSpike(kept[n-3].at, kept[n-2].at, v.at); n = len(kept) {
			a.hair(l, kept[n-2], kept[n-3].at, v.at)
			kept = append(kept[:n-2], v)
			if kept[n-3].at == v.at {
				kept[n-3].part = v.part
				kept = kept[:n-2]
				break
			}
		}
	}
	for n := len(kept); n > 3; n = len(kept) { // where the way closes
		switch {
		case isSpike(kept[n-2].at, kept[n-1].at, kept[0].at):
			a.hair(l, kept[n-1], kept[n-2].at, kept[0].at)
			if kept = kept[:n-1]; kept[n-2].at == kept[0].at {
				kept = kept[:n-2]
			}
			continue
		case isSpike(kept[n-1].at, kept[0].at, kept[1].at):
			a.hair(l, kept[0], kept[n-1].at, kept[1].at)
			if kept = kept[1:]; kept[0].at == kept[n-2].at {
				kept = kept[:n-2]
			}
			continue
		}
		break
	}
	if l.way = kept; len(kept) != was {
		l.string()
	}
}

// hair tells a spike that is taken out.
func (a *assembler) hair(l *loop, tip vertex, before, after orb.Point) {
	long := min(math.Hypot(tip.at[0]-before[0], tip.at[1]-before[1]), math.Hypot(tip.at[0]-after[0], tip.at[1]-after[1]))
	if a != nil && long > told {
		a.fault(Fault{Kind: Hair, What: say.Textf("a hair %.2g long is taken off the outline", say.MM(long)), At: tip.at,
			Place: a.Lines[l.parts[tip.part].line].Place})
	}
}

// isSpike says whether a way turns back at b along where it came from.
func isSpike(a, b, c orb.Point) bool {
	if (b[0]-a[0])*(c[0]-b[0])+(b[1]-a[1])*(c[1]-b[1]) >= 0 {
		return false
	}
	if math.Hypot(b[0]-a[0], b[1]-a[1]) < math.Hypot(c[0]-b[0], c[1]-b[1]) {
		return planar.DistanceFromSegment(b, c, a) <= hairWidth
	}
	return planar.DistanceFromSegment(a, b, c) <= hairWidth
}

// thin leaves out points as long as the way stays within a distance of them. Corners stay.
func (l *loop) thin(within float64) {
	var kept []vertex
	n := len(l.way)
	for i := 0; i < n; {
		kept = append(kept, l.way[i])
		i = l.reach(i, within)
	}
	if len(kept) >= 3 {
		l.way = kept
		l.string()
	}
}

// reach is the farthest vertex that a straight line from vertex i can go to so that those
// between lie within a distance of it: the cone of headings that pass them all is narrowed
// from one to the next (Sklansky and Gonzalez, Pattern Recognition 12, 1980; from memory).
func (l *loop) reach(i int, within float64) int {
	n := len(l.way)
	a := l.way[i].at
	best, heading, open, far := i+1, 0., math.Pi, 0.
	for k := i + 1; k <= n; k++ {
		v := l.way[k%n]
		dx, dy := v.at[0]-a[0], v.at[1]-a[1]
		distance := math.Hypot(dx, dy)
		if distance < far || distance == 0 {
			break // it comes back: what lies between might lie beyond the end
		}
		angle := math.Atan2(dy, dx)
		if k > i+1 {
			turn := math.Remainder(angle-heading, 2*math.Pi)
			if math.Abs(turn) > open {
				break
			}
			best = k
		} else {
			heading = angle
		}
		far = distance
		if k == n || v.corner && l.sharp(k%n) || v.part != l.way[i].part {
			break
		}
		if distance > within {
			spare := math.Asin(within / distance)
			low, high := -spare, spare
			turn := math.Remainder(angle-heading, 2*math.Pi)
			low, high = max(low+turn, -open), min(high+turn, open)
			if low > high {
				break
			}
			heading, open = heading+(low+high)/2, (high-low)/2
		}
	}
	return best
}

// sharpest is the turn, radians, from which on a corner ends an edge: 30 degrees.
const sharpest = math.Pi / 6

// sharp says whether the way turns at a vertex so that an edge ends there.
func (l *loop) sharp(i int) bool { return l.turn(i) > sharpest }

// turn is the angle by which the way turns at a vertex, radians, either way.
func (l *loop) turn(i int) float64 {
	n := len(l.way)
	a, b, c := l.way[(i+n-1)%n].at, l.way[i].at, l.way[(i+1)%n].at
	cross := (b[0]-a[0])*(c[1]-b[1]) - (b[1]-a[1])*(c[0]-b[0])
	dot := (b[0]-a[0])*(c[0]-b[0]) + (b[1]-a[1])*(c[1]-b[1])
	return math.Abs(math.Atan2(cross, dot))
}
