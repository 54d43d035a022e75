package shelf

import (
	"math/rand/v2"
	"slices"
	"testing"

	"yardlay/nest"
)

// fillerOf has a bundle of each area, as often as counted.
func fillerOf(t *testing.T, areas []float64, all counts) *Filler {
	t.Helper()
	p := nest.Problem{Strip: nest.Strip{Width: 1000}}
	for i, area := range areas {
		p.Pieces = append(p.Pieces, oblong(string(rune('a'+i)), area, 1, all[i]))
	}
	f, err := NewFiller(p, nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func anyBundles(t *testing.T, r *rand.Rand) (f *Filler, left counts, order []int, room float64) {
	areas, sum := make([]float64, 1+r.IntN(4)), 0.0
	left = make(counts, len(areas))
	for i := range areas {
		areas[i], left[i] = float64(1+r.IntN(30)), 1+r.IntN(3)
		sum += areas[i] * float64(left[i])
	}
	return fillerOf(t, areas, left), left, r.Perm(len(areas)), sum * r.Float64()
}

// The ways to take some are as many as the product of one more than each, all different,
// the most area first.
func TestSubsetsAreAllWays(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 60 {
		f, left, _, _ := anyBundles(t, r)
		want := 1
		for _, n := range left {
			want *= n + 1
		}
		ways := f.subsets(left)
		for i, c := range ways {
			if !c.within(left) || i > 0 && c.area(f.bundles) > ways[i-1].area(f.bundles) {
				t.Fatalf("way %d of %v is %v after %v", i, left, c, ways[max(0, i-1)])
			}
			if slices.ContainsFunc(ways[:i], func(d counts) bool { return slices.Equal(c, d) }) {
				t.Fatalf("%v comes twice", c)
			}
		}
		if len(ways) != want {
			t.Fatalf("%d ways to take some of %v, want %d", len(ways), left, want)
		}
	}
}

// Snug takes as much area as any way that fits, but for what sums are rounded to.
func TestSnugAgainstAllWays(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 28))
	for range 200 {
		f, left, order, room := anyBundles(t, r)
		got := f.snug(make(counts, len(left)), left, order, room)
		best := 0.0
		for _, c := range f.subsets(left) {
			if a := c.area(f.bundles); a <= room {
				best = max(best, a)
			}
		}
		area := got.area(f.bundles)
		if !got.within(left) || area > room*(1+1e-9) || area < best-room/snugSums*float64(left.total()) {
			t.Fatalf("%v of %v cover %v of %v, the best ways %v", got, left, area, room, best)
		}
	}
}

// Snug adds to what is there already, and leaves that alone where it has no room.
func TestSnugKeepsWhatItHas(t *testing.T) {
	f := fillerOf(t, []float64{10, 4}, counts{3, 3})
	have := counts{1, 1}
	if got := f.snug(have, counts{3, 3}, []int{0, 1}, 28); !slices.Equal(got, counts{2, 2}) {
		t.Errorf("with %v in 28: %v, want one more of each", have, got)
	}
	if got := f.snug(have, counts{3, 3}, []int{0, 1}, 13); !slices.Equal(got, have) {
		t.Errorf("without room: %v", got)
	}
}

// Take fills up in order: afterwards none that is left fits in, of those before it as many
// were taken as there are or fit.
func TestTakeFillsInOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	for range 200 {
		f, left, order, room := anyBundles(t, r)
		c := f.take(make(counts, len(left)), left, order, room)
		spare := room - c.area(f.bundles)
		if !c.within(left) || spare < 0 {
			t.Fatalf("%v of %v in %v", c, left, room)
		}
		for n, b := range order {
			later := 0.0
			for _, d := range order[n+1:] {
				later += float64(c[d]) * f.bundles[d].area
			}
			if c[b] < left[b] && f.bundles[b].area <= spare+later {
				t.Fatalf("%v of %v in %v, order %v: one more of %d would have fitted when its turn came", c, left, room,
					order, b)
			}
		}
	}
}

// Left and right of a pair are taken in turns, so that what is left can be folded.
func TestTakeKeepsPairsEven(t *testing.T) {
	half := oblong("half", 10, 1, 8)
	half.Mirror = nest.Paired
	f, err := NewFiller(nest.Problem{Strip: nest.Strip{Width: 100}, Pieces: []nest.Piece{half}}, nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for room, want := range map[float64]counts{9: {0, 0}, 10: {1, 0}, 29: {1, 1}, 45: {2, 2}, 59: {3, 2}, 200: {4, 4}} {
		if got := f.take(counts{0, 0}, counts{4, 4}, []int{0, 1}, room); !slices.Equal(got, want) {
			t.Errorf("in %v: %v, want %v", room, got, want)
		}
	}
}

func TestAddSmallestAddsOne(t *testing.T) {
	f := fillerOf(t, []float64{10, 4, 6}, counts{3, 1, 3})
	for _, c := range []struct {
		have counts
		room float64
		want counts
	}{
		{counts{0, 0, 0}, 4, counts{0, 1, 0}},
		{counts{0, 1, 0}, 10, counts{0, 1, 1}},
		{counts{0, 1, 0}, 9.9, counts{0, 1, 0}},
		{counts{0, 1, 3}, 32, counts{1, 1, 3}},
		{counts{3, 1, 3}, 99, counts{3, 1, 3}},
	} {
		if got := f.addSmallest(c.have, counts{3, 1, 3}, []int{0, 1, 2}, c.room); !slices.Equal(got, c.want) {
			t.Errorf("to %v in %v: %v, want %v", c.have, c.room, got, c.want)
		}
	}
}

// A strip takes no more than its area, nor more than what fits on it alone.
func TestMostIsWhatFits(t *testing.T) {
	p := nest.Problem{Strip: nest.Strip{Width: 100}, Pieces: []nest.Piece{oblong("a", 30, 20, 3), oblong("b", 50, 5, 2)}}
	for _, c := range []struct{ length, width, most float64 }{
		{100, 100, 3*600 + 2*250}, {40, 30, 1200}, {30, 100, 1800}, {49, 19.5, 0}, {50, 6, 300}, {60, 19, 500},
	} {
		f, err := NewFiller(p, []Length{leftover("x", c.length, c.width)}, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if got := f.Most(0); got != c.most || f.TakesAny(0) != (c.most > 0) {
			t.Errorf("%v x %v takes %v at the most, want %v", c.length, c.width, got, c.most)
		}
	}
}

// Rows of a rectangle are counted along and across, in the better of its turns.
func TestRowsAreCounted(t *testing.T) {
	piece := oblong("a", 30, 20, 1)
	for _, c := range []struct {
		turns []float64
		want  float64
	}{{nil, 3 * 2}, {[]float64{0, 90}, 3 * 2}, {[]float64{90}, 5 * 1}} {
		piece.Turns = c.turns
		f, err := NewFiller(nest.Problem{Strip: nest.Strip{Width: 100}, Pieces: []nest.Piece{piece}},
			[]Length{leftover("x", 100, 50)}, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if got := f.inRows(0, 0); got != c.want {
			t.Errorf("turns %v: %v in rows, want %v", c.turns, got, c.want)
		}
	}
}
