package draft

import (
	"cmp"
	"errors"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// Godet is a wedge set into a seam or slit to widen a hem: a sector of a circle
// whose point is sewn to the top of the slit.
//
//	point  .-------___   Length, the side sewn
//	      <           )
//	       '-------"""   Hem, the arc it adds
//
// Its angle is Hem / Length.
type Godet struct {
	Length float64 // of the slit, from its top to the hem, mm
	Hem    float64 // what one godet adds to the hem, mm
	Count  int     // 0 means one

	HemRaise  float64 // how much shorter this layer is than the outer, mm
	Chord     float64 // chord error of arcs, mm; 0 means DefaultChord
	Allowance shapes.Allowance
}

// Draft returns the one piece, with a notch half way down both sides.
func (g Godet) Draft() (Result, error) {
	if err := g.check(); err != nil {
		return Result{}, say.Errorf("godet: %w", err)
	}
	half := g.Hem / g.Length / 2
	hem := plane.Arc(orb.Point{}, g.Length-g.HemRaise, -half, half, chordError(g.Chord))
	seam := g.Allowance.For(shapes.Seam)
	p, err := shapes.NewPiece("godet", []shapes.Edge{
		{Name: "lower side", Kind: shapes.Seam, Line: orb.LineString{{}, hem[0]}, Allowance: seam},
		{Name: "hem", Kind: shapes.Hem, Line: hem, Allowance: g.Allowance.For(shapes.Hem)},
		{Name: "upper side", Kind: shapes.Seam, Line: orb.LineString{hem[len(hem)-1], {}}, Allowance: seam},
	})
	if err != nil {
		return Result{}, err
	}
	p.Count = max(g.Count, 1)
	// Halfway down the finished side, from the point, on both.
	middle := (g.Length - g.HemRaise) / 2
	if err := errors.Join(p.AddNotch("lower side", middle), p.AddNotch("upper side", middle)); err != nil {
		return Result{}, err
	}
	return Result{Pieces: []shapes.Piece{p}, Joins: g.joins()}, nil
}

// joins returns the seams of each godet into its slit, from the point to the hem.
func (g Godet) joins() []shapes.Join {
	length := g.Length - g.HemRaise
	slit := func(edge string, reversed bool) shapes.Join {
		return shapes.Join{
			Name: edge + " into the slit", Times: max(g.Count, 1), Notches: []float64{length / 2},
			A: sideOf(shapes.SewnEdge{Piece: "godet", Edge: edge, Reversed: reversed}),
			B: shapes.JoinSide{Onto: "one side of the slit", Length: length},
		}
	}
	return []shapes.Join{slit("lower side", false), slit("upper side", true)}
}

func (g Godet) check() error {
	if err := cmp.Or(
		positive(measured{"length", g.Length}, measured{"hem", g.Hem}),
		checkHem(g.HemRaise, g.Length, g.Chord, g.Allowance),
	); err != nil {
		return err
	}
	if angle := g.Hem / g.Length; angle > math.Pi {
		return say.Errorf("a hem of %.1f on a length of %.1f opens to %.1f degrees, the most is 180", say.MM(g.Hem),
			say.MM(g.Length), angle*180/math.Pi).
			Hint("more godets, or longer ones")
	}
	return checkCount(g.Count)
}
