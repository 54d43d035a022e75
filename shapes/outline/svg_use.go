package outline

import (
	"math"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// use draws an element once more, moved by x and y (SVG 2, 5.6). It is a group around
// another group; of a shape it takes the place, and gives it its own id and label.
func (r *svgReader) use(n *svgNode, s svgState) error {
	href, ok := n.attr("href")
	if !ok {
		href = n.foreign("href") // of XLink, in SVG 1.1
	}
	id, here := strings.CutPrefix(strings.TrimSpace(href), "#")
	of := r.ids[id]
	switch {
	case !here:
		r.notes.add("use of another file", n.line)
		return nil
	case of == nil:
		r.notes.add("use of what is not there", n.line)
		return nil
	case r.using[of]:
		return n.fail(say.Errorf("it draws itself again and again").Hint("take it out of what it refers to"))
	}
	var at [2]float64
	for i, p := range []int{svgX, svgY} {
		var err error
		if at[i], _, err = s.geometry(p, i, [...]string{"x", "y"}[i]); err != nil {
			return n.fail(err)
		}
	}
	s.m = s.m.times(translation(at[0], at[1]))
	if svgGroups[of.name] {
		var err error
		if s, err = r.within(n, s); err != nil {
			return n.fail(err)
		}
	}
	r.using[of] = true
	defer delete(r.using, of)
	s.use = n
	return r.draw(of, s)
}

var svgGroups = map[string]bool{"g": true, "a": true, "svg": true, "symbol": true, "use": true, "switch": true}

// nested draws a viewport within the drawing: an svg, or a symbol that a use draws. Its
// width and height are those of the use where that has them.
func (r *svgReader) nested(n *svgNode, s svgState) error {
	m, view, err := n.viewport(s)
	if err != nil {
		return n.fail(err)
	}
	if view[0] == 0 || view[1] == 0 || m.a == 0 || m.d == 0 {
		return nil // SVG 2, 8.2: a viewport without width or height is not drawn
	}
	s.m, s.view = s.m.times(m), view
	return r.group(n, s)
}

// viewport is the map from what stands in an svg or a symbol to what stands around it, and
// the size of the viewport in the coordinates in it.
func (n *svgNode) viewport(s svgState) (m affine, view orb.Point, err error) {
	var at [4]float64
	for i, name := range []string{"x", "y", "width", "height"} {
		text, ok := n.attr(name)
		if s.use != nil && i > 1 {
			if of, has := s.use.attr(name); has && strings.TrimSpace(of) != "auto" {
				text, ok = of, true
			}
		}
		if !ok || strings.TrimSpace(text) == "auto" {
			text = [...]string{"0", "0", "100%", "100%"}[i]
		}
		l, err := parseSVGLength(text)
		if err == nil && l.unit == "%" && math.IsNaN(s.view[i%2]) {
			at[i] = math.NaN() // may not be needed
			continue
		}
		if err == nil {
			at[i], err = l.in(s.view[i%2])
		}
		if err != nil {
			return m, view, say.Errorf("%s: %w", name, err)
		}
	}
	to := svgBox{at[0], at[1], at[2], at[3]}
	if to.w < 0 || to.h < 0 {
		return m, view, say.Errorf("its width %g or height %g is below 0", to.w, to.h)
	}
	box, boxed, err := n.viewBox()
	if err != nil {
		return m, view, err
	}
	if math.IsNaN(to.x+to.y) || boxed && math.IsNaN(to.w+to.h) {
		return m, view, say.Errorf("it is as large as the page, whose size the file does not give").
			Hint("give it, or the use that draws it, a width and a height")
	}
	if !boxed {
		return translation(to.x, to.y), orb.Point{to.w, to.h}, nil
	}
	how, _ := n.attr("preserveAspectRatio")
	m, err = box.fit(to, how)
	return m, orb.Point{box.w, box.h}, err
}
