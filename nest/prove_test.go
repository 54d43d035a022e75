package nest

import (
	"context"
	"testing"
)

// The selvedges of a double fold take their part of the width: on 400 mm with 20
// kept clear on either side of the middle two panels of 180 lie side by side, and
// four of them 100 long take 200, which area alone does not prove on 400 (180).
// A gap of 30 is kept beside the folds and between two rows; of the middle it asks
// for no more than lies there.
func TestBoundLeavesOutTheMiddle(t *testing.T) {
	for _, c := range []struct{ gap, across, least, length float64 }{
		{0, 180, 200, 200},
		{30, 165, 200, 230},
	} {
		p := Problem{
			Strip:  Strip{Width: 400, Folds: FoldBoth, Middle: 20},
			Pieces: []Piece{{Name: "panel", Outline: rect(0, 0, 100, c.across), Count: 4}},
			Gap:    c.gap,
		}
		l := Layout{Length: c.length}
		for i := range 4 {
			pl := Placed{Copy: i}
			pl.At[0] = float64(i/2) * (100 + c.gap)
			pl.At[1] = c.gap/2 + float64(i%2)*(400-c.gap-c.across)
			l.Placed = append(l.Placed, pl)
		}
		if err := Verify(p, l); err != nil {
			t.Fatal(err)
		}
		if got := lowerBound(context.Background(), p).Length; got < c.least || got > c.length {
			t.Errorf("gap %v: bound %v mm, want at least %v and at most %v", c.gap, got, c.least, c.length)
		}
	}
}
