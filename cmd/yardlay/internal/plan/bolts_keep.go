package plan

import (
	"context"
	"fmt"
	"maps"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/nest"
)

// keepTogether settles what is cut from one length, and returns a filler of one bolt
// of each size: a garment that none of them holds may come from several, less and
// less of it together, unless its part asks for more.
func (b *buyer) keepTogether(ctx context.Context, strips []ShelfStrip) (*filler, error) {
	freed := map[int]job.Keep{}
	for {
		b.keep, b.memory = b.t.among(freed), newMemory()
		f, err := b.filler(strips)
		if err != nil || b.offer.ByLength() {
			return f, err
		}
		var stuck []int
		more := false
		for i := range f.bundles {
			if f.fitsSomewhere(ctx, i) {
				continue
			}
			for _, piece := range b.t.piecesOf(f, i) {
				if b.t.Spread.Parts[piece].Keep != "" || looser(freed[piece]) == "" {
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

// fitsSomewhere says whether a bundle alone was laid on any of the strips.
func (f *filler) fitsSomewhere(ctx context.Context, bundle int) bool {
	one := make(counts, len(f.bundles))
	one[bundle] = 1
	_, single := f.bundles[bundle].single()
	for _, i := range f.byRoom(f.room) {
		if f.fits[i][bundle] && (single || f.pack(ctx, i, one, nest.Trial, true).counts.total() > 0) {
			return true
		}
	}
	return false
}

// piecesOf lists the spread's pieces that a bundle has copies of.
func (t Task) piecesOf(f *filler, bundle int) []int {
	var pieces []int
	for _, k := range f.held(f.bundles[bundle]) {
		pl := nest.Placed{Piece: f.kinds[k].piece, Copy: f.kinds[k].copies[0]}
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
type BuyError struct{ What, Hint string }

func (e *BuyError) Error() string { return e.What + "\n  hint: " + e.Hint }

// refuse says why no lengths were found that hold the pieces.
func (b *buyer) refuse() error {
	if b.stuck != "" {
		return &BuyError{
			fmt.Sprintf("no whole bolt of `%s` holds all that is kept together of %s", b.t.Spread.Cloth.ID, b.stuck),
			`longer bolts, a price by the length, or less kept together: keep = "pair", keep = "piece"`,
		}
	}
	return &BuyError{
		fmt.Sprintf("no whole bolts of `%s`, up to %d of them, were found to hold the pieces", b.t.Spread.Cloth.ID, mostLengths),
		"give a price by the length, longer bolts, or more of them in stock",
	}
}
