package bound_test

import (
	"context"
	"slices"
	"sort"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/benchmarks/often"
	"yardlay/nest/bound"
)

// zoneCost is what a forbidden zone takes of the lines where it lies, without
// what sticks out of the cloth: line by line, closely spaced between each two
// borders of the prices and corners of the zone, where nothing jumps.
func zoneCost(c bound.Certificate, zone orb.Ring, line float64) float64 {
	t := 1
	if c.Axis == bound.LinesAcross {
		t = 0
	}
	stops := slices.Clone(c.Borders)
	for _, v := range zone {
		if v[t] > c.Borders[0] && v[t] < c.Borders[len(c.Borders)-1] {
			stops = append(stops, v[t])
		}
	}
	slices.Sort(stops)
	total := 0.0
	for n := 1; n < len(stops); n++ {
		const samples = 500
		step := (stops[n] - stops[n-1]) / samples
		k := max(sort.SearchFloat64s(c.Borders, stops[n])-1, 0)
		for at := range samples {
			covered := 0.0
			cuts := cutsOf(nil, zone, t, stops[n-1]+(float64(at)+0.5)*step)
			for i := 1; i < len(cuts); i += 2 {
				covered += max(0, min(cuts[i], line)-max(cuts[i-1], 0))
			}
			for i, f := range c.Functions {
				total += c.Prices[i][k] * image(f, covered/line) * step
			}
		}
	}
	return total
}

// TestZonesChecked: certificates that count forbidden zones, upright, aslant,
// sticking out of the cloth, and two of them, with and without a gap asked for.
func TestZonesChecked(t *testing.T) {
	zones := [][]orb.Ring{
		{ring(60, -5, 70, -5, 70, 105, 60, 105)},
		{ring(40, 20, 90, 50, 40, 80)},
		{ring(-10, 60, 50, 60, 50, 120, -10, 120), ring(100, 10, 140, 10, 120, 60)},
	}
	pieces := [][]bound.Piece{
		{turned("panel", 3, ring(0, 0, 50, 0, 50, 100, 0, 100), 0)},
		{turned("panel", 4, ring(0, 0, 50, 0, 50, 60, 0, 60), 0),
			turned("wedge", 4, ring(0, 0, 70, 0, 20, 40), 0, 180)},
		{turned("corner", 5, ring(0, 0, 60, 0, 60, 20, 25, 20, 25, 45, 0, 45), 0, 180)},
	}
	kinds := make(map[bound.Kind]int)
	for i, z := range zones {
		for k, some := range pieces {
			for _, gap := range often.Jobs([]float64{2 * float64(i%2)}[:(i+k+1)%2], []float64{0, 2}) {
				p := bound.Problem{Width: 100, Gap: gap, Forbidden: z, Pieces: some}
				for _, b := range bound.Lower(context.Background(), p) {
					kinds[b.Kind]++
					check(t, p, b)
				}
			}
		}
	}
	if kinds[bound.Chords] == 0 || kinds[bound.Prices] == 0 {
		t.Errorf("kinds that did not come up: %v", kinds)
	}
}
