package plan

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/plane"
)

// star is a simple outline in whole mm, nowhere below 0, now and then away from the axes.
var star = rapid.Custom(func(t *rapid.T) orb.Ring {
	n := rapid.IntRange(3, 24).Draw(t, "corners")
	var ring orb.Ring
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		r := rapid.SampledFrom([]float64{100, 250, 700}).Draw(t, "radius")
		ring = append(ring, orb.Point{math.Round(r * cos), math.Round(r * sin)})
	}
	ring = plane.Tidy(append(ring, ring[0]))
	by := plane.Bounds(ring).Min
	more := rapid.SampledFrom([]float64{0, 30}).Draw(t, "more")
	for i := range ring {
		ring[i][0] += more - by[0]
		ring[i][1] += 2*more - by[1]
	}
	return ring
})

// What lies outside an outline is zones that are simple, apart from it and from each other, and that fill
// the box with it: exactly, to the last step of the lattice.
func TestWhatLiesOutsideAnOutline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := star.Draw(t, "outline")
		if plane.CheckSimple(ring) != nil {
			return
		}
		box := plane.Bounds(ring)
		p := nest.Problem{Strip: nest.Strip{Width: box.Max[1], MaxLength: box.Max[0]}}
		var l nest.Layout
		sum := 0.0
		for i, r := range append([]orb.Ring{ring}, outside(ring)...) {
			if err := plane.CheckSimple(r); err != nil {
				t.Fatalf("zone %d: %v", i, err)
			}
			sum += plane.Area(r)
			p.Pieces = append(p.Pieces, nest.Piece{Name: "zone", Outline: r, Count: 1})
			l.Placed = append(l.Placed, nest.Placed{Piece: i})
		}
		l.Length = p.Used(l.Placed)
		if err := nest.Verify(p, l); err != nil {
			t.Fatal(err)
		}
		if sum != box.Max[0]*box.Max[1] {
			t.Fatalf("outline and zones cover %v mm2 of %v", sum, box.Max[0]*box.Max[1])
		}
	})
}

// A task of two panels with one leftover.
func besideLeftover(t *testing.T, cloth string, have job.Have) Task {
	t.Helper()
	task := onlyTask(t, testjobs.Panelled("width = 100\nselvedge = 2\nends = 3\nprice = \"10.00/m\"\n"+cloth,
		[3]float64{40, 30, 2}))
	task.Spread.Cloth.Have = []job.Have{have}
	return task
}

// Two panels of 40 x 30 cm go on an L of 40 x 60 less a corner of 1 x 1 mm too much, or they do not: an outline
// is laid on to its edge, without selvedge or ends.
func TestAnOutlineIsLaidOn(t *testing.T) {
	ell := func(x, y float64) orb.Ring {
		return orb.Ring{{0, 0}, {x, 0}, {x, 300}, {400, 300}, {400, y}, {0, y}, {0, 0}}
	}
	for _, c := range []struct {
		ring orb.Ring
		want shelf.Verdict
	}{{ell(900, 600), shelf.Enough}, {ell(800, 301), shelf.Enough}, {ell(799, 599), shelf.Idle}} {
		laid, err := Do(context.Background(), besideLeftover(t, "", job.Have{Name: "left", Outline: c.ring}),
			Options{Effort: nest.Quick}, nil)
		if err != nil {
			t.Fatal(err)
		}
		if laid.Shelf.Verdict != c.want {
			t.Errorf("%v: %v, want %v", c.ring, laid.Shelf.Verdict, c.want)
		}
		for _, cut := range laid.Shelf.Cuts {
			for _, pl := range cut.Layout.Placed {
				for _, v := range cut.Problem.Outline(pl) {
					if v[0] > 400 && v[1] > 300 {
						t.Errorf("a corner at %v is off the outline", v)
					}
				}
			}
		}
	}
}

// What is washed is not washed again, and not taken where pieces are drawn larger for a wash to come.
func TestWashedLeftovers(t *testing.T) {
	const prewash, larger = `shrinkage = { warp = "-10 %", weft = "-10 %", by = "prewash" }`,
		`shrinkage = { warp = "-10 %", weft = "-10 %", by = "pieces" }`
	square := orb.Bound{Max: orb.Point{500, 500}}.ToRing()
	for _, c := range []struct {
		cloth  string
		washed bool
		want   float64
	}{
		{"", false, 500}, {"", true, 500}, {prewash, false, 450}, {prewash, true, 500}, {larger, false, 500},
		{larger, true, 0},
	} {
		got := 0.0
		for _, l := range besideLeftover(t, c.cloth, job.Have{Name: "left", Outline: square, Washed: c.washed}).leftovers() {
			got = l.Strip.MaxLength
		}
		if got != c.want {
			t.Errorf("%s, washed %v: %v mm long, want %v", c.cloth, c.washed, got, c.want)
		}
	}
}

// On a cloth with a repeat the outline stays where it lies on that; on a plain one it goes into the corner.
func TestOutlinesOnARepeat(t *testing.T) {
	ring := orb.Bound{Min: orb.Point{70, 20}, Max: orb.Point{600, 700}}.ToRing()
	for _, c := range []struct {
		cloth string
		want  orb.Point
	}{{"", orb.Point{530, 680}}, {"repeat = { along = 9 }", orb.Point{600, 680}}} {
		l := besideLeftover(t, c.cloth, job.Have{Name: "left", Outline: ring}).leftovers()[0]
		if got := (orb.Point{l.Strip.MaxLength, l.Strip.Width}); got != c.want {
			t.Errorf("%q: %v, want %v", c.cloth, got, c.want)
		}
		room := l.Strip.MaxLength*l.Strip.Width - l.NoCloth
		if math.Abs(room-530*680) > 1e-6 {
			t.Errorf("%q: room of %v mm2", c.cloth, room)
		}
	}
}

// Zones of an outline are named apart from its flaws.
func TestZonesOfALeftover(t *testing.T) {
	have := job.Have{Name: "left", Outline: orb.Ring{{0, 0}, {500, 0}, {500, 200}, {0, 700}, {0, 0}},
		Flaws: []job.Flaw{{Outline: orb.Bound{Min: orb.Point{10, 10}, Max: orb.Point{20, 20}}.ToRing()}}}
	task := besideLeftover(t, "", have)
	names := task.Spread.LeftoverZones(have, task.leftovers()[0].Strip)
	if !slices.Equal(names, []string{NoCloth, "flaw 1"}) {
		t.Errorf("zones %s", strings.Join(names, ", "))
	}
}
