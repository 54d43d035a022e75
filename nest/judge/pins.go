package judge

import (
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// judgePins judges whether what is pinned lies where it is pinned, turned and mirrored
// as it is.
func judgePins(p Problem, l Layout) error {
	if len(p.Pins) == 0 {
		return nil
	}
	at := make(map[copyID]Placed, len(l.Placed))
	for _, pl := range l.Placed {
		at[copyID{pl.Piece, pl.Copy}] = pl
	}
	for _, pin := range p.Pins {
		pl, placed := at[copyID{pin.Piece, pin.Copy}]
		if !placed || pl.At != pin.At || pl.Mirrored != pin.Mirrored || !sameTurn(pl.Turn, pin.Turn) {
			return &Broken{Rule: OffPin, Piece: p.Pieces[pin.Piece].Name, Copy: pin.Copy, At: pl.At,
				Detail: say.Textf("pinned at %v, turned %v degrees%s", plane.Point(pin.At), pin.Turn, asMirrored(pin))}
		}
	}
	return nil
}

// asMirrored says that a copy is, in words that follow others.
func asMirrored(pl Placed) string {
	if pl.Mirrored {
		return ", mirrored"
	}
	return ""
}
