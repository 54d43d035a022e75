package draft

// MostEndHem is the most that is turned up at a free end without being asked for, mm: a
// narrow hem of 1/2 in, 1/4 in turned twice (common practice).
const MostEndHem = 12.7

// DefaultTurnIn is what is turned in at the free end of a binding, mm: 1/2 in (common
// practice).
const DefaultTurnIn = 12.7
