package paper

import (
	"context"
	"image"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/cmd/yardlay/internal/outside"
	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/plane"
)

// slanting is a panel that lies square to nothing; gore is one of a circle skirt.
var (
	slanting = orb.Ring{{0, 0}, {430, 35}, {390, 330}, {60, 410}, {0, 0}}
	gore     = func() orb.Ring {
		ring := orb.Ring(plane.Arc(orb.Point{}, 560, 0.1, 0.9, 0.05))
		waist := plane.Arc(orb.Point{}, 110, 0.1, 0.9, 0.05)
		slices.Reverse(waist)
		return append(append(ring, waist...), ring[0])
	}()
)

// printedSheets prints a piece and returns what was made of it.
func printedSheets(t *testing.T, s Sheets, ring orb.Ring) (Made, spread, []Pattern, []byte) {
	t.Helper()
	all := []Pattern{ringPattern("side panel", ring, 1)}
	laid, _, err := s.onSheets(context.Background(), all)
	if err != nil {
		t.Fatal(err)
	}
	made, err := tiledOn(s).Pieces(context.Background(), all)
	if err != nil {
		t.Fatal(err)
	}
	pdf, err := made.Document.PDF()
	if err != nil {
		t.Fatal(err)
	}
	return made, laid, all, pdf
}

func TestOutsideTestSquareOnSheets(t *testing.T) {
	made, _, _, pdf := printedSheets(t, a4, slanting)
	m := outside.Raster(t, pdf, 1, dpi)
	var at orb.Point // where the square stands on the page
	for _, it := range made.Document.Pages[0].Views[0].Drawing.Groups[0].Items {
		if l, ok := it.(sheet.Line); ok && len(l.Path) == 5 {
			at = orb.Point{l.Path[0][0] + a4.Margin, l.Path[0][1] + a4.Margin}
			break
		}
	}
	square := outside.Dark(m, part(at[0]-0.6, at[1]-0.6, at[0]+testSquare+0.6, at[1]+testSquare+0.6))
	for _, side := range []int{square.Dx(), square.Dy()} {
		if mm := float64(side)/fine - 0.2; math.Abs(mm-100) > 0.11 { // its line is 0.2 mm wide, a dot 0.1 mm
			t.Errorf("the test square measures %.2f mm", mm)
		}
	}
	said := outside.Texts(t, pdf)
	for _, want := range []string{"Lantern Court gown", "100 mm", "4 in", "A1: row A, column 1", "B1", "mark a2b3"} {
		if !strings.Contains(said, want) {
			t.Errorf("the pages do not say %q", want)
		}
	}
}

// Sheets put together by the crosses that are seen on them give the outline within 0.2 mm.
func TestOutsideSheetsJoin(t *testing.T) {
	letter := Sheets{Width: 279.4, Height: 215.9, Margin: 6, Overlap: 0}
	for _, one := range []struct {
		Sheets
		piece orb.Ring
	}{{a4, slanting}, {letter, slanting}, {a4, gore}, {letter, gore}} {
		made, laid, all, pdf := printedSheets(t, one.Sheets, one.piece)
		j := tape(one.Sheets, made, laid, pdf)
		if checked := j.follow(t, "side panel", laid.rings(all)[0], nil, len(j.page)); checked < 40 {
			t.Errorf("%d places looked at", checked)
		}
	}
}

// taped is sheets as they are joined, each drawn once it is looked at.
type taped struct {
	Sheets
	pdf     []byte
	page    map[[2]int]int // of the sheets that are printed
	pages   map[[2]int]*image.Gray
	shifted map[[2]int]orb.Point // of the crosses seen on a sheet
}

func tape(s Sheets, made Made, laid spread, pdf []byte) taped {
	j := taped{s, pdf, map[[2]int]int{}, map[[2]int]*image.Gray{}, map[[2]int]orb.Point{}}
	page := made.Firsts
	for r, row := range laid.printed {
		for c, is := range row {
			if is {
				page++
				j.page[[2]int{r, c}] = page
			}
		}
	}
	return j
}

// sheet draws a sheet, and finds where its crosses are seen.
func (j taped) sheet(t *testing.T, at [2]int) (*image.Gray, orb.Point) {
	t.Helper()
	if j.pages[at] == nil {
		j.pages[at] = outside.Raster(t, j.pdf, j.page[at], dpi)
		j.shifted[at] = crossShift(t, j.pages[at], j.Sheets)
	}
	return j.pages[at], j.shifted[at]
}

// follow looks for the line of a ring, as it lies on the joined sheets, in many places that
// other lines keep clear of, on so many of its sheets at most, and says in how many it looked.
func (j taped) follow(t *testing.T, name string, ring orb.Ring, others []orb.LineString, sheets int) (checked int) {
	t.Helper()
	sx, sy := j.step()
	looked := map[[2]int]bool{}
	for i := 1; i < len(ring); i++ {
		length := math.Hypot(ring[i][0]-ring[i-1][0], ring[i][1]-ring[i-1][1])
		nx, ny := (ring[i][1]-ring[i-1][1])/length, -(ring[i][0]-ring[i-1][0])/length
		few := math.Min(0.44, 14/length) // from its ends, and on chords of arcs the middle alone
		for f := max(0.06, few); f < 0.95 && f <= 1-few/2; f += 0.035 {
			p := orb.Point{ring[i-1][0] + f*(ring[i][0]-ring[i-1][0]), ring[i-1][1] + f*(ring[i][1]-ring[i-1][1])}
			at := [2]int{int(math.Floor(p[1] / sy)), int(math.Floor(p[0] / sx))}
			x, y := p[0]-float64(at[1])*sx, p[1]-float64(at[0])*sy // in the cell
			if edge := math.Min(math.Min(sx-x, sy-y), math.Min(x, y)); edge < 12 || j.page[at] == 0 {
				continue // lines and names of joins are there, or it lies in an overlap
			}
			if !looked[at] && len(looked) == sheets ||
				slices.ContainsFunc(others, func(l orb.LineString) bool { return planar.DistanceFrom(l, p) < 2.5 }) {
				continue
			}
			looked[at] = true
			m, shift := j.sheet(t, at)
			edge := j.Margin + j.Overlap/2
			off, ok := offset(m, orb.Point{edge + x + shift[0], edge + y + shift[1]}, nx, ny)
			if !ok || math.Abs(off) > 0.2 {
				t.Errorf("%s on %s: at %v the line is %.2f mm off, %v", name, sheetName(at[0], at[1]), p, off, ok)
			}
			checked++
		}
	}
	return checked
}

// crossShift is how far from its place a cross at a corner of the cell of a page is seen, by
// its arms that reach into the cell; one with a line through an arm is passed over.
func crossShift(t *testing.T, m *image.Gray, s Sheets) orb.Point {
	t.Helper()
	edge := s.Margin + s.Overlap/2
	for _, in := range []orb.Point{{-1, -1}, {1, -1}, {-1, 1}, {1, 1}} { // from the corner into the cell
		x, y := edge, edge
		if in[0] < 0 {
			x = s.Width - edge
		}
		if in[1] < 0 {
			y = s.Height - edge
		}
		arm := func(along, across float64, upright bool) image.Rectangle {
			if upright {
				return outside.Dark(m, part(x-1, min(y+across, y+along), x+1, max(y+across, y+along)))
			}
			return outside.Dark(m, part(min(x+across, x+along), y-1, max(x+across, x+along), y+1))
		}
		level, upright := arm(3.6*in[0], 2.8*in[0], false), arm(3.6*in[1], 2.8*in[1], true)
		if most := int(math.Ceil(fine*crossWidth)) + 1; level.Empty() || upright.Empty() || level.Dy() > most ||
			upright.Dx() > most {
			continue
		}
		cut := orb.Point{} // what is cut at the window's edge shows half its width there
		if s.Overlap == 0 {
			cut = orb.Point{-in[0] * crossWidth / 4, -in[1] * crossWidth / 4}
		}
		return orb.Point{float64(upright.Min.X+upright.Max.X)/2/fine + cut[0] - x,
			float64(level.Min.Y+level.Max.Y)/2/fine + cut[1] - y}
	}
	t.Fatal("no cross")
	return orb.Point{}
}

// crossWidth is the width of the lines of a cross, mm.
const crossWidth = 0.35

// offset finds the dark line about a point along a normal, and how far off its middle is.
func offset(m *image.Gray, p orb.Point, nx, ny float64) (mm float64, ok bool) {
	first, last := math.Inf(1), math.Inf(-1)
	for d := -1.5; d <= 1.5; d += 0.02 {
		if m.GrayAt(int((p[0]+d*nx)*fine), int((p[1]+d*ny)*fine)).Y < 128 {
			first, last = math.Min(first, d), math.Max(last, d)
		}
	}
	return (first + last) / 2, first <= last
}
