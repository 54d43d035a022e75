package sheet

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/paulmach/orb"
)

// SVG writes the drawing as a standalone SVG file: the same bytes for the same
// drawing. The view box is in millimetres of cloth, width and height in
// millimetres of paper. A coordinate that is not a number is an error.
func (d Drawing) SVG() ([]byte, error) { return d.svg("") }

// Within writes the drawing as an SVG element for a page that holds several: the id is
// its own, and its looks are told by that, so that they touch nothing else of the page.
// A group with an ID has it as data-of.
func (d Drawing) Within(id string) ([]byte, error) { return d.svg(id) }

func (d Drawing) svg(id string) ([]byte, error) {
	w := &svgWriter{scale: d.Scale, used: d.roles(), palette: d.Theme.palette()}
	called := ""
	if id != "" {
		called, w.under = ` id="`+escape(id)+`"`, "#"+id+" "
	}
	fmt.Fprintf(&w.buf, `<svg xmlns="http://www.w3.org/2000/svg"`+
		`%s width="%smm" height="%smm" viewBox="0 0 %s %s" role="img">`+"\n",
		called, w.num(d.Width/d.Scale), w.num(d.Height/d.Scale), w.num(d.Width), w.num(d.Height))
	w.described(d)
	w.style()
	w.contents(d, id != "")
	return w.made(d)
}

// described says what the drawing shows.
func (w *svgWriter) described(d Drawing) {
	fmt.Fprintf(&w.buf, "<title>%s</title>\n<desc>%s</desc>\n", escape(d.Title), escape(d.Description))
}

// contents writes the ground and the groups; tied says that these have their IDs.
func (w *svgWriter) contents(d Drawing, tied bool) {
	fmt.Fprintf(&w.buf, "<rect width=\"%s\" height=\"%s\" fill=\"%s\"/>\n", w.num(d.Width), w.num(d.Height),
		w.palette.ground)
	for _, g := range d.Groups {
		w.buf.WriteString("<g")
		if g.ID != "" && tied {
			fmt.Fprintf(&w.buf, ` data-of="%s"`, escape(g.ID))
		}
		if g.Origin != nil && w.plain {
			fmt.Fprintf(&w.buf, ` data-origin="%s,%s"`, w.num(g.Origin[0]), w.num(g.Origin[1]))
		}
		w.buf.WriteString(">")
		if g.Title != "" {
			fmt.Fprintf(&w.buf, "<title>%s</title>", escape(g.Title))
		}
		w.buf.WriteString("\n")
		for _, it := range g.Items {
			w.item(it)
		}
		w.buf.WriteString("</g>\n")
	}
	w.buf.WriteString("</svg>\n")
}

// made is what has been written.
func (w *svgWriter) made(d Drawing) ([]byte, error) {
	if w.bad {
		return nil, fmt.Errorf("drawing %q has a coordinate that is not a finite number", d.Title)
	}
	return w.buf.Bytes(), nil
}

type svgWriter struct {
	buf     bytes.Buffer
	scale   float64
	palette *palette
	used    [roleCount]bool
	under   string // before each selector: "#id ", or ""
	plain   bool   // the looks stand elsewhere: see OnPage
	bad     bool   // a coordinate was not finite
}

// roles tells which roles have items.
func (d Drawing) roles() (used [roleCount]bool) {
	for _, g := range d.Groups {
		for _, it := range g.Items {
			switch it := it.(type) {
			case Shape:
				used[it.Role] = true
			case Line:
				used[it.Role] = true
			case Text:
				used[it.Role] = true
			}
		}
	}
	return used
}

// num prints to 0.01 mm, far below what is visible, without trailing zeros.
func (w *svgWriter) num(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		w.bad = true
		return "0"
	}
	s := strings.TrimRight(strconv.FormatFloat(v, 'f', 2, 64), "0")
	s = strings.TrimSuffix(s, ".")
	if s == "-0" {
		return "0"
	}
	return s
}

// style writes the looks; those of folds, flaws and repeats only where there are any.
func (w *svgWriter) style() {
	w.buf.WriteString("<style>\n")
	w.rules(func(mm float64) string { return w.num(mm * w.scale) })
	w.buf.WriteString("</style>\n")
}

// rules writes the looks as a style sheet; width says how wide on paper a line is.
func (w *svgWriter) rules(width func(mm float64) string) {
	fmt.Fprintf(&w.buf, "%stext{font-family:sans-serif}\n", w.under)
	for role, l := range w.palette.looks {
		if Role(role) >= RoleFoldEdge && !w.used[role] {
			continue
		}
		fill, stroke := l.fill, l.stroke
		if fill == "" {
			fill = "none"
		}
		fmt.Fprintf(&w.buf, "%s.%s{fill:%s", w.under, l.class, fill)
		if stroke != "" {
			fmt.Fprintf(&w.buf, ";stroke:%s;stroke-width:%s;stroke-linejoin:round", stroke, width(l.width))
		}
		if len(l.dash) > 0 {
			w.buf.WriteString(";stroke-dasharray:")
			for i, d := range l.dash {
				w.buf.WriteString([...]string{"", " "}[min(i, 1)] + width(d))
			}
		}
		w.buf.WriteString("}\n")
	}
	for _, l := range w.palette.looks {
		if l.bold {
			fmt.Fprintf(&w.buf, "%s.%s{font-weight:bold}\n", w.under, l.class)
		}
	}
	for i, t := range w.palette.tints {
		fmt.Fprintf(&w.buf, "%s.t%d{fill:%s}\n", w.under, i, t)
	}
}

func (w *svgWriter) item(it Item) {
	switch it := it.(type) {
	case Shape:
		class := w.palette.looks[it.Role].class
		if it.tinted() {
			class += fmt.Sprintf(" t%d", it.Tint%len(w.palette.tints))
		}
		ring := it.Ring
		if len(ring) > 1 && ring[0] == ring[len(ring)-1] {
			ring = ring[:len(ring)-1]
		}
		fmt.Fprintf(&w.buf, "<polygon class=\"%s\" points=\"%s\"/>\n", class, w.points(ring))
	case Line:
		unfilled := ` style="fill:none"`
		if w.plain {
			unfilled = ""
		}
		fmt.Fprintf(&w.buf, "<polyline class=\"%s\"%s points=\"%s\"/>\n",
			w.palette.looks[it.Role].class, unfilled, w.points(it.Path))
	case Text:
		w.text(it)
	}
}

// middle lowers a baseline so that capitals and figures, about 0.72 em high in
// common sans-serif faces, stand in the middle of their line.
const middle = 0.36

func (w *svgWriter) text(t Text) {
	anchor := [...]string{Start: "", Middle: ` text-anchor="middle"`, End: ` text-anchor="end"`}[t.Anchor]
	x, y := w.num(t.At[0]), w.num(t.At[1]+middle*t.Size)
	turn := ""
	if t.Turn != 0 {
		// SVG turns clockwise for positive angles, since its y points down.
		turn = fmt.Sprintf(` transform="rotate(%s %s %s)"`, w.num(-t.Turn), w.num(t.At[0]), w.num(t.At[1]))
	}
	fmt.Fprintf(&w.buf, "<text class=\"%s\" x=\"%s\" y=\"%s\" font-size=\"%s\"%s%s>%s</text>\n",
		w.palette.looks[t.Role].class, x, y, w.num(t.Size), anchor, turn, escape(t.Body))
}

func (w *svgWriter) points(ps []orb.Point) string {
	parts := make([]string, len(ps))
	for i, p := range ps {
		parts[i] = w.num(p[0]) + "," + w.num(p[1])
	}
	return strings.Join(parts, " ")
}

// escape makes a text safe inside an element; what XML cannot hold at all
// becomes the replacement character.
func escape(s string) string {
	var b bytes.Buffer
	// Writing to a bytes.Buffer cannot fail.
	_ = xml.EscapeText(&b, []byte(s))
	return b.String()
}
