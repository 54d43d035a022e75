package ways

import (
	"bytes"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes"
	"yardlay/shapes/outline"
)

// The pieces of every job are read back from the SVG as they are drafted, within 0.001 mm, each
// as one shape with its name, notches and grain, opened out or as a half on its fold.
func TestPiecesInSVGAreReadBack(t *testing.T) {
	eachForACutter(t, func(name string, want shapes.Piece, work sheet.Strokes) { checkSVGReadBack(t, name, want, work) })
}

func checkSVGReadBack(t *testing.T, name string, want shapes.Piece, work sheet.Strokes) {
	t.Helper()
	data, err := work.SVG()
	if err != nil {
		t.Fatal(err)
	}
	d, err := outline.ReadSVG(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if d.Unit.Millimetres != 1 || len(d.Notes) > 0 {
		t.Errorf("%s: %s: unit %+v, notes %q", name, want.Name, d.Unit, d.Notes)
	}
	read, err := outline.Assemble(d, outline.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(read.Shapes) != len(work.Places) {
		t.Fatalf("%s: %s: %d shapes of %d: %+v", name, want.Name, len(read.Shapes), len(work.Places), read.Faults)
	}
	for _, s := range read.Shapes {
		ring := s.Cut
		if ring == nil {
			ring = s.Ring()
		}
		part, off := nearest(ring, work, want.Cut)
		if off > 0.001 {
			t.Errorf("%s: %s is %g off", name, want.Name, off)
		}
		notches := 0 // of the copies of a strip each has some
		for _, l := range part.Strokes {
			if l.Layer == sheet.LayerNotch {
				notches++
			}
		}
		if s.Name != want.Name || (s.Fold >= 0) != want.OnFold || len(s.Notches) != notches ||
			(len(s.Grain) > 0) != (len(want.Grain) > 0) {
			t.Errorf("%s: %s: %q, fold %d, %d notches of %d, grain %v of %v", name, want.Name, s.Name, s.Fold,
				len(s.Notches), notches, s.Grain, want.Grain)
		}
	}
}

// nearest is the copy that an outline is nearest to, and how far it strays from that.
func nearest(ring orb.Ring, work sheet.Strokes, cut orb.Ring) (of sheet.StrokePart, best float64) {
	best = 1e9
	for _, p := range work.Places {
		worst := 0.
		for _, v := range ring {
			at := orb.Point{v[0] + work.Page.Min[0] - p.At[0], v[1] + work.Page.Max[1] - p.At[1]}
			worst = max(worst, planar.DistanceFrom(orb.LineString(cut), at))
		}
		if worst < best {
			of, best = work.Parts[p.Part], worst
		}
	}
	return of, best
}
