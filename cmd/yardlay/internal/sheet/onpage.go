package sheet

import (
	_ "embed" // what brings a drawing nearer
	"fmt"
	"strconv"
)

// pageClass is that of drawings whose looks PageStyle has.
const pageClass = "drawing"

// OnPage writes the drawing as an SVG element for a page that may have no style within it: its looks
// are those of PageStyle. A millimetre of paper is its em. Groups have their IDs as
// data-of, and the cloth of a stretch its origin as data-origin, x,y.
func (d Drawing) OnPage() ([]byte, error) {
	w := &svgWriter{scale: d.Scale, used: d.roles(), palette: d.Theme.palette(), plain: true}
	fmt.Fprintf(&w.buf, `<svg xmlns="http://www.w3.org/2000/svg"`+
		` class="%s" font-size="%s" viewBox="0 0 %s %s" role="img">`+"\n",
		pageClass, w.num(d.Scale), w.num(d.Width), w.num(d.Height))
	w.described(d)
	w.contents(d, true)
	return w.made(d)
}

// PageStyle is the style sheet of all drawings of OnPage in a theme.
func PageStyle(t Theme) []byte {
	w := &svgWriter{palette: t.palette(), under: "." + pageClass + " "}
	for i := range w.used {
		w.used[i] = true
	}
	w.rules(func(mm float64) string { return strconv.FormatFloat(mm, 'g', -1, 64) + "em" })
	fmt.Fprintf(&w.buf, "%spolyline[class]{fill:none}\n", w.under)
	return w.buf.Bytes()
}

// Zoom is a script that defines zoomable(figure, tapped): the drawing in a figure can be moved and
// brought nearer, by pointer, wheel, keys and buttons.
//
//go:embed zoom.js
var Zoom string
