package plane

import (
	"slices"

	"github.com/paulmach/orb"
)

// Unfold joins a ring that lies on one side of the level y, one of its edges on
// it, to its mirror image about that level: the whole of a half drawn on a fold.
// A ring that does not come to the level is returned as it is.
func Unfold(half orb.Ring, y float64) orb.Ring {
	n := len(half) - 1
	start := slices.IndexFunc(half, func(v orb.Point) bool { return v[1] == y })
	for i := range n { // the fold runs from half[i] to half[i+1]
		if half[i][1] == y && half[i+1][1] == y {
			start = (i + 1) % n
		}
	}
	if start < 0 {
		return half
	}
	var line orb.LineString
	for i := range n {
		line = append(line, half[(start+i)%n])
	}
	line = append(line, MirrorLine(line, y)...)
	return Tidy(append(orb.Ring(line), line[0]))
}

// MirrorLine returns the mirror image of a line about the level y, end to start.
func MirrorLine(line orb.LineString, y float64) orb.LineString {
	out := make(orb.LineString, len(line))
	for i, v := range line {
		out[len(line)-1-i] = orb.Point{v[0], 2*y - v[1]}
	}
	return out
}

// MoveLine shifts a line where it lies.
func MoveLine(line orb.LineString, by orb.Point) {
	for i, v := range line {
		line[i] = orb.Point{v[0] + by[0], v[1] + by[1]}
	}
}
