package outline

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// The colour index as ezdxf has it (aci2rgb), but for number 7, which is white on black there. The
// tens from 10 to 240 go round the hues, the even ones get darker, the odd ones paler.
func TestColourIndex(t *testing.T) {
	for colour, want := range map[int]string{1: red, 2: "#ffff00", 3: lime, 4: "#00ffff", 5: blue,
		6: "#ff00ff", 7: black,
		8: "#808080", 9: "#c0c0c0", 10: red, 11: "#ff7f7f", 12: "#a50000", 13: "#a55252", 14: "#7f0000", 19: "#261313",
		20: "#ff3f00", 30: "#ff7f00", 32: "#a55200", 40: "#ffbf00", 41: "#ffdf7f", 50: "#ffff00",
		70: "#7fff00", 90: lime,
		94: "#007f00", 130: "#00ffff", 150: "#007fff", 170: blue, 190: "#7f00ff", 210: "#ff00ff", 230: "#ff007f",
		240: "#ff003f", 250: black, 254: "#cccccc", 0: "", 256: "", -3: "", 300: "",
		dxfTrueColor | 0x0a0b0c: "#0a0b0c"} {
		if got := colourName(colour); got != want {
			t.Errorf("colour %d is %q, want %q", colour, got, want)
		}
	}
}

// marksOfDXF are those of the lines of a drawing with tables.
func marksOfDXF(t *testing.T, text string) (all []Marks) {
	t.Helper()
	for _, l := range readAsDXF(t, text).Lines {
		all = append(all, l.Marks)
	}
	return all
}

// Where an entity has its colour and its line type from (DXF Reference, group codes of all entities:
// 62 is the index, 0 BYBLOCK, 256 BYLAYER, and 420 the true colour, which goes before it; LAYER: 62,
// below 0 where it is off, 420, 6; LTYPE: 73 is how many dashes, dots and gaps it has).
func TestColoursAndLineTypesOfEntities(t *testing.T) {
	const two = " | 10 0 | 20 0 | 11 1 | 21 0"
	text := inMM + dxfSection("TABLES", "0 TABLE | 2 LTYPE", "0 LTYPE | 2 GAPS | 73 2",
		"0 LTYPE | 2 Plain | 73 0", "0 ENDTAB",
		"0 TABLE | 2 LAYER", "0 LAYER | 2 a | 62 3 | 6 Gaps | 70 0", "0 LAYER | 2 b | 62 3 | 420 657930 | 6 plain",
		"0 LAYER | 2 c", "0 LAYER | 62 5", "0 ENDTAB") +
		dxfSection("ENTITIES", "0 LINE | 8 A"+two, "0 LINE | 8 a | 62 1 | 6 PLAIN"+two, "0 LINE | 8 b"+two,
			"0 LINE | 8 b | 62 256 | 6 BYLAYER"+two, "0 LINE | 8 a | 6 ByLayer"+two,
			"0 LINE | 8 c | 62 5 | 420 16711935"+two,
			"0 LINE | 8 d | 6 dotted"+two, "0 LINE | 8 d | 6 Continuous"+two, "0 LINE | 8 d | 62 0 | 6 BYBLOCK"+two,
			"0 LINE | 5 1F | 62 400"+two, "0 LINE | 5 no handle"+two,
			"0 LINE | 5 0123456789ABCDEF0"+two) + groups("0 EOF")
	want := []Marks{{Layer: "a", Colour: lime, Dashed: true}, {Layer: "a", Colour: red}, {Layer: "b",
		Colour: "#0a0a0a"},
		{Layer: "b", Colour: "#0a0a0a"}, {Layer: "a", Colour: lime, Dashed: true}, {Layer: "c", Colour: "#ff00ff"},
		{Layer: "d", Dashed: true}, {Layer: "d"}, {Layer: "d", Colour: black}, {ID: "1F", Layer: "0"},
		{Layer: "0"}, {Layer: "0"}}
	if diff := cmp.Diff(want, marksOfDXF(t, text)); diff != "" {
		t.Error(diff)
	}
}

// What is of other programs is passed over: extended data (codes from 1000 on), objects embedded in an
// entity (101), comments (999; DXF Reference, group code value types), entities that are no lines.
func TestDataOfOtherProgramsIsPassedOver(t *testing.T) {
	d := readAsDXF(t, ofEntities("0 LINE | 10 1 | 20 2 | 999 10 | 11 3 | 21 4 | 1010 9 | 1020 9 | 1001 X",
		"0 LWPOLYLINE | 10 0 | 20 0 | 10 1 | 20 0 | 101 Embedded Object | 10 7 | 20 7 | 62 NaN",
		"0 HATCH | 62 x | 420 x | 5 zz | 8 a | 67 0",
		"0 MTEXT | 10 1 | 20 2 | 1 a | 101 Embedded Object | 10 5 | 1 b"))
	if got := corners(d.Lines); got != "1,-2 3,-4 | 0,0 1,0" {
		t.Error(got)
	}
	if len(d.Texts) != 1 || d.Texts[0].Text != "a" || d.Texts[0].At[0] != 1 {
		t.Errorf("%+v", d.Texts)
	}
}
