package nest

import (
	"github.com/paulmach/orb"

	"yardlay/nest/judge"
	"yardlay/shapes/say"
)

// Broken is the error of Verify: the rule broken, by which piece, and where.
type Broken = judge.Broken

// Rule is a rule of cutting that Verify judges.
type Rule = judge.Rule

// The rules, in the order in which they are judged.
const (
	WrongTurn    = judge.WrongTurn
	WrongMirror  = judge.WrongMirror
	OffLattice   = judge.OffLattice
	OutsideStrip = judge.OutsideStrip
	OffFold      = judge.OffFold
	NearFold     = judge.NearFold
	OverMiddle   = judge.OverMiddle
	WrongCount   = judge.WrongCount
	OffPin       = judge.OffPin
	MixedGrain   = judge.MixedGrain
	OffRepeat    = judge.OffRepeat
	WrongLength  = judge.WrongLength
	InForbidden  = judge.InForbidden
	Overlap      = judge.Overlap
	TooClose     = judge.TooClose
)

// Reach is the farthest a coordinate may lie from the origin, mm: a little over 65 m.
const Reach = judge.Reach

// Verify judges whether l is a marker of p that can be cut as it stands, by all of the
// rules above, exactly. It returns nil, the error that Problem.Check would give for an
// unsound problem, or a *Broken with the first rule broken.
//
// The judge (package judge) shares no code with the search.
func Verify(p Problem, l Layout) error {
	if err := p.checkSound(); err != nil {
		return say.Errorf("verify: %w", err)
	}
	return p.Judge().Verify(l.toJudge(), func() bool { return false })
}

// Judge returns a judge of p, for those who ask often. p is one that Check finds sound;
// one goroutine at a time asks.
func (p Problem) Judge() *judge.Judge { return judge.New(p.toJudge()) }

// PhasesOf returns a phase of each group of copies in a layout that passes Verify:
// their match points less the phase are whole repeats, each to the nearest step of
// the lattice, mm.
func (p Problem) PhasesOf(l Layout) map[int]orb.Point {
	return judge.PhasesOf(p.toJudge(), l.toJudge())
}

// toJudge states a problem in the judge's terms.
func (p Problem) toJudge() judge.Problem {
	s := p.Strip
	out := judge.Problem{
		Width: s.Width, MaxLength: s.MaxLength, Forbidden: s.Forbidden,
		FoldBelow: s.Folds != NoFold, FoldAbove: s.Folds == FoldBoth, Middle: s.Middle,
		Repeat: [2]float64{s.Repeat.Along, s.Repeat.Across}, Phases: p.Phases, Gap: p.Gap,
	}
	for _, pin := range p.Pins {
		out.Pins = append(out.Pins, judge.Placed(pin))
	}
	for _, piece := range p.Pieces {
		out.Pieces = append(out.Pieces, judge.Piece{
			Name: piece.Name, Outline: piece.Outline, Count: piece.Count, Turns: piece.Turns,
			Mirror: judge.Mirror(piece.Mirror), Alike: piece.Alike, OnFold: piece.OnFold,
			Match: (*judge.Match)(piece.Match),
		})
	}
	return out
}

func (l Layout) toJudge() judge.Layout {
	out := judge.Layout{Placed: make([]judge.Placed, len(l.Placed)), Length: l.Length}
	for i, pl := range l.Placed {
		out.Placed[i] = judge.Placed(pl)
	}
	return out
}
