package sheet

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// scans is at how many heights the width of an outline is measured.
const scans = 64

// widths are the longest level chords inside an outline at heights evenly apart. No
// gap between two heights is longer than the chord at any height between them, so
// that most places of a label are ruled out without a look at the outline.
type widths struct {
	from, step float64
	at         [scans]float64
	most       float64 // of at
}

func widthsOf(ring orb.Ring, b orb.Bound) widths {
	w := widths{step: (b.Max[1] - b.Min[1]) / (scans + 1)}
	w.from = b.Min[1] + w.step
	var cross []float64
	for k := range w.at {
		y := w.from + float64(k)*w.step
		cross = cross[:0]
		for i := 1; i < len(ring); i++ {
			if a, b := ring[i-1], ring[i]; (a[1] <= y) != (b[1] <= y) {
				cross = append(cross, a[0]+(y-a[1])/(b[1]-a[1])*(b[0]-a[0]))
			}
		}
		slices.SortFunc(cross, cmp.Compare[float64])
		for i := 1; i < len(cross); i += 2 {
			w.at[k] = max(w.at[k], cross[i]-cross[i-1])
		}
		w.most = max(w.most, w.at[k])
	}
	return w
}

// rules says that no gap of a width, between heights so far apart, is anywhere.
func (w *widths) rules(width, height float64) bool {
	return height > 2*w.step && width > w.most*(1+1e-9)
}

// within returns a length that no gap between two heights is longer than, but for
// noise.
func (w *widths) within(y0, y1 float64) float64 {
	least := math.Inf(1)
	first := max(0, int(math.Ceil((y0-w.from)/w.step)))
	for k := first; k < scans && w.from+float64(k)*w.step <= y1; k++ {
		least = min(least, w.at[k]*(1+1e-9))
	}
	return least
}
