package instance

import (
	"errors"
	"fmt"
	"io"

	"github.com/paulmach/orb"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// readPlaced reads a marker of p that was written with the same scale. Places
// are worked out from the outlines alone, and each outline must be that of its
// piece in that turn, vertex for vertex; whether the marker may be cut is for
// nest.Verify to say. The pieces of p must differ in name.
func readPlaced(r io.Reader, p nest.Problem, scale float64) (name string, l nest.Layout, err error) {
	var f placedFile
	if err := decode(r, &f); err != nil {
		return "", l, err
	}
	if f.Type != "FeatureCollection" || f.Width == nil || f.Length == nil {
		return "", l, errors.New("marker: want a FeatureCollection with width and length")
	}
	if width := *f.Width * scale; width != p.Strip.Width {
		return "", l, fmt.Errorf("marker %q: width is %v, the problem's %v", f.Cloth, *f.Width, p.Strip.Width/scale)
	}
	pieces := make(map[string]int)
	for i, piece := range p.Pieces {
		if _, twice := pieces[piece.Name]; twice {
			return "", l, fmt.Errorf("marker %q: the problem has two pieces %q", f.Cloth, piece.Name)
		}
		pieces[piece.Name] = i
	}
	l.Length = *f.Length * scale
	for i, feature := range f.Features {
		pl, err := feature.placed(p, pieces, scale)
		if err != nil {
			return "", l, fmt.Errorf("marker %q: feature %d: %w", f.Cloth, i, err)
		}
		l.Placed = append(l.Placed, pl)
	}
	return f.Cloth, l, nil
}

func (f placedFeature) placed(p nest.Problem, pieces map[string]int, scale float64) (nest.Placed, error) {
	index, known := pieces[f.Properties.Piece]
	if f.Type != "Feature" || !known {
		return nest.Placed{}, fmt.Errorf("%q of a piece %q, which the problem has not", f.Type, f.Properties.Piece)
	}
	found, err := f.Geometry.ring()
	if err != nil {
		return nest.Placed{}, err
	}
	pl := nest.Placed{Piece: index, Copy: f.Properties.Copy - 1, Turn: f.Properties.Turn,
		Mirrored: f.Properties.Mirrored}
	found = times(found, scale)
	if drawn := p.Outline(pl); len(found) > 0 && len(drawn) > 0 {
		pl.At = orb.Point{found[0][0] - drawn[0][0], found[0][1] - drawn[0][1]}
	}
	if plane.SnapPoint(pl.At) != pl.At || !sameOutline(p.Outline(pl), found) {
		return nest.Placed{}, fmt.Errorf("outline is not that of %q copy %d turned %v degrees",
			f.Properties.Piece, f.Properties.Copy, f.Properties.Turn)
	}
	return pl, nil
}

// sameOutline compares vertex for vertex; vertices of want repeated in a row by
// snapping count once, as polygon.ring reads them.
func sameOutline(want, got orb.Ring) bool {
	k := 0
	for i, v := range want {
		if i > 0 && v == want[i-1] {
			continue
		}
		if k >= len(got) || got[k] != v {
			return false
		}
		k++
	}
	return k == len(got)
}
