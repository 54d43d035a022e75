package shelf

import (
	"fmt"

	"yardlay/nest"
)

// Keeping names the copies of a piece that are cut from one length: those of one
// name. A copy without a name goes where it likes.
type Keeping func(nest.Placed) string

// Names lists the names that a keeping gives to the copies of a problem.
func (k Keeping) Names(p nest.Problem) []string {
	var names []string
	for i, piece := range p.Pieces {
		for c := range piece.Count {
			names = append(names, k(nest.Placed{Piece: i, Copy: c}))
		}
	}
	return names
}

// checkKept judges that what is kept together has come to one share.
func checkKept(keep Keeping, shares []Share) error {
	if keep == nil {
		return nil
	}
	at := map[string]int{}
	for i, s := range shares {
		for _, from := range s.from {
			for _, c := range from.copies {
				name := keep(nest.Placed{Piece: from.piece, Copy: c})
				if was, ok := at[name]; name != "" && ok && was != i {
					return fmt.Errorf("%q is cut from two lengths", name)
				}
				at[name] = i
			}
		}
	}
	return nil
}
