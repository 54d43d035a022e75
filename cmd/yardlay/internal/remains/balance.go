package remains

import "yardlay/shapes/plane"

// Balance is where a cloth went, mm2: Cloth is Pieces, Kept and Waste together.
type Balance struct {
	Cloth  float64 `json:"cloth"`
	Pieces float64 `json:"pieces"`
	Kept   float64 `json:"kept"`
	Waste  float64 `json:"waste"`
}

// BalanceOf adds up what of a cloth is pieces and what is kept; the rest, with edges and ends, is waste.
func BalanceOf(c Cloth, left []Left) Balance {
	b := Balance{Cloth: c.Covered}
	for _, p := range c.Pieces {
		b.Pieces += plane.Area(p)
	}
	for _, l := range left {
		b.Kept += l.Area()
	}
	b.Waste = b.Cloth - b.Pieces - b.Kept
	return b
}

// Plus is both together.
func (b Balance) Plus(c Balance) Balance {
	return Balance{b.Cloth + c.Cloth, b.Pieces + c.Pieces, b.Kept + c.Kept, b.Waste + c.Waste}
}
