// Package outline reads outlines drawn elsewhere, in millimetres, and hands
// them on closed, counter-clockwise and free of self-crossings.
package outline

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// Limits on what is read. They keep a hostile or mistaken file from taking the
// machine down and are far above what a gown needs.
const (
	// MaxBytes is the largest file read.
	MaxBytes = 16 << 20
	// MaxOutlines is the most outlines in one file.
	MaxOutlines = 1000
	// MaxVertices is the most corners of one outline.
	MaxVertices = 5000
	// MaxCorners is the most corners of all outlines of one file together.
	MaxCorners = 20_000
	// MaxCoordinate is the farthest a corner may lie from the origin on either
	// axis, mm: two such corners are 60 m apart, inside the 65 m within which
	// the lattice keeps every cross product exact.
	MaxCoordinate = 30_000.0
	// MinArea is the smallest outline taken for a piece, mm2; anything less is
	// most likely drawn in another unit.
	MinArea = 1.0

	maxNameLength = 100 // letters; longer names spoil every list they stand in
)

// Named is one outline and what it is called.
type Named struct {
	Name string
	Ring orb.Ring // mm, on the lattice, closed, counter-clockwise, simple
}

// object is a JSON object with its members still unread. GeoJSON's names are
// case-sensitive (RFC 7946), which struct decoding is not.
type object map[string]json.RawMessage

// ReadGeoJSON reads a GeoJSON text (RFC 7946) whose coordinates are
// millimetres, x along the cloth and y across it: a Polygon, a Feature with a
// Polygon, or a FeatureCollection of such features. Each outline is named by
// the property "name", or "outline 1", "outline 2" ... by its place. Rings
// may run either way round and may be left open; a third coordinate is ignored.
//
// Holes, other geometries, fewer than three corners, self-crossings and sizes
// beyond the limits above are refused with the number of the feature, counted
// from 1.
func ReadGeoJSON(r io.Reader) ([]Named, error) {
	text, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return nil, say.Errorf("read GeoJSON: %w", err)
	}
	if len(text) > MaxBytes {
		return nil, fmt.Errorf("GeoJSON text is over %d MiB, the most that is read", MaxBytes>>20)
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	if len(bytes.TrimSpace(text)) == 0 {
		return nil, errors.New("GeoJSON text is empty")
	}
	var top object
	if err := json.Unmarshal(text, &top); err != nil {
		return nil, locate(text, err)
	}
	kind, err := top.kind()
	if err != nil {
		return nil, say.Errorf("GeoJSON: %w", err)
	}
	switch kind {
	case "FeatureCollection":
		return collection(top)
	case "Feature", "Polygon":
		read := feature
		if kind == "Polygon" {
			read = unnamed
		}
		one, err := read(top, 1)
		if err != nil {
			return nil, err
		}
		return []Named{one}, nil
	}
	return nil, say.Errorf("GeoJSON type %q is not an outline", kind).
		Hint("write a Polygon, a Feature or a FeatureCollection")
}

func collection(top object) ([]Named, error) {
	var members []object
	if raw, ok := top["features"]; !ok {
		return nil, say.Errorf("FeatureCollection has no \"features\"").
			Hint("its shapes stand in a list: \"features\": [ ... ]")
	} else if err := json.Unmarshal(raw, &members); err != nil {
		return nil, fmt.Errorf("FeatureCollection: \"features\" is not a list of objects%s", instead(err))
	}
	switch n := len(members); {
	case n == 0:
		return nil, errors.New("FeatureCollection holds no features")
	case n > MaxOutlines:
		return nil, fmt.Errorf("FeatureCollection holds %d features, the most that is read is %d", n, MaxOutlines)
	}
	out := make([]Named, len(members))
	corners := 0
	for i, m := range members {
		kind, err := m.kind()
		if err == nil && kind != "Feature" {
			err = fmt.Errorf("type %q stands where a Feature belongs", kind)
		}
		if err != nil {
			return nil, say.Errorf("feature %d: %w", i+1, err)
		}
		if out[i], err = feature(m, i+1); err != nil {
			return nil, err
		}
		if corners += len(out[i].Ring) - 1; corners > MaxCorners {
			return nil, say.Errorf("the outlines have over %d corners in all, the most that is read of one file",
				MaxCorners).
				Hint("draw curves with fewer corners, or share the outlines out over several files")
		}
	}
	return out, nil
}

func feature(f object, number int) (Named, error) {
	name, err := f.name(number)
	if err != nil {
		return Named{}, say.Errorf("feature %d: %w", number, err)
	}
	fail := func(err error) (Named, error) {
		return Named{}, say.Errorf("feature %d (%s): %w", number, name, err)
	}
	var geometry object
	raw, ok := f["geometry"]
	if !ok {
		return fail(errors.New("no \"geometry\""))
	}
	if err := json.Unmarshal(raw, &geometry); err != nil {
		return fail(fmt.Errorf("\"geometry\" is not an object%s", instead(err)))
	}
	if geometry == nil {
		return fail(say.Errorf("\"geometry\" is null").Hint("leave the feature out"))
	}
	kind, err := geometry.kind()
	if err != nil {
		return fail(say.Errorf("geometry: %w", err))
	}
	if kind != "Polygon" {
		return fail(say.Errorf("geometry is a %s, not a Polygon", kind).
			Hint("one closed outline a feature; split a drawing of several parts into features"))
	}
	ring, err := polygon(geometry)
	if err != nil {
		return fail(err)
	}
	return Named{Name: name, Ring: ring}, nil
}

func unnamed(p object, number int) (Named, error) {
	ring, err := polygon(p)
	if err != nil {
		return Named{}, say.Errorf("outline %d: %w", number, err)
	}
	return Named{Name: placeName(number), Ring: ring}, nil
}

func placeName(number int) string { return fmt.Sprintf("outline %d", number) }

func (o object) kind() (string, error) {
	raw, ok := o["type"]
	if !ok {
		return "", errors.New("no \"type\"")
	}
	var kind string
	if err := json.Unmarshal(raw, &kind); err != nil {
		return "", fmt.Errorf("\"type\" is not a text%s", instead(err))
	}
	return kind, nil
}

func (o object) name(number int) (string, error) {
	var properties object
	if raw, ok := o["properties"]; ok {
		if err := json.Unmarshal(raw, &properties); err != nil {
			return "", fmt.Errorf("\"properties\" is not an object%s", instead(err))
		}
	}
	raw, ok := properties["name"]
	if !ok || string(raw) == "null" {
		return placeName(number), nil
	}
	var name string
	if err := json.Unmarshal(raw, &name); err != nil {
		return "", fmt.Errorf("the property \"name\" is not a text%s", instead(err))
	}
	if strings.TrimSpace(name) == "" {
		return placeName(number), nil
	}
	if n := len([]rune(name)); n > maxNameLength {
		return "", fmt.Errorf("the property \"name\" has %d letters, the most is %d", n, maxNameLength)
	}
	for _, r := range name {
		if !unicode.IsPrint(r) {
			return "", fmt.Errorf("the property \"name\" %q holds a letter that cannot be printed", name)
		}
	}
	return name, nil
}

// locate says with line and column where a text stops being JSON.
func locate(text []byte, err error) error {
	var syntax *json.SyntaxError
	if !errors.As(err, &syntax) {
		return say.Errorf("GeoJSON: not an object%s", instead(err)).Hint("the text begins with { and ends with }")
	}
	before := text[:min(max(syntax.Offset-1, 0), int64(len(text)))]
	line := 1 + bytes.Count(before, []byte("\n"))
	column := 1 + utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:])
	what := "this is not JSON"
	if syntax.Offset >= int64(len(bytes.TrimRight(text, " \t\r\n"))) {
		what = "the text ends here, before its last bracket"
	}
	return say.Errorf("GeoJSON, line %d, column %d: %s", line, column, what).
		Hint("look there for a comma, a quote or a bracket that is missing or one too many")
}

// instead says what stands where something else belongs: ", but a number"; "" where
// that is not known. It is for errors of encoding/json, whose words speak of Go's
// types.
func instead(err error) string {
	var kind *json.UnmarshalTypeError
	if !errors.As(err, &kind) {
		return ""
	}
	what, number, _ := strings.Cut(kind.Value, " ")
	switch what {
	case "string":
		what = "text in quotes"
	case "bool":
		what = "true or false"
	case "array":
		what = "a list"
	case "object":
		what = "an object"
	case "number":
		if what = "a number"; number != "" {
			what += ": " + number
		}
	}
	return ", but " + what
}
