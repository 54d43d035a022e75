package sheet

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// drawLedger is a ledger of any number of lines and lengths of words.
func drawLedger(t *rapid.T, most int) Ledger {
	words := func(name string, most int) string {
		return strings.TrimSpace(strings.Repeat("cloth of gold ", rapid.IntRange(0, most).Draw(t, name)))
	}
	l := Ledger{Title: "A quote " + words("title", 8), Head: "USD", Metric: rapid.Bool().Draw(t, "metric"),
		Notes: []string{words("note", 30)}}
	for i := range rapid.IntRange(1, most).Draw(t, "lines") {
		l.Lines = append(l.Lines, Entry{
			Kind: EntryKind(rapid.IntRange(0, int(EntryNote)).Draw(t, "kind")), Text: fmt.Sprintf("line %d %s", i,
				words("text", 8)),
			Detail: words("detail", 12), Amount: rapid.SampledFrom([]string{"", "1.00", "12345678.90"}).Draw(t,
				"amount"),
		})
	}
	return l
}

// Every text lies on the page, no two overlap, and every line is on some page, in
// order.
func TestLedgersKeepToTheirPages(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLedger(t, 60)
		all := ""
		for _, d := range l.Drawings() {
			var boxes [][4]float64
			for _, g := range d.Groups {
				for _, it := range g.Items {
					text, ok := it.(Text)
					if !ok {
						continue
					}
					all += text.Body + "\n"
					w := textWidth(text.Body, text.Size)
					if text.Role == RoleHeading {
						w *= boldness
					}
					x := text.At[0] - []float64{Start: 0, Middle: w / 2, End: w}[text.Anchor]
					boxes = append(boxes, [4]float64{x, text.At[1] - text.Size/2, x + w, text.At[1] + text.Size/2})
				}
			}
			for i, a := range boxes {
				if a[0] < 0 || a[1] < 0 || a[2] > d.Width || a[3] > d.Height {
					t.Fatalf("a text runs off the page: %v of %v x %v", a, d.Width, d.Height)
				}
				for _, b := range boxes[:i] {
					if a[0] < b[2]-0.01 && b[0] < a[2]-0.01 && a[1] < b[3]-0.01 && b[1] < a[3]-0.01 {
						t.Fatalf("two texts overlap: %v and %v", a, b)
					}
				}
			}
			if _, err := d.SVG(); err != nil {
				t.Fatal(err)
			}
		}
		at := 0
		for i := range l.Lines {
			k := strings.Index(all[at:], fmt.Sprintf("line %d", i))
			if k < 0 {
				t.Fatalf("line %d is on no page, or out of order", i)
			}
			at += k
		}
	})
}

// A quote of thirty lines with details stands on one page of either paper.
func TestAQuoteFitsOnOnePage(t *testing.T) {
	for _, metric := range []bool{true, false} {
		l := Ledger{Title: "Gown: quote", Metric: metric}
		for i := range 30 {
			l.Lines = append(l.Lines, Entry{Text: fmt.Sprintf("notion %d", i),
				Detail: "1 yd at 1.00/yd from Corner Cloth", Amount: "1.00"})
		}
		if pages := l.Drawings(); len(pages) != 1 {
			t.Errorf("%d pages", len(pages))
		}
	}
}
