package plan

import (
	"errors"
	"slices"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
	"yardlay/shapes/draft"
	"yardlay/shapes/measure"
)

// leastLong is the least that a piece measures along the grain before it is thought of being cut across, mm: 24 in (our
// own figure).
const leastLong = 24 * measure.Inches

// lengthShares are the shares of the longest piece that is left of it near the waist at the steps tried (our own
// figures, from trials of nine skirts).
var lengthShares = []float64{0.6, 0.75, 0.5}

// LengthSteps are the lengths, mm, to which the pieces of a part of a cloth may be cut across, whoever wears it: what
// lies on the shelf, as far as two or more are narrow enough to lie side by side, or a share of the longest piece. The
// longest come first, in whole figures of a unit. parts are those of OuterParts. Where pieces are long and there is no
// such length, the error says why none of them is cut.
func LengthSteps(called string, parts []job.Part, c job.Cloth, unit measure.Unit) (steps []float64, err error) {
	whole := wholes(called, parts, c)
	longest, widest := largest(whole)
	if longest < leastLong {
		return nil, nil
	}
	aims := onShelf(c)
	for _, width := range sideBySide(c) {
		if width < widest {
			aims = append(aims, reach(whole, width))
		}
	}
	for _, share := range lengthShares {
		aims = append(aims, share*longest)
	}
	steps, err = stepsOf(aims, longest, unit, func(aim float64) error {
		return cuts(whole, func(c *draft.Corners) { c.Length = aim })
	})
	if errors.Is(err, errUncut) {
		err = nil
	}
	return steps, err
}

// reach is how far all pieces of outer layers are no wider than a width, mm.
func reach(all []uncut, width float64) (mm float64) {
	for _, u := range all {
		for _, p := range u.made.Pieces {
			along, _ := p.Unfold().CutSize()
			if far := draft.Reach(p, width); u.outer && far < along && (mm == 0 || far < mm) {
				mm = far
			}
		}
	}
	return mm
}

// onShelf are the longest pieces that the lengths on the shelf hold, the longest first, mm.
func onShelf(c job.Cloth) (lengths []float64) {
	for _, h := range c.Have {
		if l := (Spread{Cloth: c}).leftover(h); l.Strip.MaxLength > 0 && l.Strip.Width > 0 {
			lengths = append(lengths, drafted(c, l.Strip.MaxLength))
		}
	}
	slices.Sort(lengths)
	slices.Reverse(lengths)
	return lengths
}

// longestOnBolts is the longest piece that what is sold of a cloth holds, mm; 0 where the counter cuts any length.
func longestOnBolts(c job.Cloth) float64 {
	longest, ok := longestBolt(c.Offer)
	if !ok {
		return 0
	}
	return drafted(c, Task{Spread: Spread{Cloth: c}}.boltStrip(longest).MaxLength)
}

// longestBolt is the longest there is where nothing but bolts is sold; else ok is false.
func longestBolt(o cost.Offer) (longest cost.Bolt, ok bool) {
	if o.ByLength() {
		return longest, false
	}
	for _, b := range o.Sizes() {
		if !ok || b.Length > longest.Length {
			longest, ok = b, true
		}
	}
	return longest, ok
}

// drafted is how long a piece is drafted that is as long as said once it is drawn larger for a wash to come, mm.
func drafted(c job.Cloth, mm float64) float64 {
	if c.Shrinkage.Prewash {
		return mm
	}
	return mm * (1 + c.Shrinkage.Warp)
}
