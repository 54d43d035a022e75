package outline

import (
	"fmt"
	"io"
	"strings"

	"yardlay/shapes/say"
)

// ReadDXF reads a drawing in the ASCII form of DXF, of releases R12 to 2018 (AC1009 to
// AC1032; group codes as in the DXF Reference that is published with each). Insertions
// are opened out, so that every line lies where it is seen: scaled, turned, mirrored, in
// rows and columns. A file that draws nothing but in blocks, as pattern data may, is read
// with each block at its own origin.
//
// The unit is what $INSUNITS says, or a text "UNITS: METRIC" or "UNITS: ENGLISH". Curves are
// within ChordError; without either, in the unit that the drawing is most likely in
// (GuessUnit), and in any that is shorter.
//
// Layers that are off or frozen, paper space and what is no line (hatches, dimensions,
// pictures) are left out, and the notes say so. Binary DXF, what DXF does not allow, blocks
// that hold themselves, and what is beyond the limits of a drawing are refused with the
// line of the file.
func ReadDXF(r io.Reader) (Drawing, error) { return readDXF(r, 0) }

// ReadDXFWithin is ReadDXF with curves at most chordError from their chords, in the unit of
// the coordinates returned: whoever scales a drawing up asks for as much less.
func ReadDXFWithin(r io.Reader, chordError float64) (Drawing, error) {
	if !(chordError > 0) {
		return Drawing{}, fmt.Errorf("the chord error %g is not above 0", chordError)
	}
	return readDXF(r, chordError)
}

// readDXF reads a drawing; the chord error 0 stands for what ReadDXF promises.
func readDXF(r io.Reader, chordError float64) (Drawing, error) {
	text, err := dxfContent(r)
	if err != nil {
		return Drawing{}, err
	}
	f := newDXFFile()
	if err := f.read(&dxfScanner{text: text, cr: !strings.Contains(text, "\n")}); err != nil {
		return Drawing{}, err
	}
	d, err := f.drawing(chordError)
	if err != nil {
		return Drawing{}, err
	}
	if len(d.Lines) == 0 {
		return Drawing{}, f.nothing(d)
	}
	nameBlocks(&d)
	return d, nil
}

// Limits on what is read of a DXF file, besides those of any drawing. They are far above what
// a gown needs, and keep the worst file within a second and 500 MB.
const (
	maxDXFEntities = 250_000 // in the file, and again with its insertions opened out
	maxDXFInserts  = 100_000 // copies of blocks
	maxDXFBlocks   = 20_000
	maxDXFNames    = 10_000 // layers, and as many line types
	maxDXFDepth    = 32     // blocks in blocks
	maxDXFName     = 255    // letters of a name, as DXF itself allows
)

// dxfBinary begins a binary DXF file.
const dxfBinary = "AutoCAD Binary DXF"

// dxfContent reads the text and refuses what is another format, by its first bytes.
func dxfContent(r io.Reader) (string, error) {
	var b strings.Builder
	if known, ok := r.(interface{ Len() int }); ok {
		b.Grow(min(known.Len(), MaxDrawingBytes) + 1)
	}
	if _, err := io.Copy(&b, io.LimitReader(r, MaxDrawingBytes+1)); err != nil {
		return "", say.Errorf("read DXF: %w", err)
	}
	text := b.String()
	if len(text) > MaxDrawingBytes {
		return "", say.Errorf("DXF: the file is over %d MiB, the most that is read", MaxDrawingBytes>>20).
			Hint("save the pieces alone, without pictures and hatches, or share them out over several files")
	}
	const ascii = "save it as ASCII DXF, R12 or later, where it was drawn"
	trimmed := strings.TrimSpace(strings.TrimPrefix(text, "\ufeff"))
	for _, other := range []struct{ begins, is, hint string }{
		{dxfBinary, "this is a binary DXF", ascii},
		{"AC10", "this is a DWG file, not a DXF", ascii},
		{"\xff\xfe", "this text is UTF-16", ascii},
		{"\xfe\xff", "this text is UTF-16", ascii},
		{"%PDF", "this is a PDF, not a DXF", "name it .pdf"},
		{"<", "this is XML, not a DXF", "name it .svg if it is a drawing"},
		{"{", "this is JSON, not a DXF", "name it .geojson if it holds outlines"},
	} {
		if strings.HasPrefix(trimmed, other.begins) {
			return "", say.Errorf("DXF: %s", other.is).Hint("%s", other.hint)
		}
	}
	if trimmed == "" {
		return "", say.Errorf("DXF: the file is empty").Hint("save it again where it was drawn")
	}
	if at := strings.IndexByte(text, 0); at >= 0 {
		line := 1 + max(strings.Count(text[:at], "\n"), strings.Count(text[:at], "\r"))
		return "", dxfErrorf(line, "a byte 0, which no text holds").Hint("%s", ascii)
	}
	return strings.TrimPrefix(text, "\ufeff"), nil
}

// nothing says that a file draws no line, and what it has instead.
func (f *dxfFile) nothing(d Drawing) error {
	what := "DXF: the file draws no line"
	if len(d.Notes) > 0 {
		what += fmt.Sprintf(" (%s)", strings.Join(d.Notes[:min(len(d.Notes), 3)], "; "))
	}
	return say.Errorf("%s", what).Hint("draw the outlines as lines, arcs, polylines or splines on layers that are on")
}
