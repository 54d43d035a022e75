package outline

import (
	"fmt"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// An outline that is drawn a second time is one piece, however it was drawn then: from any corner, either
// way round, with points on the way that the first one has not, its numbers rounded otherwise.
func TestWhatIsDrawnTwiceIsOnePiece(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		corners := orb.LineString{{0, 0}, {300, 0}, {330, 200}, {150, 260}, {0, 200}}
		slip := rapid.Float64Range(-.004, .004)
		draw := func() Line {
			var line orb.LineString
			for i, p := range corners {
				line = append(line, orb.Point{p[0] + slip.Draw(rt, "x"), p[1] + slip.Draw(rt, "y")})
				for range rapid.IntRange(0, 2).Draw(rt, "on the way") {
					a, b := line[len(line)-1], corners[(i+1)%len(corners)]
					line = append(line, between(a, b, rapid.Float64Range(.1, .9).Draw(rt, "share")))
				}
			}
			k := rapid.IntRange(0, len(line)-1).Draw(rt, "begun")
			line = append(append(slices.Clone(line[k:]), line[:k]...), line[k])
			if rapid.Bool().Draw(rt, "back") {
				line.Reverse()
			}
			l := Line{Points: line, Closed: true}
			for i := range line {
				l.Corners = append(l.Corners, i)
			}
			return l
		}
		d := Drawing{Unit: Unit{Millimetres: 1}}
		for i := range rapid.IntRange(2, 4).Draw(rt, "times") {
			d.Lines = append(d.Lines, draw())
			d.Lines[i].Place = fmt.Sprintf("line %d", i+1)
		}
		a := assemble(t, Options{}, d)
		if len(a.Shapes) != 1 || len(a.Faults) != len(d.Lines)-1 || a.Faults[0].Kind != Duplicate ||
			a.Shapes[0].Cut != nil {
			rt.Fatalf("drawn %d times: %q", len(d.Lines), seen(a))
		}
	})
	// What only shares its box with another is another.
	for _, other := range []string{"0,0 300,0 300,200 150,199 0,200 z", "0,0 300,200 0,200 z", "0,0 300,200"} {
		if a := assemble(t, Options{}, drawn(t, sheet, other)); slices.ContainsFunc(a.Faults, func(f Fault) bool {
			return f.Kind == Duplicate
		}) {
			t.Errorf("%s is taken for %s", other, sheet)
		}
	}
}
