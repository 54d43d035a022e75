package draft

import (
	"slices"

	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// A combined facing faces neck and armhole of a sleeveless bodice in one piece, over the
// whole shoulder:
//
//	  shoulder
//	 .-------.
//	(         )  the neck, the shoulder and the armhole as they are on the piece
//	 \  neck   ) armhole
//	| '-.___    '-.
//	|       '-.    | Width along the side seam, and along the centre
//	'.________ '-.-'
//	  free edge, square to both
//
// It reaches half its width beyond neck and armhole everywhere, or it is refused.
const leastReach = 0.5

// combined draws such a strip.
func (c facedRun) combined(p shapes.Piece, width float64) (strip, error) {
	has := func(name string) bool {
		return slices.ContainsFunc(c.edges, func(e shapes.Edge) bool { return e.Name == name })
	}
	if !has(neckName) || !has("armhole") {
		return strip{}, say.Errorf("its neck and its armhole do not meet at a shoulder").
			Hint(`a facing of each: at = "neck", and at = "armhole"`)
	}
	if len(c.darts) > 0 {
		return strip{}, say.Errorf("a dart opens on its %s, within a facing in one with the shoulder", c.darts[0].of).
			Hint("move it by `bust_dart_at`, or face neck and armhole each by itself, where darts are folded")
	}
	if err := c.checkEnds(p, width); err != nil {
		return strip{}, err
	}
	s := strip{next: firstOf(c.next.Line, width), before: reversed(firstOf(reversed(c.before.Line), width))}
	for _, e := range c.edges {
		s.faced = append(s.faced, e.Line.Clone())
	}
	from, to := s.next[len(s.next)-1], s.before[0]
	// Into the piece, square to the seams at both ends.
	_, right := shapesEdge(c.next.Line).At(width)
	_, left := shapesEdge(c.before.Line).At(plane.Length(c.before.Line) - width)
	k := 0.4 * planar.Distance(from, to)
	s.free = chain(DefaultChord, cubic{from, {from[0] - k*right[0], from[1] - k*right[1]},
		{to[0] - k*left[0], to[1] - k*left[1]}, to})
	for _, e := range c.edges {
		if e.Name == "shoulder" {
			continue
		}
		if apart := clearance(s.free, e.Line); apart < leastReach*width {
			return strip{}, say.Errorf("a facing %.1f wide in one with the shoulder reaches %.1f beyond its %s, needs %.1f",
				say.MM(width), say.MM(apart), e.Name, say.MM(leastReach*width)).
				Hint("a wider facing, or one of neck and armhole each")
		}
	}
	return s, nil
}

// within says whether an edge lies within a facing, and is sewn to that of another piece.
func (f Facing) within(edge string) bool { return f.At == AtNeckAndArmhole && edge == "shoulder" }
