package outline

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
)

// toldOf are the faults of a drawing in full, with the shapes that they concern.
func toldOf(a Assembly) (all []string) {
	for _, f := range a.Faults {
		all = append(all, fmt.Sprintf("%d %v: %v", f.Shape, f.Kind, f.Error()))
	}
	return all
}

// What is wrong with a drawing is told with its measure, its place in the drawing and in the file, what would mend
// it, and the shape that it concerns.
func TestFaultsInWords(t *testing.T) {
	for name, c := range map[string]struct {
		lines []string
		want  []string
	}{
		"ends apart": {[]string{"0,0 300,0", "300.25,0 300,200", "300,200 0,200 0,0"}, []string{
			"1 joined: two ends 0.25 mm apart are joined at (300.250 mm, 0.000 mm) (line 1 and line 2)"}},
		"a closed line whose ends are apart": {[]string{"0,0 300,0 300,200 0,200 0,0.125"}, []string{
			"1 joined: two ends 0.12 mm apart are joined at (0.000 mm, 0.000 mm) (line 1)"}},
		"drawn twice": {[]string{"400,0 700,0 700,200 400,200 z", sheet, "300,200 300,0 0,0 0,200 z"}, []string{
			"0 twice: drawn over the line of line 2; read once at (300.000 mm, 200.000 mm) (line 3)"}},
		"a dot": {[]string{sheet, "50,50 50.0625,50"}, []string{
			"0 hair: a line only 0.062 mm long is left out at (50.000 mm, 50.000 mm) (line 2)"}},
		"an empty line": {[]string{sheet, "50,50 90,50 50,50 z"}, []string{
			"0 hair: a closed line round less than 1 square millimetre is left out at (50.000 mm, 50.000 mm) (line " +
				"2)"}},
		"a line there and back": {[]string{sheet, "50,50 90,50 90,90 90,50 z"}, []string{
			"0 hair: a closed line round less than 1 square millimetre is left out at (50.000 mm, 50.000 mm) (line " +
				"2)"}},
		"a bow tie of two halves": {[]string{"400,0 700,0 700,200 400,200 z", "0,0 300,200 300,0 0,200 z"}, []string{
			"0 crossing: the outline is not one simple closed line: ring crosses or touches itself at (150.000 mm, " +
				"100.000 mm): edges 0 and 2 at (150.000 mm, 100.000 mm) (line 2)\n  hint: take the loop or the doubled " +
				"stretch out where it was drawn"}},
		"a spike": {[]string{"0,0 300,0 300,100 340,100 300,100.01 300,200 0,200 z"}, []string{
			"1 hair: a hair 40 mm long is taken off the outline at (340.000 mm, 100.000 mm) (line 1)"}},
		"a bow tie": {[]string{"400,0 700,0 700,200 400,200 z", "0,0 300,200 300,0 0,250 z"}, []string{
			"0 crossing: the outline is not one simple closed line: ring crosses or touches itself at (166.667 mm, " +
				"111.111 mm): edges 0 and 2 at (166.667 mm, 111.111 mm) (line 2)\n  hint: take the loop or the doubled " +
				"stretch out where it was drawn"}},
		"a bow tie of ends": {[]string{"400,0 700,0 700,200 400,200 z", "0,0 300,200", "300,200.25 300,0 0,250 0,0"},
			[]string{
				"0 joined: two ends 0.25 mm apart are joined at (300.000 mm, 200.250 mm) (line 2 and line 3)",
				"0 crossing: the outline is not one simple closed line: ring crosses or touches itself at (166.667 mm, " +
					"111.111 mm): edges 0 and 2 at (166.667 mm, 111.111 mm) (line 2)\n  hint: take the loop or the doubled " +
					"stretch out where it was drawn"}},
		"open": {[]string{"0,0 300,0 300,200 0,200 0,19.93"}, []string{
			"0 open: an outline is open: its ends lie 19.9 mm apart at (0.000 mm, 19.930 mm) (line 1)\n  hint: " +
				"close it where it was drawn, or join ends that lie up to 20 mm apart"}},
		"open wider": {[]string{"0,0 300,0 300,200 0,200 0,20.5"}, []string{
			"0 open: an outline is open: its ends lie 20.5 mm apart at (0.000 mm, 20.500 mm) (line 1)\n  hint: " +
				"close it where it was drawn"}},
		"a cut-out": {[]string{"400,0 700,0 700,200 400,200 z", sheet, "50,50 100,50 100,80 50,80 z"}, []string{
			"2 cut-out: a closed line of 50 mm by 30 mm lies within the outline of a piece: it is marked on the " +
				"cloth, not cut by the layout at (50.000 mm, 50.000 mm) (line 3)"}},
		"a speck": {[]string{sheet, "400,0 412.5,0 412.5,5 400,5 z"}, []string{
			"0 stray: a closed line 12.5 mm large is left out: it lies in no outline at (400.000 mm, 0.000 mm) " +
				"(line 2)"}},
		"a fold": {[]string{"400,0 700,0 700,200 400,200 z", sheet, "fold:100,0 100,200"}, []string{
			"2 doubtful: a line of fold lies along no straight edge: it is marked inside at (100.000 mm, 0.000 mm) " +
				"(line 3)"}},
		"a line far off": {[]string{sheet, "grain:900,900 1000,1000"}, []string{
			"0 stray: a line is left out: it lies at no outline at (900.000 mm, 900.000 mm) (line 2)"}},
		"an open line far off": {[]string{sheet, "900,900 1000,1000"}, []string{
			"0 stray: a line is left out: it lies at no outline at (900.000 mm, 900.000 mm) (line 2)"}},
		"open cut lines": {[]string{"400,0 700,0 700,200 400,200 z", sheet, "cut:50,50 250,50"}, []string{
			"2 doubtful: a line of role cut is open and lies in an outline: it is marked, not cut at (50.000 mm, " +
				"50.000 mm) (line 3)"}},
		"a frame": {[]string{"-50,-50 900,-50 900,500 -50,500 z", sheet, "400,0 700,0 700,200 400,200 z"}, []string{
			"0 doubtful: this line is left out: it is a rectangle around several outlines, as a frame is at " +
				"(-50.000 mm, -50.000 mm) (line 1)\n  hint: give it the role cut if it is a piece"}},
		"a frame around cut lines": {[]string{"-50,-50 900,-50 900,500 -10,500 z", "cut:" + sheet}, []string{
			"0 doubtful: this line is left out: cut lines lie within it at (-50.000 mm, -50.000 mm) (line 1)\n  " +
				"hint: give it the role cut if it is a piece"}},
		"a frame around one": {[]string{"-50,-50 900,-50 900,500 -50,500 z", "100,100 500,100 500,400 100,400 z",
			"200,200 250,200 250,250 200,250 z"}, []string{
			"0 doubtful: this line is left out: it is a rectangle around an outline that holds others, as a frame " +
				"is at (-50.000 mm, -50.000 mm) (line 1)\n  hint: give it the role cut if it is a piece",
			"1 cut-out: a closed line of 50 mm by 50 mm lies within the outline of a piece: it is marked on the " +
				"cloth, not cut by the layout at (200.000 mm, 200.000 mm) (line 3)"}},
		"two that overlap": {[]string{sheet, "150,100 450,100 450,301 150,301 z"}, []string{
			"0 doubtful: two outlines overlap at (0.000 mm, 0.000 mm) (line 2 and line 1)\n  hint: move one of them " +
				"aside"}},
		"two alike that overlap": {[]string{sheet, "150,100 450,100 450,300 150,300 z"}, []string{
			"0 doubtful: two outlines overlap at (150.000 mm, 100.000 mm) (line 1 and line 2)\n  hint: move one of " +
				"them aside"}},
		"lines that meet": {[]string{"0,0 300,0", "300,0 300,200", "300,200 0,200", "0,200 0,0", "300,0 0,200"},
			[]string{
				"0 doubtful: several lines meet: this one is taken to lie inside at (300.000 mm, 0.000 mm) (line 5)\n  " +
					"hint: give outlines a layer or colour of their own"}},
		"too small": {[]string{"0,0 12,0 12,5 0,5 z"}, []string{
			"1 unit: the largest shape spans 12 mm, which is small for clothes at (0.000 mm, 0.000 mm) (line 1)\n  " +
				"hint: say how long one unit of the file is"}},
		"too large": {[]string{sheet, "0,300 4000,300 4000,400 0,400 z"}, []string{
			"2 unit: outline 2 spans 4000 mm, which is large for clothes at (0.000 mm, 300.000 mm) (line 2)\n  " +
				"hint: say how long one unit of the file is"}},
		"a notch far from the edge": {[]string{"0,0 600,0 600,600 0,600 z", "notch:300,288 310,300"}, []string{
			"1 stray: a notch lies 288 mm from the outline and is left out at (300.000 mm, 288.000 mm) (line 2)"}},
	} {
		if d := cmp.Diff(c.want, toldOf(assemble(t, Options{}, drawn(t, c.lines...)))); d != "" {
			t.Errorf("%s (-want +got):\n%s", name, d)
		}
	}
}

// Of faults of a kind the first hundred are told, and how many more there are; those that leave no shape to cut are
// all told.
func TestHowManyFaultsAreTold(t *testing.T) {
	for _, c := range []struct {
		name, line string
		n, told    int
		last       string
	}{
		{"dots", "50,%d 50.0625,%[1]d", 100, 100, "0 hair: a line only 0.062 mm long is left out at " +
			"(50.000 mm, 99.000 mm) (line 101)"},
		{"a dot more", "50,%d 50.0625,%[1]d", 101, 101,
			"0 hair: 1 more of this kind are not told at (0.000 mm, 0.000 mm) ()"},
		{"many dots", "50,%d 50.0625,%[1]d", 150, 101,
			"0 hair: 50 more of this kind are not told at (0.000 mm, 0.000 mm) ()"},
		{"open ones", "cut:500,%d 700,%[1]d", 102, 102, "0 open: an outline is open: its ends lie 200 mm apart at " +
			"(700.000 mm, 101.000 mm) (line 103)\n  hint: close it where it was drawn"},
	} {
		lines := []string{sheet}
		for i := range c.n {
			lines = append(lines, fmt.Sprintf(c.line, i))
		}
		all := toldOf(assemble(t, Options{}, drawn(t, lines...)))
		if len(all) != c.told || all[len(all)-1] != c.last {
			t.Errorf("%s: %d are told, the last is %q", c.name, len(all), all[len(all)-1])
		}
	}
}

// Why each line is read as it is, and which shape it belongs to.
func TestWhyLinesAreReadSo(t *testing.T) {
	for name, c := range map[string]struct {
		lines []string
		o     Options
		want  string
	}{
		"an outline, grain, notch, dart and fold": {lines: []string{sheet, "20,100 280,100", "150,-3 150,4",
			"100,200 120,120 140,200", "~:0,20 0,180", "250,50 260,60 250,90"},
			want: `1 cut: it is closed and lies in no other
1 grain: it is straight and lies free in the outline, as no other does
1 notch: it is short and lies at the outline
1 dart: its legs stand on the outline and meet inside
1 fold: it is dashed and lies along the outline
1 inside: it lies in the outline`},
		"heads": {lines: []string{sheet, "50,50 150,120", "150,120 145,110"},
			want: `1 cut: it is closed and lies in no other
1 grain: it is straight and lies free in the outline, as no other does
1 grain: it is the head of the grain line`},
		"a seam line, holes in it": {lines: []string{"0,0 300,0 300,200 0,230 z", "15,15 285,15 285,185 15,185 z",
			"50,50 55,50 55,55 z",
			"100,50 155,50 155,95 z"}, want: `1 cut: it is closed and lies in no other
1 seam: it keeps within 39.3 mm of it all the way round
1 inside: it is small and lies in an outline, as a hole to drill does
1 inside: it lies in an outline`},
		"sewn, as it was asked": {lines: []string{sheet}, o: Options{Outline: SeamLine},
			want: "1 seam: it is closed and lies in no other"},
		"drawn twice, dots, nothing, far off": {lines: []string{sheet, sheet, "50,50 50.05,50", "50,50 90,50 50,50 z",
			"900,0 950,0", "grain:900,50 950,50"}, want: `1 cut: it is closed and lies in no other
0 ignore: it is drawn twice
0 ignore: it is a dot
0 ignore: nothing is in it
0 ignore: it lies at no outline
0 ignore: it lies at no outline`},
		"open and crossed": {lines: []string{"0,0 300,0 300,200 0,200 0,9", "400,0 700,200 700,0 400,250 z"},
			want: `0 cut: it goes round something
0 cut: it is closed`},
		"frames and specks": {lines: []string{"-50,-50 900,-50 900,500 -50,500 z", sheet,
			"400,0 700,0 700,200 400,200 z",
			"800,0 810,0 810,10 z"}, want: `0 ignore: it is a rectangle around several outlines, as a frame is
1 cut: it is closed and lies in no other
2 cut: it is closed and lies in no other
0 ignore: it is small and lies in no outline`},
		"by names and by a rule": {lines: []string{"Cutting:" + sheet, "c/grainline7:20,100 280,100", "b:20,50 280,50",
			"b:900,50 950,50"}, o: Options{Rules: []Rule{{Layer: "b", Role: Dart}}},
			want: `1 cut: its layer is called Cutting
1 grain: it is called grainline7
1 dart given: ` + `
0 ignore given: it lies at no outline`},
	} {
		var got []string
		for _, r := range assemble(t, c.o, drawn(t, c.lines...)).Roles {
			given := map[bool]string{true: " given"}[r.Given]
			got = append(got, fmt.Sprintf("%d %v%s: %s", r.Shape, r.Role, given, r.Because))
		}
		if d := cmp.Diff(c.want, strings.Join(got, "\n")); d != "" {
			t.Errorf("%s (-want +got):\n%s", name, d)
		}
	}
}

// What is guessed of a shape, and what its texts were taken to say, in sentences.
func TestGuessesOfShapesInSentences(t *testing.T) {
	d := drawn(t, sheet, "15,15 285,15 285,185 15,185 z", "40,100 260,100", "100,185 120,120 140,185", "~:15,20 15,180")
	d.Texts = []Text{{At: orb.Point{50, 50}, Text: "Yoke"}, {At: orb.Point{50, 40}, Text: "cut 2"}}
	s := assemble(t, Options{}, d).Shapes[0]
	want := []string{"A line within the cut line is taken for its seam line: it keeps within 15.0 mm of it all " +
		"the way round.",
		"An edge is taken to lie on a fold: the line along it is dashed.",
		"A line is taken for the grain: it is straight and lies free in the outline, as no other does.",
		"Two lines are taken for a dart: they stand on the outline and meet inside."}
	if diff := cmp.Diff(want, s.Because); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]string{`It is cut 2 times: a text in it says "cut 2".`, `Its name is the text "Yoke" in it.`},
		s.Said); diff != "" {
		t.Error(diff)
	}
	for _, c := range []struct {
		text, said       string
		paired           bool
		material, called string
	}{
		{"Quantity: 1", "It is cut once: its texts say quantity 1.", false, "", "outline 1"},
		{"Quantity: 4 (2 pairs)\nMaterial: silk", "It is cut 4 times: its texts say quantity 4 (2 pairs).", true,
			"silk", "outline 1"},
		{"Quantity: 4 (1 pair)\nSize: 38\nPiece Name: cuff", "It is cut 4 times: its texts say quantity 4 (1 pair).",
			false, "",
			"cuff"},
		{"Quantity: 0,3", "It is cut 3 times: its texts say quantity 0,3.", false, "", "outline 1"},
	} {
		d := drawn(t, sheet)
		d.Texts = []Text{{At: orb.Point{50, 50}, Text: c.text}}
		s := assemble(t, Options{}, d).Shapes[0]
		if len(s.Said) != 1 || s.Said[0] != c.said || s.Paired != c.paired || s.Material != c.material ||
			s.Name != c.called ||
			strings.Contains(c.text, "Size") != (s.Size == "38") {
			t.Errorf("%q: %q, paired %v, of %q, size %q, called %q", c.text, s.Said, s.Paired, s.Material, s.Size,
				s.Name)
		}
	}
}
