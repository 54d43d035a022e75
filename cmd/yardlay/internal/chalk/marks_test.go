package chalk

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// A notch lies where its words put it, and lines inside keep to what they mark.
func TestMarksKeepTheirPlaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tape, ring := tapes(t), outline(t)
		i := rapid.IntRange(1, len(ring)-1).Draw(t, "side")
		p := between(ring[i-1], ring[i], rapid.Float64Range(0, 1).Draw(t, "share"))
		b := plane.Bounds(ring)
		mark := orb.LineString{b.Min, between(b.Min, b.Max, rapid.Float64Range(0.2, 0.8).Draw(t, "apex")), b.Max}
		hole := plane.Arc(between(b.Min, b.Max, 0.5), rapid.Float64Range(20, 200).Draw(t, "hole"), 0, 2*math.Pi, 0.05)
		f, err := tape.Figure(Outline{Cut: ring, Notches: []orb.Point{p},
			Inside: []Inside{{"dart", mark}, {"hole", hole}}}, table)
		if err != nil {
			t.Fatal(err)
		}
		got, ok := tape.NotchAt(f, f.Notches[0])
		if !ok || distance(got, p) > tape.Tolerance()+1e-9 {
			t.Errorf("notch at %v, drawn at %v", p, got)
		}
		for k, line := range [][]orb.Point{mark, hole} {
			var drawn []orb.Point
			for _, s := range f.Marks[k].Strokes {
				drawn = append(drawn, tape.Path(f, s)...)
			}
			if off := slowlyApart(drawn, line, 2); off > tape.Tolerance()+0.02 {
				t.Errorf("%s drawn %.2f mm off", f.Marks[k].Name, off)
			}
		}
	})
}

// Figures that stand in a row keep a gap, their order, and their places where there is room;
// no other row that does lies nearer to where they belong.
func TestSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const gap = 3.0
		want := rapid.SliceOfN(rapid.Float64Range(0, 40), 1, 16).Draw(t, "places")
		slices.Sort(want)
		got := spread(want, gap)
		cost := func(row []float64) (sum float64) {
			for i := range row {
				sum += (row[i] - want[i]) * (row[i] - want[i])
			}
			return sum
		}
		for i := 1; i < len(got); i++ {
			if got[i]-got[i-1] < gap-1e-9 {
				t.Fatalf("%v stand too close: %v", want, got)
			}
		}
		between := within(slices.Clone(got), 0, 40, gap)
		if (between == nil) != (float64(len(want)-1)*gap > 40) {
			t.Fatalf("%v between 0 and 40: %v", want, between)
		}
		for i, v := range between {
			if v < 0 || v > 40 || i > 0 && v-between[i-1] < gap-1e-9 {
				t.Fatalf("%v between 0 and 40: %v", want, between)
			}
		}
		for range 50 {
			other := slices.Clone(got)
			for i := range other {
				other[i] += rapid.Float64Range(-2, 2).Draw(t, "nudge")
				if i > 0 {
					other[i] = max(other[i], other[i-1]+gap)
				}
			}
			if cost(other) < cost(got)-1e-6 {
				t.Fatalf("%v lies nearer to %v than %v", other, want, got)
			}
		}
	})
}

// rectangle is a piece that is read at a glance.
func rectangle(name string, x, y, l, w float64) Piece {
	ring := orb.Ring{{x, y}, {x + l, y}, {x + l, y + w}, {x, y + w}, {x, y}}
	return Piece{Name: name, Size: "10 x 4 in", Outline: Outline{Cut: ring,
		Notches: []orb.Point{{x + l/4, y}}, Points: []Named{{"side seams", orb.Point{x + l/2, y + w/2}}}}}
}

// sample is a lay of a strip on a fold and a disc with a dart.
func sample(t *testing.T) Marker {
	t.Helper()
	strip := rectangle("strip", 254, 0, 254, 101.6)
	strip.Outline.Fold = orb.LineString{{260, 0}, {500, 0}}
	disc := Piece{Name: "disc", Copy: "left", Outline: Outline{
		Cut:    orb.Ring(plane.Arc(orb.Point{152.4, 254}, 101.6, 0, 2*math.Pi, 0.05)),
		Inside: []Inside{{"dart", orb.LineString{{100, 250}, {150, 254}, {100, 258}}}}}}
	l := Marker{Name: "the end of the roll", Begins: 1000, Edge: "fold", Double: "Two layers.", On: "On steps.",
		Cloth: orb.Bound{Max: orb.Point{1000, 700}}, Used: 508, Pieces: []Piece{strip, disc}}
	if err := l.Figure(Tape{measure.Inch}); err != nil {
		t.Fatal(err)
	}
	return l
}

func TestTextOfALay(t *testing.T) {
	const want = `The end of the roll
Draw a line straight across, 39 3/8 from the cut end: it is the cut end of
this marker.
Pieces: 2, within 20 of the cut end. Across is measured from the fold.
Two layers.
On steps.

1. disc, left
   point     from cut end         from fold
   1              3 15/16           9 13/16
   2                5 7/8                10
   3              3 15/16           10 3/16
   P                    6                10
   about P   circle about P, string 4
   1 to 2    dart: straight, 1 15/16 long
   2 to 3    dart: straight, 1 15/16 long

2. strip, 10 x 4 in
   point     from cut end         from fold
   1                   10                 0
   2                   20                 0
   3                   20                 4
   4                   10                 4
   1 to 2    on the fold, not cut, 10 long
   2 to 3    straight, 4 long
   3 to 4    straight, 10 long
   4 to 1    straight, 4 long
   notch     on 1 to 2, 2 1/2 straight from 1
   match     side seams: 15 from the cut end, 2 from the edge
`
	got := sample(t).Text(Tape{measure.Inch})
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}
