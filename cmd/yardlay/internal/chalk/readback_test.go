package chalk

import (
	"slices"
	"strings"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"yardlay/cmd/yardlay/internal/sheet"
)

// onCloth is what a drawing holds, brought back to the cloth: x from the cut end, y from the edge.
type onCloth struct {
	k     float64
	texts []sheet.Text
	lines map[sheet.Role][]orb.LineString
	heads []orb.Point // tips of arrows
	rings map[sheet.Role][]orb.Ring
}

// cloth reads a drawing back by the first of its outlines, which is that of a piece or, of a marker, of the cloth.
func cloth(d *sheet.Drawing, corner orb.Point) onCloth {
	first := d.Groups[0].Items[0].(sheet.Shape).Ring[0]
	back := func(p orb.Point) orb.Point {
		return orb.Point{p[0] - first[0] + corner[0], corner[1] - (p[1] - first[1])}
	}
	all := func(ps []orb.Point) []orb.Point {
		out := make([]orb.Point, len(ps))
		for i, p := range ps {
			out[i] = back(p)
		}
		return out
	}
	on := onCloth{k: d.Scale, lines: map[sheet.Role][]orb.LineString{}, rings: map[sheet.Role][]orb.Ring{}}
	for _, g := range d.Groups {
		for _, it := range g.Items {
			switch it := it.(type) {
			case sheet.Text:
				it.At = back(it.At)
				it.Body = strings.ReplaceAll(it.Body, noBreak, " ")
				on.texts = append(on.texts, it)
			case sheet.Line:
				on.lines[it.Role] = append(on.lines[it.Role], all(it.Path))
			case sheet.Shape:
				on.rings[it.Role] = append(on.rings[it.Role], all(it.Ring))
				if it.Role == sheet.RoleDim {
					on.heads = append(on.heads, back(it.Ring[0]))
				}
			}
		}
	}
	return on
}

// has tells whether a line of a role runs between two points, either way.
func (on onCloth) has(role sheet.Role, a, b orb.Point) bool {
	return slices.ContainsFunc(on.lines[role], func(l orb.LineString) bool {
		p, q := l[0], l[len(l)-1]
		return distance(p, a)+distance(q, b) < 1e-6 || distance(p, b)+distance(q, a) < 1e-6
	})
}

// says tells whether a text stands at a point, to so many mm of paper.
func (on onCloth) says(body string, at orb.Point, near float64) bool {
	return slices.ContainsFunc(on.texts, func(w sheet.Text) bool {
		return w.Body == body && distance(w.At, at) <= near*on.k
	})
}

// pieceOf puts an outline into figures and draws it.
func pieceOf(t rapid.TB, tape Tape, o Outline) (Piece, onCloth, *sheet.Drawing) {
	f, err := tape.Figure(o, table)
	if err != nil {
		t.Fatal(err)
	}
	p := Piece{Number: 3, Name: "piece", Outline: o, Figures: f}
	d := p.Sketch(tape, "selvedge", 190, 92)
	return p, cloth(d, o.Cut[0]), d
}

// points are places in mm.
func points(tape Tape, all []Place) (list []orb.Point) {
	for _, v := range all {
		list = append(list, tape.point(v))
	}
	return list
}

// marksOf are the distances along an axis, each once, in order.
func marksOf(all []Place, axis int) (list []Marks) {
	for _, v := range all {
		list = append(list, v[axis])
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// inside fails where a line, a shape or the place of a text leaves its drawing.
func inside(t rapid.TB, d *sheet.Drawing) {
	check := func(ps ...orb.Point) {
		for _, p := range ps {
			if p[0] < -1e-6 || p[1] < -1e-6 || p[0] > d.Width+1e-6 || p[1] > d.Height+1e-6 {
				t.Fatalf("%v lies off a drawing of %v by %v", p, d.Width, d.Height)
			}
		}
	}
	for _, g := range d.Groups {
		for _, it := range g.Items {
			switch it := it.(type) {
			case sheet.Text:
				check(it.At)
			case sheet.Line:
				check(it.Path...)
			case sheet.Shape:
				check(it.Ring...)
			}
		}
	}
}
