package paper

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/sheet"
)

// Whatever lies on the marker: steps go forward to its end, nothing between them is left
// out, and each piece that is shorter than the table lies whole in exactly one count.
func TestSteps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		end := rapid.Float64Range(100, 9000).Draw(t, "end")
		table := rapid.Float64Range(MinTable-80, 2000).Draw(t, "table")
		m := sheet.FullSize{Cloth: orb.Bound{Max: orb.Point{end, 1000}}}
		short := 0
		for range rapid.IntRange(0, 14).Draw(t, "pieces") {
			from := rapid.Float64Range(0, end).Draw(t, "from")
			b := orb.Bound{Min: orb.Point{from, 0},
				Max: orb.Point{math.Min(end, from+rapid.Float64Range(1, 1.4*table).Draw(t, "long")), 10}}
			m.Pieces = append(m.Pieces, b)
			if b.Max[0]-b.Min[0]+stepRoom <= table {
				short++
			}
		}
		list, whole := stepsOf(m, table), 0
		for i, s := range list {
			if s.to-s.from > table+1e-9 {
				t.Fatalf("step %d of %v is longer than the table", i, list)
			}
			if i > 0 && s.from <= list[i-1].from {
				t.Fatalf("step %d of %v goes back", i, list)
			}
			whole += s.whole
		}
		for _, b := range m.Pieces {
			fits, reached := false, b.Min[0]
			for _, s := range list {
				fits = fits || s.from <= b.Min[0] && b.Max[0] <= s.to+1e-9
				if s.from <= reached+1e-9 && s.to > reached {
					reached = s.to
				}
			}
			if b.Max[0]-b.Min[0]+stepRoom <= table && !fits {
				t.Fatalf("%v lies whole in none of %v", b, list)
			}
			if reached < b.Max[0]-1e-9 {
				t.Fatalf("%v is shown only up to %g by %v", b, reached, list)
			}
		}
		if whole < short || whole > len(m.Pieces) {
			t.Fatalf("%d whole pieces are counted of %d, %d of them short", whole, len(m.Pieces), short)
		}
	})
}

func TestProjectorIsChecked(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, side := range []float64{0, -1, MinPicture - 1, MaxPicture + 1, nan, inf} {
		if CheckProjector(side, 800) == nil || CheckProjector(800, side) == nil {
			t.Errorf("a picture of %g passes", side)
		}
	}
	for _, side := range []float64{0, -1, MinTable - 1, MaxPicture + 1, nan, inf} {
		if CheckTable(side) == nil {
			t.Errorf("a table of %g passes", side)
		}
	}
	for _, width := range []float64{0, -1, MinRoll - 1, MaxRoll + 1, nan, inf} {
		if CheckRoll(width) == nil {
			t.Errorf("a roll of %g passes", width)
		}
	}
	if CheckProjector(MinPicture, MaxPicture) != nil || CheckTable(MinTable) != nil || CheckRoll(MinRoll) != nil {
		t.Error("the limits themselves are refused")
	}
}
