package shapes

// FreeEnded is a draft that may go round, its ends joined, or end in two free ends.
type FreeEnded interface {
	Draft
	// FreeEnds returns what each free end is hemmed or turned in by, mm, 0 where it is
	// left raw; false where the ends are joined.
	FreeEnds() (allowance float64, free bool)
}

// MostEndHem is the most that is turned up at a free end without being asked for, mm: a
// narrow hem of 1/2 in, 1/4 in turned twice (common practice).
const MostEndHem = 12.7

// DefaultTurnIn is what is turned in at the free end of a binding, mm: 1/2 in (common
// practice).
const DefaultTurnIn = 12.7

// FreeEnds returns those of each tier.
func (s Strip) FreeEnds() (allowance float64, free bool) { return s.EndHem, !s.Closed }

// FreeEnds returns those of the flounce.
func (f Flounce) FreeEnds() (allowance float64, free bool) { return f.EndHem, !f.Closed }

// FreeEnds returns those of the binding.
func (b Binding) FreeEnds() (allowance float64, free bool) { return b.TurnIn, !b.Closed }
