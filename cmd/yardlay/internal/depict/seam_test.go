package depict

import (
	"os"
	"path/filepath"
	"testing"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// Every seam of every job shows each of its pieces once, and lights up edges that are as long
// together as the seam's sides say; only lines of other parts have no piece.
func TestSeamsAreLit(t *testing.T) {
	names, err := filepath.Glob("../../../../testdata/*.toml")
	if err != nil || len(names) < 8 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		j := testjobs.File(t, name, string(src)).Job()
		spreads, err := plan.Draw(j)
		if err != nil {
			t.Fatal(err)
		}
		list, err := report.List(j, spreads, measure.Inch)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range list.Seams {
			drawn, want := Seam(s, spreads, measure.Inch), map[string]bool{}
			for _, side := range []report.SeamSide{s.A, s.B} {
				for _, e := range side.Edges {
					want[e.Piece+" "+e.Edge] = true
				}
			}
			lit := 0
			for _, p := range drawn.Pieces {
				for _, l := range p.Lit {
					lit++
					if plane.Length(l) < 1 {
						t.Errorf("%s, %s: an edge of %s has no length", name, s.Name, p.Name)
					}
				}
				if len(p.Lit) != len(p.Facts) || len(p.Lit) == 0 {
					t.Errorf("%s, %s: %s lights up %d edges and tells of %d", name, s.Name, p.Name, len(p.Lit), len(p.Facts))
				}
			}
			if lit < len(want) {
				t.Errorf("%s, %s in %s: %d edges lit, %d are sewn: %v", name, s.Name, s.Cloth, lit, len(want), want)
			}
			if _, err := drawn.Drawing().SVG(); err != nil {
				t.Error(err)
			}
		}
	}
}
