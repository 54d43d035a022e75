package book

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/sheet"
)

// aWord is a word of some script; now and then it is long.
var aWord = rapid.StringMatching(`[a-z]{1,9}|[0-9]{1,3}( [1-7]/8)? in|[А-я]{2,12}|[W]{30,90}`)

func someText(t *rapid.T, most int) string {
	return strings.Join(rapid.SliceOfN(aWord, 1, most).Draw(t, "words"), " ")
}

func someTable(t *rapid.T) Table {
	table := Table{Caption: "table " + someText(t, 4), Shown: rapid.Bool().Draw(t, "shown"),
		Beside: rapid.Bool().Draw(t, "beside")}
	for range rapid.IntRange(1, 7).Draw(t, "columns") {
		table.Columns = append(table.Columns,
			Column{rapid.SampledFrom([]string{"", "cut size", "how many"}).Draw(t, "head"),
				rapid.Bool().Draw(t, "right")})
	}
	for range rapid.IntRange(0, 25).Draw(t, "rows") {
		row := Row{}
		switch rapid.IntRange(0, 6).Draw(t, "kind") {
		case 0:
			row.Kind, row.Cells = RowGroup, []string{someText(t, 3)}
		case 1:
			row.Kind = RowSum
		case 2, 3:
			row.Ticks = []string{"id"}
			row.Details = []string{someText(t, 15)}
		}
		for k := range table.Columns {
			if row.Kind != RowGroup {
				row.Cells = append(row.Cells, someText(t, 1+4*((k+len(table.Rows))%2)))
			}
		}
		table.Rows = append(table.Rows, row)
	}
	return table
}

func someBook(t *rapid.T) Book {
	b := Book{Title: someText(t, 12), Mark: "a2b3", Date: time.Date(2026, 5, 31, 12, 0, 0, 0, time.UTC),
		Paper: rapid.SampledFrom([]Paper{A4, Letter}).Draw(t, "paper")}
	for range rapid.IntRange(1, 3).Draw(t, "sections") {
		s := Section{Title: "section " + someText(t, 8), Wide: rapid.Bool().Draw(t, "wide")}
		for range rapid.IntRange(0, 3).Draw(t, "blocks") {
			switch rapid.IntRange(0, 5).Draw(t, "block") {
			case 0:
				s.Blocks = append(s.Blocks, Heading{"heading " + someText(t, 3)})
			case 1, 2:
				s.Blocks = append(s.Blocks, Paragraph{Text: someText(t, 120)}, Paragraph{Text: "kept", Keep: true})
			case 3:
				long := rapid.Float64Range(10, 900).Draw(t, "long")
				s.Blocks = append(s.Blocks,
					Figure{Caption: "figure", Drawing: &sheet.Drawing{Title: "d", Width: 20 * long,
						Height: 20 * rapid.Float64Range(10, 90).Draw(t, "high"), Scale: 20}})
			default:
				s.Blocks = append(s.Blocks, someTable(t))
			}
		}
		b.Sections = append(b.Sections, s)
	}
	return b
}

// said is what the pages say in a role, in order, without spaces.
func said(doc sheet.Document) string {
	var all strings.Builder
	for _, p := range doc.Pages {
		for _, it := range p.Views[0].Drawing.Groups[0].Items {
			if text, ok := it.(sheet.Text); ok {
				all.WriteString(strings.ReplaceAll(text.Body, " ", ""))
			}
		}
	}
	return all.String()
}

// Nothing is set beyond the margins of a page, and no text over another's line end.
func TestPagesKeepTheirMargins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		doc := someBook(t).document()
		for n, p := range doc.Pages {
			within := orb.Bound{Min: orb.Point{marginLeft - 1.01, marginTop - 8 - textSmall},
				Max: orb.Point{p.Width - marginRight + 1.01, p.Height - marginBottom + 8 + textSmall}}
			inside := func(what string, b orb.Bound) {
				if !(within.Contains(b.Min) && within.Contains(b.Max)) {
					t.Fatalf("page %d of %.1f by %.1f: %s reaches from %v to %v", n+1, p.Width, p.Height, what, b.Min,
						b.Max)
				}
			}
			for _, v := range p.Views[1:] {
				inside("a drawing", v.Window)
			}
			for _, it := range p.Views[0].Drawing.Groups[0].Items {
				switch it := it.(type) {
				case sheet.Text:
					w := sheet.TextWidth(it.Role, it.Body, it.Size)
					x := it.At[0] - w*float64(it.Anchor)/2
					inside(fmt.Sprintf("%q", it.Body), orb.Bound{Min: orb.Point{x, it.At[1] - it.Size/2},
						Max: orb.Point{x + w - 1e-3, it.At[1] + it.Size/2}})
				case sheet.Line:
					inside("a line", it.Path.Bound())
				case sheet.Shape:
					inside("a ground", it.Ring.Bound())
				}
			}
		}
	})
}

// Each text of each block is on the pages as often as the book has it, each drawing is
// shown from end to end, and each row to tick has its box.
func TestPagesLoseNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := someBook(t)
		doc := b.document()
		all := said(doc)
		boxes, shown := 0, map[*sheet.Drawing]float64{}
		for _, p := range doc.Pages {
			for _, v := range p.Views[1:] {
				shown[v.Drawing] = math.Max(shown[v.Drawing], v.From[0]/v.Drawing.Scale+v.Window.Max[0]-v.Window.Min[0])
			}
			for _, it := range p.Views[0].Drawing.Groups[0].Items {
				if line, ok := it.(sheet.Line); ok && line.Role == sheet.RoleNotch {
					boxes++
				}
			}
		}
		ticked, letters := 0, map[rune]int{}
		has := func(text string) {
			for _, word := range strings.Fields(text) { // lines are broken between words, and within long ones
				if len(word) < 4 && !strings.Contains(all, word) {
					t.Fatalf("%q is not on the pages", word)
				}
				for _, c := range word {
					letters[c]++
				}
			}
		}
		for _, s := range b.Sections {
			has(s.Title)
			has(s.Title) // and in the contents
			for _, block := range s.Blocks {
				switch block := block.(type) {
				case Heading:
					has(block.Text)
				case Paragraph:
					has(block.Text)
				case Figure:
					if w := block.Drawing.Width / block.Drawing.Scale; math.Abs(shown[block.Drawing]-w) > 1e-6 {
						t.Fatalf("a drawing %.1f wide is shown to %.1f", w, shown[block.Drawing])
					}
				case Table:
					for _, r := range block.Rows {
						has(strings.Join(r.Cells, " ") + " " + strings.Join(r.Details, " "))
						if r.Ticks != nil {
							ticked++
						}
					}
				}
			}
		}
		if boxes != ticked {
			t.Fatalf("%d boxes for %d rows", boxes, ticked)
		}
		for c, n := range letters {
			if got := strings.Count(all, string(c)); got < n {
				t.Fatalf("%q is %d times on the pages and %d times in the book", c, got, n)
			}
		}
	})
}

// Each page bears gown, date, mark and its number; each section has a bookmark, and the
// page that the contents give.
func TestPagesSayWhoseTheyAre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := someBook(t)
		doc := b.document()
		var marks []string
		for n, p := range doc.Pages {
			var texts []string
			for _, it := range p.Views[0].Drawing.Groups[0].Items {
				if text, ok := it.(sheet.Text); ok {
					texts = append(texts, text.Body)
				}
			}
			words := strings.Join(texts, "\n")
			for _, want := range []string{"2026-05-31 · mark a2b3", fmt.Sprintf("page %d of %d", n+1, len(doc.Pages)),
				strings.TrimRight(texts[0], "…")} {
				if !strings.Contains(words, want) {
					t.Fatalf("page %d does not say %q", n+1, want)
				}
			}
			if !strings.HasPrefix(b.Called(), strings.TrimRight(texts[0], "…")) {
				t.Fatalf("page %d is headed %q", n+1, texts[0])
			}
			if p.Bookmark != "" {
				marks = append(marks, p.Bookmark)
			}
		}
		var titles []string
		for _, s := range b.Sections {
			titles = append(titles, s.Title)
		}
		if got, want := strings.Join(marks, ", "), strings.Join(titles, ", "); got != want {
			t.Fatalf("bookmarks %q, sections %q", got, want)
		}
	})
}

// A heading is never the last thing on a page.
func TestPagesEndWithNoHeading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := someBook(t)
		leaves := b.leaves()
		for n, l := range leaves {
			_, height := b.size(l.wide)
			if last := l.body[len(l.body)-1]; last.keep && keptAcross(leaves, n) <= height-marginTop-marginBottom {
				t.Fatalf("page %d ends with what is kept with the next", n+1)
			}
		}
	})
}

// keptAcross is how tall all is together that is kept with the last strip of page n: of a heading of many lines over a
// large figure more than a page holds.
func keptAcross(leaves []leaf, n int) (sum float64) {
	body := leaves[n].body
	for k := len(body) - 1; k >= 0 && body[k].keep; k-- {
		sum += body[k].height
	}
	for _, l := range leaves[n+1:] {
		for _, s := range l.body {
			if sum += s.height; !s.keep {
				return sum
			}
		}
	}
	return sum
}

func TestSameBookSameBytes(t *testing.T) {
	b := rapid.Custom(someBook).Example(3)
	first, _, err := b.PDF()
	if err != nil {
		t.Fatal(err)
	}
	second, _, err := b.PDF()
	if err != nil || string(first) != string(second) {
		t.Errorf("two books of %d and %d bytes differ (%v)", len(first), len(second), err)
	}
	one, err := b.HTML()
	two, err2 := b.HTML()
	if err != nil || err2 != nil || string(one) != string(two) {
		t.Error("two pages differ", err, err2)
	}
}
