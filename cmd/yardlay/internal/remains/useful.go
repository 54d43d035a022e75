package remains

import (
	"github.com/paulmach/orb"

	"yardlay/shapes/plane"
)

// What is worth keeping, mm. Common practice of a small workroom, without a source: a scrap from
// which a pocket, a facing or a gusset can be cut, or a band that ties and bindings are cut from.
const (
	// Narrowest is the width of a strip that is kept with what it joins: anything narrower is cut off.
	Narrowest = 40.0
	// A rectangle of these sides, along the grain or across it.
	KeptLength, KeptWidth = 150.0, 100.0
	// A band of these sides, along the grain or across it.
	BandLength, BandWidth = 500.0, 50.0
	// A right triangle with both legs so long, one of them along the grain.
	KeptLeg = 200.0
)

// inset is left off each side of a figure, steps of the lattice, so that what fits exactly is not lost. On the
// lattice the sums of upright edges are exact.
type inset int

// insets are tried one after the other: an overlay that fails does so where edges nearly meet, and
// with another inset they do not.
var insets = []inset{5, 9, 14, 2}

func (in inset) mm() float64 { return float64(in) * plane.Lattice }

// rectangle is an upright one, smaller by the inset, about the origin.
func (in inset) rectangle(length, width float64) orb.Ring {
	x, y := plane.SnapDown(length/2)-in.mm(), plane.SnapDown(width/2)-in.mm()
	return orb.Bound{Min: orb.Point{-x, -y}, Max: orb.Point{x, y}}.ToRing()
}

// triangles are right ones with legs so long, smaller by the inset, a leg along the grain: one for each
// way that the right angle can look. Each holds the origin.
func (in inset) triangles(leg float64) []orb.Ring {
	low := plane.SnapDown(leg / 3)
	high := leg - low - 2*in.mm()
	var all []orb.Ring
	for _, s := range [][2]float64{{1, 1}, {-1, 1}, {-1, -1}, {1, -1}} {
		x, y := s[0], s[1]
		all = append(all, plane.Tidy(orb.Ring{
			{-x * low, -y * low}, {x * high, -y * low}, {-x * low, y * high}, {-x * low, -y * low},
		}))
	}
	return all
}

// worthKeeping lists the outlines of which one at the least fits in what is kept.
func (in inset) worthKeeping() []orb.Ring {
	return append([]orb.Ring{
		in.rectangle(KeptLength, KeptWidth), in.rectangle(KeptWidth, KeptLength),
		in.rectangle(BandLength, BandWidth), in.rectangle(BandWidth, BandLength),
	}, in.triangles(KeptLeg)...)
}

// useful says whether any of these fits in an area.
func (in inset) useful(a area) (bool, error) {
	if a.g.Area() < least {
		return false, nil
	}
	for _, k := range in.worthKeeping() {
		if fits, err := a.takes(k); fits || err != nil {
			return fits, err
		}
	}
	return false, nil
}

// least is the area of the smallest of what is worth keeping, less a border of 0.1 mm, mm2.
var least = min(KeptLength*KeptWidth, BandLength*BandWidth, KeptLeg*KeptLeg/2) - 0.2*BandLength
