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
	}
	if err != nil {
		return Result{}, say.Errorf("sleeve: armholes of %w", err)
	}
	return s.Sleeve.Draft()
}

// armhole returns the finished length of the armhole in front and behind, from the
// underarm to the shoulder, mm.
func (d Result) armhole() (front, back float64, err error) {
	if len(d.Armhole.Edges) != 2 {
		return 0, 0, errors.New("a draft without armholes")
	}
	whole, part := d.Armhole, d.Armhole
	part.Edges = whole.Edges[:1]
	_, front, err = part.Measure(d.Pieces)
	if err != nil {
		return 0, 0, err
	}
	part.Edges = whole.Edges[1:]
	_, back, err = part.Measure(d.Pieces)
	return front, back, err
}

// ArmholeJoin is the seam between a bodice and the sleeves that are set into it.
func ArmholeJoin(bodice, sleeve Result) (shapes.Join, error) {
	front, back, err := bodice.armhole()
	if err != nil {
		return shapes.Join{}, err
	}
	whole := front + back
	return shapes.Join{
		Name: "armhole", Times: 2, A: bodice.Armhole, B: sleeve.Cap,
		Notches: []float64{armholeNotch * front, whole - armholeNotch*back, whole - armholeNotch*back - notchPair},
	}, nil
}
