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

// carrying is a back with all that a piece carries at full size.
func carrying() Pattern {
	return Pattern{Name: "back", Facts: facts[:2], Fold: orb.LineString{{0, 0}, {400, 0}},
		Matches: []Match{{"C", orb.Point{100, 200}}}, Squares: []Square{{50, "50 mm"}},
		Outline: Outline{Cut: Box(0, 0, 400, 300), Seam: Box(15, 15, 385, 285),
			Grain:  orb.LineString{{60, 60}, {340, 60}},
			Inside: []orb.LineString{{{385, 130}, {200, 150}, {385, 170}}, {{60, 250}, {360, 250}}}, Darts: []int{0},
			Names:   []LineName{{1, "net"}},
			Notches: []Notch{{At: orb.Point{15, 100}, Outward: orb.Point{-1, 0}, Note: "1/3"}}}}
}

// A piece that is turned is turned as a whole: each line, each shape and each word that stands in it is where the turn
// takes it, by quarter turns written out here; words turn on by half a turn where they would be upside down.
func TestEverythingTurnsWithItsPiece(t *testing.T) {
	f := carrying().Full()
	plain := f.Group(plane.Pose{}, orb.Point{})
	const ox, oy, dx, dy = 30.0, 2000, 1000, 700
	for turn, onto := range map[float64]func(x, y float64) orb.Point{ // of a drawing, y down
		0:   func(x, y float64) orb.Point { return orb.Point{ox + dx + x, oy - dy + y} },
		90:  func(x, y float64) orb.Point { return orb.Point{ox + dx + y, oy - dy - x} },
		180: func(x, y float64) orb.Point { return orb.Point{ox + dx - x, oy - dy - y} },
		270: func(x, y float64) orb.Point { return orb.Point{ox + dx - y, oy - dy + x} },
	} {
		g := f.Group(plane.Pose{Turn: turn, At: orb.Point{dx, dy}}, orb.Point{ox, oy})
		if g.Title != "back" || len(g.Items) != len(plain.Items) {
			t.Fatalf("turned by %g it is %q with %d items", turn, g.Title, len(g.Items))
		}
		kinds := map[string]int{}
		for i := range len(f.items) + 1 { // what is marked, and the test square
			var from, to []orb.Point
			switch it := plain.Items[i].(type) {
			case Shape:
				from, to = it.Ring, g.Items[i].(Shape).Ring
			case Line:
				from, to = it.Path, g.Items[i].(Line).Path
			case Text:
				now := g.Items[i].(Text)
				from, to = []orb.Point{it.At}, []orb.Point{now.At}
				if math.Abs(math.Remainder(now.Turn-it.Turn-turn, 180)) > 1e-9 || now.Turn > 90 || now.Turn <= -90 {
					t.Errorf("turned by %g: %q is turned from %g to %g", turn, it.Body, it.Turn, now.Turn)
				}
			}
			kinds[fmt.Sprintf("%T", plain.Items[i])]++
			for k, p := range from {
				if want := onto(p[0], p[1]); planar.Distance(want, to[k]) > 1e-9 {
					t.Fatalf("turned by %g: %T %d is drawn at %v, not at %v", turn, plain.Items[i], i, to[k], want)
				}
			}
		}
		if kinds["sheet.Text"] < 3 || kinds["sheet.Line"] < 5 || kinds["sheet.Shape"] < 5 {
			t.Errorf("%v is no test of all kinds", kinds)
		}
		// the words of the piece and of the square stand about the places that the turn takes them to
		for body, lines := range map[string][]string{"back": append([]string{"back"}, facts[:2]...),
			"square": {"test square", "50 mm"}} {
			if was, is := centre(plain, lines), centre(g, lines); planar.Distance(onto(was[0], was[1]), is) > 1e-6 {
				t.Errorf("turned by %g: the words of the %s stand at %v", turn, body, is)
			}
		}
	}
}

// centre is the middle of the places of some words.
func centre(g Group, lines []string) orb.Point {
	var all orb.MultiPoint
	for _, w := range words(g) {
		if slices.Contains(lines, w.Body) {
			all = append(all, w.At)
		}
	}
	return all.Bound().Center()
}

// squareOf is the ring of the test square in a group; nil where there is none.
func squareOf(g Group) orb.LineString {
	for _, it := range g.Items {
		if l, ok := it.(Line); ok && l.Role == RoleDim && len(l.Path) == 5 {
			return l.Path
		}
	}
	return nil
}

// The first test square that has room is drawn as large as it says, with its words in it, clear of all else.
func TestTestSquaresAreAsLargeAsTheySay(t *testing.T) {
	squares := []Square{{100, "100 mm"}, {50, "50 mm"}, {20, "20 mm"}}
	for _, c := range []struct {
		cut  orb.Ring
		want float64
	}{{Box(0, 0, 400, 300), 100}, {Box(0, 0, 260, 90), 50}, {Box(0, 0, 260, 45), 20}, {Box(0, 0, 300, 12), 0}} {
		p := Pattern{Name: "back", Squares: squares, Outline: Outline{Cut: c.cut,
			Inside: []orb.LineString{{{130, 5}, {130, 10}}}}}
		f := p.Full()
		g := f.Group(plane.Pose{}, orb.Point{})
		ring := squareOf(g)
		if c.want == 0 {
			if ring != nil {
				t.Errorf("%v has a square: %v", c.cut, ring)
			}
			continue
		}
		if len(ring) != 5 || ring[0] != ring[4] {
			t.Fatalf("%v: the square is %v", c.cut, ring)
		}
		b := ring.Bound()
		for axis := range 2 {
			if math.Abs(b.Max[axis]-b.Min[axis]-c.want) > 1e-9 {
				t.Errorf("a square of %g is %v", c.want, ring)
			}
		}
		for i, v := range ring {
			if !planar.RingContains(upsideDown(c.cut), v) {
				t.Errorf("corner %d of the square lies outside: %v", i, v)
			}
		}
		said := ""
		for _, w := range words(g) {
			box := textBox(w).Bound()
			inside := b.Contains(box.Min) && b.Contains(box.Max)
			if square := w.Body == "test square" || strings.HasSuffix(w.Body, " mm"); square != inside {
				t.Errorf("%q stands at %v, the square is %v", w.Body, box, b)
			} else if square {
				said += w.Body + "; "
			} else if b.Intersects(box) {
				t.Errorf("the square runs through %q", w.Body)
			}
		}
		if want := fmt.Sprintf("test square; %g mm; ", c.want); said != want {
			t.Errorf("the square says %q, not %q", said, want)
		}
		without := f.WithoutSquare().Group(plane.Pose{}, orb.Point{})
		if squareOf(without) != nil || len(without.Items) != len(g.Items)-3 {
			t.Error("without its square the piece has one, or lacks something else")
		}
	}
}

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
