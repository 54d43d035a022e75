package report

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes"
	"yardlay/shapes/measure"
)

// Folded along its length, what comes in pairs and what lies on the fold is cut
// double; what is odd is cut from an open stretch behind, and both lengths add up.
func TestLengthwiseFoldHasAnOpenStretchBehindIt(t *testing.T) {
	c := run(t, testjobs.Gown("nap = \"one-way\"\nlay = \"lengthwise-fold\"\nends = 2"),
		plan.Options{Unit: measure.Centimetre}).Cloths[0]
	if len(c.Stretches) != 2 || c.Stretches[0].Lay != "lengthwise-fold" || c.Stretches[1].Lay != "open" {
		t.Fatalf("stretches: %+v", c.Stretches)
	}
	folded, open := c.Stretches[0], c.Stretches[1]
	if len(folded.Marker) != 2 || len(open.Marker) != 1 || open.Marker[0].Piece != "sash hook" {
		t.Errorf("folded %+v, open %+v", folded.Marker, open.Marker)
	}
	if c.Pieces != 4 || len(c.Marker) != 4 {
		t.Errorf("%d pieces, %d in the marker, want 4", c.Pieces, len(c.Marker))
	}
	if want := folded.Used + open.Used; c.Used != want || math.Abs(c.Needed-want-4*20) > 1e-9 {
		t.Errorf("used %v and needed %v, want %v and 80 mm more", c.Used, c.Needed, want)
	}
	if math.Abs(open.From-folded.Used-40) > 1e-9 {
		t.Errorf("the open stretch begins at %v", open.From)
	}
	if c.Layout.Length > c.Needed {
		t.Errorf("opened out it takes %v mm of %v", c.Layout.Length, c.Needed)
	}
	words := strings.Join(c.Instructions, "\n")
	for _, want := range []string{"right sides together", "the fold is the lower edge",
		"against a fold, which is not cut: collar cape", "The open stretch begins", "right side up"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is not among the instructions:\n%s", want, words)
		}
	}
}

// Each outline of a folded marker says which copies it cuts, and together they cut
// every copy once.
func TestFoldedMarkersNameEveryCopy(t *testing.T) {
	for _, lay := range []string{"lengthwise-fold", "double-fold", "crosswise-fold\"\nupper_turned = true #"} {
		r := run(t, testjobs.Gown("nap = \"one-way\"\nlay = \""+lay+"\""), plan.Options{Gowns: 2})
		c := r.Cloths[0]
		seen := map[[2]int]int{}
		for _, s := range c.Markers {
			for i, cuts := range s.Cuts {
				for _, cut := range cuts {
					seen[[2]int{cut.Piece, cut.Copy}]++
				}
				if got := c.Spread.Cuts[cuts[0].Piece].Piece.Name; s.Marker[i].Piece != got {
					t.Errorf("%s: %q is called %q", lay, got, s.Marker[i].Piece)
				}
			}
		}
		for i, cut := range c.Spread.Cuts {
			p := cut.Piece
			for k := range p.Count {
				if seen[[2]int{i, k}] != 1 {
					t.Errorf("%s: copy %d of %s is cut %d times", lay, k, p.Name, seen[[2]int{i, k}])
				}
			}
		}
		if len(c.Marker) != c.Pieces || c.Pieces != 8 {
			t.Errorf("%s: %d of %d pieces on the open cloth, want 8", lay, len(c.Marker), c.Pieces)
		}
	}
}

// The upper layer of a crosswise fold points the other way: on one-way cloth it
// has to be turned, and the instructions say so.
func TestCrosswiseFoldTurnsTheUpperLayerOfOneWayCloth(t *testing.T) {
	refused(t, testjobs.Gown("nap = \"one-way\"\nlay = \"crosswise-fold\""), "sleeve",
		"cut the cloth along the fold and turn the upper layer")
	c := run(t, testjobs.Gown("nap = \"one-way\"\nlay = \"crosswise-fold\"\nupper_turned = true"),
		plan.Options{}).Cloths[0]
	words := strings.Join(c.Instructions, "\n")
	if !strings.Contains(words, "cut along the fold and turn the upper layer end for end") {
		t.Errorf("instructions:\n%s", words)
	}
	if c.Stretches[0].Layers != 2 || c.Used < 2*c.Stretches[0].Used {
		t.Errorf("used %v, the folded marker %v", c.Used, c.Stretches[0].Used)
	}
	two := run(t, testjobs.Gown("nap = \"two-way\"\nlay = \"crosswise-fold\""), plan.Options{}).Cloths[0]
	if words := strings.Join(two.Instructions, "\n"); strings.Contains(words, "turn the upper") ||
		!strings.Contains(words, "cut end on cut end") {
		t.Errorf("instructions:\n%s", words)
	}
}

// Several gowns are laid together, and each takes no more than one alone but for
// the search; labels say which gown.
func TestGownsAreLaidTogether(t *testing.T) {
	r := run(t, testjobs.Gown("nap = \"two-way\""), plan.Options{Gowns: 3})
	c := r.Cloths[0]
	if c.Pieces != 12 || r.Gowns != 3 || c.PerGown == nil {
		t.Fatalf("%d pieces, per gown %+v", c.Pieces, c.PerGown)
	}
	alone := run(t, testjobs.Gown("nap = \"two-way\""), plan.Options{}).Cloths[0]
	if alone.PerGown != nil || c.PerGown.AloneUsed != alone.Used || c.PerGown.AloneBought != alone.Bought ||
		c.PerGown.AloneCost != alone.Cost {
		t.Errorf("one alone takes %v, said to be %+v", alone.Used, c.PerGown)
	}
	if math.Abs(c.PerGown.Used*3-c.Used) > 1e-9 || math.Abs(c.PerGown.Bought*3-c.Bought) > 1e-9 {
		t.Errorf("shares %+v of %v and %v", c.PerGown, c.Used, c.Bought)
	}
	if got := CopyName(c.Spread.Cuts[0].Piece, 5); got != "right, gown 3" {
		t.Errorf("the last sleeve is called %q", got)
	}
}

// Of a bolt that varies the narrowest width counts, and it is said.
func TestNarrowestWidthIsSaid(t *testing.T) {
	c := run(t, strings.Replace(testjobs.Gown(""), "width = 120", "width = [120, 118.5, 119]", 1),
		plan.Options{Unit: measure.Centimetre}).Cloths[0]
	if c.Width != 1165 || !strings.Contains(strings.Join(c.Instructions, " "),
		"narrowest of 3 widths measured, 118.5 cm") {
		t.Errorf("width %v, instructions %q", c.Width, c.Instructions)
	}
}

// A run that is interrupted before anything is laid still ends with a layout,
// shelf or not, and says that the shelf was not worked out.
func TestInterruptedRunsEndWithALayout(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for _, cloth := range []string{"lay = \"lengthwise-fold\"",
		"have = [ { name = \"rest\", length = 45, width = 60 } ]"} {
		tasks, err := plan.Tasks(testjobs.Read(t, testjobs.Gown(cloth)), 1)
		if err != nil {
			t.Fatal(err)
		}
		l, err := plan.Do(ctx, tasks[0], plan.Options{}, nil)
		if err != nil {
			t.Fatalf("%s: %v", cloth, err)
		}
		if l.Buy.Bought == 0 {
			t.Errorf("%s: nothing is bought", cloth)
		}
		if l.Shelf != nil && !strings.Contains(strings.Join((laying{l}).instructions(measure.Centimetre), " "),
			"left alone") {
			t.Errorf("%s: %q", cloth, laying{l}.instructions(measure.Centimetre))
		}
	}
}

// What is cut from a leftover is named once a piece, with the numbers of its copies.
func TestCopiesAreNamedTogether(t *testing.T) {
	s := plan.Spread{Cuts: []plan.Cut{
		{Piece: shapes.Piece{Name: "belt", Count: 1}}, {Piece: shapes.Piece{Name: "gore", Count: 2,
			Labels: []string{"left", "right"}}},
		{Piece: shapes.Piece{Name: "tab", Count: 12}},
	}}
	var cuts []nest.Placed
	for _, c := range []int{10, 2, 1, 0, 5, 6} {
		cuts = append(cuts, nest.Placed{Piece: 2, Copy: c})
	}
	cuts = append(cuts, nest.Placed{Piece: 1, Copy: 1}, nest.Placed{Piece: 0}, nest.Placed{Piece: 1})
	want := []string{"belt", "gore (left)", "gore (right)", "tab (1 to 3, 6, 7, 11 of 12)"}
	if got := copiesOf(s, cuts); !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

func refused(t *testing.T, src string, says ...string) {
	t.Helper()
	_, err := plan.Tasks(testjobs.Read(t, src), 1)
	var all strict.Errors
	if !errors.As(err, &all) {
		t.Fatalf("got %v, want a refusal", err)
	}
	for _, s := range says {
		if !strings.Contains(err.Error(), s) {
			t.Errorf("%q is not in: %v", s, err)
		}
	}
}
