package outline

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"
)

// sampled is the slow twin of a curve: so many points of it, by its definition.
func sampled(n int, at func(t float64) orb.Point) orb.LineString {
	line := make(orb.LineString, n+1)
	for i := range line {
		line[i] = at(float64(i) / float64(n))
	}
	return line
}

// strays is the farthest that a point of one line lies from the other.
func strays(from, to orb.LineString) float64 {
	worst := 0.
	for _, p := range from {
		worst = max(worst, planar.DistanceFrom(to, p))
	}
	return worst
}

// denser puts points between those of a line.
func denser(line orb.LineString, n int) orb.LineString {
	var out orb.LineString
	for i := 1; i < len(line); i++ {
		for k := range n {
			out = append(out, between(line[i-1], line[i], float64(k)/float64(n)))
		}
	}
	return append(out, line[len(line)-1])
}

func drawPoint(t *rapid.T, name string) orb.Point {
	c := rapid.Float64Range(-400, 400)
	if rapid.Bool().Draw(t, name+" on a grid") { // cusps, straight and folded curves
		g := rapid.IntRange(0, 2)
		return orb.Point{100 * float64(g.Draw(t, name)), 100 * float64(g.Draw(t, name))}
	}
	return orb.Point{c.Draw(t, name), c.Draw(t, name)}
}

func drawAffine(t *rapid.T) affine {
	c := rapid.Float64Range(-2, 2)
	return affine{c.Draw(t, "a"), c.Draw(t, "b"), c.Draw(t, "c"), c.Draw(t, "d"), 50 * c.Draw(t, "e"), 50 * c.Draw(t, "f")}
}

// cubicAt is a cubic Bezier curve by Bernstein's polynomials.
func cubicAt(p [4]orb.Point, t float64) orb.Point {
	u := 1 - t
	w := [4]float64{u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t}
	var at orb.Point
	for i := range p {
		at[0] += w[i] * p[i][0]
		at[1] += w[i] * p[i][1]
	}
	return at
}

func checkFlattened(t *rapid.T, got orb.LineString, at func(float64) orb.Point, chordError float64) {
	curve := sampled(1500, at)
	gap := 0. // between samples, which are no farther from each other's middle than half of this
	for i := 1; i < len(curve); i++ {
		gap = max(gap, planar.Distance(curve[i-1], curve[i]))
	}
	if d := strays(curve, got); d > chordError*(1+1e-6)+1e-9 {
		t.Fatalf("the curve strays %g from %d chords, allowed %g", d, len(got)-1, chordError)
	}
	if d := strays(denser(got, 8), curve); d > chordError*(1+1e-6)+gap*gap/4+1e-9 {
		t.Fatalf("%d chords stray %g from the curve, allowed %g", len(got)-1, d, chordError)
	}
}

func TestFlattenedCurvesKeepTheError(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		chordError := rapid.SampledFrom([]float64{.05, .4, 3}).Draw(t, "error")
		m := drawAffine(t)
		var p [4]orb.Point
		for i := range p {
			p[i] = m.apply(drawPoint(t, "control"))
		}
		got := flattenCubic(orb.LineString{p[0]}, p, chordError)
		checkFlattened(t, got, func(s float64) orb.Point { return cubicAt(p, s) }, chordError)

		got = flattenQuadratic(orb.LineString{p[0]}, [3]orb.Point(p[:3]), chordError)
		checkFlattened(t, got, func(s float64) orb.Point {
			return between(between(p[0], p[1], s), between(p[1], p[2], s), s)
		}, chordError)
	})
}

func TestFlattenedArcsKeepTheError(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		chordError := rapid.SampledFrom([]float64{.05, .4, 3}).Draw(t, "error")
		angle := rapid.Float64Range(-2*math.Pi, 2*math.Pi)
		c := circle(drawPoint(t, "centre"), rapid.Float64Range(0, 300).Draw(t, "radius"), angle.Draw(t, "from"), 0)
		c.to = c.from + angle.Draw(t, "turn")
		m := drawAffine(t)
		moved := c.under(m)
		got := flattenArc(orb.LineString{moved.at(c.from)}, moved, moved.at(c.to), chordError)
		checkFlattened(t, got, func(s float64) orb.Point {
			sin, cos := math.Sincos(c.from + (c.to-c.from)*s)
			return m.apply(orb.Point{c.centre[0] + c.u[0]*cos, c.centre[1] + c.u[0]*sin})
		}, chordError)
	})
}

// The fewest chords that do: what is straight is one, and a circle takes no more than the
// law of the sagitta asks for.
func TestFlattenedCurvesHaveFewChords(t *testing.T) {
	for _, c := range []struct {
		what string
		p    [4]orb.Point
		most int
	}{
		{"control points in the ends", [4]orb.Point{{0, 0}, {0, 0}, {300, 100}, {300, 100}}, 1},
		{"control points on the way", [4]orb.Point{{0, 0}, {30, 10}, {270, 90}, {300, 100}}, 1},
		{"a shallow curve", [4]orb.Point{{0, 0}, {100, .009}, {200, .009}, {300, 0}}, 1},
		{"a curve of one error", [4]orb.Point{{0, 0}, {100, .06}, {200, .06}, {300, 0}}, 2},
		{"nothing", [4]orb.Point{{5, 5}, {5, 5}, {5, 5}, {5, 5}}, 1},
		// A quarter of a circle of 100 mm: pi/2 / (2 acos(1 - 0.05/100)) is 24.8.
		{"a quarter", [4]orb.Point{{100, 0}, {100, 55.228475}, {55.228475, 100}, {0, 100}}, 26},
	} {
		if n := len(flattenCubic(nil, c.p, ChordError)); n > c.most {
			t.Errorf("%s: %d chords, %d are enough", c.what, n, c.most)
		}
	}
	whole := circle(orb.Point{7, 8}, 100, 0, 2*math.Pi)
	if n := len(flattenArc(nil, whole, whole.at(0), ChordError)); n != 100 {
		t.Errorf("a circle: %d chords, want 100", n)
	}
}

// The most chords that one curve within the limits can cost.
func TestFarthestCurveIsServed(t *testing.T) {
	f := MaxCoordinate
	if n := len(flattenCubic(nil, [4]orb.Point{{-f, -f}, {f, f}, {-f, f}, {f, -f}}, ChordError)); n > 2048 {
		t.Errorf("%d chords", n)
	}
	if n := len(flattenCubic(nil, [4]orb.Point{{-f, -f}, {f, f}, {-f, -f}, {f, f}}, ChordError)); n > 2048 {
		t.Errorf("folded: %d chords", n)
	}
}

// Maps follow each other as matrices do, and stretch as their singular values say.
func TestAffineMaps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, n, p := drawAffine(t), drawAffine(t), drawPoint(t, "p")
		if d := planar.Distance(m.times(n).apply(p), m.apply(n.apply(p))); d > 1e-9 {
			t.Fatalf("the product is %g off", d)
		}
		longest := 0.
		for i := range 720 {
			sin, cos := math.Sincos(float64(i) * math.Pi / 720)
			v := m.turn(orb.Point{cos, sin})
			longest = max(longest, math.Hypot(v[0], v[1]))
		}
		if s := m.stretch(); s < longest-1e-12 || s > longest*1.0001+1e-9 {
			t.Fatalf("stretch %v, sampled %v", s, longest)
		}
	})
	quarter := translation(10, 20).times(rotation(math.Pi / 2)).times(scaling(2, 3))
	if p := quarter.apply(orb.Point{1, 1}); planar.Distance(p, orb.Point{7, 22}) > 1e-12 {
		t.Errorf("shifted, turned, scaled: %v", p)
	}
}

// What chords enclose is what the curve does, to 1e-4 for anything as round as a circle
// of 100 mm, in however many curves it is drawn.
func TestFlattenedCurvesKeepTheArea(t *testing.T) {
	within := func(what string, got, want, most float64) {
		t.Helper()
		if d := math.Abs(got/want - 1); d > most {
			t.Errorf("%s: %.9g, want %.9g: %.2g off", what, got, want, d)
		}
	}
	for _, r := range []float64{1, 10, 100, 1000} {
		c := circle(orb.Point{3, 4}, r, 1, 1+2*math.Pi)
		line := flattenArc(orb.LineString{c.at(1)}, c, c.at(1), ChordError)
		within("a circle", planar.Area(orb.Ring(line)), math.Pi*r*r, 1e-9)
		squeezed := c.under(affine{.1, .7, .9, .3, 0, 0})
		line = flattenArc(orb.LineString{squeezed.at(1)}, squeezed, squeezed.at(1), ChordError)
		within("an ellipse", math.Abs(planar.Area(orb.Ring(line))), math.Pi*r*r*.6, 1e-9)
	}
	for n := 4; n <= 400; n += 3 { // so many curves, each the usual one for a part of a circle
		const r = 100
		h := 2 * math.Pi / float64(n)
		arm := 4. / 3 * math.Tan(h/4) * r
		line, arcs := orb.LineString{{r, 0}}, orb.LineString{{r, 0}}
		var exact orb.LineString
		for i := range n {
			s0, c0 := math.Sincos(float64(i) * h)
			s1, c1 := math.Sincos(float64(i+1) * h)
			p := [4]orb.Point{{r * c0, r * s0}, {r*c0 - arm*s0, r*s0 + arm*c0}, {r*c1 + arm*s1, r*s1 - arm*c1}, {r * c1, r * s1}}
			line = flattenCubic(line, p, ChordError)
			arcs = flattenArc(arcs, circle(orb.Point{}, r, float64(i)*h, float64(i+1)*h), p[3], ChordError)
			exact = append(exact, sampled(4000/n, func(t float64) orb.Point { return cubicAt(p, t) })...)
		}
		within(fmt.Sprint(n, " curves"), planar.Area(orb.Ring(line)), planar.Area(orb.Ring(exact)), 1e-4)
		within("arcs", planar.Area(orb.Ring(arcs)), math.Pi*r*r, 1e-4)
		if most := max(99+2*n, min(2*n, 540), n) + 1; len(line) > most {
			t.Errorf("%d curves: %d points, %d are enough", n, len(line), most)
		}
	}
}
