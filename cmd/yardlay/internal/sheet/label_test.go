package sheet

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// star draws a star-shaped ring, convex or not, of a random size and stretch.
func star(t *rapid.T) orb.Ring {
	n := rapid.IntRange(3, 12).Draw(t, "n")
	size := rapid.Float64Range(20, 1500).Draw(t, "size")
	flat := rapid.Float64Range(0.05, 1).Draw(t, "flat")
	turn := rapid.Float64Range(0, 360).Draw(t, "turn")
	ring := make(orb.Ring, 0, n+1)
	for i := range n {
		a := 2 * math.Pi * float64(i) / float64(n)
		r := size * rapid.Float64Range(0.3, 1).Draw(t, "r")
		ring = append(ring, turned(orb.Point{r * math.Cos(a), flat * r * math.Sin(a)}, turn))
	}
	return append(ring, ring[0])
}

// meets tells whether a segment meets the sides of a box.
func meets(b orb.Ring, p, q orb.Point) bool {
	for i := 1; i < len(b); i++ {
		if plane.SegmentsMeet(b[i-1], b[i], p, q) {
			return true
		}
	}
	return false
}

// inside tells whether a box lies in a ring without touching it: its corners
// do and no edges meet.
func inside(boxRing, ring orb.Ring) bool {
	for _, p := range boxRing {
		if !planar.RingContains(ring, p) {
			return false
		}
	}
	for j := 1; j < len(ring); j++ {
		if meets(boxRing, ring[j-1], ring[j]) {
			return false
		}
	}
	return true
}

// labelCase is a piece to be labelled at a scale.
type labelCase struct {
	o     Outline
	scale float64
	name  string
}

var anyLabelCase = rapid.Custom(func(t *rapid.T) labelCase {
	ring := star(t)
	c, _ := planar.CentroidArea(ring)
	reach := rapid.Float64Range(0, 300).Draw(t, "reach")
	o := Outline{Cut: ring, Grain: orb.LineString{{c[0] - reach, c[1]}, {c[0] + reach, c[1]}}}
	if rapid.Bool().Draw(t, "marked") {
		o.Inside = []orb.LineString{{ring[0], c, ring[len(ring)/2]}}
	}
	return labelCase{o, rapid.Float64Range(1, 40).Draw(t, "scale"),
		rapid.SampledFrom([]string{"loop", "centre back gore", "net overskirt layer 10, strip"}).Draw(t, "name")}
})

func (c labelCase) place() (label, bool) {
	if l, ok := labelled(c.o, blocks(c.name, "left", "34 1/4 x 22 1/4 in"), c.scale); ok {
		return l, true
	}
	return numbered(c.o, 17, "", c.scale)
}

// Wherever a label is placed, its box lies inside the piece, and off the grain
// arrow and marked lines unless it says that it needs a ground.
func TestLabelsLieInsideTheirPieces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyLabelCase.Draw(t, "case")
		l, ok := c.place()
		if !ok {
			return
		}
		b := l.outline()
		if !inside(b, c.o.Cut) {
			t.Fatalf("label %q at %v, size %v, turn %v is not inside %v", l.lines, l.at, l.size, l.turn, c.o.Cut)
		}
		if l.plate {
			return
		}
		for _, line := range append(c.o.Inside, l.grain) {
			for j := 1; j < len(line); j++ {
				if meets(b, line[j-1], line[j]) {
					t.Fatalf("label %q lies across the line %v", l.lines, line)
				}
			}
		}
	})
}

// Of a fixed sample of pieces, some of them slivers at scales where nothing fits,
// three in four or more find a place for their label.
func TestMostLabelsFindAPlace(t *testing.T) {
	const tried = 100
	placed := 0
	for seed := range tried {
		if _, ok := anyLabelCase.Example(seed).place(); ok {
			placed++
		}
	}
	t.Logf("%d of %d labels found a place", placed, tried)
	if placed*4 < tried*3 {
		t.Errorf("only %d of %d labels found a place", placed, tried)
	}
}

func TestLabelOfANarrowPieceIsTurned(t *testing.T) {
	words := blocks("placket facing", "left", "22 x 3 in")
	upright := strip(0, 0, 60, 600, 6)
	l, ok := labelled(upright, words, 10)
	if !ok || l.turn != 90 {
		t.Errorf("in an upright strip the label is turned by %v (%v), want 90", l.turn, ok)
	}
	level := strip(0, 0, 600, 60, 6)
	if l, ok = labelled(level, words, 10); !ok || l.turn != 0 {
		t.Errorf("in a level strip the label is turned by %v (%v), want 0", l.turn, ok)
	}
	slanted := Outline{}
	for _, p := range level.Cut {
		slanted.Cut = append(slanted.Cut, turned(p, -30))
	}
	if l, ok = labelled(slanted, words, 10); !ok || math.Abs(l.turn-30) > 0.01 {
		t.Errorf("in a strip at 30 degrees the label is turned by %v (%v)", l.turn, ok)
	}
}

func TestBlocksKeepEveryWord(t *testing.T) {
	for _, b := range blocks("centre back gore", "left", "34 x 22 in") {
		all := strings.Join(b, " ")
		for _, w := range []string{"centre", "back", "gore", "left", "34 x 22 in"} {
			if !strings.Contains(all, w) {
				t.Errorf("%q lost %q", b, w)
			}
		}
	}
	if b := blocks("", "", ""); b != nil {
		t.Errorf("blocks of nothing: %q", b)
	}
}

// A label breaks between words alone, however long one is beside the others.
func TestBlocksBreakNoWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching("[a-z]{1,14}"), 1, 4).Draw(t, "words")
		for _, b := range blocks(strings.Join(words, " "), "left") {
			for _, got := range strings.Fields(strings.Join(b, " ")) {
				if got != "left" && got != "·" && !slices.Contains(words, got) {
					t.Fatalf("%q breaks a word of %q", b, words)
				}
			}
		}
	})
	if got := blocks("shoulder bow", "left"); !slices.ContainsFunc(got,
		func(b []string) bool { return slices.Equal(b, []string{"shoulder", "bow", "left"}) }) {
		t.Errorf("no block of %q parts its two words", got)
	}
}

// Wrapped lines are no wider than asked and lose nothing but spaces.
func TestWrap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringOf(rapid.RuneFrom([]rune("abWi é½ 漢"))).Draw(t, "s")
		width := rapid.Float64Range(2, 40).Draw(t, "width")
		lines := wrap(s, 1, width)
		for _, l := range lines {
			if textWidth(l, 1) > width {
				t.Fatalf("line %q is %v wide, more than %v", l, textWidth(l, 1), width)
			}
		}
		bare := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if got := bare(strings.Join(lines, "")); got != bare(s) {
			t.Fatalf("%q wrapped to %q", s, lines)
		}
	})
}

// Advance widths in hundredths of the size, read from the faces' own tables
// (hmtx): DejaVu Sans 2.37 and Liberation Sans 2.x, regular.
func TestTextWidthIsNeverShort(t *testing.T) {
	for _, f := range []struct {
		c                  rune
		dejavu, liberation float64
	}{
		{'J', 29.49, 50}, {'I', 29.49, 27.78}, {'F', 57.52, 61.08}, {'?', 53.08, 55.62}, {'D', 77, 72.22}, {'@', 100,
			101.51}, {'-', 36.08, 33.3},
	} {
		if got := textWidth(string(f.c), 100); got < f.dejavu || got < f.liberation {
			t.Errorf("%q is taken for %v wide; it is %v and %v", f.c, got, f.dejavu, f.liberation)
		}
	}
	for c := ' '; c <= '~'; c++ {
		if charWidth[c] == 0 {
			t.Errorf("no width for %q", c)
		}
	}
}
