package plan

import (
	"context"
	"maps"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/nest"
	"yardlay/shapes/say"
)

// keepTogether settles what is cut from one length, and returns a filler of one bolt
// of each size: a garment that none of them holds may come from several, less and
// less of it together, unless its part asks for more.
func (b *buyer) keepTogether(ctx context.Context, strips []shelf.Length) (*shelf.Filler, error) {
	freed := map[int]job.Keep{}
	for {
		b.keep, b.memory = b.t.among(freed), shelf.NewMemory()
		f, err := b.filler(strips)
		if err != nil || b.offer.ByLength() {
			return f, err
		}
		var stuck []int
		more := false
		for _, copies := range f.Unheld(ctx) {
			for _, piece := range b.t.piecesOf(copies) {
				if b.t.Spread.Cuts[piece].Part.Keep != "" || looser(freed[piece]) == "" {
					stuck = append(stuck, piece)
				} else {
					freed[piece], more = looser(freed[piece]), true
				}
			}
		}
		if !more {
			b.split, b.stuck = b.t.Spread.partsOf(slices.Sorted(maps.Keys(freed))), b.t.Spread.partsOf(stuck)
			return f, nil
		}
	}
}

// piecesOf lists the spread's pieces that some of the task's copies are of.
func (t Task) piecesOf(copies []nest.Placed) []int {
	var pieces []int
	for _, pl := range copies {
		if t.source != nil {
			pl = t.source(pl)
		}
		if !slices.Contains(pieces, pl.Piece) {
			pieces = append(pieces, pl.Piece)
		}
	}
	return pieces
}

// BuyError says why nothing that is sold holds the pieces, and what would help.
type BuyError struct{ Err error }

func (e *BuyError) Error() string { return e.Err.Error() }

// Parts says it as its cause does, with lengths as shown.
func (e *BuyError) Parts(show say.Show) (what, hint string) { return say.Parts(e.Err, show) }
func (e *BuyError) Unwrap() error                           { return e.Err }

// refuse says why no lengths were found that hold the pieces.
func (b *buyer) refuse() error {
	if b.stuck != "" {
		return &BuyError{say.Errorf("no whole bolt of `%s` holds all that is kept together of %s",
			b.t.Spread.Cloth.ID, b.stuck).
			Hint(`longer bolts, a price by the length, or less kept together: keep = "pair", keep = "piece"`)}
	}
	return &BuyError{say.Errorf("no whole bolts of `%s`, up to %d of them, were found to hold the pieces",
		b.t.Spread.Cloth.ID, mostLengths).Hint("give a price by the length, longer bolts, or more of them in stock")}
}
