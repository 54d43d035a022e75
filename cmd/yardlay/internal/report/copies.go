package report

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/nest"
)

// copiesOf names copies of pieces: "belt", "skirt gore (left)", "tab (1 to 8, 11 of
// 12)", "sleeve (left, wearer 1 to 9)".
func copiesOf(s plan.Spread, cuts []nest.Placed) []string {
	cuts = slices.Clone(cuts)
	slices.SortFunc(cuts, func(a, b nest.Placed) int {
		return cmp.Or(cmp.Compare(a.Piece, b.Piece), cmp.Compare(a.Copy, b.Copy))
	})
	var names []string
	for len(cuts) > 0 {
		piece, labels := s.Cuts[cuts[0].Piece].Piece, []string(nil)
		n := 0
		for ; n < len(cuts) && cuts[n].Piece == cuts[0].Piece; n++ {
			labels = append(labels, CopyName(piece, cuts[n].Copy))
		}
		for _, label := range ranged(labels) {
			if names = append(names, piece.Name); label != "" {
				names[len(names)-1] += " (" + label + ")"
			}
		}
		cuts = cuts[n:]
	}
	return names
}

// numbered finds the last number of a label, and what stands before and behind it.
var numbered = regexp.MustCompile(`^(.*?)([0-9]+)((?: of [0-9]+)?)$`)

// ranged puts labels together that differ in their last number alone: "left, wearer 1 to
// 3, 5". Numbers of one kind rise.
func ranged(labels []string) []string {
	var order []string
	numbers := map[string][]int{} // by label with a verb in place of the number
	for _, label := range labels {
		key := strings.ReplaceAll(label, "%", "%%")
		if m := numbered.FindStringSubmatch(label); m != nil {
			n, _ := strconv.Atoi(m[2])
			key = strings.ReplaceAll(m[1], "%", "%%") + "%s" + m[3]
			numbers[key] = append(numbers[key], n)
		}
		if !slices.Contains(order, key) {
			order = append(order, key)
		}
	}
	for i, key := range order {
		if n, ok := numbers[key]; ok {
			order[i] = fmt.Sprintf(key, runs(n))
		} else {
			order[i] = strings.ReplaceAll(key, "%%", "%")
		}
	}
	return order
}

// runs lists rising numbers: "1 to 3, 5".
func runs(numbers []int) string {
	var parts []string
	for i := 0; i < len(numbers); {
		last := i
		for last+1 < len(numbers) && numbers[last+1] == numbers[last]+1 {
			last++
		}
		part := strconv.Itoa(numbers[i])
		switch last - i {
		case 0:
		case 1:
			part += fmt.Sprintf(", %d", numbers[last])
		default:
			part += fmt.Sprintf(" to %d", numbers[last])
		}
		parts, i = append(parts, part), last+1
	}
	return strings.Join(parts, ", ")
}
