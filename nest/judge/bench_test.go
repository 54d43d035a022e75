package judge

import (
	"fmt"
	"testing"

	"github.com/paulmach/orb"
)

// cogs is a marker of interlocking pieces: each a comb of teeth that fills the
// gaps of its neighbours exactly, so that every shared edge is a contact.
func cogs(pieces, vertices int) (Problem, Layout) {
	teeth := max(1, (vertices-2)/4)
	comb := orb.Ring{}
	for i := range teeth { // lower side, left to right
		x := float64(4 * i)
		comb = append(comb, orb.Point{x, 0}, orb.Point{x + 2, 3})
	}
	comb = append(comb, orb.Point{float64(4 * teeth), 0})
	for i := teeth; i > 0; i-- { // upper side, right to left: the same line, 10 mm up
		x := float64(4 * i)
		comb = append(comb, orb.Point{x, 10}, orb.Point{x - 2, 13})
	}
	comb = append(comb, orb.Point{0, 10}, comb[0])
	const rows = 20
	p := Problem{
		Width:  10*rows + 3,
		Pieces: []Piece{{Name: "comb", Outline: comb, Count: pieces}},
	}
	var l Layout
	for i := range pieces {
		at := orb.Point{float64(i / rows * 4 * teeth), float64(i % rows * 10)}
		l.Placed = append(l.Placed, Placed{Copy: i, At: at})
		l.Length = at[0] + float64(4*teeth)
	}
	return p, l
}

func BenchmarkVerify(b *testing.B) {
	for _, size := range []struct{ pieces, vertices int }{{40, 50}, {40, 500}, {100, 50}, {800, 50}, {800, 500}} {
		p, l := cogs(size.pieces, size.vertices)
		b.Run(fmt.Sprintf("pieces=%d/vertices=%d", size.pieces, len(p.Pieces[0].Outline)-1), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := New(p).Verify(l, never); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkVerifyGap(b *testing.B) {
	p, l := cogs(800, 50)
	p.Gap, p.Width = 1, 2*p.Width
	for i := range l.Placed {
		l.Placed[i].At[0] += float64(i / 20 * 2)
		l.Placed[i].At[1] = float64(i % 20 * 12)
	}
	l.Length += 2 * 39
	b.ReportAllocs()
	for b.Loop() {
		if err := New(p).Verify(l, never); err != nil {
			b.Fatal(err)
		}
	}
}

// Discs over one another in no place: boxes overlap, lines do not meet.
func BenchmarkOverlapApart(b *testing.B) {
	first, err := newCutLine(disc(0, 0, 100, 500))
	if err != nil {
		b.Fatal(err)
	}
	second := first.moved(step{145 * steps, 145 * steps})
	var j pairing
	b.ReportAllocs()
	for b.Loop() {
		if _, yes := j.overlap(first, second); yes {
			b.Fatal("discs overlap")
		}
	}
}
