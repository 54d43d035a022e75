package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/shapes"
	"yardlay/shapes/plane"
)

// enlarged draws a piece larger, so that it has its size after the first wash:
// cut size is finished size over 1 + the change, along warp and weft apart (ISO
// 5077 for the sign). On the cross grain the piece's length runs along the weft.
func enlarged(p shapes.Piece, w job.Shrinkage, g job.Grain) shapes.Piece {
	if w.Prewash || w.Warp == 0 && w.Weft == 0 {
		return p
	}
	along, across := 1/(1+w.Warp), 1/(1+w.Weft)
	if g == job.CrossGrain {
		along, across = across, along
	}
	return stretched(p, along, across)
}

// stretched returns a piece with all its lines drawn larger by a factor along its
// grain and one across. A fold stays one level line, of seam and cut line alike.
func stretched(p shapes.Piece, along, across float64) shapes.Piece {
	fold := math.NaN()
	for _, e := range p.Edges {
		if e.Kind == shapes.Fold {
			fold = e.Line[0][1]
		}
	}
	cutFold := plane.Snap(fold)
	point := func(v orb.Point) orb.Point {
		if v[1] == fold || v[1] == cutFold {
			return orb.Point{v[0] * along, plane.Snap(cutFold * across)}
		}
		return orb.Point{v[0] * along, v[1] * across}
	}
	line := func(l orb.LineString) orb.LineString {
		out := make(orb.LineString, len(l))
		for i, v := range l {
			out[i] = point(v)
		}
		return out
	}
	cut := plane.SnapRing(orb.Ring(line(orb.LineString(p.Cut))))
	if math.IsNaN(fold) {
		level := levels(p.Cut, across)
		for i, v := range p.Cut {
			cut[i][1] = level(v[1])
		}
	}
	p.Cut = plane.Tidy(cut)
	p.Seam = orb.Ring(line(orb.LineString(p.Seam)))
	p.Grain = line(p.Grain)
	p.Edges, p.Inside, p.Notches = slices.Clone(p.Edges), slices.Clone(p.Inside), slices.Clone(p.Notches)
	for i := range p.Edges {
		p.Edges[i].Line = line(p.Edges[i].Line)
	}
	for i := range p.Inside {
		p.Inside[i] = line(p.Inside[i])
	}
	for i, n := range p.Notches {
		out := orb.Point{n.Outward[0] / along, n.Outward[1] / across} // normals stretch the other way
		length := math.Hypot(out[0], out[1])
		p.Notches[i].At, p.Notches[i].Outward = point(n.At), orb.Point{out[0] / length, out[1] / length}
	}
	return p
}

// levels returns where the levels of a ring come to lie when it is drawn larger across: on the lattice, each measured
// from the nearer side, so that what was alike on both sides of its middle still is. Where a corner lies on the middle,
// the ring gets one that is on the lattice.
func levels(ring orb.Ring, across float64) func(y float64) float64 {
	b := plane.Bounds(ring)
	low, high := plane.Snap(b.Min[1]*across), plane.Snap(b.Max[1]*across)
	if slices.ContainsFunc(ring, func(v orb.Point) bool { return v[1]-b.Min[1] == b.Max[1]-v[1] }) {
		high = low + 2*plane.Snap((b.Max[1]-b.Min[1])/2*across)
	}
	return func(y float64) float64 {
		if up, down := y-b.Min[1], b.Max[1]-y; up > down {
			return high - plane.Snap(down*across)
		} else {
			return low + plane.Snap(up*across)
		}
	}
}

// Larger says by how much the pieces are drawn larger; "" when they are not.
func (s Spread) Larger() string {
	w := s.Cloth.Shrinkage
	if w.Prewash || w.Warp == 0 && w.Weft == 0 {
		return ""
	}
	return "Drawn larger for a cloth that changes by " + ChangeWords(w) +
		" in its first wash: all sizes are before washing."
}

// ChangeWords says by how much a cloth changes: "-3 % along and -2 % across".
func ChangeWords(w job.Shrinkage) string {
	var said []string
	if w.Warp != 0 {
		said = append(said, fmt.Sprintf("%+.4g %% along", 100*w.Warp))
	}
	if w.Weft != 0 {
		said = append(said, fmt.Sprintf("%+.4g %% across", 100*w.Weft))
	}
	return strings.Join(said, " and ")
}
