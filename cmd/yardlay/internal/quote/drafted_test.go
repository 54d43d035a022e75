package quote

import (
	"os"
	"testing"

	"yardlay/cmd/yardlay/internal/compare"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes/draft"
)

// counted is a draft that counts how often it is drafted.
type counted struct {
	drawn draft.Draft
	times *int
}

func (c counted) Draft() (draft.Result, error) {
	*c.times++
	return c.drawn.Draft()
}

// From a job that is read to its pieces, cut list, rows to compare and price, every part
// is drafted once in each of its cloths. What is sewn onto a skirt has to be known as
// such, and is not counted.
func TestEachPartIsDraftedOnce(t *testing.T) {
	for _, name := range []string{"chorus-gown", "lantern-gown", "stage-cape"} {
		path := "../../../../testdata/" + name + ".toml"
		src, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		j := testjobs.File(t, path, string(src)).Job()
		var layers []*int
		for _, p := range j.Parts {
			for i, l := range p.Layers {
				if _, onto := l.Draft.(draft.OntoSkirt); !onto {
					layers = append(layers, new(int))
					p.Layers[i] = l.DrawnAs(counted{l.Draft, layers[len(layers)-1]})
				}
			}
		}
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
		}
		for i, times := range layers {
			if *times != 1 {
				t.Errorf("%s: layer %d of %d was drafted %d times", name, i+1, len(layers), *times)
			}
		}
	}
}
