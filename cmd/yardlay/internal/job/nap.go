package job

// Nap says which ways pieces may point on a cloth.
type Nap string

// The naps. A nap or one-way sheen wants all tops one way: velvet, satin,
// taffeta, one-way prints (Tondl, Nebraska Extension NF00-416, 2000).
const (
	OneWay Nap = "one-way"
	TwoWay Nap = "two-way"
	AllWay Nap = "all-way"
)

// Turns returns the turns along the grain that a nap allows, degrees
// counter-clockwise. An all-way nap lets in none across: that is for the grain.
func (n Nap) Turns() []float64 {
	if n == TwoWay || n == AllWay {
		return []float64{0, 180}
	}
	return []float64{0}
}

// Freer says whether a nap forbids less than another.
func (n Nap) Freer(than Nap) bool {
	order := map[Nap]int{OneWay: 0, TwoWay: 1, AllWay: 2}
	return order[n] > order[than]
}
