package sheet

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/paulmach/orb"
)

// hairline is the width of lines, mm: what laser drivers take for a line to cut and do not
// fill (common practice, no source).
const hairline = 0.025

// SVG writes the line work as SVG 1.1 for machines, at true size: the page in millimetres,
// a unit of the file being one, its origin the top left corner. It has lines only, in
// a group for each layer with an id and a title, and no style sheet, use, clipping or
// name space of anyone's. The last group is what is cut; that of the words can be taken
// out whole. Numbers are exact to 0.0001 mm.
func (s Strokes) SVG() ([]byte, error) {
	if !s.finite() {
		return nil, fmt.Errorf("line work %q has a coordinate that is not a finite number", s.Title)
	}
	w := &strokesSVG{Strokes: s}
	width, height := fine(s.Page.Max[0]-s.Page.Min[0]), fine(s.Page.Max[1]-s.Page.Min[1])
	fmt.Fprintf(&w.buf, `<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="%[1]smm" height="%[2]smm" `+
		`viewBox="0 0 %[1]s %[2]s">`+"\n<title>%[3]s</title>\n<desc>%[4]s</desc>\n", width, height, escape(s.Title),
		escape(strings.Join(append([]string{s.Description}, s.Notes...), " ")))
	used := s.used()
	for l, look := range layers {
		if !used[l] {
			continue
		}
		fmt.Fprintf(&w.buf, `<g id="%s" fill="none" stroke="%s" stroke-width="%g">`+"\n<title>%s</title>\n", look.id,
			look.strokes, hairline, look.title)
		w.layer(Layer(l))
		w.buf.WriteString("</g>\n")
	}
	w.buf.WriteString("</svg>\n")
	return []byte(w.buf.String()), nil
}

type strokesSVG struct {
	Strokes
	buf strings.Builder
}

// layer writes all that a layer holds, piece by piece.
func (w *strokesSVG) layer(l Layer) {
	for _, s := range w.Loose {
		w.stroke(l, s)
	}
	if l == LayerWords {
		for _, t := range w.Texts {
			w.text(t)
		}
	}
	for _, p := range w.Places {
		part, pose := w.Parts[p.Part], p.pose()
		for _, s := range part.Strokes {
			if s.Layer == l {
				placed := Stroke{l, make(orb.LineString, len(s.Path))}
				for i, v := range s.Path {
					placed.Path[i] = pose.ApplyPoint(v)
				}
				w.stroke(l, placed)
			}
		}
		if l == LayerWords {
			for _, t := range part.Texts {
				w.text(p.text(t))
			}
			if t, ok := w.copyText(p); ok {
				w.text(t)
			}
		}
	}
}

// at turns a point to the page, whose y points down.
func (w *strokesSVG) at(p orb.Point) (x, y string) {
	return fine(p[0] - w.Page.Min[0]), fine(w.Page.Max[1] - p[1])
}

// stroke writes a line if it is on the layer.
func (w *strokesSVG) stroke(l Layer, s Stroke) {
	if s.Layer != l {
		return
	}
	path, end := s.Path, ""
	if s.Closed() {
		path, end = path[:len(path)-1], " Z"
	}
	w.buf.WriteString(`<path d="`)
	for i, p := range path {
		x, y := w.at(p)
		w.buf.WriteString([...]string{"M ", " L "}[min(i, 1)] + x + " " + y)
	}
	w.buf.WriteString(end + "\"/>\n")
}

// text writes the outlines of letters, which are strokes as all else is.
func (w *strokesSVG) text(t Text) {
	x, y := w.at(t.At)
	turn := ""
	if t.Turn != 0 {
		turn = fmt.Sprintf(` transform="rotate(%s %s %s)"`, fine(-t.Turn), x, y)
	}
	_, base := w.at(orb.Point{t.At[0], t.At[1] - middle*t.Size})
	anchor := [...]string{Start: "start", Middle: "middle", End: "end"}[t.Anchor]
	fmt.Fprintf(&w.buf, `<text x="%s" y="%s" font-family="sans-serif" font-size="%s" text-anchor="%s"%s>%s</text>`+
		"\n", x, base, fine(t.Size), anchor, turn, escape(t.Body))
}

// fine prints a length to 0.0001 mm, without trailing zeros.
func fine(v float64) string {
	s := strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(v, 'f', 4, 64), "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}
