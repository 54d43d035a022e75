package sheet

import (
	"fmt"
	"image"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/outside"
)

// dots is the fineness of the pictures that are measured: 20 dots a millimetre.
const dots = 508

// A square of 100 mm is that on paper, at full size and out of a drawing 1 : 12.
func TestOutsideSquareMeasures(t *testing.T) {
	for _, k := range []float64{1, 12} {
		d := Drawing{Title: "square", Width: 150 * k, Height: 140 * k, Scale: k, Groups: []Group{{Items: []Item{
			Line{RoleDim, orb.LineString(Box(20*k, 25*k, 120*k, 125*k))}}}}}
		m := outside.Raster(t, written(t, document(PageOf(&d, ""))), 1, dots)
		box := outside.Dark(m, m.Rect)
		width := d.Theme.palette().looks[RoleDim].width // 4 dots
		for _, side := range []int{box.Dx(), box.Dy()} {
			if mm := float64(side)/20 - width; mm < 99.96 || mm > 100.04 {
				t.Errorf("1 : %g: the square measures %.2f mm", k, mm)
			}
		}
		if x, y := float64(box.Min.X)/20+width/2, float64(box.Min.Y)/20+width/2; x < 19.9 || x > 20.1 || y < 24.9 ||
			y > 25.1 {
			t.Errorf("1 : %g: the square begins at %.2f, %.2f", k, x, y)
		}
	}
}

// Names in the scripts that the font has are found in the file as they were written,
// upright and turned, plain and bold.
func TestOutsideTextIsFound(t *testing.T) {
	names := []string{"centre front gore 34 1/2 in", "Rückenteil ½ × 3 m²", "φόρεμα νυφικό", "Спинка подъюбника",
		"čšžő Ťąłń"}
	d := Drawing{Title: "names", Width: 300, Height: 200, Scale: 1}
	for i, name := range names {
		y := 20 + 20*float64(i)
		d.Groups = append(d.Groups, Group{Items: []Item{
			Text{Role: RoleNote, At: orb.Point{20, y}, Size: 5, Body: name},
			Text{Role: RoleHeading, At: orb.Point{280, y}, Anchor: End, Size: 5, Body: name + " (2)"},
		}})
	}
	d.Groups = append(d.Groups, Group{Items: []Item{
		Text{Role: RoleNote, At: orb.Point{10, 180}, Size: 4, Turn: 90, Body: "вдоль основы"}}})
	said := outside.Texts(t, written(t, document(PageOf(&d, "Лекало λ"))))
	for _, want := range append(names, "вдоль основы") {
		if !strings.Contains(said, want) {
			t.Errorf("pdftotext does not find %q in:\n%s", want, said)
		}
		if want != "вдоль основы" && !strings.Contains(said, want+" (2)") {
			t.Errorf("pdftotext does not find the bold %q", want)
		}
	}
}

// The text stands where its anchor says, within the width that is kept for it.
func TestOutsideTextKeepsItsPlace(t *testing.T) {
	body := "HEM 20"
	for anchor, from := range map[Anchor]float64{Start: 0, Middle: 0.5, End: 1} {
		at := orb.Point{75, 50}
		d := Drawing{Title: "text", Width: 150, Height: 100, Scale: 1, Groups: []Group{{Items: []Item{
			Text{Role: RoleNote, At: at, Anchor: anchor, Size: 10, Body: body}}}}}
		m := outside.Raster(t, written(t, document(PageOf(&d, ""))), 1, dots)
		box := outside.Dark(m, m.Rect)
		width := textWidth(body, 10)
		left, right := float64(box.Min.X)/20, float64(box.Max.X)/20
		if left < at[0]-from*width-0.1 || right > at[0]+(1-from)*width+0.1 || right-left < width*0.75 {
			t.Errorf("anchor %d: text from %.1f to %.1f mm, estimated %.1f wide", anchor, left, right, width)
		}
		if middle := float64(box.Min.Y+box.Max.Y) / 40; middle < 49.7 || middle > 50.3 {
			t.Errorf("anchor %d: the middle of the line lies at %.2f mm", anchor, middle)
		}
	}
}

// One drawing in many views: each shows its part, clipped to its window, and all the
// parts together are the drawing.
func TestOutsideViewsShowTheirParts(t *testing.T) {
	d := Drawing{Title: "dots", Width: 400, Height: 300, Scale: 1}
	for i := range 4 {
		for j := range 3 { // a dot in the middle of each tile, whose place tells which it is
			x, y := 100*float64(i)+50+5*float64(i), 100*float64(j)+50+5*float64(j)
			d.Groups = append(d.Groups, Group{Items: []Item{Shape{Role: RoleDim, Ring: Box(x-2, y-2, x+2, y+2)}}})
		}
	}
	var pages []Page
	for i := range 4 {
		for j := range 3 {
			pages = append(pages, Page{Width: 140, Height: 120, Views: []View{{Drawing: &d,
				Window: orb.Bound{Min: orb.Point{20, 10}, Max: orb.Point{120, 110}},
				From:   orb.Point{100 * float64(i), 100 * float64(j)}}}})
		}
	}
	pdf := written(t, document(pages...))
	for n := range pages {
		i, j := n/3, n%3
		m := outside.Raster(t, pdf, n+1, 254)
		x, y := 200+500+50*i, 100+500+50*j
		want := image.Rect(x-21, y-21, x+21, y+21)
		if got := outside.Dark(m, m.Rect); !got.In(want.Inset(-1)) || !want.Inset(2).In(got) {
			t.Errorf("tile %d, %d: dark in %v, want %v", i, j, got, want)
		}
	}
}

// A page may be as long as the format allows.
func TestOutsideLongestPage(t *testing.T) {
	d := Drawing{Title: "roll", Width: MaxPage, Height: 914.4, Scale: 1, Groups: []Group{{Items: []Item{
		Line{RoleEdge, orb.LineString{{MaxPage - 10, 0}, {MaxPage - 10, 914.4}}}}}}}
	pdf := written(t, document(PageOf(&d, "")))
	m := outside.Raster(t, pdf, 1, 25)
	if box := outside.Dark(m, m.Rect.Inset(1)); box.Min.X < m.Rect.Dx()-12 {
		t.Errorf("the line stands at %v of %v", box, m.Rect)
	}
	if info := string(outside.Run(t, "pdfinfo", outside.File(t, "file.pdf", pdf))); !strings.Contains(info,
		fmt.Sprintf("Page size:       14400 x %d pts", 2592)) {
		t.Errorf("pdfinfo says\n%s", info)
	}
}
