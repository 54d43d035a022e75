package outline

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"gonum.org/v1/gonum/interp"
	"pgregory.net/rapid"
)

// Curves through points by gonum's cubic splines, natural or with given slopes at their ends, x and y each over the
// lengths of the chords: what is read lies within the chord error of them.
func TestCurvesThroughPointsByGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 8).Draw(t, "points")
		var s dxfSpline
		u, x, y := make([]float64, n), make([]float64, n), make([]float64, n)
		for i := range n {
			x[i], y[i] = rapid.Float64Range(-300, 300).Draw(t, "x"), rapid.Float64Range(-300, 300).Draw(t, "y")
			p := orb.Point{x[i], y[i]}
			if i > 0 {
				apart := planar.Distance(s.through[i-1], p)
				if apart < 5 {
					return
				}
				u[i] = u[i-1] + apart
			}
			s.through = append(s.through, p)
		}
		s.tangents = [2]orb.Point{unset, unset}
		var byX, byY interp.FittablePredictor = &interp.NaturalCubic{}, &interp.NaturalCubic{}
		if rapid.Bool().Draw(t, "directions") {
			a, b := rapid.Float64Range(-3, 3).Draw(t, "first"), rapid.Float64Range(-3, 3).Draw(t, "last")
			s.tangents = [2]orb.Point{{7 * math.Cos(a), 7 * math.Sin(a)}, {math.Cos(b) / 7, math.Sin(b) / 7}}
			byX, byY = slopedCubic{math.Cos(a), math.Cos(b)}.fit(u, x), slopedCubic{math.Sin(a), math.Sin(b)}.fit(u, y)
		} else if byX.Fit(u, x) != nil || byY.Fit(u, y) != nil {
			t.Fatal("no spline")
		}
		tr := dxfTrace{m: identity, e: ChordError, left: MaxDrawingVertices}
		if err := s.trace(&tr); err != nil {
			t.Fatal(err)
		}
		line, _, closed := tr.whole()
		if closed {
			t.Fatal("closed")
		}
		for i := range 200 {
			v := u[n-1] * float64(i) / 199
			if p := (orb.Point{byX.Predict(v), byY.Predict(v)}); planar.DistanceFrom(line, p) > ChordError*1.01 {
				t.Fatalf("%g off at %v", planar.DistanceFrom(line, p), p)
			}
		}
	})
}

// slopedCubic are the slopes of a spline at its two ends.
type slopedCubic [2]float64

// fit finds the slopes between, with which the second derivative is continuous: the system is dominated by its
// diagonal, so that Gauss and Seidel find them. Each part is gonum's piecewise cubic.
func (s slopedCubic) fit(u, v []float64) interp.FittablePredictor {
	n := len(u)
	m := make([]float64, n)
	m[0], m[n-1] = s[0], s[1]
	for range 200 {
		for i := 1; i < n-1; i++ {
			h, k := u[i]-u[i-1], u[i+1]-u[i]
			m[i] = (3*(k*(v[i]-v[i-1])/h+h*(v[i+1]-v[i])/k) - k*m[i-1] - h*m[i+1]) / 2 / (h + k)
		}
	}
	var pc interp.PiecewiseCubic
	pc.FitWithDerivatives(u, v, m)
	return fitted{&pc}
}

type fitted struct{ interp.Predictor }

func (fitted) Fit(_, _ []float64) error { return nil }

// An ELLIPSE from one parameter to another is C + M cos t + N sin t, N being M turned by a quarter and scaled by
// the ratio (DXF Reference, ELLIPSE), and an ARC one whose M is a radius along x; in degrees.
func TestEllipsesByTheirParameters(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string, from, to float64) float64 { return rapid.Float64Range(from, to).Draw(t, name) }
		c, m := orb.Point{number("cx", -99, 99), number("cy", -99, 99)}, orb.Point{number("mx", -99, 99),
			number("my", 1, 99)}
		ratio, from := number("ratio", .1, 1), number("from", -7, 7)
		sweep := number("sweep", .1, 6.2)
		entity := fmt.Sprintf("0 ELLIPSE | 10 %v | 20 %v | 11 %v | 21 %v | 40 %v | 41 %v | 42 %v", c[0], c[1],
			m[0], m[1], ratio,
			from, from+sweep)
		if rapid.Bool().Draw(t, "an arc") {
			m, ratio = orb.Point{math.Hypot(m[0], m[1]), 0}, 1
			entity = fmt.Sprintf("0 ARC | 10 %v | 20 %v | 40 %v | 50 %v | 51 %v", c[0], c[1], m[0], from*180/math.Pi,
				math.Mod((from+sweep)*180/math.Pi, 360))
		}
		line := readAsDXF(t, ofEntities(entity)).Lines[0].Points
		long := 0.
		for i := range 101 {
			sin, cos := math.Sincos(from + sweep*float64(i)/100)
			p := orb.Point{c[0] + m[0]*cos - m[1]*ratio*sin, c[1] + m[1]*cos + m[0]*ratio*sin}
			if off := planar.DistanceFrom(line, p); off > ChordError*1.001 {
				t.Fatalf("%s: %v is %g off", entity, p, off)
			}
			if i == 0 && apart(p, line[0]) > 1e-6 || i == 100 && apart(p, line[len(line)-1]) > 1e-6 {
				t.Fatalf("%s: it does not end at %v", entity, p)
			}
			if i == 1 {
				long = 100 * math.Hypot(m[0], m[1]) * sweep / 100
			}
		}
		if planar.Length(line) > long+1 {
			t.Fatalf("%s: %g long, at most %g", entity, planar.Length(line), long)
		}
	})
}

// A drawing lies where its insertions put it: the base point of a block at the point of insertion, scaled, then
// turned (DXF Reference, INSERT), as a list of transforms has it, whose matrices gonum multiplies in another test.
func TestInsertionsAgainstTransforms(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string) float64 { return float64(rapid.IntRange(-20, 20).Draw(t, name)) }
		base, at := orb.Point{number("bx"), number("by")}, orb.Point{number("x"), number("y")}
		sx, sy, turn := number("sx")/4+.1, number("sy")/4+.1, 15*number("turn")
		p, q := orb.Point{number("px"), number("py")}, orb.Point{number("qx"), number("qy") + .5}
		d := readAsDXF(t, ofBlocks([]string{fmt.Sprintf("0 BLOCK | 2 b | 10 %g | 20 %g", base[0], base[1]),
			fmt.Sprintf("0 LINE | 10 %g | 20 %g | 11 %g | 21 %g", p[0], p[1], q[0], q[1]), "0 ENDBLK"},
			fmt.Sprintf("0 INSERT | 2 b | 10 %g | 20 %g | 41 %g | 42 %g | 50 %g", at[0], at[1], sx, sy, turn)))
		m, err := parseSVGTransform(fmt.Sprintf("translate(%g %g) rotate(%g) scale(%g %g) translate(%g %g)",
			at[0], at[1], turn,
			sx, sy, -base[0], -base[1]))
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range []orb.Point{p, q} {
			if got := d.Lines[0].Points[i]; apart(got, m.apply(p)) > 1e-9 {
				t.Fatalf("%v comes to %v, want %v", p, got, m.apply(p))
			}
		}
	})
}
