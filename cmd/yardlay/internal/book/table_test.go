package book

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
)

// onPages are the texts of each page, but its head and foot.
func onPages(b Book) [][]string {
	var pages [][]string
	for _, p := range b.document().Pages {
		var texts []string
		for _, it := range p.Views[0].Drawing.Groups[0].Items {
			if text, ok := it.(sheet.Text); ok {
				texts = append(texts, text.Body)
			}
		}
		pages = append(pages, texts[4:])
	}
	return pages
}

func bookOf(blocks ...Block) Book {
	b := tried()
	b.Sections = []Section{{Title: "Cut list", Blocks: blocks}}
	return b
}

// A table that goes on says its heads again, and which group goes on.
func TestHeadsComeAgain(t *testing.T) {
	table := Table{Caption: "pieces", Columns: columns("piece", "cut size")}
	for g := range 2 {
		table.Rows = append(table.Rows, Row{Kind: RowGroup, Cells: []string{fmt.Sprintf("group %d", g)}})
		for i := range 70 {
			table.Rows = append(table.Rows, Row{Cells: []string{fmt.Sprintf("gore %d", i), "41 x 29"}})
		}
	}
	pages := onPages(bookOf(table))
	if len(pages) < 4 {
		t.Fatalf("%d pages", len(pages))
	}
	for n, texts := range pages[1:] {
		if texts[0] != "piece" || texts[1] != "cut size" {
			t.Errorf("page %d begins with %q", n+2, texts[:3])
		}
		if again := strings.HasSuffix(texts[2], ", continued"); again == (texts[2] == "group 1") {
			t.Errorf("page %d goes on with %q", n+2, texts[2])
		}
	}
}

// Rows beside each other keep their order from left to right, and take half the room.
func TestRowsStandBesideEachOther(t *testing.T) {
	table := Table{Columns: columns("piece", "size"), Beside: true}
	var want []string
	for i := range 9 {
		name := fmt.Sprintf("gore %d", i)
		table.Rows, want = append(table.Rows, Row{Cells: []string{name, "41 x 29"}, Ticks: []string{name}}),
			append(want,
				name)
	}
	var got []string
	for _, text := range onPages(bookOf(table))[0] {
		if strings.HasPrefix(text, "gore ") {
			got = append(got, text)
		}
	}
	if strings.Join(got, ", ") != strings.Join(want, ", ") {
		t.Errorf("rows %q", got)
	}
	s := setter{240}
	beside := tallness(s.table(table))
	table.Beside = false
	if below := tallness(s.table(table)); beside > 0.65*below {
		t.Errorf("beside each other %.1f mm, below each other %.1f", beside, below)
	}
}

// Columns fit their room whatever is in them; where words fit, none is broken.
func TestColumnsFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		table := someTable(t)
		s := setter{rapid.Float64Range(80, 260).Draw(t, "width")}
		g := s.grid(table)
		if g.end > s.width+rounding {
			t.Fatalf("columns end at %.2f of %.2f", g.end, s.width)
		}
		sum := g.tick + cellGap*float64(len(g.w)-1)
		least := make([]float64, len(g.w))
		for k := range g.w {
			least[k] = cellLeast
			words := strings.Fields(table.Columns[k].Head)
			for _, w := range words {
				least[k] = math.Max(least[k], sheet.TextWidth(sheet.RoleHeading, w, textSmall))
			}
			for _, r := range table.Rows {
				if r.Kind != RowGroup {
					for _, w := range strings.Fields(r.Cells[k]) {
						least[k] = math.Max(least[k], sheet.TextWidth(r.role(), w, textBody))
					}
				}
			}
			sum += least[k]
		}
		for k := range g.w {
			if sum < s.width-1 && g.w[k] < least[k]-rounding {
				t.Fatalf("column %d of %.2f breaks a word of %.2f, though all words fit", k, g.w[k], least[k])
			}
		}
	})
}

// narrowed against a search by halves.
func TestNarrowedColumnsTakeAllTheRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		widths := rapid.SliceOfN(rapid.Float64Range(1, 100), 1, 8).Draw(t, "widths")
		room := rapid.Float64Range(1, 400).Draw(t, "room")
		taken := func(most float64) (sum float64) {
			for _, w := range widths {
				sum += math.Min(w, most)
			}
			return sum
		}
		low, high := 0.0, 1000.0
		for range 100 {
			if middle := (low + high) / 2; taken(middle) > room {
				high = middle
			} else {
				low = middle
			}
		}
		if got := narrowed(widths, room); math.Abs(taken(got)-taken(low)) > 1e-6 {
			t.Fatalf("%v in %.3f: at most %.6f, not %.6f", widths, room, got, low)
		}
	})
}

// The paper is that of the offices where lengths are shown so.
func TestPaperFollowsTheUnit(t *testing.T) {
	for unit, want := range map[measure.Unit]Paper{measure.Inch: Letter, measure.Yard: Letter, measure.Centimetre: A4,
		measure.Millimetre: A4, measure.Metre: A4} {
		if got := PaperFor(unit.Metric()); got != want {
			t.Errorf("%v: %v", unit, got)
		}
	}
}
