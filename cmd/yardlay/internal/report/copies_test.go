package report

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/nest"
	"yardlay/shapes"
)

func TestCopiesAreListedInRanges(t *testing.T) {
	wearers := func(label string, n int) (labels []string) {
		for k := range n {
			labels = append(labels, fmt.Sprintf("left %s, wearer %d", label, k+1), fmt.Sprintf("right %s, wearer %d", label,
				k+1))
		}
		return labels
	}
	s := plan.Spread{Cuts: []plan.Cut{
		{Piece: shapes.Piece{Name: "belt", Count: 1}},
		{Piece: shapes.Piece{Name: "tab", Count: 12}},
		{Piece: shapes.Piece{Name: "cup", Count: 2, Labels: []string{"left", "right"}}},
		{Piece: shapes.Piece{Name: "gore", Count: 18, Labels: wearers("50 %", 9)}},
		{Piece: shapes.Piece{Name: "panel", Count: 6, Labels: []string{"left 1 of 3", "right 1 of 3", "left 2 of 3",
			"right 2 of 3", "left 3 of 3", "right 3 of 3"}}},
	}}
	var cuts []nest.Placed
	for i, copies := range [][]int{{0}, {10, 0, 1, 2, 4, 5}, {1}, {1, 0, 2, 4, 5, 16, 17}, {0, 1, 2, 3, 4}} {
		for _, c := range copies {
			cuts = append(cuts, nest.Placed{Piece: i, Copy: c})
		}
	}
	slices.Reverse(cuts)
	want := []string{"belt", "tab (1 to 3, 5, 6, 11 of 12)", "cup (right)", "gore (left 50 %, wearer 1 to 3, 9)",
		"gore (right 50 %, wearer 1, 3, 9)", "panel (left 1 to 3 of 3)", "panel (right 1, 2 of 3)"}
	if got := copiesOf(s, cuts); !slices.Equal(got, want) {
		t.Errorf("got\n%q\nwant\n%q", got, want)
	}
}

// Ranges read back are the labels, each once.
func TestRangesReadBack(t *testing.T) {
	stretch := regexp.MustCompile(`^([0-9]+) to ([0-9]+)$`)
	rapid.Check(t, func(t *rapid.T) {
		var labels []string
		for n := range 30 {
			for _, side := range []string{"left", "right"} {
				if rapid.Bool().Draw(t, "cut") {
					labels = append(labels, fmt.Sprintf("%s, wearer %d", side, n+1))
				}
			}
		}
		var back []string
		for _, one := range ranged(labels) {
			side, list, _ := strings.Cut(one, ", wearer ")
			for _, part := range strings.Split(list, ", ") {
				from, to := part, part
				if m := stretch.FindStringSubmatch(part); m != nil {
					from, to = m[1], m[2]
				}
				first, _ := strconv.Atoi(from)
				last, _ := strconv.Atoi(to)
				for n := first; n <= last; n++ {
					back = append(back, fmt.Sprintf("%s, wearer %d", side, n))
				}
			}
		}
		if !slices.Equal(slices.Sorted(slices.Values(back)), slices.Sorted(slices.Values(labels))) {
			t.Fatalf("%q reads back as %q", labels, back)
		}
	})
}
