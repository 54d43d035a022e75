package outline

import (
	"math"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// in is a length in units of the drawing, of which a px is one; a percentage is of a
// whole.
func (l svgLength) in(whole float64) (float64, error) {
	if l.unit == "%" {
		if math.IsNaN(whole) {
			return 0, say.Errorf("%g%% of a page whose size the file does not give", l.n).
				Hint("give the drawing a width and a height, or a viewBox")
		}
		return l.n / 100 * whole, nil
	}
	mm, ok := svgUnits[l.unit]
	if !ok {
		return 0, say.Errorf("%g %.10s has no certain length", l.n, l.unit).
			Hint("write it without a unit, or in mm, cm, in, pt, pc or px")
	}
	if l.unit == "" {
		return l.n, nil
	}
	return l.n * mm / svgUnits["px"], nil
}

// svgBox is a viewBox.
type svgBox struct{ x, y, w, h float64 }

// viewBox reads the viewBox of an element; ok tells whether there is one.
func (n *svgNode) viewBox() (b svgBox, ok bool, err error) {
	text, ok := n.attr("viewBox")
	if !ok || strings.TrimSpace(text) == "" {
		return b, false, nil
	}
	s := svgScan{text: text}
	v, err := s.numbers(4)
	if err == nil && (len(v) != 4 || !s.end()) {
		err = say.Errorf("%.40q is not four numbers", text)
	}
	if err == nil && !(v[2] > 0 && v[3] > 0) {
		err = say.Errorf("its width %g and height %g are not above 0", v[2], v[3])
	}
	if err != nil {
		return b, false, say.Errorf("viewBox: %w", err)
	}
	return svgBox{v[0], v[1], v[2], v[3]}, true, nil
}

// fit maps a viewBox into a viewport by the attribute preserveAspectRatio (SVG 2, 8.6 and
// 8.7: equivalent transform).
func (b svgBox) fit(to svgBox, how string) (affine, error) {
	fields := strings.Fields(how)
	if len(fields) > 0 && fields[0] == "defer" { // of SVG 1.1, for pictures
		fields = fields[1:]
	}
	align, slice := "xMidYMid", false
	if len(fields) > 0 {
		align = fields[0]
	}
	if len(fields) > 1 {
		slice = fields[1] == "slice"
	}
	wrong := len(fields) > 2 || len(fields) == 2 && fields[1] != "meet" && fields[1] != "slice"
	sx, sy := to.w/b.w, to.h/b.h
	var free orb.Point // parts of what is left over that lie before the box
	if align != "none" {
		x, okX := svgAligns[strings.TrimPrefix(align[:min(4, len(align))], "x")]
		y, okY := svgAligns[strings.TrimPrefix(align[min(4, len(align)):], "Y")]
		wrong = wrong || len(align) != 8 || align[0] != 'x' || align[4] != 'Y' || !okX || !okY
		free = orb.Point{x, y}
		if slice {
			sx = max(sx, sy)
		} else {
			sx = min(sx, sy)
		}
		sy = sx
	}
	if wrong {
		return affine{}, say.Errorf("preserveAspectRatio %.40q is none", how).Hint("write it as xMidYMid meet, or none")
	}
	return affine{sx, 0, 0, sy, to.x - b.x*sx + free[0]*(to.w-b.w*sx), to.y - b.y*sy + free[1]*(to.h-b.h*sy)}, nil
}

var svgAligns = map[string]float64{"Min": 0, "Mid": .5, "Max": 1}

// side reads a width or a height of the page: mm, and whether it says so itself; NaN
// where it gives none.
func (n *svgNode) side(name string) (mm float64, sure bool, err error) {
	text, ok := n.attr(name)
	if text = strings.TrimSpace(text); !ok || text == "" || text == "auto" {
		return math.NaN(), false, nil
	}
	l, err := parseSVGLength(text)
	if err != nil {
		return 0, false, say.Errorf("%s: %w", name, err)
	}
	unit, ok := svgUnits[l.unit]
	if !ok {
		return math.NaN(), false, nil // % of a window, or of a font
	}
	if !(l.n > 0) {
		return 0, false, say.Errorf("%s %g is not above 0", name, l.n)
	}
	return l.n * unit, l.unit != "", nil
}

// svgPage is the map from the outermost element to the Drawing, with the viewport in
// its coordinates, and the unit of the file.
//
// A page whose width and height have no unit is in px by the recommendation, but
// in whatever the maker had in mind by use. Its unit is left open.
func svgPage(root *svgNode) (m affine, view orb.Point, unit Unit, err error) {
	nothing := math.NaN()
	view = orb.Point{nothing, nothing}
	box, boxed, err := root.viewBox()
	if err != nil {
		return
	}
	w, sureW, err := root.side("width")
	if err != nil {
		return
	}
	h, sureH, err := root.side("height")
	if err != nil {
		return
	}
	px := svgUnits["px"]
	if !boxed {
		m, view = scaling(1, -1), orb.Point{w / px, h / px}
		if unit.Because = root.pageWords(sureW, sureH); sureW || sureH {
			m = scaling(px, -px)
			unit = Unit{px, unit.Because + " and no viewBox: a unit is a px, 96 to the inch"}
		}
		return
	}
	if math.IsNaN(w) && math.IsNaN(h) {
		w, h = box.w*px, box.h*px
	} else if math.IsNaN(w) {
		w = box.w * (h / box.h)
	} else if math.IsNaN(h) {
		h = box.h * (w / box.w)
	}
	how, _ := root.attr("preserveAspectRatio")
	fit, err := box.fit(svgBox{0, 0, w, h}, how)
	if err != nil {
		return
	}
	view = orb.Point{box.w, box.h}
	unit.Because = root.pageWords(sureW, sureH)
	switch {
	case sureW || sureH:
		unit.Millimetres = fit.a
		whole := box.w
		if !sureW {
			whole = box.h
		}
		unit.Because = say.Textf("%s for %.6g units", unit.Because, whole).String()
		if text := unit.Because; strings.Contains(text, " px ") {
			unit.Because += ", 96 px to the inch"
		}
		m = scaling(1, -1).times(fit)
	case fit.a == fit.d:
		m = scaling(1, -1)
	default:
		m = scaling(1/fit.a, -1/fit.a).times(fit)
	}
	return
}

// pageWords says how large the file says it is: "width 210 mm", or that it does not.
func (n *svgNode) pageWords(sureW, sureH bool) string {
	name := "width"
	if _, ok := n.attr("width"); !sureW && (sureH || !ok) {
		name = "height"
	}
	text, ok := n.attr(name)
	l, err := parseSVGLength(text)
	switch {
	case !ok || err != nil:
		return "no width and no height"
	case sureW || sureH:
		return say.Textf("%s %g %s", name, l.n, l.unit).String()
	case l.unit == "":
		return say.Textf("%s %g has no unit", name, l.n).String()
	}
	return say.Textf("%s %g%.10s says no length", name, l.n, l.unit).String()
}
