package paper

import (
	"image"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/outside"
	"yardlay/cmd/yardlay/internal/sheet"
)

// fine is the fineness of the pictures that are measured: ten dots a millimetre.
const fine, dpi = 10.0, 254

func pdfOf(t *testing.T, p Print) []byte {
	t.Helper()
	pdf, err := p.PDF()
	if err != nil {
		t.Fatal(err)
	}
	return pdf
}

// part is a rectangle of a page in dots.
func part(x0, y0, x1, y1 float64) image.Rectangle {
	return image.Rect(int(x0*fine), int(y0*fine), int(x1*fine), int(y1*fine))
}

func TestOutsideTestSquareOnARoll(t *testing.T) {
	m := markerOf(300, 300, box(10, 10, 200, 200))
	made, err := rollOf(400).Markers([]string{"satin"}, []sheet.FullSize{m})
	if err != nil {
		t.Fatal(err)
	}
	pdf := pdfOf(t, made)
	head := made.Pages[0].Views[1].Window.Min
	square := outside.Dark(outside.Raster(t, pdf, 1, dpi),
		part(head[0], head[1], head[0]+testSquare+4, head[1]+testSquare+4))
	for _, side := range []int{square.Dx(), square.Dy()} {
		if mm := float64(side)/fine - 0.2; math.Abs(mm-100) > 0.06 { // its line is 0.2 mm wide
			t.Errorf("the test square measures %.2f mm", mm)
		}
	}
	if said := outside.Texts(t, pdf); !strings.Contains(said, "100 mm") || !strings.Contains(said, "mark a2b3") ||
		!strings.Contains(said, "Lantern Court gown") {
		t.Errorf("the page says\n%s", said)
	}
}

// Two bands joined by their crosses, as they are found in the printed pages, give the
// outline of a piece across both within 0.2 mm.
func TestOutsideBandsJoin(t *testing.T) {
	piece := box(60, 40, 460, 460)
	m := markerOf(520, 500, piece)
	made, err := rollOf(300).Markers([]string{"satin"}, []sheet.FullSize{m})
	if err != nil || made.Bands != 2 || made.Lengths != 1 {
		t.Fatalf("%d bands, %d lengths, %v", made.Bands, made.Lengths, err)
	}
	pdf := pdfOf(t, made)
	var crosses, left, right [2]orb.Point // on each page
	for i := range 2 {
		views := made.Pages[i].Views
		v := views[len(views)-1]
		onto := func(p orb.Point) orb.Point {
			return orb.Point{v.Window.Min[0] + p[0] - v.From[0], v.Window.Min[1] + p[1] - v.From[1]}
		}
		m1 := outside.Raster(t, pdf, i+1, dpi)
		crosses[i] = crossNear(t, m1, onto(firstCross(m.Drawing)))
		// The sides of the piece, a little away from the join, and its upper or lower edge.
		y, edge := 100.0, piece.Max[1]
		if i == 1 {
			y, edge = 400.0, piece.Min[1]
		}
		side := func(x, across float64) float64 { // the middle of a line, found 2 mm about
			p := onto(orb.Point{m.Laid.Min[0] + x, m.Laid.Max[1] - across})
			b := outside.Dark(m1, part(p[0]-2, p[1]-0.3, p[0]+2, p[1]+0.3))
			return float64(b.Min.X+b.Max.X) / 2 / fine
		}
		p := onto(orb.Point{m.Laid.Min[0] + 200, m.Laid.Max[1] - edge})
		b := outside.Dark(m1, part(p[0]-0.3, p[1]-2, p[0]+0.3, p[1]+2))
		level := float64(b.Min.Y+b.Max.Y) / 2 / fine
		across := 500 - y
		left[i] = orb.Point{side(piece.Min[0], across), level}
		right[i] = orb.Point{side(piece.Max[0], across), level}
	}
	for i := range 2 {
		if w := right[i][0] - left[i][0]; math.Abs(w-400) > 0.2 {
			t.Errorf("band %d: the piece is %.2f mm long", i+1, w)
		}
	}
	upper, lower := left[0][1]-crosses[0][1], left[1][1]-crosses[1][1]
	if h := lower - upper; math.Abs(h-420) > 0.2 {
		t.Errorf("joined, the piece is %.2f mm wide, not 420", h)
	}
	if step := (left[1][0] - crosses[1][0]) - (left[0][0] - crosses[0][0]); math.Abs(step) > 0.2 {
		t.Errorf("joined, its side has a step of %.2f mm", step)
	}
}

// firstCross is where the first cross of the joins of a drawing lies.
func firstCross(d *sheet.Drawing) orb.Point {
	for _, g := range d.Groups {
		if g.Title != "joins" {
			continue
		}
		for _, it := range g.Items {
			if l, ok := it.(sheet.Line); ok && l.Role == sheet.RoleNotch {
				return orb.Point{(l.Path[0][0] + l.Path[1][0]) / 2, (l.Path[0][1] + l.Path[1][1]) / 2}
			}
		}
	}
	return orb.Point{}
}

// crossNear finds a cross in a picture: the middle of its strokes.
func crossNear(t *testing.T, m *image.Gray, near orb.Point) orb.Point {
	t.Helper()
	x, y := near[0], near[1]
	level := outside.Dark(m, part(x-4, y-1, x-3, y+1))
	upright := outside.Dark(m, part(x-1, y+3, x+1, y+4))
	if level.Empty() || upright.Empty() {
		t.Fatalf("no cross near %v", near)
	}
	return orb.Point{float64(upright.Min.X+upright.Max.X) / 2 / fine, float64(level.Min.Y+level.Max.Y) / 2 / fine}
}

// In light the square by which the picture is calibrated is as large as it says.
func TestOutsideCalibrationSquare(t *testing.T) {
	p := Projector{Title: "gown", Date: day, Mark: "mark a2b3", Width: 600, Height: 400}
	made, err := p.Markers(nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	m := outside.Raster(t, pdfOf(t, made), 1, dpi)
	for i, g := range m.Pix { // what is lightest is its white sides
		m.Pix[i] = 0
		if g < 250 {
			m.Pix[i] = 255
		}
	}
	square := outside.Dark(m, m.Rect.Inset(3))
	for _, side := range []int{square.Dx(), square.Dy()} {
		if mm := float64(side)/fine - 2.2; math.Abs(mm-254) > 0.15 { // its line is 2.2 mm wide
			t.Errorf("the square measures %.2f mm", mm)
		}
	}
}
