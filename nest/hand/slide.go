package hand

import (
	"fmt"

	"github.com/paulmach/orb"

	"yardlay/nest"
)

// Slide is what a drawing needs to let a piece slide among others without asking: where
// its origin, Placed.At, may be. All are mm.
type Slide struct {
	Turn     float64     `json:"turn"`
	Mirrored bool        `json:"mirrored"`
	Rooms    []orb.Bound `json:"rooms"` // within one of them, so that it lies on the cloth, clear of folds
	// on a repeat that is settled: at first and whole steps from it, on an axis with a step
	First  orb.Point  `json:"first"`
	Step   [2]float64 `json:"step"`
	Blocks []Block    `json:"blocks"` // and outside these
}

// Block is where the origin of the piece may not be because of one neighbour or flaw.
type Block struct {
	Other int `json:"other"` // index into the others; of a flaw -1 less its number
	// Pair is equal for blocks with equal rings, in the slides of all tables.
	Pair string    `json:"pair"`
	At   orb.Point `json:"at"` // added to the rings
	// The region is what the rings wind round: closed, a hole clockwise. They are there once for
	// each pair, with its first block, and not at all where they are known already.
	Rings []orb.Ring `json:"rings,omitempty"`
}

// Slide returns that of a piece as it is turned and mirrored, with what is in its way as long as
// it moves by so many mm at most from where it is held; infinity: anywhere. The nearest can
// be asked for first: regions that are not known yet take some milliseconds each. known says of which
// pairs the rings are known already; nil: of none.
func (t *Table) Slide(held nest.Placed, others []nest.Placed, within float64, known func(pair string) bool) Slide {
	t.mu.Lock()
	defer t.mu.Unlock()
	if !t.knows(held) {
		return Slide{}
	}
	t.forget()
	g := t.gridOf(held, others)
	s := Slide{
		Turn: held.Turn, Mirrored: held.Mirrored, Rooms: t.problem.Room(held), First: g.first, Step: g.step,
	}
	if !(within >= 0) {
		within = 0
	}
	around := orb.Bound{Min: held.At, Max: held.At}.Pad(min(within, 2*nest.Reach))
	told := map[string]bool{}
	for _, o := range t.obstaclesTo(held, others, around) {
		b := Block{Other: o.index, Pair: o.key.String(), At: o.at}
		if !told[b.Pair] && (known == nil || !known(b.Pair)) {
			b.Rings = o.region.Rings()
		}
		told[b.Pair] = true
		s.Blocks = append(s.Blocks, b)
	}
	return s
}

// String names a pair of outlines and their gap, alike in every table.
func (k regionKey) String() string { return fmt.Sprintf("%s/%s/%g", k.fixed, k.moving, k.gap) }
