package outline

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"yardlay/shapes/say"
)

// everyDXF is a drawing with every kind of entity, as later releases write them.
var everyDXF = dxfSection("HEADER", "9 $ACADVER | 1 AC1015 | 9 $DWGCODEPAGE | 3 ANSI_1252 | 9 $INSUNITS | 70 5") +
	dxfSection("TABLES", "0 TABLE | 2 LTYPE | 70 1", "0 LTYPE | 2 DASHED | 73 2 | 40 9 | 49 6 | 49 -3", "0 ENDTAB",
		"0 TABLE | 2 LAYER | 70 2", "0 LAYER | 2 1 | 70 0 | 62 3 | 6 DASHED", "0 LAYER | 2 off | 70 0 | 62 -3",
		"0 ENDTAB") +
	dxfSection("BLOCKS", "0 BLOCK | 2 collar | 10 1 | 20 1 | 70 0", "0 LINE | 8 1 | 10 0 | 20 0 | 11 5 | 21 0",
		"0 TEXT | 8 1 | 10 0 | 20 0 | 40 3 | 1 Size: 38%%d", "0 INSERT | 2 notch | 10 1 | 20 1", "0 ENDBLK",
		"0 BLOCK | 2 notch | 10 0 | 20 0", "0 POINT | 8 4 | 10 0 | 20 0", "0 ENDBLK") +
	dxfSection("ENTITIES", "0 INSERT | 8 1 | 66 1 | 2 collar | 10 9 | 20 9 | 41 2 | 42 -1 | 50 30",
		"70 2 | 71 2 | 44 9 | 45 9",
		"0 ATTRIB | 10 0 | 20 0 | 1 top | 2 NAME", "0 SEQEND", "0 ARC | 10 1 | 20 2 | 40 3 | 50 10 | 51 300 | 230 -1",
		"0 CIRCLE | 8 off | 10 1 | 20 2 | 40 3", "0 CIRCLE | 62 1 | 420 255 | 10 1 | 20 2 | 40 3",
		"0 ELLIPSE | 10 1 | 20 2 | 11 3 | 21 4 | 40 0.5 | 41 1 | 42 3",
		"0 POLYLINE | 66 1 | 70 1", "0 VERTEX | 10 1 | 20 1 | 42 .5", "0 VERTEX | 10 1 | 20 2", "0 SEQEND",
		"0 LWPOLYLINE | 90 2 | 70 1 | 10 1 | 20 1 | 42 -2 | 10 5 | 20 5", "0 HATCH | 8 0",
		"0 SPLINE | 70 0 | 71 2 | 40 0 | 40 0 | 40 0 | 40 1 | 40 2 | 40 2 | 40 2 | 41 1 | 41 2 | 41 1 | 41 1",
		"10 0 | 20 0 | 10 1 | 20 1 | 10 2 | 20 0 | 10 3 | 20 3",
		"0 SPLINE | 70 1 | 71 3 | 11 0 | 21 0 | 11 1 | 21 1 | 11 2 | 21 0",
		`0 MTEXT | 10 0 | 20 0 | 3 {\fx; | 1 \Pé}`) + groups("0 EOF")

// Whatever a file holds, the reader returns a drawing in order, or says where and what would
// mend it.
func FuzzReadDXF(f *testing.F) {
	f.Add(everyDXF)
	f.Add(strings.ReplaceAll(everyDXF, "\n", "\r\n"))
	f.Add(ofBlocks(pieceBlock("collar-38", "Piece Name: collar", "Quantity: 2,0")))
	f.Add(groups("999 UNITS: METRIC") + dxfSection("ENTITIES", "0 LINE | 10 0 | 20 0 | 11 1 | 21 0") + groups("0 EOF"))
	f.Add(dxfBinary)
	f.Fuzz(func(t *testing.T, text string) {
		d, err := ReadDXF(strings.NewReader(text))
		if err != nil {
			what, hint := say.Parts(err, nil)
			if !strings.HasPrefix(what, "DXF") || hint == "" || strings.ContainsAny(what, "\n\r\x00") {
				t.Fatalf("what %q, hint %q", what, hint)
			}
			return
		}
		checkDXF(t, d)
		if again, _ := ReadDXF(strings.NewReader(text)); !reflect.DeepEqual(d, again) {
			t.Fatal("read otherwise the second time")
		}
		if math.IsNaN(d.Unit.Millimetres) || d.Unit.Millimetres < 0 || d.Unit.Because == "" {
			t.Fatalf("%+v", d.Unit)
		}
		PiecesSaid(d.Texts)
		IsPatternData(d)
	})
}
