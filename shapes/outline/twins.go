package outline

import (
	"math"

	"github.com/paulmach/orb"

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

// box is the cell of the box around a line, among all boxes, within a piece.
type box struct {
	of pieceKey
	at [4]int64
}

// boxesOf are the cells in which a box that is the same within a distance may be.
func boxesOf(l Line, within float64) []box {
	b := plane.Bounds(l.Points)
	all := []box{{of: keyOf(l.Marks)}}
	for k, v := range [4]float64{b.Min[0], b.Min[1], b.Max[0], b.Max[1]} {
		low, high := int64(math.Floor((v-within)/(8*twin))), int64(math.Floor((v+within)/(8*twin)))
		for i := range all {
			all[i].at[k] = low
			if high != low {
				other := all[i]
				other.at[k] = high
				all = append(all, other)
			}
		}
	}
	return all
}

// twins leaves out lines that are drawn a second time for the same: whichever way round, and
// from whichever corner of a closed one. A seam line on the cut line is left out too: the
// piece has no allowance.
func (a *assembler) twins() {
	seen := map[box][]int{}
	for i, l := range a.Lines {
		if a.Roles[i].Role == Ignored {
			continue
		}
		if !a.drawn(i, seen) {
			key := boxesOf(l, 0)[0]
			seen[key] = append(seen[key], i)
		}
	}
}

// drawn says whether a line is a second time one of those that are seen.
func (a *assembler) drawn(i int, seen map[box][]int) bool {
	for _, key := range boxesOf(a.Lines[i], twin) {
		for _, j := range seen[key][:min(len(seen[key]), mostAlike)] {
			if a.Roles[j].Role != Ignored && sameLine(a.Lines[j], a.Lines[i]) {
				if a.twin(i, j); a.Roles[i].Role == Ignored {
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

// sameLine says whether two lines are the same within twin, point by point.
func sameLine(a, b Line) bool {
	p, q := a.Points, b.Points
	if a.Closed != b.Closed || len(p) != len(q) {
		return false
	}
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
