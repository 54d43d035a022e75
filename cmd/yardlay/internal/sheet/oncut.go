package sheet

import "github.com/paulmach/orb"

// OnCut is where a notch meets a cut line; its own point where it meets none.
func (n Notch) OnCut(cut orb.Ring) orb.Point {
	reach := rayLength(cut, n)
	return orb.Point{n.At[0] + reach*n.Outward[0], n.At[1] + reach*n.Outward[1]}
}

// Arrow draws a line with a solid head at its end or at both, heads in mm of the drawing.
func Arrow(role Role, from, to orb.Point, head float64, both bool) []Item {
	return arrow(role, from, to, head, both)
}
