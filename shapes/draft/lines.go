package draft

import (
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
)

// splitAt cuts a line in two at a distance from its start, mm.
func splitAt(line orb.LineString, at float64) (first, rest orb.LineString) {
	for i, v := range line {
		if i == 0 {
			first = orb.LineString{v}
			continue
		}
		if step := planar.Distance(line[i-1], v); at < step {
			t := max(at/step, 0)
			cut := orb.Point{line[i-1][0] + t*(v[0]-line[i-1][0]), line[i-1][1] + t*(v[1]-line[i-1][1])}
			return joinLines(first, orb.LineString{cut}), joinLines(orb.LineString{cut}, line[i:])
		} else {
			at -= step
		}
		first = append(first, v)
	}
	return first, orb.LineString{line[len(line)-1]}
}

// joinLines strings lines together, points that fall on the last one left out.
func joinLines(lines ...orb.LineString) orb.LineString {
	var out orb.LineString
	for _, l := range lines {
		for _, v := range l {
			out = appendPoint(out, v)
		}
	}
	return out
}

// shapesEdge is a line as an edge, for the points along it.
func shapesEdge(line orb.LineString) shapes.Edge { return shapes.Edge{Line: line} }
