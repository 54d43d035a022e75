package outline

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"
)

// A closed line within another is its seam line where it keeps as near to it as an allowance is wide, all the way round
// (hems of 60 mm and a little more: common practice), and a cut-out where any of it lies farther off.
func TestWhatIsASeamLine(t *testing.T) {
	const large = "0,0 600,0 600,600 0,600 z"
	inset := func(mm float64) string {
		return fmt.Sprintf("%[1]g,%[1]g %[2]g,%[1]g %[2]g,%[2]g %[1]g,%[2]g z", mm, 600-mm)
	}
	for name, c := range map[string]struct {
		lines []string
		seam  bool
	}{
		"a hem of 60":        {[]string{large, inset(60)}, true},
		"a hem of 79":        {[]string{large, inset(79)}, true},
		"an allowance of 90": {[]string{large, inset(90)}, false},
		"on one side alone":  {[]string{large, "20,20 330,20 330,330 20,330 z"}, false},
		"with a dent to the middle": {[]string{large,
			"15,15 585,15 585,585 310,585 300,300 290,585 15,585 z"}, false},
		"with a corner cut off": {[]string{large, "15,15 585,15 585,500 500,585 15,585 z"}, true},
		"a piece with a deep notch": {[]string{"0,0 600,0 600,600 310,600 300,300 290,600 0,600 z",
			inset(15)}, false},
		"a small one":                {[]string{"0,0 50,0 50,50 0,50 z", "6,6 44,6 44,44 6,44 z"}, false},
		"called what it is, far off": {[]string{large, "seam:200,200 400,200 400,400 200,400 z"}, true},
	} {
		a := assemble(t, Options{}, drawn(t, c.lines...))
		if len(a.Shapes) != 1 {
			t.Errorf("%s: %q", name, seen(a))
			continue
		}
		s := a.Shapes[0]
		if got := s.Outline == SeamLine; got != c.seam || got != (s.Cut != nil) || !got && s.Holes != 1 {
			t.Errorf("%s: %q", name, seen(a))
		}
	}
}

// An open line that goes round something is an outline that does not close; one that only comes back, or is no larger
// than a mark, is a line beside the pieces.
func TestWhatIsAnOpenOutline(t *testing.T) {
	const piece = "0,0 300,0 300,200 0,200 z"
	for line, want := range map[string]string{
		"700,0 900,0 900,150 700,150 700,8":             "open at 700,8 (line 2)",
		"700,0 700,150 900,150":                         "stray at 700,0 (line 2)",
		"700,0 900,0 700,1":                             "stray at 700,0 (line 2)",
		"700,0 708,0 708,8 700,8 700,1":                 "stray at 700,0 (line 2)",
		"cut:700,0 900,0 900,150":                       "open at 900,150 (line 2)",
		"grain:700,0 900,0":                             "stray at 700,0 (line 2)",
		"700,0 900,0 900,150 800,150 800,148 700,148.5": "stray at 700,0 (line 2)",
	} {
		all := seen(assemble(t, Options{}, drawn(t, piece, line)))
		if got := all[len(all)-1]; got != want || len(all) != 2 {
			t.Errorf("%s: %q, want %q", line, all, want)
		}
	}
}

// Sizes in the names of blocks are told from the least to the largest number, and words after them in the order of
// letters; pieces whose names end in different sizes have none.
func TestOrderOfSizes(t *testing.T) {
	for names, want := range map[string]string{"a-40 a-8 a-38": "8, 38, 40", "a-XL a-S a-M": "M, S, XL",
		"a-L a-12 a-S":                        "12, L, S",
		"collar-38 collar-40 cuff-38 cuff-42": "", "collar-38 collar-40 cuff-38 cuff-40 cuff-42": ""} {
		var blocks []string
		for _, n := range strings.Fields(names) {
			blocks = append(blocks, pieceBlock(n)...)
		}
		d := readAsDXF(t, ofBlocks(blocks))
		notes := strings.Join(d.Notes, "")
		if want != "" && !strings.HasPrefix(notes, "sizes "+want+" are taken") || want == "" && notes != "" {
			t.Errorf("%s: %q, want sizes %s", names, notes, want)
		}
	}
}

// In pattern data what a block says counts for its piece wherever the words stand, and for no other.
func TestWordsOfBlocks(t *testing.T) {
	d := drawn(t, "1:0,0 300,0 300,200 0,200 z", "1:400,0 700,0 700,200 400,200 z", "7:450,50 650,50",
		"7:50,50 250,50")
	for i, block := range []string{"front", "back", "back", "front"} {
		d.Lines[i].Block = block
	}
	at := orb.Point{100, 100} // in the front
	d.Texts = []Text{{At: at, Text: "Quantity: 3", Marks: Marks{Block: "back"}}}
	var got []string
	for _, s := range assemble(t, Options{}, d).Shapes {
		got = append(got, fmt.Sprintf("%s %d, grain %d", s.Name, s.Quantity, len(s.Grain)))
	}
	if diff := cmp.Diff([]string{"front 0, grain 2", "back 3, grain 2"}, got); diff != "" {
		t.Error(diff)
	}
}
