package report

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// runJob runs a job with little effort and judges every length that is bought.
func runJob(t rapid.TB, src string) (*Report, error) {
	t.Helper()
	j := testjobs.Read(t, src)
	r, err := Run(context.Background(), j, plan.Options{Effort: nest.Trial, Unit: measure.Inch})
	if err != nil {
		return nil, err
	}
	for _, c := range r.Cloths {
		judgeLengths(t, c)
	}
	return r, nil
}

// judgeLengths holds a cloth to what is bought: a marker for each length, which
// ends within it, and each copy once.
func judgeLengths(t rapid.TB, c Cloth) {
	t.Helper()
	seen := map[string]int{}
	var bolts []float64
	for _, p := range c.Buy.Parts {
		for range p.Count {
			if p.Bolt {
				bolts = append(bolts, p.Length)
			}
		}
	}
	several := c.Buy.Lengths() > 1
	x, n := plan.LossOf(c.Spread.Cloth), 0
	for _, m := range c.Markers {
		if err := nest.Verify(m.Problem, m.Layout); err != nil {
			t.Fatal(err)
		}
		for _, cuts := range m.Cuts {
			for _, pl := range cuts {
				seen[fmt.Sprint(pl.Piece, pl.Copy)]++
			}
		}
		if several && m.Bolt > 0 {
			if need := x.Needed(m.Used + 2*x.Ends); need > bolts[n]+2*measure.Guard {
				t.Fatalf("a marker of %v mm takes %v of a bolt of %v", m.Used, need, bolts[n])
			}
			n++
		}
	}
	if several && n != len(bolts) {
		t.Fatalf("%d markers for %d bolts", n, len(bolts))
	}
	for id, times := range seen {
		if times != 1 {
			t.Fatalf("copy %s is cut %d times", id, times)
		}
	}
	if len(seen) != c.Spread.Copies() {
		t.Fatalf("%d of %d copies are cut", len(seen), c.Spread.Copies())
	}
}

// Lengths are not joined: a bolt holds what its own marker does. The figures are
// plain arithmetic: how many rectangles as wide as the cloth a length holds.
func TestBoltsHoldWhatTheirMarkersDo(t *testing.T) {
	const tenYards = "price = \"10.00/yd\"\nbolt = { length = \"10 yd\", price = \"60.00\" }"
	for _, c := range []struct {
		n                    int
		across, along, cloth string
		cost, bought         string
	}{
		{12, "12", "30", "price = \"8.00/yd\"\nbolt = { length = \"3 yd\", price = \"20.00\" }",
			"27.00", "3 3/8 yd cut"},
		{12, "12", "30", "price = \"8.00/yd\"\nbolt = { length = \"3 yd\", price = \"19.00\" }", "26.00",
			"1 bolt of 3 yd and 7/8 yd cut"},
		{3, "36", "8 yd", tenYards, "180.00", "3 bolts of 10 yd"},
		{2, "36", "6 yd", tenYards, "120.00", "12 yd cut"},
		{3, "36", "8 yd", "whole_bolts = true\nbolt = { length = \"12 yd\", price = \"60.00\" }", "180.00",
			"3 bolts of 12 yd"},
		{4, "36", "7 yd", "whole_bolts = true\nbolt = [ { length = \"20 yd\", price = \"150.00\" }, { length = \"10 " +
			"yd\", price = \"80.00\" } ]",
			"300.00", "2 bolts of 20 yd"},
		// Two remnants sold cheaply, and a cut for what they do not hold.
		{3, "36", "2 yd", "price = \"10.00/yd\"\nbolt = [ { length = \"2 1/4 yd\", price = \"12.00\", in_stock = 1 " +
			"}, { length = \"2 yd\", price = \"15.00\", in_stock = 1 } ]",
			"47.00", "1 bolt of 2 1/4 yd and 1 bolt of 2 yd and 2 yd cut"},
		// 1 in at each end, 3 in off square and 5 % to spare leave 96.6 in of 108 for a marker.
		{6, "36", "30", "ends = 1\nskew = 3\nspare = \"5 %\"\nwhole_bolts = true\nbolt = { length = \"3 yd\", price " +
			"= \"20.00\" }", "40.00", "2 bolts of 3 yd"},
		{6, "36", "33", "ends = 1\nskew = 3\nspare = \"5 %\"\nwhole_bolts = true\nbolt = { length = \"3 yd\", price " +
			"= \"20.00\" }", "60.00", "3 bolts of 3 yd"},
	} {
		r, err := runJob(t, testjobs.Panels(c.n, c.across, c.along, c.cloth))
		if err != nil {
			t.Errorf("%d of %s: %v", c.n, c.along, err)
			continue
		}
		got := r.Cloths[0]
		if words := got.Spread.Cloth.Offer.InWords(got.Buy); got.Cost != c.cost || words != c.bought || !got.Proved {
			t.Errorf("%d of %s: %s for %s, proved %v; want %s for %s, proved", c.n, c.along, words, got.Cost,
				got.Proved, c.bought, c.cost)
		}
	}
}

// What no bolt holds is refused, with what would help.
func TestBoltsTooShortAreRefused(t *testing.T) {
	_, err := runJob(t, testjobs.Panels(1, "36", "30 yd",
		"whole_bolts = true\nbolt = { length = \"12 yd\", price = \"60.00\" }"))
	for _, want := range []string{"job.toml:6", "panel", "30 yd", "12 yd", "hint: "} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %q in it", err, want)
		}
	}
}

// Few rectangles as wide as the cloth, in bolts of several sizes, a remnant and a
// cut: what is bought costs what the best of all assignments does, and is proved.
func TestBoltsAgainstAllAssignments(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, least, most int) int { return rapid.IntRange(least, most).Draw(t, name) }
		var src strings.Builder
		var pieces []int // in quarter yards
		ends := draw("ends", 0, 1)
		type size struct{ length, price, stock int }
		var sizes []size
		cut := draw("cut", 0, 9) // for a quarter yard; 0: none is sold
		fmt.Fprintf(&src, "unit = \"in\"\n[allowance]\nseam = 0\nhem = 0\n[[cloth]]\nid = \"c\"\nwidth = 36\nends = "+
			"\"%g\"\n", 4.5*float64(ends))
		if cut > 0 {
			fmt.Fprintf(&src, "price = \"%d.00/yd\"\nsold_by = \"1/4 yd\"\n", 4*cut)
		}
		src.WriteString("bolt = [")
		for i := range draw("sizes", 1, 3) {
			s := size{draw("bolt", 10, 30), draw("price", 5, 150), 0}
			if i > 0 && draw("remnant", 0, 1) == 1 {
				s.stock = 1
			}
			sizes = append(sizes, s)
			fmt.Fprintf(&src, "{ length = \"%d in\", price = \"%d\"", 9*s.length, s.price)
			if s.stock > 0 {
				src.WriteString(", in_stock = 1")
			}
			src.WriteString(" },")
		}
		src.WriteString("]\n")
		for i := range draw("parts", 1, 3) {
			n, along := draw("count", 1, 3), draw("along", 1, 9)
			fmt.Fprintf(&src, "[[part]]\nname = \"p%d\"\ndraft = \"rectangle\"\ncloth = \"c\"\nwidth = 36\nlength = "+
				"\"%d\"\ncount = %d\n", i, 9*along, n)
			pieces = append(pieces, slices.Repeat([]int{along}, n)...)
		}
		lengths := make([]int, 1<<len(pieces)) // of each lot of pieces, ends included
		for lot := 1; lot < len(lengths); lot++ {
			lengths[lot] = ends
			for i, p := range pieces {
				lengths[lot] += p * (lot >> i & 1)
			}
		}
		best := math.MaxInt
		var from func(left, onCut, cost int, stock []int)
		from = func(left, onCut, cost int, stock []int) {
			if cost+cut*lengths[onCut] >= best {
				return
			}
			if left == 0 {
				best = cost + cut*lengths[onCut]
				return
			}
			first := left & -left
			if cut > 0 {
				from(left&^first, onCut|first, cost, stock)
			}
			for lot := left; lot > 0; lot = (lot - 1) & left {
				for i, s := range sizes {
					if lot&first > 0 && s.length >= lengths[lot] && (s.stock == 0 || stock[i] == 0) {
						used := slices.Clone(stock)
						used[i]++
						from(left&^lot, onCut, cost+s.price, used)
					}
				}
			}
		}
		from(len(lengths)-1, 0, 0, make([]int, len(sizes)))
		r, err := runJob(t, src.String())
		if err != nil {
			t.Fatalf("%v\n%s", err, src.String())
		}
		if c := r.Cloths[0]; c.Buy.Cost.Minor != int64(100*best) || !c.Proved {
			t.Fatalf("%s for %s, proved %v; the best of all is %d: %s", c.Spread.Cloth.Offer.InWords(c.Buy), c.Cost,
				c.Proved, best, src.String())
		}
	})
}
