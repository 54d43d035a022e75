package draft

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// trued is an edge with a dart that runs smoothly where the dart is folded. Drawn
// across an open dart, a smooth edge would have a corner once it is sewn, of the
// dart's angle and of what the edge turns over its mouth. So the feet of the legs
// are moved out, and the edge with them, by less and less towards its ends:
//
//	                peak
//	          first . second
//	  _..--""  \         /  ""--.._     u^2 of the way to the end at which
//	--          \       /          --   it is left as it was, its angle, too
//	             \     /
//	              \   /
//	               apex
//
// until it meets both legs squarely. Over the mouth it has the peak that lies on
// the edge when the dart is folded, so that the cut line follows too.
type trued struct {
	base          rule
	first, second float64    // where the feet stand, of 0 to 1 along the base
	out           [2]float64 // how far the feet are moved out, mm
	apex, peak    orb.Point
}

// rule is an edge before a dart is trued: its point at t from 0 to 1, and the way
// out of the piece there, of length 1.
type rule func(t float64) (at, out orb.Point)

// darting is what an edge with a dart must come to, mm: finished lengths on both
// sides of the dart, its width from foot to foot, its length down from there.
type darting struct{ before, width, after, length float64 }

// trueDart draws an edge with a dart. The base is drawn at a size, to begin with the
// one given, that grows with its length, and is found with the rest by Newton's
// method, differences for derivatives.
func trueDart(base func(size float64) rule, size float64, d darting) (trued, error) {
	// Central differences of coordinates of metres are rounded to some 1e-10 of the
	// rates; 1e-8 of an edge of a metre is a hundredth of a lattice step.
	const rounds, step, exact = 60, 1e-6, 1e-8
	whole := d.before + d.width + d.after
	edge := func(x []float64) trued {
		e := trued{base: base(size * x[0]), first: x[1], second: x[2], out: [2]float64{x[3] * whole, x[4] * whole}}
		e.setLegs(d.length)
		return e
	}
	x := []float64{1, d.before / whole, 1 - d.after/whole, 0, 0}
	for range rounds {
		e := edge(x)
		off := e.off(d)
		if floats.Norm(off, 2) < exact {
			return e, nil
		}
		slopes := mat.NewDense(len(x), len(x), nil)
		for i := range x {
			beside := slices.Clone(x)
			beside[i] += step
			for j, o := range edge(beside).off(d) {
				slopes.Set(j, i, (o-off[j])/step)
			}
		}
		var by mat.VecDense
		if by.SolveVec(slopes, mat.NewVecDense(len(off), off)) != nil {
			break
		}
		// A step may move nothing by more than a twentieth of the whole edge.
		share := min(1, 0.05/floats.Norm(by.RawVector().Data, math.Inf(1)))
		floats.AddScaled(x, -share, by.RawVector().Data)
		if !(x[0] > 0.2 && 0 < x[1] && x[1] < x[2] && x[2] < 1) {
			break
		}
	}
	return trued{}, say.Errorf("a dart %.1f wide and %.1f long cannot be folded into an edge of %.1f", say.MM(d.width),
		say.MM(d.length), say.MM(d.before+d.after)).
		Hint("a narrower or a longer dart")
}

// setLegs lays apex and peak, square to the mouth, to the feet as they are.
func (e *trued) setLegs(length float64) {
	a, b := e.at(e.first), e.at(e.second)
	wide := planar.Distance(a, b)
	_, out := e.base((e.first + e.second) / 2)
	up := orb.Point{(b[1] - a[1]) / wide, (a[0] - b[0]) / wide}
	if dot(up, out) < 0 {
		up = orb.Point{-up[0], -up[1]}
	}
	middle := orb.Point{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}
	rise := wide * wide / 4 / length // of the peak above the mouth: legs and seam are square
	e.apex = orb.Point{middle[0] - length*up[0], middle[1] - length*up[1]}
	e.peak = orb.Point{middle[0] + rise*up[0], middle[1] + rise*up[1]}
}

// off says how far the edge is from what it must come to, as shares of its length,
// and from meeting the legs squarely, as cosines.
func (e trued) off(d darting) []float64 {
	whole := d.before + d.width + d.after
	feet := [2]orb.Point{e.at(e.first), e.at(e.second)}
	out := []float64{(e.along(0, e.first) - d.before) / whole, (planar.Distance(feet[0], feet[1]) - d.width) / whole,
		(e.along(e.second, 1) - d.after) / whole}
	for i, foot := range feet {
		t, grow := e.first, 2/e.first
		if i == 1 {
			t, grow = e.second, -2/(1-e.second)
		}
		way, turn := e.rates(t)
		_, outward := e.base(t)
		along := orb.Point{way[0] + e.out[i]*(turn[0]+grow*outward[0]), way[1] + e.out[i]*(turn[1]+grow*outward[1])}
		leg := orb.Point{foot[0] - e.apex[0], foot[1] - e.apex[1]}
		out = append(out, dot(along, leg)/math.Sqrt(dot(along, along)*dot(leg, leg)))
	}
	return out
}

func dot(a, b orb.Point) float64 { return a[0]*b[0] + a[1]*b[1] }

// rates returns how fast the base's point and its way out change with t, by
// central differences.
func (e trued) rates(t float64) (way, turn orb.Point) {
	const h = 1e-5
	p, out := e.base(t - h)
	q, far := e.base(t + h)
	return orb.Point{(q[0] - p[0]) / (2 * h), (q[1] - p[1]) / (2 * h)},
		orb.Point{(far[0] - out[0]) / (2 * h), (far[1] - out[1]) / (2 * h)}
}

// at returns the edge's point at t, within the mouth one of the base moved out.
func (e trued) at(t float64) orb.Point {
	u, far := t/e.first, e.out[0]
	if t >= e.second {
		u, far = (1-t)/(1-e.second), e.out[1]
	}
	u = min(u, 1)
	p, out := e.base(t)
	return orb.Point{p[0] + far*u*u*out[0], p[1] + far*u*u*out[1]}
}

// along returns the length of the edge between two places, mm, by chords: within
// the 20,000th part of what it turns by in radians.
func (e trued) along(from, to float64) float64 {
	const n = 48
	sum, last := 0.0, e.at(from)
	for i := 1; i <= n; i++ {
		p := e.at(from + (to-from)*float64(i)/n)
		sum += planar.Distance(last, p)
		last = p
	}
	return sum
}

// line samples the edge between two places within a chord error, the peak in the
// mouth where it is between them.
func (e trued) line(from, to, chord float64) orb.LineString {
	if to <= e.first || from >= e.second {
		return sampled(e.at, from, to, chord)
	}
	line := append(sampled(e.at, from, e.first, chord), e.peak)
	return append(line, sampled(e.at, e.second, to, chord)...)
}

// markOn marks the dart of a line drawn from the edge, moved by a shift, on the
// piece.
func (e trued) markOn(p *shapes.Piece, edge string, by orb.Point) error {
	return e.opened(edge).markOn(p, by)
}

// opened is the dart as drawn on an edge.
func (e trued) opened(edge string) openDart {
	return openDart{edge, e.at(e.first), e.at(e.second), e.apex}
}

// openDart is a dart as drawn: its feet on an edge and its point.
type openDart struct {
	edge       string
	a, b, apex orb.Point
}

// markOn marks the dart, moved by a shift, on the piece.
func (d openDart) markOn(p *shapes.Piece, by orb.Point) error {
	line, _ := p.Edge(d.edge)
	move := func(v orb.Point) orb.Point { return orb.Point{v[0] + by[0], v[1] + by[1]} }
	a, b := nearest(line.Line, move(d.a)), nearest(line.Line, move(d.b))
	return p.AddDart(d.edge, shapes.Mouth{From: min(a, b), Width: math.Abs(b - a)}, move(d.apex))
}

// nearest returns how far along a line, mm, its vertex nearest to a point lies.
func nearest(line orb.LineString, to orb.Point) float64 {
	least, at, sum := math.Inf(1), 0.0, 0.0
	for i, v := range line {
		if i > 0 {
			sum += planar.Distance(line[i-1], v)
		}
		if d := planar.Distance(v, to); d < least {
			least, at = d, sum
		}
	}
	return at
}
