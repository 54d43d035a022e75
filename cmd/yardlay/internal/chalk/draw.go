package chalk

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/plane"
)

// Sizes on paper, mm.
const (
	numberSize  = 2.6 // of points
	figureSize  = 2.3 // of distances
	figureRoom  = 20.0
	freeEdge    = 7.0
	axisAway    = 4.6 // that the row of figures begins beside a piece
	nearPoint   = 2.4 // from a point to its number
	headSize    = 1.8
	closestRows = 2.7 // that two figures stand by each other
	roomBeyond  = 5.0 // for figures beyond the ends of an axis
)

// canvas draws in paper's scale: x to the right from the cut end, y up from the edge.
type canvas struct {
	k      float64   // mm of cloth for one of paper
	origin orb.Point // where (0, 0) of the cloth lies in the drawing
	items  []sheet.Item
}

func (c *canvas) at(p orb.Point) orb.Point {
	return orb.Point{c.origin[0] + p[0], c.origin[1] - p[1]}
}

func (c *canvas) add(items ...sheet.Item) { c.items = append(c.items, items...) }

func (c *canvas) line(role sheet.Role, points ...orb.Point) {
	var path orb.LineString
	for _, p := range points {
		path = append(path, c.at(p))
	}
	c.add(sheet.Line{Role: role, Path: path})
}

// text writes at a point of the drawing.
func (c *canvas) text(role sheet.Role, p orb.Point, anchor sheet.Anchor, size, turn float64, body string) {
	c.add(sheet.Text{Role: role, At: p, Anchor: anchor, Size: size * c.k, Turn: turn, Body: body})
}

// piece draws an outline with what is marked on it, and the numbers of its points.
func (c *canvas) piece(t Tape, p Piece, tint int) {
	ring := make(orb.Ring, len(p.Outline.Cut))
	for i, v := range p.Outline.Cut {
		ring[i] = c.at(v)
	}
	c.add(sheet.Shape{Role: sheet.RolePiece, Ring: ring, Tint: tint})
	for _, in := range p.Outline.Inside {
		c.line(sheet.RoleInside, in.Line...)
	}
	for i, n := range p.Outline.Notches {
		s := p.Figures.Outline[p.Figures.Notches[i].Stroke]
		out := outward(t.Path(p.Figures, s), n)
		reach := 1.2 * c.k
		c.line(sheet.RoleNotch, orb.Point{n[0] - reach*out[0], n[1] - reach*out[1]},
			orb.Point{n[0] + reach*out[0], n[1] + reach*out[1]})
	}
	for _, s := range p.Figures.Spots {
		c.cross(t.point(s.At))
	}
}

// numbers writes the numbers of points beside them, and marks pivots. Beside others they
// stand inside the outline, without those of marks and of points close by, and pivots say
// which piece they are of.
func (c *canvas) numbers(t Tape, p Piece, others bool) {
	f := p.Figures
	for _, v := range f.Pivots {
		c.cross(t.point(v))
	}
	middle, _ := planar.CentroidArea(p.Outline.Cut)
	of := ""
	if others {
		of = fmt.Sprintf(" of %d", p.Number)
	}
	var written []orb.Point
	for i, place := range f.Places {
		v := t.point(place)
		if others && (i >= f.corners() || slices.ContainsFunc(written, func(w orb.Point) bool {
			return distance(v, w) < 1.2*numberSize*c.k
		})) {
			continue
		}
		written = append(written, v)
		dir := c.awayFrom(p.Outline.Cut, v, middle, others)
		at := c.at(orb.Point{v[0] + dir[0]*nearPoint*c.k, v[1] + dir[1]*nearPoint*c.k})
		c.text(sheet.RoleHeading, at, sheet.Middle, numberSize, 0, strconv.Itoa(i+1))
	}
	for i, place := range f.Pivots {
		v := c.at(t.point(place))
		c.text(sheet.RoleNote, orb.Point{v[0] + 0.4*nearPoint*c.k, v[1] - 0.8*nearPoint*c.k}, sheet.Start, numberSize,
			0,
			f.PivotLabel(i)+of)
	}
}

// awayFrom is the direction from a point of an outline in which there is most room, inside
// it or outside.
func (c *canvas) awayFrom(ring orb.Ring, v, middle orb.Point, inside bool) orb.Point {
	best, room := orb.Point{0, 1}, -1.0
	for i := range 8 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 4)
		at := orb.Point{v[0] + cos*nearPoint*c.k, v[1] + sin*nearPoint*c.k}
		if planar.RingContains(ring, at) != inside {
			continue
		}
		free, _ := toLine(at, ring, 0, room*1.05)
		if free > room*1.05 {
			best, room = orb.Point{cos, sin}, free
		}
	}
	if room < 0 { // a sliver: away from its middle
		if d := distance(middle, v); d > 0 {
			best = orb.Point{(v[0] - middle[0]) / d, (v[1] - middle[1]) / d}
		}
	}
	return best
}

// cross marks a point.
func (c *canvas) cross(v orb.Point) {
	r := 1.2 * c.k
	c.line(sheet.RoleMatch, orb.Point{v[0] - r, v[1]}, orb.Point{v[0] + r, v[1]})
	c.line(sheet.RoleMatch, orb.Point{v[0], v[1] - r}, orb.Point{v[0], v[1] + r})
}

// outward is the unit vector across a line near a point, to its right.
func outward(line []orb.Point, p orb.Point) orb.Point {
	_, i := toLine(p, line, 0, 0)
	a, b := line[i], line[min(i+1, len(line)-1)]
	if d := distance(a, b); d > 0 {
		return orb.Point{(b[1] - a[1]) / d, -(b[0] - a[0]) / d}
	}
	return orb.Point{}
}

// scale is that at which a marker, cut into bands if it is long, stands on paper of a height: as large as the width of
// the cloth allows.
func (m Marker) scale(height float64) float64 { return m.Cloth.Max[1] / (height - 2*freeEdge) }

// Overview draws the whole marker on paper of a width and height at the most, mm.
func (m Marker) Overview(t Tape, width, height float64) *sheet.Drawing {
	return m.overview(t, math.Max(m.Used/(width-figureRoom/2-freeEdge), m.Cloth.Max[1]/(height-2*freeEdge)))
}

// overview draws the whole marker, k mm of cloth as one of paper.
func (m Marker) overview(t Tape, k float64) *sheet.Drawing {
	length := math.Max(m.Used, 1)
	c := &canvas{k: k}
	c.origin = orb.Point{(figureRoom / 2) * k, freeEdge*k + m.Cloth.Max[1]}
	c.add(sheet.Shape{Role: sheet.RoleCloth, Ring: sheet.Box(c.origin[0], freeEdge*k, c.origin[0]+length, c.origin[1])})
	for _, flaw := range m.Flaws {
		c.flaw(flaw, length)
	}
	for i, p := range m.Pieces {
		c.piece(t, p, i)
	}
	var pivots []orb.Point
	for _, p := range m.Pieces {
		for _, v := range p.Figures.Pivots {
			pivots = append(pivots, t.point(v))
		}
	}
	for _, p := range m.Pieces {
		c.numbers(t, p, true)
		at := c.at(roomiest(p.Outline.Cut, pivots))
		c.text(sheet.RoleHeading, at, sheet.Middle, 2*numberSize, 0, strconv.Itoa(p.Number))
	}
	role := sheet.RoleEdge
	if m.Edge == "fold" {
		role = sheet.RoleFoldEdge
	}
	c.line(role, orb.Point{}, orb.Point{length, 0})
	c.line(sheet.RoleEdge, orb.Point{}, orb.Point{0, m.Cloth.Max[1]}, orb.Point{length, m.Cloth.Max[1]})
	mid := (freeEdge*k + c.origin[1]) / 2
	c.text(sheet.RoleNote, orb.Point{c.origin[0] - 3*k, mid}, sheet.Middle, figureSize, 90, "cut end")
	end := c.at(orb.Point{length, 0})
	c.text(sheet.RoleNote, orb.Point{c.origin[0], end[1] + 3*k}, sheet.Start, figureSize, 0,
		m.Edge+": across is measured from here")
	c.text(sheet.RoleNote, orb.Point{end[0], end[1] + 3*k}, sheet.End, figureSize, 0,
		"last line at "+t.Show(t.Round(m.Used)))
	return &sheet.Drawing{Title: "Marker to be drawn with chalk", Description: fmt.Sprintf("%d pieces", len(m.Pieces)),
		Width: length + (figureRoom/2+freeEdge)*k, Height: m.Cloth.Max[1] + (2*freeEdge)*k, Scale: k,
		Groups: []sheet.Group{{Items: c.items}}}
}

// flaw draws what of a flaw lies before the end of what is drawn.
func (c *canvas) flaw(flaw orb.Ring, length float64) {
	var ring orb.Ring
	for _, v := range flaw {
		ring = append(ring, c.at(orb.Point{math.Min(v[0], length), v[1]}))
	}
	c.add(sheet.Shape{Role: sheet.RoleFlaw, Ring: ring})
	b := plane.Bounds(flaw)
	c.line(sheet.RoleFlaw, b.Min, orb.Point{math.Min(b.Max[0], length), b.Max[1]})
}

// roomiest is the point of a grid in a ring that lies farthest from it, and from some points.
func roomiest(ring orb.Ring, clear []orb.Point) orb.Point {
	b, room := plane.Bounds(ring), -1.0
	best, _ := planar.CentroidArea(ring)
	const n = 12
	for i := 1; i < n; i++ {
		for j := 1; j < n; j++ {
			p := orb.Point{b.Min[0] + float64(i)/n*(b.Max[0]-b.Min[0]), b.Min[1] + float64(j)/n*(b.Max[1]-b.Min[1])}
			if !planar.RingContains(ring, p) {
				continue
			}
			free, _ := toLine(p, ring, 0, room)
			for _, v := range clear {
				free = math.Min(free, distance(p, v))
			}
			if free > room {
				best, room = p, free
			}
		}
	}
	return best
}
