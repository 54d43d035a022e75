package judge

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Three or four tabs, one or more repeats apart but for a few steps of the lattice each way:
// they are of one phase just where all lie within a step of each other, in whatever order
// they come, and of a given one where each lies within half a step of it.
func TestPhasesOfSeveralAgree(t *testing.T) {
	const one, repeat = plane.Lattice, 40 * plane.Lattice
	for code := range 4 * 4 * 4 * 4 {
		off := [4]float64{float64(code%4) - 1, float64(code/4%4) - 1, float64(code/16%4) - 1, float64(code/64) - 1}
		for axis := range 2 {
			for _, given := range []float64{math.NaN(), 0, 0.5} {
				p := Problem{Width: 400 * one,
					Pieces: []Piece{{Name: "tab", Count: 4, Outline: rect(0, 0, 4*one, 4*one),
						Match: &Match{Point: orb.Point{one, one}}}}}
				p.Repeat[axis] = repeat
				if !math.IsNaN(given) {
					at := orb.Point{one, one}
					at[axis] += (10 + given) * one
					p.Phases = map[int]orb.Point{0: at}
				}
				var l Layout
				least, most := math.Inf(1), math.Inf(-1)
				for i := range 4 {
					at := orb.Point{10 * float64(i) * one, 10 * float64(i) * one}
					at[axis] = float64(i)*repeat + (10+off[i])*one
					l.Placed = append(l.Placed, Placed{Copy: i, At: at})
					l.Length = max(l.Length, at[0]+4*one)
					least, most = min(least, off[i]), max(most, off[i])
				}
				want := most-least <= 1
				if !math.IsNaN(given) {
					want = most-given <= 0.5 && given-least <= 0.5
				}
				err := New(p).Verify(l, never)
				var broken *Broken
				if err != nil && (!errors.As(err, &broken) || broken.Rule != OffRepeat) || (err == nil) != want {
					t.Fatalf("steps off %v on axis %d, phase given %v: %v, want agreement: %v", off, axis, given, err,
						want)
				}
				if want {
					phase := PhasesOf(p, l)[0][axis]
					for i := range 4 {
						d := math.Remainder(l.Placed[i].At[axis]+one-phase, repeat)
						if math.IsNaN(given) && math.Abs(d) > one/2+1e-9 {
							t.Fatalf("steps off %v: a phase of %v is %v off copy %d", off, phase, d, i+1)
						}
					}
				}
			}
		}
	}
}

// The judge names the two that do not agree, and by how much.
func TestOffRepeatNamesBoth(t *testing.T) {
	p := Problem{Width: 100, Repeat: [2]float64{40, 0},
		Pieces: []Piece{{Name: "tab", Count: 3, Outline: rect(0, 0, 10, 10),
			Match: &Match{}}}}
	l := Layout{[]Placed{{At: orb.Point{0, 0}}, {Copy: 1, At: orb.Point{40, 20}}, {Copy: 2, At: orb.Point{83, 40}}}, 93}
	err := New(p).Verify(l, never)
	if err == nil || !strings.Contains(err.Error(), `"tab" copy 3`) ||
		!strings.Contains(err.Error(), `3 mm off "tab" copy 1 along the cloth, where the repeat is 40 mm`) {
		t.Errorf("got %v", err)
	}
	p.Phases = map[int]orb.Point{0: {38, 0}}
	if err := New(p).Verify(l, never); err == nil ||
		!strings.Contains(err.Error(), "2 mm off the phase that is given along the cloth") {
		t.Errorf("got %v", err)
	}
}
