package judge

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// Layouts on a few lattice steps that break no rule, one, or several: the judge refuses
// exactly those that break one, and names one of the earliest broken.
func TestEveryRuleAgainstCells(t *testing.T) {
	alone := map[Rule]int{} // layouts that break this rule and no other
	for seed := range uint64(1200) {
		r := rand.New(rand.NewPCG(seed, 31))
		p := cellProblem(r)
		l, ok := cellLayout(r, p)
		for range 5 {
			if !ok {
				break
			}
			p, l := p, Layout{slices.Clone(l.Placed), l.Length}
			spoil(r, &p, &l)
			want := brokenRules(p, l)
			first := slices.MinFunc(append(want, ""), func(a, b Rule) int { return order(a) - order(b) })
			err := New(p).Verify(l, never)
			var broken *Broken
			if is := errors.As(err, &broken); is != (len(want) > 0) || !is && err != nil ||
				is && (!slices.Contains(want, broken.Rule) || order(broken.Rule) != order(first)) {
				t.Fatalf("job %d: the judge says %v, by cells %q is broken\n%+v\n%+v", seed, err, want, p, l)
			}
			if len(want) < 2 {
				alone[first]++
			}
		}
	}
	for r := range sentences {
		if alone[r] < 5 && r != OffLattice {
			t.Errorf("%q alone is broken by %d layouts", r, alone[r])
		}
	}
	if alone[""] < 500 {
		t.Errorf("%d sound layouts", alone[""])
	}
}

// order is when a rule is judged; "" stands for none.
func order(r Rule) int {
	if r == "" {
		return len(stage)
	}
	return stage[r]
}

// at is a place in whole steps, mm.
func at(x, y int) orb.Point { return orb.Point{plane.Lattice * float64(x), plane.Lattice * float64(y)} }

// cellProblem is one piece or two, an L each, on a strip of some twenty steps.
func cellProblem(r *rand.Rand) Problem {
	const one = plane.Lattice
	p := Problem{Width: one * float64(14+2*r.IntN(6)), Gap: one * []float64{0, 0, 1, 1.5, 2, 2.5}[r.IntN(6)]}
	switch r.IntN(4) {
	case 0:
		p.FoldBelow = true
	case 1:
		p.FoldBelow, p.FoldAbove, p.Middle = true, true, one*[]float64{0, 0.5, 1, 2}[r.IntN(4)]
	}
	if r.IntN(2) == 0 {
		p.MaxLength = one * float64(30+r.IntN(10))
	}
	if r.IntN(2) == 0 {
		x, y := r.IntN(20), r.IntN(10)
		p.Forbidden = append(p.Forbidden, ring(at(x, y), at(x+2, y), at(x+2, y+3), at(x, y+3)))
	}
	if r.IntN(2) == 0 {
		p.Repeat = [2]float64{one * float64(r.IntN(20)) / 4 * float64(r.IntN(2)), one * float64(9+r.IntN(12)) / 4}
		p.Repeat[0] += float64(min(1, int(p.Repeat[0]/one))) * 2 * one
	}
	if r.IntN(3) == 0 {
		p.Phases = map[int]orb.Point{0: {one * float64(r.IntN(30)) / 4, one * float64(r.IntN(30)) / 4}}
	}
	for i := range 1 + r.IntN(2) {
		a, b, c, d := 2+r.IntN(4), 2+r.IntN(4), 1, 1
		piece := Piece{Name: fmt.Sprint(i), Count: 2, Mirror: Mirror(r.IntN(3)), OnFold: p.FoldBelow && r.IntN(2) == 0,
			Alike: r.IntN(2) == 0, Turns: [][]float64{nil, {0, 180}, {0, 90, 180, 270}, {90}}[r.IntN(4)],
			Outline: ring(at(0, 0), at(a, 0), at(a, b-d), at(a-c, b-d), at(a-c, b), at(0, b))}
		if piece.OnFold {
			piece.Turns = [][]float64{nil, {0, 180}}[r.IntN(2)]
		}
		if r.IntN(2) == 0 {
			piece.Match = &Match{Point: at(r.IntN(a), r.IntN(b))}
			if r.IntN(2) == 0 {
				piece.Match.Groups = []int{r.IntN(2), r.IntN(3)}
			}
		}
		p.Pieces = append(p.Pieces, piece)
	}
	return p
}

// cellLayout lays the copies one by one wherever nothing is broken but that the others are
// missing.
func cellLayout(r *rand.Rand, p Problem) (l Layout, ok bool) {
	for i, piece := range p.Pieces {
		for c := range piece.Count {
			laid := false
			for try := 0; try < 40 && !laid; try++ {
				pl := Placed{Piece: i, Copy: c, Mirrored: r.IntN(2) == 0, At: at(r.IntN(30), r.IntN(20))}
				if n := len(piece.Turns); n > 0 {
					pl.Turn = piece.Turns[r.IntN(n)]
				}
				if piece.Mirror != Free && !piece.OnFold {
					pl.Mirrored = piece.Mirror == Paired && c%2 == 1
				}
				if pl.Mirrored {
					pl.Turn = 360*float64(r.IntN(2)) - pl.Turn
				}
				if b := plane.Bounds(outlineAt(p, pl)); b.Min[0] < 0 || b.Min[1] < 0 || b.Max[1] > p.Width {
					continue // outside, to be quick
				}
				next := l
				next.Placed = append(slices.Clone(l.Placed), pl)
				for _, v := range outlineAt(p, pl) {
					next.Length = max(next.Length, v[0])
				}
				wrong := brokenRules(p, next)
				if laid = len(slices.DeleteFunc(wrong, func(r Rule) bool { return r == WrongCount })) == 0; laid {
					l = next
				}
			}
			if !laid {
				return l, false
			}
		}
	}
	return l, true
}

// spoil changes one thing of a job, or nothing.
func spoil(r *rand.Rand, p *Problem, l *Layout) {
	const one = plane.Lattice
	pl := &l.Placed[r.IntN(len(l.Placed))]
	switch r.IntN(16) {
	case 0, 1, 2:
		pl.At[r.IntN(2)] += one * float64(1-2*r.IntN(2))
	case 3:
		pl.At[0] += one * float64(r.IntN(9)-4)
	case 4:
		pl.At[1] += one * float64(r.IntN(9)-4)
	case 5:
		pl.Mirrored = !pl.Mirrored
	case 6:
		pl.Turn += 90 * float64(r.IntN(4))
	case 7:
		pl.Copy += 1 - 2*r.IntN(2)
	case 8:
		l.Length += one * float64(r.IntN(3)-1) / 2
	case 9:
		p.Width -= one * float64(r.IntN(4))
		p.Width -= math.Mod(p.Width, one)
	case 10:
		p.MaxLength = l.Length + one*float64(r.IntN(3)-1)/2
	case 11:
		p.Gap += one * float64(r.IntN(5)) / 4
	case 12:
		p.Middle += one * float64(r.IntN(3)) / 2
	case 13:
		p.Pins = append(p.Pins, *pl)
		pl.At[r.IntN(2)] += one * float64(r.IntN(3)-1)
	case 14:
		p.Pins = append(p.Pins, *pl)
		p.Pins[0].Turn += 180 * float64(r.IntN(4))
		p.Pins[0].Mirrored = pl.Mirrored != (r.IntN(3) == 0)
	}
}
