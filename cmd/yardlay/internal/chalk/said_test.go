package chalk

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/measure"
)

// A marker has its page, named as it is, with its pieces by their numbers below it; pieces follow on pages of their
// own, one that is plain below another, what holds for all on the first page alone.
func TestWhatEachPageSays(t *testing.T) {
	tape := Tape{measure.Inch}
	plain := Marker{Edge: "selvedge", Cloth: table, Used: 500, Pieces: []Piece{rectangle("cuff", 0, 0, 200, 100),
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
	l := Marker{Edge: "selvedge", Cloth: table, Used: 910, Pieces: []Piece{{Name: "gore", Size: "35 x 35 in",
		Outline: Outline{Cut: ring}}}}
	d := document(l)
	if err := l.Figure(d.Tape); err != nil {
		t.Fatal(err)
	}
	d.Markers[0] = l
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
	for i, v := range d.Markers[0].Pieces[0].Figures.Outline {
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
