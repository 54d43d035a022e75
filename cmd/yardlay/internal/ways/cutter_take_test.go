package ways

import (
	"bytes"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/cutter"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cmd/yardlay/internal/take"
)

// What is printed for a cutter is taken back by what the files say alone, as the same pieces:
// their number, names, copies and outlines, and the lines of each role. DXF is held to 0.001 mm
// in its own coordinates, SVG to the 0.0001 mm that it states besides.
func TestPrintedForACutterIsTaken(t *testing.T) {
	for name, f := range allJobs(t) {
		p := printingOf(t, f)
		for _, s := range p.spreads {
			var pieces []cutter.Piece
			var counts []int
			var pairs []bool
			for i, c := range s.Cuts {
				made := p.forCutter(s, i)
				for k := range made {
					pieces, pairs = append(pieces, made[k]), append(pairs, c.Piece.Pair)
					counts = append(counts, len(bearingAlike(c.Piece)[k]))
				}
			}
			checkTaken(t, name, s, cutter.Pieces(p.cutterHead(s, "pieces", nil), pieces), pieces, counts, pairs)
		}
	}
}

// takenOfAllSizes takes the pieces of every body of a job: each is a size of the file.
func takenOfAllSizes(name string, data []byte) ([]take.Piece, error) {
	found, err := take.Read(name, bytes.NewReader(data), take.Options{})
	if err != nil {
		return nil, err
	}
	if found.Size == "" {
		return found.Pieces, nil
	}
	var all []take.Piece
	for _, size := range found.Sizes {
		of, err := take.Read(name, bytes.NewReader(data), take.Options{Size: size})
		if err != nil {
			return nil, err
		}
		for _, p := range of.Pieces {
			if p.Size == size {
				all = append(all, p)
			}
		}
	}
	slices.SortFunc(all, func(a, b take.Piece) int { return a.Number - b.Number })
	return all, nil
}

func checkTaken(t *testing.T, job string, s plan.Spread, work sheet.Strokes, pieces []cutter.Piece, counts []int,
	pairs []bool) {
	t.Helper()
	dxf, err := work.DXF(sheet.DXFMillimetres)
	if err != nil {
		t.Fatal(err)
	}
	svg, err := work.SVG()
	if err != nil {
		t.Fatal(err)
	}
	for kind, data := range map[string][]byte{"pieces.dxf": dxf, "pieces.svg": svg} {
		found, err := takenOfAllSizes(kind, data)
		if err != nil || len(found) != len(pieces) {
			t.Errorf("%s %s %s: %d pieces of %d: %v", job, s.Cloth.ID, kind, len(found), len(pieces), err)
			continue
		}
		origin := orb.Point{}
		if kind == "pieces.svg" {
			origin = orb.Point{work.Page.Min[0], work.Page.Max[1]}
		}
		for i, got := range found {
			at := orb.Point{work.Places[i].At[0] - origin[0], work.Places[i].At[1] - origin[1]}
			want := pieces[i]
			ring := got.Outer()
			moved := make(orb.Ring, len(ring))
			for v, q := range ring {
				moved[v] = orb.Point{q[0] - at[0], q[1] - at[1]}
			}
			if off := apart(t, moved, want.Cut); off > 0.001 {
				t.Errorf("%s %s: %s is %g off", job, kind, want.Name, off)
			}
			if got.Name != want.Name || got.Copies.Count != counts[i] || got.Copies.Pair != pairs[i] || !got.Copies.Said {
				t.Errorf("%s %s: %q %+v, not %q %d %v", job, kind, got.Name, got.Copies, want.Name, counts[i], pairs[i])
			}
			if len(got.Notches) != len(want.Notches) {
				t.Errorf("%s %s: %s has %d notches of %d", job, kind, want.Name, len(got.Notches), len(want.Notches))
			}
			if (len(got.Grain) > 0) != (len(want.Grain) > 0) {
				t.Errorf("%s %s: %s: grain %v of %v", job, kind, want.Name, got.Grain, want.Grain)
			}
		}
	}
}
