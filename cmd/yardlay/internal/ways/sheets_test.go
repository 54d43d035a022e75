package ways

import (
	"context"
	"os"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/testjobs"
)

// TestDemoOnSheets: the demo's pieces take fewer sheets than their boxes would, in a file that
// can be mailed; strips of net, which take most of them, are told of.
func TestDemoOnSheets(t *testing.T) {
	src, err := os.ReadFile("../../../../testdata/lantern-gown.toml")
	if err != nil {
		t.Fatal(err)
	}
	p := printingOf(t, testjobs.File(t, "lantern-gown.toml", string(src)))
	p.o.sheetOptions = sheetOptions{sheets: "a4", margin: usualEdge, overlap: usualEdge}
	made, err := printSheets(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	if n := len(made.files[0].Data); n >= 1_000_000 {
		t.Errorf("%d bytes", n)
	}
	if want := "To spare the paper add --cloth satin,lining."; !slices.ContainsFunc(made.notes,
		func(n string) bool { return strings.HasSuffix(n, want) }) {
		t.Errorf("%q lack %q", made.notes, want)
	}
	if f := made.facts.(onSheets); f.Sheets >= f.Boxes {
		t.Errorf("%d sheets, by boxes %d", f.Sheets, f.Boxes)
	}
}
