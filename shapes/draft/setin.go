package draft

import (
	"errors"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// SetIn is a sleeve whose armholes are those of the draft that it is set into.
type SetIn struct {
	Sleeve Sleeve // its armholes are not read
	Bodice Draft  // with an armhole
}

// SetsIn is a draft that may be drafted to the armholes of another.
type SetsIn interface {
	Draft
	SetInto(bodice Draft) Draft
}

// SetInto returns the sleeve as drafted to the armholes of a bodice.
func (s Sleeve) SetInto(bodice Draft) Draft { return SetIn{Sleeve: s, Bodice: bodice} }

// Draft drafts the sleeve to the armholes of the bodice.
func (s SetIn) Draft() (Result, error) {
	made, err := s.Bodice.Draft()
	if err == nil {
		s.Sleeve.FrontArmhole, s.Sleeve.BackArmhole, err = made.armhole()
		s.Sleeve.OffShoulder = made.OffShoulder
		s.Sleeve.FrontArmhole += made.OffShoulder
		s.Sleeve.BackArmhole += made.OffShoulder
	}
	if err != nil {
		return Result{}, say.Errorf("sleeve: armholes of %w", err)
	}
	return s.Sleeve.Draft()
}

// armhole returns the finished length of the armhole in front and behind, from the
// underarm to the shoulder or to a neckline off it, mm, darts folded.
func (d Result) armhole() (front, back float64, err error) {
	if len(d.Armhole.Edges) == 0 {
		return 0, 0, errors.New("a draft without armholes")
	}
	var part [2]shapes.JoinSide
	for _, e := range d.Armhole.Edges {
		k := 1
		if inFront(e.Piece) {
			k = 0
		}
		part[k].Edges = append(part[k].Edges, e)
	}
	var length [2]float64
	for k := range part {
		if err = part[k].FoldDarts(d.Pieces); err == nil {
			_, length[k], err = part[k].Measure(d.Pieces)
		}
		if err != nil {
			return 0, 0, err
		}
	}
	return length[0], length[1], nil
}

// armholeMarks are where an armhole has its notches, from the front underarm, mm: single
// in front, the back ones double.
func armholeMarks(front, back float64) []float64 {
	whole := front + back
	return []float64{armholeNotch * front, whole - armholeNotch*back, whole - armholeNotch*back - notchPair}
}

// ArmholeJoin is the seam between a bodice and the sleeves that are set into it.
func ArmholeJoin(bodice, sleeve Result) (shapes.Join, error) {
	front, back, err := bodice.armhole()
	if err != nil {
		return shapes.Join{}, err
	}
	return shapes.Join{Name: "armhole", Times: 2, A: bodice.Armhole, B: sleeve.Cap,
		Notches: armholeMarks(front, back)}, nil
}
