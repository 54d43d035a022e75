package draft

import (
	"errors"

	"yardlay/shapes"
)

// Meeting is a seam between two drafts: where each of them is sewn to the other.
type Meeting struct {
	Name  string // "waist" or "neck"
	Sides [2]shapes.JoinSide
}

// ErrNoMeeting says that two drafts have neither both a waist nor both a neck.
var ErrNoMeeting = errors.New("they share no waist and no neck")

// MeetingOf returns how one draft is sewn to another: at the waist where both have
// one, else at the neck.
func MeetingOf(a, b Result) (Meeting, error) {
	for _, m := range []struct {
		name string
		of   func(Result) (shapes.JoinSide, error)
		none error
	}{{"waist", WaistOf, ErrNoWaist}, {"neck", NeckOf, ErrNoNeck}} {
		out := Meeting{Name: m.name}
		var err error
		for i, d := range []Result{a, b} {
			if out.Sides[i], err = m.of(d); err != nil {
				break
			}
		}
		if !errors.Is(err, m.none) {
			return out, err
		}
	}
	return Meeting{}, ErrNoMeeting
}

// ErrNoNeck says that no edge of a draft is sewn at the neck.
var ErrNoNeck = errors.New("no edge is sewn at the neck")

// neckName is the edge of all drafts that lies at the neck.
const neckName = "neck"

// NeckOf returns the side of a draft in a seam at the neck. It gives ErrNoNeck where
// there is none.
func NeckOf(d Result) (shapes.JoinSide, error) {
	if len(d.Neck.Edges) > 0 {
		return d.Neck, nil
	}
	return shapes.JoinSide{}, ErrNoNeck
}
