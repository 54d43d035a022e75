package outline

import (
	"strings"

	"yardlay/shapes/say"
)

// The properties of style that count: those that hide, those that colour, and those of
// SVG 2 that place (SVG 2, 7: geometry properties).
const (
	svgDisplay = iota
	svgOpacity
	svgTransform
	svgTransformOrigin
	svgClip
	svgMask
	svgX
	svgY
	svgWidth
	svgHeight
	svgCX
	svgCY
	svgR
	svgRX
	svgRY
	svgVisibility // from here on what an element takes from those around it
	svgFill
	svgStroke
	svgDashes
	svgColour
	svgFontSize
	svgProperties
)

var svgPropertyNames = map[string]int{"display": svgDisplay, "opacity": svgOpacity, "transform": svgTransform,
	"transform-origin": svgTransformOrigin, "clip-path": svgClip, "mask": svgMask, "x": svgX, "y": svgY,
	"width": svgWidth, "height": svgHeight, "cx": svgCX, "cy": svgCY, "r": svgR, "rx": svgRX, "ry": svgRY,
	"visibility": svgVisibility, "fill": svgFill, "stroke": svgStroke, "stroke-dasharray": svgDashes,
	"color": svgColour, "font-size": svgFontSize}

// svgStyle is the style of an element: each property as written, "" where nobody says.
type svgStyle struct{ own [svgProperties]string }

// styled is the style of an element within another, and whether it hides all that stands
// in it.
func (r *svgReader) styled(n *svgNode, around svgStyle) (svgStyle, bool, error) {
	var s svgStyle
	for i := range n.attrs {
		if a := &n.attrs[i]; a.Name.Space == "" {
			if p, ok := svgPropertyNames[a.Name.Local]; ok {
				s.own[p] = a.Value
			}
		}
	}
	var urgent [svgProperties]string
	set := func(d svgDeclaration) {
		if d.important {
			urgent[d.property] = d.value
		} else {
			s.own[d.property] = d.value
		}
	}
	if len(r.rules.all) > 0 {
		matching, err := r.matching(n)
		if err != nil {
			return s, false, err
		}
		for _, rule := range matching {
			for _, d := range rule.sets {
				set(d)
			}
		}
	}
	if text, ok := n.attr("style"); ok {
		eachDeclaration(text, set)
	}
	for p := range s.own {
		if urgent[p] != "" {
			s.own[p] = urgent[p]
		}
		if v := s.own[p]; v == "inherit" || v == "" && p >= svgVisibility {
			s.own[p] = around.own[p]
		}
	}
	return s, s.own[svgDisplay] == "none" || isNothing(s.own[svgOpacity]), nil
}

// isNothing tells whether an opacity is 0.
func isNothing(opacity string) bool {
	if opacity == "" {
		return false
	}
	l, err := parseSVGLength(opacity)
	return err == nil && l.n <= 0
}

// unseen tells whether the element itself is hidden; what stands in it may be seen.
func (s *svgStyle) unseen() bool {
	v := s.own[svgVisibility]
	return v == "hidden" || v == "collapse"
}

// dashed tells whether the stroke is broken.
func (s *svgStyle) dashed() bool {
	v := s.own[svgDashes]
	return v != "none" && strings.ContainsAny(v, "123456789")
}

// svgDeclaration gives a property a value.
type svgDeclaration struct {
	property  int
	value     string
	important bool
}

// eachDeclaration reads "fill: none; stroke: red", and hands on what counts. What cannot be
// read is passed over, as style sheets ask for.
func eachDeclaration(text string, do func(svgDeclaration)) {
	for len(text) > 0 {
		var one string
		one, text = cutDeclaration(text)
		name, value, ok := strings.Cut(one, ":")
		if !ok {
			continue
		}
		p, ok := svgPropertyNames[strings.ToLower(strings.TrimSpace(name))]
		if !ok {
			continue
		}
		d := svgDeclaration{property: p, value: strings.TrimSpace(value)}
		if i := strings.LastIndexByte(d.value, '!'); i >= 0 && strings.TrimSpace(d.value[i+1:]) == "important" {
			d.value, d.important = strings.TrimSpace(d.value[:i]), true
		}
		if d.value != "" {
			do(d)
		}
	}
}

// cutDeclaration cuts at a semicolon that does not stand within brackets or quotes.
func cutDeclaration(text string) (one, rest string) {
	deep, quote := 0, byte(0)
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == '(':
			deep++
		case c == ')':
			deep--
		case c == ';' && deep <= 0:
			return text[:i], text[i+1:]
		}
	}
	return text, ""
}

// geometry is a length that places a shape: a property, along x (0), y (1) or neither (2)
// of the viewport. ok is false where it is not given, or auto.
func (s *svgState) geometry(property, along int, name string) (v float64, ok bool, err error) {
	text := s.style.own[property]
	if text == "" || text == "auto" {
		return 0, false, nil
	}
	l, err := parseSVGLength(text)
	if err == nil {
		v, err = l.in(s.whole(along))
	}
	if err != nil {
		return 0, false, say.Errorf("%s: %w", name, err)
	}
	return v, true, nil
}
