package chalk

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// table is a large cloth.
var table = orb.Bound{Max: orb.Point{20_000, 3_000}}

// slowlyApart is the twin of apart: every point against every segment.
func slowlyApart(a, b []orb.Point, fine float64) float64 {
	one := func(from, to []orb.Point) float64 {
		worst := 0.0
		for i := 1; i < len(from); i++ {
			n := max(1, int(math.Ceil(distance(from[i-1], from[i])/fine)))
			for k := 0; k <= n; k++ {
				p, least := between(from[i-1], from[i], float64(k)/float64(n)), math.Inf(1)
				for j := 1; j < len(to); j++ {
					least = math.Min(least, planar.DistanceFromSegment(to[j-1], to[j], p))
				}
				worst = math.Max(worst, least)
			}
		}
		return worst
	}
	return math.Max(one(a, b), one(b, a))
}

func tapes(t *rapid.T) Tape {
	return Tape{rapid.SampledFrom([]measure.Unit{measure.Inch, measure.Millimetre, measure.Centimetre}).Draw(t, "unit")}
}

// outline draws one of many kinds of outlines somewhere on the table.
func outline(t *rapid.T) orb.Ring {
	number := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	var ring orb.Ring
	switch kind := rapid.SampledFrom([]string{"gore", "disc", "sliver", "bean", "wave", "box"}).Draw(t, "kind"); kind {
	case "gore": // of a circle skirt
		inner, depth := number("inner", 20, 400), number("depth", 100, 1100)
		half := number("half", 0.02, 3)
		ring = append(orb.Ring(plane.Arc(orb.Point{}, inner+depth, -half, half, 0.1)),
			plane.Arc(orb.Point{}, inner, half, -half, 0.1)...)
	case "disc":
		ring = orb.Ring(plane.Arc(orb.Point{}, number("radius", 15, 900), 0, 2*math.Pi, 0.1))
	case "sliver":
		l, w := number("length", 5, 900), number("width", 0.3, 4)
		ring = orb.Ring{{0, 0}, {l, 0}, {l, w}, {l / 3, w / 2}}
	case "bean": // a smooth outline that no arc follows
		r, e, n := number("size", 40, 500), number("depth", 0.05, 0.4), rapid.IntRange(2, 5).Draw(t, "lobes")
		for k := range 360 {
			sin, cos := math.Sincos(float64(k) * math.Pi / 180)
			at := r * (1 + e*math.Cos(float64(n)*float64(k)*math.Pi/180))
			ring = append(ring, orb.Point{at * cos, at * sin})
		}
	case "wave": // a straight band with one wavy side
		l, high, n := number("length", 200, 1500), number("high", 1, 60), rapid.IntRange(1, 6).Draw(t, "waves")
		ring = orb.Ring{{0, -200}, {l, -200}}
		for k := range 201 {
			x := l * (1 - float64(k)/200)
			ring = append(ring, orb.Point{x, high * math.Sin(2*math.Pi*float64(n)*x/l)})
		}
	case "box":
		l, w := number("length", 5, 2000), number("width", 5, 900)
		ring = orb.Ring{{0, 0}, {l, 0}, {l, w}, {l / 2, w + number("roof", -2, 40)}, {0, w}}
	}
	ring = append(ring, ring[0])
	pose := plane.Pose{Mirrored: rapid.Bool().Draw(t, "mirrored"), Turn: number("turn", 0, 360)}
	ring = pose.Apply(ring)
	low := plane.Bounds(ring).Min
	plane.MoveLine(orb.LineString(ring), orb.Point{number("x", 0, 3000) - low[0], number("y", 0, 900) - low[1]})
	return plane.Tidy(plane.SnapRing(ring))
}

// What is drawn from the figures lies within the tolerance of the outline, and is shorter
// to say than the outline.
func TestFiguresKeepToTheOutline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tape, ring := tapes(t), outline(t)
		f, err := tape.Figure(Outline{Cut: ring}, table)
		if err != nil {
			t.Fatal(err)
		}
		if off := slowlyApart(tape.Rebuild(f), ring, 2); off > tape.Tolerance()+0.02 {
			t.Fatalf("%.3f mm off", off)
		}
		if n := len(f.Places); n > 90 {
			t.Errorf("%d points", n)
		}
		for _, p := range f.Pivots {
			if !table.Contains(tape.point(p)) {
				t.Errorf("pivot %v off the cloth", p)
			}
		}
	})
}

func TestApartIsThatOfItsSlowTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := outline(t), outline(t)
		plane.MoveLine(orb.LineString(b), orb.Point{a[0][0] - b[0][0], a[0][1] - b[0][1]})
		fast, slow := apart(a, b, math.Inf(1)), slowlyApart(a, b, fineness)
		if math.Abs(fast-slow) > 1e-9 {
			t.Fatalf("%v, slowly %v", fast, slow)
		}
		if got := apart(a, b, slow/2); got < slow/2 {
			t.Fatalf("gave up at %v of %v", got, slow)
		}
	})
}
