package outline

import (
	"fmt"
	"strings"
	"testing"
	"testing/iotest"
	"unicode/utf16"

	"yardlay/shapes/say"
)

// The entities of bad files.
const lineDXF = "0 LINE | 10 0 | 20 0 | 11 1 | 21 0"

func blockDXF(name string, entities ...string) []string {
	return append(append([]string{"0 BLOCK | 2 " + name + " | 10 0 | 20 0"}, entities...), "0 ENDBLK")
}

func insertDXF(name string) string { return "0 INSERT | 2 " + name + " | 10 0 | 20 0" }

// refused holds that a file is refused, with its line and what would mend it, however its lines
// end.
func refused(t *testing.T, name, text, want string) {
	t.Helper()
	for _, end := range []string{"\n", "\r\n", "\r"} {
		_, err := ReadDXF(strings.NewReader(strings.ReplaceAll(text, "\n", end)))
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", name, err, want)
			continue
		}
		if what, hint := say.Parts(err, nil); hint == "" || strings.ContainsAny(what, "\a\n") {
			t.Errorf("%s: what %q, hint %q", name, what, hint)
		}
	}
}

// What is no DXF, or broken off.
func TestReadDXFRefusesWhatIsNone(t *testing.T) {
	for name, c := range map[string]struct{ text, want string }{
		"empty":              {" \n", "the file is empty"},
		"binary":             {dxfBinary + "\r\n\x1a\x00\x00\x00SECTION", "this is a binary DXF"},
		"DWG":                {"AC1032\x00\x00\x00", "this is a DWG file"},
		"UTF-16":             {"\xff\xfe0\x00\n\x00", "UTF-16"},
		"PDF":                {"%PDF-1.7\n", "this is a PDF"},
		"SVG":                {"<?xml version=\"1.0\"?>", "this is XML"},
		"zero bytes":         {"0\nSECTION\n\x00", "line 3: a byte 0"},
		"words":              {"Dear all,\nplease find", "line 1: \"Dear all,\" stands where a group code belongs"},
		"code too high":      {groups("0 SECTION | 2 HEADER | 9999 x"), "line 5: \"9999\" stands where a group code"},
		"code no number":     {groups("0 SECTION | 2 HEADER") + "0x1\n2\n", "line 5: \"0x1\" stands where"},
		"no section":         {groups("0 LINE | 10 0"), "line 2: \"LINE\" where a DXF begins"},
		"between sections":   {dxfSection("HEADER") + groups("0 LINE"), "line 8: \"LINE\" (group code 0) stands between"},
		"section, no name":   {groups("0 SECTION | 9 x"), "line 4: a SECTION without a name"},
		"cut short":          {strings.TrimSuffix(ofEntities(lineDXF), groups("0 EOF")), "line 30: the file ends here"},
		"cut in a group":     {groups("0 SECTION | 2 HEADER") + "9\n", "line 5: the file ends here"},
		"no end of entities": {inMM + groups("0 SECTION | 2 ENTITIES", lineDXF, "0 EOF"), "EOF stands where ENDSEC belongs"},
		"no end of tables":   {inMM + groups("0 SECTION | 2 TABLES | 0 EOF"), "the TABLES have no end"},
		"no end of a block": {inMM + groups("0 SECTION | 2 BLOCKS | 0 BLOCK | 2 a | 0 ENDSEC"),
			"ENDSEC stands where ENDBLK belongs"},
		"loose between blocks": {inMM + dxfSection("BLOCKS", lineDXF) + groups("0 EOF"), "stands between two blocks"},
		"end of another":       {inMM + groups("0 SECTION | 2 OBJECTS | 0 EOF"), "ends within a section"},
		"entity in the header": {dxfSection("HEADER", "0 LINE"), "\"LINE\" within the HEADER"},
	} {
		refused(t, name, c.text, c.want)
	}
	if _, err := ReadDXF(iotest.ErrReader(fmt.Errorf("the disk is gone"))); err == nil ||
		!strings.Contains(err.Error(), "the disk is gone") {
		t.Errorf("%v", err)
	}
}

// Numbers that are none, places beyond all limits, parts that are missing.
func TestReadDXFRefusesEntities(t *testing.T) {
	for name, c := range map[string]struct{ text, want string }{
		"not a number":   {ofEntities("0 LINE | 10 NaN | 20 0 | 11 1 | 21 0"), "line 22: \"NaN\" stands where a number"},
		"infinity":       {ofEntities("0 LINE | 10 0 | 20 inf | 11 1 | 21 0"), "line 24: \"inf\" stands where a number"},
		"beyond float64": {ofEntities("0 LINE | 10 1e999 | 20 0 | 11 1 | 21 0"), "line 22: \"1e999\""},
		"comma":          {ofEntities("0 LINE | 10 1,5 | 20 0 | 11 1 | 21 0"), "\"1,5\" is no number"},
		"half a flag":    {ofEntities("0 LWPOLYLINE | 70 0.5"), "where a whole number belongs"},
		"too far": {ofEntities("0 LINE | 10 0 | 20 0 | 11 40000 | 21 0"),
			"line 20: a point at 4e+04, 0 lies beyond 30 m"},
		"an arc too far": {ofEntities("0 ARC | 10 0 | 20 0 | 40 1e15 | 50 0 | 51 90"),
			"line 20: an arc reaches beyond 30 m"},
		"a bulge too far": {ofEntities("0 LWPOLYLINE | 10 0 | 20 0 | 42 1e300 | 10 1 | 20 0"), "line 20: an arc"},
		"a tiny bulge":    {ofEntities("0 LWPOLYLINE | 10 0 | 20 0 | 42 1e-300 | 10 1e6 | 20 0"), "lies beyond 30 m"},
		"a point too far": {ofEntities(lineDXF, "0 POINT | 10 1e200 | 20 0"), "line 30: a point"},
		"far by its scale": {ofBlocks(blockDXF("a", lineDXF), insertDXF("a")+" | 41 1e200 | 42 1e200"),
			"lies beyond 30 m"},
		"scale without end": {ofBlocks(append(blockDXF("a", insertDXF("b")+" | 41 1e200"), blockDXF("b", lineDXF)...),
			insertDXF("a")+" | 41 1e200"), "line 28: block b is inserted on a scale beyond"},
		"no radius":      {ofEntities("0 CIRCLE | 10 0 | 20 0"), "line 20: the CIRCLE that begins here lacks"},
		"radius below 0": {ofEntities("0 CIRCLE | 10 0 | 20 0 | 40 -1"), "lacks a coordinate or a radius"},
		"half a point":   {ofEntities("0 LINE | 10 0 | 20 0 | 11 0"), "the LINE that begins here lacks"},
		"half a vertex":  {ofEntities("0 LWPOLYLINE | 10 0 | 20 0 | 10 5"), "the LWPOLYLINE that begins here lacks"},
		"no end of vertices": {ofEntities("0 POLYLINE | 66 1 | 0 VERTEX | 10 0 | 20 0", lineDXF),
			"line 30: \"LINE\" stands among the vertices of the POLYLINE of line 20"},
	} {
		refused(t, name, c.text, c.want)
	}
}

// Splines that are none.
func TestReadDXFRefusesSplines(t *testing.T) {
	spline := func(groups string) string { return ofEntities("0 SPLINE | " + groups) }
	controls := strings.Repeat(" | 10 1 | 20 1", 4)
	for name, c := range map[string]struct{ text, want string }{
		"degree 0":          {spline("71 0" + controls), "a spline of degree 0"},
		"degree 12":         {spline("71 12" + controls), "a spline of degree 12"},
		"too few controls":  {spline("71 4" + controls), "with 4 control points, which takes 5"},
		"knots missing":     {spline("71 3 | 40 0" + controls), "4 control points and 1 knots, which takes 8"},
		"knots in disorder": {spline("71 3|40 0|40 0|40 0|40 0|40 1|40 1|40 .5|40 1" + controls), "knot 7, 0.5, is below"},
		"weights missing": {spline("71 3|40 0|40 0|40 0|40 0|40 1|40 1|40 1|40 1|41 1" + controls),
			"4 control points and 1 weights"},
		"weight 0": {spline("71 1|40 0|40 0|40 1|40 1|41 1|41 0|10 0|20 0|10 1|20 0"),
			"weight 2 is 0, not above 0"},
		"control too far": {spline("71 1|40 0|40 0|40 1|40 1|10 0|20 0|10 1e9|20 0"), "a point at 1e+09, 0 lies beyond"},
	} {
		refused(t, name, c.text, c.want)
	}
}

// Names that cannot be printed, blocks in themselves, nothing at all.
func TestReadDXFRefusesNamesAndBlocks(t *testing.T) {
	for name, c := range map[string]struct{ text, want string }{
		"a bell in a name": {ofEntities("0 LINE | 8 a\a | 10 0 | 20 0"),
			"line 22: the name of a layer, \"a\\a\", holds a letter"},
		"an escaped bell": {ofEntities("0 LINE | 8 a\\U+0007 | 10 0 | 20 0"), "line 22: the name of a layer"},
		"a name too long": {ofBlocks(blockDXF(strings.Repeat("a", 256), lineDXF)), "has over 255 letters"},
		"block in itself": {ofBlocks(blockDXF("a", lineDXF, insertDXF("a")), insertDXF("a")),
			"block a is inserted within itself"},
		"in each other": {ofBlocks(append(blockDXF("a", insertDXF("b")), blockDXF("b", insertDXF("A"))...), insertDXF("a")),
			"block a is inserted within itself"},
		"nothing drawn": {ofEntities("0 TEXT | 10 0 | 20 0 | 1 hello"), "the file draws no line"},
		"only a hatch":  {ofEntities("0 HATCH | 8 0"), "draws no line (HATCH at line 20)"},
		"only a frozen layer": {inMM + dxfSection("TABLES", "0 LAYER | 2 a | 70 1") +
			dxfSection("ENTITIES", lineDXF+" | 8 A") + groups("0 EOF"), "on layer a, which is frozen,"},
		"rows without number": {ofBlocks(blockDXF("a", lineDXF), insertDXF("a")+" | 70 30000 | 71 30000"),
			"over 100000 blocks are inserted"},
	} {
		refused(t, name, c.text, c.want)
	}
}

// What is left out is told, and the rest is read.
func TestReadDXFTellsWhatIsLeftOut(t *testing.T) {
	line := "0 LINE | 10 0 | 20 0 | 11 1 | 21 0"
	text := inMM + dxfSection("TABLES", "0 LAYER | 2 off | 62 -3", "0 LAYER | 2 cold | 70 1") +
		dxfSection("BLOCKS", "0 BLOCK | 2 x | 70 4", "0 ENDBLK", "0 BLOCK | 2 dim | 10 0 | 20 0", "0 HATCH", "0 ENDBLK") +
		dxfSection("ENTITIES", line, line+" | 8 OFF", line+" | 8 off", line+" | 8 cold", line+" | 67 1", line+" | 60 1",
			"0 HATCH | 8 0 | 10 NaN", "0 HATCH", "0 DIMENSION | 2 dim", "0 INSERT | 2 gone | 10 0 | 20 0",
			"0 INSERT | 2 x | 10 0 | 20 0", "0 CIRCLE | 10 0 | 20 0 | 40 5 | 210 1 | 220 0 | 230 1",
			"0 LINE | 10 3 | 20 3 | 11 3 | 21 3", "0 POLYLINE | 70 16 | 0 VERTEX | 10 0 | 20 0 | 0 SEQEND",
			"0 SPLINE | 71 3 | 11 0 | 21 0 | 11 5 | 21 5", "0 b\ad", "0 VIEWPORT",
			"0 LINE | 10 0 | 20 0 | 30 1 | 11 5 | 21 5 | 31 2") + groups("0 EOF")
	d := readAsDXF(t, text)
	if len(d.Lines) != 3 {
		t.Errorf("%d lines", len(d.Lines))
	}
	want := `something in paper space at line 110
something invisible at line 122
something on layer off, which is off, at line 74, and 1 more
something on layer cold, which is frozen, at line 98
HATCH at line 134, and 1 more
DIMENSION at line 142
block gone, which the file does not hold, at line 146
block x, which is in another file, at line 154
CIRCLE on a plane that is not the drawing's, at line 162
a line of no length at line 176
POLYLINE that is a mesh at line 186
a spline given by the points it goes through: check its curve, at line 198
something unknown at line 210
a line with heights, drawn as it is seen from above, at line 214`
	if got := strings.Join(d.Notes, "\n"); got != want {
		t.Errorf("notes\n%s", got)
	}
}

// Names and texts in the letters of the file: UTF-8 from 2007 on, a codepage before, escapes
// in both.
func TestReadDXFLetters(t *testing.T) {
	header := func(version, codepage string) string {
		return dxfSection("HEADER", "9 $ACADVER | 1 "+version, "9 $DWGCODEPAGE | 3 "+codepage, "9 $INSUNITS | 70 4")
	}
	for _, c := range []struct{ version, codepage, written, want string }{
		{"AC1009", "ANSI_1252", "\xc4rmel", "Ärmel"},
		{"AC1015", "ANSI_1251", "\xfe\xe1\xea\xe0", "юбка"},
		{"AC1009", "dos850", "\x8ermel", "Ärmel"},
		{"AC1032", "ANSI_1252", "Ärmel", "Ärmel"},
		{"AC1032", "ANSI_1252", "\xc4rmel", "\uFFFDrmel"},
		{"AC1009", "ANSI_1252", "юбка", "юбка"}, // UTF-8 before its time
		{"AC1009", "ANSI_1252", `\U+044E\U+0431\U+043A\U+0430`, "юбка"},
		{"AC1032", "", `\U+D835\U+DED1 \U+12`, "𝛑 \\U+12"},
		{"AC1009", "ANSI_932", "\x83\x41", "âA"}, // not known: told
	} {
		d := readAsDXF(t, header(c.version, c.codepage)+dxfSection("ENTITIES",
			"0 LINE | 8 "+c.written+" | 10 0 | 20 0 | 11 1 | 21 0", "0 TEXT | 10 0 | 20 0 | 1 "+c.written)+groups("0 EOF"))
		if d.Lines[0].Layer != c.want || d.Texts[0].Text != c.want {
			t.Errorf("%q of %s, %s: layer %q, text %q, want %q", c.written, c.version, c.codepage, d.Lines[0].Layer,
				d.Texts[0].Text, c.want)
		}
		if told := strings.Contains(strings.Join(d.Notes, ""), "codepage ANSI_932"); told != (c.codepage == "ANSI_932") {
			t.Errorf("%s: %q", c.codepage, d.Notes)
		}
	}
	if got := unescape(`\U+D835x\U+DED1`); got != string([]rune(string(utf16.Decode([]uint16{0xd835}))))+"x\uFFFD" {
		t.Errorf("%q", got)
	}
}

func TestPlainTexts(t *testing.T) {
	for in, want := range map[string]string{
		"45%%d %%c5 %%p1 %%uline%%u 50%%% %%065 %%x %%": "45° ⌀5 ±1 line 50% A %%x %%",
		"a^ b^Ic\td": "a^b c d", "plain": "plain", "  ": "",
	} {
		if got := plainText(in); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
	for in, want := range map[string]string{
		`{\fArial|b0|i0|c0|p34;Piece Name:} collar\PSize: \C1;\H2.5x;38`: "Piece Name: collar\nSize: 38",
		`\A1;1\S1/2; in\~wide \{x\} a\\b`:                                "11/2 in wide {x} a\\b",
		`\S2^ 3;, \S1#4; \Lunder\l \pi2,l3;par ^J end\`:                  "2/3, 1/4 under par\nend\\",
		`\f without end`: "", `\q stays`: `\q stays`, "50%%d": "50°",
	} {
		if got := plainMText(in); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
}
