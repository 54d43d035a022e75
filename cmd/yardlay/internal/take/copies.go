package take

import (
	"fmt"

	"yardlay/shapes/outline"
	"yardlay/shapes/say"
)

// Copies are how often a shape is cut, and why it is taken to be.
type Copies struct {
	Count   int
	Pair    bool // half of them are mirrored
	Said    bool // by the file; else it is a guess
	Because string
}

// String says it in a table.
func (c Copies) String() string {
	switch {
	case c.Pair && c.Count == 2:
		return "1 pair"
	case c.Pair:
		return say.Count(c.Count/2, "pair")
	}
	return fmt.Sprint(c.Count)
}

// copiesOf guesses how often shapes are cut where the file does not say it: once what lies on
// a fold, is the same left and right, or is there left and right; else as a pair (common
// practice: half a pattern is drawn).
func copiesOf(shapes []outline.Shape) []Copies {
	all := make([]Copies, len(shapes))
	forms := make([]form, len(shapes))
	asked := 0
	for i, s := range shapes {
		switch {
		case s.Quantity > 0:
			all[i] = Copies{s.Quantity, s.Paired, true, "the file says so"}
		case s.Fold >= 0:
			all[i] = Copies{1, false, false, "it lies on a fold"}
		default:
			asked++
			forms[i] = formOf(s)
		}
	}
	for i := range shapes {
		if all[i].Count > 0 {
			continue
		}
		all[i] = Copies{2, true, false, "it is not the same left and right, so a left and a right one are cut"}
		if forms[i].mirrors(forms[i]) {
			all[i] = Copies{1, false, false, "it is the same left and right"}
			continue
		}
		for k := range shapes {
			if k != i && asked <= mostCompared && forms[k].area > 0 && forms[i].mirrors(forms[k]) {
				all[i] = Copies{1, false, false, fmt.Sprintf("number %d is its mirror image", shapes[k].Number)}
				break
			}
		}
	}
	return all
}

// mostCompared is how many shapes are compared with each other.
const mostCompared = 300
