package sheet

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"

	"yardlay/shapes/measure"
)

// Shelf is a sheet of what is left of a cloth.
type Shelf struct {
	Title string
	Unit  measure.Unit // of the scale bar
	Left  []Left
}

// Left is one leftover.
type Left struct {
	Name  string
	Notes []string
	Ring  orb.Ring   // mm, x along the grain
	Flaws []orb.Ring // in it
}

// Drawing draws the sheet: leftovers in the order given, in rows, all at one scale.
func (s Shelf) Drawing() Drawing {
	k := 1.0
	for _, l := range s.Left {
		b := l.Ring.Bound()
		k = max(k, (b.Max[0]-b.Min[0])/pieceLong, (b.Max[1]-b.Min[1])/pieceWide)
	}
	k = math.Ceil(k)
	width := sheetWidth * k
	head := &column{x: margin * k, y: margin * k, width: width - 2*margin*k}
	head.add(RoleHeading, textHeading*k, s.Title)
	head.add(RoleNote, textNote*k, fmt.Sprintf("1 : %.0f · arrow: along the grain, the way the nap runs", k))
	groups := []Group{{Items: head.items}}
	x, y, row := margin*k, head.y+4*k, 0.0
	for _, l := range s.Left {
		w := max(l.Ring.Bound().Max[0]-l.Ring.Bound().Min[0], l.leastWidth(k))
		if x > margin*k && x+w > width-margin*k {
			x, y, row = margin*k, y+row+8*k, 0
		}
		items, height := l.cell(x, y, w, k)
		groups = append(groups, Group{Title: l.Name, Items: items})
		x, row = x+w+8*k, max(row, height)
	}
	y += row + 8*k
	groups = append(groups, Group{Items: scaleBar(orb.Point{marginLeft * k, y}, k, s.Unit)})
	return Drawing{
		Title: "Shelf: " + s.Title, Description: fmt.Sprintf("What is left: %d outlines.", len(s.Left)),
		Width: width, Height: y + 6*k + margin*k, Scale: k, Groups: groups,
	}
}

// leastWidth is what the words over a leftover take.
func (l Left) leastWidth(k float64) float64 {
	w := textWidth(l.Name, textNote*k)
	for _, n := range l.Notes {
		w = max(w, textWidth(n, textDim*k))
	}
	return w * 1.1
}

// cell draws one from its top left corner, its words over it; it returns its height.
func (l Left) cell(x, y, width, k float64) ([]Item, float64) {
	c := &column{x: x, y: y, width: width}
	c.add(RoleHeading, textNote*k, l.Name)
	for _, n := range l.Notes {
		c.add(RoleNote, textDim*k, n)
	}
	top := c.y + k
	b := l.Ring.Bound()
	onto := func(r orb.Ring) orb.Ring {
		out := make(orb.Ring, len(r))
		for i, v := range r {
			out[i] = orb.Point{x + v[0] - b.Min[0], top + b.Max[1] - v[1]}
		}
		return out
	}
	ring := onto(l.Ring)
	items := append(c.items, Shape{Role: RoleCloth, Ring: ring}, Line{RoleEdge, orb.LineString(ring)})
	for _, f := range l.Flaws {
		items = append(items, Shape{Role: RoleFlaw, Ring: onto(f)})
		items = append(items, hatched(RoleFlaw, onto(f), flawStep*k, 45, -45)...)
	}
	below := top + b.Max[1] - b.Min[1] + 3*k
	items = append(items, arrow(RoleGrain, orb.Point{x, below}, orb.Point{x + 12*k, below}, 1.6*k, false)...)
	return items, below + k - y
}
