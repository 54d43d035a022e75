package paper

import (
	"context"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/plane"
)

// textsOn are the texts of a page.
func textsOn(p sheet.Page) (texts []sheet.Text) {
	for _, v := range p.Views {
		for _, g := range v.Drawing.Groups {
			for _, it := range g.Items {
				if t, ok := it.(sheet.Text); ok {
					texts = append(texts, t)
				}
			}
		}
	}
	return texts
}

// A map of many columns comes in parts: every sheet is named on it once, and can be read.
func TestMapOfManySheets(t *testing.T) {
	long := ringPattern("strip", orb.Ring(sheet.Box(0, 0, 7000, 600)), 1)
	made, err := tiledOn(a4).Pieces(context.Background(), []Pattern{long})
	if err != nil {
		t.Fatal(err)
	}
	named := map[string]int{}
	for _, page := range made.Document.Pages[:made.Firsts] {
		for _, text := range textsOn(page) {
			if text.Role == sheet.RoleCaution {
				named[text.Body]++
				if text.Size < 2.2 { // 6 point: common practice for the smallest print
					t.Fatalf("%s is %.1f mm high on the map", text.Body, text.Size)
				}
			}
		}
	}
	for _, page := range made.Document.Pages[made.Firsts:] {
		name := strings.TrimPrefix(page.Bookmark, "sheet ")
		if named[name] != 1 {
			t.Errorf("sheet %s is named %d times on the map", name, named[name])
		}
	}
	if len(named) != made.Sheets {
		t.Errorf("%d names for %d sheets", len(named), made.Sheets)
	}
}

// The name of a sheet keeps off a line that runs along its whole upper edge, and off large
// words, above and below their middle too.
func TestSheetNameKeepsOff(t *testing.T) {
	words := sheet.Text{Role: sheet.RoleNote, At: orb.Point{100, 20}, Anchor: sheet.Middle, Size: 8,
		Body: "skirt centre back gore, lining"}
	line := sheet.Line{Role: sheet.RolePiece, Path: orb.LineString{{-100, 11}, {500, 11}}}
	p := plotted{Tiled: tiledOn(a4), spread: spread{grid: grid{sheets: a4, cols: 1, rows: 1},
		printed: [][]bool{{true}}}}
	at := orb.Point{-5, -5}
	p.bounds = []orb.Bound{{Min: at, Max: orb.Point{500, 500}}}
	p.lines = [][]orb.LineString{inkOf([]sheet.Item{words, line}, at)}
	w, h := words.Width()/2, words.Size/2
	taken := orb.Bound{Min: orb.Point{words.At[0] - w, words.At[1] - h}, Max: orb.Point{words.At[0] + w, words.At[1] + h}}
	for _, it := range p.names(0, 0, p.grid.window(0, 0)) {
		box := textBox(it.(sheet.Text))
		if box.Intersects(taken) || box.Min[1] < 11 && box.Max[1] > 11 {
			t.Errorf("%q at %v lies on what is drawn", it.(sheet.Text).Body, it.(sheet.Text).At)
		}
	}
	turned := words
	turned.Turn = 90
	for i, l := range inkOf([]sheet.Item{words}, orb.Point{}) {
		sin, cos := plane.SinCos(90)
		q := inkOf([]sheet.Item{turned}, orb.Point{})[i]
		d := orb.Point{l[1][0] - words.At[0], l[1][1] - words.At[1]}
		want := orb.Point{words.At[0] + d[0]*cos + d[1]*sin, words.At[1] - d[0]*sin + d[1]*cos}
		if math.Hypot(q[1][0]-want[0], q[1][1]-want[1]) > 1e-9 {
			t.Errorf("turned: %v, want %v", q[1], want)
		}
	}
}
