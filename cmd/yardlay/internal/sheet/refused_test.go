package sheet

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// A document is refused by the page and what is wrong with it: one just beyond a limit, while the last within it holds.
func TestDocumentsJustBeyondTheirLimits(t *testing.T) {
	const least, most = 3 * 25.4 / 72, 14400 * 25.4 / 72 // of a page in PDF (ISO 32000-1, annex C)
	const far = 1e6                                      // of what a drawing holds, mm of paper
	plain := func() *Drawing {
		return &Drawing{Title: "skirt", Width: 100, Height: 80, Scale: 2, Groups: []Group{{Items: []Item{
			Shape{Ring: Box(0, 0, 10, 10)}, Line{Path: orb.LineString{{0, 0}, {5, 5}}}, Text{Size: 4, Body: "a"}}}}}
	}
	nan, endless := math.NaN(), math.Inf(1)
	const page, window, drawing = "page 2 would be", `page 2 shows "skirt" in a window`, `drawing "skirt" has`
	for name, c := range map[string]struct {
		set       func(p *Page, d *Drawing, to float64)
		good, bad float64
		want      string
	}{
		"narrow":    {func(p *Page, _ *Drawing, to float64) { p.Width = to }, least, least - 0.01, page},
		"low":       {func(p *Page, _ *Drawing, to float64) { p.Height = to }, least, least - 0.01, page},
		"wide":      {func(p *Page, _ *Drawing, to float64) { p.Width = to }, most, most + 0.01, page},
		"high":      {func(p *Page, _ *Drawing, to float64) { p.Height = to }, most, most + 0.01, page},
		"no number": {func(p *Page, _ *Drawing, to float64) { p.Height = to }, 50, nan, page},
		"no width":  {func(p *Page, _ *Drawing, to float64) { p.Views[0].Window.Max[0] = to }, 1e-9, 0, window},
		"no height": {func(p *Page, _ *Drawing, to float64) { p.Views[0].Window.Max[1] = to }, 1e-9, 0, window},
		"no place":  {func(p *Page, _ *Drawing, to float64) { p.Views[0].From[1] = to }, -5, endless, window},
		"no scale":  {func(_ *Page, d *Drawing, to float64) { d.Scale = to }, 1e-3, 0, drawing},
		"any scale": {func(_ *Page, d *Drawing, to float64) { d.Scale = to }, 1, endless, drawing},
		"flat":      {func(_ *Page, d *Drawing, to float64) { d.Height = to }, 0.1, -1, drawing},
		"thin":      {func(_ *Page, d *Drawing, to float64) { d.Width = to }, 0.1, 0, drawing},
		"large":     {func(_ *Page, d *Drawing, to float64) { d.Width = to }, 2 * far, 2*far + 1, drawing},
		"high up":   {func(_ *Page, d *Drawing, to float64) { d.Height = to }, 2 * far, 2*far + 1, drawing},
		"shape":     {item(func(to float64) Item { return Shape{Ring: orb.Ring{{0, to}}} }), -2 * far, -2*far - 1, drawing},
		"line": {item(func(to float64) Item { return Line{Path: orb.LineString{{to, 0}}} }), 2 * far, 2*far + 1,
			drawing},
		"text":       {item(func(to float64) Item { return Text{At: orb.Point{to, 0}} }), 2 * far, 2*far + 1, drawing},
		"text size":  {item(func(to float64) Item { return Text{Size: to} }), 0, nan, drawing},
		"text turns": {item(func(to float64) Item { return Text{Turn: to} }), -90, -endless, drawing},
	} {
		made := func(to float64) error {
			d := plain()
			doc := Document{Title: "gown", Date: time.Unix(1, 0), Pages: []Page{PageOf(plain(), ""), PageOf(d, "")}}
			c.set(&doc.Pages[1], d, to)
			return doc.check()
		}
		if err := made(c.good); err != nil {
			t.Errorf("%s, within: %v", name, err)
		}
		if err := made(c.bad); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s, beyond: %v", name, err)
		}
	}
	wide := Document{Date: time.Unix(1, 0), Pages: []Page{{Width: most + 1, Height: 100}}}.check()
	if _, hint := say.Parts(wide, nil); hint != "cut it into shorter pages" {
		t.Errorf("the hint is %q", hint)
	}
	for name, d := range map[string]Document{"date": {Title: "gown", Pages: []Page{PageOf(plain(), "")}},
		"pages": {Title: "gown", Date: time.Unix(1, 0)}} {
		if err := d.check(); err == nil || !strings.Contains(err.Error(), `document "gown" has no date or no pages`) {
			t.Errorf("without a %s: %v", name, err)
		}
		if b, err := d.PDF(); err == nil || b != nil {
			t.Errorf("without a %s it is written: %v", name, errors.Unwrap(err))
		}
	}
}

// item sets the last item of a drawing.
func item(made func(to float64) Item) func(p *Page, d *Drawing, to float64) {
	return func(_ *Page, d *Drawing, to float64) { d.Groups[0].Items[2] = made(to) }
}
