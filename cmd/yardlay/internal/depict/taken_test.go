package depict

import (
	"os"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/take"
	"yardlay/shapes/measure"
)

func found(t *testing.T, name string, o take.Options) *take.Found {
	t.Helper()
	file, err := os.Open("../../../../testdata/outlines/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	f, err := take.Read(name, file, o)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// Pieces that a file has over each other are drawn side by side, each with its lines about it;
// those of other sizes are not drawn.
func TestPiecesOverEachOtherAreDrawnApart(t *testing.T) {
	f := found(t, "graded-collar.dxf", take.Options{Size: "38"})
	drawn := Taken(f, measure.Centimetre, nil)
	if len(drawn.Pieces) != 2 {
		t.Fatalf("%d pieces", len(drawn.Pieces))
	}
	a, b := drawn.Pieces[0].Ring.Bound(), drawn.Pieces[1].Ring.Bound()
	if a.Intersects(b) {
		t.Errorf("%v lies over %v", a, b)
	}
	for _, l := range drawn.Lines {
		own := a
		if l.Piece == drawn.Pieces[1].Number {
			own = b
		}
		if !own.Pad(1).Contains(l.Path[0]) {
			t.Errorf("a line of piece %d at %v is off it", l.Piece, l.Path[0])
		}
	}
	svg, err := drawn.Drawing().SVG()
	if err != nil || !strings.Contains(string(svg), "side by side") {
		t.Error(err)
	}
}

// Faults are ringed by the numbers that the table has.
func TestFaultsAreRinged(t *testing.T) {
	f := found(t, "traced-yoke.svg", take.Options{})
	drawn := Taken(f, measure.Centimetre, nil)
	if len(drawn.Faults) != len(f.Faults) || len(f.Faults) == 0 {
		t.Fatalf("%d of %d faults", len(drawn.Faults), len(f.Faults))
	}
	svg, err := drawn.Drawing().SVG()
	if err != nil || strings.Count(string(svg), `<polyline class="fault"`) != len(f.Faults) {
		t.Errorf("%v: %s", err, svg)
	}
}
