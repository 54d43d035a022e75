package quote

import (
	"os"
	"testing"

	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes"
)

// From the reading of a job to its pieces, cut list, rows to compare and price, every
// part is drafted once in each of its cloths: sleeves are set into their bodice, and
// waists sewn together, from what was drafted already.
func TestEachPartIsDraftedOnce(t *testing.T) {
	for _, name := range []string{"chorus-gown", "lantern-gown", "stage-cape"} {
		path := "../../../../testdata/" + name + ".toml"
		src, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		before := shapes.NewPieces()
		j := testjobs.File(t, path, string(src)).Job()
		pieces := 0
		for range 2 {
			spreads, err := plan.Draw(j)
			if err != nil {
				t.Fatal(err)
			}
			list, err := report.List(j, spreads, j.Unit)
			if err != nil || len(list.Seams) == 0 {
				t.Fatalf("%s: %d seams, %v", name, len(list.Seams), err)
			}
			cuts, err := cutsOf(j, 1)
			if err != nil || len(cuts) != len(list.Pieces) {
				t.Fatalf("%s: %d pieces to price, %v", name, len(cuts), err)
			}
			compare.Defaults(j)
			pieces = len(list.Pieces)
		}
		if made := shapes.NewPieces() - before; made != int64(pieces) {
			t.Errorf("%s: %d pieces were drafted for %d", name, made, pieces)
		}
	}
}
