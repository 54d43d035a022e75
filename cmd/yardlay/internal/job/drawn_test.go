package job

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/strict"
	"yardlay/shapes"
	"yardlay/shapes/outline"
)

// threeShapes are a bib of 10 cm by 8, a yoke of 20 cm below and 16 above by 10, and a cuff of 20 cm by 4: 80, 180 and
// 80 cm2.
const threeShapes = `<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="300mm" viewBox="0 0 400 300">
<g id="front"><path id="bib" stroke="#ff0000" fill="none" d="M10 10H110V90H10Z"/></g>
<g id="back"><path id="yoke" stroke="#00ff00" fill="none" d="M150 10H350L330 110H170Z"/>
<path id="cuff" stroke="#ff0000" fill="none" d="M10 150H210V190H10Z"/></g></svg>`

// drawnJob writes a drawing beside a job in cm with a part of it, on line 8 from its first key on.
func drawnJob(t *testing.T, file, drawing, keys string) (*Job, error) {
	t.Helper()
	dir := t.TempDir()
	if drawing != "" {
		if err := os.WriteFile(filepath.Join(dir, file), []byte(drawing), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	f, err := Read(filepath.Join(dir, "gown.toml"), []byte("unit = \"cm\"\nallowance = { seam = 1, hem = 3 }\n[[cloth]]\n"+
		"id = \"net\"\nwidth = 150\n[[part]]\nname = \"drawn\"\n"+keys+"\ndraft = \"outline\"\ncloth = \"net\"\nfile = \""+
		file+"\"\n"))
	if err != nil {
		return nil, err
	}
	return f.Job(), nil
}

// drawnPieces drafts such a part.
func drawnPieces(t *testing.T, file, drawing, keys string) (pieces []shapes.Piece, notes []string) {
	t.Helper()
	j, err := drawnJob(t, file, drawing, keys)
	if err != nil {
		t.Fatal(err)
	}
	made, err := j.Parts[0].Layers[0].Drafted()
	if err != nil {
		t.Fatalf("%s: %v", keys, j.ErrorAt(strict.Position{}, err))
	}
	for _, n := range made.Notes {
		notes = append(notes, n.String())
	}
	return made.Pieces, notes
}

// areas lists pieces with the areas of their outlines as they are sewn, cm2.
func areas(pieces []shapes.Piece) string {
	var all []string
	for _, p := range pieces {
		all = append(all, fmt.Sprintf("%s %.0f", p.Name, p.Area()/100))
	}
	return strings.Join(all, ", ")
}

// A part cuts the shapes that it chooses by any mark, whatever the case, each once and in the order of its choices.
func TestShapesOfADrawingAreChosen(t *testing.T) {
	for keys, want := range map[string]string{
		"":                                      "bib 80, yoke 180, cuff 80",
		"shapes = [ { number = 2 } ]":           "yoke 180",
		"shapes = [ { name = \"CUFF\" } ]":      "cuff 80",
		"shapes = [ { id = \"bib\" } ]":         "bib 80",
		"shapes = [ { layer = \"Back\" } ]":     "yoke 180, cuff 80",
		"shapes = [ { colour = \"#FF0000\" } ]": "bib 80, cuff 80",
		"shapes = [ { number = 3 }, { number = 1 }, { colour = \"#ff0000\" } ]": "cuff 80, bib 80",
		"shapes = [ { layer = \"back\", colour = \"#ff0000\" } ]":               "cuff 80",
	} {
		if pieces, _ := drawnPieces(t, "front.svg", threeShapes, keys); areas(pieces) != want {
			t.Errorf("%s: %s, want %s", keys, areas(pieces), want)
		}
	}
}

// What a rule says of an edge is cut outside it. Of the rectangle of 20 cm by 4 edge 1 is a short one and edge 2 a long
// one; a hem takes 3 cm, what no rule fits is a seam of 1 cm. The first rule that fits counts.
func TestEdgesOfADrawing(t *testing.T) {
	const chosen = "drawn = \"seam\"\nshapes = [ { number = 3 } ]\n"
	for _, tt := range []struct {
		edges string
		area  float64 // cm2, with allowances: by hand
	}{
		{"", 22 * 6},
		{`edges = [ { edge = "edge 1", kind = "hem" } ]`, 24 * 6},
		{`edges = [ { edge = "EDGE 2", allowance = 0 } ]`, 22 * 5},
		{`edges = [ { edge = "edge 2", allowance = 0 }, { layer = "back", kind = "hem", allowance = 2 } ]`, 24 * 6},
		{`edges = [ { colour = "#ff0000", kind = "waist" }, { edge = "edge 2", allowance = 0 } ]`, 22 * 6},
	} {
		pieces, _ := drawnPieces(t, "front.svg", threeShapes, chosen+tt.edges)
		if got := pieces[0].Area() / 100; math.Abs(got-tt.area) > 0.01 {
			t.Errorf("%s: %.2f cm2, want %v", tt.edges, got, tt.area)
		}
		hem := slices.ContainsFunc(pieces[0].Edges, func(e shapes.Edge) bool { return e.Kind == shapes.Hem })
		if want := strings.Contains(tt.edges, "hem"); hem != want {
			t.Errorf("%s: a hem: %v", tt.edges, hem)
		}
	}
}

// A straight side as drawn lies on a fold where the part says so, and the whole piece is twice as large; what the
// drawing folds is cut as drawn with `none`.
func TestFoldsOfADrawing(t *testing.T) {
	for keys, want := range map[string]string{
		"fold = \"left\"": "bib 80", "fold = \"bottom\"": "bib 80", "fold = \"none\"": "bib 80", "fold = \"drawn\"": "bib 80",
	} {
		pieces, _ := drawnPieces(t, "front.svg", threeShapes, "shapes = [ { number = 1 } ]\n"+keys)
		if areas(pieces) != want {
			t.Errorf("%s: %s, want %s", keys, areas(pieces), want)
		}
		folded := slices.ContainsFunc(pieces[0].Edges, func(e shapes.Edge) bool { return e.Kind == shapes.Fold })
		if want := keys != "fold = \"none\"" && keys != "fold = \"drawn\""; folded != want {
			t.Errorf("%s: on a fold: %v", keys, folded)
		}
	}
}

// How long one unit is decides of a drawing that does not say it: 10 x 8 units of a centimetre are 80 cm2. Said
// twice, the job counts.
func TestUnitOfADrawing(t *testing.T) {
	const plain = `<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0H10V8H0Z"/></svg>`
	for _, tt := range []struct{ drawing, keys, want string }{
		{plain, `one_unit = "1 cm"`, "outline 1 80"}, {plain, `one_unit = "1 in"`, "outline 1 516"},
		{threeShapes, "one_unit = \"1 cm\"\nshapes = [ { number = 1 } ]", "bib 8000"},
	} {
		if pieces, _ := drawnPieces(t, "plain.svg", tt.drawing, tt.keys); areas(pieces) != tt.want {
			t.Errorf("%s: %s, want %s", tt.keys, areas(pieces), tt.want)
		}
	}
}

// Ends that do not meet are joined up to what `join` says, and the maker is told.
func TestJoinedEnds(t *testing.T) {
	const apart = `<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="300mm" viewBox="0 0 400 300">` +
		`<path fill="none" stroke="#000" d="M10 10H110V90"/><path fill="none" stroke="#000" d="M110 91H10V10"/></svg>`
	pieces, notes := drawnPieces(t, "apart.svg", apart, `join = "2 mm"`)
	if len(pieces) != 1 || !slices.Contains(notes, "1 pair of ends of lines that did not meet are joined.") {
		t.Errorf("%s, %q", areas(pieces), notes)
	}
	j, err := drawnJob(t, "apart.svg", apart, "")
	if err != nil {
		t.Fatal(err)
	}
	if made, err := j.Parts[0].Layers[0].Drafted(); err == nil {
		t.Errorf("ends 1 mm apart are joined: %s", areas(made.Pieces))
	}
}

// What cannot be cut from a drawing is refused at the key that it is about, with what would mend it.
func TestDrawingsRefused(t *testing.T) {
	many := `<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="300mm" viewBox="0 0 400 300">`
	for i := range 11 {
		many += fmt.Sprintf(`<path id="p%d" d="M%d 10h20v20h-20z"/>`, i+1, 10+30*i)
	}
	many += "</svg>"
	const empty = `<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="300mm" viewBox="0 0 400 300"/>`
	for _, tt := range []struct{ name, drawing, keys, at, what, hint string }{
		{"none fits", threeShapes, `shapes = [ { number = 1 }, { number = 9 } ]`, "8:28", "none of its shapes fits",
			"it has 1 bib, 2 yoke, 3 cuff"},
		{"name and number of two", threeShapes, `shapes = [ { number = 1, name = "cuff" } ]`, "8:12",
			"none of its shapes fits",
			"1 bib"},
		{"many", many, `shapes = [ { name = "x" } ]`, "8:12", "none", "8 outline 8, 3 more"},
		{"nothing in it", empty, "", "11:8", "no closed outline is in it", "`yardlay take` shows"},
		{"no sizes", threeShapes, `size = "38"`, "8:8", "it has no sizes", "leave `size` out"},
		{"no unit", `<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0H10V8H0Z"/></svg>`, "", "11:8", "unit",
			"say how long one is with `one_unit`"},
		{"ends far apart", threeShapes, `join = "3 cm"`, "8:8", "`join` is 3.0 cm, the most is 2.0 cm",
			"close larger gaps where the outline was drawn"},
		{"no drawing", "", "", "11:8", "no such file", "`yardlay take front.svg --into JOB` adds the part for it"},
		{"no fold there", `<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="300mm" viewBox="0 0 400 300">` +
			`<path d="M10 10L100 50L10 90L60 50Z"/></svg>`, `fold = "left"`, "8:8", "left", ""},
		{"not a drawing", "<svg", "", "11:8", "front.svg", ""},
	} {
		j, err := drawnJob(t, "front.svg", tt.drawing, tt.keys)
		if err == nil {
			if _, err = j.Parts[0].Layers[0].Drafted(); err != nil {
				err = j.ErrorAt(strict.Position{Line: 99}, err)
			}
		}
		var bad *strict.Error
		if !errors.As(err, &bad) {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if at := fmt.Sprintf("%d:%d", bad.At.Line, bad.At.Column); !strings.Contains(bad.What, tt.what) ||
			!strings.Contains(bad.Hint, tt.hint) || at != tt.at {
			t.Errorf("%s: at %s %q, hint %q; want at %s %q, %q", tt.name, at, bad.What, bad.Hint, tt.at, tt.what, tt.hint)
		}
	}
}

// Tables that say of nothing what they are about, or not what it is, are refused before the drawing is read.
func TestTablesOfADrawingRefused(t *testing.T) {
	for _, tt := range []struct{ keys, at, what, hint string }{
		{`shapes = [ {} ]`, "8:12", "fits everything", "give one of: number, name, id, layer, block, colour"},
		{`roles = [ { role = "inside" } ]`, "8:11", "fits everything", "give one of: layer, prefix, colour"},
		{`roles = [ { layer = "8" } ]`, "8:11", "lacks `role`", "ignore"},
		{`edges = [ { kind = "hem" } ]`, "8:11", "fits everything", "give one of: edge, layer, prefix, colour"},
		{`edges = [ { edge = "edge 1", kind = "frill" } ]`, "8:37", "frill", "hem"},
		{"pair = true\ncount = 3", "8:8", "a pair needs an even `count`, not 3", "count = 2"},
	} {
		_, err := drawnJob(t, "front.svg", threeShapes, tt.keys)
		var all strict.Errors
		if !errors.As(err, &all) || !slices.ContainsFunc(all, func(e *strict.Error) bool {
			return fmt.Sprintf("%d:%d", e.At.Line, e.At.Column) == tt.at && strings.Contains(e.What, tt.what) &&
				strings.Contains(e.Hint, tt.hint)
		}) {
			t.Errorf("%s: %v", tt.keys, err)
		}
	}
}

// Of a graded file the shapes of one size are cut, and those that are of all sizes.
func TestSizesOfADrawing(t *testing.T) {
	graded := []outline.Shape{{Number: 1, Name: "yoke 38", Size: "38"}, {Number: 2, Name: "yoke 40", Size: "40"},
		{Number: 3, Name: "tie"}}
	numbers := func(list []outline.Shape) (all []int) {
		for _, s := range list {
			all = append(all, s.Number)
		}
		return all
	}
	for _, tt := range []struct {
		list       []outline.Shape
		size       string
		want       []int
		what, hint string
	}{
		{graded, "40", []int{2, 3}, "", ""},
		{graded[1:], "", []int{2, 3}, "", ""},
		{graded, "", nil, "it has the sizes 38, 40, and one is cut", `choose one: size = "38"`},
		{graded, "44", nil, `it has no size "44"`, "it has 38, 40"},
		{graded[2:], "44", nil, "it has no sizes", "leave `size` out"},
	} {
		o := outlines{size: tt.size, fileAt: strict.Position{Line: 3}, sizeAt: strict.Position{Line: 4}}
		list, err := o.ofSize(tt.list)
		if tt.what == "" && (err != nil || !slices.Equal(numbers(list), tt.want)) {
			t.Errorf("size %q: %v, %v", tt.size, numbers(list), err)
		}
		if tt.what == "" {
			continue
		}
		bad := (&Job{}).ErrorAt(strict.Position{}, err)
		if wantLine := map[bool]int{true: 3, false: 4}[tt.size == ""]; bad.What != tt.what || bad.Hint != tt.hint ||
			bad.At.Line != wantLine {
			t.Errorf("size %q: at line %d %s, %s", tt.size, bad.At.Line, bad.What, bad.Hint)
		}
	}
	if len(graded) != 3 || graded[0].Number != 1 {
		t.Error("the shapes of the file have changed")
	}
}

// Of how a drawing was read the maker hears once for each doubt about what she cuts, not of other shapes, and of no
// more than can be read.
func TestNotesOfADrawing(t *testing.T) {
	shape := outline.Shape{Number: 2, Name: "yoke"}
	fault := func(kind outline.FaultKind, of int) outline.Fault { return outline.Fault{Kind: kind, Shape: of} }
	found := outline.Assembly{Faults: []outline.Fault{fault(outline.Joined, 2), fault(outline.Joined, 2),
		fault(outline.Joined, 1), fault(outline.Doubtful, 2), fault(outline.Hole, 2), fault(outline.Hole, 1)}}
	notes := notesOf(found, []outline.Shape{shape})
	if len(notes) != 3 || notes[2].String() != "2 pairs of ends of lines that did not meet are joined." {
		t.Errorf("%v", notes)
	}
	for range mostNotes + 5 {
		shape.Because = append(shape.Because, "a line was left out")
	}
	notes = notesOf(outline.Assembly{}, []outline.Shape{shape})
	if last := notes[len(notes)-1].String(); len(notes) != mostNotes+1 ||
		notes[0].String() != "yoke: a line was left out" ||
		last != "5 more remarks: `yardlay take` shows them." {
		t.Errorf("%d notes, the last one %q", len(notes), last)
	}
}
