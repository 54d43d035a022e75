package outline

import (
	"math"
	"strings"

	"github.com/paulmach/orb"

	"yardlay/shapes/say"
)

// svgPath reads path data (SVG 2, 9.3) and draws it.
type svgPath struct {
	svgScan
	*svgPen
	before  byte      // the command before, in capitals
	control orb.Point // the last control point of a curve, for one that goes on smoothly
}

// path draws the data of a path. It is read to its end or not at all.
func (p *svgPen) path(data string) error {
	d := svgPath{svgScan: svgScan{text: data}, svgPen: p}
	for d.space(); !d.svgScan.end(); d.space() {
		if err := d.command(); err != nil {
			wrong := say.Errorf("path data: %w", err)
			if _, hint := say.Parts(err, nil); hint == "" {
				wrong = wrong.Hint("the file may be damaged: save it again where it was drawn")
			}
			return wrong
		}
	}
	return nil
}

// svgArguments is how many numbers each command takes at a time.
var svgArguments = map[byte]int{'M': 2, 'L': 2, 'H': 1, 'V': 1, 'C': 6, 'S': 4, 'Q': 4, 'T': 2, 'A': 7, 'Z': 0}

// command reads a command with all the numbers that follow, and draws it.
func (d *svgPath) command() error {
	c := d.text[d.svgScan.at]
	capital := c &^ 0x20
	n, ok := svgArguments[capital]
	switch {
	case !ok || c|0x20 < 'a':
		return say.Errorf("no command at character %d%s", d.svgScan.at+1, d.found()).
			Hint("the commands are M, L, H, V, C, S, Q, T, A and Z")
	case d.before == 0 && capital != 'M':
		return say.Errorf("it begins with %c, not with M", c).Hint("a path begins where its first M moves to")
	}
	d.svgScan.at++
	if capital == 'Z' {
		d.before = 'Z'
		return d.svgPen.close()
	}
	relative := c != capital
	for d.space(); ; {
		from := d.svgScan.at
		v, err := d.arguments(capital, n)
		if err != nil {
			return say.Errorf("%c: %w", c, err)
		}
		if err := d.draw(capital, v, relative); err != nil {
			return say.Errorf("%c at character %d: %w", c, from+1, err)
		}
		if d.before = capital; capital == 'M' {
			capital = 'L' // SVG 2, 9.3.3: pairs behind the first are lines
		}
		if between := d.comma(); !between && !d.startsNumber() {
			return nil
		}
	}
}

// arguments reads the numbers of one command. The two flags of an arc are a 0 or a 1
// each, which need no space behind them.
func (d *svgPath) arguments(capital byte, n int) (v [7]float64, err error) {
	for i := range n {
		if i > 0 {
			d.comma()
		}
		if capital == 'A' && (i == 3 || i == 4) {
			switch {
			case d.take('0'):
			case d.take('1'):
				v[i] = 1
			default:
				return v, say.Errorf("a flag, 0 or 1, is missing at character %d%s", d.svgScan.at+1, d.found())
			}
			continue
		}
		if v[i], err = d.number(); err != nil {
			return v, err
		}
	}
	return v, nil
}

// draw draws one command; its numbers are relative to where the pen is, or not.
func (d *svgPath) draw(capital byte, v [7]float64, relative bool) error {
	at := d.svgPen.at
	var from orb.Point
	if relative {
		from = at
	}
	point := func(i int) orb.Point { return orb.Point{from[0] + v[i], from[1] + v[i+1]} }
	reflected := func(after string) orb.Point { // SVG 2, 9.3.6 and 9.3.7
		if strings.IndexByte(after, d.before) < 0 {
			return at
		}
		return orb.Point{2*at[0] - d.control[0], 2*at[1] - d.control[1]}
	}
	switch capital {
	case 'M':
		d.move(point(0))
	case 'L':
		return d.line(point(0))
	case 'H':
		return d.line(orb.Point{from[0] + v[0], at[1]})
	case 'V':
		return d.line(orb.Point{at[0], from[1] + v[0]})
	case 'C':
		d.control = point(2)
		return d.curve(point(0), point(2), point(4))
	case 'S':
		first := reflected("CS")
		d.control = point(0)
		return d.curve(first, point(0), point(2))
	case 'Q':
		d.control = point(0)
		return d.bow(point(0), point(2))
	case 'T':
		d.control = reflected("QT")
		return d.bow(d.control, point(0))
	case 'A':
		to := point(5)
		if a, ok := endpointArc(at, to, v[0], v[1], v[2]*math.Pi/180, v[3] != 0, v[4] != 0); ok {
			return d.round(a, to)
		}
		return d.line(to)
	}
	return nil
}

// endpointArc is the arc of an ellipse of half diameters rx and ry, turned by an angle
// (radians), from one point to another: the longer of two or not, by growing angles or
// not (SVG 1.1, F.6.5 and F.6.6; SVG 2, B.2.4 and B.2.5). It is a straight line, ok false,
// where a half diameter is 0 or the points are one; half diameters that are too short
// grow until they reach.
func endpointArc(p, q orb.Point, rx, ry, turn float64, large, sweep bool) (a arc, ok bool) {
	rx, ry = math.Abs(rx), math.Abs(ry)
	if rx == 0 || ry == 0 || p == q {
		return arc{}, false
	}
	sin, cos := math.Sincos(turn)
	// Halfway between the points, in coordinates along the half diameters (F.6.5.1), with
	// these as units: the ellipse is a circle of radius 1 there.
	hx, hy := (p[0]-q[0])/2, (p[1]-q[1])/2
	x, y := (cos*hx+sin*hy)/rx, (cos*hy-sin*hx)/ry
	half := math.Hypot(x, y)
	if half > 1 {
		rx, ry, x, y = rx*half, ry*half, x/half, y/half
		half = 1
	}
	// The centre lies square to the chord (F.6.5.2).
	away := math.Sqrt(max(0, 1-half*half)) / half
	if large == sweep {
		away = -away
	}
	cx, cy := away*y, -away*x
	a.u, a.v = orb.Point{rx * cos, rx * sin}, orb.Point{-ry * sin, ry * cos}
	a.centre = orb.Point{
		(p[0]+q[0])/2 + a.u[0]*cx + a.v[0]*cy,
		(p[1]+q[1])/2 + a.u[1]*cx + a.v[1]*cy,
	}
	a.from, a.to = math.Atan2(y-cy, x-cx), math.Atan2(-y-cy, -x-cx)
	if sweep && a.to < a.from {
		a.to += 2 * math.Pi
	} else if !sweep && a.to > a.from {
		a.to -= 2 * math.Pi
	}
	return a, true
}
