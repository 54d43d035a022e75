package paper

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// grid is sheets in rows and columns, x to the right and y down from the corner where the
// crosses of the first sheet lie. The window of a sheet reaches beyond its cell by half the
// overlap, so that each strip of the overlap lies on two sheets:
//
//	     cell 0        cell 1
//	  |<--------->|<---------->|
//	. . . . . . . . . .                window of sheet 0
//	            . . . . . . . . . .    window of sheet 1
type grid struct {
	sheets     Sheets
	cols, rows int
}

// window is what sheet (row, col) shows.
func (g grid) window(row, col int) orb.Bound {
	sx, sy := g.sheets.step()
	o := g.sheets.Overlap / 2
	x, y := float64(col)*sx, float64(row)*sy
	return orb.Bound{Min: orb.Point{x - o, y - o}, Max: orb.Point{x + sx + o, y + sy + o}}
}

// stretch is a stretch of an axis by fine number n: strips shared by two sheets have even
// numbers, what one sheet alone shows odd ones.
func stretch(n int, step, overlap float64) (from, to float64) {
	at := float64(n/2) * step
	if n%2 == 0 {
		return at - overlap/2, at + overlap/2
	}
	return at + overlap/2, at + step - overlap/2
}

// partAt is the fine number of the stretch that holds a place.
func partAt(x, step, overlap float64) int {
	n := int(math.Floor((x + overlap/2) / step))
	if x > float64(n)*step+overlap/2 {
		return 2*n + 1
	}
	return 2 * n
}

// inkRoom is how far beyond a line its ink may reach, with room, mm.
const inkRoom = 0.3

// printed tells which sheets have to be printed for what some rings hold, row by row: all
// that they touch, but for those whose share lies wholly on others too.
func (g grid) printed(rings []orb.Ring) [][]bool {
	touched := g.touched(rings)
	need := make([][]bool, g.rows)
	for r := range need {
		need[r] = make([]bool, g.cols)
		for c := range need[r] {
			g.parts(r, c, func(y, x int) { need[r][c] = need[r][c] || touched[y][x] })
		}
	}
	for r := g.rows - 1; r >= 0; r-- {
		for c := g.cols - 1; c >= 0; c-- {
			if need[r][c] && !touched[2*r+1][2*c+1] {
				need[r][c] = false
				spare := true
				g.parts(r, c, func(y, x int) { spare = spare && (!touched[y][x] || g.shown(need, y, x)) })
				need[r][c] = !spare
			}
		}
	}
	return need
}

// parts goes through the nine fine parts of a sheet.
func (g grid) parts(row, col int, do func(y, x int)) {
	for y := 2 * row; y <= 2*row+2; y++ {
		for x := 2 * col; x <= 2*col+2; x++ {
			do(y, x)
		}
	}
}

// shown says whether a fine part lies on a sheet that is printed.
func (g grid) shown(printed [][]bool, y, x int) bool {
	for _, r := range sheetsOf(y) {
		for _, c := range sheetsOf(x) {
			if r >= 0 && r < g.rows && c >= 0 && c < g.cols && printed[r][c] {
				return true
			}
		}
	}
	return false
}

// sheetsOf are the rows or columns that show a fine part.
func sheetsOf(n int) []int {
	if n%2 == 1 {
		return []int{n / 2}
	}
	return []int{n/2 - 1, n / 2}
}

// touched marks the fine parts that rings touch with their lines or hold inside.
func (g grid) touched(rings []orb.Ring) [][]bool {
	sx, sy := g.sheets.step()
	o := g.sheets.Overlap
	all := make([][]bool, 2*g.rows+1)
	for y := range all {
		all[y] = make([]bool, 2*g.cols+1)
	}
	clampX := func(x float64) int { return max(0, min(partAt(x, sx, o), 2*g.cols)) }
	clampY := func(y float64) int { return max(0, min(partAt(y, sy, o), 2*g.rows)) }
	within := func(b orb.Bound, do func(y, x int, part orb.Bound)) {
		for y := clampY(b.Min[1] - inkRoom); y <= clampY(b.Max[1]+inkRoom); y++ {
			for x := clampX(b.Min[0] - inkRoom); x <= clampX(b.Max[0]+inkRoom); x++ {
				x0, x1 := stretch(x, sx, o)
				y0, y1 := stretch(y, sy, o)
				do(y, x, orb.Bound{Min: orb.Point{x0, y0}, Max: orb.Point{x1, y1}})
			}
		}
	}
	for _, ring := range rings {
		for i := 1; i < len(ring); i++ {
			a, b := ring[i-1], ring[i]
			within(orb.MultiPoint{a, b}.Bound(), func(y, x int, p orb.Bound) {
				all[y][x] = all[y][x] || crosses(a, b, p.Pad(inkRoom))
			})
		}
		within(ring.Bound(), func(y, x int, p orb.Bound) {
			all[y][x] = all[y][x] || planar.RingContains(ring, p.Center())
		})
	}
	return all
}

// crosses says whether a segment has a point in a box.
func crosses(a, b orb.Point, box orb.Bound) bool {
	from, to := 0.0, 1.0
	for axis := range a {
		d := b[axis] - a[axis]
		if d == 0 {
			if a[axis] < box.Min[axis] || a[axis] > box.Max[axis] {
				return false
			}
			continue
		}
		t0, t1 := (box.Min[axis]-a[axis])/d, (box.Max[axis]-a[axis])/d
		from, to = max(from, min(t0, t1)), min(to, max(t0, t1))
	}
	return from <= to
}

// count counts what is printed.
func count(printed [][]bool) int {
	n := 0
	for _, row := range printed {
		for _, is := range row {
			if is {
				n++
			}
		}
	}
	return n
}
