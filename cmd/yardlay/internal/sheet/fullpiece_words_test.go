package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

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
