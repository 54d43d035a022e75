package outline

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
)

// Texts with the places and the blocks that they belong to (DXF Reference, ATTRIB: it follows the
// insertion that it is of; ATTDEF: drawn only where flag 2, constant, is set; TEXT: on its own plane,
// MTEXT: in the drawing's).
func TestTextsOfDXF(t *testing.T) {
	block := blockDXF("front", lineDXF, "0 ATTDEF | 10 1 | 20 1 | 1 S | 2 SHADE | 3 Which?",
		"0 ATTDEF | 10 2 | 20 1 | 1 always | 2 MARK | 70 2")
	d := readAsDXF(t, ofBlocks(block, "0 INSERT | 2 front | 10 10 | 20 0 | 66 1",
		"0 ATTRIB | 10 11 | 20 1 | 1 38 | 2 SHADE",
		"0 SEQEND", "0 TEXT | 10 3 | 20 4 | 3 prompt | 1 front view | 230 -1",
		"0 MTEXT | 10 3 | 20 4 | 3 one | 1 \\Ptwo | 230 -1",
		"0 TEXT | 10 3 | 20 4 | 1 %%u%%u", "0 TEXT | 10 40000 | 20 0 | 1 far", "0 INSERT | 2 front | 10 0 | 20 0",
		"0 ATTRIB | 10 1 | 20 1 | 1 40 | 2 SHADE"))
	layer := func(m Marks) Marks { m.Layer = "0"; return m }
	want := []Text{
		{orb.Point{12, 1}, "always", layer(Marks{Label: "MARK", Block: "front", Group: "front"})},
		{orb.Point{11, 1}, "38", layer(Marks{Label: "SHADE", Block: "front", Group: "front"})},
		{orb.Point{-3, 4}, "front view", layer(Marks{})},
		{orb.Point{3, 4}, "one\ntwo", layer(Marks{})},
		{orb.Point{2, 1}, "always", layer(Marks{Label: "MARK", Block: "front", Group: "front 2"})},
		{orb.Point{1, 1}, "40", layer(Marks{Label: "SHADE", Block: "front", Group: "front 2"})},
	}
	if diff := cmp.Diff(want, d.Texts); diff != "" {
		t.Error(diff)
	}
	if got := strings.Join(d.Notes, ""); !strings.HasPrefix(got, "a text far from all else at line ") {
		t.Errorf("notes %q", got)
	}
}

// A text of over 10,000 bytes keeps the parts that fit; what is longer than a name is none.
func TestLongTextsOfDXF(t *testing.T) {
	parts := strings.Repeat(" | 3 "+strings.Repeat("x", 250), 100)
	d := readAsDXF(t, ofEntities(lineDXF, "0 MTEXT | 10 0 | 20 0"+parts+" | 1 end"))
	if n := len(d.Texts[0].Text); n > mostText || n < mostText-250 {
		t.Errorf("%d letters are kept", n)
	}
}

// Points are read where they are drawn, seen from behind or not; POINT has no plane (DXF Reference, POINT
// is in world coordinates).
func TestPointsOfDXF(t *testing.T) {
	d := readAsDXF(t, ofBlocks(blockDXF("b", lineDXF, "0 POINT | 8 4 | 10 1 | 20 2 | 230 -1"),
		"0 INSERT | 2 b | 10 10 | 20 20 | 41 2 | 42 3", "0 POINT | 5 AB | 10 -1 | 20 7"))
	if len(d.Points) != 2 || d.Points[0].At != (orb.Point{12, 26}) || d.Points[1].At != (orb.Point{-1, 7}) ||
		d.Points[0].Layer != "4" || d.Points[0].Block != "b" || d.Points[1].ID != "AB" {
		t.Errorf("%+v", d.Points)
	}
}

// The lengths of the units that $INSUNITS numbers (DXF Reference, HEADER: INSUNITS), by the definitions of
// the international yard (0.9144 m, 1959), of the survey foot (1200/3937 m; NIST Handbook 44, appendix C) and
// by the prefixes of the SI.
func TestLengthsOfUnits(t *testing.T) {
	const inch = 914.4 / 36
	for unit, want := range map[int]float64{1: inch, 2: 12 * inch, 3: 1760 * 914.4, 4: 1, 5: 10, 6: 1e3, 7: 1e6,
		8: inch / 1e6, 9: inch / 1e3, 10: 914.4, 13: 1e-3, 14: 100, 15: 1e4, 16: 1e5, 21: 1e3 * 1200 / 3937,
		22: 1e3 * 100 / 3937, 23: 1e3 * 3600 / 3937, 0: 0, 11: 0, 12: 0, 17: 0, 20: 0, 24: 0} {
		f := newDXFFile()
		f.insunits = unit
		if got := f.unit().Millimetres; got < want*(1-1e-12) || got > want*(1+1e-12) {
			t.Errorf("$INSUNITS %d: %g mm, want %g", unit, got, want)
		}
	}
}

// Words that name a unit, by common practice: the first that do count, and a long text is no such word.
func TestWordsOfUnits(t *testing.T) {
	for text, want := range map[string]float64{"UNITS: METRIC": 1, "unit : mm": 1, "Units: Millimetres, scale 1": 1,
		"UNITS: ENGLISH": 25.4, "units:inches": 25.4, " Unit: In ": 25.4, "UNITS: IMPERIAL": 25.4, "UNITS METRIC": 0,
		"UNITS: cubits": 0, "LENGTH: MM": 0, "UNITS: MM" + strings.Repeat(" ", 200): 0} {
		var u dxfUnitWords
		if u.read(text, 3); u.millimetres != want {
			t.Errorf("%.40q: %g mm", text, u.millimetres)
		}
		if u.read("UNITS: METRIC", 4); want > 0 && (u.millimetres != want || u.line != 3) {
			t.Errorf("%q is written over: %+v", text, u)
		}
	}
}

// Of two blocks of one name the first counts, names being one in any case of letters, and what is left out
// in over 40 ways is told in 41.
func TestNotesOfDXF(t *testing.T) {
	d := readAsDXF(t, ofBlocks(append(blockDXF("a", lineDXF), blockDXF("A", lineDXF, lineDXF)...),
		"0 INSERT | 2 a | 10 0 | 20 0"))
	if len(d.Lines) != 1 || len(d.Notes) != 1 || d.Notes[0] != "block A a second time at line 40" {
		t.Errorf("%d lines, %q", len(d.Lines), d.Notes)
	}
	entities := []string{lineDXF}
	for i := range 60 {
		entities = append(entities, fmt.Sprintf("0 THING_%d", i))
	}
	d = readAsDXF(t, ofEntities(entities...))
	if n := len(d.Notes); n != 41 || d.Notes[39] != "THING_39 at line 108" ||
		d.Notes[40] != "something else at line 110, and 19 more" {
		t.Errorf("%d notes: %q", n, d.Notes)
	}
}
