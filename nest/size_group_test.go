package nest

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
)

// Whether a group finds a phase at which each copy lies between the edges, against
// all phases in whole millimetres tried one by one: sizes, repeats and points are
// whole, so that a phase that does is among them if there is any.
func TestGroupsFindAPhase(t *testing.T) {
	found := map[bool]int{}
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, least, most int) int { return rapid.IntRange(least, most).Draw(t, name) }
		p := Problem{Strip: Strip{Width: float64(draw("width", 40, 60)),
			Repeat: Repeat{Across: float64(draw("across", 15, 40))}}}
		if rapid.Bool().Draw(t, "short") {
			p.Strip.MaxLength, p.Strip.Repeat.Along = float64(draw("longest", 40, 60)), float64(draw("along", 15, 40))
		}
		turns := rapid.SampledFrom([][]float64{nil, {0, 180}, {0, 90}})
		for i := range draw("pieces", 1, 4) {
			p.Pieces = append(p.Pieces, Piece{
				Name:    fmt.Sprint("piece ", i),
				Outline: rect(0, 0, float64(draw("long", 30, 40)), float64(draw("wide", 30, 40))), Count: 2,
				Turns: turns.Draw(t, "turns"), Mirror: rapid.SampledFrom([]Mirror{AsDrawn, Paired, Free}).Draw(t,
					"mirror"),
				Match: &Match{Point: orb.Point{float64(draw("x", 0, 40)), float64(draw("y", 0, 40))}},
			})
		}
		want := false
		for x := 0.0; x < max(1, p.Strip.Repeat.Along); x++ {
			for y := 0.0; y < p.Strip.Repeat.Across; y++ {
				want = want || eachHasPlace(p, orb.Point{x, y})
			}
		}
		if got := p.sizeOfGroups() == nil; got != want {
			t.Fatalf("found %v, want %v", got, want)
		}
		found[want]++
	})
	if !t.Failed() && min(found[true], found[false]) < often.Enough(5) {
		t.Errorf("found %v: not worth the name of a test", found)
	}
}

// eachHasPlace says whether every copy has a place in whole millimetres at a phase.
func eachHasPlace(p Problem, phase orb.Point) bool {
	for i, piece := range p.Pieces {
		for k := range piece.Count {
			has := false
			for _, pl := range p.Ways(i, k) {
				along, across := p.extent(pl)
				least := p.Outline(pl).Bound().Min
				far := p.Strip.MaxLength - along
				if p.Strip.MaxLength == 0 {
					far = 0
				}
				for x := 0.0; x <= far; x++ {
					for y := 0.0; y+across <= p.Strip.Width; y++ {
						pl.At = orb.Point{x - least[0], y - least[1]}
						m := p.posed(pl, piece.Match.Point)
						ok := true
						for axis, repeat := range []float64{p.Strip.Repeat.Along, p.Strip.Repeat.Across} {
							if repeat > 0 {
								ok = ok && math.Remainder(math.Round(m[axis])-phase[axis], repeat) == 0
							}
						}
						has = has || ok
					}
				}
			}
			if !has {
				return false
			}
		}
	}
	return true
}

// posed returns where a point of a placed piece lies, turned by quarters.
func (p Problem) posed(pl Placed, at orb.Point) orb.Point {
	if pl.Mirrored {
		at[1] = -at[1]
	}
	sin, cos := math.Sincos(pl.Turn * math.Pi / 180)
	return orb.Point{cos*at[0] - sin*at[1] + pl.At[0], sin*at[0] + cos*at[1] + pl.At[1]}
}
