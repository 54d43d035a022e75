package paper

import (
	"math"
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

// A map of many sheets comes in parts: every sheet is named on it once, and can be read.
func TestMapOfManySheets(t *testing.T) {
	wide := orb.Ring(sheet.Box(0, 0, 7000, 600))
	for name, print := range map[string]struct {
		grid grid
		ring orb.Ring
	}{
		"one page": {grid{sheets: a4, cols: 4, rows: 3}, orb.Ring(sheet.Box(0, 0, 650, 700))},
		"wide":     {grid{sheets: a4, cols: 40, rows: 3}, wide},
		"high":     {grid{sheets: a4, cols: 3, rows: 60}, orb.Ring(sheet.Box(0, 0, 500, 15000))},
		"both":     {grid{sheets: a4, cols: 30, rows: 30}, orb.Ring(sheet.Box(0, 0, 5000, 8000))},
	} {
		p := plotted{Tiled: tiledOn(a4), rings: []orb.Ring{print.ring}}
		p.grid, p.spots = print.grid, make([]spot, 1)
		for range p.grid.rows {
			row := make([]bool, p.grid.cols)
			for c := range row {
				row[c] = true
			}
			p.printed = append(p.printed, row)
		}
		f := &firsts{sheets: a4}
		f.say(sheet.RoleNote, firstText, "what stands above", 130)
		f.chart(p)
		f.end()
		width, height := a4.room()
		named := map[string]int{}
		for _, page := range f.pages {
			for _, text := range textsOn(page) {
				if text.At[0] < 0 || text.At[0] > width || text.At[1] < 0 || text.At[1] > height {
					t.Errorf("%s: %q stands off the page, at %v", name, text.Body, text.At)
				}
				if text.Role != sheet.RoleCaution {
					continue
				}
				named[text.Body]++
				if text.Size < 2.2 { // 6 point: common practice for the smallest print
					t.Fatalf("%s: %s is %.1f mm high on the map", name, text.Body, text.Size)
				}
			}
		}
		for r := range p.grid.rows {
			for c := range p.grid.cols {
				if n := named[sheetName(r, c)]; n != 1 {
					t.Errorf("%s: sheet %s is named %d times on the map", name, sheetName(r, c), n)
				}
			}
		}
		if name != "both" && len(f.pages) > 2 {
			t.Errorf("%s: %d pages", name, len(f.pages))
		}
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
	taken := orb.Bound{Min: orb.Point{words.At[0] - w, words.At[1] - h},
		Max: orb.Point{words.At[0] + w, words.At[1] + h}}
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
