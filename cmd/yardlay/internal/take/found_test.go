package take

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/shapes/outline"
)

// drawn wraps shapes in a drawing of 400 by 300 mm.
func drawn(shapes string) string {
	return `<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="300mm" viewBox="0 0 400 300">` + shapes +
		`</svg>`
}

func taken(t *testing.T, svg string, o Options) *Found {
	t.Helper()
	f, err := Read("drawn/yoke.svg", strings.NewReader(svg), o)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// tables are those of all parts, in the cloth `net`.
func tables(t *testing.T, f *Found) string {
	t.Helper()
	parts := f.Parts()
	for i := range parts {
		parts[i].Cloth = "net"
	}
	text, err := f.Tables(parts, "drawn/yoke.svg")
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// The only shape of a file is called by the file, and the table says what a job needs to read it as it was read here:
// no choice of shapes where all are cut, the unit where it was guessed, the seam line and the tolerance where they
// were asked for. A trapezium that leans is cut as a pair, by common practice.
func TestTablesOfOneShape(t *testing.T) {
	const leans = `<path d="M10 10H190L150 90H90Z"/>`
	head := "[[part]]\nname = \"yoke\"\ndraft = \"outline\"\ncloth = \"net\"\nfile = \"drawn/yoke.svg\"\n"
	for _, tt := range []struct {
		name, svg string
		with      Options
		want      string
	}{
		{"as drawn", drawn(leans), Options{}, head + "count = 2\npair = true\n"},
		{"unit guessed", `<svg xmlns="http://www.w3.org/2000/svg">` + leans + `</svg>`, Options{},
			head + "one_unit = \"GUESSED\"\ncount = 2\npair = true\n"},
		{"unit told", drawn(leans), Options{Options: outline.Options{Millimetres: 25.4}},
			head + "one_unit = \"1 in\"\ncount = 2\npair = true\n"},
		{"a seam line, ends apart", drawn(leans), Options{Options: outline.Options{Outline: outline.SeamLine,
			Tolerance: 1.5}},
			head + "drawn = \"seam\"\njoin = \"1.5 mm\"\ncount = 2\npair = true\n"},
	} {
		f := taken(t, tt.svg, tt.with)
		want := strings.Replace(tt.want, "GUESSED", unitText(f.Unit.Millimetres), 1)
		if got := tables(t, f); got != want {
			t.Errorf("%s:\n%s\nwant:\n%s", tt.name, got, want)
		}
		if f.UnitGuessed && f.Unit.Because == "" {
			t.Errorf("%s: nobody hears why", tt.name)
		}
		if f.File != "yoke.svg" || f.UnitGuessed != (tt.name == "unit guessed") || f.Stops() {
			t.Errorf("%s: %s, guessed %v, stops %v", tt.name, f.File, f.UnitGuessed, f.Stops())
		}
	}
}

// Of several shapes each is a part that is chosen by its name, by its number where another has the name or it has none.
func TestTablesOfSeveralShapes(t *testing.T) {
	text := tables(t, taken(t, drawn(`<path id="bib" d="M10 10H60L50 50H20Z"/><path id="bib" d="M80 10H150L130 50H90Z"/>`+
		`<path id="cuff" d="M10 100H110L100 140H20Z"/><path d="M150 100H210L205 140H155Z"/>`), Options{}))
	for _, want := range []string{"shapes = [{ number = 1 }]", "shapes = [{ number = 2 }]",
		"shapes = [{ name = \"cuff\" }]",
		"shapes = [{ number = 4 }]", "name = \"bib\"\n", "name = \"bib-2\"\n", "name = \"outline 4\"\n"} {
		if strings.Count(text, want) != 1 {
			t.Errorf("no %q, or several, in\n%s", want, text)
		}
	}
}

// sized is a drawing that was read of shapes in some sizes.
func sized(sizes ...string) *Found {
	f := &Found{File: "graded.dxf"}
	for i, s := range sizes {
		f.Shapes = append(f.Shapes, outline.Shape{Number: i + 1, Name: "yoke", Size: s, Fold: -1,
			Edges: []outline.Edge{{Line: orb.LineString{{0, 0}, {100, 0}, {120, 50}, {0, 0}}}}})
	}
	return f
}

// Of a graded file the size that is asked for is shown, whatever its letters, else the middle one; one that it has
// not is refused with those that it has.
func TestSizesOfAGradedFile(t *testing.T) {
	for _, tt := range []struct {
		sizes []string
		asked string
		want  string
		what  string // of the error
		hint  string
	}{
		{[]string{"S", "M", "L"}, "", "M", "", ""}, {[]string{"S", "M", "L", "XL"}, "", "L", "", ""},
		{[]string{"S", "M", "L"}, "l", "L", "", ""}, {[]string{"S", "S"}, "", "", "", ""}, {[]string{"", ""}, "", "", "", ""},
		{[]string{"S", "M"}, "XL", "", `it has no size "XL"`, "it has S, M"},
		{[]string{""}, "XL", "", "it has no sizes", "leave --size out"},
	} {
		f := sized(tt.sizes...)
		err := f.sized(tt.asked)
		if tt.what != "" {
			if err == nil || !strings.Contains(err.Error(), tt.what) || !strings.Contains(err.Error(), tt.hint) {
				t.Errorf("%q of %q: %v", tt.asked, tt.sizes, err)
			}
			continue
		}
		if err != nil || f.Size != tt.want {
			t.Errorf("%q of %q: %q, %v", tt.asked, tt.sizes, f.Size, err)
		}
	}
	f := sized("S", "M", "", "L")
	if err := f.sized("M"); err != nil {
		t.Fatal(err)
	}
	f.pieces()
	var numbers []int
	for _, p := range f.Pieces {
		numbers = append(numbers, p.Number)
	}
	if !slices.Equal(numbers, []int{2, 3}) {
		t.Errorf("pieces %d are of size M or of all", numbers)
	}
	if text := tables(t, f); strings.Count(text, "size = \"M\"\n") != 1 {
		t.Errorf("%s", text)
	}
	var many []string
	for i := range mostSizes + 3 {
		many = append(many, fmt.Sprint(30+i))
	}
	if f = sized(many[:mostSizes]...); f.sized("") != nil || !strings.HasSuffix(f.SizesInWords(), ", 48, 49") {
		t.Error(f.SizesInWords())
	}
	if f = sized(many...); f.sized("") != nil || !strings.HasSuffix(f.SizesInWords(), ", 49 and 3 more") {
		t.Error(f.SizesInWords())
	}
}

// Pieces whose number the file says are one part of each material; of a hundred others each is a part, of more those
// that are cut as often are one.
func TestPartsOfManyPieces(t *testing.T) {
	piece := func(n int, c Copies, material string) Piece {
		return Piece{Shape: outline.Shape{Number: n, Name: fmt.Sprint("p", n), Material: material}, Copies: c}
	}
	said, pair, once := Copies{4, true, true, ""}, Copies{2, true, false, ""}, Copies{1, false, false, ""}
	f := &Found{File: "all.dxf", Pieces: []Piece{piece(1, said, "satin"), piece(2, said, "net"), piece(3, said, "satin"),
		piece(4, pair, "")}}
	of := func() (all []string) {
		for _, p := range f.Parts() {
			copies := "as said"
			if p.Copies != nil {
				copies = p.Copies.String()
			}
			all = append(all, fmt.Sprintf("%s: %d, %s, %s", p.Name, len(p.Pieces), copies, p.Material))
		}
		return all
	}
	if got := of(); !slices.Equal(got, []string{"all: 2, as said, satin", "p2: 1, as said, net", "p4: 1, 1 pair, "}) {
		t.Errorf("%q", got)
	}
	f.Pieces = nil
	for i := range mostAlone {
		f.Pieces = append(f.Pieces, piece(i+1, once, ""))
	}
	if got := of(); len(got) != mostAlone {
		t.Errorf("%d parts of %d pieces", len(got), mostAlone)
	}
	f.Pieces = append(f.Pieces, piece(101, pair, ""), piece(102, pair, "net"), piece(103, pair, ""))
	if got := of(); !slices.Equal(got, []string{"all: 100, 1, ", "all-2: 2, 1 pair, ", "p102: 1, 1 pair, net"}) {
		t.Errorf("%q", got)
	}
}

// The most telling mark of a piece is named, but for its own name; it is cut along the cut line where there is one.
func TestMarksOfAPiece(t *testing.T) {
	marks := outline.Marks{Block: "CUFF-38", Layer: "front", ID: "path1", Group: "all", Colour: "#ff0000"}
	for _, tt := range []struct {
		with func(*outline.Marks)
		want string
	}{
		{func(*outline.Marks) {}, "block CUFF-38"}, {func(m *outline.Marks) { m.Block = "cuff" }, "layer front"},
		{func(m *outline.Marks) { m.Block, m.Layer = "", "" }, "id path1"},
		{func(m *outline.Marks) { *m = outline.Marks{Group: "all", Colour: "#ff0000"} }, "group all"},
		{func(m *outline.Marks) { *m = outline.Marks{Colour: "#ff0000"} }, "colour #ff0000"},
		{func(m *outline.Marks) { *m = outline.Marks{} }, ""},
	} {
		m := marks
		tt.with(&m)
		if got := (Piece{Shape: outline.Shape{Name: "cuff", Marks: m}}).Marked(); got != tt.want {
			t.Errorf("%q, want %q", got, tt.want)
		}
	}
	p := Piece{Shape: sized("").Shapes[0]}
	if len(p.Outer()) != len(p.Ring()) {
		t.Error("a piece without a cut line has another outermost one")
	}
	p.Cut = orb.Ring{{-5, -5}, {130, -5}, {130, 60}, {-5, -5}}
	if p.Outer()[0] != (orb.Point{-5, -5}) {
		t.Error("a cut line is not the outermost one")
	}
}

// Units are written as a job reads them: 96 px and 72 points to the inch (CSS Values and Units 3, "Absolute Lengths").
func TestUnitsAsAJobReadsThem(t *testing.T) {
	for mm, want := range map[float64]string{1: "1 mm", 10: "1 cm", 25.4: "1 in", 1000: "1 m", 304.8: "1 ft",
		25.4 / 72: "1/72 in",
		25.4 / 96: "1/96 in", 2.5: "2.5 mm"} {
		if got := unitText(mm); got != want {
			t.Errorf("%v: %s, want %s", mm, got, want)
		}
	}
	for c, want := range map[Copies]string{{Count: 1}: "1", {Count: 3}: "3", {Count: 2, Pair: true}: "1 pair",
		{Count: 4, Pair: true}: "2 pairs"} {
		if got := c.String(); got != want {
			t.Errorf("%+v: %s, want %s", c, got, want)
		}
	}
}

// A notch or a dart on one side alone makes a left and a right of what is the same else; on both it does not.
func TestMarksTellLeftFromRight(t *testing.T) {
	box := closed([]orb.Point{{-100, 0}, {100, 0}, {60, 400}, {-60, 400}}, 0.3, orb.Point{50, 20})
	for _, tt := range []struct {
		notches []outline.NotchAt
		pair    bool
	}{
		{nil, false}, {[]outline.NotchAt{{Edge: 0, At: 60}}, true}, {[]outline.NotchAt{{Edge: 0, At: 100}}, false},
		{[]outline.NotchAt{{Edge: 0, At: 60}, {Edge: 0, At: 140}}, false},
	} {
		s := box
		s.Notches = tt.notches
		if c := copiesOf([]outline.Shape{s})[0]; c.Pair != tt.pair {
			t.Errorf("%+v: %+v", tt.notches, c)
		}
	}
}

// An apex of a dart tells left from right as a notch does: beside the middle it makes a pair, on it none.
func TestDartsTellLeftFromRight(t *testing.T) {
	for x, pair := range map[float64]bool{0: false, 40: true} {
		s := closed([]orb.Point{{-100, 0}, {100, 0}, {60, 400}, {-60, 400}}, 0, orb.Point{})
		s.Darts = []outline.DartAt{{Apex: orb.Point{x, 120}}}
		if c := copiesOf([]outline.Shape{s})[0]; c.Pair != pair {
			t.Errorf("an apex %v mm beside the middle: %+v", x, c)
		}
	}
}

// What cannot be read has the name of the file in front.
func TestDrawingsThatCannotBeRead(t *testing.T) {
	for _, text := range []string{"<svg", drawn(""), "{"} {
		f, err := Read("drawn/yoke.svg", strings.NewReader(text), Options{})
		if err == nil && len(f.Pieces) == 0 {
			continue // nothing is in it
		}
		if err == nil || !strings.HasPrefix(err.Error(), "drawn/yoke.svg: ") || errors.Is(err, fs.ErrNotExist) {
			t.Errorf("%q: %v", text, err)
		}
	}
	if _, err := Read("yoke.svg", strings.NewReader(drawn(`<path d="M0 0H9V9Z"/>`)), Options{Size: "38"}); err == nil ||
		!strings.HasPrefix(err.Error(), "yoke.svg: it has no sizes") {
		t.Error(err)
	}
}
