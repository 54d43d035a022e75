package report

import (
	"bytes"
	"encoding/json"

	"github.com/paulmach/orb"

	"yardlay/nest"
)

// The parts of a GeoJSON text (RFC 7946) that a marker needs. Coordinates are
// millimetres, x along the cloth and y across it, printed so that they read
// back to the same float64.
type collection struct {
	Type     string    `json:"type"`
	Cloth    string    `json:"cloth"`
	Width    float64   `json:"width"`         // laid on
	Length   float64   `json:"length"`        // used
	Lay      string    `json:"lay,omitempty"` // unless it is open
	Features []feature `json:"features"`
}

type feature struct {
	Type       string     `json:"type"`
	Properties properties `json:"properties"`
	Geometry   geometry   `json:"geometry"`
}

type properties struct {
	Piece    string  `json:"piece"`
	Copy     int     `json:"copy"`             // from 1
	Second   int     `json:"second,omitempty"` // the copy cut with it through another layer
	Grain    string  `json:"grain"`            // lengthwise, cross or bias
	Turn     float64 `json:"turn"`
	Mirrored bool    `json:"mirrored"`
}

type geometry struct {
	Type        string     `json:"type"`
	Coordinates []orb.Ring `json:"coordinates"`
}

// GeoJSON returns a marker of the cloth, one of its Markers, as a
// FeatureCollection: one Feature a placed piece with its cut outline, one on a line.
func (c Cloth) GeoJSON(s Stretch) ([]byte, error) {
	all := collection{Type: "FeatureCollection", Cloth: c.ID, Width: s.Width, Length: s.Used, Features: []feature{}}
	if s.Fold != nest.Open {
		all.Lay = s.Lay
	}
	head, err := json.Marshal(all)
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	out.Write(bytes.TrimSuffix(head, []byte("]}")))
	for i, placed := range s.Layout.Placed {
		m := s.Marker[i]
		line, err := json.Marshal(feature{
			Type:       "Feature",
			Properties: properties{m.Piece, m.Copy, m.Second, m.Grain, m.Turn, m.Mirrored},
			Geometry:   geometry{"Polygon", []orb.Ring{s.Problem.Outline(placed)}},
		})
		if err != nil {
			return nil, err
		}
		if i > 0 {
			out.WriteByte(',')
		}
		out.WriteByte('\n')
		out.Write(line)
	}
	out.WriteString("\n]}\n")
	return out.Bytes(), nil
}
