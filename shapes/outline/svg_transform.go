package outline

import (
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// moved is the map of what stands in an element: that around it after its own transform,
// which is an attribute, or in SVG 2 a property of style.
func (n *svgNode) moved(s svgState, style svgStyle) (affine, error) {
	text := style.own[svgTransform]
	if text == "" || text == "none" {
		return s.m, nil
	}
	m, err := parseSVGTransform(text)
	if err != nil {
		return affine{}, say.Errorf("transform: %w", err)
	}
	origin, err := svgOrigin(style.own[svgTransformOrigin], s.view)
	if err != nil {
		return affine{}, err
	}
	if origin != (orb.Point{}) {
		m = translation(origin[0], origin[1]).times(m).times(translation(-origin[0], -origin[1]))
	}
	if m = s.m.times(m); !m.finite() {
		return affine{}, say.Errorf("transform: its numbers are too large").Hint("ungroup what stands here")
	}
	return m, nil
}

// svgOrigin reads the point that a transform turns about: two lengths of the viewport
// (CSS Transforms 1, 4; the third one is of solids).
func svgOrigin(text string, view orb.Point) (orb.Point, error) {
	fields := strings.Fields(strings.ReplaceAll(text, ",", " "))
	var at orb.Point
	if len(fields) == 1 {
		fields = append(fields, "50%")
	}
	for i, f := range fields[:min(len(fields), 2)] {
		l, err := parseSVGLength(f)
		if err == nil {
			at[i], err = l.in(view[i])
		}
		if err != nil {
			return at, say.Errorf("transform-origin %.40q is not read: %w", text, err).
				Hint("take the turn out of the element: ungroup it, or convert it to a path")
		}
	}
	return at, nil
}

// parseSVGTransform reads a list of transforms (SVG 1.1, 7.6; CSS Transforms 1, 8), the
// last of which is done first.
func parseSVGTransform(text string) (affine, error) {
	s, m := svgScan{text: text}, identity
	for s.comma(); !s.end(); s.comma() {
		from := s.at
		name := s.word()
		s.space()
		if name == "" || !s.take('(') {
			return m, say.Errorf("a function is missing at character %d%s", from+1, (&svgScan{text, from}).found()).
				Hint("write it as translate(10 20)")
		}
		args, err := s.arguments()
		if err != nil {
			return m, say.Errorf("%s: %w", name, err)
		}
		one, err := svgFunction(name, args)
		if err != nil {
			return m, err
		}
		m = m.times(one)
	}
	return m, nil
}

// arguments reads the numbers of a function and its closing bracket. Units are those of
// CSS: lengths become px, angles degrees.
func (s *svgScan) arguments() ([]float64, error) {
	var args []float64
	for s.space(); !s.take(')'); {
		v, err := s.number()
		if err != nil {
			return nil, err
		}
		at := s.at
		unit := s.word()
		factor, ok := svgAngles[unit]
		if !ok {
			if factor, ok = svgUnits[unit]; ok {
				factor /= svgUnits["px"]
			}
		}
		if !ok {
			s.at = at
			return nil, say.Errorf("an unknown unit at character %d%s", at+1, s.found())
		}
		if unit != "" {
			v *= factor
		}
		if args = append(args, v); len(args) > 6 {
			return nil, say.Errorf("over 6 numbers")
		}
		if s.comma(); s.end() {
			return nil, say.Errorf("its closing bracket is missing")
		}
	}
	return args, nil
}

var svgAngles = map[string]float64{"deg": 1, "grad": .9, "rad": 180 / math.Pi, "turn": 360}

// svgFunction is one transform with its numbers, angles in degrees.
func svgFunction(name string, v []float64) (affine, error) {
	second := func(otherwise float64) float64 {
		if len(v) > 1 {
			return v[1]
		}
		return otherwise
	}
	takes, ok := svgTakes[name]
	if !ok {
		return affine{}, say.Errorf("%.40q is not a transform of a drawing", name).
			Hint("those are matrix, translate, scale, rotate, skewX and skewY")
	}
	if !strings.Contains(takes, fmt.Sprint(len(v))) {
		return affine{}, say.Errorf("%s has %s", name, say.Count(len(v), "number")).
			Hint("it takes %s", strings.Join(strings.Split(takes, ""), " or "))
	}
	switch name {
	case "matrix":
		return affine{v[0], v[1], v[2], v[3], v[4], v[5]}, nil
	case "translate":
		return translation(v[0], second(0)), nil
	case "translateX":
		return translation(v[0], 0), nil
	case "translateY":
		return translation(0, v[0]), nil
	case "scale":
		return scaling(v[0], second(v[0])), nil
	case "scaleX":
		return scaling(v[0], 1), nil
	case "scaleY":
		return scaling(1, v[0]), nil
	case "skewX":
		return affine{a: 1, c: math.Tan(v[0] * math.Pi / 180), d: 1}, nil
	case "skewY":
		return affine{a: 1, b: math.Tan(v[0] * math.Pi / 180), d: 1}, nil
	case "skew":
		return affine{1, math.Tan(second(0) * math.Pi / 180), math.Tan(v[0] * math.Pi / 180), 1, 0, 0}, nil
	}
	turn := quarters(v[0])
	if len(v) == 3 {
		turn = translation(v[1], v[2]).times(turn).times(translation(-v[1], -v[2]))
	}
	return turn, nil
}

// svgTakes are the transforms and how many numbers they may have.
var svgTakes = map[string]string{"matrix": "6", "translate": "12", "translateX": "1", "translateY": "1",
	"scale": "12", "scaleX": "1", "scaleY": "1", "rotate": "13", "skewX": "1", "skewY": "1", "skew": "12"}

// quarters turns by degrees; by quarters of a turn exactly.
func quarters(degrees float64) affine {
	switch math.Mod(math.Mod(degrees, 360)+360, 360) {
	case 0:
		return identity
	case 90:
		return affine{b: 1, c: -1}
	case 180:
		return affine{a: -1, d: -1}
	case 270:
		return affine{b: -1, c: 1}
	}
	return rotation(degrees * math.Pi / 180)
}
