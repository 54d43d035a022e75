package ways

import (
	"context"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/paper"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes/measure"
	"yardlay/shapes/plane"
)

// TestDemoOnSheets: the demo's pieces take fewer sheets than their boxes would, in a file that
// can be mailed; strips of net, which take most of them, are told of.
func TestDemoOnSheets(t *testing.T) {
	src, err := os.ReadFile("../../../../testdata/lantern-gown.toml")
	if err != nil {
		t.Fatal(err)
	}
	p := printingOf(t, testjobs.File(t, "lantern-gown.toml", string(src)))
	p.o.sheetOptions = sheetOptions{sheets: "a4"}
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

// A piece has a test square where it is larger than a sheet, and only there, on sheets of
// any size; on a roll, where it is whole, it has none.
func TestSquaresStandInLargePieces(t *testing.T) {
	src, err := os.ReadFile("../../../../testdata/lantern-gown.toml")
	if err != nil {
		t.Fatal(err)
	}
	p := printingOf(t, testjobs.File(t, "lantern-gown.toml", string(src)))
	pieces, err := p.fullPieces(context.Background(), p.spreads)
	if err != nil {
		t.Fatal(err)
	}
	count := func(holds func(paper.Pattern) bool) (squares int, large int) {
		for _, pattern := range patternsOf(pieces, holds) {
			b := plane.Bounds(pattern.Outline)
			w, h := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
			has := false
			for _, it := range pattern.Draw(plane.Pose{}, orb.Point{}).Items {
				text, is := it.(sheet.Text)
				has = has || is && text.Body == "test square"
			}
			if has {
				squares++
			}
			if min(w, h) > 190 || max(w, h) > 277 { // of A4 with margins of 10 mm
				large++
			} else if has {
				t.Errorf("%s, %.0f x %.0f, has a test square", pattern.Name, w, h)
			}
		}
		return squares, large
	}
	a4 := paper.Sheets{Width: 210, Height: 297, Margin: 10, Overlap: 10}
	if squares, large := count(a4.Holds); large < 5 || squares < large-2 || squares > large { // strips have no room
		t.Errorf("%d squares in %d large pieces", squares, large)
	}
	roll := paper.Roll{Width: 36 * measure.Inches}
	if squares, _ := count(roll.Holds); squares != 0 {
		t.Errorf("%d squares on a roll", squares)
	}
}
