package hand

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// apart is how far two rings that do not cross lie apart: the least distance of a corner of the one
// from a side of the other.
func apart(a, b orb.Ring) float64 {
	least := math.Inf(1)
	for _, pair := range [2][2]orb.Ring{{a, b}, {b, a}} {
		for _, p := range pair[0] {
			for i := 1; i < len(pair[1]); i++ {
				s := stretch{from: pair[1][i-1], to: pair[1][i]}
				least = min(least, distance(s.nearest(p), p))
			}
		}
	}
	return least
}

// What a contact says that the piece touches, it touches, by distances between the outlines: nothing
// else is as near, and an edge of the cloth only where it says so.
func TestTouchesAreWhatIsTouched(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, others := drawn(t)
		p.Strip.Folds = 0
		table, err := New(p)
		if err != nil {
			t.Skip(err)
		}
		wish := wished(t, p, 3)
		got := table.Contact(wish, others, 9)
		if !got.Snapped {
			if got.Touches != nil || got.Edge {
				t.Fatalf("%+v is in contact with nothing", got)
			}
			return
		}
		held := p.Outline(got.Place)
		const sure, far = 2 * plane.Lattice, 6 * plane.Lattice // on the way along both axes, and more
		told := func(index int, ring orb.Ring, gap float64) {
			switch off := apart(held, ring) - gap; {
			case off < -sure:
				t.Fatalf("%+v: %d is %v too near", got, index, -off)
			case off <= sure/2 && !slices.Contains(got.Touches, index):
				t.Fatalf("%+v touches %d too, which is %v off", got, index, off)
			case off > far+0.02 && slices.Contains(got.Touches, index) && gap == 0: // the corners of a gap are round
				t.Fatalf("%+v: %d is %v off", got, index, off)
			}
		}
		for i, pl := range others {
			told(i, p.Outline(pl), p.Gap)
		}
		for i, flaw := range p.Strip.Forbidden {
			told(-1-i, flaw, 0)
		}
		b := held.Bound()
		edge := b.Min[0] == 0 || b.Min[1] == 0 || b.Max[1] == p.Strip.Width ||
			p.Strip.MaxLength > 0 && b.Max[0] == p.Strip.MaxLength
		if got.Edge != edge && b.Max[1] < plane.Floor(p.Strip.Width) {
			t.Fatalf("%+v: it spans %v on a cloth of %v by %v", got, b, p.Strip.Width, p.Strip.MaxLength)
		}
		if !edge && !got.Edge && len(got.Touches) == 0 {
			t.Fatalf("%+v touches nothing", got)
		}
	})
}

// A piece goes into a gap that it just fits, between neighbours, between a neighbour and an edge and
// into a corner, from anywhere about it.
func TestExactFits(t *testing.T) {
	p := nest.Problem{Strip: nest.Strip{Width: 40, MaxLength: 100}}
	for _, name := range []string{"A", "B", "C"} {
		p.Pieces = append(p.Pieces, nest.Piece{Name: name, Outline: rect(20, 10), Count: 1, Turns: []float64{0}})
	}
	table, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	at := func(piece int, x, y float64) nest.Placed { return nest.Placed{Piece: piece, At: orb.Point{x, y}} }
	for _, c := range []struct {
		name   string
		others []nest.Placed
		want   Contact
	}{
		{"between two, one above the other", []nest.Placed{at(0, 30, 5), at(1, 30, 25)},
			Contact{Place: at(2, 30.25, 15), Touches: []int{0, 1}}},
		{"between two, side by side", []nest.Placed{at(0, 10, 15), at(1, 50, 15)},
			Contact{Place: at(2, 30, 15.25), Touches: []int{0, 1}}},
		{"below one", []nest.Placed{at(0, 30, 10)}, Contact{Place: at(2, 30.25, 0), Touches: []int{0}, Edge: true}},
		{"above one", []nest.Placed{at(0, 30, 20)}, Contact{Place: at(2, 30.25, 30), Touches: []int{0}, Edge: true}},
		{"before one", []nest.Placed{at(0, 20, 15)}, Contact{Place: at(2, 0, 15.25), Touches: []int{0}, Edge: true}},
		{"behind one", []nest.Placed{at(0, 60, 15)}, Contact{Place: at(2, 80, 15.25), Touches: []int{0}, Edge: true}},
	} {
		for _, off := range []orb.Point{{0, 0}, {.25, .125}, {-.25, .375}, {.125, -.5}, {-.125, -.25}} {
			c.want.Snapped = true
			wish := c.want.Place
			wish.At = shift(wish.At, off)
			got := table.Contact(wish, c.others, 2)
			if distance(got.Place.At, wish.At) > distance(c.want.Place.At, wish.At)+1e-9 ||
				len(table.Faults(got.Place, c.others)) > 0 {
				t.Errorf("%s, %v off: %+v", c.name, off, got)
			}
			if off == (orb.Point{}) {
				if diff := cmp.Diff(c.want, got); diff != "" {
					t.Errorf("%s, where it fits already: %s", c.name, diff)
				}
			}
		}
	}
}

// What is asked of a table that has forgotten its regions, for want of room or since a piece was
// turned in too many ways, is answered as by one that is new.
func TestAnswersAreAlikeAfterForgetting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, others := drawn(t)
		table, err := New(p)
		if err != nil {
			t.Skip(err)
		}
		for range 2 {
			fresh, _ := New(p)
			wish := wished(t, p, 3)
			if diff := cmp.Diff(fresh.Contact(wish, others, 9), table.Contact(wish, others, 9)); diff != "" {
				t.Fatal(diff)
			}
			if diff := cmp.Diff(fresh.Slide(wish, others, 20, nil), table.Slide(wish, others, 20, nil)); diff != "" {
				t.Fatal(diff)
			}
			switch rapid.IntRange(0, 2).Draw(t, "forgets") {
			case 0: // as if all its regions were large
				before := len(table.regions)
				table.bytes += mostBytes
				table.asked++
				table.drop()
				if before > 0 && len(table.regions) == before {
					t.Fatalf("%d regions are kept", before)
				}
				if rest := table.bytes - mostBytes; rest != 0 || len(table.regions) > 0 {
					t.Fatalf("%d bytes are counted for %d regions", rest, len(table.regions))
				}
				table.bytes = 0
			case 1:
				for k := range mostShapes + 1 {
					table.shapes[shapeKey{piece: 0, turn: float64(k + 1)}] = shape{}
				}
			}
		}
	})
}

// Regions that were asked for last stay, and those that a question needs, however large.
func TestOldestRegionsGoFirst(t *testing.T) {
	p := nest.Problem{Strip: nest.Strip{Width: 60}}
	for i, o := range outlines {
		p.Pieces = append(p.Pieces, nest.Piece{Name: string(rune('A' + i)), Outline: o, Count: 1, Turns: []float64{0}})
	}
	table, err := New(p)
	if err != nil {
		t.Fatal(err)
	}
	held := nest.Placed{Piece: 3, At: orb.Point{20, 20}}
	for i := range 3 {
		table.Contact(held, []nest.Placed{{Piece: i, At: orb.Point{21, 21}}}, 5)
	}
	if len(table.regions) != 3 {
		t.Fatalf("%d regions", len(table.regions))
	}
	of := func(i int) regionKey {
		return regionKey{table.shapeOf(shapeKey{piece: i}).mark, table.shapeOf(shapeKey{piece: 3}).mark, 0}
	}
	table.Contact(held, []nest.Placed{{Piece: 0, At: orb.Point{21, 21}}}, 5) // the first one again
	own := table.bytes
	table.bytes += mostBytes - own + table.regions[of(1)].region.Bytes() // so much is too much
	table.drop()
	if table.regions[of(1)] != nil || table.regions[of(0)] == nil || table.regions[of(2)] == nil {
		t.Fatalf("not the one went that nobody asked for longest")
	}
	table.bytes += 10 * mostBytes
	table.drop()
	if len(table.regions) != 1 || table.regions[of(0)] == nil {
		t.Fatalf("%d regions are left, and not that of the last question", len(table.regions))
	}
}
