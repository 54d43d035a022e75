package search

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestRoomInARow: what a row says of its room is the largest height for which its
// levels find a place, tried at every level, so that passing by rows without room
// changes no layout.
func TestRoomInARow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const width = 60
		gap := float64(rapid.IntRange(0, 3).Draw(t, "gap"))
		in := row{}
		for at := 0.0; ; {
			at += float64(rapid.IntRange(0, 12).Draw(t, "free"))
			tall := float64(rapid.IntRange(1, 15).Draw(t, "tall"))
			if at+tall > width {
				break
			}
			in.taken = append(in.taken, span{at, at + tall})
			at += tall + gap
		}
		want := 0.0
		for y := 0.0; y <= width; y++ {
			room := width - y
			for _, s := range in.taken {
				switch {
				case s.to+gap <= y:
				case s.from-gap >= y:
					room = math.Min(room, s.from-gap-y)
				default:
					room = 0
				}
			}
			want = math.Max(want, room)
		}
		if got := in.widest(width, gap); got != want {
			t.Errorf("%v with a gap of %v: room for %v, want %v", in.taken, gap, got, want)
		}
	})
}
