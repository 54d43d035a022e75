package sheet

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/benchmarks/often"
)

// turnedRing is a ring turned about the origin by an angle in radians.
func turnedRing(ring orb.Ring, a float64) orb.Ring {
	sin, cos := math.Sincos(a)
	out := make(orb.Ring, len(ring))
	for i, p := range ring {
		out[i] = orb.Point{p[0]*cos - p[1]*sin, p[0]*sin + p[1]*cos}
	}
	return out
}

// The sign of a fold stands within its piece whichever way that lies: a line beside the edge at its depth, two arrows
// from its ends square to the edge and up to it, and words along it that are read from below or from the right.
func TestTheSignOfAFoldStandsInItsPiece(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		long, wide := rapid.Float64Range(120, 400).Draw(t, "long"), rapid.Float64Range(60, 300).Draw(t, "wide")
		depth, k := rapid.Float64Range(2, 10).Draw(t, "depth"), rapid.Float64Range(0.5, 3).Draw(t, "scale")
		a := float64(rapid.IntRange(-180, 180).Draw(t, "turn")) * math.Pi / 180
		ring := orb.Ring{{0, 0}, {long, 0}, {0.9 * long, wide}, {0, 0.8 * wide}, {0, 0}}
		if rapid.Bool().Draw(t, "other side") {
			for i := range ring {
				ring[i][1] *= -1
			}
		}
		ring = turnedRing(ring, a)
		edge := orb.LineString{ring[0], ring[1]}
		if rapid.Bool().Draw(t, "backward") {
			edge.Reverse()
		}
		items := foldSign(edge, Outline{Cut: ring}, depth, "place on fold", k)
		if len(items) != 6 {
			t.Fatalf("%d items", len(items))
		}
		bracket := items[0].(Line).Path
		if d := planar.Distance(bracket[0], bracket[1]); math.Abs(d-0.76*long) > 1e-6 {
			t.Fatalf("the bracket is %v long beside an edge of %v", d, long)
		}
		for i, p := range bracket {
			shaft, head := items[1+2*i].(Line), items[2+2*i].(Shape)
			if !planar.RingContains(ring, p) || math.Abs(planar.DistanceFrom(edge, p)-depth) > 1e-6 {
				t.Fatalf("end %d of the bracket at %v, %v from the edge", i, p, planar.DistanceFrom(edge, p))
			}
			if shaft.Path[0] != p || math.Abs(planar.Distance(p, shaft.Path[1])-depth) > 1e-6 ||
				planar.DistanceFrom(edge, shaft.Path[1]) > 1e-6 || head.Ring[0] != shaft.Path[1] {
				t.Fatalf("arrow %d runs from %v to %v", i, shaft.Path[0], shaft.Path[1])
			}
			if in := planar.Distance(edge[i], shaft.Path[1]); math.Abs(in-0.12*long) > 1e-6 {
				t.Fatalf("arrow %d ends %v from the end of the edge of %v", i, in, long)
			}
			for _, v := range head.Ring {
				if d := planar.Distance(v, head.Ring[0]); d > min(1.5*k, depth/3)*1.1 || d > 0 && !planar.RingContains(ring, v) {
					t.Fatalf("head %d: %v", i, head.Ring)
				}
			}
			if items[1+2*i].(Line).Role != RoleFold || head.Role != RoleFold {
				t.Fatal("drawn as something else")
			}
		}
		words := items[5].(Text)
		level := words.Turn*math.Pi/180 + math.Atan2(edge[1][1]-edge[0][1], edge[1][0]-edge[0][0])
		if words.Turn <= -90 || words.Turn > 90 || math.Abs(math.Sin(level)) > 1e-9 {
			t.Fatalf("words turned by %v along %v", words.Turn, edge)
		}
		box := textBox(words)
		for _, v := range box {
			if !planar.RingContains(ring, v) || planar.DistanceFrom(edge, v) < depth {
				t.Fatalf("words %v reach beyond the bracket or the piece", box)
			}
		}
		if d := planar.DistanceFrom(edge, words.At); d > depth+words.Size || words.Size > textDim*k+1e-9 {
			t.Fatalf("words of %v stand %v from the edge", words.Size, d)
		}
	})
	if items := foldSign(orb.LineString{{1, 1}, {1, 1}}, Outline{Cut: Box(0, 0, 9, 9)}, 2, "", 1); items != nil {
		t.Errorf("an edge of no length has a sign: %v", items)
	}
}

// Words along a fold make way for a line in their middle, or are left out where lines leave them no room.
func TestWordsOnAFoldMakeWay(t *testing.T) {
	ring := Box(0, 0, 200, 150)
	edge := orb.LineString{{0, 0}, {200, 0}}
	words := func(lines ...orb.LineString) (texts []Text) {
		for _, it := range foldSign(edge, Outline{Cut: ring, Inside: lines}, 5, "place on fold", 2) {
			if w, ok := it.(Text); ok {
				texts = append(texts, w)
			}
		}
		return texts
	}
	plain := words()
	if len(plain) != 1 {
		t.Fatalf("%v", plain)
	}
	crossing := orb.LineString{{plain[0].At[0], 0}, {plain[0].At[0], 150}}
	moved := words(crossing)
	if len(moved) != 1 || touches(textBox(moved[0]), orb.Ring{crossing[0], crossing[1], crossing[0], crossing[1]}) {
		t.Errorf("%v is crossed by %v", moved, crossing)
	}
	var all []orb.LineString
	for x := 1.0; x < 200; x += 3 {
		all = append(all, orb.LineString{{x, 0}, {x, 150}})
	}
	if left := words(all...); len(left) != 0 {
		t.Errorf("%v stand among lines 3 mm apart", left)
	}
}

// The name of a flaw stands in it or next to it, on the cloth, and meets no piece and no other flaw.
func TestNamesOfFlawsStandAtTheirFlaws(t *testing.T) {
	beside := 0
	rapid.Check(t, func(t *rapid.T) {
		s := anyStretch(t)
		s.Flaws = nil
		top := s.folded() - s.below() - s.above()
		for i := range rapid.IntRange(1, 3).Draw(t, "flaws") {
			w, h := rapid.Float64Range(5, 120).Draw(t, "long"), rapid.Float64Range(5, 120).Draw(t, "wide")
			x, y := rapid.Float64Range(0, max(0, s.Used-w)).Draw(t, "x"), rapid.Float64Range(0, top-h).Draw(t, "y")
			s.Flaws = append(s.Flaws, Flaw{Name: fmt.Sprint("hole ", i+1), Outline: Box(x, y, x+w, y+h)})
		}
		d := Marker{Title: "gown", Cloth: "satin", Width: 1500, Selvedge: 10, Stretches: []Stretch{s}}.Drawing()
		var rings []orb.Ring
		var cloth *orb.Point
		for _, g := range d.Groups {
			for _, it := range g.Items {
				if shape, ok := it.(Shape); ok && (shape.Role == RolePiece || shape.Role == RoleFlaw) {
					rings = append(rings, shape.Ring)
				}
			}
			if g.Origin != nil {
				cloth = g.Origin
			}
		}
		for _, g := range d.Groups {
			for _, w := range words(g) {
				var n int
				if _, err := fmt.Sscanf(w.Body, "hole %d", &n); err != nil {
					continue
				}
				own, box := g.Items[0].(Shape).Ring, textBox(w)
				if g.Title != w.Body || planar.RingContains(own, w.At) {
					continue
				}
				beside++
				for _, ring := range rings {
					if touches(box, ring) {
						t.Fatalf("%q meets %v", w.Body, ring)
					}
				}
				b, c := box.Bound(), own.Bound()
				dx := max(0, b.Min[0]-c.Max[0], c.Min[0]-b.Max[0])
				dy := max(0, b.Min[1]-c.Max[1], c.Min[1]-b.Max[1])
				if off := math.Hypot(dx, dy) / d.Scale; off > 1.5 {
					t.Fatalf("%q stands %.2f mm of paper beside its flaw", w.Body, off)
				}
				if b.Min[0] < cloth[0] || b.Max[0] > cloth[0]+s.Used || b.Max[1] > cloth[1] || b.Min[1] < cloth[1]-top {
					t.Fatalf("%q at %v is not on the cloth", w.Body, b)
				}
			}
		}
	})
	if beside < often.Enough(3) {
		t.Errorf("%d names stood beside their flaws", beside)
	}
}

// A place along a line is as far from its beginning as it says, measured along it, whatever corners stand twice.
func TestAlongALine(t *testing.T) {
	line := orb.LineString{{0, 0}, {0, 0}, {30, 40}, {30, 40}, {30, 100}}
	for distance, want := range map[float64]orb.Point{0: {0, 0}, 25: {15, 20}, 50: {30, 40}, 80: {30, 70}, 110: {30, 100},
		200: {30, 100}} {
		if got := along(line, distance); planar.Distance(got, want) > 1e-9 {
			t.Errorf("%v along it is %v, not %v", distance, got, want)
		}
	}
}
