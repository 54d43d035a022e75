package outline

import (
	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// Fewer returns shapes that together have no more than MaxCorners corners. Where they have
// more, as what is traced from a scan has, points of their lines are left out as long as those
// stay within ChordError of what was drawn; ends of edges stay. More are refused.
func Fewer(all []Shape) ([]Shape, error) {
	if cornersIn(all) <= MaxCorners {
		return all, nil
	}
	out := make([]Shape, len(all))
	for i, s := range all {
		edges := make([]Edge, len(s.Edges))
		for k, e := range s.Edges {
			e.Line = thinned(e.Line, ChordError)
			edges[k] = e
		}
		if s.Edges = edges; s.Cut != nil {
			s.Cut = orb.Ring(thinned(orb.LineString(s.Cut), ChordError))
		}
		out[i] = s
	}
	if n := cornersIn(out); n > MaxCorners {
		return nil, say.Errorf("the outlines have %d corners in all, the most that is cut from one file is %d", n,
			MaxCorners).Hint("draw curves with fewer corners, or share the shapes out over several files")
	}
	return out, nil
}

// cornersIn counts those of the outlines.
func cornersIn(all []Shape) (n int) {
	for _, s := range all {
		n += len(s.Cut)
		for _, e := range s.Edges {
			n += len(e.Line) - 1
		}
	}
	return n
}

// thinned leaves out points of a line as long as it stays within a distance of them. Its ends
// stay.
func thinned(line orb.LineString, within float64) orb.LineString {
	l := loop{way: make([]vertex, len(line))}
	for i, p := range line {
		l.way[i].at = p
	}
	out := orb.LineString{line[0]}
	for i := 0; i < len(line)-1; {
		i = min(l.reach(i, within), len(line)-1)
		out = append(out, line[i])
	}
	return out
}
