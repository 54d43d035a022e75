// Package instance reads and writes strip-packing instances and their markers as
// GeoJSON (RFC 7946), one file each, for benchmarks and for checks by other
// programs.
package instance

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"

	"github.com/paulmach/orb"

	"yardlay/nest"
	"yardlay/shapes/plane"
)

// Instance is a layout problem from the literature, brought to a size at which
// the lattice is fine enough.
type Instance struct {
	Name    string       // the usual name, "shirts"
	Source  string       // who published it
	Problem nest.Problem // all lengths times Scale
	Scale   float64      // a power of two: exact in float64 both ways
}

// file is the instance as written: lengths in a unit of its own. Members that
// are not named here are foreign members, ignored as RFC 7946 section 6.1 allows.
type file struct {
	Type       string    `json:"type"`
	Name       string    `json:"name"`
	Source     string    `json:"source"`
	StripWidth *float64  `json:"stripWidth"`
	Features   []feature `json:"features"`
}

type feature struct {
	Type       string          `json:"type"`
	ID         json.RawMessage `json:"id"`
	Properties struct {
		Quantity  *float64   `json:"quantity"`
		Rotations *[]float64 `json:"rotations"`
	} `json:"properties"`
	Geometry polygon `json:"geometry"`
}

// polygon is a GeoJSON geometry; Coordinates are rings of positions.
type polygon struct {
	Type        string        `json:"type"`
	Coordinates [][][]float64 `json:"coordinates"`
}

// maxQuantity is far above any instance of the literature and keeps a slip of
// the pen from filling the memory.
const maxQuantity = 100_000

// Read reads an instance: a FeatureCollection with `name`, `source` and
// `stripWidth`, each feature a Polygon of one ring with the properties
// `quantity` and `rotations` (degrees counter-clockwise). Pieces may not be
// mirrored and are named by their feature's id, or "piece N" without one. The
// problem has passed nest.Problem.Check; errors name the feature.
func Read(r io.Reader) (Instance, error) {
	var f file
	if err := decode(r, &f); err != nil {
		return Instance{}, err
	}
	if f.Type != "FeatureCollection" {
		return Instance{}, fmt.Errorf("instance: type is %q, want \"FeatureCollection\"", f.Type)
	}
	if f.Name == "" {
		return Instance{}, errors.New("instance: no name")
	}
	if f.StripWidth == nil || !(*f.StripWidth > 0) {
		return Instance{}, fmt.Errorf("instance %q: stripWidth is missing or not above 0", f.Name)
	}
	p := nest.Problem{Strip: nest.Strip{Width: *f.StripWidth}}
	used := make(map[string]bool)
	for i, feat := range f.Features {
		piece, err := feat.piece()
		if err != nil {
			return Instance{}, fmt.Errorf("instance %q: feature %d: %w", f.Name, i, err)
		}
		if piece.Name == "" {
			piece.Name = fmt.Sprintf("piece %d", i+1)
		}
		if used[piece.Name] {
			return Instance{}, fmt.Errorf("instance %q: feature %d: id %q is used before", f.Name, i, piece.Name)
		}
		used[piece.Name] = true
		p.Pieces = append(p.Pieces, piece)
	}
	in := Instance{Name: f.Name, Source: f.Source, Problem: p, Scale: 1}.scaled(scaleFor(p))
	if err := in.Problem.Check(); err != nil {
		return Instance{}, fmt.Errorf("instance %q, lengths times %v: %w", f.Name, in.Scale, err)
	}
	return in, nil
}

// decode reads one JSON value and nothing after it.
func decode(r io.Reader, into any) error {
	d := json.NewDecoder(r)
	if err := d.Decode(into); err != nil {
		return fmt.Errorf("reading GeoJSON, near byte %d: %w", d.InputOffset(), err)
	}
	if _, err := d.Token(); err != io.EOF {
		return fmt.Errorf("reading GeoJSON: more than one value, near byte %d", d.InputOffset())
	}
	return nil
}

func (f feature) piece() (nest.Piece, error) {
	piece := nest.Piece{}
	if f.Type != "Feature" {
		return piece, fmt.Errorf("type is %q, want \"Feature\"", f.Type)
	}
	name, err := idName(f.ID)
	if err != nil {
		return piece, err
	}
	piece.Name = name
	q := f.Properties.Quantity
	if q == nil {
		return piece, errors.New("no quantity")
	}
	if !(*q >= 1 && *q <= maxQuantity) || *q != math.Trunc(*q) {
		return piece, fmt.Errorf("quantity is %v, want a whole number from 1 to %d", *q, maxQuantity)
	}
	piece.Count = int(*q)
	if f.Properties.Rotations == nil || len(*f.Properties.Rotations) == 0 {
		return piece, errors.New("no rotations: a piece that may not be turned has [0]")
	}
	piece.Turns = *f.Properties.Rotations
	piece.Outline, err = f.Geometry.ring()
	if err != nil {
		return piece, err
	}
	if plane.Area(piece.Outline) < 0 { // RFC 7946 section 3.1.6: not to be refused
		piece.Outline.Reverse()
	}
	return piece, nil
}

// idName takes a feature's id: a string or a number (RFC 7946 section 3.2).
func idName(id json.RawMessage) (string, error) {
	if len(id) == 0 || string(id) == "null" {
		return "", nil
	}
	var name string
	if json.Unmarshal(id, &name) == nil {
		return name, nil
	}
	var number json.Number
	if err := json.Unmarshal(id, &number); err != nil {
		return "", fmt.Errorf("id is %s, want a string or a number", id)
	}
	return number.String(), nil
}

// ring returns the polygon's one ring, without vertices repeated in a row.
func (g polygon) ring() (orb.Ring, error) {
	if g.Type != "Polygon" {
		return nil, fmt.Errorf("geometry is %q, want \"Polygon\"", g.Type)
	}
	if len(g.Coordinates) != 1 {
		return nil, fmt.Errorf("polygon has %d rings, want one outline without holes", len(g.Coordinates))
	}
	var out orb.Ring
	for i, position := range g.Coordinates[0] {
		if len(position) != 2 {
			return nil, fmt.Errorf("position %d has %d numbers, want x and y", i, len(position))
		}
		v := orb.Point{position[0], position[1]}
		if len(out) == 0 || out[len(out)-1] != v {
			out = append(out, v)
		}
	}
	return out, nil
}

// Lots returns the instance with every piece n times as often, at a scale that
// suits the longer marker.
func (in Instance) Lots(n int) Instance {
	out := in.scaled(1) // a copy
	for i := range out.Problem.Pieces {
		out.Problem.Pieces[i].Count *= n
	}
	return out.scaled(scaleFor(out.Problem))
}

// scaleFor returns the power of two that brings the strip's width to 2^14 up to
// 2^15 mm, where a lattice step is under a ten-millionth of it; or a lesser one
// when the pieces would then take up more than 2^15 mm of the strip, which leaves
// as much again before coordinates come to nest.Reach.
func scaleFor(p nest.Problem) float64 {
	_, exponent := math.Frexp(p.Strip.Width) // width = f * 2^exponent, 1/2 <= f < 1
	scale := math.Ldexp(1, 15-exponent)
	if length := p.Area() / p.Strip.Width * scale; length > 1<<15 {
		_, over := math.Frexp(length / (1 << 15))
		scale = math.Ldexp(scale, -over)
	}
	return scale
}

// scaled returns a copy with all lengths multiplied by a power of two.
func (in Instance) scaled(by float64) Instance {
	p := in.Problem
	p.Strip.Width *= by
	p.Pieces = make([]nest.Piece, len(in.Problem.Pieces))
	for i, piece := range in.Problem.Pieces {
		piece.Outline = times(piece.Outline, by)
		p.Pieces[i] = piece
	}
	in.Problem = p
	in.Scale *= by
	return in
}

// times returns r with all coordinates multiplied.
func times(r orb.Ring, by float64) orb.Ring {
	out := make(orb.Ring, len(r))
	for i, v := range r {
		out[i] = orb.Point{v[0] * by, v[1] * by}
	}
	return out
}
