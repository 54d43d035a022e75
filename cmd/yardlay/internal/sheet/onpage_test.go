package sheet

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"yardlay/cmd/yardlay/internal/outside"
)

// onPage is what a page gets of a drawing.
func onPage(t *testing.T, d Drawing) string {
	t.Helper()
	text, err := d.OnPage()
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// A page that may have no style within it can hold the drawing: it has none, and each class that it uses
// has its look in the style sheet.
func TestOnPageHasNoStyle(t *testing.T) {
	rules := string(PageStyle(ThemeTinted))
	for _, m := range []Marker{sampleMarker(), lengthwise(), crosswise(CrosswiseFold), double(), repeats(), striped()} {
		text := onPage(t, m.Drawing())
		if strings.Contains(text, "style") {
			t.Errorf("%s: has style", m.Cloth)
		}
		d := xml.NewDecoder(strings.NewReader(text))
		for {
			token, err := d.Token()
			if err == io.EOF {
				break
			} else if err != nil {
				t.Fatal(err)
			}
			e, ok := token.(xml.StartElement)
			if !ok || e.Name.Local == "svg" {
				continue
			}
			for _, a := range e.Attr {
				for _, class := range strings.Fields(a.Value) {
					if a.Name.Local == "class" && class != "plate" && !strings.Contains(rules, ".drawing ."+class+"{") {
						t.Errorf("%s: class %q has no look", m.Cloth, class)
					}
				}
			}
		}
	}
}

// From where a stretch lies on the drawing, its pieces are found where the stretch has them.
func TestOnPageSaysWhereStretchesLie(t *testing.T) {
	m := lengthwise()
	for i := range m.Stretches {
		for k := range m.Stretches[i].Pieces {
			m.Stretches[i].Pieces[k].ID = fmt.Sprintf("piece-%d-%d", i, k)
		}
	}
	text := onPage(t, m.Drawing())
	stretches := strings.Split(text, "data-origin=\"")[1:]
	if len(stretches) != len(m.Stretches) {
		t.Fatalf("%d origins for %d stretches", len(stretches), len(m.Stretches))
	}
	for i, drawn := range stretches {
		origin := coordinates(t, drawn[:strings.Index(drawn, `"`)])
		for k, p := range m.Stretches[i].Pieces {
			_, rest, ok := strings.Cut(drawn, fmt.Sprintf(`data-of="piece-%d-%d"`, i, k))
			if !ok {
				t.Fatalf("piece %d of stretch %d is not there", k, i)
			}
			_, rest, _ = strings.Cut(rest, `points="`)
			at := coordinates(t, strings.Fields(rest[:strings.Index(rest, `"`)])[0])
			if x, y := at[0]-origin[0], origin[1]-at[1]; math.Hypot(x-p.Cut[0][0], y-p.Cut[0][1]) > 0.02 {
				t.Errorf("stretch %d, piece %d lies at %.2f, %.2f of the stretch, want %v", i, k, x, y, p.Cut[0])
			}
		}
	}
}

func coordinates(t *testing.T, text string) (at [2]float64) {
	t.Helper()
	for i, s := range strings.SplitN(text, ",", 2) {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		at[i] = v
	}
	return at
}

// On a page a drawing looks as it does in a file: another program draws both.
func TestOutsideOnPageLooksAlike(t *testing.T) {
	for i, m := range []Marker{sampleMarker(), lengthwise(), double(), striped()} {
		d := m.Drawing()
		style := "<style>" + string(PageStyle(ThemeTinted)) + "</style>"
		page := strings.Replace(onPage(t, d), "<title>", style+"<title>", 1)
		drawn := func(name, svg string) *image.Gray {
			dots := outside.Run(t, "rsvg-convert", "-w", "900", "-b", "white", outside.File(t, name, []byte(svg)))
			picture, err := png.Decode(bytes.NewReader(dots))
			if err != nil {
				t.Fatal(err)
			}
			grey := image.NewGray(picture.Bounds())
			draw.Draw(grey, grey.Rect, picture, image.Point{}, draw.Src)
			return grey
		}
		a, b := drawn("file.svg", string(svg(t, d))), drawn("page.svg", page)
		if a.Rect != b.Rect {
			t.Fatalf("drawing %d: %v, on a page %v", i, a.Rect, b.Rect)
		}
		for at := range a.Pix {
			// Width and height of the file are rounded to 0.01 mm, which moves lines by a small part of a dot.
			if off := int(a.Pix[at]) - int(b.Pix[at]); off > 40 || off < -40 {
				t.Fatalf("drawing %d: at %d, %d it is %d, on a page %d", i, at%a.Stride, at/a.Stride, a.Pix[at],
					b.Pix[at])
			}
		}
	}
}
