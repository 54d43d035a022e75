package job

// Lay says how a cloth is spread for cutting.
type Lay string

// The lays. A double fold has both selvedges brought to the middle, so that
// both edges are folds.
const (
	Open           Lay = "open"
	LengthwiseFold Lay = "lengthwise-fold"
	CrosswiseFold  Lay = "crosswise-fold"
	DoubleFold     Lay = "double-fold"
)
