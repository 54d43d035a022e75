package outline

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
)

// The unit and how the file says it.
func TestDXFUnits(t *testing.T) {
	for _, c := range []struct {
		head, text  string
		millimetres float64
		because     string
		note        string
	}{
		{"9 $INSUNITS | 70 4", "", 1, "$INSUNITS 4 (millimetres)", ""},
		{"9 $INSUNITS | 70 1 | 9 $MEASUREMENT | 70 1", "", 25.4, "$INSUNITS 1 (inches)", ""},
		{"9 $INSUNITS | 70 21", "", 1200e3 / 3937, "$INSUNITS 21 (US survey feet)", ""},
		{"9 $INSUNITS | 70 0 | 9 $MEASUREMENT | 70 1", "", 0,
			"the file names no unit ($INSUNITS); $MEASUREMENT 1 says metric, not which unit", ""},
		{"9 $MEASUREMENT | 70 0", "", 0,
			"the file names no unit ($INSUNITS); $MEASUREMENT 0 says English, not which unit", ""},
		{"", "", 0, "the file names no unit ($INSUNITS)", ""},
		{"9 $INSUNITS | 70 19", "", 0, "$INSUNITS 19 is no unit that cloth is cut in", ""},
		{"", "Units: metric", 1, "text \"UNITS: METRIC\" at line 22", ""},
		{"9 $INSUNITS | 70 4", "UNITS: ENGLISH", 1, "$INSUNITS 4 (millimetres)",
			"$INSUNITS says millimetres, the text at line 26 UNITS: ENGLISH; millimetres are taken"},
	} {
		text := dxfSection("HEADER", c.head) + dxfSection("ENTITIES", "0 LINE | 10 0 | 20 0 | 11 2 | 21 0",
			"0 TEXT | 10 0 | 20 0 | 1 "+c.text) + groups("0 EOF")
		text = strings.Replace(text, groups(""), "", 1)
		d := readAsDXF(t, text)
		length := 2 * max(c.millimetres, 0)
		if c.millimetres == 0 {
			length = 2
		}
		if d.Unit != (Unit{c.millimetres, c.because}) || d.Lines[0].Points[1] != (orb.Point{length, 0}) ||
			strings.Join(d.Notes, "") != c.note {
			t.Errorf("%q, %q: %+v, %v, %q", c.head, c.text, d.Unit, d.Lines[0].Points, d.Notes)
		}
	}
	comment := groups("999 UNITS: ENGLISH, lengths in inches") + dxfSection("ENTITIES",
		"0 LINE | 10 0 | 20 0 | 11 2 | 21 0") + groups("0 EOF")
	if d := readAsDXF(t, comment); d.Unit.Millimetres != 25.4 || d.Unit.Because != "text \"UNITS: ENGLISH\" at line 2" {
		t.Errorf("%+v", d.Unit)
	}
}

// Without a unit a curve is within the chord error in the unit that is likely: one of 1,000 units is
// in mm, one of 20 in inches, one of 2 in metres.
func TestCurvesWithoutAUnit(t *testing.T) {
	for radius, unit := range map[float64]float64{500: 1, 80: 10, 10: 25.4, 1: 1000} {
		d := readAsDXF(t, dxfSection("ENTITIES", fmt.Sprintf("0 CIRCLE | 10 0 | 20 0 | 40 %g", radius))+groups("0 EOF"))
		half := math.Pi / float64(len(d.Lines[0].Points)-1)
		sagitta := radius * (1 - math.Cos(half)) * unit
		if sagitta > ChordError*1.001 || sagitta < ChordError/2 {
			t.Errorf("radius %g: sagitta %g mm in a unit of %g mm", radius, sagitta, unit)
		}
	}
}

// pieceBlock is a block of pattern data: a square with its texts.
func pieceBlock(name string, texts ...string) []string {
	b := []string{"0 BLOCK | 2 " + name + " | 10 0 | 20 0",
		"0 POLYLINE | 8 1 | 70 1 | 66 1 | 0 VERTEX | 10 0 | 20 0 | 0 VERTEX | 10 9 | 20 0",
		"0 VERTEX | 10 9 | 20 9 | 0 SEQEND",
		"0 POINT | 8 4 | 10 5 | 20 0", "0 LINE | 8 7 | 10 1 | 20 1 | 11 8 | 21 1"}
	for _, t := range texts {
		b = append(b, "0 TEXT | 8 15 | 10 1 | 20 1 | 1 "+t)
	}
	return append(b, "0 ENDBLK")
}

// Pieces that are inserted nowhere, beside texts alone or beside others that are, are read.
func TestPatternDataInBlocksAlone(t *testing.T) {
	insert := "0 INSERT | 8 0 | 2 collar | 10 100 | 20 0"
	blocks := append(pieceBlock("collar", "Piece Name: top collar", "Size: 38", "QUANTITY: 2,1"), pieceBlock("cuff",
		"Piece Name: cuff", "Size: 38", "Material: satin", "Bundle: 7", "piece name: again")...)
	for name, entities := range map[string][]string{"none": nil, "texts": {"0 TEXT | 10 0 | 20 0 | 1 Style: 12"},
		"one": {insert}, "both": {insert, "0 INSERT | 8 0 | 2 CUFF | 10 200 | 20 0"}} {
		d := readAsDXF(t, ofBlocks(blocks, entities...))
		if !IsPatternData(d) || len(d.Lines) != 4 || len(d.Points) != 2 {
			t.Fatalf("%s: %d lines, %d points", name, len(d.Lines), len(d.Points))
		}
		for i, l := range d.Lines {
			want := []string{"collar", "top collar", "cuff", "cuff"}[i/2*2:]
			if l.Block != want[0] || l.Label != want[1] || l.Size != "38" {
				t.Errorf("%s: %+v", name, l.Marks)
			}
		}
		said := PiecesSaid(d.Texts)
		want := []PieceWords{{Block: "collar", Name: "top collar", Size: "38", Quantity: "2,1"},
			{Block: "cuff", Name: "cuff", Size: "38", Material: "satin", Others: []Keyed{{"Bundle", "7"}}}}
		if diff := cmp.Diff(want, said); diff != "" {
			t.Error(diff)
		}
		if drawn, mirrored := said[0].Copies(); drawn != 2 || mirrored != 1 {
			t.Errorf("%d, %d", drawn, mirrored)
		}
	}
	library := append(slices.Clone(blocks[:1]), "0 LINE | 8 walls | 10 0 | 20 0 | 11 1 | 21 1", "0 ENDBLK")
	d := readAsDXF(t, ofBlocks(library, "0 LINE | 8 0 | 10 0 | 20 0 | 11 1 | 21 1"))
	if len(d.Lines) != 1 || IsPatternData(d) {
		t.Errorf("a block that no one inserts is drawn, or a plan is pattern data")
	}
}

func TestQuantities(t *testing.T) {
	for said, want := range map[string][2]int{"2": {2, 0}, " 2 , 1": {2, 1}, "4 (2 pairs)": {4, 0}, "1;1": {1, 1}, "": {},
		"two": {}, "99999": {9999, 0}} {
		if drawn, mirrored := (PieceWords{Quantity: said}).Copies(); drawn != want[0] || mirrored != want[1] {
			t.Errorf("%q: %d, %d", said, drawn, mirrored)
		}
	}
}

// Attributes and texts of several lines say the same as texts of one.
func TestPiecesSayInAttributes(t *testing.T) {
	d := readAsDXF(t, ofBlocks(pieceBlock("yoke", "x: y"), "0 INSERT | 66 1 | 2 yoke | 10 0 | 20 0",
		"0 ATTRIB | 10 0 | 20 0 | 1 back yoke | 2 PIECE_NAME | 70 1", "0 SEQEND",
		"0 INSERT | 2 yoke | 10 50 | 20 0", "0 MTEXT | 10 0 | 20 0 | 3 Size: | 1  XL"))
	if l := d.Lines[0]; l.Label != "back yoke" {
		t.Errorf("%+v", l.Marks)
	}
	last := d.Lines[len(d.Lines)-1]
	if last.Group != "yoke 2" {
		t.Errorf("%+v", last.Marks)
	}
}

// Sizes stand in names of blocks where each piece has the same ones.
func TestSizesOfBlockNames(t *testing.T) {
	for names, want := range map[string]string{
		"collar-38 collar-40 cuff-38 cuff-40": "38 40 38 40",
		"collar_S collar_XL cuff":             "S XL ",
		"collar.m collar.l":                   "m l",
		"gore-1 gore-2 gore-3":                "  ",
		"gore-7 gore-8":                       " ",
		"collar-38 collar-40 cuff-38":         "  ",
		"collar-38 cuff-38":                   " ",
		"front back":                          " ",
	} {
		var blocks []string
		for _, n := range strings.Fields(names) {
			blocks = append(blocks, pieceBlock(n)...)
		}
		d := readAsDXF(t, ofBlocks(blocks))
		var got []string
		for i := 0; i < len(d.Lines); i += 2 {
			got = append(got, d.Lines[i].Size)
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%s: sizes %q", names, got)
		}
		if told := len(d.Notes) == 1 && strings.HasPrefix(d.Notes[0], "sizes "); told != (strings.TrimSpace(want) != "") {
			t.Errorf("%s: %q", names, d.Notes)
		}
	}
}

// The standard roles: what is cut, sewn, and lies on the grain; nothing is left without one.
func TestPatternRules(t *testing.T) {
	roles := map[string]Role{}
	for _, r := range PatternRules() {
		if r.Prefix != "" || r.Colour != "" || r.Layer == "" || r.Role == Unnamed {
			t.Errorf("%+v", r)
		}
		roles[r.Layer] = r.Role
	}
	for layer, want := range map[string]Role{"1": CutLine, "4": Notch, "6": Fold, "7": Grain, "8": Internal,
		"11": Internal,
		"13": Internal, "14": SeamLine, "15": Ignored, "2": Ignored, "3": Ignored} {
		if roles[layer] != want {
			t.Errorf("layer %s is %v", layer, roles[layer])
		}
	}
}
