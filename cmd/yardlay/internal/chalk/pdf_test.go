package chalk

import (
	"bytes"
	"fmt"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
)

func document(lays ...Marker) Document {
	return Document{Tape: Tape{measure.Inch}, Title: "A gown: satin", Mark: "abcd", Cost: "laid for chalk",
		Date: time.Date(2026, 5, 31, 0, 0, 0, 0, time.UTC), Notes: []string{"Fold it."},
		Cautions: []string{"Mind the blade."},
		Markers:  lays}
}

// longLay is a marker of many pieces, one of them of many points, one a sliver.
func longLay(t *testing.T) Marker {
	t.Helper()
	long := Marker{Edge: "selvedge", Cloth: orb.Bound{Max: orb.Point{20000, 1500}}, Used: 2000}
	for i := range 12 {
		long.Pieces = append(long.Pieces, rectangle(fmt.Sprintf("strip %d", i), float64(i)*160, 10, 150, 40))
	}
	long.Pieces = append(long.Pieces, Piece{Name: "comb", Outline: Outline{Cut: comb(60)}})
	long.Pieces = append(long.Pieces, Piece{Name: "sliver", Outline: Outline{
		Cut: orb.Ring{{0, 400}, {1900, 400}, {1900, 401}, {0, 400}}}})
	if err := long.Figure(Tape{measure.Inch}); err != nil {
		t.Fatal(err)
	}
	return long
}

// Nothing is printed off its page, and nothing but the same twice.
func TestPagesHoldWhatIsOnThem(t *testing.T) {
	long := longLay(t)
	d := document(sample(t), long)
	pages := d.Pages()
	for i, p := range pages {
		for _, v := range p.Views {
			w := v.Window
			if w.Min[0] < 0 || w.Min[1] < 0 || w.Max[0] > p.Width+1e-6 || w.Max[1] > p.Height+1e-6 {
				t.Errorf("page %d: %q at %v", i+1, v.Drawing.Title, w)
			}
			for _, g := range v.Drawing.Groups {
				for _, it := range g.Items {
					if text, ok := it.(sheet.Text); ok && (text.At[0] < 0 || text.At[1] < 0 ||
						text.At[0] > v.Drawing.Width || text.At[1] > v.Drawing.Height) {
						t.Errorf("page %d: %q at %v", i+1, text.Body, text.At)
					}
				}
			}
		}
	}
	a, err := d.PDF()
	if err != nil {
		t.Fatal(err)
	}
	b, err := document(sample(t), long).PDF()
	if err != nil || !bytes.Equal(a, b) {
		t.Errorf("two runs differ: %v", err)
	}
}

// Every figure of a table stands on the page of its piece.
func TestPagesSayAllFigures(t *testing.T) {
	d := document(sample(t))
	said := map[string]bool{}
	for _, p := range d.Pages() {
		for _, v := range p.Views {
			for _, g := range v.Drawing.Groups {
				for _, it := range g.Items {
					if text, ok := it.(sheet.Text); ok {
						said[text.Body] = true
					}
				}
			}
		}
	}
	for _, p := range d.Markers[0].Pieces {
		if !said[p.Title()] {
			t.Errorf("no page is of %s", p.Title())
		}
		for _, r := range p.Figures.Points() {
			for _, m := range r.At {
				if !said[r.Label] || !said[d.Tape.Show(m)] {
					t.Errorf("%s: point %s is not on its page", p.Title(), r.Label)
				}
			}
		}
		for _, r := range p.Figures.Lines(d.Tape) {
			if !said[r.Label] || !said[r.Words] {
				t.Errorf("%s: %q is not on its page", p.Title(), r.Words)
			}
		}
	}
}
