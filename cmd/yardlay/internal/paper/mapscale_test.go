package paper

import (
	"math"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/cmd/yardlay/internal/sheet"
)

// The map shows the sheets that are printed as boxes with their names, and the patterns where they lie on them, all to
// one scale, from its corner on.
func TestTheMapIsToScale(t *testing.T) {
	const k = 12.5
	at := orb.Point{7, 30}
	ring := orb.Ring{{100, 120}, {700, 300}, {650, 800}, {120, 700}, {100, 120}}
	p := plotted{Tiled: tiledOn(a4), rings: []orb.Ring{ring}}
	p.grid, p.spots = grid{a4, 4, 3}, []spot{{pattern: 4}}
	p.printed = [][]bool{{true, true, false, true}, {true, true, true, true}, {false, true, true, true}}
	for _, m := range []mapPart{{p, 0, 0, 3, 4}, {p, 1, 1, 3, 3}} {
		from := m.window().Min
		sx, sy := 180., 267. // of A4 with its margins and its overlap
		if want := (orb.Point{float64(m.col)*sx - 5, float64(m.row)*sy - 5}); from != want {
			t.Fatalf("it shows the table from %v, not from %v", from, want)
		}
		back := func(q orb.Point) orb.Point {
			return orb.Point{from[0] + (q[0]-at[0])*k, from[1] + (q[1]-at[1])*k}
		}
		boxes := map[string]orb.Bound{}
		var last orb.Bound
		var drawn orb.Ring
		number := ""
		for _, it := range m.items(at, k) {
			switch it := it.(type) {
			case sheet.Shape:
				for _, v := range it.Ring {
					drawn = append(drawn, back(v))
				}
			case sheet.Line:
				b := it.Path.Bound()
				last = orb.Bound{Min: back(b.Min), Max: back(b.Max)}
			case sheet.Text:
				if it.Role != sheet.RoleCaution {
					number = it.Body
					continue
				}
				boxes[it.Body] = last
				if in := back(it.At); !last.Contains(in) || in[0]-last.Min[0] > 15 || in[1]-last.Min[1] > 50 {
					t.Errorf("%s stands at %v of its sheet %v", it.Body, in, last)
				}
			}
		}
		n := 0
		for r := m.row; r < m.rows; r++ {
			for c := m.col; c < m.cols; c++ {
				b, is := boxes[sheetName(r, c)]
				if is != p.printed[r][c] {
					t.Errorf("sheet %s is drawn: %v", sheetName(r, c), is)
				}
				if n++; !is {
					n--
					continue
				}
				from := orb.Point{float64(c) * sx, float64(r) * sy}
				if planar.Distance(b.Min, from)+planar.Distance(b.Max, orb.Point{from[0] + sx, from[1] + sy}) > 1e-6 {
					t.Errorf("sheet %s is drawn at %v, not from %v", sheetName(r, c), b, from)
				}
			}
		}
		if n != len(boxes) || number != "5" {
			t.Errorf("%d sheets, the pattern has number %q", len(boxes), number)
		}
		window := m.window().Pad(1e-6)
		for _, v := range drawn {
			if !window.Contains(v) || planar.DistanceFrom(orb.LineString(ring), v) > 1e-6 &&
				planar.DistanceFrom(orb.LineString(m.window().ToRing()), v) > 1e-6 {
				t.Errorf("a corner of the pattern is drawn at %v", v)
			}
		}
		for _, v := range ring {
			near := math.Inf(1)
			for _, d := range drawn {
				near = math.Min(near, planar.Distance(d, v))
			}
			if m.window().Contains(v) && near > 1e-6 {
				t.Errorf("corner %v of the pattern is not drawn", v)
			}
		}
	}
}
