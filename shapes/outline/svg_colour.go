package outline

import (
	"fmt"
	"math"
	"strings"

	"golang.org/x/image/colornames"
)

// colour is that of a line: of its stroke, or of its filling where there is none; "" where
// it has neither, or one that is no plain colour.
func (r *svgReader) colour(s svgStyle) string {
	if c := r.paint(s, s.own[svgStroke]); c != "" {
		return c
	}
	fill := s.own[svgFill]
	if fill == "" {
		fill = "black" // SVG 2, 13.2: the initial value
	}
	return r.paint(s, fill)
}

// painted tells whether an element is painted at all, in whatever way.
func painted(s svgStyle) bool {
	return s.own[svgFill] != "none" || s.own[svgStroke] != "" && s.own[svgStroke] != "none"
}

func (r *svgReader) paint(s svgStyle, paint string) string {
	if strings.EqualFold(paint, "currentColor") {
		if paint = s.own[svgColour]; paint == "" {
			paint = "black"
		}
	}
	if paint == "" || paint == "none" {
		return ""
	}
	c, ok := r.colours[paint]
	if !ok {
		c = parseColour(paint)
		r.colours[paint] = c
	}
	return c
}

// parseColour reads a colour of SVG (SVG 1.1, 4.2 and 4.4: names, #rgb, #rrggbb, rgb()) as
// "#rrggbb"; "" for all else, as gradients and patterns. How clear it is does not count, but
// "transparent" is none.
func parseColour(text string) string {
	text = strings.ToLower(strings.TrimSpace(text))
	if strings.HasPrefix(text, "url(") { // and what stands behind is painted if that is missing
		_, text, _ = strings.Cut(text, ")")
		text = strings.TrimSpace(text)
	}
	if c, ok := colornames.Map[text]; ok {
		return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B)
	}
	if hex, ok := strings.CutPrefix(text, "#"); ok {
		return parseHex(hex)
	}
	for _, name := range []string{"rgb(", "rgba("} {
		if args, ok := strings.CutPrefix(text, name); ok {
			return parseRGB(args)
		}
	}
	return ""
}

func parseHex(hex string) string {
	if strings.Trim(hex, "0123456789abcdef") != "" {
		return ""
	}
	switch len(hex) {
	case 3, 4:
		return "#" + string([]byte{hex[0], hex[0], hex[1], hex[1], hex[2], hex[2]})
	case 6, 8:
		return "#" + hex[:6]
	}
	return ""
}

// parseRGB reads three numbers to 255, or percentages.
func parseRGB(args string) string {
	s, out := svgScan{text: args}, "#"
	for range 3 {
		s.space()
		v, err := s.number()
		if err != nil {
			return ""
		}
		if s.take('%') {
			v = v * 255 / 100
		}
		out += fmt.Sprintf("%02x", int(math.Round(min(max(v, 0), 255))))
		s.comma()
	}
	return out
}
