package paper

import (
	"context"
	"os"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/depict"
	"yardlay/cmd/yardlay/internal/outside"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/shapes/measure"
)

// gownPieces are the pieces of the demo's gown, drawn with all that they carry, and their
// cut lines.
func gownPieces(t *testing.T) (all []Pattern, cut []orb.Ring) {
	t.Helper()
	src, err := os.ReadFile("../../../../testdata/lantern-gown.toml")
	if err != nil {
		t.Fatal(err)
	}
	spreads, err := plan.Draw(testjobs.Read(t, string(src)))
	if err != nil {
		t.Fatal(err)
	}
	carried := depict.Carried{Gown: "Lantern Court gown", Gowns: 1, Unit: measure.Inch, Mark: "mark a2b3"}
	for _, s := range spreads {
		for i := range s.Cuts {
			drawn := depict.Pattern(s, i, measure.Inch)
			drawn.Facts = nil
			for _, group := range carried.Facts(s, i, "cut "+carried.Cut(s, i)) {
				drawn.Facts = append(drawn.Facts, group...)
			}
			full := drawn.Full()
			all = append(all, Pattern{Name: drawn.Name, Outline: full.Takes, Copies: 1, Draw: full.Group})
			cut = append(cut, drawn.Cut)
		}
	}
	return all, cut
}

// sheetsOfPiece is on how many of its sheets a piece is looked at.
const sheetsOfPiece = 6

// Every piece of the demo's gown, on sheets of A4 put together by their crosses, has its cut
// line within 0.2 mm; a program from outside finds its name and what it carries.
func TestOutsideGownOnSheets(t *testing.T) {
	outside.Wanted(t, "pdftoppm")
	all, cut := gownPieces(t)
	laid, _, err := a4.onSheets(context.Background(), all)
	if err != nil {
		t.Fatal(err)
	}
	tiled := tiledOn(a4)
	for _, p := range all {
		tiled.Lists = append(tiled.Lists, []string{p.Name})
	}
	made, err := tiled.Pieces(context.Background(), all)
	if err != nil {
		t.Fatal(err)
	}
	pdf, err := made.Document.PDF()
	if err != nil {
		t.Fatal(err)
	}
	if len(laid.spots) != len(all) || made.Sheets != laid.sheets {
		t.Fatalf("%d pieces lie on %d sheets, printed are %d pieces on %d", len(laid.spots), laid.sheets, len(all),
			made.Sheets)
	}
	j := tape(a4, made, laid, pdf)
	for _, at := range laid.spots {
		ring := at.pose.Apply(cut[at.pattern])
		for k := range ring {
			ring[k][1] = -ring[k][1]
		}
		var others []orb.LineString
		for _, it := range all[at.pattern].Draw(at.pose, orb.Point{}).Items {
			switch it := it.(type) {
			case sheet.Line:
				if it.Role != sheet.RoleSeam { // which is far off, or the cut line itself
					others = append(others, it.Path)
				}
			case sheet.Shape:
				if it.Role != sheet.RolePiece {
					others = append(others, orb.LineString(it.Ring))
				}
			}
		}
		name := all[at.pattern].Name
		if checked := j.follow(t, name, ring, others, sheetsOfPiece); checked < 8 {
			t.Errorf("%s: %d places looked at", name, checked)
		}
	}
	said := strings.Join(strings.Fields(string(outside.Run(t, "pdftotext", outside.File(t, "file.pdf", pdf), "-"))), " ")
	for _, p := range all {
		for _, want := range []string{p.Name, "Lantern Court gown", "right side up", "allowances drawn:"} {
			if !strings.Contains(said, want) {
				t.Errorf("%s: pdftotext does not find %q", p.Name, want)
			}
		}
	}
}
