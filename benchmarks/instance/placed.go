package instance

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"

	"yardlay/nest"
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
