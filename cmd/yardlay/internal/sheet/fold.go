package sheet

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// How far the bracket of an edge on the fold stands off it, mm of paper: on a
// sheet of pieces, and on a marker, where the fold is a thick line.
const (
	foldDepth = 2.5
	layDepth  = 4.0
)

// foldSign draws the sign of an edge on the fold: a bracket whose two arrows
// point at the edge from a depth inside the piece, and words, if any, along it
// where they meet neither the outline nor a line that o marks or keeps clear.
func foldSign(edge orb.LineString, o Outline, depth float64, words string, k float64) []Item {
	a, b := edge[0], edge[len(edge)-1]
	length := math.Hypot(b[0]-a[0], b[1]-a[1])
	if length == 0 {
		return nil
	}
	ux, uy := (b[0]-a[0])/length, (b[1]-a[1])/length
	nx, ny := -uy, ux
	mid := orb.Point{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}
	if c, _ := planar.CentroidArea(o.Cut); (c[0]-mid[0])*nx+(c[1]-mid[1])*ny < 0 {
		nx, ny = -nx, -ny
	}
	at := func(t, in float64) orb.Point {
		return orb.Point{a[0] + t*length*ux + in*nx, a[1] + t*length*uy + in*ny}
	}
	items := []Item{Line{RoleFold, orb.LineString{at(0.12, depth), at(0.88, depth)}}}
	items = append(items, arrow(RoleFold, at(0.12, depth), at(0.12, 0), 1.5*k, false)...)
	items = append(items, arrow(RoleFold, at(0.88, depth), at(0.88, 0), 1.5*k, false)...)
	if words == "" {
		return items
	}
	turn := readable(-math.Atan2(uy, ux) * 180 / math.Pi)
	lines := append(o.Inside[:len(o.Inside):len(o.Inside)], o.clear...)
	lines = append(lines, orb.LineString(o.Cut), orb.LineString(o.finished()))
	for _, shrunk := range []float64{1, 0.85, 0.7} {
		size := math.Min(textDim*k, 0.7*length/textWidth(words, 1)) * shrunk
		for _, t := range foldWords {
			place := at(t, depth+0.8*size)
			if clearBox(place, ux, uy, textWidth(words, size), size, lines) {
				return append(items, Text{Role: RoleNote, At: place, Anchor: Middle, Size: size,
					Turn: turn, Body: words})
			}
		}
	}
	return items // the facts over the piece say that it is cut on a fold
}

// bracket draws the sign of the piece's edge on the fold, shallow enough for the
// piece, and returns what a label keeps clear of.
func (pl Placed) bracket(l lay, o Outline) (items []Item, clear []orb.LineString) {
	if len(pl.Fold) < 2 || len(o.Cut) < 4 {
		return nil, nil
	}
	edge := orb.LineString(l.ring(orb.Ring(pl.Fold)))
	b := o.Cut.Bound()
	depth := math.Min(layDepth*l.k, 0.3*(b.Max[1]-b.Min[1]))
	items = foldSign(edge, o, depth, "", l.k)
	for _, it := range items {
		if line, ok := it.(Line); ok {
			clear = append(clear, line.Path)
		}
	}
	return items, clear
}
