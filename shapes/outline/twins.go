package outline

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// leastLine is the shortest line that is meant, mm; what is shorter is a slip of the pen.
const leastLine = 0.1

// hairs leaves out lines that are too short to be meant.
func (a *assembler) hairs() {
	for i, l := range a.Lines {
		if length := plane.Length(l.Points); length < leastLine {
			a.Roles[i] = LineRole{Role: Ignored, Because: "it is a dot"}
			a.fault(Fault{Kind: Hair, What: say.Textf("a line only %.2g long is left out", say.MM(length)),
				At: l.Points[0], Place: l.Place})
		}
	}
}

// twin is how far lines may lie apart that count as one drawn twice, mm.
const twin = 0.02

// mostAlike is how many different lines in the same box are held against each further one.
const mostAlike = 16

// boxes finds lines by the boxes around them.
type boxes struct {
	pieces map[pieceKey]uint64
	last   map[uint64]int32 // of each cell of boxes the last line put in
	before []int32          // and of each line the one before it; -1: none
	keys   []uint64
}

// boxStep is the size of a cell of boxes, mm.
const boxStep = 8 * twin

// cells are those in which a box that is the same within a distance may be. Other boxes
// may share one.
func (b *boxes) cells(l Line, within float64) []uint64 {
	of := keyOf(l.Marks)
	piece, ok := b.pieces[of]
	if !ok {
		piece = uint64(len(b.pieces))
		b.pieces[of] = piece
	}
	around := plane.Bounds(l.Points)
	b.keys = append(b.keys[:0], piece)
	for _, v := range [4]float64{around.Min[0], around.Min[1], around.Max[0], around.Max[1]} {
		low, high := math.Floor((v-within)/boxStep), math.Floor((v+within)/boxStep)
		for i := range b.keys {
			key := b.keys[i]
			b.keys[i] = mixed(key, int64(low))
			if high != low {
				b.keys = append(b.keys, mixed(key, int64(high)))
			}
		}
	}
	return b.keys
}

// mixed adds a number to a key (the finishing step of splitmix64).
func mixed(key uint64, v int64) uint64 {
	key = key*0x9e3779b97f4a7c15 + uint64(v)
	key = (key ^ key>>30) * 0xbf58476d1ce4e5b9
	key = (key ^ key>>27) * 0x94d049bb133111eb
	return key ^ key>>31
}

// twins leaves out lines that are drawn a second time for the same: whichever way round, and
// from whichever corner of a closed one. A seam line on the cut line is left out too: the
// piece has no allowance.
func (a *assembler) twins() {
	seen := &boxes{pieces: map[pieceKey]uint64{}, last: make(map[uint64]int32, len(a.Lines)),
		before: make([]int32, len(a.Lines))}
	for i, l := range a.Lines {
		if a.Roles[i].Role == Ignored || a.drawn(i, seen) {
			continue
		}
		key := seen.cells(l, 0)[0]
		before, ok := seen.last[key]
		if !ok {
			before = -1
		}
		seen.before[i], seen.last[key] = before, int32(i)
	}
}

// drawn says whether a line is a second time one of those that are seen.
func (a *assembler) drawn(i int, seen *boxes) bool {
	for _, key := range seen.cells(a.Lines[i], twin) {
		j, ok := seen.last[key]
		for n := 0; ok && j >= 0 && n < mostAlike; j, n = seen.before[j], n+1 {
			if a.Roles[j].Role != Ignored && sameLine(a.Lines[j], a.Lines[i]) {
				if a.twin(i, int(j)); a.Roles[i].Role == Ignored {
					return true
				}
			}
		}
	}
	return false
}

// twin leaves out one of two lines that are the same, if both are for the same.
func (a *assembler) twin(i, j int) {
	p, q := a.Roles[i].Role, a.Roles[j].Role
	switch {
	case p == q || p == Unnamed || p == SeamLine && q == CutLine:
	case q == Unnamed || q == SeamLine && p == CutLine:
		i, j = j, i
	default:
		return
	}
	a.Roles[i] = LineRole{Role: Ignored, Because: "it is drawn twice"}
	a.fault(Fault{Kind: Duplicate, What: say.Textf("drawn over the line of %s; read once", a.Lines[j].Place),
		At: a.Lines[i].Points[0], Place: a.Lines[i].Place})
}

// sameLine says whether two lines are the same within twin: point by point, or, as one may have
// points on the way that the other has not, each corner of either on the other.
func sameLine(a, b Line) bool {
	if a.Closed != b.Closed {
		return false
	}
	p, q := a.Points, b.Points
	return len(p) == len(q) && samePoints(a, b) || len(p)+len(q) <= mostHeldOn && liesOn(p, q) && liesOn(q, p)
}

// mostHeldOn is how many points two lines have at the most whose corners are held against each other.
const mostHeldOn = 2000

// liesOn says whether all points of a line lie on another.
func liesOn(p, q orb.LineString) bool {
	for _, at := range p {
		on := false
		for i := 1; i < len(q) && !on; i++ {
			on = planar.DistanceFromSegment(q[i-1], q[i], at) <= twin
		}
		if !on {
			return false
		}
	}
	return true
}

// samePoints says whether two lines of as many points are the same within twin, point by point.
func samePoints(a, b Line) bool {
	p, q := a.Points, b.Points
	if !a.Closed {
		return along(p, q, 0, 1, len(p)) || along(p, q, len(p)-1, -1, len(p))
	}
	n := len(p) - 1
	tries := 0
	for k := range n {
		if near(p[0], q[k], twin) {
			if along(p, q, k, 1, n) || along(p, q, k, -1, n) {
				return true
			}
			if tries++; tries == mostAlike {
				break
			}
		}
	}
	return false
}

// along holds the first n points of p against those of q from one of them on, either way
// round.
func along(p, q orb.LineString, from, step, n int) bool {
	for i := range n {
		if !near(p[i], q[((from+step*i)%n+n)%n], twin) {
			return false
		}
	}
	return true
}

func near(a, b orb.Point, within float64) bool {
	return math.Abs(a[0]-b[0]) <= within && math.Abs(a[1]-b[1]) <= within &&
		math.Hypot(a[0]-b[0], a[1]-b[1]) <= within
}
