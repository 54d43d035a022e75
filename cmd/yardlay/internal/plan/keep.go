package plan

import (
	"fmt"
	"slices"
	"strings"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/shelf"
	"yardlay/nest"
)

// kept is the keeping of lengths whose lots agree or not. Between lots that differ
// a garment keeps together unless its part says otherwise; where they agree what
// parts say holds, and nothing else. freed are parts by their number among the
// spread's pieces that say nothing and are kept together less than a garment.
func (s Spread) kept(lotsAgree bool, freed map[int]job.Keep) shelf.Keeping {
	return func(pl nest.Placed) string {
		part, piece := s.Cuts[pl.Piece].Part, s.Cuts[pl.Piece].Piece
		sets := s.setsOf(pl.Piece)
		set := pl.Copy / max(piece.Count/sets, 1)
		keep := part.Keep
		if keep == "" {
			switch {
			case lotsAgree:
				return ""
			case freed[pl.Piece] != "":
				keep = freed[pl.Piece]
			default:
				keep = job.KeepGarment
			}
		}
		switch keep {
		case job.KeepGown: // sets of one wearer come one after the other
			return fmt.Sprintf("gown %s %d", part.Body, set/max(part.Times, 1))
		case job.KeepGarment:
			return fmt.Sprintf("garment %s %d", part.Name, set)
		case job.KeepPair:
			if piece.Pair {
				return fmt.Sprintf("pair %d %d", pl.Piece, pl.Copy/2)
			}
		}
		return ""
	}
}

// onShelf is the keeping between leftovers and bought cloth, of the task's copies.
func (t Task) onShelf() shelf.Keeping {
	return t.ofWhole(t.Spread.kept(t.Spread.Cloth.Lots == job.LotsAll, nil))
}

// among is the keeping of lengths that are bought at once, of the task's copies.
func (t Task) among(freed map[int]job.Keep) shelf.Keeping {
	return t.ofWhole(t.Spread.kept(t.Spread.Cloth.Lots != job.LotsNone, freed))
}

// ofWhole is a keeping of the whole cloth's copies for those of the task.
func (t Task) ofWhole(keep shelf.Keeping) shelf.Keeping {
	if t.source == nil {
		return keep
	}
	return func(pl nest.Placed) string { return keep(t.source(pl)) }
}

// looser is what is kept together next to a keep; "" after the last.
func looser(k job.Keep) job.Keep {
	switch k {
	case "", job.KeepGarment:
		return job.KeepPair
	case job.KeepPair:
		return job.KeepPiece
	}
	return ""
}

// partsOf names the parts of some of the spread's pieces.
func (s Spread) partsOf(pieces []int) string {
	var names []string
	for _, i := range pieces {
		if name := s.Cuts[i].Part.Name; !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return strings.Join(names, ", ")
}

// keptNames tells tasks apart whose lengths may hold other copies together.
func (t Task) keptNames() (names [2][]string) {
	if len(t.Spread.Cloth.Have) > 0 {
		names[0] = t.onShelf().Names(t.Problem)
	}
	if t.InLengths() {
		names[1] = t.among(nil).Names(t.Problem)
	}
	return names
}
