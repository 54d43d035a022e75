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

// Turns returns the turns a nap allows, degrees counter-clockwise.
func (n Nap) Turns() []float64 {
	switch n {
	case TwoWay:
		return []float64{0, 180}
	case AllWay:
		return []float64{0, 90, 180, 270}
	}
	return []float64{0}
}
