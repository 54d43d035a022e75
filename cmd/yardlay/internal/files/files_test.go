package files

import (
	"encoding/json"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/folder"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/quote"
	"yardlay/cmd/yardlay/internal/record"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cmd/yardlay/internal/take"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/cost"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// made holds files to the law of their set: every name is one that the set knows as its own, and none comes twice. What
// is JSON and SVG begins and ends as such. It returns their texts by their names.
func made(t *testing.T, set folder.Set, files []folder.File, err error) map[string]string {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	texts := map[string]string{}
	for _, f := range files {
		text := string(f.Data)
		if _, twice := texts[f.Name]; twice || !set.Makes(f.Name) {
			t.Errorf("%s comes twice, or is none of the set of %s", f.Name, set.Name)
		}
		switch {
		case strings.HasSuffix(f.Name, "json") && (!json.Valid(f.Data) || !strings.HasSuffix(text, "}\n")),
			strings.HasSuffix(f.Name, ".svg") && !(strings.HasPrefix(text,
				"<svg") && strings.HasSuffix(strings.TrimSpace(text), "</svg>")):
			t.Errorf("%s is not what its name says", f.Name)
		}
		texts[f.Name] = text
	}
	return texts
}

func names(texts map[string]string) string {
	var all []string
	for name := range texts {
		all = append(all, name)
	}
	slices.Sort(all)
	return strings.Join(all, " ")
}

// outlined lists the pieces of a marker's outlines.
func outlined(t *testing.T, text string) (pieces []string) {
	t.Helper()
	var read struct {
		Features []struct {
			Properties struct {
				Piece string
				Name  string
			}
		}
	}
	if err := json.Unmarshal([]byte(text), &read); err != nil {
		t.Fatal(err)
	}
	for _, f := range read.Features {
		pieces = append(pieces, f.Properties.Piece+f.Properties.Name)
	}
	return pieces
}

var trial = plan.Options{Effort: nest.Trial, Workers: 1, Unit: measure.Inch}

// A layout leaves of each cloth one drawing, with its title, and the outlines of each of its markers: of the lower half
// of a crosswise fold and of the open stretch behind it as of leftovers. The figures are those of the report.
func TestFilesOfALayout(t *testing.T) {
	src := `title = "Two panels"
unit = "in"
[allowance]
seam = 0
hem = 0
[[cloth]]
id = "lay"
width = 36
have = [ { name = "rest", length = 21, width = 36 } ]
lots = "all"
price = "10.00/yd"
[[cloth]]
id = "satin"
title = "Satin"
width = 36
lay = "lengthwise-fold"
[[part]]
name = "panel"
draft = "rectangle"
cloth = "lay"
length = 20
width = 36
count = 2
[[part]]
name = "back"
draft = "rectangle"
cloth = "satin"
length = 30
width = 14
count = 3
`
	j := testjobs.Read(t, src)
	r, err := report.Run(t.Context(), j, trial)
	if err != nil {
		t.Fatal(err)
	}
	files, err := Lay(r)
	texts := made(t, LaySet(j), files, err)
	const want = "cloth.lay.geojson cloth.lay.shelf-1.geojson cloth.lay.svg lay.json satin-open.geojson satin.geojson " +
		"satin.svg"
	if got := names(texts); got != want {
		t.Fatalf("%s, want %s", got, want)
	}
	if svg := texts["satin.svg"]; !strings.Contains(svg, "Satin") || !strings.Contains(svg, "Two panels") ||
		strings.Contains(texts["cloth.lay.svg"], "Satin") {
		t.Error("a drawing has not the titles of its own cloth and job")
	}
	for _, c := range r.Cloths {
		for i, m := range c.Markers {
			pieces := 0
			for _, name := range outlined(t, texts[OfCloth(c.ID, MarkerPart(c, i), ".geojson")]) {
				if strings.Contains(name, "panel") || strings.Contains(name, "back") {
					pieces++
				}
			}
			if pieces == 0 || m.Shelf && pieces != 1 {
				t.Errorf("%s, marker %d: outlines of %d pieces", c.ID, i, pieces)
			}
		}
	}
	var figures struct {
		Title  string
		Cloths []struct{ ID string }
	}
	if err := json.Unmarshal([]byte(texts["lay.json"]), &figures); err != nil || figures.Title != "Two panels" ||
		len(figures.Cloths) != 2 || figures.Cloths[1].ID != "satin" {
		t.Errorf("%+v, %v", figures, err)
	}
}

// Of a job for two bodies there is a sheet of pieces for every cloth, and one of sizes for those of which both bodies
// have pieces; each is headed by the job and the cloth, by the cloth alone where the job has no title.
func TestSheetsOfPieces(t *testing.T) {
	const name = "../../../../testdata/chorus-gown.toml"
	src, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	for _, title := range []string{"Chorus", ""} {
		j := testjobs.File(t, name, string(src)).Job()
		spreads, err := plan.Draw(j)
		if err != nil {
			t.Fatal(err)
		}
		list, err := report.List(j, spreads, measure.Inch)
		if err != nil {
			t.Fatal(err)
		}
		pieces, err := Pieces(title, spreads, list, measure.Inch)
		texts := made(t, DraftSet(j), pieces, err)
		sizes, err := Sizes(title, spreads, measure.Inch)
		sized := made(t, DraftSet(j), sizes, err)
		if len(texts) != len(spreads) || len(sized) == 0 || len(sized) > len(spreads) {
			t.Errorf("%d cloths: %s, %s", len(spreads), names(texts), names(sized))
		}
		for _, s := range spreads {
			head := ">" + strings.TrimPrefix(title+": "+s.Cloth.Title, ": ")
			sheet := texts[OfCloth(s.Cloth.ID, PiecesPart, ".svg")]
			if !strings.Contains(sheet, head) {
				t.Errorf("the pieces of %s have no title %q", s.Cloth.ID, head)
			}
			if over, there := sized[OfCloth(s.Cloth.ID, SizesPart, ".svg")]; there && !strings.Contains(over, head) {
				t.Errorf("the sizes of %s have no title %q", s.Cloth.ID, head)
			}
			for _, c := range s.Cuts {
				if first, _, _ := strings.Cut(c.Piece.Name, " "); !strings.Contains(sheet, first) {
					t.Errorf("the pieces of %s lack %s", s.Cloth.ID, c.Piece.Name)
				}
			}
		}
	}
	one := testjobs.Read(t, testjobs.Small)
	spreads, err := plan.Draw(one)
	if err != nil {
		t.Fatal(err)
	}
	if sizes, err := Sizes("", spreads, measure.Inch); err != nil || len(sizes) != 0 {
		t.Errorf("sizes of one body: %d files, %v", len(sizes), err)
	}
}

// Where pieces are drawn larger than they will be once they are washed, their sheet says so, and that of another
// cloth does not.
func TestSheetsSayWhereTheyAreLarger(t *testing.T) {
	j := testjobs.Read(t, strings.Replace(testjobs.Small, `id = "wool"`,
		"id = \"wool\"\nshrinkage = { warp = \"-3 %\", weft = \"-2 %\", by = \"pieces\" }", 1))
	spreads, err := plan.Draw(j)
	if err != nil {
		t.Fatal(err)
	}
	files, err := Pieces("", spreads, report.CutList{}, measure.Inch)
	texts := made(t, DraftSet(j), files, err)
	for _, s := range spreads {
		words := strings.Fields(s.Larger())
		if (len(words) > 0) != (s.Cloth.ID == "wool") {
			t.Fatalf("%s: %q", s.Cloth.ID, words)
		}
		if sheet := texts[OfCloth(s.Cloth.ID, PiecesPart, ".svg")]; len(words) > 0 && !strings.Contains(sheet,
			strings.Join(words[:3], " ")) {
			t.Errorf("the sheet of %s does not say %q", s.Cloth.ID, s.Larger())
		}
	}
}

// A list for several gowns is printed with the markers of what they are laid on together: 5 yd of one cut at 9.00 are
// less than twice 2 1/2 yd at 10.00. What each has for itself has no marker here.
func TestFilesOfAListForSeveral(t *testing.T) {
	const sold = "price = \"10.00/yd\"\nbreaks = [ { from = \"5 yd\", price = \"9.00/yd\" } ]"
	for cloth, want := range map[string]string{
		sold:                   "shop.json shop.satin.geojson shop.satin.svg shop.svg",
		"price = \"10.00/yd\"": "shop.json shop.svg",
	} {
		var gowns []quote.Gown
		for _, name := range []string{"a", "b"} {
			gowns = append(gowns, quote.Gown{Name: name, Job: testjobs.File(t, name+".toml",
				testjobs.Panels(1, "36", "90", cloth)).Job()})
		}
		l, err := quote.Together(t.Context(), gowns, quote.Options{Options: trial})
		if err != nil {
			t.Fatal(err)
		}
		files, err := Shop(l.Ledger(), l)
		texts := made(t, ShopSet(), files, err)
		if got := names(texts); got != want {
			t.Errorf("%s: %s, want %s", cloth, got, want)
		}
		if text, laid := texts["shop.satin.geojson"]; laid && len(outlined(t, text)) < 2 {
			t.Errorf("both panels lie on it: %v", outlined(t, text))
		}
	}
	for part, want := range map[string]string{"": "shop.net.svg", "-open": "shop.net.open.svg",
		"-shelf-2": "shop.net.shelf-2.svg", "-bolt-10": "shop.net.bolt-10.svg"} {
		if got := ofGowns("net", part, ".svg"); got != want || !ShopSet().Makes(got) {
			t.Errorf("%s: %s, want %s, which is of the set", part, got, want)
		}
	}
}

// A ledger takes a page, or as many as it needs, which are counted from the second on; a record a page for each
// picture.
func TestPagesOfLedgersAndRecords(t *testing.T) {
	l := sheet.Ledger{Title: "Shopping list"}
	for range 90 {
		l.Lines = append(l.Lines, sheet.Entry{Text: "12 yd of satin", Amount: "90.00"})
	}
	files, err := Pages(SetShop, l, map[string]int{"total": 1})
	texts := made(t, ShopSet(), files, err)
	if texts["shop.json"] != "{\n  \"total\": 1\n}\n" || !strings.HasPrefix(names(texts), "shop-2.svg ") ||
		texts["shop.svg"] == "" {
		t.Errorf("%s: %q", names(texts), texts["shop.json"])
	}
	if _, err := Pages(SetShop, sheet.Ledger{Title: "Shopping list"}, math.NaN()); err == nil {
		t.Error("figures that are no JSON are written")
	}
	y := record.New("2026", []record.Gown{{Job: "cape", On: "2026-03-05", Hours: cost.Whole(3), Planned: cost.Whole(2),
		Cloths: []record.Cloth{{Name: "wool", Planned: 1000, Length: 2000}}}}, measure.Centimetre)
	files, err = Record(y)
	texts = made(t, PageSet(SetRecord), files, err)
	if got := names(texts); got != "record-2.svg record.json record.svg" ||
		!strings.Contains(texts["record.json"], `"planned_hours": "2"`) {
		t.Errorf("%s\n%s", got, texts["record.json"])
	}
}

// What is taken from a drawing is its picture, the tables as they were made, and the figures.
func TestFilesOfADrawing(t *testing.T) {
	const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 200 100">
<path id="yoke" d="M10 10H190L150 90H50Z"/></svg>`
	f, err := take.Read("drawn/yoke.svg", strings.NewReader(svg), take.Options{})
	if err != nil {
		t.Fatal(err)
	}
	files, err := Take(f, "[[part]]\n", map[string]string{"file": f.File}, measure.Centimetre, nil)
	texts := made(t, TakeSet(), files, err)
	if got := names(texts); got != "take.json take.svg take.toml" || texts["take.toml"] != "[[part]]\n" ||
		texts["take.json"] != "{\n  \"file\": \"yoke.svg\"\n}\n" || !strings.Contains(texts["take.svg"], "yoke") {
		t.Errorf("%s\n%s%s", got, texts["take.toml"], texts["take.json"])
	}
}
