package outline

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// Read reads a drawing in any format: by its content, and by the ending of the file's name
// where that could be several. Errors name the place in the file, and not the file.
func Read(name string, r io.Reader) (Drawing, error) {
	text, err := io.ReadAll(io.LimitReader(r, MaxDrawingBytes+1))
	if err != nil {
		return Drawing{}, err
	}
	if len(text) > MaxDrawingBytes {
		return Drawing{}, say.Errorf("the file is over %d MiB, the most that is read", MaxDrawingBytes>>20).
			Hint("leave out pictures and what is not cut, or share the pieces out over several files")
	}
	begins := bytes.TrimSpace(bytes.TrimPrefix(text[:min(len(text), 100)], []byte("\ufeff")))
	ending := strings.ToLower(filepath.Ext(name))
	switch {
	case bytes.HasPrefix(begins, []byte("{")):
		return drawingGeoJSON(bytes.NewReader(text))
	case bytes.HasPrefix(begins, []byte("<")):
		return ReadSVG(bytes.NewReader(text))
	case ending == ".dxf" || ending == ".dwg" || bytes.HasPrefix(begins, []byte("0")) ||
		bytes.HasPrefix(begins, []byte("999")) || bytes.HasPrefix(begins, []byte(dxfBinary)):
		return ReadDXF(bytes.NewReader(text))
	case ending == ".svg":
		return ReadSVG(bytes.NewReader(text))
	}
	return drawingGeoJSON(bytes.NewReader(text))
}

// drawingGeoJSON reads GeoJSON as a drawing.
func drawingGeoJSON(r io.Reader) (Drawing, error) {
	named, err := ReadGeoJSON(r)
	if err != nil {
		return Drawing{}, err
	}
	d := Drawing{Unit: Unit{1, "GeoJSON is read in millimetres"}, Apart: true}
	for i, n := range named {
		d.Lines = append(d.Lines, Line{Points: orb.LineString(n.Ring), Corners: []int{0, len(n.Ring) - 1},
			Closed: true, Marks: Marks{Label: n.Name}, Place: fmt.Sprintf("feature %d", i+1)})
	}
	return d, nil
}
