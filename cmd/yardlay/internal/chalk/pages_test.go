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
		for i := range d.Lays {
			if err := d.Lays[i].Figure(d.Tape); err != nil {
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
	comb := slices.IndexFunc(d.Lays[0].Pieces, func(p Piece) bool { return p.Name == "comb" })
	p := d.Lays[0].Pieces[comb]
	d.Lays[0].Pieces = []Piece{p}
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
	l := Lay{Name: "the long end", Edge: "selvedge", Cloth: orb.Bound{Max: orb.Point{20000, 1500}}, Used: 9000}
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

// A marker has its page, named as it is, with its pieces by their numbers below it; pieces follow on pages of their
// own, one that is plain below another, what holds for all on the first page alone.
func TestWhatEachPageSays(t *testing.T) {
	tape := Tape{measure.Inch}
	plain := Lay{Edge: "selvedge", Cloth: table, Used: 500, Pieces: []Piece{rectangle("cuff", 0, 0, 200, 100),
		rectangle("band", 250, 0, 200, 100), rectangle("yoke", 500, 0, 200, 100)}}
	if err := plain.Figure(tape); err != nil {
		t.Fatal(err)
	}
	pages := document(sample(t), plain).Pages()
	said := func(i int) (all string) {
		for _, w := range wordsOf(pages[i]) {
			all += w.Body + " "
		}
		return all
	}
	var marks []string
	for _, p := range pages {
		marks = append(marks, p.Bookmark)
	}
	want := []string{"the end of the roll", "1. disc, left", "Marker", "1. cuff, 10 x 4 in", "3. yoke, 10 x 4 in"}
	if !slices.Equal(marks, want) {
		t.Fatalf("pages %q, want %q", marks, want)
	}
	for _, c := range []struct {
		page      int
		has, less string
	}{
		{0, "A gown: satin The end of the roll Laid for chalk. Fold it. Draw a line straight across", "10 x 4 in"},
		{0, "1 disc, left; 2 strip", "point from cut end"}, {0, "Mind the blade.", "continued"},
		{1, "1. disc, left point from cut end from fold", "Mind the blade."},
		{1, "2. strip, 10 x 4 in point", "3. "},
		{2, "A gown: satin Pieces: 3", "Laid for chalk."}, {2, "1 cuff; 2 band; 3 yoke", "Fold it."},
		{2, "page 3 of 5", "Mind the blade."},
		{3, "1. cuff, 10 x 4 in point from cut end from selvedge", "yoke"}, {3, "2. band, 10 x 4 in point", "disc"},
		{3, "A gown: satin · 2026-05-31 · mark abcd page 4 of 5", "continued"}, {4, "3. yoke, 10 x 4 in point", "band"},
	} {
		if all := said(c.page); !strings.Contains(all, c.has) || strings.Contains(all, c.less) {
			t.Errorf("page %d should say %q, not %q: %s", c.page+1, c.has, c.less, all)
		}
	}
	for i, n := range []int{1, 2, 1, 2, 1} {
		if got := len(pages[i].Views) - 1; got != n {
			t.Errorf("page %d has %d drawings, not %d", i+1, got, n)
		}
	}
}

// What is crowded in a sketch is shown larger at the right of it, in a frame of its own size.
func TestACrowdIsShownBesideItsSketch(t *testing.T) {
	ring := orb.Ring{{10, 10}, {900, 10}, {900, 900}, {10, 60}, {62, 50}, {62, 20}, {10, 10}}
	l := Lay{Edge: "selvedge", Cloth: table, Used: 910, Pieces: []Piece{{Name: "gore", Size: "35 x 35 in",
		Outline: Outline{Cut: ring}}}}
	d := document(l)
	if err := l.Figure(d.Tape); err != nil {
		t.Fatal(err)
	}
	d.Lays[0] = l
	page := d.Pages()[1]
	if len(page.Views) != 3 {
		t.Fatalf("%d drawings", len(page.Views))
	}
	part := func(v sheet.View) bool { return strings.HasSuffix(v.Drawing.Title, ", a part") }
	detail := page.Views[slices.IndexFunc(page.Views, part)]
	framed := false
	for _, it := range page.Views[0].Drawing.Groups[0].Items {
		if line, ok := it.(sheet.Line); ok && line.Path.Bound() == detail.Window && len(line.Path) == 5 {
			framed = true
		}
	}
	if w := detail.Window; !framed || math.Abs(w.Max[0]-(page.Width-12)) > 1e-6 || math.Abs(w.Max[1]-w.Min[1]-54) > 1e-6 {
		t.Errorf("the detail at %v is framed: %v", detail.Window, framed)
	}
	k := detail.Drawing.Scale
	// the crowd from (10, 10) to (62, 60) stands in the middle, 9 mm off the frame where it is widest
	first := detail.Drawing.Groups[0].Items[0].(sheet.Shape).Ring[0]
	if math.Abs(k-d.Tape.MM(d.Tape.Round(52))/36) > 0.1 || math.Abs((first[0]-detail.From[0])/k-9) > 0.5 ||
		math.Abs((first[1]-detail.From[1])/k-27-25/k) > 0.5 {
		t.Errorf("1 : %v, its corner %v from %v", k, first, detail.From)
	}
	on, said := cloth(detail.Drawing, ring[0]), 0
	for i, v := range d.Lays[0].Pieces[0].Figures.Outline {
		a, b := d.Tape.point(l.Pieces[0].Figures.Places[v.From]), d.Tape.point(l.Pieces[0].Figures.Places[v.To])
		if max(a[0], b[0]) > 100 || distance(a, b) < 25*on.k {
			continue
		}
		if said++; !slices.ContainsFunc(on.texts, func(w sheet.Text) bool {
			return w.Body == strings.ReplaceAll(d.Tape.Show(d.Tape.Round(distance(a, b))), noBreak, " ")
		}) {
			t.Errorf("line %d has no length in the detail", i+1)
		}
	}
	if said < 2 {
		t.Error("this is no test of a crowd")
	}
}

// As text the document has its paragraphs apart: what it is, how it is read, each marker, what to mind.
func TestTheTextHasItsPartsApart(t *testing.T) {
	d := document(sample(t))
	parts := strings.Split(d.Text(), "\n\n")
	begins := []string{"A gown: satin\nSet-out tables, 2026-05-31, mark abcd\nLaid for chalk.\nFold it.",
		"Distances are in inches", "The end of the roll\n", "1. disc, left\n", "2. strip, 10 x 4 in\n", "Mind the blade.\n"}
	if len(parts) != len(begins) {
		t.Fatalf("%d parts: %q", len(parts), parts)
	}
	for i, want := range begins {
		if !strings.HasPrefix(parts[i], want) {
			t.Errorf("part %d begins %.60q, not %q", i+1, parts[i], want)
		}
	}
}
