package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes/plane"
)

// What is said of a notch stands beside it, just inside the seam line, wherever the notch is.
func TestNotesStandBesideTheirNotches(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0, 2*math.Pi).Draw(t, "direction")
		sin, cos := math.Sincos(a)
		const r = 200.0
		var ring orb.Ring
		for i := range 65 {
			s, c := math.Sincos(2 * math.Pi * float64(i%64) / 64)
			ring = append(ring, orb.Point{r * c, r * s})
		}
		n := Notch{At: orb.Point{0.995 * r * cos, 0.995 * r * sin}, Outward: orb.Point{cos, sin},
			Note: rapid.SampledFrom([]string{"1/3", "half", "a quarter"}).Draw(t, "note")}
		g := Pattern{Name: "disc", Outline: Outline{Cut: ring, Notches: []Notch{n}}}.Full().Group(plane.Pose{}, orb.Point{})
		i := slices.IndexFunc(words(g), func(w Text) bool { return w.Body == n.Note })
		if i < 0 {
			t.Fatalf("%q is not said", n.Note)
		}
		box := orb.LineString(textBox(words(g)[i]))
		at := orb.Point{n.At[0], -n.At[1]}
		for _, p := range box {
			if planar.Distance(p, orb.Point{}) > 0.995*r {
				t.Fatalf("%q stands beyond the line at %v", n.Note, p)
			}
		}
		if d := planar.DistanceFrom(box, at); d < 1 || d > 12 {
			t.Fatalf("%q stands %.1f mm from its notch", n.Note, d)
		}
	})
}

// Words beside a small piece are 4 mm away from it, on the side where both take up least, within what they take up
// together; the leader runs from their box to the nearest corner of the piece.
func TestWordsBesideASmallPiece(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wide, high := rapid.Float64Range(4, 120).Draw(t, "wide"), rapid.Float64Range(1, 3).Draw(t, "high")
		if rapid.Bool().Draw(t, "upright") {
			wide, high = high, wide
		}
		p := Pattern{Name: "loop", Facts: facts[:rapid.IntRange(1, len(facts)).Draw(t, "facts")],
			Outline: Outline{Cut: Box(20, 10, 20+wide, 10+high)}}
		f := p.Full()
		g := f.Group(plane.Pose{}, orb.Point{})
		var box orb.Bound
		for i, w := range words(g) {
			b := textBox(w).Bound()
			if i == 0 {
				box = b
			}
			box = box.Union(b)
		}
		piece := upsideDown(p.Cut).Bound()
		dx := max(piece.Min[0]-box.Max[0], box.Min[0]-piece.Max[0])
		dy := max(piece.Min[1]-box.Max[1], box.Min[1]-piece.Max[1])
		if gap := max(dx, dy); gap < 4 || gap > 6 {
			t.Fatalf("the words stand %.2f mm beside the piece", gap)
		}
		takes := upsideDown(f.Takes)
		for _, c := range slices.Concat(box.ToRing(), upsideDown(p.Cut)) {
			if !planar.RingContains(takes, c) && planar.DistanceFrom(orb.LineString(takes), c) > 2*plane.Lattice {
				t.Fatalf("%v lies beyond what is taken up: %v", c, takes)
			}
		}
		w, h := box.Max[0]-box.Min[0]+1, float64(len(words(g)))*3*1.25+1 // lines of 3 mm, room around them
		least := math.Inf(1)
		for _, at := range []orb.Point{{piece.Max[0] + 4, piece.Min[1]}, {piece.Max[0] + 4, piece.Max[1] - h},
			{piece.Min[0], piece.Max[1] + 4}, {piece.Min[0], piece.Min[1] - 4 - h}} {
			both := orb.Ring(slices.Concat(piece.ToRing(), Box(at[0], at[1], at[0]+w, at[1]+h)))
			least = min(least, plane.Area(plane.Hull(both)))
		}
		if area := plane.Area(f.Takes); area > least+0.1 {
			t.Fatalf("they take up %.0f mm², with the words elsewhere %.0f", area, least)
		}
		line := lineOf(g, RoleDim)
		nearest := math.Inf(1)
		for _, v := range upsideDown(p.Cut) {
			q := orb.Point{max(box.Min[0], min(v[0], box.Max[0])), max(box.Min[1], min(v[1], box.Max[1]))}
			nearest = min(nearest, planar.Distance(v, q))
		}
		if len(line) != 2 || !slices.Contains(upsideDown(p.Cut), line[1]) || !box.Pad(1.5).Contains(line[0]) ||
			planar.Distance(line[0], line[1]) > nearest+1 {
			t.Fatalf("the leader runs from %v, the nearest corner is %.1f away", line, nearest)
		}
	})
}

// Texts are set in lines in ever fewer ways, one each first, one line last, all words in order in each of them.
func TestArrangementsOfLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		texts := make([]string, rapid.IntRange(1, 6).Draw(t, "texts"))
		for i := range texts {
			texts[i] = strings.TrimSpace(strings.Repeat(fmt.Sprintf("w%d ", i), rapid.IntRange(1, 7).Draw(t, "words")))
		}
		all := arrangements(texts)
		if !slices.Equal(all[0], texts) || len(all[len(all)-1]) != 1 {
			t.Fatalf("%q", all)
		}
		want := strings.Join(texts, " · ")
		for i, lines := range all[1:] {
			if got := strings.Join(lines, " "); got != want {
				t.Fatalf("%q is set as %q", want, lines)
			}
			if i > 0 && len(lines) >= len(all[i]) {
				t.Fatalf("%q comes behind %q", lines, all[i])
			}
		}
	})
}

// A number stands level within its outline, as large as there is room, and is left out where it has none.
func TestNumbersStandInTheirOutlines(t *testing.T) {
	last := 0.0
	for _, side := range []float64{3, 6, 12, 40} {
		ring := orb.Ring{{0, 0}, {side, 0}, {side, side}, {side * 0.3, side}, {0, 0}}
		items := Numbered(ring, 17)
		if len(items) != 1 {
			t.Fatalf("%d items in %g mm", len(items), side)
		}
		w := items[0].(Text)
		for _, v := range textBox(w) {
			if !planar.RingContains(ring, v) {
				t.Errorf("a number in %g mm reaches %v", side, v)
			}
		}
		if w.Body != "17" || w.Role != RoleHeading || w.Turn != 0 || w.Size < last {
			t.Errorf("in %g mm: %+v, in less %g", side, w, last)
		}
		last = w.Size
	}
	if items := Numbered(Box(0, 0, 0.2, 0.2), 17); items != nil {
		t.Errorf("%v stands in no room", items)
	}
}
