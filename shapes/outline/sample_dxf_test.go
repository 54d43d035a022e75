package outline

import (
	"os"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// The collar of testdata, drawn by ourselves: two pieces in two sizes, one block each, layers
// numbered as in pattern data, the smaller size first.
func TestGradedCollar(t *testing.T) {
	text, err := os.ReadFile("../../testdata/outlines/graded-collar.dxf")
	if err != nil {
		t.Fatal(err)
	}
	d := readAsDXF(t, string(text))
	if !IsPatternData(d) || d.Unit.Millimetres != 1 || len(d.Notes) > 0 {
		t.Errorf("pattern data %v, %+v, %q", IsPatternData(d), d.Unit, d.Notes)
	}
	want := []PieceWords{}
	for _, size := range []string{"38", "40"} {
		want = append(want,
			PieceWords{Block: "TOP-COLLAR-" + size, Name: "top collar", Size: size, Material: "shirting", Category: "collar",
				Annotation: "cut on the fold", Quantity: "1,0"},
			PieceWords{Block: "UNDER-COLLAR-" + size, Name: "under collar", Size: size, Material: "shirting",
				Category: "collar", Annotation: "cut on the bias", Quantity: "1,1"})
	}
	said := PiecesSaid(d.Texts)
	if diff := cmp.Diff(want, said); diff != "" {
		t.Fatal(diff)
	}
	lines, points := map[string]int{}, map[string]int{}
	for _, l := range d.Lines {
		lines[l.Block+" "+l.Layer]++
		if closed := l.Layer == "1" || l.Layer == "14"; l.Closed != closed {
			t.Errorf("%+v: closed %v", l.Marks, l.Closed)
		}
	}
	for _, p := range d.Points {
		points[p.Block+" "+p.Layer]++
	}
	for i, w := range said {
		for layer, n := range map[string]int{"1": 1, "14": 1, "6": 1 - i%2, "7": 1, "8": 1} {
			if got := lines[w.Block+" "+layer]; got != n {
				t.Errorf("%s has %d lines on layer %s", w.Block, got, layer)
			}
		}
		for layer, n := range map[string]int{"2": 4, "3": 22, "4": 1, "13": 1} {
			if got := points[w.Block+" "+layer]; got != n {
				t.Errorf("%s has %d points on layer %s", w.Block, got, layer)
			}
		}
	}
}
