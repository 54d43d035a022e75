package hand

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

func ring(points ...orb.Point) orb.Ring { return append(orb.Ring(points), points[0]) }

func rect(w, h float64) orb.Ring {
	return ring(orb.Point{0, 0}, orb.Point{w, 0}, orb.Point{w, h}, orb.Point{0, h})
}

var outlines = []orb.Ring{
	rect(14, 9),
	ring(orb.Point{0, 0}, orb.Point{17, 0}, orb.Point{5, 12}),
	ring(orb.Point{0, 0}, orb.Point{18, 0}, orb.Point{18, 6}, orb.Point{7, 6}, orb.Point{7, 15}, orb.Point{0, 15}),
	ring(orb.Point{0, 0}, orb.Point{20, 3}, orb.Point{13, 12}, orb.Point{2, 9}),
}

// drawn makes a cloth with pieces of which some lie on it, apart from each other.
func drawn(t *rapid.T) (p nest.Problem, others []nest.Placed) {
	p.Strip.Width = rapid.SampledFrom([]float64{30, 45, 60.4}).Draw(t, "width")
	p.Strip.MaxLength = rapid.SampledFrom([]float64{0, 70}).Draw(t, "length")
	p.Gap = rapid.SampledFrom([]float64{0, 0, 2}).Draw(t, "gap")
	if rapid.IntRange(0, 3).Draw(t, "flaw") == 0 {
		p.Strip.Forbidden = []orb.Ring{ring(orb.Point{20, 8}, orb.Point{26, 8}, orb.Point{23, 14})}
	}
	if p.Strip.Width == 45 && rapid.Bool().Draw(t, "fold") {
		p.Strip.Folds = nest.FoldBelow
	}
	for i := range 4 {
		p.Pieces = append(p.Pieces, nest.Piece{
			Name: string(rune('A' + i)), Outline: rapid.SampledFrom(outlines).Draw(t, "outline"), Count: 1,
			Turns: []float64{0, 90, 180, 270}, Mirror: nest.Free,
		})
	}
	for i := range 3 {
		for range 30 {
			pl := wished(t, p, i)
			if p.Judge().VerifyPart(append(toJudge(others), toJudge([]nest.Placed{pl})...), never) == nil {
				others = append(others, pl)
				break
			}
		}
	}
	return p, others
}

func never() bool { return false }

// wished draws a way and a place for a piece, about the cloth.
func wished(t *rapid.T, p nest.Problem, i int) nest.Placed {
	pl := rapid.SampledFrom(p.Ways(i, 0)).Draw(t, "way")
	pl.At = orb.Point{rapid.Float64Range(-10, 60).Draw(t, "x"), rapid.Float64Range(-10, 60).Draw(t, "y")}
	if rapid.Bool().Draw(t, "whole") {
		pl.At = orb.Point{math.Round(pl.At[0]), math.Round(pl.At[1])}
	}
	pl.At = plane.SnapPoint(pl.At)
	return pl
}

// slow is the slow twin: it goes through places about the wish a step apart, and asks the
// judge of each. clear is the distance of the nearest one that is free with a quarter of a
// millimetre about it, shut that of the nearest that is not free; infinite: there is none.
func slow(table *Table, wish nest.Placed, others []nest.Placed, within float64) (clear, shut float64) {
	const step, about = 1.0, 0.25
	clear, shut = math.Inf(1), math.Inf(1)
	free := func(at orb.Point) bool {
		held := wish
		held.At = at
		return !blocked(table.Faults(held, others))
	}
	for dx := -within; dx <= within; dx += step {
		for dy := -within; dy <= within; dy += step {
			at := orb.Point{wish.At[0] + dx, wish.At[1] + dy}
			off := math.Hypot(dx, dy)
			if off > within || off >= clear && off >= shut {
				continue
			}
			if !free(at) {
				shut = min(shut, off)
				continue
			}
			if free(orb.Point{at[0] + about, at[1]}) && free(orb.Point{at[0] - about, at[1]}) &&
				free(orb.Point{at[0], at[1] + about}) && free(orb.Point{at[0], at[1] - about}) {
				clear = min(clear, off)
			}
		}
	}
	return clear, shut
}

// TestContactAgainstSlowTwin: from where it overlaps, the piece goes to a place no farther
// than any that the judge finds free; from a free place it goes into contact where there is
// anything within reach, and nowhere else; the judge passes where it comes to lie.
func TestContactAgainstSlowTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const within = 9
		p, others := drawn(t)
		table, err := New(p)
		if err != nil {
			t.Skip(err)
		}
		wish := wished(t, p, 3)
		got := table.Contact(wish, others, within)
		clear, shut := slow(table, wish, others, within)
		off := distance(got.Place.At, wish.At)
		if got.Snapped && blocked(table.Faults(got.Place, others)) {
			t.Fatalf("%+v is not free: %v", got, table.Faults(got.Place, others))
		}
		if got.Snapped && off > within+0.01 {
			t.Fatalf("%v off", off)
		}
		if wasFree := !blocked(table.Faults(wish, others)); wasFree {
			if !got.Snapped && (shut < within-0.5 || got.Place != wish) {
				t.Fatalf("no contact, and what is in the way is %v off: %+v", shut, got)
			}
			if got.Snapped && off > shut+0.01 {
				t.Fatalf("%v off, what is in the way is %v off", off, shut)
			}
		} else if !got.Snapped && clear <= within || got.Snapped && off > clear+0.01 {
			t.Fatalf("%+v is %v off; %v off it is free", got, off, clear)
		}
		if got.Snapped && !nearlyShut(table, got.Place, others) {
			t.Fatalf("%+v touches nothing", got)
		}
	})
}

// nearlyShut says whether half a millimetre to some side a place is not free.
func nearlyShut(table *Table, held nest.Placed, others []nest.Placed) bool {
	at := held.At
	for k := range 32 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / 32)
		held.At = plane.SnapPoint(orb.Point{at[0] + 0.5*cos, at[1] + 0.5*sin})
		if blocked(table.Faults(held, others)) {
			return true
		}
	}
	return false
}

// TestFaultsAgainstTheWholeJudge: what is in the hand has no fault exactly when the judge
// passes it beside the others; each neighbour that it alone does not pass beside is named.
func TestFaultsAgainstTheWholeJudge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, others := drawn(t)
		table, err := New(p)
		if err != nil {
			t.Skip(err)
		}
		held := wished(t, p, 3)
		faults := table.Faults(held, append(slices.Clone(others), held)) // where it was before does not count
		all := append(toJudge(others), toJudge([]nest.Placed{held})...)
		if err := p.Judge().VerifyPart(all, never); (err == nil) != (len(faults) == 0) {
			t.Fatalf("%v, the judge: %v", faults, err)
		}
		for i := range others {
			err := p.Judge().VerifyPart(toJudge([]nest.Placed{others[i], held}), never)
			named := slices.ContainsFunc(faults, func(b *nest.Broken) bool {
				return b.Other == p.Pieces[others[i].Piece].Name && b.Pair == [2]int{-1, i} && b.Piece == "D"
			})
			if alone := p.Judge().VerifyPart(toJudge([]nest.Placed{held}), never); alone == nil &&
				(err != nil) != named {
				t.Fatalf("neighbour %d: named %v, the judge: %v", i, named, err)
			}
		}
	})
}

// TestSlideBlocksWhatTheJudgeDoes: away from the boundary an origin is inside a room and
// outside all rings exactly when the judge finds the place free.
func TestSlideBlocksWhatTheJudgeDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, others := drawn(t)
		table, err := New(p)
		if err != nil {
			t.Skip(err)
		}
		held := wished(t, p, 3)
		s := table.Slide(held, others, math.Inf(1), nil)
		rings := map[string][]orb.Ring{}
		for i, b := range s.Blocks {
			if b.Rings != nil {
				rings[b.Pair] = b.Rings
			}
			s.Blocks[i].Rings = rings[b.Pair]
		}
		again := table.Slide(held, others, math.Inf(1), func(pair string) bool { return rings[pair] != nil })
		for _, b := range again.Blocks {
			if b.Rings != nil {
				t.Fatalf("%s is told again", b.Pair)
			}
		}
		for range 30 {
			held.At = plane.SnapPoint(orb.Point{ // never where something fits exactly
				math.Round(rapid.Float64Range(-10, 70).Draw(t, "x")) + 0.37,
				math.Round(rapid.Float64Range(-10, 60).Draw(t, "y")) + 0.37,
			})
			free, sure := s.free(held.At, 0.4)
			if sure && free == blocked(table.Faults(held, others)) {
				t.Fatalf("at %v free %v: %v", held.At, free, table.Faults(held, others))
			}
		}
	})
}

// free says whether an origin is free by a slide, and whether that is so for all
// about it.
func (s Slide) free(at orb.Point, about float64) (free, sure bool) {
	for k := range 9 {
		v := orb.Point{at[0] + about*float64(k%3-1), at[1] + about*float64(k/3-1)}
		in := slices.ContainsFunc(s.Rooms, func(b orb.Bound) bool { return b.Contains(v) })
		for _, b := range s.Blocks {
			in = in && !winds(b.Rings, orb.Point{v[0] - b.At[0], v[1] - b.At[1]})
		}
		if k == 0 {
			free, sure = in, true
		}
		sure = sure && in == free
	}
	return free, sure
}

// winds says whether rings wind round a point.
func winds(rings []orb.Ring, v orb.Point) bool {
	count := 0
	for _, ring := range rings {
		for i := 1; i < len(ring); i++ {
			a, b := ring[i-1], ring[i]
			side := (b[0]-a[0])*(v[1]-a[1]) - (b[1]-a[1])*(v[0]-a[0])
			if a[1] <= v[1] && b[1] > v[1] && side > 0 {
				count++
			} else if a[1] > v[1] && b[1] <= v[1] && side < 0 {
				count--
			}
		}
	}
	return count != 0
}

// TestWhatIsNoPiece: whatever a page asks, no answer breaks, and pieces that there are not are
// passed by.
func TestWhatIsNoPiece(t *testing.T) {
	p := nest.Problem{Strip: nest.Strip{Width: 60, Repeat: nest.Repeat{Along: 9}}, Pieces: []nest.Piece{
		{Name: "A", Outline: outlines[0], Count: 2, Match: &nest.Match{Groups: []int{0, 1}}},
	}}
	table, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	nan, inf := math.NaN(), math.Inf(1)
	odd := []nest.Placed{
		{Piece: -1}, {Piece: 1}, {Copy: -1}, {Copy: 2}, {Turn: nan}, {Turn: inf}, {Turn: 1e300},
		{At: orb.Point{nan, 0}}, {At: orb.Point{0, -inf}}, {At: orb.Point{1e9, 0}},
	}
	for _, held := range append(odd, nest.Placed{At: orb.Point{1, 2}}) {
		for _, within := range []float64{5, nan, inf, -1} {
			got := table.Contact(held, odd, within)
			if got.Snapped && len(table.Faults(got.Place, nil)) > 0 {
				t.Errorf("%+v: %+v", held, got)
			}
		}
		whole := held.At == orb.Point{1, 2} || held.Turn == 1e300 // by the digits whole turns
		if faults := table.Faults(held, odd); len(faults) == 0 && !whole {
			t.Errorf("%+v has no fault", held)
		}
		if s := table.Slide(held, odd, 30, nil); len(s.Blocks) > 0 {
			t.Errorf("%+v: %+v", held, s)
		}
	}
	for k := range 3 * mostShapes { // turned as it may not be
		table.Faults(nest.Placed{Turn: float64(k) / 100, At: orb.Point{20, 20}}, nil)
	}
	turned := 0
	for k := range mostShapes + 10 {
		table.Contact(nest.Placed{Turn: float64(k) / 100, At: orb.Point{20, 20}}, nil, 1)
		turned = max(turned, len(table.shapes))
	}
	if turned > mostShapes+2 {
		t.Errorf("%d ways remembered", turned)
	}
}
