package book

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/chalk"
	"yardlay/cmd/yardlay/internal/depict"
	"yardlay/cmd/yardlay/internal/plan"
	"yardlay/cmd/yardlay/internal/quote"
	"yardlay/cmd/yardlay/internal/report"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/cmd/yardlay/internal/testjobs"
	"yardlay/nest"
	"yardlay/shapes/measure"
)

// bookGown lays a job and puts together what its workbook is made from.
func bookGown(t *testing.T, src string) Gown {
	t.Helper()
	j := testjobs.Read(t, src)
	o := plan.Options{Effort: nest.Trial, Workers: 1, Seed: 1, Unit: j.Unit}
	r, err := report.Run(t.Context(), j, o)
	if err != nil {
		t.Fatal(err)
	}
	spreads, err := plan.Draw(j)
	if err != nil {
		t.Fatal(err)
	}
	g := Gown{Mark: "a2b3", Date: time.Date(2026, 5, 31, 0, 0, 0, 0, time.UTC), Paper: A4, Report: r}
	if g.List, err = report.List(j, spreads, j.Unit); err != nil {
		t.Fatal(err)
	}
	q, err := quote.OfLaid(t.Context(), j, r.Laid(), quote.Options{Options: o})
	if err != nil {
		t.Fatal(err)
	}
	if g.Shopping, err = q.Shopping(); err != nil {
		t.Fatal(err)
	}
	for k, c := range r.Cloths {
		g.Markers = append(g.Markers, depict.TiedMarker(r, c, k))
	}
	return g
}

// tables are those of a section, and its texts.
func read(s Section) (tables []Table, words []string) {
	for _, b := range s.Blocks {
		switch b := b.(type) {
		case Table:
			tables = append(tables, b)
		case Paragraph:
			words = append(words, b.Text)
		}
	}
	return tables, words
}

// The book goes in the order of the work; each copy of each piece is ticked off once as it is cut and as often drawn
// with that mark, and nothing else bears it. All seams are ticked off, and all that is bought but shipping.
func TestWhatIsTickedOff(t *testing.T) {
	g := bookGown(t, strings.Replace(testjobs.Small, "[[cloth]]", `[[supplier]]
name = "mill"
shipping = "5.00"
[[cloth]]
supplier = "mill"`, 1))
	b := g.Book()
	var titles []string
	for _, s := range b.Sections {
		titles = append(titles, s.Title)
	}
	if diff := cmp.Diff([]string{"What it takes", "What to buy", "Cutting: wool", "Cutting: tulle",
		"Cut list"}, titles[:5]); diff != "" || titles[len(titles)-1] != "Cautions" ||
		!slices.ContainsFunc(titles, func(s string) bool { return strings.HasPrefix(s, "Sewing order") }) {
		t.Errorf("%q %s", titles, diff)
	}
	ticks, drawn := map[string]int{}, map[string]int{}
	copies := 0
	for _, c := range g.Report.Cloths {
		copies += c.Pieces
	}
	for _, s := range b.Sections {
		for _, block := range s.Blocks {
			switch block := block.(type) {
			case Table:
				for _, row := range block.Rows {
					for _, id := range row.Ticks {
						ticks[id]++
					}
				}
			case Figure:
				for _, group := range block.Drawing.Groups {
					for _, id := range strings.Fields(group.ID) {
						drawn[id]++
					}
				}
			}
		}
	}
	kinds := map[string]int{}
	for id, n := range ticks {
		kind, _, _ := strings.Cut(id, "-")
		if kinds[kind]++; n != 1 || kind == "cut" && drawn[id] != 1 {
			t.Errorf("%s is ticked off %d times and drawn %d times", id, n, drawn[id])
		}
	}
	for id := range drawn {
		if ticks[id] == 0 {
			t.Errorf("%s is drawn and never ticked off", id)
		}
	}
	if kinds["cut"] != copies || kinds["sew"] != len(g.List.Seams) || kinds["buy"] != 1 || kinds["cloth"] == 0 {
		t.Errorf("%v, for %d copies and %d seams", kinds, copies, len(g.List.Seams))
	}
}

// What each cloth takes is what the report says, with the sum of what has a price; bounds stand below what is used.
func TestTotalsAreThoseOfTheReport(t *testing.T) {
	g := bookGown(t, testjobs.Small)
	all, _ := read(g.Totals())
	laid, least := all[0], all[1]
	n := len(g.Report.Cloths)
	if len(laid.Rows) != n+1 || len(least.Rows) != n || laid.Rows[n].Kind != RowSum ||
		laid.Rows[n].Cells[5] != g.Report.Total || laid.Columns[5].Head != g.Report.Currency {
		t.Fatalf("%+v", laid.Rows)
	}
	for i, c := range g.Report.Cloths {
		if row := laid.Rows[i].Cells; row[0] != c.ID || row[1] != fmt.Sprint(c.Pieces) || row[3] != c.ToBuy() ||
			row[5] != c.Cost {
			t.Errorf("%q", row)
		}
		if row := least.Rows[i].Cells; row[0] != c.ID || row[3] != c.CouldSave() || c.Bound > c.Used {
			t.Errorf("%q", row)
		}
	}
	g.Report.Total = ""
	if all, _ := read(g.Totals()); len(all[0].Rows) != n {
		t.Error("a sum of nothing that has a price")
	}
	g.Report.Gowns = 3
	if _, words := read(g.CutList()); !slices.Contains(words, "The list is for one gown. The markers hold 3.") {
		t.Errorf("%q", words)
	}
}

// What is cut is listed from the cut end on, with what tells pieces apart alone: a column that is empty is left out.
func TestPiecesFromTheCutEndOn(t *testing.T) {
	at := func(name, id, size string, x, y float64) sheet.Placed {
		return sheet.Placed{Name: name, ID: id, Size: size, Outline: sheet.Outline{
			Cut: orb.Ring{{x, y}, {x + 9, y}, {x, y + 9}, {x, y}}}}
	}
	table := ticks(sheet.Stretch{Pieces: []sheet.Placed{at("far", "c", "", 50, 0), at("above", "b1 b2", "", 10, 30),
		at("first", "a", "", 10, 5)}})
	var rows []string
	for _, r := range table.Rows {
		rows = append(rows, strings.Join(r.Cells, "|")+":"+strings.Join(r.Ticks, ","))
	}
	if diff := cmp.Diff([]string{"first:a", "above:b1,b2", "far:c"}, rows); diff != "" || len(table.Columns) != 1 {
		t.Errorf("%+v %s", table.Columns, diff)
	}
	table = ticks(sheet.Stretch{Pieces: []sheet.Placed{at("far", "b", "9 x 9", 50, 0), at("first", "a", "", 10, 5)}})
	if diff := cmp.Diff([]Row{{Cells: []string{"first", ""}, Ticks: []string{"a"}},
		{Cells: []string{"far", "9 x 9"}, Ticks: []string{"b"}}}, table.Rows); diff != "" ||
		table.Columns[1] != (Column{Head: "cut size", Right: true}) {
		t.Errorf("%+v %s", table.Columns, diff)
	}
}

// A key is a list under each of its headings; what stands before the first is a text, and cautions have a place of
// their own.
func TestKeysOfMarkers(t *testing.T) {
	got := explained([]sheet.Paragraph{{Body: "All in cm."}, {Body: "Guard the blade.", Role: sheet.RoleCaution},
		{Body: "Pieces", Role: sheet.RoleHeading}, {Body: "1 = gore"}, {Body: "2 = band"},
		{Body: "Lines", Role: sheet.RoleHeading}, {Body: "dashed: fold"}})
	list := func(head string, rows ...string) Table {
		t := Table{Caption: head, Beside: true, Columns: []Column{{}}}
		for _, r := range rows {
			t.Rows = append(t.Rows, Row{Cells: []string{r}})
		}
		return t
	}
	if diff := cmp.Diff([]Block{Paragraph{Text: "All in cm."}, Heading{"Pieces"}, list("Pieces", "1 = gore", "2 = band"),
		Heading{"Lines"}, list("Lines", "dashed: fold")}, got); diff != "" {
		t.Error(diff)
	}
}

// The lines of a ledger keep their kinds: headings over all columns, sums as such, details below.
func TestLedgersAsTables(t *testing.T) {
	l := sheet.Ledger{Title: "Quote", Banner: "For the workroom alone.", Facts: []string{"from Moth Lane"}, Head: "USD",
		Notes: []string{"Valid for 30 days."}, Lines: []sheet.Entry{{Kind: sheet.EntryHead, Text: "Cloth"},
			{Kind: sheet.EntryItem, Text: "net", Detail: "2 yd", Amount: "9.00"},
			{Kind: sheet.EntrySum, Text: "Materials", Amount: "9.00"}, {Kind: sheet.EntryTotal, Text: "Total", Amount: "9.00"}}}
	s := Ledger(l)
	want := Section{Title: "Quote", Blocks: []Block{Paragraph{Text: "For the workroom alone.", Caution: true},
		Paragraph{Text: "from Moth Lane"}, Table{Caption: "Quote", Columns: []Column{{}, {Head: "USD", Right: true}},
			Rows: []Row{{Kind: RowGroup, Cells: []string{"Cloth"}, Details: []string{}},
				{Cells: []string{"net", "9.00"}, Details: []string{"2 yd"}},
				{Kind: RowSum, Cells: []string{"Materials", "9.00"}, Details: []string{}},
				{Kind: RowSum, Cells: []string{"Total", "9.00"}, Details: []string{}}}},
		Paragraph{Text: "Valid for 30 days."}}}
	if diff := cmp.Diff(want, s); diff != "" {
		t.Error(diff)
	}
	l.Banner = ""
	if first := Ledger(l).Blocks[0]; first != (Paragraph{Text: "from Moth Lane"}) {
		t.Errorf("%+v", first)
	}
}

// What is closed, boned, bound or hemmed has its figures or its words in the book, the same as in the cut list.
func TestWorkOnParts(t *testing.T) {
	g := Gown{Report: &report.Report{Unit: measure.Centimetre}, List: report.CutList{
		Ends: []report.Ends{{Part: "sash", Cloth: "net"}},
		Closed: []report.Closed{{Part: "bodice", Cloth: "satin", At: "left", Seam: "side", From: "top", By: "zip",
			Length: 260}},
		Boned: []report.Boned{{Part: "corset", Cloth: "coutil",
			Bones: []report.Bone{{Channel: "side", Count: 4, Edge: 266, Ends: 8, Length: 250, Casing: 296}},
			Tapes: []report.Tape{{Name: "waist tape", Count: 1, Width: 25, Length: 740, Ends: 15}}}, {Part: "bodice"}},
	}}
	s := g.Gathers()
	all, words := read(s)
	if len(all) != 1 || !slices.Equal(all[0].Rows[0].Cells, g.List.Boned[0].Grid(measure.Centimetre).Rows[0]) ||
		!all[0].Shown || all[0].Columns[0].Right || !all[0].Columns[4].Right {
		t.Errorf("%+v", all)
	}
	want := []string{g.List.Ends[0].Words(measure.Centimetre), g.List.Closed[0].Words(measure.Centimetre),
		g.List.Boned[0].Words(measure.Centimetre)[0]}
	if !slices.Equal(words, want) {
		t.Errorf("%q", words)
	}
	if none := (Gown{Report: g.Report}).Gathers(); len(none.Blocks) != 0 {
		t.Errorf("%+v", none.Blocks)
	}
}

// Spreading and cutting is told of the cloths of which there is something to tell, each under its title.
func TestCuttingWithoutDrawings(t *testing.T) {
	g := Gown{Report: &report.Report{Unit: measure.Inch, Cloths: []report.Cloth{{Title: "net"},
		{Title: "satin", Instructions: []string{"Fold it.", "Pin it."}}}}}
	if diff := cmp.Diff([]Block{Heading{"satin"}, Paragraph{Text: "Fold it."}, Paragraph{Text: "Pin it."}},
		g.Cutting().Blocks); diff != "" {
		t.Error(diff)
	}
	b := Book{Mark: "a2b3", Date: time.Date(2026, 5, 31, 0, 0, 0, 0, time.UTC)}
	if b.Called() != "Workbook" || b.Stamp() != "2026-05-31 · mark a2b3" {
		t.Errorf("%s, %s", b.Called(), b.Stamp())
	}
	if b.Title = "Skirt"; b.Called() != "Skirt: workbook" {
		t.Error(b.Called())
	}
}

// A cloth that is chalked has a table of points and one of lines for each piece, and each of its lays is named.
func TestChalkedPieces(t *testing.T) {
	tape := chalk.Tape{Unit: measure.Centimetre}
	s := (Gown{Paper: A4}).setOut("net", chalk.Document{Cost: "as laid for paper", Tape: tape,
		Notes:   []string{"Mind the nap."},
		Markers: []chalk.Marker{}})
	_, words := read(s)
	if s.Title != "Chalk: net" || words[0] != "As laid for paper." || words[1] != "Mind the nap." || len(words) < 3 {
		t.Errorf("%s, %q", s.Title, words)
	}
}
