package outline

import (
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// svgShapes draw the shapes (SVG 2, 9 and 10), each by the path that is equivalent to it.
var svgShapes = map[string]func(*svgPen, *svgNode, *svgState) error{
	"path": func(p *svgPen, n *svgNode, _ *svgState) error {
		d, _ := n.attr("d")
		if d == "none" {
			return nil
		}
		return p.path(d)
	},
	"rect":     svgRect,
	"circle":   svgCircle,
	"ellipse":  svgEllipse,
	"line":     svgStraight,
	"polyline": func(p *svgPen, n *svgNode, _ *svgState) error { return p.polyline(n, false) },
	"polygon":  func(p *svgPen, n *svgNode, _ *svgState) error { return p.polyline(n, true) },
}

// whole is what a percentage is of: the viewport's width, its height, or its diagonal over
// the root of 2 (SVG 2, 8.9).
func (s *svgState) whole(along int) float64 {
	if along < 2 {
		return s.view[along]
	}
	return math.Hypot(s.view[0], s.view[1]) / math.Sqrt2
}

// lengths reads lengths that are 0 where they are not given; those named as sizes are not
// below 0.
func (s *svgState) lengths(properties []int, names []string) ([4]float64, error) {
	var v [4]float64
	for i, p := range properties {
		along := i % 2
		if p == svgR {
			along = 2
		}
		var err error
		if v[i], _, err = s.geometry(p, along, names[i]); err != nil {
			return v, err
		}
		if v[i] < 0 && (p == svgR || p == svgWidth || p == svgHeight) {
			return v, say.Errorf("%s %g is below 0", names[i], v[i])
		}
	}
	return v, nil
}

// radii reads rx and ry, each of which is as the other where it is not given; a negative
// one counts as not given (SVG 2, 10.2).
func (s *svgState) radii() (rx, ry float64, err error) {
	rx, okX, err := s.geometry(svgRX, 0, "rx")
	if err != nil {
		return 0, 0, err
	}
	ry, okY, err := s.geometry(svgRY, 1, "ry")
	if err != nil {
		return 0, 0, err
	}
	okX, okY = okX && rx >= 0, okY && ry >= 0
	switch {
	case !okX && !okY:
		return 0, 0, nil
	case !okX:
		rx = ry
	case !okY:
		ry = rx
	}
	return rx, ry, nil
}

func svgRect(p *svgPen, _ *svgNode, s *svgState) error {
	v, err := s.lengths([]int{svgX, svgY, svgWidth, svgHeight}, []string{"x", "y", "width", "height"})
	if err != nil {
		return err
	}
	rx, ry, err := s.radii()
	if err != nil {
		return err
	}
	x, y, w, h := v[0], v[1], v[2], v[3]
	if w == 0 || h == 0 {
		return nil
	}
	if rx, ry = min(rx, w/2), min(ry, h/2); rx == 0 || ry == 0 {
		return p.through([]orb.Point{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}, true)
	}
	p.move(orb.Point{x + rx, y})
	for i, c := range []orb.Point{{x + w - rx, y + ry}, {x + w - rx, y + h - ry}, {x + rx, y + h - ry}, {x + rx, y + ry}} {
		a := arc{c, orb.Point{rx, 0}, orb.Point{0, ry}, float64(i-1) * math.Pi / 2, float64(i) * math.Pi / 2}
		from := [...]orb.Point{{c[0], y}, {x + w, c[1]}, {c[0], y + h}, {x, c[1]}}[i]
		to := [...]orb.Point{{x + w, c[1]}, {c[0], y + h}, {x, c[1]}, {c[0], y}}[i]
		if err := p.line(from); err != nil {
			return err
		}
		if err := p.round(a, to); err != nil {
			return err
		}
	}
	return p.close()
}

func svgCircle(p *svgPen, _ *svgNode, s *svgState) error {
	v, err := s.lengths([]int{svgCX, svgCY, svgR}, []string{"cx", "cy", "r"})
	if err != nil {
		return err
	}
	return p.ellipse(v[0], v[1], v[2], v[2])
}

func svgEllipse(p *svgPen, _ *svgNode, s *svgState) error {
	v, err := s.lengths([]int{svgCX, svgCY}, []string{"cx", "cy"})
	if err != nil {
		return err
	}
	rx, ry, err := s.radii()
	if err != nil {
		return err
	}
	return p.ellipse(v[0], v[1], rx, ry)
}

// ellipse draws one in a single segment, as nothing of the file ends on its way.
func (p *svgPen) ellipse(x, y, rx, ry float64) error {
	if rx == 0 || ry == 0 {
		return nil
	}
	start := orb.Point{x + rx, y}
	p.move(start)
	a := arc{orb.Point{x, y}, orb.Point{rx, 0}, orb.Point{0, ry}, 0, 2 * math.Pi}
	if err := p.round(a, start); err != nil {
		return err
	}
	return p.close()
}

func svgStraight(p *svgPen, n *svgNode, s *svgState) error {
	var v [4]float64
	for i, name := range []string{"x1", "y1", "x2", "y2"} {
		text, ok := n.attr(name)
		if !ok {
			continue
		}
		l, err := parseSVGLength(text)
		if err == nil {
			v[i], err = l.in(s.whole(i % 2))
		}
		if err != nil {
			return say.Errorf("%s: %w", name, err)
		}
	}
	return p.through([]orb.Point{{v[0], v[1]}, {v[2], v[3]}}, false)
}

// polyline draws the attribute points.
func (p *svgPen) polyline(n *svgNode, closed bool) error {
	text, _ := n.attr("points")
	s := svgScan{text: text}
	if s.space(); s.end() {
		return nil
	}
	v, err := s.numbers(2 * MaxDrawingVertices)
	switch {
	case err != nil:
		return say.Errorf("points: %w", err)
	case !s.end():
		return say.Errorf("points: no number at character %d%s", s.at+1, s.found())
	case len(v)%2 != 0:
		return say.Errorf("points: %d numbers make no pairs", len(v)).Hint("write an x and a y of each point")
	}
	points := make([]orb.Point, len(v)/2)
	for i := range points {
		points[i] = orb.Point{v[2*i], v[2*i+1]}
	}
	return p.through(points, closed)
}

// through draws straight lines from point to point.
func (p *svgPen) through(points []orb.Point, closed bool) error {
	p.move(points[0])
	for _, q := range points[1:] {
		if err := p.line(q); err != nil {
			return err
		}
	}
	if closed {
		return p.close()
	}
	return nil
}
