package nest

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// leftOver is a piece that a folded stretch does not cut all copies of.
type leftOver struct {
	piece string
	why   string
	size  *SizeError // when it is too large
}

// text says which piece it is and why.
func (l leftOver) text() say.Text {
	if l.size != nil {
		return say.Textf("%q takes %v across and %v along, and the folded cloth has room for %v across",
			l.piece, micron(l.size.Across), micron(l.size.Along), micron(l.size.Width))
	}
	return say.Textf("%q %s", l.piece, l.why)
}

// refusal is the error where this is the first piece and there is none that is cut double.
func (l leftOver) refusal(lay Lay) *LayError {
	return &LayError{
		Lay: lay, Brief: "nothing can be cut double", Size: l.size,
		why: say.Textf("nothing can be cut double on a %v: %v", lay, l.text()),
	}
}

// share adds to a folded stretch what it can and may cut of piece i of p, and
// returns how many copies are left over and why.
func (s *Stretch) share(p Problem, i int, may Cutting) (left int, why leftOver) {
	over := func(why string) leftOver { return leftOver{piece: p.Pieces[i].Name, why: why} }
	piece := p.Pieces[i]
	if piece.Half != nil && s.Lay.lengthwise() && may.OnFold {
		if half := piece.onFold(); len(half.Turns) > 0 && s.fitsSingly(half) == nil {
			s.add(half, i, numbered(0, piece.Count))
			return 0, leftOver{}
		}
	}
	if piece.Count == 1 {
		return 1, over("is cut once, not in pairs")
	}
	if may.Double == 0 {
		return piece.Count, over("is left for the open stretch")
	}
	if p.pairsApart(i) {
		return piece.Count, over("is cut for sets that lie differently on the repeat")
	}
	double := piece
	double.Half, double.Alike = nil, false // each outline cuts a pair
	double.Count = min(may.Double, piece.Count/2)
	double.Turns = p.doubleTurns(i, s.Lay)
	if piece.Mirror == Paired {
		double.Mirror = Free // whichever of the two is drawn, the other layer gives the other
	}
	if len(double.Turns) == 0 && !slices.ContainsFunc(piece.turns(), onThread) {
		return piece.Count, over("lies askew on its grain, as on the bias, so that the other layer gives " +
			"its mirror image, and every copy is cut the same way up")
	}
	if len(double.Turns) == 0 {
		return piece.Count, over("is not its own mirror image in the turns that it may take, " +
			"and every copy is cut the same way up")
	}
	if miss := s.fitsSingly(double); miss != nil {
		return piece.Count, leftOver{piece: piece.Name, size: miss}
	}
	s.add(double, i, numbered(0, 2*double.Count))
	if may.Double < piece.Count/2 {
		return piece.Count - 2*double.Count, over("is left for the open stretch in part")
	}
	return piece.Count % 2, over("is cut in an odd number")
}

// fitsSingly says whether a piece has room on the stretch, repeats left aside.
func (s *Stretch) fitsSingly(piece Piece) *SizeError {
	alone := s.Problem
	alone.Pieces = []Piece{piece}
	return alone.sizeOf(0)
}

// add adds a piece to the stretch, cut for these copies of piece i of the open
// problem: one each, or two.
func (s *Stretch) add(piece Piece, i int, copies []int) {
	s.Problem.Pieces = append(s.Problem.Pieces, piece)
	s.from, s.copies = append(s.from, i), append(s.copies, copies)
}

// numbered counts n numbers up from first.
func numbered(first, n int) []int {
	list := make([]int, n)
	for k := range list {
		list[k] = first + k
	}
	return list
}

// onFold returns a piece with a Half as it is cut on a fold; without turns when
// none of its own keeps the fold along the cloth.
func (piece Piece) onFold() Piece {
	half := Piece{Name: piece.Name, Outline: piece.Half, Count: piece.Count, OnFold: true}
	for _, t := range piece.turns() {
		if _, ok := foldOf(t, false); ok {
			half.Turns = append(half.Turns, t)
		}
	}
	if m := piece.Match; m != nil {
		h, w := plane.Bounds(piece.Half), plane.Bounds(piece.Outline)
		moved := *m
		moved.Point[0] += h.Min[0] - w.Min[0]
		moved.Point[1] += h.Min[1] - (w.Min[1]+w.Max[1])/2
		half.Match = &moved
	}
	return half
}

// doubleTurns returns the turns in which one outline of piece i cuts two of its
// copies, one in each layer, both as the piece may lie.
func (p Problem) doubleTurns(i int, lay Lay) []float64 {
	piece := p.Pieces[i]
	turns := piece.turns()
	if lay == CrosswiseFold {
		turns = piece.twoWay()
	}
	if piece.Mirror != AsDrawn {
		return turns
	}
	var out []float64
	for _, t := range turns {
		if u, ok := nearTurn(piece.turns(), otherTurn(t, lay)); ok && p.ownMirrorImage(i, u) {
			out = append(out, t)
		}
	}
	return out
}

// otherTurn is the turn of what the second layer gives of an outline turned by t;
// mirrored it is besides. Folded along the cloth, or turned, the layers lie
// reflected about the grain; folded across, about the weft, which turns by 180
// degrees more.
func otherTurn(t float64, lay Lay) float64 {
	if lay == CrosswiseFold {
		return 180 - t
	}
	return 0 - t
}

// twoWay returns the turns that are allowed by 180 degrees more, too.
func (piece Piece) twoWay() []float64 {
	var out []float64
	for _, t := range piece.turns() {
		if _, ok := nearTurn(piece.turns(), t+180); ok {
			out = append(out, t)
		}
	}
	return out
}

// nearTurn finds the turn that is another up to whole turns and the rounding of
// sums of degrees.
func nearTurn(turns []float64, turn float64) (float64, bool) {
	for _, t := range turns {
		if math.Abs(math.Remainder(t-turn, 360)) < 1e-9 {
			return t, true
		}
	}
	return 0, false
}

// ownMirrorImage says whether piece i, turned by u, is cut by the same outline
// whether it is mirrored or not, and has its match point at the same place along.
func (p Problem) ownMirrorImage(i int, u float64) bool {
	drawn := p.Outline(Placed{Piece: i, Turn: u})
	mirrored := p.Outline(Placed{Piece: i, Turn: u, Mirrored: true})
	if !slices.Equal(plane.Canonical(drawn), plane.Canonical(mirrored)) {
		return false
	}
	m := p.Pieces[i].Match
	if m == nil || p.Strip.Repeat.Along == 0 {
		return true
	}
	along := func(mirrored bool, ring orb.Ring) float64 {
		return plane.Pose{Mirrored: mirrored, Turn: u}.ApplyPoint(m.Point)[0] - plane.Bounds(ring).Min[0]
	}
	return math.Abs(along(false, drawn)-along(true, mirrored)) < 1e-9 // mm: far below a step
}
