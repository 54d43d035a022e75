package nest_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/benchmarks/often"
	"yardlay/nest"
)

// stripes is a problem of rectangles on a repeat in whole centimetres, small enough
// to be settled by trying everything.
type stripes struct {
	width, along, across int
	kinds                []stripeKind
	step                 int // the counter's
}

// stripeKind is a rectangle, as often as it is cut, with its match point.
type stripeKind struct {
	long, wide, count int
	at, level         int // of the match point, from the lower left corner
	group             int
}

func randomStripes(seed uint64) stripes {
	r := rand.New(rand.NewPCG(seed, 7))
	between := func(least, most int) int { return least + r.IntN(most-least+1) }
	s := stripes{width: between(18, 30), along: between(4, 16), step: 5}
	if r.IntN(3) == 0 {
		s.across = between(3, 9)
	}
	if r.IntN(6) == 0 {
		s.along, s.across = 0, between(3, 12)
	}
	left := between(4, 7)
	for k := 0; left > 0 && k < 3; k++ {
		kind := stripeKind{long: between(3, 24), wide: between(3, 17), count: min(left, between(1, 3)), group: k}
		if r.IntN(4) == 0 { // a match away from the corner, or with the kind before
			kind.at, kind.level = r.IntN(kind.long+1), r.IntN(kind.wide+1)
		}
		if k > 0 && r.IntN(4) == 0 {
			kind.group = k - 1
		}
		left -= kind.count
		s.kinds = append(s.kinds, kind)
	}
	return s
}

func (s stripes) problem() nest.Problem {
	const cm = 10.0
	p := nest.Problem{Strip: nest.Strip{Width: cm * float64(s.width),
		Repeat: nest.Repeat{Along: cm * float64(s.along), Across: cm * float64(s.across)}}}
	for i, k := range s.kinds {
		piece := nest.Piece{
			Name: fmt.Sprint("piece ", i), Count: k.count, Outline: rectangle(cm*float64(k.long), cm*float64(k.wide)),
			Match: &nest.Match{Point: orb.Point{cm * float64(k.at), cm * float64(k.level)}},
		}
		for range k.count {
			piece.Match.Groups = append(piece.Match.Groups, k.group)
		}
		p.Pieces = append(p.Pieces, piece)
	}
	return p
}

// fits says whether all lies within a length, by trying every place in whole
// centimetres. Those are enough: where places do not overlap, neither do they
// rounded down, for all sizes, repeats and match points are whole.
func (s stripes) fits(length int) bool {
	t := twin{stripes: s, length: length, filled: make([]int, length)}
	for i := range t.phase {
		t.phase[i], t.level[i] = -1, -1
	}
	for _, k := range s.kinds {
		for range k.count {
			t.items = append(t.items, k)
		}
	}
	t.x = make([]int, len(t.items))
	t.y = make([]int, len(t.items))
	return t.along(0)
}

// twin is the state of that: first all places along, then all across.
type twin struct {
	stripes
	length       int
	items        []stripeKind
	x, y         []int
	filled       []int // by centimetre along: the sum of what lies across it
	phase, level [4]int
}

func (t *twin) along(i int) bool {
	if i == len(t.items) {
		return t.acrossFrom(0)
	}
	it := t.items[i]
	from := 0
	if i > 0 && t.items[i-1] == it { // copies in order
		from = t.x[i-1]
	}
	for x := from; x+it.long <= t.length; x++ {
		was := t.phase[it.group]
		if t.stripes.along > 0 {
			place := (x + it.at) % t.stripes.along
			if was >= 0 && place != was {
				continue
			}
			t.phase[it.group] = place
		}
		if t.fill(it, x, 1) {
			t.x[i] = x
			if t.along(i + 1) {
				return true
			}
		}
		t.fill(it, x, -1)
		t.phase[it.group] = was
	}
	return false
}

// fill adds or takes away what lies across; false when it is more than the width.
func (t *twin) fill(it stripeKind, x, sign int) bool {
	ok := true
	for c := x; c < x+it.long; c++ {
		t.filled[c] += sign * it.wide
		ok = ok && t.filled[c] <= t.width
	}
	return ok
}

func (t *twin) acrossFrom(i int) bool {
	if i == len(t.items) {
		return true
	}
	it := t.items[i]
	for y := 0; y+it.wide <= t.width; y++ {
		was := t.level[it.group]
		if t.stripes.across > 0 {
			place := (y + it.level) % t.stripes.across
			if was >= 0 && place != was {
				continue
			}
			t.level[it.group] = place
		}
		t.y[i] = y
		if t.clear(i) && t.acrossFrom(i+1) {
			return true
		}
		t.level[it.group] = was
	}
	return false
}

func (t *twin) clear(i int) bool {
	for j := range i {
		a, b := t.items[i], t.items[j]
		if t.x[i] < t.x[j]+b.long && t.x[j] < t.x[i]+a.long && t.y[i] < t.y[j]+b.wide && t.y[j] < t.y[i]+a.wide {
			return false
		}
	}
	return true
}

// TestNoRepeatBuysTooMuch: of random jobs on a repeat none buys a step of the
// counter more than the best of all phases and places, which are tried one by one.
func TestNoRepeatBuysTooMuch(t *testing.T) {
	laid, jobs := 0, often.Jobs(often.Full(4, 6), 200)
	for seed := range jobs {
		s := randomStripes(uint64(seed))
		p := s.problem()
		if p.Check() != nil {
			continue // a group that finds no place across
		}
		bought := func(used float64) float64 { return math.Ceil(used/10/float64(s.step)-1e-6) * float64(s.step) }
		r, err := nest.Solve(context.Background(), p, nest.Options{Work: 1 << 18, Bought: bought})
		if err != nil {
			t.Fatalf("job %d: %v", seed, err)
		}
		laid++
		got := int(bought(r.Layout.Length))
		if r.Status != nest.Proved && s.fits(got-s.step) {
			t.Errorf("job %d: %+v takes %v mm, bought %d cm: less is enough", seed, s, r.Layout.Length, got)
		}
		if r.Bound.Length > r.Layout.Length {
			t.Errorf("job %d: bound %v above %v", seed, r.Bound.Length, r.Layout.Length)
		}
	}
	if laid < jobs*9/10 {
		t.Errorf("%d of %d jobs laid: not worth the name of a test", laid, jobs)
	}
}
