package instance

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"github.com/paulmach/orb"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// placedFile is a marker as written: a GeoJSON FeatureCollection, x along the
// cloth and y across.
type placedFile struct {
	Type     string          `json:"type"`
	Cloth    string          `json:"cloth"`
	Width    *float64        `json:"width"`  // usable
	Length   *float64        `json:"length"` // used
	Features []placedFeature `json:"features"`
}

type placedFeature struct {
	Type       string           `json:"type"`
	Properties placedProperties `json:"properties"`
	Geometry   polygon          `json:"geometry"`
}

type placedProperties struct {
	Piece    string  `json:"piece"`
	Copy     int     `json:"copy"` // from 1
	Turn     float64 `json:"turn"` // degrees counter-clockwise
	Mirrored bool    `json:"mirrored"`
}

// WritePlaced writes a marker of p as GeoJSON, one feature a placed piece and a
// line, lengths divided by scale (a power of two; 1 for millimetres), numbers in
// the fewest digits that read back the same.
func WritePlaced(w io.Writer, name string, p nest.Problem, l nest.Layout, scale float64) error {
	var out bytes.Buffer
	put := func(before string, v any) error {
		text, err := json.Marshal(v)
		if err != nil {
			return fmt.Errorf("writing marker %q: %w", name, err)
		}
		out.WriteString(before)
		out.Write(text)
		return nil
	}
	for _, member := range []struct {
		before string
		value  any
	}{
		{`{"type": "FeatureCollection", "cloth": `, name},
		{`, "width": `, p.Strip.Width / scale},
		{`, "length": `, l.Length / scale},
	} {
		if err := put(member.before, member.value); err != nil {
			return err
		}
	}
	out.WriteString(", \"features\": [")
	before := "\n"
	for _, pl := range l.Placed {
		if err := put(before, placedAs(p, pl, scale)); err != nil {
			return err
		}
		before = ",\n"
	}
	out.WriteString("\n]}\n")
	_, err := w.Write(out.Bytes())
	return err
}

func placedAs(p nest.Problem, pl nest.Placed, scale float64) placedFeature {
	positions := [][]float64{}
	for _, v := range times(p.Outline(pl), 1/scale) {
		positions = append(positions, []float64{v[0], v[1]})
	}
	return placedFeature{
		Type: "Feature",
		Properties: placedProperties{
			Piece: p.Pieces[pl.Piece].Name, Copy: pl.Copy + 1, Turn: pl.Turn, Mirrored: pl.Mirrored,
		},
		Geometry: polygon{Type: "Polygon", Coordinates: [][][]float64{positions}},
	}
}

// ReadPlaced reads a marker of p that was written with the same scale. Places
// are worked out from the outlines alone, and each outline must be that of its
// piece in that turn, vertex for vertex; whether the marker may be cut is for
// nest.Verify to say. The pieces of p must differ in name.
func ReadPlaced(r io.Reader, p nest.Problem, scale float64) (name string, l nest.Layout, err error) {
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
