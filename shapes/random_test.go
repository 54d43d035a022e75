package shapes

import (
	"math"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"
)

// bent is a line from a to b that bends to its left by up to a share of its length, and
// to its right, in some steps: a curve as drafts have them.
func bent(t *rapid.T, a, b orb.Point, most float64) orb.LineString {
	n := rapid.IntRange(1, 24).Draw(t, "steps")
	first, second := rapid.Float64Range(-most, most).Draw(t, "bend"), rapid.Float64Range(-most, most).Draw(t, "wave")
	dx, dy := b[0]-a[0], b[1]-a[1]
	line := orb.LineString{a}
	for i := 1; i < n; i++ {
		s := float64(i) / float64(n)
		off := first*math.Sin(math.Pi*s) + second*math.Sin(2*math.Pi*s)
		line = append(line, orb.Point{a[0] + s*dx - off*dy, a[1] + s*dy + off*dx})
	}
	return append(line, b)
}

// panelOf is a piece with four bent edges, lower, hem, upper and waist, with allowances of
// their own; on the fold the lower one is straight and lies there.
func panelOf(t *rapid.T, name string, onFold bool) Piece {
	for {
		w, h := rapid.Float64Range(120, 900).Draw(t, "w"), rapid.Float64Range(120, 600).Draw(t, "h")
		lean := rapid.Float64Range(-0.2, 0.2)
		a, b := orb.Point{0, 0}, orb.Point{w, 0}
		c := orb.Point{w * (1 + lean.Draw(t, "c")), h * (1 + lean.Draw(t, "ch"))}
		d := orb.Point{w * lean.Draw(t, "d"), h * (1 + lean.Draw(t, "dh"))}
		allowance := rapid.SampledFrom([]float64{0, 5, 10, 12.7, 15, 30})
		edges := []Edge{
			{Name: "lower", Kind: Seam, Line: bent(t, a, b, 0.08), Allowance: allowance.Draw(t, "lower")},
			{Name: "hem", Kind: Hem, Line: bent(t, b, c, 0.08), Allowance: allowance.Draw(t, "hem")},
			{Name: "upper", Kind: Seam, Line: bent(t, c, d, 0.08), Allowance: allowance.Draw(t, "upper")},
			{Name: "waist", Kind: Waist, Line: bent(t, d, a, 0.08), Allowance: allowance.Draw(t, "waist")},
		}
		if onFold {
			edges[0] = Edge{Name: "fold", Kind: Fold, Line: orb.LineString{a, b}}
		}
		if p, err := NewPiece(name, edges); err == nil {
			return p
		}
	}
}

// cutEdges are the edges of a panel that are cut.
var cutEdges = []string{"hem", "upper", "waist"}

// treatments take up part of an edge, as gathers, ease and pleats do; darts apart.
var treatments = rapid.Custom(func(t *rapid.T) Treatment {
	tr := Treatment{}
	switch rapid.IntRange(0, 3).Draw(t, "kind") {
	case 1:
		tr.Gather = rapid.Float64Range(1, 3).Draw(t, "gather")
	case 2:
		tr.Ease = rapid.Float64Range(-8, 20).Draw(t, "ease")
	case 3:
		tr.Pleats, tr.PleatDepth = rapid.IntRange(1, 4).Draw(t, "pleats"), rapid.Float64Range(2, 10).Draw(t, "depth")
	}
	return tr
})
