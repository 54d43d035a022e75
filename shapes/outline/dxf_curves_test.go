package outline

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"
)

// basis is the B-spline basis function of degree p by its definition (Cox, de Boor 1972): the
// slow twin of span.
func basis(knots []float64, i, p int, u float64) float64 {
	if p == 0 {
		if knots[i] <= u && u < knots[i+1] {
			return 1
		}
		return 0
	}
	part := func(a, b, c float64, of func() float64) float64 {
		if b == c {
			return 0
		}
		return a / (b - c) * of()
	}
	return part(u-knots[i], knots[i+p], knots[i], func() float64 { return basis(knots, i, p-1, u) }) +
		part(knots[i+p+1]-u, knots[i+p+1], knots[i+1], func() float64 { return basis(knots, i+1, p-1, u) })
}

// randomSpline is a spline whose knots may repeat, with weights or without.
var randomSpline = rapid.Custom(func(t *rapid.T) *dxfSpline {
	s := &dxfSpline{degree: rapid.IntRange(1, 6).Draw(t, "degree")}
	n := s.degree + rapid.IntRange(1, 6).Draw(t, "controls")
	coordinate := rapid.Float64Range(-500, 500)
	for range n {
		s.controls = append(s.controls, orb.Point{coordinate.Draw(t, "x"), coordinate.Draw(t, "y")})
	}
	if rapid.Bool().Draw(t, "rational") {
		s.weights = rapid.SliceOfN(rapid.Float64Range(0.1, 10), n, n).Draw(t, "weights")
	}
	s.knots = []float64{0}
	clamped, same := rapid.Bool().Draw(t, "clamped"), 1
	for i := 1; i < n+s.degree+1; i++ {
		step := rapid.SampledFrom([]float64{0, 0.3, 1, 2}).Draw(t, "step")
		if clamped && (i <= s.degree || i > n) {
			step = 0
		} else if same == s.degree || clamped && (i == s.degree+1 || i == n) {
			step = max(step, 0.5)
		}
		if same++; step > 0 {
			same = 1
		}
		s.knots = append(s.knots, s.knots[i-1]+step)
	}
	return s
})

// at is the point of the spline by the definition.
func (s *dxfSpline) at(u float64) orb.Point {
	var sum homogeneous
	for i, c := range s.controls {
		w := basis(s.knots, i, s.degree, u)
		if len(s.weights) > 0 {
			w *= s.weights[i]
		}
		sum[0], sum[1], sum[2] = sum[0]+w*c[0], sum[1]+w*c[1], sum[2]+w
	}
	return sum.point()
}

// Chords of splines stray by the chord error at the most, in both directions, and begin and
// end as the spline does.
func TestSplinesAgainstTheirDefinition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := randomSpline.Draw(t, "spline")
		from, to := s.knots[s.degree], s.knots[len(s.controls)]
		if from == to {
			t.Skip("a spline of no parameters")
		}
		tr := dxfTrace{m: identity, e: ChordError, left: MaxDrawingVertices}
		if err := s.trace(&tr); err != nil {
			t.Fatal(err)
		}
		line, corners, _ := tr.whole()
		if len(line) < 2 {
			t.Skip("a point")
		}
		var sampled orb.LineString
		for _, u := range s.sampled(from, to) {
			p := s.at(u)
			if off := planar.DistanceFrom(line, p); off > ChordError+1e-6 {
				t.Fatalf("%g from the chords at %g", off, u)
			}
			sampled = append(sampled, p)
		}
		sampled = append(sampled, line[len(line)-1])
		if apart(sampled[0], line[0]) > 1e-6 {
			t.Fatalf("it begins at %v, not %v", line[0], sampled[0])
		}
		long := 0.0
		for i := 1; i < len(sampled); i++ {
			long = max(long, apart(sampled[i-1], sampled[i]))
		}
		for _, p := range line {
			if off := planar.DistanceFrom(sampled, p); off > long+ChordError {
				t.Fatalf("%v is %g off the curve", p, off)
			}
		}
		if !slices.IsSorted(corners) {
			t.Fatalf("corners %v", corners)
		}
	})
}

// A circle as four rational quadratic arcs (Piegl & Tiller, The NURBS Book, 7.5: weights 1 and
// sqrt(2)/2) is a circle, with a corner at each double knot.
func TestRationalCircle(t *testing.T) {
	w := fmt.Sprint(math.Sqrt2 / 2)
	spline := "0 SPLINE | 70 5 | 71 2"
	for _, k := range strings.Fields("0 0 0 1 1 2 2 3 3 4 4 4") {
		spline += " | 40 " + k
	}
	for i, p := range strings.Split("100 0,100 100,0 100,-100 100,-100 0,-100 -100,0 -100,100 -100,100 0", ",") {
		x, y, _ := strings.Cut(p, " ")
		spline += " | 41 " + map[bool]string{true: w, false: "1"}[i%2 == 1] + " | 10 " + x + " | 20 " + y
	}
	l := readAsDXF(t, ofEntities(spline)).Lines[0]
	if !l.Closed || len(l.Corners) != 5 {
		t.Errorf("closed %v, corners %v", l.Closed, l.Corners)
	}
	for i, p := range l.Points {
		if r := math.Hypot(p[0], p[1]); math.Abs(r-100) > 1e-9 {
			t.Fatalf("%v has the radius %g", p, r)
		}
		if i > 0 {
			q := l.Points[i-1]
			if sagitta := 100 - math.Hypot(p[0]+q[0], p[1]+q[1])/2; sagitta > ChordError {
				t.Fatalf("sagitta %g", sagitta)
			}
		}
	}
}

// sampled are parameters from one up to another, of each span between knots 100 evenly, and more where a light weight
// hurries the curve along.
func (s *dxfSpline) sampled(from, to float64) (at []float64) {
	const samples = 100
	for k, knot := range s.knots {
		if knot < from || knot >= to || s.knots[k+1] == knot {
			continue
		}
		for i := range samples {
			at = append(at, knot+(s.knots[k+1]-knot)*float64(i)/samples)
		}
	}
	for range 8 {
		var finer []float64
		for i, u := range at {
			if finer = append(finer, u); i+1 < len(at) && apart(s.at(u), s.at(at[i+1])) > 0.1 {
				finer = append(finer, (u+at[i+1])/2)
			}
		}
		at = finer
	}
	return at
}

// Every point of a bulge lies by the circle, on one side of its chord, and the chords stray
// little, under any insertion. The bulge of an arc of the angle a is tan(a/4) (DXF Reference, LWPOLYLINE).
func TestBulges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angle := rapid.OneOf(rapid.Float64Range(-6.2, 6.2), rapid.Float64Range(-1e-6, 1e-6)).Draw(t, "angle")
		a := orb.Point{rapid.Float64Range(-900, 900).Draw(t, "x"), rapid.Float64Range(-900, 900).Draw(t, "y")}
		b := orb.Point{a[0] + rapid.Float64Range(1, 900).Draw(t, "across"), a[1]}
		scale := rapid.SampledFrom([]float64{1, -1, 3, 0.01}).Draw(t, "scale")
		m := scaling(scale, rapid.SampledFrom([]float64{1, -1, 0.5}).Draw(t, "other"))
		tr := dxfTrace{m: m, e: ChordError, left: MaxDrawingVertices}
		tr.to(a)
		if err := tr.bulge(dxfVertex{at: a, bulge: math.Tan(angle / 4)}, b); err != nil {
			t.Fatal(err)
		}
		chord := b[0] - a[0]
		radius := math.Abs(chord / 2 / math.Sin(angle/2))
		for i, p := range tr.line {
			local := orb.Point{p[0] / m.a, p[1] / m.d}
			if i == 0 || i == len(tr.line)-1 {
				if apart(p, m.apply([2]orb.Point{a, b}[min(i, 1)])) > 1e-9 {
					t.Fatalf("end %v", p)
				}
				continue
			}
			// the angle at which the chord is seen is half that of the other arc, on the circle
			centre := orb.Point{a[0] + chord/2, a[1] + chord/2/math.Tan(angle/2)}
			if off := math.Abs(apart(local, centre)-radius) * m.stretch(); off > ChordError*1.001 {
				t.Fatalf("%v is %g off the circle", local, off)
			}
			u, v := orb.Point{a[0] - local[0], a[1] - local[1]}, orb.Point{b[0] - local[0], b[1] - local[1]}
			seen := math.Atan2(u[0]*v[1]-u[1]*v[0], u[0]*v[0]+u[1]*v[1])
			if want := angle/2 - math.Copysign(math.Pi, angle); seen*want < 0 {
				t.Fatalf("%v sees the chord under %g, not %g", local, seen, want)
			}
		}
		if n := len(tr.line) - 1; n > 0 && m.stretch()*radius*(1-math.Cos(angle/2/float64(n))) > ChordError*1.001 {
			t.Fatalf("%d chords", n)
		}
	})
}

// Three points by hand: with chords of equal length h the natural spline through (0, 0), (1, 1),
// (2, 0) has the slopes x' = 1/h, y' = 1.5/h, 0, -1.5/h.
func TestSlopesThroughThreePoints(t *testing.T) {
	got := slopesThrough([]orb.Point{{0, 0}, {1, 1}, {2, 0}}, [2]orb.Point{unset, unset})
	for i, want := range []orb.Point{{1, 1.5}, {1, 0}, {1, -1.5}} {
		if off := apart(orb.Point{got[i][0] * math.Sqrt2, got[i][1] * math.Sqrt2}, want); off > 1e-12 {
			t.Errorf("slope %d is %v", i, got[i])
		}
	}
}

// A curve through points goes through them; a closed one begins nowhere in particular.
func TestCurvesThroughPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 8).Draw(t, "points")
		coordinate := rapid.Float64Range(-300, 300)
		var points []orb.Point
		for range n {
			points = append(points, orb.Point{coordinate.Draw(t, "x"), coordinate.Draw(t, "y")})
		}
		traced := func(points []orb.Point, flags int) orb.LineString {
			s := &dxfSpline{flags: flags, through: points}
			tr := dxfTrace{m: identity, e: ChordError, left: MaxDrawingVertices}
			if err := s.trace(&tr); err != nil {
				t.Fatal(err)
			}
			line, _, closed := tr.whole()
			if closed != (flags == splineClosed && n > 2) {
				t.Fatalf("closed %v", closed)
			}
			for _, p := range points {
				if !slices.Contains(line, p) {
					t.Fatalf("%v is missing", p)
				}
			}
			return line
		}
		traced(points, 0)
		if n < 3 {
			return
		}
		round := traced(points, splineClosed)
		again := traced(append(slices.Clone(points[1:]), points[0]), splineClosed)
		for _, p := range again {
			if off := planar.DistanceFrom(round, p); off > 2*ChordError {
				t.Fatalf("%v is %g off the curve that begins elsewhere", p, off)
			}
		}
	})
}
