package draft

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
	"yardlay/shapes/say"
)

// folded is a dart that opens on faced edges. Its legs lie on each other once all beyond it
// is turned about its point:
//
//	 a   b              a
//	--. .---          ---.---
//	   V        ->       |
//	  apex
type folded struct {
	edge        int     // among the faced ones
	of          string  // its name
	own         float64 // where it opens along that, mm
	from, width float64 // along all of them, mm
	a, b, apex  orb.Point
}

// dartsOn finds the darts of a piece that open on some of its edges.
func dartsOn(p shapes.Piece, edges []shapes.Edge) ([]folded, error) {
	var out []folded
	start := 0.0
	for i, e := range edges {
		for _, d := range p.Darts {
			if d.Edge != e.Name {
				continue
			}
			f := folded{edge: i, of: e.Name, own: d.Mouth.From, from: start + d.Mouth.From, width: d.Mouth.Width}
			f.a, _ = e.At(d.Mouth.From)
			f.b, _ = e.At(d.Mouth.From + d.Mouth.Width)
			at := slices.IndexFunc(p.Inside, func(l orb.LineString) bool {
				return len(l) == 3 && planar.Distance(l[0], f.a) < 1e-6 && planar.Distance(l[2], f.b) < 1e-6
			})
			if at < 0 {
				return nil, say.Errorf("a dart on its %s has no legs", e.Name)
			}
			f.apex = p.Inside[at][1]
			out = append(out, f)
		}
		start += e.Length()
	}
	slices.SortFunc(out, func(a, b folded) int { return cmp.Compare(a.from, b.from) })
	return out, nil
}

// segment says between which darts a place along the faced edges lies, 0 before the
// first; not ok in the mouth of one.
func (c facedRun) segment(s float64) (seg int, ok bool) {
	for _, d := range c.darts {
		switch {
		case s <= d.from+1e-6:
			return seg, true
		case s < d.from+d.width-1e-6:
			return seg, false
		}
		seg++
	}
	return seg, true
}

// fold brings a point of a segment to where it lies with the darts folded. What stays in
// its place is the end on a fold, else the start.
func (c facedRun) fold(v orb.Point, seg int) orb.Point {
	if c.next.Kind == shapes.Fold {
		for _, d := range c.darts[seg:] {
			v = d.turned(v, d.a, d.b)
		}
		return v
	}
	for i := seg - 1; i >= 0; i-- {
		v = c.darts[i].turned(v, c.darts[i].b, c.darts[i].a)
	}
	return v
}

// turned turns a point about that of the dart, by the angle from one leg's foot to the
// other's.
func (d folded) turned(v, from, to orb.Point) orb.Point {
	f, t := sub2(from, d.apex), sub2(to, d.apex)
	sin, cos := math.Sincos(math.Atan2(f[0]*t[1]-f[1]*t[0], f[0]*t[0]+f[1]*t[1]))
	u := sub2(v, d.apex)
	return orb.Point{d.apex[0] + u[0]*cos - u[1]*sin, d.apex[1] + u[0]*sin + u[1]*cos}
}

// foldedAt is where a place along one of the faced edges comes to lie with its darts
// folded; not ok at a dart, which the facing does not have.
func (c facedRun) foldedAt(edge string, at float64) (float64, bool) {
	const foot = 0.5 // mm
	out := at
	for _, d := range c.darts {
		switch {
		case d.of != edge || at < d.own-foot:
		case at <= d.own+d.width+foot:
			return 0, false
		default:
			out -= d.width
		}
	}
	return out, true
}
