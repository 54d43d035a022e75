package draft

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// Petals are a skirt of rounded panels that overlap at the waist like the petals
// of a flower. Each is a sector of a partial circle whose hem runs from the sides
// down to the middle as a quarter of an ellipse, in angle and radius:
//
//	        side
//	      .------.._
//	waist )         '.       radius = r + Side + (Length - Side) cos t
//	- - - ) - - - - - )- -   angle  = half the petal's sin t
//	      )         .'       t from -90 to 90 degrees
//	      '------''`
//
// It leaves the sides along them and crosses the middle squarely, so that the
// edge has no corner from waist to waist.
type Petals struct {
	Waist    float64 // girth sewn to the waistband, overlaps laid, mm
	Length   float64 // from waist to hem in the middle of a petal, mm
	Side     float64 // from the waist down to where the edge begins to round, mm; 0 for at once
	Count    int     // petals
	Overlap  float64 // of neighbours, at the waist, mm
	Fraction float64 // of a circle that the waist is cut from, above 0

	HemRaise  float64 // how much shorter this layer is than the outer, mm
	Chord     float64 // chord error of curves, mm; 0 means DefaultChord
	Allowance shapes.Allowance
}

// Radius returns that of the waist, mm.
func (p Petals) Radius() float64 { return p.Waist / (2 * math.Pi * p.Fraction) }

// share is the finished waist of one petal, overlap included, mm.
func (p Petals) share() float64 { return p.Waist/float64(p.Count) + p.Overlap }

// Draft returns the one piece with its count. The rounded edge takes the hem
// allowance from waist to waist. The waist is notched at its middle and at the
// overlaps, where the edges of the neighbours come to lie.
func (p Petals) Draft() (Result, error) { return named("petals")(p.draft()) }

func (p Petals) draft() (Result, error) {
	if err := p.check(); err != nil {
		return Result{}, err
	}
	r, chord := p.Radius(), chordError(p.Chord)
	half := p.share() / r / 2
	centre := orb.Point{-r, 0}
	waist := evenly(r).line(centre, half, -half, 0, chord)
	hem := p.round(centre, half, chord)
	first, last := waist[len(waist)-1], waist[0]
	if p.Side > p.HemRaise {
		hem = append(append(orb.LineString{first}, hem...), last)
	} else { // it rounds at once
		hem[0], hem[len(hem)-1] = first, last
	}
	piece, err := shapes.NewPiece("petal", []shapes.Edge{
		{Name: "hem", Kind: shapes.Hem, Line: hem, Allowance: p.Allowance.For(shapes.Hem)},
		{Name: "waist", Kind: shapes.Waist, Line: waist, Allowance: p.Allowance.For(shapes.Waist)},
	})
	if err != nil {
		return Result{}, err
	}
	piece.Count = p.Count
	edge, _ := piece.Edge("waist")
	length := edge.Length()
	err = piece.AddNotch("waist", length/2)
	if p.Overlap > 0 {
		err = errors.Join(err, piece.AddNotch("waist", p.Overlap), piece.AddNotch("waist", length-p.Overlap))
	}
	if err != nil {
		return Result{}, err
	}
	d := Result{Pieces: []shapes.Piece{piece}, Waist: p.around(piece)}
	return d, d.notch(d.Waist)
}

// round samples the hem from the lower to the upper side. With A the half angle,
// h the height of the round part and R the greatest radius, the second derivative
// of the point by t is at most h + R A^2 + 2 h A + R A, and the sagitta of a step
// an eighth of that times the step squared.
func (p Petals) round(centre orb.Point, half, chord float64) orb.LineString {
	side := -centre[0] + max(p.Side-p.HemRaise, 0)
	height := -centre[0] + p.Length - p.HemRaise - side
	most := side + height
	bend := height + most*half*half + 2*height*half + most*half
	n := 2 * max(1, int(math.Ceil(math.Pi/2*math.Sqrt(bend/(8*chord)))))
	line := make(orb.LineString, n+1)
	for i := range line {
		sin, cos := math.Sincos(math.Pi * (float64(i)/float64(n) - 0.5))
		if i == 0 || i == n {
			cos = 0
		}
		y, x := math.Sincos(half * sin)
		rho := side + height*cos
		line[i] = orb.Point{centre[0] + rho*x, rho * y}
	}
	return line
}

func (p Petals) check() error {
	if err := cmp.Or(
		positive(measured{"waist", p.Waist}, measured{"length", p.Length}),
		notNegative(measured{"side", p.Side}, measured{"overlap", p.Overlap}),
	); err != nil {
		return err
	}
	if p.Side >= p.Length {
		return say.Errorf("side of %.6g leaves nothing to round of a length of %.6g", say.MM(p.Side), say.MM(p.Length))
	}
	if p.Count < 1 || p.Count > MaxCount {
		return fmt.Errorf("petals: %d, must be from 1 to %d", p.Count, MaxCount)
	}
	if err := cmp.Or(
		checkFraction(p.Fraction),
		checkHem(p.HemRaise, p.Length, p.Chord, p.Allowance),
	); err != nil {
		return err
	}
	if share := p.Waist / float64(p.Count); p.Overlap >= share {
		return say.Errorf("overlap of %.6g is more than a petal's share of the waist, %.6g: three would lie on "+
			"each other", say.MM(p.Overlap), say.MM(share)).
			Hint("fewer petals or less overlap")
	}
	if err := checkHemRadius(p.Fraction, p.Waist, p.Radius()+p.Length); err != nil {
		return err
	}
	if angle := p.share() / p.Radius(); angle > math.Pi {
		return say.Errorf("a petal opens to %.1f degrees, the most is 180", angle*180/math.Pi).
			Hint("more petals or a smaller fraction of a circle")
	}
	return checkInnerRadius("waist", p.Radius(), p.Allowance.Waist)
}

// around strings the waists of the petals; half of an overlap lies at the start, half
// at the end.
func (p Petals) around(piece shapes.Piece) shapes.JoinSide {
	waist, _ := piece.Edge("waist")
	s := sideOf(shapes.SewnEdge{Piece: piece.Name, Edge: "waist", Copies: p.Count, Reversed: true})
	if p.Overlap == 0 {
		return s
	}
	s.Treatment = lapAtEnds(p.Overlap / 2)
	for i := 1; i < p.Count; i++ {
		s.Treatment.Laps = append(s.Treatment.Laps, shapes.Mouth{From: float64(i)*waist.Length() - p.Overlap/2,
			Width: p.Overlap})
	}
	return s
}
