package paper

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"

	"yardlay/cmd/yardlay/internal/sheet"
)

// mapPart is a part of the map of sheets: its rows and columns from one up to another.
type mapPart struct {
	plotted
	row, col, rows, cols int
}

// window is what the part shows of the joined sheets.
func (m mapPart) window() orb.Bound {
	sx, sy := m.Sheets.step()
	o := m.Sheets.Overlap / 2
	return orb.Bound{Min: orb.Point{float64(m.col)*sx - o, float64(m.row)*sy - o},
		Max: orb.Point{float64(m.cols)*sx + o, float64(m.rows)*sy + o}}
}

// mapParts divides the map where it would be too small to read on one page.
func (p plotted) mapParts(width, height float64) []mapPart {
	sx, sy := p.Sheets.step()
	cell := mapSheet / sx
	cols := evenly(p.grid.cols, int((width/cell-p.Sheets.Overlap)/sx))
	rows := evenly(p.grid.rows, int((height/cell-p.Sheets.Overlap)/sy))
	var parts []mapPart
	for r := 0; r < p.grid.rows; r += rows {
		for c := 0; c < p.grid.cols; c += cols {
			parts = append(parts, mapPart{p, r, c, min(r+rows, p.grid.rows), min(c+cols, p.grid.cols)})
		}
	}
	return parts
}

// evenly is how many of n are in each part where a part holds so many at the most.
func evenly(n, most int) int {
	parts := (n + max(most, 1) - 1) / max(most, 1)
	return (n + parts - 1) / parts
}

// chart draws the map: the sheets with their names, and the pieces with their numbers. Its
// parts stand side by side where there is room, else below each other.
func (f *firsts) chart(p plotted) {
	width, height := f.room()
	width, height = width-2, height-mapAir
	parts := p.mapParts(width, height)
	size := func(m mapPart) (long, high float64) {
		w := m.window()
		return w.Max[0] - w.Min[0], w.Max[1] - w.Min[1]
	}
	long, high := size(parts[0]) // none is larger
	k := max(long/width, high/height, 1)
	sx, _ := p.Sheets.step()
	rest := height - f.y
	if least := max(long/width, 1); len(parts) == 1 && rest > mapLeast && high/rest < 2.2*least &&
		sx*rest/high >= mapSheet {
		k = max(least, high/rest)
	}
	x, below := 0.0, f.y
	for _, m := range parts {
		long, high := size(m)
		if x > 0 && x+long/k > width {
			x, f.y = 0, below+mapAir
		}
		if x == 0 && high/k > height-f.y+1e-6 {
			f.end()
			below = 0
		}
		f.items = append(f.items, m.items(orb.Point{1 + x, f.y + 1}, k)...)
		x, below = x+long/k+mapAir, max(below, f.y+high/k)
	}
	f.y = below + mapAir
}

// items draws the part at 1/k of its size, from a corner on.
func (m mapPart) items(at orb.Point, k float64) []sheet.Item {
	w := m.window()
	sx, sy := m.Sheets.step()
	onto := func(q orb.Point) orb.Point {
		return orb.Point{at[0] + (q[0]-w.Min[0])/k, at[1] + (q[1]-w.Min[1])/k}
	}
	var items []sheet.Item
	for i, ring := range m.rings {
		small := clip.Ring(w, ring.Clone())
		if len(small) < 4 {
			continue
		}
		for n, v := range small {
			small[n] = onto(v)
		}
		items = append(items, sheet.Shape{Role: sheet.RolePiece, Ring: small})
		items = append(items, sheet.Numbered(small, m.spots[i].pattern+1)...)
	}
	for r := m.row; r < m.rows; r++ {
		for c := m.col; c < m.cols; c++ {
			if !m.printed[r][c] {
				continue
			}
			a, b := onto(orb.Point{float64(c) * sx, float64(r) * sy}),
				onto(orb.Point{float64(c+1) * sx, float64(r+1) * sy})
			items = append(items,
				sheet.Line{Role: sheet.RoleJoin, Path: orb.LineString(sheet.Box(a[0], a[1], b[0], b[1]))},
				sheet.Text{Role: sheet.RoleCaution, At: orb.Point{a[0] + 0.8, a[1] + mapText*0.8},
					Size: math.Min(mapText, (b[0]-a[0])/3), Body: sheetName(r, c)})
		}
	}
	return items
}
