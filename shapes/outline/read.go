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

// Read reads a drawing in any of the formats that are read, SVG, DXF and GeoJSON: by what it
// begins with, and by the ending of the name of its file where that could be several. Errors
// name the place in the file, and not the file.
func Read(name string, r io.Reader) (Drawing, error) { return read(name, r, ReadSVG, ReadDXF) }

// ReadWithin is Read with curves at most chordError from their chords, in the unit of the
// coordinates returned, as Finer asks for.
func ReadWithin(name string, r io.Reader, chordError float64) (Drawing, error) {
	return read(name, r, func(r io.Reader) (Drawing, error) { return ReadSVGWithin(r, chordError) },
		func(r io.Reader) (Drawing, error) { return ReadDXFWithin(r, chordError) })
}

func read(name string, r io.Reader, svg, dxf func(io.Reader) (Drawing, error)) (Drawing, error) {
	text, err := io.ReadAll(io.LimitReader(r, MaxDrawingBytes+1))
	if err != nil {
		return Drawing{}, err
	}
	if len(text) > MaxDrawingBytes {
		return Drawing{}, say.Errorf("the file is over %d MiB, the most that is read", MaxDrawingBytes>>20).
			Hint("leave out pictures and what is not cut, or share the pieces out over several files")
	}
	ending := strings.ToLower(filepath.Ext(name))
	begins := bytes.TrimSpace(bytes.TrimPrefix(text, []byte("\ufeff")))
	is := func(prefix string) bool { return bytes.HasPrefix(begins, []byte(prefix)) }
	switch {
	case is("%PDF"):
		return Drawing{}, say.Errorf("a PDF is not read").
			Hint("turn its page into SVG, with \"yardlay take %s --out FOLDER\" or a drawing program", filepath.Base(name))
	case is("{"), ending == ".geojson", ending == ".json":
		return readGeoJSON(bytes.NewReader(text))
	case is("<"), is("\x1f\x8b"), ending == ".svg", ending == ".svgz":
		return svg(bytes.NewReader(text))
	case is("AutoCAD"), is("AC10"), is("0"), is("999"), ending == ".dxf":
		return dxf(bytes.NewReader(text))
	}
	return Drawing{}, say.Errorf("this is no drawing that is read").Hint("save it as SVG, DXF or GeoJSON")
}

// readGeoJSON reads GeoJSON as a drawing.
func readGeoJSON(r io.Reader) (Drawing, error) {
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
