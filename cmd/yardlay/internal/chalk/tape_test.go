package chalk

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// Lengths are rounded to the nearest mark, marks are read back as they were, and rounding a
// place moves it by 0.71 marks at the most.
func TestTapeRounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tape := tapes(t)
		mark := 1.0
		if tape.Unit == measure.Inch {
			mark = 25.4 / 16
		}
		mm := rapid.Float64Range(-50, 20_000).Draw(t, "mm")
		if n := tape.Round(mm); math.Abs(tape.MM(n)-mm) > mark/2+1e-9 || tape.Round(tape.MM(n)) != n {
			t.Fatalf("%v mm is rounded to %d marks, %v mm", mm, n, tape.MM(n))
		}
		p := orb.Point{mm, rapid.Float64Range(0, 1500).Draw(t, "y")}
		if d := distance(tape.point(tape.round(p)), p); d > 0.7072*mark || tape.Tolerance() < d {
			t.Fatalf("%v is rounded by %.3f mm of a mark of %v", p, d, mark)
		}
		text := strings.ReplaceAll(tape.Show(tape.Round(math.Abs(mm))), noBreak, " ")
		back, err := measure.Parse(text+" "+tape.Unit.String(), tape.Unit)
		if err != nil || math.Abs(back-tape.MM(tape.Round(math.Abs(mm)))) > 1e-6 {
			t.Fatalf("%v mm is shown as %q, %v mm (%v)", mm, text, back, err)
		}
	})
}

// Steps of places and of curves fall on marks; the widest come first and the narrowest is
// still wider than what may be off.
func TestStepsFallOnMarks(t *testing.T) {
	for _, unit := range []measure.Unit{measure.Inch, measure.Centimetre, measure.Millimetre} {
		tape := Tape{unit}
		if off := math.Abs(tape.MM(tape.Round(tape.Step())) - tape.Step()); off > 1e-9 {
			t.Errorf("%v: the step %v mm lies %v mm off a mark", unit, tape.Step(), off)
		}
		if tape.Gap() < 2*tape.Tolerance() || tape.Gap() > tape.Step() {
			t.Errorf("%v: a gap of %v mm for %v mm on either side, on steps of %v", unit, tape.Gap(), tape.Tolerance(),
				tape.Step())
		}
		steps := tape.steps()
		for i, s := range steps {
			if s < 4 || i > 0 && s >= steps[i-1] {
				t.Errorf("%v: steps %v", unit, steps)
			}
		}
	}
}

// Wherever a piece is moved by whole marks its table says the same of its lines, and its
// points lie as much farther: what is drawn does not hang on where it lies.
func TestTablesMoveWithTheirPieces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tape, ring := tapes(t), outline(t)
		b := plane.Bounds(ring)
		side := rapid.IntRange(1, len(ring)-1).Draw(t, "side")
		o := Outline{Cut: ring, Notches: []orb.Point{between(ring[side-1], ring[side], 0.4)},
			Inside: []Inside{{"dart", orb.LineString{b.Min, b.Center(), b.Max}}},
			Points: []Named{{"side seams", between(ring[0], ring[1], 0.5)}}}
		wide := orb.Bound{Min: orb.Point{-4000, -4000}, Max: orb.Point{24_000, 9000}} // its edges are far
		f, err := tape.Figure(o, wide)
		if err != nil {
			t.Fatal(err)
		}
		// 2^-10 mm is what rings lie on: 16 inches and 127 mm are whole marks of all tapes.
		by := orb.Point{406.4 * float64(rapid.IntRange(0, 4).Draw(t, "along")),
			406.4 * float64(rapid.IntRange(0, 2).Draw(t, "across"))}
		if tape.Unit.Metric() {
			by[0], by[1] = math.Round(by[0]), math.Round(by[1])
		}
		moved, kept := o, append(orb.Ring(nil), o.Cut...)
		moved.Move(by)
		if !o.Cut.Equal(kept) {
			t.Fatal("moving an outline moves the one that it was taken from")
		}
		for i, p := range moved.Cut {
			if math.Abs(p[0]-ring[i][0]-by[0])+math.Abs(p[1]-ring[i][1]-by[1]) > 1e-9 {
				t.Fatalf("%v is moved to %v by %v", ring[i], p, by)
			}
		}
		for i, m := range []orb.Point{moved.Points[0].At, moved.Notches[0], moved.Inside[0].Line[1]} {
			was := []orb.Point{o.Points[0].At, o.Notches[0], o.Inside[0].Line[1]}[i]
			if math.Abs(m[0]-was[0]-by[0])+math.Abs(m[1]-was[1]-by[1]) > 1e-9 {
				t.Fatalf("what is marked at %v is moved to %v by %v", was, m, by)
			}
		}
		g, err := tape.Figure(moved, wide)
		if err != nil {
			t.Fatal(err)
		}
		if off := slowlyApart(tape.Rebuild(g), moved.Cut, 2); off > tape.Tolerance()+0.02 {
			t.Fatalf("moved by %v it is drawn %.3f mm off", by, off)
		}
		if len(f.Outline) != len(g.Outline) || len(f.Notches) != len(g.Notches) || len(f.Spots) != len(g.Spots) {
			t.Fatalf("%d lines, %d notches; moved by %v %d and %d", len(f.Outline), len(f.Notches), by, len(g.Outline),
				len(g.Notches))
		}
		for i, p := range g.Spots {
			if at := tape.point(p.At); distance(at, moved.Points[i].At) > tape.Tolerance() {
				t.Fatalf("the match point %v is marked at %v", moved.Points[i].At, at)
			}
		}
	})
}

// The first words of the table are for the tape that it is read with, and each kind of
// line that a table may name is explained.
func TestHowToSpeaksOfTheTape(t *testing.T) {
	for unit, want := range map[measure.Unit][2]string{measure.Inch: {"inches", "1/16 in"},
		measure.Centimetre: {"centimetres", "1 mm"}, measure.Millimetre: {"millimetres", "1 mm"}} {
		said := strings.Join(HowTo(Tape{unit}), "\n")
		for _, w := range want {
			if !strings.Contains(said, w) {
				t.Errorf("%v: nothing about %q in\n%s", unit, w, said)
			}
		}
		for _, other := range []string{"inches", "centimetres", "millimetres"} {
			if other != want[0] && strings.Contains(said, " "+other) {
				t.Errorf("%v: it speaks of %s", unit, other)
			}
		}
		for _, word := range []string{"Points:", "Lines:", "Arcs:", "Curves:", "string"} {
			if !strings.Contains(said, word) {
				t.Errorf("%v: %q is not explained", unit, word)
			}
		}
	}
}

// The text has the title, what chalk costs, how tables are read, each marker with all its
// pieces, and the cautions last; no line is longer than a page is wide.
func TestTextOfADocument(t *testing.T) {
	lay := func(name string) Marker {
		l := Marker{Name: name, Edge: "selvedge", Cloth: table, Used: 900, Pieces: []Piece{
			{Name: "gore", Copy: "left", Size: "40 x 20 in", Outline: Outline{Cut: plane.Bounds(orb.Ring{{500, 0},
				{900, 300}}).ToRing()}},
			{Name: "band", Size: "10 x 4 in",
				Outline: Outline{Cut: plane.Bounds(orb.Ring{{0, 0}, {400, 100}}).ToRing()}}}}
		if err := l.Figure(Tape{measure.Inch}); err != nil {
			t.Fatal(err)
		}
		return l
	}
	d := Document{Tape: Tape{measure.Inch}, Title: "Moth Lane skirt: satin", Mark: "a2b3",
		Date: time.Date(2026, 5, 31, 0, 0, 0, 0, time.UTC), Cost: "laid for chalk it uses 40 in",
		Notes: []string{"Cut the fold open first."}, Cautions: []string{"Guard the blade."},
		Markers: []Marker{lay("length 1 of 2"), lay("length 2 of 2")}}
	text := d.Text()
	rest := text
	for _, want := range []string{"Moth Lane skirt: satin\n", "2026-05-31, mark a2b3", "Laid for chalk it uses 40 in.",
		"Cut the fold open", "Distances are in inches", "Length 1 of 2\n", "1. band, 10 x 4 in\n",
		"2. gore, left, 40 x 20 in\n",
		"Length 2 of 2\n", "1. band", "2. gore", "Guard the blade."} {
		at := strings.Index(rest, want)
		if at < 0 {
			t.Fatalf("%q does not come next in\n%s", want, rest)
		}
		rest = rest[at+len(want):]
	}
	if strings.Contains(text, noBreak) {
		t.Error("a space is left that other programs may show as a sign")
	}
	for line := range strings.Lines(text) {
		if n := len([]rune(strings.TrimRight(line, "\n"))); n > textWidth {
			t.Errorf("%d letters: %q", n, line)
		}
	}
}
