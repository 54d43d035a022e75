package plan

import (
	"math"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cost"
	"yardlay/nest"
)

// Loss is what a cloth takes beyond its markers. Lengths are in mm.
type Loss struct {
	Ends   float64 // at each end of each layer of each marker
	Skew   float64 // once: the cut end runs off square
	Washed float64 // length after washing over length before, when it is washed first; else 1
	Spare  float64 // share added last
}

// LossOf is what a cloth as described takes beyond its markers.
func LossOf(c job.Cloth) Loss {
	l := Loss{Ends: c.Ends, Skew: c.Skew, Washed: 1, Spare: c.Spare}
	if c.Shrinkage.Prewash {
		l.Washed = 1 + c.Shrinkage.Warp
	}
	return l
}

// Needed returns the length of cloth that is bought for a length laid on, ends
// included; 0 for none. It never falls when more is laid on, so it serves layouts
// and bounds alike.
func (l Loss) Needed(laid float64) float64 {
	if laid == 0 {
		return 0
	}
	return (laid + l.Skew) / l.Washed * (1 + l.Spare)
}

// laid returns the length that a length of cloth can be laid on, ends included, mm:
// what needed makes of it is that cloth. It is negative where skew takes all.
func (l Loss) laid(cloth float64) float64 {
	return cloth/(1+l.Spare)*l.Washed - l.Skew
}

// Along returns where the stretches begin along the cloth when their markers
// have these lengths, from where the first one does, and where the last one ends,
// mm, each with its ends. Between two of them the gap is kept, and on a cloth with
// a repeat each begins on a whole one.
func (t Task) Along(lengths []float64) (from []float64, end float64) {
	ends, gap, repeat := t.Spread.Cloth.Ends, t.Problem.Gap, t.Problem.Strip.Repeat.Along
	for i, s := range t.Stretches {
		if i > 0 {
			end += max(0, gap-2*ends)
			if repeat > 0 {
				end = math.Ceil(end/repeat) * repeat
			}
		}
		from = append(from, end)
		end += s.Cloth(lengths[i]) + float64(s.Layers())*2*ends
	}
	return from, end
}

// Needed returns the length of cloth that the stretches take when their markers
// have these lengths, with ends, skew, shrinkage and spare, mm.
func (t Task) Needed(lengths []float64) float64 {
	_, laid := t.Along(lengths)
	return LossOf(t.Spread.Cloth).Needed(laid)
}

// buy returns what is bought for a length needed in one piece. Bought never falls
// when more is needed; where the offer fails the needed length stands in.
func (t Task) buy(needed float64) (cost.Purchase, error) {
	p, err := t.Spread.Cloth.Offer.Buy(needed)
	if err != nil {
		p.Bought = needed
	}
	return p, err
}

// Bought returns the length bought when the markers of the stretches have these
// lengths: the one function that layouts and bounds go through.
func (t Task) Bought(lengths []float64) float64 {
	p, _ := t.buy(t.Needed(lengths))
	return p.Bought
}

// LengthsOf lists the used lengths of results, and their bounds.
func LengthsOf(results []nest.Result) (used, least []float64) {
	for _, r := range results {
		used, least = append(used, r.Layout.Length), append(least, r.Bound.Length)
	}
	return used, least
}
