package report

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/job"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/shapes/measure"
)

// A line of the cut list: what to cut, how often and which way, how large.
func TestRowsOfTheCutList(t *testing.T) {
	size, cut := plan.Size{Along: 40 * measure.Inches, Across: 10.5 * measure.Inches},
		plan.Size{Along: 41.5 * measure.Inches, Across: 11.5 * measure.Inches}
	for _, c := range []struct {
		cut  Cut
		unit measure.Unit
		want string
	}{
		{Cut{Part: "skirt", Piece: "skirt side gore", Count: 2}, measure.Inch,
			"side gore|2|40 x 10 1/2|41 1/2 x 11 1/2"},
		{Cut{Part: "skirt", Piece: "skirt side gore", Count: 2, Pair: true}, measure.Inch,
			"side gore|1 pair|40 x 10 1/2|41 1/2 x 11 1/2"},
		{Cut{Part: "skirt", Piece: "skirt side gore", Count: 6, Pair: true}, measure.Centimetre,
			"side gore|3 pairs|101.6 x 26.7|105.4 x 29.2"},
		{Cut{Part: "skirt", Piece: "skirt front", Count: 1, OnFold: true}, measure.Millimetre,
			"front|1 on fold|1016.0 x 266.7|1054.1 x 292.1"},
		{Cut{Part: "binding", Piece: "binding", Count: 3, Grain: string(job.BiasGrain)}, measure.Inch,
			"binding, bias|3|40 x 10 1/2|41 1/2 x 11 1/2"},
		{Cut{Part: "cape", Piece: "capelet half", Count: 1, Grain: string(job.CrossGrain)}, measure.Inch,
			"capelet half, cross grain|1|40 x 10 1/2|41 1/2 x 11 1/2"},
	} {
		c.cut.Finished, c.cut.CutSize = size, cut
		if got := strings.Join(c.cut.Row(c.unit), "|"); got != c.want {
			t.Errorf("%s, want %s", got, c.want)
		}
	}
	// The name of a row stands below that of its part.
	if 1+len(CutHeads) != len(Cut{}.Row(measure.Inch)) || 1+len(SeamHeads) != len(Seam{}.Row(measure.Inch)) {
		t.Error("there are not as many heads as figures in a row")
	}
	list := CutList{Pieces: []Cut{{}, {OnFold: true}, {Grain: string(job.BiasGrain)}}}
	if notes := list.SizeNotes(measure.Inch); len(notes) != 3 || !strings.Contains(notes[0], "in inches.") {
		t.Errorf("notes are %q", notes)
	}
	if notes := (CutList{Pieces: []Cut{{}}}).SizeNotes(measure.Centimetre); len(notes) != 1 ||
		!strings.Contains(notes[0], "in centimetres.") {
		t.Errorf("notes are %q", notes)
	}
}

// The name of a part is left off its own pieces, whole words at a time, and what is left
// with the part before it is the name again.
func TestNamesWithinTheirPart(t *testing.T) {
	for _, c := range []struct{ piece, part, want string }{
		{"cape front", "cape", "front"}, {"cape", "cape", "cape"}, {"capelet half", "cape", "capelet half"},
		{"skirt 2", "skirt", "2"}, {"net skirt half", "net skirt", "half"}, {"half", "", "half"},
		{"belt", "belts", "belt"},
	} {
		if got := WithoutPart(c.piece, c.part); got != c.want {
			t.Fatalf("%q of %q is called %q, want %q", c.piece, c.part, got, c.want)
		}
	}
	word := rapid.StringMatching(`[a-c]{1,2}( [a-c])?`)
	rapid.Check(t, func(t *rapid.T) {
		piece, part := word.Draw(t, "piece"), word.Draw(t, "part")
		if got := WithoutPart(piece, part); got != piece && part+" "+got != piece || got == "" {
			t.Fatalf("%q of %q is called %q", piece, part, got)
		}
	})
}

// Free ends in words: hemmed, turned in or left raw, of one tier or each of several.
func TestEndsInWords(t *testing.T) {
	for want, e := range map[string]Ends{
		"ruff in net has two free ends, left raw.":                   {},
		"ruff in net has two free ends. Hem each, 1/2 in turned up.": {Allowance: 12.7},
		"ruff in net has two free ends. Turn in 1/4 in at each.": {Allowance: 6.35, Bound: true,
			Tiers: 1},
		"ruff in net has two free ends in each tier. Hem each, 1 in turned up.": {Allowance: 25.4, Tiers: 3},
	} {
		e.Part, e.Cloth = "ruff", "net"
		if got := e.Words(measure.Inch); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// Tables of figures are as wide as their heads, in the units asked for, cloth rounded up;
// layers of net have a second one of where to pin them.
func TestGridsOfFigures(t *testing.T) {
	layer := func(n int, open bool, seams ...string) NetLayer {
		l := NetLayer{Layer: n, Depth: 254 * float64(n), Girth: 1000, Flat: 3000, Fullness: 3, Strips: 2, CutDepth: 500,
			Cloth: 1001, Quarters: [4]float64{125, 375, 625, 875}, Open: open}
		copy(l.Seams[:], seams)
		return l
	}
	open := "cross the opening: leave its ends open at centre back."
	for _, c := range []struct {
		table Table
		rows  []int
		notes []string
	}{
		{Table{Tiers: []Tier{{Tier: 1, Edge: 0, Flat: 800, Depth: 100, CutDepth: 130, Strips: 1, Cloth: 130},
			{Tier: 2, Edge: 800, Flat: 1600, Fullness: 2, Depth: 100, CutDepth: 130, Strips: 2, Cloth: 260}}}, []int{2},
			nil},
		{Table{Layers: []NetLayer{layer(1, false), layer(2, false)}}, []int{2, 2}, nil},
		{Table{Layers: []NetLayer{layer(1, true), layer(2, false)}}, []int{2, 2},
			[]string{"Layer 1 " + strings.Replace(open, "cross ", "crosses ", 1)}},
		{Table{Layers: []NetLayer{layer(1, true), layer(2, true)}}, []int{2, 2},
			[]string{"Layers 1, 2 " + strings.Replace(open, "its", "their", 1)}},
		{Table{Layers: []NetLayer{layer(1, false, "A", "", "", "A"), layer(2, false, "A", "", "", "A")}}, []int{2, 2},
			[]string{"The first and the last lie on the seams A. Between seams a stroke over the seam line marks them."}},
		{Table{Layers: []NetLayer{layer(1, false, "", "B", "B", ""), layer(2, false, "A", "B", "B", "A")}}, []int{2, 2},
			[]string{"Layer 1: the second and the third lie on the seams B. Between seams a stroke over the seam " +
				"line marks them.",
				"Layer 2: the first and the last lie on the seams A, the others on the seams B."}},
		{Table{Binding: &Binding{CutWidth: 50, Strips: 3, Joins: 2, Length: 2000, Cloth: 150}}, []int{0}, nil},
	} {
		c.table.Part, c.table.Cloth = "skirt", "net"
		grids := c.table.Grids(measure.Centimetre, measure.Metre)
		if len(grids) != len(c.rows) {
			t.Errorf("%d grids, want %d", len(grids), len(c.rows))
			continue
		}
		for i, g := range grids {
			if len(g.Rows) != c.rows[i] || i == 0 && !strings.HasPrefix(g.Caption, "skirt in net, in centimetres") {
				t.Errorf("%q has %d rows", g.Caption, len(g.Rows))
			}
			for _, row := range g.Rows {
				if len(row) != len(g.Heads) || slices.Contains(row, "") {
					t.Errorf("%q under %q", row, g.Heads)
				}
				if i == 0 && c.table.Layers != nil && row[len(row)-1] != "1.01" {
					t.Errorf("1001 mm of cloth are %s m", row[len(row)-1])
				}
			}
		}
		if notes := grids[len(grids)-1].Notes; !slices.Equal(notes, c.notes) {
			t.Errorf("notes are %q, want %q", notes, c.notes)
		}
	}
}

// A line of the sewing order and what is said below it.
func TestSeamsInWords(t *testing.T) {
	edge := func(copies int, piece, edge string) SeamEdge {
		return SeamEdge{Piece: piece, Edge: edge, Copies: copies}
	}
	plain := SeamSide{Edges: []SeamEdge{edge(1, "skirt front", "side seam")}, Cut: 1016, Finished: 1016}
	worked := SeamSide{Edges: []SeamEdge{edge(2, "skirt back", "waist"), edge(1, "yoke", "lower edge")}, Cut: 1200,
		Finished: 1016, Gather: 1.18, Ease: 25.4, Pleats: 2, Pleat: 50.8, Lap: 12.7, Darts: []float64{25.4, 38.1}}
	s := Seam{Part: "skirt", Name: "side", Times: 2, A: plain, B: worked, Gap: &Gap{From: 100, To: 201.6}}
	want := []string{"front: side seam to 2 x back: waist + yoke: lower edge",
		"2 x back: waist + yoke: lower edge, gathered 1.18 to 1, ease of 1, 2 x pleat 2 deep, lapped by 1/2, dart of " +
			"1, " +
			"dart of 1 1/2, from 47 1/4 as drawn",
		"Leave 4 in open from mark to mark. Turn the work through it, and close it by hand."}
	if got := s.Details(measure.Inch); !slices.Equal(got, want) {
		t.Errorf("%q\nwant %q", got, want)
	}
	s.B = SeamSide{Onto: "the seam line of the lining", Cut: 1016, Finished: 1006, Ease: -10}
	s.Gap = nil
	want = []string{"front: side seam to the seam line of the lining",
		"the seam line of the lining, stretched by 1.0, from 101.6 as drawn"}
	if got := s.Details(measure.Centimetre); !slices.Equal(got, want) {
		t.Errorf("%q\nwant %q", got, want)
	}
	if got := strings.Join(s.Row(measure.Centimetre), "|"); got != "side|2|101.6|100.6|0" {
		t.Errorf("the row is %s", got)
	}
	if note := SeamNote(measure.Inch); !strings.Contains(note, "in inches.") {
		t.Errorf("the note is %q", note)
	}
}

// What is left over is shown so finely that a needle could not follow what is not: to an
// eighth of an inch or a millimetre from 1.5 mm on, to less than a tenth of one below that,
// and as nothing up to a tenth.
func TestLeftOverReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.OneOf(rapid.Float64Range(-3, 3), rapid.Float64Range(-300, 300)).Draw(t, "mm")
		unit := rapid.SampledFrom([]measure.Unit{measure.Inch, measure.Centimetre, measure.Millimetre}).Draw(t, "unit")
		text := leftOver(mm, unit)
		got, err := measure.Parse(text, unit)
		most := map[bool]float64{true: 0.1, false: measure.Inches / 16}[math.Abs(mm) < 1.5]
		if unit.Metric() && most > 0.5 {
			most = 0.5
		}
		if err != nil || math.Abs(got-mm) > most+1e-9 || (text == "0") != (math.Abs(mm) <= level) ||
			text != "0" && math.Signbit(got) != math.Signbit(mm) {
			t.Fatalf("%v mm are %q in %v, which reads %v, %v", mm, text, unit, got, err)
		}
	})
}
