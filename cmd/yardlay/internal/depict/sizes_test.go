package depict

import (
	"os"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// Every piece that two bodies have is shown once, in both sizes, as it is cut: its area stays,
// its grain lies along x, and the start of its first edge at (0, 0).
func TestSizesLieOverEachOther(t *testing.T) {
	const name = "../../../../testdata/chorus-gown.toml"
	src, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	spreads, err := plan.Draw(testjobs.File(t, name, string(src)).Job())
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range spreads {
		shown, shared := 0, map[string]int{} // pieces by their names without that of the body
		for _, c := range s.Cuts {
			shared[strings.TrimPrefix(c.Piece.Name, c.Part.Body+" ")]++
		}
		want := 0
		for _, n := range shared {
			if n == 2 {
				want += n
			}
		}
		for _, g := range Sizes(s, measure.Inch) {
			for _, size := range g.Sizes {
				body, _, _ := strings.Cut(size.Name, ":")
				for _, c := range s.Cuts {
					if c.Piece.Name != body+" "+g.Name {
						continue
					}
					shown++
					if got, want := plane.Area(size.Cut), c.Piece.Area(); got < want-1 || got > want+1 {
						t.Errorf("%s of %s: area %g, cut %g", g.Name, body, got, want)
					}
					meets := false
					for _, p := range size.Seam {
						meets = meets || p == orb.Point{}
					}
					if !meets {
						t.Errorf("%s of %s: its seam line does not meet the others", g.Name, body)
					}
				}
			}
			if len(g.Sizes) != 2 || g.Point == "start of the " {
				t.Errorf("%s has %d sizes, which meet at the %q", g.Name, len(g.Sizes), g.Point)
			}
		}
		if shown != want || shown == 0 {
			t.Errorf("%s: %d pieces shown, %d are of both bodies", s.Cloth.ID, shown, want)
		}
	}
}
