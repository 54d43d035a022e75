package chalk

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"yardlay/cmd/yardlay/internal/sheet"
	"yardlay/shapes/plane"
)

// Sketch draws a piece by itself with all its dimensions, on paper of a width and height
// at the most, mm: distances from the cut end below, from the edge at the left, both
// running, each with a line to its point.
func (p Piece) Sketch(t Tape, edge string, width, height float64) *sheet.Drawing {
	b := plane.Bounds(p.Outline.Cut)
	for _, v := range append(slices.Clone(p.Figures.Places), p.Figures.Pivots...) {
		b = b.Extend(t.point(v))
	}
	w, h := b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]
	k := math.Max(w/(width-figureRoom-freeEdge), h/(height-figureRoom-freeEdge))
	c := &canvas{k: k, origin: orb.Point{figureRoom*k - b.Min[0], freeEdge*k + b.Max[1]}}
	c.piece(t, p, p.Number)
	c.running(t, p, b, edge)
	for _, s := range p.Figures.Outline {
		c.stroke(t, p.Figures, s)
	}
	for _, m := range p.Figures.Marks {
		for _, s := range m.Strokes {
			c.stroke(t, p.Figures, s)
		}
	}
	c.numbers(t, p, false)
	return &sheet.Drawing{Title: p.Title(), Description: "to be drawn with chalk", Width: w + (figureRoom+freeEdge)*k,
		Height: h + (figureRoom+freeEdge)*k, Scale: k, Groups: []sheet.Group{{Title: p.Title(), Items: c.items}}}
}

// running draws the running dimensions of all points (ISO 129-1, from a common origin).
func (c *canvas) running(t Tape, p Piece, b orb.Bound, edge string) {
	points := append(slices.Clone(p.Figures.Places), p.Figures.Pivots...)
	for axis := range 2 {
		slices.SortFunc(points, func(a, b Place) int { return cmp.Compare(a[axis], b[axis]) })
		var marks []Marks
		var far []orb.Point // the farthest point from the axis of each
		for _, v := range points {
			if n := len(marks); n > 0 && marks[n-1] == v[axis] {
				if pt := t.point(v); pt[1-axis] > far[n-1][1-axis] {
					far[n-1] = pt
				}
				continue
			}
			marks, far = append(marks, v[axis]), append(far, t.point(v))
		}
		at := make([]float64, len(marks))
		for i, m := range marks {
			at[i] = t.MM(m)
		}
		row := within(spread(at, closestRows*c.k), b.Min[axis]-roomBeyond*c.k, b.Max[axis]+roomBeyond*c.k,
			closestRows*c.k)
		c.axis(axis, b, marks, row, far, t)
	}
	low := c.at(b.Min)
	c.text(sheet.RoleNote, orb.Point{low[0], low[1] + (figureRoom-1.5)*c.k}, sheet.Start, figureSize, 0,
		"from the cut end")
	c.text(sheet.RoleNote, orb.Point{low[0] - (figureRoom-1.5)*c.k, low[1]}, sheet.Start, figureSize, 90, "from the "+
		edge)
}

// axis writes the distances along one axis, each from its place in the row to the point.
// Without a row those are left out that have no room where they are: the table has them.
func (c *canvas) axis(axis int, b orb.Bound, marks []Marks, row []float64, far []orb.Point, t Tape) {
	line := b.Min[1-axis] - axisAway*c.k
	place := func(along, across float64) orb.Point {
		if axis == 0 {
			return orb.Point{along, across}
		}
		return orb.Point{across, along}
	}
	c.line(sheet.RoleDim, place(b.Min[axis], line), place(b.Max[axis], line))
	last := math.Inf(-1)
	for i, m := range marks {
		v := t.MM(m)
		c.line(sheet.RoleHatch, far[i], place(v, line))
		if row == nil && v < last+closestRows*c.k {
			continue
		}
		last = v
		if row != nil {
			v = row[i]
		}
		c.line(sheet.RoleDim, place(t.MM(m), line), place(v, line-2*c.k))
		anchor, turn := sheet.End, 0.0
		if axis == 0 {
			turn = 90
		}
		c.text(sheet.RoleNote, c.at(place(v, line-2.6*c.k)), anchor, figureSize, turn, t.Show(m))
	}
}

// spread moves values in order apart until they are at least a gap from each other,
// each as little as that takes.
func spread(at []float64, gap float64) []float64 {
	out := slices.Clone(at)
	// Blocks of values that touch lie about the mean of where they belong.
	type block struct {
		sum, first float64
		n          int
	}
	var blocks []block
	for _, v := range at {
		b := block{v, v, 1}
		b.first = v
		for len(blocks) > 0 {
			last := blocks[len(blocks)-1]
			if last.first+float64(last.n)*gap <= b.first {
				break
			}
			joined := block{sum: last.sum + b.sum, n: last.n + b.n}
			joined.first = joined.sum/float64(joined.n) - gap*float64(joined.n-1)/2
			b, blocks = joined, blocks[:len(blocks)-1]
		}
		blocks = append(blocks, b)
	}
	i := 0
	for _, b := range blocks {
		for n := range b.n {
			out[i] = b.first + float64(n)*gap
			i++
		}
	}
	return out
}

// within moves values that stand a gap apart between two ends; nil where they do not fit.
func within(row []float64, low, high, gap float64) []float64 {
	n := len(row) - 1
	if low+float64(n)*gap > high {
		return nil
	}
	for i := range row {
		row[i] = math.Max(row[i], low+float64(i)*gap)
	}
	for i := range row {
		row[i] = math.Min(row[i], high-float64(n-i)*gap)
	}
	return row
}

// stroke draws the dimension of one stroke: its length, its string, or where it is
// measured off.
func (c *canvas) stroke(t Tape, f Figures, s Stroke) {
	path := t.Path(f, s)
	switch s.Kind {
	case Straight, OnFold:
		a, b := path[0], path[len(path)-1]
		text := t.Show(f.chord(t, s))
		if s.Kind == OnFold {
			text = "fold, " + text
			c.line(sheet.RoleFoldEdge, a, b)
		}
		if distance(a, b) > (float64(len(text))*figureSize*0.62+6)*c.k {
			c.along(a, b, text)
		}
	case Arc, Circle:
		centre := t.point(f.Pivots[s.Pivot])
		end := path[len(path)/2]
		c.add(sheet.Arrow(sheet.RoleDim, c.at(centre), c.at(end), headSize*c.k, false)...)
		text := t.Show(s.Radius)
		if t.MM(s.Radius) > (float64(len(text))*figureSize*0.62+6)*c.k {
			c.along(between(centre, end, 0.45), between(centre, end, 0.75), text)
		}
	case Off:
		a, b := path[0], path[len(path)-1]
		c.line(sheet.RoleDim, a, b)
		for i := 1; i < len(path)-1; i++ {
			share := t.MM(s.Step) * float64(i) / distance(a, b)
			c.line(sheet.RoleDim, between(a, b, share), path[i])
		}
		if text := fmt.Sprintf("every %s", t.Show(s.Step)); distance(a, b) > 30*c.k {
			c.along(a, b, text)
		}
	}
}

// along writes a text along a line, on its left, so that it is read from below or from
// the right.
func (c *canvas) along(a, b orb.Point, body string) {
	length := distance(a, b)
	mid := between(a, b, 0.5)
	turn := math.Atan2(b[1]-a[1], b[0]-a[0]) * 180 / math.Pi
	at := orb.Point{mid[0] - (b[1]-a[1])/length*1.8*c.k, mid[1] + (b[0]-a[0])/length*1.8*c.k}
	if turn > 90.5 || turn <= -89.5 {
		turn += 180
	}
	c.text(sheet.RoleNote, c.at(at), sheet.Middle, figureSize, math.Remainder(turn, 360), body)
}
