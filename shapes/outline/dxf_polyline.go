package outline

import (
	"math"

	"github.com/paulmach/orb"
)

// unset is a point that a file has not given yet.
var unset = orb.Point{math.NaN(), math.NaN()}

// given tells whether a file has given a point.
func given(p orb.Point) bool { return !math.IsNaN(p[0]) && !math.IsNaN(p[1]) }

// axis reads a coordinate of a point: x has a code below 20, y one below 30.
func axis(p *orb.Point, t dxfTag) (err error) {
	p[t.code/10-1], err = t.number()
	return err
}

// vertex counts one more vertex of the file.
func (f *dxfFile) vertex(line int) error {
	if f.vertices++; f.vertices > MaxDrawingVertices {
		return dxfErrorf(line, "over %d vertices, the most that are read of a file", MaxDrawingVertices).
			Hint("save the pieces alone, or with curves instead of many short lines")
	}
	return nil
}

// heights tells whether points of a line lie at different heights above the drawing.
type heights struct {
	first  float64
	seen   bool
	uneven bool
}

func (h *heights) take(t dxfTag) error {
	z, err := t.number()
	h.uneven = h.uneven || h.seen && z != h.first
	if !h.seen {
		h.first, h.seen = z, true
	}
	return err
}

func (h *heights) slopes() bool { return h.uneven }

// dxfSegment is a LINE.
type dxfSegment struct {
	from, to orb.Point
	heights
}

func newDXFSegment() *dxfSegment { return &dxfSegment{from: unset, to: unset} }

func (l *dxfSegment) take(f *dxfFile, t dxfTag) error {
	switch t.code {
	case 10, 20:
		return axis(&l.from, t)
	case 11, 21:
		return axis(&l.to, t)
	case 30, 31:
		return l.heights.take(t)
	}
	return nil
}

func (l *dxfSegment) whole() bool { return given(l.from) && given(l.to) }

func (l *dxfSegment) onPlane() bool { return false }

func (l *dxfSegment) trace(t *dxfTrace) error {
	t.to(l.from)
	t.to(l.to)
	return nil
}

// dxfPolyline is an LWPOLYLINE, or a POLYLINE with its vertices.
type dxfPolyline struct {
	old      bool // a POLYLINE
	flags    int
	vertices []dxfVertex
	heights  // of one in space
}

// dxfVertex is a vertex. To the next one runs a straight line, or an arc whose bulge is the
// tangent of a quarter of its angle, counter-clockwise where it is above 0.
type dxfVertex struct {
	at    orb.Point
	bulge float64
	added bool // by a program, to make a curve of the others: no corner
}

// Flags of a POLYLINE and of its vertices.
const (
	polylineClosed    = 1
	polylineFitted    = 2 // arcs through its vertices
	polylineSplined   = 4 // a spline, whose vertices are its frame
	polyline3D        = 8
	polylineMesh      = 16
	polylineFaces     = 64
	vertexOfCurve     = 1
	vertexOfSpline    = 8
	vertexOfFrame     = 16
	vertexOfFacesOnly = 128 // together with 64: a corner of faces
)

func (p *dxfPolyline) take(f *dxfFile, t dxfTag) (err error) {
	switch {
	case t.code == 70:
		p.flags, err = t.whole()
	case p.old:
		// its own point is a dummy
	case t.code == 10:
		p.vertices = append(p.vertices, dxfVertex{at: unset})
		if err = f.vertex(t.line); err == nil {
			err = axis(&p.vertices[len(p.vertices)-1].at, t)
		}
	case len(p.vertices) == 0:
	case t.code == 20:
		err = axis(&p.vertices[len(p.vertices)-1].at, t)
	case t.code == 42:
		p.vertices[len(p.vertices)-1].bulge, err = t.number()
	}
	return err
}

func (p *dxfPolyline) whole() bool {
	for _, v := range p.vertices {
		if !given(v.at) {
			return false
		}
	}
	return true
}

func (p *dxfPolyline) mesh() bool { return p.old && p.flags&(polylineMesh|polylineFaces) != 0 }

func (p *dxfPolyline) onPlane() bool { return !p.old || p.flags&polyline3D == 0 }

// readVertices reads the vertices that follow a POLYLINE. Those of the frame of a spline are
// not drawn.
func (f *dxfFile) readVertices(s *dxfScanner, p *dxfPolyline, line int) error {
	for {
		t, err := s.next()
		if err != nil {
			return err
		}
		if !t.is(0, "VERTEX") {
			if t.is(0, "SEQEND") {
				return fields(s, func(dxfTag) error { return nil })
			}
			return dxfErrorf(t.line, "%s stands among the vertices of the POLYLINE of line %d", quoted(t.value), line).
				Hint("the last vertex is followed by SEQEND: save the file again where it was drawn")
		}
		if err := f.vertex(t.line); err != nil {
			return err
		}
		v, flags := dxfVertex{at: unset}, 0
		err = fields(s, func(t dxfTag) (err error) {
			switch t.code {
			case 10, 20:
				return axis(&v.at, t)
			case 30:
				if !p.onPlane() {
					return p.heights.take(t)
				}
			case 42:
				v.bulge, err = t.number()
			case 70:
				flags, err = t.whole()
			}
			return err
		})
		if err != nil {
			return err
		}
		v.added = flags&(vertexOfCurve|vertexOfSpline) != 0
		if flags&vertexOfFrame == 0 && flags&vertexOfFacesOnly == 0 {
			p.vertices = append(p.vertices, v)
		}
	}
}

func (p *dxfPolyline) trace(t *dxfTrace) error {
	for i, v := range p.vertices {
		if i == 0 {
			t.to(v.at)
			continue
		}
		if err := t.bulge(p.vertices[i-1], v.at); err != nil {
			return err
		}
		if !v.added {
			t.corner()
		}
	}
	if n := len(p.vertices); n > 0 && p.flags&polylineClosed != 0 {
		t.closed = true
		return t.bulge(p.vertices[n-1], p.vertices[0].at)
	}
	return nil
}

// leastSagitta is how far an arc is from its chord, in parts of the chord error, at the
// least; what is less is drawn straight, so that no centre is a light year away.
const leastSagitta = 1e-3

// bulge draws the segment behind a vertex. With b the bulge, c the chord and a = 4 atan b the
// angle, the radius is c (1 + b^2) / (4 b), the sagitta b c / 2, and the centre lies on the
// left of the chord's middle for b > 0, at c (1 - b^2) / (4 b) from it.
func (t *dxfTrace) bulge(from dxfVertex, to orb.Point) error {
	b, v := from.bulge, orb.Point{to[0] - from.at[0], to[1] - from.at[1]}
	chord := math.Hypot(v[0], v[1])
	if b == 0 || chord == 0 || math.Abs(b)*chord/2*t.m.stretch() < leastSagitta*t.e {
		t.to(to)
		return nil
	}
	off := (1 - b*b) / (4 * b) // in chords
	centre := orb.Point{(from.at[0]+to[0])/2 - off*v[1], (from.at[1]+to[1])/2 + off*v[0]}
	u := orb.Point{from.at[0] - centre[0], from.at[1] - centre[1]}
	return t.arc(arc{centre, u, orb.Point{-u[1], u[0]}, 0, 4 * math.Atan(b)}, to)
}
