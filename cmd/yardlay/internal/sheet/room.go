package sheet

import (
	"math"

	"github.com/paulmach/orb"
)

// grainLevels is at how many levels across a piece its grain arrow is tried.
const grainLevels = 24

// leastGrain is the shortest arrow that a pattern's grain is moved for, mm of paper.
const leastGrain = 12.0

// roomyGrain returns the grain arrow as drafted or, where it would cross lines
// marked in the piece or others to keep clear of, at the level where the longest
// finds room; where that is too short the drafted one stays.
func (o Outline) roomyGrain(avoid []orb.LineString, k float64) orb.LineString {
	if len(o.Grain) != 2 || o.Grain[0][1] != o.Grain[1][1] { // one on the bias stays
		return o.Grain
	}
	f := newFrame(o.finished(), append(avoid[:len(avoid):len(avoid)], o.Inside...), 0)
	size := 2.2 * k // the breadth of its heads, with air
	whole := math.Abs(o.Grain[1][0] - o.Grain[0][0])
	level := (o.Grain[0][1] + o.Grain[1][1]) / 2
	if f.holds(o.Grain, size) {
		return o.Grain
	}
	best, longest := o.Grain, leastGrain*k
	for i := 1; i < grainLevels; i++ {
		y := f.bound.Min[1] + (f.bound.Max[1]-f.bound.Min[1])*float64(i)/grainLevels
		for _, g := range f.gaps(y-size/2, y+size/2, size, 0) {
			length := math.Min(whole, 0.8*(g[1]-g[0]))
			better := length > longest+1e-6*k || length > longest-1e-6*k &&
				math.Abs(y-level) < math.Abs(best[0][1]-level)
			if !better {
				continue
			}
			from := (g[0]+g[1])/2 - length/2
			best, longest = orb.LineString{{from, y}, {from + length, y}}, length
			if o.Grain[1][0] < o.Grain[0][0] {
				best.Reverse()
			}
		}
	}
	return best
}

// holds says whether a level arrow lies in one gap of the frame.
func (f frame) holds(arrow orb.LineString, size float64) bool {
	y := arrow[0][1]
	lo, hi := math.Min(arrow[0][0], arrow[1][0]), math.Max(arrow[0][0], arrow[1][0])
	for _, g := range f.gaps(y-size/2, y+size/2, size, 0) {
		if g[0] <= lo && hi <= g[1] {
			return true
		}
	}
	return false
}

// foldWords is where the words at a fold may stand along it, as shares of its
// length, the likeliest first.
var foldWords = []float64{0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74}

// clearBox says whether a box about a point, level along a direction, meets none
// of some lines.
func clearBox(at orb.Point, ux, uy, width, height float64, lines []orb.LineString) bool {
	for _, l := range lines {
		for i := 1; i < len(l); i++ {
			in := func(p orb.Point) orb.Point {
				dx, dy := p[0]-at[0], p[1]-at[1]
				return orb.Point{dx*ux + dy*uy, dy*ux - dx*uy}
			}
			if lo, hi, meets := clipToBand(in(l[i-1]), in(l[i]), -height/2, height/2); meets &&
				lo < width/2 && hi > -width/2 {
				return false
			}
		}
	}
	return true
}
