package chalk

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
)

// wordsOf are the texts of a page by itself, without those of drawings on it.
func wordsOf(p sheet.Page) (texts []sheet.Text) {
	for _, it := range p.Views[0].Drawing.Groups[0].Items {
		if w, ok := it.(sheet.Text); ok {
			w.Body = strings.ReplaceAll(w.Body, noBreak, " ")
			texts = append(texts, w)
		}
	}
	return texts
}

// On a page drawings lie apart from each other and from words, all within its edges, over the line at the foot; words
// stand in columns, none over another.
func TestWhatIsOnAPageLiesApart(t *testing.T) {
	for _, unit := range []measure.Unit{measure.Inch, measure.Centimetre} {
		d := document(sample(t), longLay(t), sample(t))
		d.Tape = Tape{unit}
		for i := range d.Markers {
			if err := d.Markers[i].Figure(d.Tape); err != nil {
				t.Fatal(err)
			}
		}
		for i, p := range d.Pages() {
			area := orb.Bound{Min: orb.Point{12, 12}, Max: orb.Point{p.Width - 12, p.Height - 17}}.Pad(1e-6)
			var taken []orb.Bound
			for _, v := range p.Views[1:] {
				// A drawing that is seen in part takes up its window, any other what it is large.
				w := v.Window
				w.Max[0] = min(w.Max[0], w.Min[0]+(v.Drawing.Width-v.From[0])/v.Drawing.Scale)
				if !area.Contains(w.Min) || !area.Contains(w.Max) {
					t.Errorf("page %d: %q at %v", i+1, v.Drawing.Title, w)
				}
				taken = append(taken, w)
			}
			foot := 0
			for _, w := range wordsOf(p) {
				if w.At[1] > area.Max[1] {
					foot++
					continue
				}
				wide := 0.3 * w.Size * float64(len(w.Body)) // narrower than any font sets it
				from := w.At[0] - map[sheet.Anchor]float64{sheet.Start: 0, sheet.Middle: wide / 2, sheet.End: wide}[w.Anchor]
				box := orb.Bound{Min: orb.Point{from, w.At[1] - 0.36*w.Size}, Max: orb.Point{from + wide, w.At[1] + 0.36*w.Size}}
				if !area.Contains(box.Min) || !area.Contains(box.Max) {
					t.Errorf("page %d: %q at %v", i+1, w.Body, box)
				}
				taken = append(taken, box)
			}
			if foot != 2 {
				t.Errorf("page %d: %d texts at the foot", i+1, foot)
			}
			for k, a := range taken {
				for _, b := range taken[:k] {
					if a.Pad(-1e-6).Intersects(b) {
						t.Errorf("page %d: %v lies over %v", i+1, a, b)
					}
				}
			}
		}
	}
}

// The table of points is read down its two columns and on to the next page: every point in its turn, its figures in
// line below the words over them, columns as long as each other but for one row.
func TestTheTableOfPointsIsReadDown(t *testing.T) {
	d := document(longLay(t))
	comb := slices.IndexFunc(d.Markers[0].Pieces, func(p Piece) bool { return p.Name == "comb" })
	p := d.Markers[0].Pieces[comb]
	d.Markers[0].Pieces = []Piece{p}
	want := p.Figures.Points()
	show := func(m Marks) string { return strings.ReplaceAll(d.Tape.Show(m), noBreak, " ") }
	n := 0
	var last orb.Point // where the row before stands
	for i, page := range d.Pages() {
		words := wordsOf(page)
		var columns []int
		for k := 0; k+2 < len(words); k++ {
			head := words[k].Body == "point"
			row := []string{"point", "from cut end", "from selvedge"}
			if !head && n < len(want) {
				row = []string{want[n].Label, show(want[n].At[0]), show(want[n].At[1])}
			}
			three := words[k : k+3]
			if !slices.Equal(row, []string{three[0].Body, three[1].Body, three[2].Body}) {
				continue
			}
			for axis, x := range []float64{0, 46, 80} {
				at := orb.Point{12 + x, three[0].At[1]}
				if len(columns) > 0 && three[0].At[0] > 20 {
					at[0] += (page.Width - 24) / 2
				}
				if three[axis].At != at || (axis > 0) != (three[axis].Anchor == sheet.End) {
					t.Fatalf("page %d: %q stands at %v, not at %v", i+1, three[axis].Body, three[axis].At, at)
				}
			}
			if head {
				columns = append(columns, 0)
			} else {
				if step := three[0].At[1] - last[1]; math.Abs(step-4.4) > 1e-6 || three[0].At[0] != last[0] {
					t.Fatalf("page %d: point %s stands at %v, the row before at %v", i+1, row[0], three[0].At, last)
				}
				columns[len(columns)-1]++
				n++
			}
			last, k = three[0].At, k+2
		}
		if len(columns) == 1 || len(columns) > 2 {
			t.Errorf("page %d has %d columns", i+1, len(columns))
		} else if len(columns) == 2 && (columns[0] < columns[1] || columns[0] > columns[1]+1) {
			t.Errorf("page %d has columns of %d rows", i+1, columns)
		}
	}
	if n != len(want) {
		t.Errorf("%d points of %d are on their pages in order", n, len(want))
	}
}

// A long marker is shown in bands, one below the other, that overlap and show all of it; each but the first says from
// where it goes on.
func TestBandsShowTheWholeMarker(t *testing.T) {
	l := Marker{Name: "the long end", Edge: "selvedge", Cloth: orb.Bound{Max: orb.Point{20000, 1500}}, Used: 9000}
	l.Pieces = []Piece{rectangle("strip", 0, 10, 9000, 400)}
	tape := Tape{measure.Centimetre}
	if err := l.Figure(tape); err != nil {
		t.Fatal(err)
	}
	d := document(l)
	d.Tape = tape
	shown, bands := 0.0, 0
	for _, p := range d.Pages() {
		for _, v := range p.Views[1:] {
			if v.Drawing.Title != "Marker to be drawn with chalk" {
				continue
			}
			k := v.Drawing.Scale
			high := v.Window.Max[1] - v.Window.Min[1]
			if v.From[1] != 0 || math.Abs(high*k-v.Drawing.Height) > 1e-6 || math.Abs(high-100) > 1e-6 {
				t.Errorf("a band shows %v of a drawing %v high", v.Window, v.Drawing.Height)
			}
			if bands++; bands > 1 {
				if over := (shown - v.From[0]) / k; math.Abs(over-15) > 1e-6 {
					t.Errorf("band %d begins %.1f mm before the end of the last one", bands, over)
				}
				from := fmt.Sprintf("from about %s along the cloth on", tape.Show(tape.Round(v.From[0]-10*k)))
				words := wordsOf(p)
				i := slices.IndexFunc(words, func(w sheet.Text) bool { return w.Body == strings.ReplaceAll(from, noBreak, " ") })
				if i < 0 || words[i].At[1] > v.Window.Min[1] || words[i].At[1] < v.Window.Min[1]-8 {
					t.Errorf("band %d: %q does not stand over it", bands, from)
				}
			}
			shown = v.From[0] + (v.Window.Max[0]-v.Window.Min[0])*k
			if shown >= v.Drawing.Width && v.Drawing.Width < v.From[0] {
				t.Errorf("band %d shows nothing", bands)
			}
		}
	}
	if over := l.overview(tape, l.scale(100)); bands < 2 || shown < over.Width-1e-6 {
		t.Errorf("%d bands show %v of %v", bands, shown, over.Width)
	}
}
