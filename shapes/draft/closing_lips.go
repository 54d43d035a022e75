package draft

import (
	"fmt"
	"slices"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"yardlay/shapes"
	"yardlay/shapes/plane"
	"yardlay/shapes/say"
)

// lip is an edge that is closed to another one.
type lip struct {
	piece  *shapes.Piece
	edge   shapes.Edge
	line   orb.LineString // that it is closed along, from the top down
	in     orb.Point      // a direction into the piece
	length float64        // finished, mm

	// Where the lip is an edge, and not a line inside: whether it runs up, and what takes up
	// its surplus in the seam, from the top down where the seam does.
	onEdge, up bool
	treatment  shapes.Treatment
}

// lips finds the edges that are closed, and the join that opens at a side; -1 at a centre.
func (c Closing) lips(d Result, out *Closed) ([]lip, int, error) {
	if c.At == OnLeft || c.At == OnRight {
		return c.sideLips(d, out)
	}
	if c.Seam != "" {
		return nil, 0, say.Errorf("seam %q is named, and it opens at the %s", c.Seam, c.At).
			Hint("say at which side it opens, `left` or `right`")
	}
	var all []lip
	for i := range d.Pieces {
		p := &d.Pieces[i]
		for k, e := range p.Edges {
			if !c.closes(e) {
				continue
			}
			l := lip{piece: p, edge: e, onEdge: e.Name != grownOn || len(p.Inside) == 0}
			l.line, l.in = closingLine(*p, k)
			l.up = l.line[0] != e.Line[0]
			l.length = plane.Length(l.line)
			all = append(all, l)
		}
	}
	return all, -1, nil
}

// openingsOf says at which centres a draft opens.
func openingsOf(d Result) say.Text {
	var opens []string
	for _, at := range []string{"centre back", "centre front"} {
		if slices.ContainsFunc(d.Pieces, func(p shapes.Piece) bool {
			return slices.ContainsFunc(p.Edges, Closing{At: at}.closes)
		}) {
			opens = append(opens, at)
		}
	}
	if len(opens) == 0 {
		return say.Textf("it opens at no centre: let it open, or leave the closing out")
	}
	return say.Textf("it opens at the %s", say.InWords(opens, "and"))
}

// sideLips finds both edges of the seam that opens.
func (c Closing) sideLips(d Result, out *Closed) ([]lip, int, error) {
	out.Seam = c.Seam
	if out.Seam == "" {
		out.Seam = SideSeam
	}
	k := slices.IndexFunc(d.Joins, func(j shapes.Join) bool { return j.Name == out.Seam })
	if k < 0 {
		if c.Inner {
			return nil, -1, nil
		}
		return nil, 0, say.Errorf("there is no seam %q to open", out.Seam).Hint("%s", seamsAtSides(d.Joins))
	}
	j := d.Joins[k]
	if len(j.A.Edges) != 1 || len(j.B.Edges) != 1 || j.Times != 2 {
		return nil, 0, say.Errorf("seam %q is not one that is sewn on the left and on the right", j.Name).
			Hint("%s", seamsAtSides(d.Joins))
	}
	var all []lip
	for _, s := range []shapes.JoinSide{j.A, j.B} {
		i := slices.IndexFunc(d.Pieces, func(p shapes.Piece) bool { return p.Name == s.Edges[0].Piece })
		p := &d.Pieces[i]
		n := slices.IndexFunc(p.Edges, func(e shapes.Edge) bool { return e.Name == s.Edges[0].Edge })
		l := lip{piece: p, edge: p.Edges[n], onEdge: true, up: s.Edges[0].Reversed, treatment: s.Treatment}
		var err error
		if _, l.length, err = s.Measure(d.Pieces); err != nil {
			return nil, 0, err
		}
		start, end := p.Edges[(n+len(p.Edges)-1)%len(p.Edges)], p.Edges[(n+1)%len(p.Edges)]
		if l.up {
			start, end = end, start
		}
		if upper(start) < upper(end) {
			return nil, 0, say.Errorf("seam %q runs up to its top, and is opened from there down", j.Name).
				Hint("%s", seamsAtSides(d.Joins))
		}
		if start.Kind == shapes.Waist && end.Kind != shapes.Hem {
			out.From = TheWaist
		}
		l.line = l.edge.Line.Clone()
		if l.up {
			l.line.Reverse()
		}
		_, outward := l.edge.At(l.edge.Length() / 2)
		l.in = orb.Point{-outward[0], -outward[1]}
		all = append(all, l)
	}
	return all, k, nil
}

// seamsAtSides names the seams that are sewn on the left and on the right.
func seamsAtSides(joins []shapes.Join) say.Text {
	var names []string
	for _, j := range joins {
		if j.Times == 2 && len(j.A.Edges) == 1 && len(j.B.Edges) == 1 {
			names = append(names, fmt.Sprintf("%q", j.Name))
		}
	}
	if len(names) == 0 {
		return say.Textf("it has no seam on the left and on the right")
	}
	return say.Textf("one of %s", say.InWords(names, "or"))
}

// closes says whether an edge is one of those that are closed; a facing grown on is that
// of the centre back.
func (c Closing) closes(e shapes.Edge) bool {
	return e.Kind == shapes.Opening &&
		(strings.Contains(e.Name, c.At) || c.At == "centre back" && e.Name == grownOn)
}

// grownOn is the edge of a facing that is grown on at the centre back.
const grownOn = "facing"

// leaveOpen takes the opening out of the seams: a join that opens all along is none, any
// other is left open as far as it is closed. join is that of a side; -1: those of a centre.
func (c Closing) leaveOpen(d *Result, join int, out Closed) {
	opened := shapes.Opened{To: out.Length, For: string(c.By), From: out.From}
	if join >= 0 {
		opened.On = c.At
		d.Joins[join].Opened = opened
		return
	}
	whole := out.Opening-out.Length <= lipsDiffer || c.By == Busk
	d.Joins = slices.DeleteFunc(d.Joins, func(j shapes.Join) bool { return whole && c.opens(*d, j) })
	for i, j := range d.Joins {
		if c.opens(*d, j) {
			d.Joins[i].Opened = opened
		}
	}
}

// opens says whether a join is of edges that are closed.
func (c Closing) opens(d Result, j shapes.Join) bool {
	return len(j.A.Edges) == 1 && slices.ContainsFunc(d.Pieces, func(p shapes.Piece) bool {
		e, ok := p.Edge(j.A.Edges[0].Edge)
		return ok && p.Name == j.A.Edges[0].Piece && c.closes(e)
	})
}

// mark marks the places on a piece: eyelets by crosses, a busk by the line of its inner
// side, all else by strokes in from the edge; and where it stops, by a notch.
func (c Closing) mark(l lip, out Closed) error {
	const stroke = 8 // mm
	if c.Inner || c.Mounted {
		return c.markStop(l, out)
	}
	cut := l.cutAt(out)
	if c.By == Busk {
		var line orb.LineString
		for _, d := range []float64{c.First, c.First + out.Length} {
			line = append(line, l.point(cut(d), out.Inset, 0))
		}
		l.piece.Inside = append(l.piece.Inside, line)
		return nil
	}
	for i := range out.Places {
		at := cut(out.First + float64(i)*out.Pitch)
		switch {
		case c.By == Lacing:
			l.piece.Inside = append(l.piece.Inside, l.cross(at, out.Inset))
			continue
		case out.Stand > 0:
			l.piece.Inside = append(l.piece.Inside, c.hole(l, at))
			continue
		}
		l.piece.Inside = append(l.piece.Inside, orb.LineString{l.point(at, 0, 0), l.point(at, stroke, 0)})
	}
	return c.markStop(l, out)
}

// cutAt turns a finished distance from the top into one along the lip as cut.
func (l lip) cutAt(out Closed) func(d float64) float64 {
	return func(d float64) float64 { return l.treatment.OnCut(d, out.Opening) }
}

// cross marks an eyelet.
func (l lip) cross(at, in float64) orb.LineString {
	const arm = 3 // mm
	return orb.LineString{l.point(at, in-arm, 0), l.point(at, in+arm, 0), l.point(at, in, 0), l.point(at, in, -arm),
		l.point(at, in, arm)}
}

// point is so far down the lip from its top, so far in from it, and so far on along it, mm.
func (l lip) point(down, in, on float64) orb.Point {
	at, normal := shapes.Edge{Line: l.line}.At(down)
	if dot(normal, l.in) < 0 {
		normal = orb.Point{-normal[0], -normal[1]}
	}
	return orb.Point{at[0] + in*normal[0] - on*normal[1], at[1] + in*normal[1] + on*normal[0]}
}

// markStop notches an edge where it is closed no further, at a side on the copy of that
// side.
func (c Closing) markStop(l lip, out Closed) error {
	if !l.onEdge || c.By == Busk || out.Opening-out.Length <= lipsDiffer {
		return nil
	}
	at := l.cutAt(out)(out.Length)
	if l.up {
		at = l.edge.Length() - at
	}
	if err := l.piece.AddNotch(l.edge.Name, at); err != nil {
		return err
	}
	if side := slices.Index([]string{OnLeft, OnRight}, c.At); side >= 0 && l.piece.Pair {
		last := &l.piece.Notches[len(l.piece.Notches)-1]
		last.Copy, last.Of = side+1, 2
	}
	return nil
}

// closingLine is the line of a piece that an opening edge of it is closed along, from its
// top down: the edge, or the fold of a facing grown on, which is the first line inside;
// and a direction into the piece there.
func closingLine(p shapes.Piece, k int) (line orb.LineString, in orb.Point) {
	e := p.Edges[k]
	before, next := p.Edges[(k+len(p.Edges)-1)%len(p.Edges)], p.Edges[(k+1)%len(p.Edges)]
	middle, out := e.At(e.Length() / 2)
	line, in = e.Line.Clone(), orb.Point{-out[0], -out[1]}
	top := line[0]
	if upper(next) > upper(before) {
		top = line[len(line)-1]
	}
	if e.Name == grownOn && len(p.Inside) > 0 {
		line = p.Inside[0].Clone()
		in = sub2(line[0], middle) // away from the facing, its part along the line set aside
		d := sub2(line[len(line)-1], line[0])
		t := dot(in, d) / dot(d, d)
		in = orb.Point{in[0] - t*d[0], in[1] - t*d[1]}
	}
	if planar.Distance(top, line[0]) > planar.Distance(top, line[len(line)-1]) {
		line.Reverse()
	}
	return line, in
}

// upper ranks the neighbours of an opening: the one at its top ranks higher.
func upper(e shapes.Edge) int {
	switch e.Kind {
	case shapes.Top:
		return 3
	case shapes.Waist:
		return 2
	case shapes.Hem:
		return 0
	}
	return 1
}
