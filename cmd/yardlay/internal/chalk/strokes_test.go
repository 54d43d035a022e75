package chalk

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// A piece has the same figures wherever its ring begins; its table begins at its sharpest corner, of several the one
// nearest to the cut end, then to the edge.
func TestFiguresDoNotDependOnWhereTheRingBegins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tape := tapes(t)
		l, w := float64(rapid.IntRange(60, 900).Draw(t, "long")), float64(rapid.IntRange(60, 900).Draw(t, "wide"))
		x, y := float64(rapid.IntRange(0, 90).Draw(t, "x")), float64(rapid.IntRange(0, 90).Draw(t, "y"))
		ring := orb.Ring{{x, y}, {x + l, y}, {x + l, y + w}, {x + l/2, y + w + 30}, {x, y + w}}
		if rapid.Bool().Draw(t, "rounded") { // no corner at the lower right
			ring = slices.Concat(ring[:1], orb.Ring(plane.Arc(orb.Point{x + l - 40, y + 40}, 40, -math.Pi/2, 0, 0.05)), ring[2:])
		}
		at := rapid.IntRange(0, len(ring)-1).Draw(t, "begins")
		turned := slices.Concat(ring[at:], ring[:at])
		f, err := tape.Figure(Outline{Cut: append(turned, turned[0])}, table)
		if err != nil {
			t.Fatal(err)
		}
		want, _ := tape.Figure(Outline{Cut: append(slices.Clone(ring), ring[0])}, table)
		if got, want := fmt.Sprint(f), fmt.Sprint(want); got != want {
			t.Fatalf("beginning at corner %d:\n%s\nnot\n%s", at, got, want)
		}
		if f.Places[0] != tape.round(ring[0]) {
			t.Fatalf("the table begins at %v, not at %v", f.Places[0], tape.round(ring[0]))
		}
	})
}

// A corner that is asked for is the first of the table, whichever of them it is; one that is none of them is not.
func TestTheTableBeginsWhereAsked(t *testing.T) {
	tape := Tape{measure.Millimetre}
	ring := orb.Ring{{10, 20}, {300, 20}, {320, 200}, {10, 180}, {10, 20}}
	for i, v := range ring[:4] {
		f, err := tape.Figure(Outline{Cut: ring, First: &v}, table)
		if err != nil || f.Places[0] != tape.round(v) || f.Places[1] != tape.round(ring[i+1]) {
			t.Errorf("asked for %v it begins %v: %v", v, f.Places, err)
		}
	}
	if f, _ := tape.Figure(Outline{Cut: ring, First: &orb.Point{320, 200.02}}, table); f.Places[0] != tape.round(ring[0]) {
		t.Errorf("it begins at %v", f.Places[0])
	}
}

// A curve that bends by half a millimetre is drawn along a ruler; one that bends by more is measured off, though the
// ruler would do.
func TestBentLinesAreNotStraight(t *testing.T) {
	for bend, want := range map[float64]Kind{0.1: Straight, 0.45: Straight, 0.55: Off, 1.2: Off, 3: Off} {
		var line []orb.Point
		for i := range 41 {
			x := 400 * float64(i) / 40
			line = append(line, orb.Point{100 + x, 100 - bend*math.Sin(math.Pi*x/400)})
		}
		w := writer{tape: Tape{measure.Inch}, cloth: table}
		if all := w.measured(section{kind: curve, line: line}); len(all) != 1 || all[0].Kind != want || !w.holds(all[0]) {
			t.Errorf("bent by %v mm it is drawn as %+v", bend, all)
		}
	}
}

// Steps off a straight line are those before its end, to the right of the way with a plus; a step that ends with the
// line, or within a mark of it, is none.
func TestStepsEndBeforeTheLine(t *testing.T) {
	tape := Tape{measure.Millimetre}
	line := []orb.Point{{0, 0}, {100, -10}, {150, -20}, {200, 0}}
	for _, c := range []struct {
		step Marks
		want []Marks
	}{{100, []Marks{10}}, {50, []Marks{5, 10, 20}}, {20, []Marks{2, 4, 6, 8, 10, 14, 18, 16, 8}}, {200, nil}, {199, nil},
		{198, []Marks{1}}, {150, []Marks{20}}} {
		if got := tape.offsets(Place{0, 0}, Place{200, 0}, c.step, line); !slices.Equal(got, c.want) {
			t.Errorf("every %d: %v, want %v", c.step, got, c.want)
		}
	}
	if got := tape.offsets(Place{3, 3}, Place{3, 3}, 5, line); got != nil {
		t.Errorf("along nothing: %v", got)
	}
	for unit, want := range map[measure.Unit]string{measure.Inch: "8 4 2 1 1/2 1/4", measure.Centimetre: "20 10 5 2 1 0.5",
		measure.Millimetre: "200 100 50 20 10 5"} {
		var said []string
		for _, s := range (Tape{unit}).steps() {
			said = append(said, strings.ReplaceAll((Tape{unit}).Show(s), ".0", ""))
		}
		if got := strings.Join(said, " "); got != want {
			t.Errorf("steps are %s, not %s", got, want)
		}
	}
}

// Of half a disc on a fold the straight side alone lies on it; what runs beside the fold, or across it, does not.
func TestWhatLiesOnTheFold(t *testing.T) {
	tape := Tape{measure.Millimetre}
	ring := orb.Ring(plane.Arc(orb.Point{500, 0}, 200, 0, math.Pi, 0.05))
	ring = append(ring, ring[0])
	for _, c := range []struct {
		fold orb.LineString
		want int
	}{{orb.LineString{{350, 0}, {400, 0}}, 1}, {orb.LineString{{400, 0}, {350, 0}}, 1}, {nil, 0},
		{orb.LineString{{350, 0}}, 0}, {orb.LineString{{350, 0.02}, {400, 0.02}}, 0},
		{orb.LineString{{500, 0}, {500, 90}}, 0},
		{orb.LineString{{300, 0}, {700, 0.5}}, 0}} {
		f, err := tape.Figure(Outline{Cut: ring, Fold: c.fold}, table)
		if err != nil {
			t.Fatal(err)
		}
		on, arcs := 0, 0
		for _, s := range f.Outline {
			switch s.Kind {
			case OnFold:
				on++
				if a, b := f.Places[s.From], f.Places[s.To]; a[1] != 0 || b[1] != 0 {
					t.Errorf("fold %v: %v to %v lies on it", c.fold, a, b)
				}
			case Arc:
				arcs++
			}
		}
		if on != c.want || arcs < 2 {
			t.Errorf("fold %v: %d strokes on it, %d arcs", c.fold, on, arcs)
		}
	}
}

// A notch is measured from the nearer end of the line that it is on, or put at a place, whichever end that is.
func TestNotchesAreMeasuredFromTheNearerEnd(t *testing.T) {
	tape := Tape{measure.Millimetre}
	ring := orb.Ring{{0, 0}, {400, 0}, {400, 300}, {0, 300}, {0, 0}}
	for _, c := range []struct {
		at           orb.Point
		stroke, from int
		distance     Marks
		words        string
	}{
		{at: orb.Point{90, 0}, stroke: 0, from: 0, distance: 90, words: "on 1 to 2, 90 straight from 1"},
		{at: orb.Point{310, 0}, stroke: 0, from: 1, distance: 90, words: "on 1 to 2, 90 straight from 2"},
		{at: orb.Point{400, 299.4}, stroke: 1, from: 2, distance: 0, words: "at 3"},
		{at: orb.Point{0, 100}, stroke: 3, from: 0, distance: 100, words: "on 4 to 1, 100 straight from 1"},
		{at: orb.Point{0, 200}, stroke: 3, from: 3, distance: 100, words: "on 4 to 1, 100 straight from 4"},
	} {
		f, err := tape.Figure(Outline{Cut: ring, Notches: []orb.Point{c.at}}, table)
		if err != nil {
			t.Fatal(err)
		}
		n, words := f.Notches[0], f.notchWords(tape, f.Notches[0])
		if n.Stroke != c.stroke || n.From != c.from || n.Distance != c.distance || words != c.words {
			t.Errorf("%v: %+v, %q", c.at, n, words)
		}
	}
	// A line that comes back near its end: no distance from there tells one place of it from another.
	f := Figures{Places: []Place{{0, 0}, {400, 0}}, Outline: []Stroke{{From: 0, To: 1}},
		Notches: []Notch{{Stroke: 0, From: -1, At: Place{33, 4}}}}
	if p, ok := tape.NotchAt(f, f.Notches[0]); !ok || p != (orb.Point{33, 4}) ||
		f.notchWords(tape, f.Notches[0]) != "on 1 to 2, 33 from the cut end, 4 from the edge" {
		t.Errorf("a notch at a place lies at %v: %v", p, ok)
	}
	if p, ok := tape.NotchAt(f, Notch{Stroke: 0, From: 0, Distance: 500}); ok {
		t.Errorf("a notch beyond its line lies at %v", p)
	}
}

// A circle is drawn about its pivot, all of it, and has no places; where the pivot lies off the cloth it is drawn by
// arcs measured off straight lines.
func TestCirclesNeedTheirPivotOnTheCloth(t *testing.T) {
	tape := Tape{measure.Millimetre}
	disc := orb.Ring(plane.Arc(orb.Point{300, 250}, 200, 0, 2*math.Pi, 0.05))
	f, err := tape.Figure(Outline{Cut: disc}, table)
	if err != nil || len(f.Outline) != 1 || f.Outline[0].Kind != Circle || len(f.Places) != 0 || f.corners() != 0 ||
		f.Pivots[0] != (Place{300, 250}) || f.Outline[0].Radius != 200 {
		t.Errorf("%+v: %v", f, err)
	}
	if c := Corner(disc); distance(c, orb.Point{300, 250}) > 0.001 {
		t.Errorf("a circle is placed by %v", c)
	}
	f, err = tape.Figure(Outline{Cut: disc}, orb.Bound{Min: orb.Point{310, 0}, Max: orb.Point{900, 900}})
	if err != nil || len(f.Pivots) != 0 || len(f.Outline) < 5 {
		t.Fatalf("%+v: %v", f, err)
	}
	for _, s := range f.Outline {
		if s.Kind != Off || s.Radius != 200 {
			t.Errorf("%+v", s)
		}
	}
	rebuilt := tape.Rebuild(f)
	if rebuilt[0] != rebuilt[len(rebuilt)-1] || math.Abs(planar.Area(rebuilt)-math.Pi*200*200) > 2*math.Pi*200 {
		t.Errorf("drawn from its figures it has an area of %v mm²", planar.Area(rebuilt))
	}
}

// Arcs about one centre share a pivot, those about two have one each, named apart.
func TestArcsAboutOneCentreShareTheirPivot(t *testing.T) {
	tape := Tape{measure.Inch}
	sector := func(inner orb.Point) orb.Ring {
		ring := slices.Concat(plane.Arc(orb.Point{400, 400}, 300, -0.6, 0.6, 0.05), plane.Arc(inner, 120, 0.6, -0.6, 0.05))
		return orb.Ring(append(ring, ring[0]))
	}
	for off, want := range map[float64]int{0: 1, 1: 1, 40: 2} {
		f, err := tape.Figure(Outline{Cut: sector(orb.Point{400 - off, 400})}, table)
		if err != nil {
			t.Fatal(err)
		}
		var labels []string
		for i := range f.Pivots {
			labels = append(labels, f.PivotLabel(i))
		}
		if got := strings.Join(labels, " "); len(labels) != want || got != map[int]string{1: "P", 2: "P1 P2"}[want] {
			t.Errorf("centres %v mm apart: pivots %q", off, got)
		}
	}
}
