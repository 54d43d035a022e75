package hand

import (
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// TestContactKeepsToTheRepeat: beside a placed piece of its group a piece comes to lie on the
// repeat, where the judge passes it, at the nearest such place that the slow twin finds: all
// places on the grid about the wish on an axis with a repeat, half a millimetre apart on one
// without.
func TestContactKeepsToTheRepeat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		repeat := nest.Repeat{Along: rapid.SampledFrom([]float64{0, 7.3, 12}).Draw(t, "along"),
			Across: rapid.SampledFrom([]float64{0, 6, 11.1}).Draw(t, "across")}
		p := nest.Problem{Strip: nest.Strip{Width: 60, Repeat: repeat}}
		for i, name := range []string{"A", "B"} {
			p.Pieces = append(p.Pieces, nest.Piece{
				Name: name, Outline: outlines[i], Count: 1, Turns: []float64{0, 180},
				Match: &nest.Match{Point: orb.Point{2, 3.5}},
			})
		}
		table, err := New(p)
		if err != nil {
			t.Fatal(err)
		}
		others := []nest.Placed{{Piece: 0, At: orb.Point{float64(rapid.IntRange(0, 30).Draw(t, "ax")),
			float64(rapid.IntRange(0, 50).Draw(t, "ay"))}}}
		wish := wished(t, p, 1)
		got := table.Contact(wish, others, 5)
		if repeat == (nest.Repeat{}) {
			return
		}
		off := max(5, repeat.Along+repeat.Across)
		if got.Snapped {
			off = distance(got.Place.At, wish.At)
			if faults := table.Faults(got.Place, others); len(faults) > 0 {
				t.Fatalf("%+v: %v", got, faults)
			}
		}
		for x := range table.stepsAbout(wish, others, 0) {
			for y := range table.stepsAbout(wish, others, 1) {
				held := wish
				held.At = orb.Point{x, y}
				if distance(held.At, wish.At) < off-0.01 && len(table.Faults(held, others)) == 0 &&
					wide(table, held, others) {
					t.Fatalf("%v is nearer than %+v", held.At, got)
				}
			}
		}
	})
}

// wide says whether places a little off along a free axis are free as well: what only
// fits exactly is not looked for.
func wide(table *Table, held nest.Placed, others []nest.Placed) bool {
	repeat := [2]float64{table.problem.Strip.Repeat.Along, table.problem.Strip.Repeat.Across}
	for axis := range 2 {
		for _, by := range [2]float64{-0.25, 0.25} {
			moved := held
			if moved.At[axis] += by; repeat[axis] == 0 && len(table.Faults(moved, others)) > 0 {
				return false
			}
		}
	}
	return true
}

// stepsAbout goes through the values of an axis that the slow twin tries.
func (t *Table) stepsAbout(wish nest.Placed, others []nest.Placed, axis int) func(yield func(float64) bool) {
	repeat := [2]float64{t.problem.Strip.Repeat.Along, t.problem.Strip.Repeat.Across}[axis]
	return func(yield func(float64) bool) {
		if repeat == 0 {
			for d := -10.0; d <= 10; d += 0.5 {
				if !yield(wish.At[axis] + d) {
					return
				}
			}
			return
		}
		m := t.problem.Pieces[1].Match.Point
		own := plane.Pose{Mirrored: wish.Mirrored, Turn: wish.Turn}.ApplyPoint(m)
		from := others[0].At[axis] + m[axis] - own[axis]
		for k := -12.0; k <= 12; k++ {
			if !yield(plane.Snap(from + k*repeat)) {
				return
			}
		}
	}
}
