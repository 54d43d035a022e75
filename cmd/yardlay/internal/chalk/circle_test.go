package chalk

import (
	"math"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	_ "yardlay/benchmarks/often"
	"yardlay/shapes/plane"
)

// through is the circle through three points, by the perpendicular bisectors: another way
// than that of fit.
func through(a, b, c orb.Point) (centre orb.Point, radius float64) {
	d := 2 * (a[0]*(b[1]-c[1]) + b[0]*(c[1]-a[1]) + c[0]*(a[1]-b[1]))
	aa, bb, cc := a[0]*a[0]+a[1]*a[1], b[0]*b[0]+b[1]*b[1], c[0]*c[0]+c[1]*c[1]
	centre = orb.Point{(aa*(b[1]-c[1]) + bb*(c[1]-a[1]) + cc*(a[1]-b[1])) / d,
		(aa*(c[0]-b[0]) + bb*(a[0]-c[0]) + cc*(b[0]-a[0])) / d}
	return centre, distance(centre, a)
}

// A circle is found again from points on it, wherever it lies and whichever way they go
// round; the turn is that which they were drawn by.
func TestFitFindsTheCircle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		centre, r := orb.Point{number("x", -3000, 3000), number("y", -3000, 3000)}, number("radius", 30, 2000)
		from, turn := number("from", -3, 3), number("turn", 0.4, 6.2)
		line := plane.Arc(centre, r, from, from+turn, 0.1)
		if rapid.Bool().Draw(t, "back") {
			slices.Reverse(line)
		}
		c, ok := fit(line)
		if !ok {
			t.Fatalf("no circle in %d points of one, turn %.2f", len(line), turn)
		}
		// The middles of chords lie 0.1 mm inside: what that may do grows with the radius.
		if d := distance(c.centre, centre); d > 1e-3*r || math.Abs(c.radius-r) > 1e-3*r {
			t.Fatalf("found %v, %v; drawn %v, %v", c.centre, c.radius, centre, r)
		}
		other, radius := through(line[0], line[len(line)/2], line[len(line)-1])
		if turn > 0.5 && turn < 5.5 && (distance(other, c.centre) > 1e-2*r || math.Abs(radius-c.radius) > 1e-2*r) {
			t.Fatalf("found %v, %v; through three points %v, %v", c.centre, c.radius, other, radius)
		}
		if got := c.turn(line); math.Abs(got-turn) > 1e-3 {
			t.Fatalf("turned by %v, drawn by %v", got, turn)
		}
	})
}

// What is no circle is not taken for one: a straight line, an ellipse, a wave, a line that
// goes back, and one that goes round more than once.
func TestFitRefuses(t *testing.T) {
	sampled := func(n int, at func(share float64) orb.Point) (line []orb.Point) {
		for i := range n + 1 {
			line = append(line, at(float64(i)/float64(n)))
		}
		return line
	}
	forth := plane.Arc(orb.Point{}, 300, 0, 1, 0.1)
	back := slices.Clone(forth)
	slices.Reverse(back)
	for name, line := range map[string][]orb.Point{
		"two points": {{0, 0}, {10, 0}},
		"straight":   sampled(20, func(s float64) orb.Point { return orb.Point{500 * s, 200 * s} }),
		"level":      sampled(20, func(s float64) orb.Point { return orb.Point{500 * s, 40} }),
		"ellipse": sampled(60, func(s float64) orb.Point {
			return orb.Point{400 * math.Cos(3*s), 300 * math.Sin(3*s)}
		}),
		"wave":  sampled(60, func(s float64) orb.Point { return orb.Point{600 * s, 20 * math.Sin(12*s)} }),
		"back":  append(slices.Clone(forth), back[1:]...),
		"twice": sampled(200, func(s float64) orb.Point { return orb.Point{90 * math.Cos(14*s), 90 * math.Sin(14*s)} }),
		"kinked": append(slices.Clone(plane.Arc(orb.Point{}, 300, 0, 0.6, 0.1)),
			plane.Arc(orb.Point{30, 0}, 260, 0.6, 1.2, 0.1)...),
	} {
		if c, ok := fit(line); ok {
			t.Errorf("%s: a circle of radius %.1f about %v", name, c.radius, c.centre)
		}
	}
}

// The distance of a point from a line is that of a slow look at every segment, from
// whichever segment the search sets out; one that may stop early is right to stop.
func TestToLineIsThatOfItsSlowTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		line := []orb.Point(outline(t))
		p := orb.Point{rapid.Float64Range(-500, 5000).Draw(t, "x"), rapid.Float64Range(-500, 3000).Draw(t, "y")}
		least := math.Inf(1)
		for i := 1; i < len(line); i++ {
			const n = 400
			for k := range n + 1 {
				least = math.Min(least, distance(p, between(line[i-1], line[i], float64(k)/n)))
			}
		}
		near := rapid.IntRange(0, len(line)-2).Draw(t, "near")
		got, at := toLine(p, line, near, 0)
		longest := 0.0
		for i := 1; i < len(line); i++ {
			longest = math.Max(longest, distance(line[i-1], line[i]))
		}
		if got > least+1e-9 || least-got > longest/800+1e-9 {
			t.Fatalf("%v, slowly %v", got, least)
		}
		if d := planar.DistanceFromSegment(line[at], line[at+1], p); d != got {
			t.Fatalf("%v is not that of segment %d, %v", got, at, d)
		}
		enough := rapid.Float64Range(0, 3000).Draw(t, "enough")
		if early, _ := toLine(p, line, near, enough); early < got-1e-9 || early > math.Max(enough, got)+1e-9 {
			t.Fatalf("%v was enough, found is %v of %v", enough, early, got)
		}
	})
}

// A stroke off a straight line is drawn to the side that its words say: out of a piece that
// goes against the clock is to the right of the way.
func TestPathsGoTheirWay(t *testing.T) {
	tape := Tape{}
	f := Figures{Places: []Place{{0, 0}, {400, 0}, {400, 300}}, Pivots: []Place{{200, 150}}}
	right := tape.Path(f, Stroke{Kind: Off, From: 0, To: 1, Step: 100, Off: []Marks{10, 20, -10}})
	if len(right) != 5 || right[1][1] >= 0 || right[2][1] >= right[1][1] || right[3][1] <= 0 ||
		right[2][0] != tape.MM(200) {
		t.Errorf("off the way to the right: %v", right)
	}
	arc := tape.Path(f, Stroke{Kind: Arc, From: 0, To: 2, Pivot: 0, Radius: 250})
	for _, p := range arc {
		if d := distance(p, tape.point(f.Pivots[0])); math.Abs(d-tape.MM(250)) > 0.01 {
			t.Errorf("%v lies %v from the pivot", p, d)
		}
	}
	if whole := tape.Path(f, Stroke{Kind: Circle, Pivot: 0, Radius: 50}); distance(whole[0], whole[len(whole)-1]) > 1e-6 ||
		math.Abs(plane.Area(orb.Ring(whole))-math.Pi*tape.MM(50)*tape.MM(50)) > 5 {
		t.Errorf("a circle of %d points with an area of %v", len(whole), plane.Area(orb.Ring(whole)))
	}
	square := Figures{Places: []Place{{0, 0}, {100, 0}, {100, 100}, {0, 100}}}
	for i := range 4 {
		square.Outline = append(square.Outline, Stroke{Kind: Straight, From: i, To: (i + 1) % 4})
	}
	ring := tape.Rebuild(square)
	if len(ring) != 5 || ring[0] != ring[4] || math.Abs(plane.Area(ring)-tape.MM(100)*tape.MM(100)) > 1e-6 {
		t.Errorf("a square is drawn as %v", ring)
	}
	at, ok := tape.NotchAt(square, Notch{Stroke: 1, From: 2, Distance: 30})
	if want := (orb.Point{tape.MM(100), tape.MM(70)}); !ok || distance(at, want) > 1e-9 {
		t.Errorf("a notch 30 from the third point back along the second line lies at %v, not %v", at, want)
	}
	if _, ok := tape.NotchAt(square, Notch{Stroke: 1, From: 1, Distance: 400}); ok {
		t.Error("a notch lies beyond the end of its line")
	}
}
