package ways

import (
	"bytes"
	"slices"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/cmd/yardlay/internal/cutter"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cmd/yardlay/internal/testdxf"
	"yardlay/shapes"
	"yardlay/shapes/outline"
)

// readBack reads a DXF of ours as one who takes pieces from it does, and returns its lines as
// they were inserted, those of each insertion together.
func readBack(t *testing.T, data []byte) (outline.Drawing, [][]outline.Line) {
	t.Helper()
	d, err := outline.ReadDXF(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if !outline.IsPatternData(d) || len(d.Notes) > 0 {
		t.Errorf("pattern data: %v, notes %q", outline.IsPatternData(d), d.Notes)
	}
	var placed [][]outline.Line
	last := ""
	for _, l := range d.Lines {
		if l.Group == "" {
			continue
		}
		if l.Group != last {
			placed, last = append(placed, nil), l.Group
		}
		placed[len(placed)-1] = append(placed[len(placed)-1], l)
	}
	return d, placed
}

// roleOf is the role of a line by the rules of pattern data.
func roleOf(l outline.Line) outline.Role {
	for _, r := range outline.PatternRules() {
		if r.Layer == l.Layer {
			return r.Role
		}
	}
	return outline.Unnamed
}

// inRole lists the lines of a role as they are drawn.
func inRole(lines []outline.Line, role outline.Role) (list []orb.LineString) {
	for _, l := range lines {
		if roleOf(l) == role {
			list = append(list, l.Points)
		}
	}
	return list
}

// The pieces of every job are read back from the DXF as they are drafted, within 0.001 mm, with
// their names, in both units, opened out or as halves; no line is without a role.
func TestPiecesForACutterAreReadBack(t *testing.T) {
	eachForACutter(t, func(name string, want shapes.Piece, work sheet.Strokes) { checkReadBack(t, name, want, work) })
}

// eachForACutter calls check for every piece of every job with its line work, opened out and as
// a half.
func eachForACutter(t *testing.T, check func(job string, want shapes.Piece, work sheet.Strokes)) {
	t.Helper()
	for name, f := range allJobs(t) {
		p := printingOf(t, f)
		for _, halves := range []bool{false, true} {
			p.o.halves = halves
			for _, s := range p.spreads {
				for i, c := range s.Cuts {
					want := c.Piece
					if !halves {
						want = want.Unfold()
					}
					check(name, want, cutter.Pieces(p.cutterHead(s, "pieces", nil), p.forCutter(s, i)))
				}
			}
		}
	}
}

func checkReadBack(t *testing.T, name string, want shapes.Piece, work sheet.Strokes) {
	t.Helper()
	for unit, size := range map[sheet.DXFUnit]float64{sheet.DXFMillimetres: 1, sheet.DXFInches: 25.4} {
		data, err := work.DXF(unit)
		if err != nil {
			t.Fatal(err)
		}
		d, placed := readBack(t, data)
		if d.Unit.Millimetres != size || len(placed) != len(work.Places) {
			t.Fatalf("%s: %s: unit %+v, %d insertions", name, want.Name, d.Unit, len(placed))
		}
		for k, lines := range placed {
			ring, at := whole(t, inRole(lines, outline.CutLine), inRole(lines, outline.Fold)), work.Places[k].At
			for v := range ring {
				ring[v] = orb.Point{ring[v][0] - at[0], ring[v][1] - at[1]}
			}
			if off := apart(t, ring, want.Cut); off > 0.001 {
				t.Errorf("%s: %s is %g off", name, want.Name, off)
			}
			checkNamed(t, lines, want.Name, len(want.Notches))
		}
	}
}

// checkNamed holds what else the lines of a piece say.
func checkNamed(t *testing.T, lines []outline.Line, name string, notches int) {
	t.Helper()
	for _, l := range lines {
		if roleOf(l) == outline.Unnamed || l.Label != name || l.Block == "" {
			t.Errorf("%s: %+v", name, l.Marks)
		}
	}
	if len(inRole(lines, outline.Grain)) > 1 || len(inRole(lines, outline.Notch)) > notches {
		t.Errorf("%s has %d grain lines, %d notches", name, len(inRole(lines, outline.Grain)),
			len(inRole(lines, outline.Notch)))
	}
}

// The markers of every job are read back line for line as the strict reader finds them.
func TestMarkersForACutterAreReadBack(t *testing.T) {
	for name, p := range laidJobs(t) {
		for _, c := range p.report.Cloths {
			for i := range c.Markers {
				for unit, size := range map[sheet.DXFUnit]float64{sheet.DXFMillimetres: 1, sheet.DXFInches: 25.4} {
					data, err := p.markerForCutter(p.report, c, i).Work().DXF(unit)
					if err != nil {
						t.Fatal(err)
					}
					compareStrict(t, name, data, size)
				}
			}
		}
	}
}

func compareStrict(t *testing.T, name string, data []byte, size float64) {
	t.Helper()
	strict := testdxf.Read(t, data)
	_, placed := readBack(t, data)
	for _, layer := range strict.Layers {
		want := strict.Placed(layer)
		if len(want) != len(placed) {
			t.Fatalf("%s: %d insertions, not %d", name, len(placed), len(want))
		}
		for k, lines := range placed {
			var got []orb.LineString
			for _, l := range lines {
				if l.Layer == layer {
					got = append(got, l.Points)
				}
			}
			if !slices.EqualFunc(got, want[k], func(a, b orb.LineString) bool { return near(a, b, size) }) {
				t.Errorf("%s: insertion %d has %d lines on layer %s, and they are others", name, k, len(got), layer)
			}
		}
	}
}

// near holds a line in mm to one in a unit of so many.
func near(a, b orb.LineString, size float64) bool {
	return slices.EqualFunc(a, b, func(p, q orb.Point) bool {
		return planar.Distance(p, orb.Point{q[0] * size, q[1] * size}) < 1e-6
	})
}
