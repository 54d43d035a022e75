package outline

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// dxfSpline is a SPLINE: a B-spline, rational where it has weights; or points that a curve
// goes through, where a file gives no other.
type dxfSpline struct {
	flags, degree  int
	knots, weights []float64
	controls       []orb.Point
	through        []orb.Point
	tangents       [2]orb.Point // at the ends of through; unset where the file has none
	heights
	line int
}

// newDXFSpline has room for what the shortest cubic has.
func newDXFSpline() *dxfSpline {
	return &dxfSpline{knots: make([]float64, 0, 8), controls: make([]orb.Point, 0, 4)}
}

// Flags of a SPLINE.
const splineClosed = 1

// mostDegree is the highest degree of a spline that is read. Drawings have 3, some 5.
const mostDegree = 11

// cubicWork is the work for a control point of a cubic spline, in units that grow with the
// square of the degree: one of degree 11 costs as much as 13 of those.
const cubicWork = 9

func (s *dxfSpline) take(f *dxfFile, t dxfTag) (err error) {
	var v float64
	switch t.code {
	case 10, 11:
		list := &s.controls
		if t.code == 11 {
			list = &s.through
		}
		*list = append(*list, unset)
		if err = f.vertex(t.line); err == nil {
			(*list)[len(*list)-1][0], err = t.number()
		}
	case 20, 21:
		list := s.controls
		if t.code == 21 {
			list = s.through
		}
		if len(list) > 0 {
			list[len(list)-1][1], err = t.number()
		}
	case 12, 13, 22, 23:
		if s.tangents == ([2]orb.Point{}) {
			s.tangents = [2]orb.Point{unset, unset}
		}
		s.tangents[t.code%10-2][t.code/10-1], err = t.number()
	case 30, 31:
		err = s.heights.take(t)
	case 40:
		if v, err = t.number(); err == nil {
			s.knots = append(s.knots, v)
		}
	case 41:
		if v, err = t.number(); err == nil {
			s.weights = append(s.weights, v)
		}
	case 70:
		s.flags, err = t.whole()
	case 71:
		s.degree, err = t.whole()
		s.line = t.line
	}
	return err
}

func (s *dxfSpline) whole() bool {
	for _, list := range [][]orb.Point{s.controls, s.through} {
		for _, p := range list {
			if !given(p) {
				return false
			}
		}
	}
	return len(s.controls)+len(s.through) > 0
}

func (s *dxfSpline) onPlane() bool { return false }

// check refuses what is no B-spline.
func (s *dxfSpline) check() error {
	n, p := len(s.controls), s.degree
	redraw := "draw the curve again, or save it as a polyline"
	switch {
	case p < 1 || p > mostDegree:
		return say.Errorf("a spline of degree %d: those from 1 to %d are read", p, mostDegree).Hint("%s", redraw)
	case n < p+1:
		return say.Errorf("a spline of degree %d with %d control points, which takes %d", p, n, p+1).Hint("%s", redraw)
	case len(s.knots) != n+p+1:
		return say.Errorf("a spline of degree %d with %d control points and %d knots, which takes %d", p, n, len(s.knots),
			n+p+1).Hint("%s", redraw)
	case len(s.weights) > 0 && len(s.weights) != n:
		return say.Errorf("a spline with %d control points and %d weights", n, len(s.weights)).Hint("%s", redraw)
	}
	for i := 1; i < len(s.knots); i++ {
		if s.knots[i] < s.knots[i-1] {
			return say.Errorf("a spline whose knot %d, %g, is below the one before", i+1, s.knots[i]).Hint("%s", redraw)
		}
	}
	for i, w := range s.weights {
		if !(w > 0) {
			return say.Errorf("a spline whose weight %d is %g, not above 0", i+1, w).Hint("%s", redraw)
		}
	}
	return nil
}

// homogeneous is a point of a rational curve: x w, y w and its weight w.
type homogeneous [3]float64

func (h homogeneous) point() orb.Point { return orb.Point{h[0] / h[2], h[1] / h[2]} }

// mix is the point at a part of the way from g to h.
func mix(g, h homogeneous, part float64) homogeneous {
	for i := range g {
		g[i] += (h[i] - g[i]) * part
	}
	return g
}

func (s *dxfSpline) trace(t *dxfTrace) error {
	if len(s.controls) == 0 {
		return s.traceThrough(t)
	}
	if err := s.check(); err != nil {
		return err
	}
	if err := t.spend(len(s.controls) * max(s.degree*s.degree/cubicWork, 1)); err != nil {
		return err
	}
	all := make([]homogeneous, len(s.controls))
	for i, c := range s.controls {
		w := 1.0
		if len(s.weights) > 0 {
			w = s.weights[i]
		}
		c = t.m.apply(c)
		if err := within(c, 10*MaxCoordinate); err != nil {
			return err
		}
		all[i] = homogeneous{c[0] * w, c[1] * w, w}
	}
	begun, bezier := false, make([]homogeneous, s.degree+1)
	for p, i := s.degree, s.degree; i < len(all); i++ {
		if s.knots[i] == s.knots[i+1] {
			continue
		}
		span(bezier, all, s.knots, p, i)
		from := bezier[0].point()
		if !begun || apart(from, t.line[len(t.line)-1]) > t.e {
			t.line, begun = append(t.line, from), true // or goes on elsewhere, after one knot too many
		}
		if i > p && s.knots[i] == s.knots[i-p+1] {
			t.corner() // a knot as often as the degree lets the curve turn there
		}
		if t.line = s.flatten(t.line, bezier, t.e); len(t.line) > t.left {
			return errManyVertices
		}
	}
	if n := len(t.line); s.flags&splineClosed != 0 && n > 3 && apart(t.line[0], t.line[n-1]) <= t.e {
		t.line[n-1] = t.line[0]
	}
	return nil
}

// apart is how far a point is from another.
func apart(p, q orb.Point) float64 { return math.Hypot(p[0]-q[0], p[1]-q[1]) }

// span sets the control points of the Bezier curve that a B-spline of degree p is between
// knots i and i+1, which differ: the j-th is the value of its polar form (blossom) for p-j
// times the one and j times the other (Ramshaw, Blossoms are polar forms, CAGD 6, 1989).
func span(bezier, controls []homogeneous, knots []float64, p, i int) {
	var d [mostDegree + 1]homogeneous
	for j := range bezier {
		copy(d[:], controls[i-p:i+1])
		for r := 1; r <= p; r++ {
			at := knots[i]
			if r > p-j {
				at = knots[i+1]
			}
			for k := p; k >= r; k-- {
				low, high := knots[k+i-p], knots[k+1+i-r]
				d[k] = mix(d[k-1], d[k], (at-low)/(high-low))
			}
		}
		bezier[j] = d[p]
	}
}

// flatten appends a span of the spline, whose control points these are. Only cubic curves
// enclose what they should with points that are moved; the chords of others are as near as
// one that stands alone has to be.
func (s *dxfSpline) flatten(line orb.LineString, c []homogeneous, chordError float64) orb.LineString {
	switch {
	case s.degree == 1:
		return append(line, c[1].point())
	case len(s.weights) > 0 || s.degree > 3:
		return flattenRational(line, c, chordError*farOff, 0)
	case s.degree == 2:
		return flattenQuadratic(line, [3]orb.Point{c[0].point(), c[1].point(), c[2].point()}, chordError)
	}
	return flattenCubic(line, [4]orb.Point{c[0].point(), c[1].point(), c[2].point(), c[3].point()}, chordError)
}

// flattenRational appends a rational Bezier curve whose weights are above 0. Such a curve lies
// within the hull of its control points, so that it is flat once these are near its chord.
func flattenRational(line orb.LineString, c []homogeneous, chordError float64, deep int) orb.LineString {
	last := len(c) - 1
	if deep == mostHalvings || hugs(c, chordError) {
		return append(line, c[last].point())
	}
	var l, r [mostDegree + 1]homogeneous // on the stack
	left, right := l[:last+1], r[:last+1]
	copy(right, c)
	for r := range left { // de Casteljau
		left[r] = right[0]
		for k := 0; k < last-r; k++ {
			right[k] = mix(right[k], right[k+1], 0.5)
		}
	}
	line = flattenRational(line, left, chordError, deep+1)
	return flattenRational(line, right, chordError, deep+1)
}

// hugs tells whether all control points are near the chord, so that the curve is, and in
// order along it, so that the chord is near the curve.
func hugs(c []homogeneous, chordError float64) bool {
	from, to := c[0].point(), c[len(c)-1].point()
	chord := orb.Point{to[0] - from[0], to[1] - from[1]}
	length := chord[0]*chord[0] + chord[1]*chord[1]
	for _, h := range c[1 : len(c)-1] {
		p := h.point()
		v := orb.Point{p[0] - from[0], p[1] - from[1]}
		if length > 0 {
			part := min(max((v[0]*chord[0]+v[1]*chord[1])/length, 0), 1)
			v = orb.Point{v[0] - part*chord[0], v[1] - part*chord[1]}
		}
		if v[0]*v[0]+v[1]*v[1] > chordError*chordError {
			return false
		}
	}
	return true
}
