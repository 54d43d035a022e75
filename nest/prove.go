package nest

import (
	"context"
	"slices"
	"sync"
	"time"

	"github.com/paulmach/orb"

	"yardlay/nest/bound"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// LowerBound returns the longest length found that no layout of p can be shorter
// than, mm, with its reason; p is one that Check finds sound. It holds whatever phases
// are given: those follow from layouts, and with others less may be enough. When the context ends
// it returns the best found so far, at least that of area and longest piece.
func LowerBound(ctx context.Context, p Problem) bound.Bound {
	return p.pastPins(bound.Lower(ctx, p.toBound())[0])
}

// proofGrace is how long a proof may take to notice that it is to end.
const proofGrace = 20 * time.Millisecond

// mostKindsProved bounds the kinds of pieces for which more than the plainest bound
// is looked for: the better ones look at pairs of kinds.
const mostKindsProved = 500

// boundBeside looks for the bound beside the search, once the first layout stands: until
// then that needs every processor. wait returns it, or, when the context ends before it
// is found, the plainest; end ends the looking.
func (p Problem) boundBeside(ctx context.Context, o Options, stands bool) (wait func() bound.Bound, end func()) {
	plain := func() bound.Bound { return p.pastPins(bound.Plain(p.toBound())) }
	if !stands || o.Effort == Trial || len(p.Pieces) > mostKindsProved {
		return sync.OnceValue(plain), func() {} // whatever the machine does
	}
	ctx, end = context.WithCancel(ctx)
	found := make(chan bound.Bound, 1)
	go func() { found <- o.Proofs.LowerBound(ctx, p) }()
	return sync.OnceValue(func() bound.Bound {
		select {
		case b := <-found:
			return b
		case <-ctx.Done():
		}
		select {
		case b := <-found: // the best so far
			return b
		case <-time.After(proofGrace):
			return plain()
		}
	}), end
}

// toBound translates a problem.
func (p Problem) toBound() bound.Problem {
	b := bound.Problem{Width: closedWidth(p), MaxLength: p.Strip.MaxLength, Gap: p.Gap, Forbidden: p.Strip.Forbidden}
	b.Repeat = [2]float64{p.Strip.Repeat.Along, p.Strip.Repeat.Across}
	if b.Width != p.Strip.Width {
		b.Repeat[1] = 0 // moved down, the upper half lies off it
	}
	pins := p.pinned()
	for i, piece := range p.Pieces {
		for k := range piece.leftAndRight() {
			for _, g := range p.sharesOf(i, k, pins) {
				b.Pieces = append(b.Pieces, p.toBoundPiece(i, g.group, g.copies, p.Ways(i, k)))
			}
		}
	}
	for _, pin := range p.Pins {
		group := 0
		if m := p.Pieces[pin.Piece].Match; m != nil {
			group = m.group(pin.Copy)
		}
		b.Pieces = append(b.Pieces, p.toBoundPiece(pin.Piece, group, 1, []Placed{pin}))
	}
	return b
}

// toBoundPiece translates so many copies of piece i, of one group, that may lie in some ways.
func (p Problem) toBoundPiece(i, group, copies int, ways []Placed) bound.Piece {
	piece := p.Pieces[i]
	part := bound.Piece{Name: piece.Name, Count: copies}
	if piece.Match != nil {
		part.Match = &bound.Match{Group: group}
	}
	for _, way := range ways {
		way.At = orb.Point{}
		part.Ways = append(part.Ways, p.Outline(way))
		if part.Match != nil {
			pose := plane.Pose{Mirrored: way.Mirrored, Turn: way.Turn}
			part.Match.Points = append(part.Match.Points, pose.ApplyPoint(piece.Match.Point))
		}
	}
	return part
}

// share is how many copies of one sort belong to a group.
type share struct{ group, copies int }

// sharesOf counts the copies of piece i that are of the sort of copy k and not pinned, by
// their groups, in the order of the first of each.
func (p Problem) sharesOf(i, k int, pins pinned) (list []share) {
	m, step := p.Pieces[i].Match, len(p.Pieces[i].leftAndRight())
	for c := k; c < p.Pieces[i].Count; c += step {
		if _, pinned := pins.of(i, c); pinned {
			continue
		}
		g := 0
		if m != nil {
			g = m.group(c)
		}
		at := slices.IndexFunc(list, func(s share) bool { return s.group == g })
		if at < 0 {
			at, list = len(list), append(list, share{group: g})
		}
		list[at].copies++
	}
	return list
}

// closedWidth returns a width on which every layout of p has its like, no longer.
// Where selvedges lie in the middle nothing lies over them: the upper half can be
// moved down onto the lower one, to a gap from it.
func closedWidth(p Problem) float64 {
	s := p.Strip
	if s.Folds != FoldBoth || len(s.Forbidden) > 0 {
		return s.Width
	}
	return s.Width - max(0, 2*s.Middle-p.Gap)
}

// consistent refuses a bound above a layout that stands: one of the two would
// be wrong, and neither may be shown.
func consistent(b bound.Bound, l Layout) error {
	if b.Length > l.Length {
		return say.Errorf("the bound of %v (%s) lies above a layout of %v: one of the two is wrong, please report it",
			say.MM(b.Length), b.Kind, say.MM(l.Length))
	}
	return nil
}
