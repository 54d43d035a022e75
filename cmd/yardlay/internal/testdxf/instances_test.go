package testdxf_test

import (
	"bytes"
	"reflect"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/benchmarks/instance"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/nest"
	"yardlay/shapes/outline"
	"yardlay/shapes/plane"
)

// The published instances, turned into DXF and read back, are the same problems to the last
// bit, and so lie as they do from GeoJSON.
func TestInstancesAsDXF(t *testing.T) {
	all, err := instance.Published("../../../../testdata/instances")
	if err != nil {
		t.Fatal(err)
	}
	for name, in := range all {
		again := in.Problem
		again.Pieces = slices.Clone(again.Pieces)
		for i, ring := range throughDXF(t, in.Problem.Pieces) {
			again.Pieces[i].Outline = ring
		}
		if !reflect.DeepEqual(again, in.Problem) {
			t.Errorf("%s is another problem", name)
		}
	}
}

// throughDXF writes pieces as a drawing of blocks, reads it and returns their outlines.
func throughDXF(t *testing.T, pieces []nest.Piece) []orb.Ring {
	t.Helper()
	work := sheet.Strokes{Title: "instance", Page: orb.Bound{Max: orb.Point{1, 1}}}
	for i, p := range pieces {
		label := sheet.Text{At: p.Outline[0], Size: 1, Body: "Piece Name: " + p.Name}
		work.Parts = append(work.Parts, sheet.StrokePart{Name: p.Name, Texts: []sheet.Text{label},
			Strokes: []sheet.Stroke{{Layer: sheet.LayerCut, Path: orb.LineString(p.Outline)}}})
		work.Places = append(work.Places, sheet.Place{Part: i})
	}
	data, err := work.DXF(sheet.DXFMillimetres)
	if err != nil {
		t.Fatal(err)
	}
	d, err := outline.ReadDXF(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	var rings []orb.Ring
	for i, l := range d.Lines {
		if l.Label != pieces[i].Name || !l.Closed {
			t.Errorf("%+v, closed %v, want %s", l.Marks, l.Closed, pieces[i].Name)
		}
		rings = append(rings, plane.SnapRing(orb.Ring(l.Points)))
	}
	if len(rings) != len(pieces) {
		t.Fatalf("%d outlines of %d", len(rings), len(pieces))
	}
	return rings
}
