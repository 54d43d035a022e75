package outside_test

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/cmd/yardlay/internal/outside"
	"yardlay/shapes/outline"
)

// viewports writes a black shape within symbols, nested viewports and uses, on a white page.
func (r *random) viewports() string {
	aspect := func() string {
		if r.IntN(8) == 0 {
			return ` preserveAspectRatio="none"`
		}
		sides := []string{"Min", "Mid", "Max"}
		return fmt.Sprintf(` preserveAspectRatio="x%sY%s%s"`, sides[r.IntN(3)], sides[r.IntN(3)],
			[]string{"", " meet", " slice"}[r.IntN(3)])
	}
	between := func(low, high float64) string { return fmt.Sprintf("%.2f", low+r.Float64()*(high-low)) }
	box := func() string {
		return fmt.Sprintf(` viewBox="%s %s %s %s"`, between(-9, 9), between(-9, 9), between(40, 90), between(40, 90))
	}
	size := func() string { return fmt.Sprintf(` width="%s" height="%s"`, between(90, 200), between(90, 200)) }
	place := func() string { return fmt.Sprintf(` x="%s" y="%s"`, between(0, 30), between(0, 30)) }
	gentle := func() string {
		return fmt.Sprintf(` transform="translate(%s %s) rotate(%s) scale(%s %s)"`, between(-2, 9), between(-2, 9),
			between(-20, 20), between(.5, 1.2), between(.5, 1.2))
	}
	fmt.Fprintf(r, `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="300mm" `+
		`height="240mm" viewBox="0 0 250 300"%s><rect x="-999" y="-999" width="9999" height="9999" fill="white"/>`,
		aspect())
	fmt.Fprintf(r, `<symbol id="s"%s%s><path%s d="M10 10L20 8C26 11 25 25 17 24z"/></symbol>`, box(), aspect(),
		gentle())
	fmt.Fprintf(r, `<defs><svg id="v"%s%s%s><use xlink:href="#s"%s%s/></svg><g id="g"%s><use%s%s href="#s"%s/></g></defs>`,
		box(), aspect(), size(), place(), []string{"", size()}[r.IntN(2)], gentle(), gentle(), place(), size())
	of, own := []string{"s", "v", "g"}[r.IntN(3)], []string{"", size()}[r.IntN(2)]
	if of == "v" {
		own = "" // librsvg 2.54 does not give an svg the size of its use
	}
	fmt.Fprintf(r, `<svg%s%s%s%s><use xlink:href="#%s"%s%s%s/></svg></svg>`, place(), size(),
		[]string{"", box()}[r.IntN(2)], aspect(), of, place(), own, gentle())
	return r.String()
}

// rsvg-convert draws shapes where we read them, within symbols and viewports of any aspect: the
// box around what is black agrees within a dot and a half of 0.2 mm, its area with the dots. What
// it clips it draws nowhere else at least.
func TestOutsideSVGViewports(t *testing.T) {
	outside.Wanted(t, "librsvg2-bin")
	const dots = 5. // a mm
	seen := 0
	for seed := range 60 {
		text := (&random{Rand: rand.New(rand.NewPCG(uint64(seed), 5))}).viewports()
		d, err := outline.ReadSVG(strings.NewReader(text))
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		if len(d.Lines) != 2 {
			t.Fatalf("%d lines\n%s", len(d.Lines), text)
		}
		box := d.Lines[1].Points.Bound()
		if box.Min[0] < 0 || box.Max[0] > 300 || box.Max[1] > 0 || box.Min[1] < -240 || box.Max[0]-box.Min[0] < 3 {
			continue // not all on the page
		}
		from, err := png.Decode(bytes.NewReader(outside.Run(t, "rsvg-convert", "--dpi-x", "127", "--dpi-y", "127",
			outside.File(t, "drawing.svg", []byte(text)))))
		if err != nil {
			t.Fatal(err)
		}
		grey := image.NewGray(from.Bounds())
		draw.Draw(grey, grey.Rect, from, grey.Rect.Min, draw.Src)
		dark := outside.Dark(grey, grey.Rect)
		want := orb.Bound{Min: orb.Point{float64(dark.Min.X) / dots, -float64(dark.Max.Y) / dots},
			Max: orb.Point{float64(dark.Max.X) / dots, -float64(dark.Min.Y) / dots}}
		if dark.Empty() {
			continue // clipped by a viewport, which we do not follow
		}
		if !box.Pad(1.5/dots).Contains(want.Min) || !box.Pad(1.5/dots).Contains(want.Max) {
			t.Errorf("file %d: %v, drawn %v\n%s", seed, box, want, text)
		}
		black := 0.
		for _, v := range grey.Pix {
			black += float64(255-v) / 255 / dots / dots
		}
		area := math.Abs(planar.Area(orb.Ring(d.Lines[1].Points)))
		if black < .98*area {
			continue // clipped in part
		}
		seen++
		if off := max(planar.Distance(want.Min, box.Min), planar.Distance(want.Max, box.Max)); off > 1.5*math.Sqrt2/dots ||
			black > 1.02*area {
			t.Errorf("file %d: %v, drawn %v, %.2f mm off, area %.1f, drawn %.1f\n%s", seed, box, want, off, area, black, text)
		}
	}
	if seen < 20 {
		t.Errorf("only %d files were on their page", seen)
	}
	t.Logf("%d files", seen)
}
